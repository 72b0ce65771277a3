/* The window: one canvas that stays, what lies round it changes with the stage of the job. */
#pragma once

#include <adwaita.h>
#include "ui/canvas.h"
#include "ui/keeper.h"

G_BEGIN_DECLS

#define ODD_TYPE_WINDOW (odd_window_get_type ())
G_DECLARE_FINAL_TYPE (OddWindow, odd_window, ODD, WINDOW, AdwApplicationWindow)

/* Properties: document, selection (read only), unit (int), textile-id (guint), stage (string), in-hand (guint, read only). */
OddWindow *odd_window_new (GtkApplication *application, GSettings *settings);
OddDocument *odd_window_get_document (OddWindow *self);        /* (transfer none) */
OddSelection *odd_window_get_selection (OddWindow *self);      /* (transfer none) */
OddKeeper *odd_window_get_keeper (OddWindow *self);            /* (transfer none) */
OddCanvas *odd_window_get_canvas (OddWindow *self);            /* (transfer none) */
void odd_window_set_stage (OddWindow *self, const char *stage);
/* Untouched and empty: another job may be opened in it. */
gboolean odd_window_is_unused (OddWindow *self);
void odd_window_open (OddWindow *self, GFile *file);
void odd_window_recover (OddWindow *self, const char *autosave_path, const char *original_path, const char *autosave_id);

G_END_DECLS
