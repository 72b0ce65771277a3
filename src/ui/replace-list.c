#include "config.h"

#include "ui/replace-list.h"

#include <glib/gi18n.h>

#include "piecing/refit.h"
#include "ui/scrap-picture.h"
#include "ui/scrap-row.h"

#define PICTURE_PX 44.0
#define MOST_ROWS 60u               /* the best; who wants another one takes it from the tray */

typedef struct
{
  OddJob *job;
  OddId leaf_id;
  int unit;
} Question;

static void
question_free (Question *question)
{
  odd_job_unref (question->job);
  g_free (question);
}

static void
work_cb (GTask        *task,
         gpointer      source,
         gpointer      data,
         GCancellable *cancellable)
{
  Question *question = data;
  GArray *found = odd_refit_which (question->job, question->leaf_id, cancellable);

  if (found == NULL)
    g_task_return_error_if_cancelled (task);
  else
    g_task_return_pointer (task, found, (GDestroyNotify) g_array_unref);
}

static GtkWidget *
new_row (const Question *question,
         OddScrap       *scrap,
         OddThumbnails  *thumbnails)
{
  g_autoptr(OddScrapRow) facts = odd_scrap_row_new (question->job, scrap, ODD_SCRAP_FREE);
  g_autofree char *title = g_strdup_printf (_("Scrap %u"), scrap->number);
  g_autofree char *size = odd_scrap_row_dup_size (facts, question->unit);
  g_autofree char *subtitle = g_markup_printf_escaped ("%s · %s", size, odd_scrap_row_get_cloth (facts));
  GtkWidget *row = adw_action_row_new ();
  GtkWidget *picture = g_object_new (ODD_TYPE_SCRAP_PICTURE, "valign", GTK_ALIGN_CENTER, NULL);

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), subtitle);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), TRUE);
  g_object_set_data (G_OBJECT (row), "scrap", GUINT_TO_POINTER (scrap->id));
  gtk_widget_set_size_request (picture, PICTURE_PX, PICTURE_PX);
  odd_scrap_picture_show (ODD_SCRAP_PICTURE (picture), thumbnails, question->job, scrap);
  adw_action_row_add_prefix (ADW_ACTION_ROW (row), picture);
  return row;
}

static GtkWidget *
new_label (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 30);
  gtk_widget_set_margin_start (label, 12);
  gtk_widget_set_margin_end (label, 12);
  gtk_widget_set_margin_top (label, 12);
  gtk_widget_set_margin_bottom (label, 12);
  return label;
}

/* Not as an action of the row: with one, a list tells nobody that a row was activated, and the popover would stay. */
static void
activated_cb (GtkPopover    *popover,
              GtkListBoxRow *row,
              GtkListBox    *list)
{
  const guint leaf_id = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (list), "leaf"));
  const guint scrap_id = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (row), "scrap"));

  gtk_popover_popdown (popover);
  gtk_widget_activate_action (GTK_WIDGET (popover), "win.replace", "(uu)", leaf_id, scrap_id);
}

static GtkWidget *
new_list (GtkPopover     *popover,
          const Question *question,
          GArray         *found)
{
  GtkWidget *list = gtk_list_box_new ();
  GtkWidget *scrolled = gtk_scrolled_window_new ();
  OddThumbnails *thumbnails = odd_thumbnails_new (odd_swatches_get_shared ());
  double largest_mm = 1.0;

  for (guint i = 0; i < MIN (found->len, MOST_ROWS); i++)
    {
      const OddBox box = odd_scrap_get_box (odd_job_get_scrap (question->job, g_array_index (found, OddId, i)));

      largest_mm = MAX (largest_mm, MAX (box.width, box.height));
    }
  odd_thumbnails_set_scale (thumbnails, PICTURE_PX / largest_mm, gtk_widget_get_scale_factor (GTK_WIDGET (popover)));
  g_object_set_data_full (G_OBJECT (list), "thumbnails", thumbnails, g_object_unref);
  for (guint i = 0; i < MIN (found->len, MOST_ROWS); i++)
    gtk_list_box_append (GTK_LIST_BOX (list), new_row (question, odd_job_get_scrap (question->job, g_array_index (found, OddId, i)), thumbnails));
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (list), GTK_SELECTION_NONE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (list), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Scraps that fit"), -1);
  g_object_set_data (G_OBJECT (list), "leaf", GUINT_TO_POINTER (question->leaf_id));
  g_signal_connect_object (list, "row-activated", G_CALLBACK (activated_cb), popover, G_CONNECT_SWAPPED);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scrolled), 360);
  gtk_widget_set_size_request (scrolled, 250, -1);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), list);
  return scrolled;
}

static void
found_cb (GObject      *source,
          GAsyncResult *result,
          gpointer      data)
{
  GtkPopover *popover = GTK_POPOVER (source);
  g_autoptr(GArray) found = g_task_propagate_pointer (G_TASK (result), NULL);

  if (found == NULL)
    return;
  if (found->len == 0)
    gtk_popover_set_child (popover, new_label (_("No free scrap is large enough. Cut the patch in two, or move a seam.")));
  else
    gtk_popover_set_child (popover, new_list (popover, g_task_get_task_data (G_TASK (result)), found));
  /* what came after the list was opened must still be within reach of the arrow keys */
  gtk_widget_child_focus (GTK_WIDGET (popover), GTK_DIR_TAB_FORWARD);
}

static void
cancel_cb (GCancellable *cancellable)
{
  g_cancellable_cancel (cancellable);
}

GtkWidget *
odd_replace_list_new (OddJob *job,
                      OddId   leaf_id,
                      int     unit)
{
  GtkWidget *popover = gtk_popover_new ();
  GtkWidget *spinner = gtk_spinner_new ();
  g_autoptr(GCancellable) cancellable = g_cancellable_new ();
  g_autoptr(GTask) task = g_task_new (popover, cancellable, found_cb, NULL);
  Question *question = g_new0 (Question, 1);

  question->job = odd_job_ref (job);
  question->leaf_id = leaf_id;
  question->unit = unit;
  gtk_spinner_start (GTK_SPINNER (spinner));
  gtk_widget_set_size_request (spinner, 44, 44);
  gtk_popover_set_child (GTK_POPOVER (popover), spinner);
  gtk_accessible_update_property (GTK_ACCESSIBLE (popover), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Scraps that fit"), -1);
  g_signal_connect_object (popover, "closed", G_CALLBACK (cancel_cb), cancellable, G_CONNECT_SWAPPED);
  g_task_set_task_data (task, question, (GDestroyNotify) question_free);
  g_task_run_in_thread (task, work_cb);
  return popover;
}
