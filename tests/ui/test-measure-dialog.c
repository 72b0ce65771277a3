#include "config.h"

/* Measuring and bringing unequal panels together: answers as it is typed, questions before what is doubtful, and what then stands in the job. */
#include <adwaita.h>

#include "cloth/measured.h"
#include "ui/length-entry.h"
#include "ui/measure-dialog.h"
#include "ui/remedy-dialog.h"
#include "ui/size-rows.h"
#include "../cloth/trees.h"
#include "widgets.h"

#define PATIENCE_S 20

typedef struct
{
  OddDocument *document;
  OddId panel_id, short_id;
  GtkWidget *window;
  GtkWidget *dialog;
} Fixture;

/* Two columns, 12 and 5 patches of 120 mm cut with 12.7 mm seams; the first sewn but for its last seam. */
static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  OddJob *job = odd_job_new ();
  const OddId textile_id = first_textile (job)->id;
  const OddState done = ODD_STATE_DONE;
  g_autoptr(OddProgress) progress = odd_progress_new (&done, NULL, 1);

  take (&job, add_squares (job, textile_id, 1, 12, 94.6, &fixture->panel_id));
  take (&job, add_squares (job, textile_id, 1, 12, 94.0, &fixture->short_id));
  for (guint i = 0; i < 10; i++)
    take (&job, odd_job_set_progress (job, odd_job_get_panel (job, fixture->panel_id, NULL, NULL)->root->seams[i].id, progress, NULL));
  fixture->document = odd_document_new (job);
  odd_job_unref (job);
  fixture->window = gtk_window_new ();
  gtk_window_present (GTK_WINDOW (fixture->window));
  if (data == NULL)
    odd_measure_dialog_present (fixture->window, fixture->document, fixture->panel_id, ODD_UNIT_CM);
  else
    odd_remedy_dialog_present (fixture->window, fixture->document, textile_id, ODD_UNIT_CM);
  fixture->dialog = newest_window (fixture->window, NULL);
  g_assert_nonnull (fixture->dialog);
  g_object_add_weak_pointer (G_OBJECT (fixture->dialog), (gpointer *) &fixture->dialog);
}

static void
wait_gone (Fixture *fixture)
{
  const gint64 end = g_get_monotonic_time () + PATIENCE_S * G_USEC_PER_SEC;

  while (fixture->dialog != NULL && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_null (fixture->dialog);
}

static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  if (fixture->dialog != NULL)
    gtk_window_destroy (GTK_WINDOW (fixture->dialog));
  gtk_window_destroy (GTK_WINDOW (fixture->window));
  wait_gone (fixture);
  g_assert_finalize_object (fixture->document);
}

static gpointer
part (Fixture    *fixture,
      const char *name)
{
  GObject *child = gtk_widget_get_template_child (fixture->dialog, G_OBJECT_TYPE (fixture->dialog), name);

  g_assert_nonnull (child);
  return child;
}

static void
type (Fixture    *fixture,
      const char *entry,
      const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (part (fixture, entry)), text);
}

static const char *
title_of (Fixture    *fixture,
          const char *row)
{
  return adw_preferences_row_get_title (part (fixture, row));
}

static const char *
subtitle_of (Fixture    *fixture,
             const char *row)
{
  return adw_action_row_get_subtitle (part (fixture, row));
}

static OddJob *
job_of (Fixture *fixture)
{
  return odd_document_get_job (fixture->document);
}

static double
raw_length (OddJob *job, OddId panel_id)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout_apart (job, panel_id);

  return layout->raw_box.height;
}

/* Raw: 12 x 120 - 11 x 25.4 = 1160.6. Measured 1130.6 on the mean: 30 mm over the ten sewn seams, 1.5 each side: 14.2. */
static void
type_lengths (Fixture *fixture)
{
  type (fixture, "length_0", "113");
  type (fixture, "length_1", "113.06");
  type (fixture, "length_2", "113.12 cm");
}

static void
test_answers (Fixture *fixture, gconstpointer data)
{
  g_test_summary ("Mean, loss and depth are told while they are typed, with the formula; nothing typed, nothing to accept");
  g_assert_false (gtk_widget_get_sensitive (part (fixture, "accept")));
  type_lengths (fixture);
  g_assert_true (gtk_widget_get_sensitive (part (fixture, "accept")));
  g_assert_cmpstr (title_of (fixture, "length_row"), ==, "113.06 cm long");
  g_assert_nonnull (strstr (subtitle_of (fixture, "length_row"), "30.0 mm less than the plan's 116.06 cm, over 10 seams"));
  g_assert_cmpstr (title_of (fixture, "seams_row"), ==, "Your seams are 14.2 mm deep, 1.5 mm deeper than planned");
  g_assert_cmpstr (subtitle_of (fixture, "seams_row"), ==, "Lengths: 12.7 + 30.0 / (2 × 10) = 14.2 mm");
  g_assert_nonnull (strstr (subtitle_of (fixture, "reset_row"), "1 seam still to sew"));
  type (fixture, "diagonal_0", "114");
  type (fixture, "diagonal_1", "114");
  g_assert_cmpstr (title_of (fixture, "square_row"), ==, "Square");
  type (fixture, "length_1", "long");
  g_assert_false (gtk_widget_get_sensitive (part (fixture, "accept")));
}

