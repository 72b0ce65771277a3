/* The same work from a terminal. Nothing here needs a display, and GTK is never started. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Exit statuses of every command. */
#define ODD_EXIT_DONE 0          /* an unsound job can still be reported */
#define ODD_EXIT_FINDINGS 1
#define ODD_EXIT_BAD 2           /* bad usage or bad input; one line on standard error says what, where, and what to do */

/*
 * odd_command_is_meant:
 *
 * Is this command line for the terminal? It is when it begins with a command, --help or --version, and also when its first word
 * is neither an option nor a file that is there, and looks like a command that was mistyped.
 */
gboolean odd_command_is_meant (int argc, char **argv);

/* Runs the command line. Returns: the exit status */
int odd_command_main (int argc, char **argv);

G_END_DECLS
