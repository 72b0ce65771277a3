/* What the files that make up the window share. */
#pragma once

#include "ui/detail-pane.h"
#include "ui/findings-button.h"
#include "ui/status-line.h"
#include "ui/tray.h"
#include "ui/window.h"
#include "ui/work-pane.h"

G_BEGIN_DECLS

struct _OddWindow
{
  AdwApplicationWindow parent_instance;
  GSettings *settings;         /* or NULL */
  OddDocument *document;
  OddSelection *selection;
  OddKeeper *keeper;
  OddCanvas *canvas;
  int unit;
  guint textile_id;
  char *stage;
  guint in_hand;
  int width;                   /* as last laid out; decides what is folded */
  guint fold_idle;
  guint fresh_idle;            /* set from an edit until the main loop has come round */
  gboolean carried;            /* a mouse carries a scrap from the tray */
  gboolean carried_inside;     /* and is over the canvas */
  gboolean called_off;         /* and it was put back by key meanwhile */
  gboolean closing;            /* asked and answered */

  AdwToastOverlay *toasts;
  GtkWidget *undo_button;
  GtkWidget *redo_button;
  GtkLabel *job_title;
  GtkWidget *print_button;
  GtkToggleButton *detail_button;
  AdwSqueezer *title_squeezer;
  GtkWidget *switcher;
  GtkWidget *slim_switcher;
  GtkWidget *page_head;
  AdwWindowTitle *window_title;
  AdwViewStack *stages;
  AdwViewSwitcherBar *switcher_bar;
  GtkRevealer *info_revealer;
  GtkLabel *info_text;
  GtkWidget *info_action;
  GtkWidget *info_dismiss;
  AdwFlap *left_flap;
  AdwFlap *right_flap;
  OddTray *tray;
  OddTray *page_tray;
  OddTray *strip_tray;
  GtkStack *center;
  GtkOverlay *table;
  GtkStack *right_stack;
  OddDetailPane *detail;
  OddWorkPane *work;
  OddStatusLine *status;
  GMenu *recent_menu;
};

/* window.c */
void odd_window_take_scrap (OddWindow *self, OddId scrap_id);
/* window-actions.c */
void odd_window_install_actions (GtkWidgetClass *widget_class);
void odd_window_update_actions (OddWindow *self);
/* Once the canvas is there. */
void odd_window_add_looks (OddWindow *self);
/* window-change.c */
void odd_window_install_change_actions (GtkWidgetClass *widget_class);
void odd_window_update_change_actions (OddWindow *self);
/* window-files.c */
void odd_window_install_file_actions (GtkWidgetClass *widget_class);
void odd_window_fill_recent (OddWindow *self);
gboolean odd_window_ask_before_closing (OddWindow *self);      /* TRUE: do not close now */
void odd_window_dropped_file (OddWindow *self, GFile *file);
void odd_window_changed_outside (OddWindow *self);
void odd_window_reload (OddWindow *self);
/* window-layout.c */
void odd_window_fold (OddWindow *self);
void odd_window_show_stage (OddWindow *self);
gboolean odd_window_is_narrow (OddWindow *self);

G_END_DECLS