static void
test_accept (Fixture *fixture, gconstpointer data)
{
  g_test_summary ("Accepting is on record, moves the seams, and one undo takes it back");
  type_lengths (fixture);
  g_signal_emit_by_name (part (fixture, "accept"), "clicked");
  wait_gone (fixture);
  g_assert_cmpfloat_with_epsilon (raw_length (job_of (fixture), fixture->panel_id), 1130.6, 1e-6);
  g_assert_cmpuint (job_of (fixture)->record->len, ==, 1);
  odd_document_undo (fixture->document);
  g_assert_cmpfloat_with_epsilon (raw_length (job_of (fixture), fixture->panel_id), 1160.6, 1e-6);
}

static void
test_reset (Fixture *fixture, gconstpointer data)
{
  g_autoptr(OddLayout) layout = NULL;

  g_test_summary ("The seam still to sew is planned as deep as she sews; then each of 11 seams takes 28.4: 1127.6");
  type_lengths (fixture);
  g_signal_emit_by_name (part (fixture, "reset_row"), "activated");
  wait_gone (fixture);
  layout = odd_job_dup_layout_apart (job_of (fixture), fixture->panel_id);
  g_assert_cmpfloat_with_epsilon (layout->seams[10].allowance_mm, 14.2, 1e-6);
  g_assert_cmpfloat_with_epsilon (raw_length (job_of (fixture), fixture->panel_id), 1127.6, 1e-6);
}

static void
test_again (Fixture *fixture, gconstpointer data)
{
  g_autoptr(OddLayout) layout = NULL;
  guint n_sewn = 0;

  g_test_summary ("Four of ten seams unpicked and sewn as planned give back 4 x 3 = 12 mm");
  type_lengths (fixture);
  gtk_spin_button_set_value (part (fixture, "again_count"), 4);
  g_assert_nonnull (strstr (subtitle_of (fixture, "again_row"), "give back 12.0 mm"));
  g_signal_emit_by_name (part (fixture, "again_row"), "activated");
  wait_gone (fixture);
  layout = odd_job_dup_layout_apart (job_of (fixture), fixture->panel_id);
  for (guint i = 0; i < layout->n_seams; i++)
    n_sewn += odd_layout_seam_is_sewn (&layout->seams[i]);
  g_assert_cmpuint (n_sewn, ==, 6);
  /* on record: a measure, then each seam that was unpicked */
  g_assert_cmpuint (job_of (fixture)->record->len, ==, 5);
  for (guint i = 1; i < 5; i++)
    g_assert_cmpint (((OddAct *) job_of (fixture)->record->pdata[i])->kind, ==, ODD_ACT_UNPICK);
  g_assert_cmpfloat_with_epsilon (raw_length (job_of (fixture), fixture->panel_id), 1142.6, 1e-6);
}

static void
test_square_up (Fixture *fixture, gconstpointer data)
{
  g_test_summary ("Squaring up trims to the least, 1130.0, and is a second act");
  type_lengths (fixture);
  gtk_switch_set_active (part (fixture, "expect"), TRUE);
  g_signal_emit_by_name (part (fixture, "square_up_row"), "activated");
  wait_gone (fixture);
  g_assert_cmpfloat_with_epsilon (raw_length (job_of (fixture), fixture->panel_id), 1130.0, 1e-6);
  g_assert_cmpuint (job_of (fixture)->record->len, ==, 2);
  g_assert_cmpfloat_with_epsilon (job_of (fixture)->settings.fold_loss_mm, 6.0, 1e-6);     /* 3 mm a seam on the mean */
}

