/* The window library begins here. */
typedef int odd_ui_placeholder;