static void
test_doubt (Fixture *fixture, gconstpointer data)
{
  OddJob *before = job_of (fixture);
  GtkWidget *question;

  g_test_summary ("0 and negative are asked about and cannot be insisted on; a tenth of the plan is asked about");
  for (guint i = 0; i < 3; i++)
    {
      static const char *const texts[] = { "0", "-5", "11.6" };

      type (fixture, "length_0", texts[i]);
      g_signal_emit_by_name (part (fixture, "accept"), "clicked");
      question = newest_window (fixture->window, fixture->dialog);
      g_assert_true (ADW_IS_MESSAGE_DIALOG (question));
      g_assert_true (g_str_has_prefix (adw_message_dialog_get_body (ADW_MESSAGE_DIALOG (question)), i < 2 ? "Is it really" : "Is it really 11.6"));
      if (i < 2)
        adw_message_dialog_response (ADW_MESSAGE_DIALOG (question), "change");
      else
        adw_message_dialog_response (ADW_MESSAGE_DIALOG (question), "sure");
      gtk_window_destroy (GTK_WINDOW (question));
    }
  /* Insisted on, it would make the seams deeper than the patches: refused in words, nothing changed. */
  g_assert_true (job_of (fixture) == before);
  g_assert_nonnull (strstr (gtk_label_get_text (part (fixture, "complaint")), "whole patches"));
}

static void
test_measurable (Fixture *fixture, gconstpointer data)
{
  OddJob *job = job_of (fixture);
  OddTextile *textile = first_textile (job);
  OddPanel *panel = odd_job_get_panel (job, fixture->panel_id, NULL, NULL);

  g_test_summary ("A seam of the top strip means the panel, a join the textile, a scrap nothing");
  g_assert_cmpuint (odd_measurable_of (job, ODD_SELECTED_SEAM, panel->root->seams[0].id), ==, panel->id);
  g_assert_cmpuint (odd_measurable_of (job, ODD_SELECTED_PATCH, panel->root->parts[0]->id), ==, panel->id);
  g_assert_cmpuint (odd_measurable_of (job, ODD_SELECTED_SEAM, textile->joins[0].id), ==, textile->id);
  g_assert_cmpuint (odd_measurable_of (job, ODD_SELECTED_SCRAP, 1), ==, 0);
}

static GtkWidget *
find_nth_button (GtkWidget  *from,
             const char *text,
             guint      *skip)
{
  if (GTK_IS_BUTTON (from) && g_strcmp0 (gtk_button_get_label (GTK_BUTTON (from)), text) == 0 && (*skip)-- == 0)
    return from;
  for (GtkWidget *child = gtk_widget_get_first_child (from); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_nth_button (child, text, skip);

      if (found != NULL)
        return found;
    }
  return NULL;
}

/* 12 x 94.6 against 12 x 94.0: 7.2 mm. */
static void
test_remedy (Fixture *fixture, gconstpointer data)
{
  guint patch = 2;
  g_autoptr(OddLayout) layout = NULL;

  g_test_summary ("One click adds the patch: 7.2 mm finished at the end of the short panel");
  g_signal_emit_by_name (find_nth_button (fixture->dialog, "Do this", &patch), "clicked");
  wait_gone (fixture);
  layout = odd_job_dup_layout_apart (job_of (fixture), fixture->short_id);
  g_assert_cmpuint (layout->n_patches, ==, 13);
  g_assert_cmpfloat_with_epsilon (raw_length (job_of (fixture), fixture->short_id), 1160.6, 1e-6);
}

static void
test_remedy_ease (Fixture *fixture, gconstpointer data)
{
  guint ease = 1;

  g_test_summary ("7.2 of 1153.4 is 0.6 %, within the limit: eased in by one click, no cloth cut");
  g_signal_emit_by_name (find_nth_button (fixture->dialog, "Do this", &ease), "clicked");
  wait_gone (fixture);
  g_assert_cmpfloat_with_epsilon (first_textile (job_of (fixture))->hung[0].ease_mm, 7.2, 1e-6);
  g_assert_cmpuint (job_of (fixture)->record->len, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();
  g_test_add ("/measure-dialog/answers", Fixture, NULL, set_up, test_answers, tear_down);
  g_test_add ("/measure-dialog/accept", Fixture, NULL, set_up, test_accept, tear_down);
  g_test_add ("/measure-dialog/reset", Fixture, NULL, set_up, test_reset, tear_down);
  g_test_add ("/measure-dialog/again", Fixture, NULL, set_up, test_again, tear_down);
  g_test_add ("/measure-dialog/square-up", Fixture, NULL, set_up, test_square_up, tear_down);
  g_test_add ("/measure-dialog/doubt", Fixture, NULL, set_up, test_doubt, tear_down);
  g_test_add ("/measure-dialog/measurable", Fixture, NULL, set_up, test_measurable, tear_down);
  g_test_add ("/remedy-dialog/patch", Fixture, "remedies", set_up, test_remedy, tear_down);
  g_test_add ("/remedy-dialog/ease", Fixture, "remedies", set_up, test_remedy_ease, tear_down);
  return g_test_run ();
}
