#include "config.h"

#include "ui/measure-dialog.h"

#include "ui/deed.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "cloth/length.h"
#include "cloth/measured.h"
#include "sewing/act-measure.h"
#include "sewing/expected.h"
#include "sewing/found.h"
#include "ui/length-entry.h"
#include "ui/toast.h"

#define ODD_TYPE_MEASURE_DIALOG (odd_measure_dialog_get_type ())
G_DECLARE_FINAL_TYPE (OddMeasureDialog, odd_measure_dialog, ODD, MEASURE_DIALOG, AdwWindow)

#define N_ENTRIES 8                /* three lengths, three widths, two diagonals */

struct _OddMeasureDialog
{
  AdwWindow parent_instance;
  OddDocument *document;
  GtkWidget *from;
  OddId id;
  int unit;
  AdwWindowTitle *title;
  GtkToggleButton *raw;
  GtkToggleButton *seam;
  OddLengthEntry *entries[N_ENTRIES];
  GtkLabel *complaint;
  AdwActionRow *length_row;
  AdwActionRow *width_row;
  AdwActionRow *square_row;
  AdwActionRow *seams_row;
  GtkWidget *answers;
  GtkWidget *accept;
  AdwActionRow *reset_row;
  AdwActionRow *again_row;
  GtkSpinButton *again_count;
  AdwActionRow *square_up_row;
  AdwActionRow *expect_row;
  GtkSwitch *expect;
  GtkWidget *forget;
};

G_DEFINE_FINAL_TYPE (OddMeasureDialog, odd_measure_dialog, ADW_TYPE_WINDOW)

char *
odd_depth_format (double mm,
                  int    unit)
{
  if (unit == ODD_UNIT_INCH)
    return g_strdup_printf (_("%.2f in"), mm / 25.4);
  return odd_length_format (mm, ODD_UNIT_MM);
}

OddId
odd_measurable_of (OddJob      *job,
                   OddSelected  kind,
                   OddId        id)
{
  OddTextile *textile = NULL;
  guint index = 0;
  OddPanel *panel;
  OddNode *strip;

  if (kind == ODD_SELECTED_PANEL || kind == ODD_SELECTED_TEXTILE)
    return id;
  if (kind != ODD_SELECTED_SEAM && kind != ODD_SELECTED_PATCH)
    return 0;
  panel = odd_job_find_panel_of (job, id, &textile, &index);
  if (panel == NULL)
    return textile != NULL ? textile->id : 0;
  strip = odd_node_find_seam (panel->root, id, &index);
  return strip != NULL && strip != panel->root ? strip->id : panel->id;
}

/* --- reading --- */

/* What is in the entries now, half typed texts left out. FALSE when one of them is no length. */
static gboolean
peek (OddMeasureDialog *self,
      OddMeasure       *measure)
{
  double *const places[N_ENTRIES] = { &measure->lengths_mm[0], &measure->lengths_mm[1], &measure->lengths_mm[2], &measure->widths_mm[0],
                                      &measure->widths_mm[1], &measure->widths_mm[2], &measure->diagonals_mm[0], &measure->diagonals_mm[1] };
  gboolean good = TRUE;

  odd_measure_init (measure);
  measure->seam_to_seam = gtk_toggle_button_get_active (self->seam);
  for (guint i = 0; i < N_ENTRIES; i++)
    {
      const char *text = gtk_editable_get_text (GTK_EDITABLE (self->entries[i]));
      g_autofree char *stripped = g_strstrip (g_strdup (text));
      double mm = NAN;

      /* What stands as it was shown has more digits than the text. */
      if (*stripped == '\0')
        continue;
      if (!odd_length_parse (stripped, self->unit, TRUE, TRUE, &mm, NULL))
        good = FALSE;
      else
        {
          const double kept = odd_length_entry_get_value (self->entries[i]);
          g_autofree char *shown = isnan (kept) ? NULL : odd_length_format (kept, self->unit);

          *places[i] = g_strcmp0 (shown, stripped) == 0 ? kept : mm;
        }
    }
  return good;
}

static OddJob *
get_job (OddMeasureDialog *self)
{
  return odd_document_get_job (self->document);
}

static void
complain (OddMeasureDialog *self,
          const char       *sentence)
{
  gtk_label_set_text (self->complaint, sentence);
  gtk_widget_set_visible (GTK_WIDGET (self->complaint), *sentence != '\0');
}

/* --- what the measures say --- */

static void
say (AdwActionRow *row,
     char         *title,
     char         *subtitle)
{
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  adw_action_row_set_subtitle (row, subtitle != NULL ? subtitle : "");
  g_free (title);
  g_free (subtitle);
}

static void
say_loss (GString              *text,
          const OddMeasuredWay *way,
          int                   unit)
{
  g_autofree char *loss = odd_depth_format (fabs (way->loss_mm), unit);
  g_autofree char *planned = odd_length_format (way->planned_mm, unit);

  g_string_append (text, "\n");
  if (fabs (way->loss_mm) < 0.05)
    g_string_append_printf (text, _("as the plan has it, %s"), planned);
  else if (way->loss_mm > 0.0)
    g_string_append_printf (text, _("%s less than the plan's %s"), loss, planned);
  else
    g_string_append_printf (text, _("%s more than the plan's %s"), loss, planned);
  if (way->n_seams > 0)
    g_string_append_printf (text, ngettext (", over %u seam", ", over %u seams", way->n_seams), way->n_seams);
  else if (way->n_unsewn == 0 && fabs (way->loss_mm) >= 0.05)
    g_string_append (text, _("; no seam across could have taken it"));
}

static void
show_way (OddMeasureDialog     *self,
          AdwActionRow         *row,
          const char           *format,
          const OddMeasuredWay *way)
{
  const OddTriple *triple = &way->spread;
  g_autofree char *mean = odd_length_format (triple->mean_mm, self->unit);
  g_autofree char *worst = odd_depth_format (fabs (triple->worst_mm), self->unit);
  g_autofree char *bow = odd_depth_format (fabs (triple->bow_mm), self->unit);
  GString *text = g_string_new (NULL);

  gtk_widget_set_visible (GTK_WIDGET (row), triple->n > 0);
  if (triple->n > 1)
    g_string_append_printf (text, _("mean of %u, the worst %s off it"), triple->n, worst);
  else
    g_string_append (text, _("one measure"));
  if (!isnan (triple->bow_mm) && fabs (triple->bow_mm) >= 0.05)
    g_string_append_printf (text, triple->bow_mm > 0.0 ? _(", bowed: the middle %s longer than the ends") : _(", bowed: the middle %s shorter than the ends"), bow);
  if (triple->n > 0)
    say_loss (text, way, self->unit);
  say (row, g_strdup_printf (format, mean), g_string_free (text, FALSE));
}

static void
show_square (OddMeasureDialog  *self,
             const OddMeasured *measured)
{
  g_autofree char *lean = odd_depth_format (fabs (measured->out_of_square_mm), self->unit);

  gtk_widget_set_visible (GTK_WIDGET (self->square_row), !isnan (measured->out_of_square_mm));
  if (fabs (measured->out_of_square_mm) < 0.05)
    say (self->square_row, g_strdup (_("Square")), g_strdup (_("both diagonals are equal")));
  else
    say (self->square_row, g_strdup_printf (_("Out of square by %s"), lean),
         g_strdup_printf (measured->out_of_square_mm > 0.0 ? _("leans to the right going down: (%s² − %s²) / (4 × width)") : _("leans to the left going down: (%s² − %s²) / (4 × width)"),
                          "d₁", "d₂"));
}

/* "12.7 + 30.8 / (2 × 11) = 14.1" */
static void
say_formula (GString              *text,
             const OddMeasuredWay *way,
             const char           *word)
{
  if (isnan (way->implied_mm))
    return;
  g_string_append_printf (text, "%s%s: %.1f %c %.1f / (2 × %u) = %.1f mm", text->len > 0 ? "\n" : "", word, way->allowance_mm,
                          way->loss_mm < 0.0 ? '-' : '+', fabs (way->loss_mm), way->n_seams, way->implied_mm);
}

static void
show_seams (OddMeasureDialog  *self,
            const OddMeasured *measured)
{
  g_autofree char *deeper = odd_depth_format (fabs (measured->deeper_mm), self->unit);
  g_autofree char *implied = odd_depth_format (measured->implied_mm, self->unit);
  GString *text = g_string_new (NULL);
  char *title;

  gtk_widget_set_visible (GTK_WIDGET (self->seams_row), !isnan (measured->implied_mm));
  say_formula (text, &measured->length, _("Lengths"));
  say_formula (text, &measured->width, _("Widths"));
  if (fabs (measured->deeper_mm) < 0.05)
    title = g_strdup_printf (_("Your seams are as deep as planned, %s"), implied);
  else
    title = g_strdup_printf (measured->deeper_mm > 0.0 ? _("Your seams are %s deep, %s deeper than planned") : _("Your seams are %s deep, %s shallower than planned"),
                             implied, deeper);
  say (self->seams_row, title, g_string_free (text, FALSE));
}

/* --- what may follow --- */

static guint
count_left (OddMeasureDialog *self)
{
  OddJob *job = get_job (self);
  OddTextile *textile = odd_job_get_textile (job, self->id);
  OddPanel *panel = odd_job_get_panel (job, self->id, NULL, NULL);
  guint left = 0;

  if (panel == NULL && textile == NULL)
    panel = odd_job_find_panel_of (job, self->id, NULL, NULL);
  for (guint i = 0; i < (textile != NULL ? textile->n_hung : 1); i++)
    {
      OddPanel *one = textile != NULL ? textile->hung[i].panel : panel;
      g_autoptr(OddLayout) layout = odd_job_dup_layout_apart (job, one->id);

      for (guint s = 0; s < layout->n_seams; s++)
        left += !odd_seam_is_touched (layout->seams[s].seam);
    }
  return left;
}

static void
show_reset (OddMeasureDialog  *self,
            const OddMeasured *measured,
            gboolean           good)
{
  const guint left = count_left (self);
  g_autofree char *implied = odd_depth_format (measured->implied_mm, self->unit);
  g_autofree char *text = NULL;

  gtk_widget_set_sensitive (GTK_WIDGET (self->reset_row), good && left > 0 && fabs (measured->deeper_mm) >= 0.05);
  if (left == 0)
    text = g_strdup (_("No seam is left to sew here"));
  else if (isnan (measured->implied_mm))
    text = g_strdup (_("The seams still to sew here follow what you really sew"));
  else
    text = g_strdup_printf (ngettext ("%u seam still to sew here is planned at %s, the cut kept", "%u seams still to sew here are planned at %s, the cut kept", left), left, implied);
  adw_action_row_set_subtitle (self->reset_row, text);
}

static guint
seams_in_all (const OddMeasured *measured)
{
  return (isnan (measured->length.deeper_mm) ? 0 : measured->length.n_seams) + (isnan (measured->width.deeper_mm) ? 0 : measured->width.n_seams);
}

static void
show_again (OddMeasureDialog  *self,
            const OddMeasured *measured,
            gboolean           good)
{
  const guint n = seams_in_all (measured);
  GtkAdjustment *adjustment = gtk_spin_button_get_adjustment (self->again_count);
  guint chosen;
  g_autofree char *back = NULL;
  g_autofree char *text = NULL;

  if (gtk_adjustment_get_upper (adjustment) != MAX (n, 1))
    {
      gtk_adjustment_set_upper (adjustment, MAX (n, 1));
      gtk_adjustment_set_value (adjustment, MAX (n, 1));
    }
  chosen = MIN ((guint) gtk_spin_button_get_value_as_int (self->again_count), n);
  back = odd_depth_format (fabs (2.0 * measured->deeper_mm * chosen), self->unit);
  gtk_widget_set_sensitive (GTK_WIDGET (self->again_row), good && n > 0 && fabs (measured->deeper_mm) >= 0.05);
  if (n == 0 || isnan (measured->deeper_mm))
    text = g_strdup (_("Unpicked, and sewn at the planned depth"));
  else
    text = g_strdup_printf (measured->deeper_mm > 0.0 ? ngettext ("%u seam unpicked and sewn as planned gives back %s", "%u seams unpicked and sewn as planned give back %s", chosen)
                                                      : ngettext ("%u seam unpicked and sewn as planned takes %s", "%u seams unpicked and sewn as planned take %s", chosen),
                            chosen, back);
  adw_action_row_set_subtitle (self->again_row, text);
}

static void
show_square_up (OddMeasureDialog  *self,
                const OddMeasured *measured,
                gboolean           good)
{
  const double width = measured->width.spread.n > 0 ? measured->width.spread.least_mm : measured->width.now_mm;
  const double length = measured->length.spread.n > 0 ? measured->length.spread.least_mm : measured->length.now_mm;
  g_autofree char *size = odd_length_format_pair (width, length, self->unit);
  g_autofree char *text = g_strdup_printf (gtk_toggle_button_get_active (self->seam) ? _("Trim to the least, %s seam to seam. Later losses count from there.")
                                                                                     : _("Trim to the least, %s raw. Later losses count from there."), size);

  gtk_widget_set_sensitive (GTK_WIDGET (self->square_up_row), good);
  adw_action_row_set_subtitle (self->square_up_row, text);
}

static void
show_placeholders (OddMeasureDialog  *self,
                   const OddMeasured *measured)
{
  for (guint i = 0; i < N_ENTRIES; i++)
    {
      const double mm = i < 3 ? measured->length.planned_mm : i < 6 ? measured->width.planned_mm
                                                                    : hypot (measured->width.planned_mm, measured->length.planned_mm);
      g_autofree char *text = odd_length_format_bare (mm, self->unit);

      gtk_entry_set_placeholder_text (GTK_ENTRY (self->entries[i]), text);
    }
}

static void
refresh (OddMeasureDialog *self)
{
  OddMeasure measure;
  OddMeasured measured;
  g_autoptr(GError) error = NULL;
  gboolean good = peek (self, &measure);

  if (!odd_job_evaluate_measure (get_job (self), self->id, &measure, &measured, &error))
    {
      complain (self, error->message);
      gtk_widget_set_sensitive (self->accept, FALSE);
      return;
    }
  good = good && !odd_measure_is_empty (&measure);
  complain (self, "");
  show_way (self, self->length_row, _("%s long"), &measured.length);
  show_way (self, self->width_row, _("%s wide"), &measured.width);
  show_square (self, &measured);
  show_seams (self, &measured);
  gtk_widget_set_visible (self->answers, !odd_measure_is_empty (&measure));
  show_reset (self, &measured, good);
  show_again (self, &measured, good);
  show_square_up (self, &measured, good && measured.length.spread.n + measured.width.spread.n > 0);
  gtk_widget_set_sensitive (GTK_WIDGET (self->expect_row), good && !isnan (measured.deeper_mm));
  gtk_widget_set_sensitive (self->accept, good);
  show_placeholders (self, &measured);
}

static void
changed_cb (OddMeasureDialog *self)
{
  if (self->document != NULL)
    refresh (self);
}

static void
way_cb (OddMeasureDialog *self)
{
  changed_cb (self);
}

/* --- doing --- */

/* (transfer full): one more step on what the last gave; NULL when there was none */
static OddJob *
then (OddJob *before,
      OddJob *after)
{
  odd_job_unref (before);
  return after;
}

static OddJob *
with_expectation (OddMeasureDialog  *self,
                  OddJob            *job,
                  const OddMeasured *measured,
                  GError           **error)
{
  OddSettings settings = job->settings;

  if (!gtk_switch_get_active (self->expect) || !odd_settings_calibrate (&settings, measured))
    return job;
  return then (job, odd_job_set_settings (job, &settings, error));
}

static OddJob *
reset_rest (OddMeasureDialog  *self,
            OddJob            *job,
            const OddMeasured *measured,
            GError           **error)
{
  const OddTreatment treatment = { 0, measured->implied_mm };
  const gboolean is_textile = odd_job_get_textile (job, self->id) != NULL;
  OddPanel *panel = odd_job_get_panel (job, self->id, NULL, NULL);

  if (is_textile)
    return then (job, odd_job_set_treatment (job, ODD_LEVEL_TEXTILE, self->id, 0, &treatment, TRUE, error));
  if (panel == NULL)
    panel = odd_job_find_panel_of (job, self->id, NULL, NULL);
  return then (job, odd_job_set_treatment (job, ODD_LEVEL_PANEL, panel->id, 0, &treatment, TRUE, error));
}

/* One more unpicked, unless it came open with another. Takes @job. */
static OddJob *
unpick_too (OddJob   *job,
            OddId     seam_id,
            GError  **error)
{
  const OddAct act = { .kind = ODD_ACT_UNPICK, .seam_id = seam_id, .reason = _("Wrong allowance: sewn again") };
  g_auto(OddFound) found = { 0 };

  if (!odd_found_init (&found, job, seam_id, NULL) || odd_progress_get_state (found.seam->progress, odd_finish_first_sew (found.finish)) != ODD_STATE_DONE)
    return job;
  return then (job, odd_job_do_now (job, &act, error));
}

/* Those that lie last along the measure: the nearest to a free end. */
static OddJob *
open_again (OddMeasureDialog *self,
            OddJob           *job,
            GError          **error)
{
  guint left = gtk_spin_button_get_value_as_int (self->again_count);
  OddMeasure measure;

  peek (self, &measure);
  for (guint way = 0; way < 2 && job != NULL; way++)
    {
      const double *values = way == 0 ? measure.lengths_mm : measure.widths_mm;
      const gboolean measured = !isnan (values[0]) || !isnan (values[1]) || !isnan (values[2]);
      g_autoptr(GArray) crossings = odd_job_find_crossings (job, self->id, way == 1, 0.5);

      for (guint i = crossings->len; measured && i > 0 && left > 0 && job != NULL; i--)
        {
          const OddCrossing *crossing = &g_array_index (crossings, OddCrossing, i - 1);

          if (!crossing->sewn || crossing->squared)
            continue;
          job = unpick_too (job, crossing->seam_id, error);
          left--;
        }
    }
  return job;
}

typedef enum { FOLLOW_NOTHING, FOLLOW_RESET, FOLLOW_AGAIN, FOLLOW_SQUARE } Follow;

static OddJob *
measure_now (OddMeasureDialog  *self,
             const OddMeasure  *measure,
             gboolean           sure,
             GError           **error)
{
  double figures[ODD_N_MEASURE_FIGURES];
  OddAct act = odd_act_about_part (get_job (self), ODD_ACT_MEASURE, self->id);

  odd_measure_to_figures (measure, figures);
  act.figures = figures;
  act.n_figures = G_N_ELEMENTS (figures);
  act.anyway = sure;
  act.clock_s = odd_now_s ();
  return odd_job_do (get_job (self), &act, error);
}

static OddJob *
work_out (OddMeasureDialog  *self,
          const OddMeasure  *measure,
          const OddMeasured *measured,
          gboolean           sure,
          Follow             follow,
          GError           **error)
{
  OddJob *job = measure_now (self, measure, sure, error);

  if (job != NULL)
    job = with_expectation (self, job, measured, error);
  if (job != NULL && follow == FOLLOW_RESET)
    job = reset_rest (self, job, measured, error);
  else if (job != NULL && follow == FOLLOW_AGAIN)
    job = open_again (self, job, error);
  else if (job != NULL && follow == FOLLOW_SQUARE)
    {
      OddAct act = odd_act_about_part (job, ODD_ACT_SQUARE_UP, self->id);

      act.clock_s = odd_now_s ();
      job = then (job, odd_job_do (job, &act, error));
    }
  return job;
}

static const char *
follow_label (Follow follow)
{
  switch (follow)
    {
    case FOLLOW_RESET: return _("Measure, and plan the rest as deep");
    case FOLLOW_AGAIN: return _("Measure, and sew some seams again");
    case FOLLOW_SQUARE: return _("Measure and square up");
    default: return _("Measure");
    }
}

static const char *
follow_toast (Follow follow)
{
  switch (follow)
    {
    case FOLLOW_RESET: return _("Figures are as sewn; the seams still to sew are planned as deep.");
    case FOLLOW_AGAIN: return _("Figures are as sewn; the seams to sew again are open.");
    case FOLLOW_SQUARE: return _("Squared up. Figures are as sewn.");
    default: return _("From now on the figures are as sewn.");
    }
}

static void
finish (OddMeasureDialog *self,
        gboolean          sure,
        Follow            follow)
{
  OddMeasure measure;
  OddMeasured measured;
  g_autoptr(GError) error = NULL;
  OddJob *job = NULL;

  peek (self, &measure);
  if (odd_job_evaluate_measure (get_job (self), self->id, &measure, &measured, &error))
    job = work_out (self, &measure, &measured, sure, follow, &error);
  if (job == NULL)
    {
      complain (self, error->message);
      return;
    }
  odd_document_apply (self->document, job, follow_label (follow));
  odd_toast (self->from, follow_toast (follow), _("_Undo"), "win.undo");
  gtk_window_close (GTK_WINDOW (self));
}

typedef struct { OddMeasureDialog *dialog; Follow follow; } Question;

static void
question_free (gpointer  data,
               GClosure *closure)
{
  Question *question = data;

  g_object_unref (question->dialog);
  g_free (question);
}

static void
answer_cb (Question   *question,
           const char *response)
{
  if (g_str_equal (response, "sure"))
    finish (question->dialog, TRUE, question->follow);
}

static void
ask (OddMeasureDialog *self,
     const char       *doubt,
     gboolean          impossible,
     Follow            follow)
{
  GtkWidget *dialog = adw_message_dialog_new (GTK_WINDOW (self), _("Look again"), doubt);
  Question *question = g_new (Question, 1);

  *question = (Question) { g_object_ref (self), follow };
  adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "change", _("_Change it"));
  if (!impossible)
    adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "sure", _("It _is"));
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "change");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "change");
  g_signal_connect_data (dialog, "response", G_CALLBACK (answer_cb), question, question_free, G_CONNECT_SWAPPED);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
do_it (OddMeasureDialog *self,
       Follow            follow)
{
  OddMeasure measure;
  OddMeasured measured;
  gboolean impossible = FALSE;
  g_autofree char *doubt = NULL;
  g_autoptr(GError) error = NULL;

  if (!peek (self, &measure) || !odd_job_evaluate_measure (get_job (self), self->id, &measure, &measured, &error))
    {
      complain (self, error != NULL ? error->message : _("One of the measures is no length; mend it or leave it empty."));
      return;
    }
  doubt = odd_measure_doubt (&measure, &measured, &impossible);
  if (doubt != NULL)
    ask (self, doubt, impossible, follow);
  else
    finish (self, FALSE, follow);
}

static void accept_cb (OddMeasureDialog *self) { do_it (self, FOLLOW_NOTHING); }
static void reset_cb (OddMeasureDialog *self) { do_it (self, FOLLOW_RESET); }
static void again_cb (OddMeasureDialog *self) { do_it (self, FOLLOW_AGAIN); }
static void square_up_cb (OddMeasureDialog *self) { do_it (self, FOLLOW_SQUARE); }

static void
forget_cb (OddMeasureDialog *self)
{
  OddMeasure none;
  g_autoptr(GError) error = NULL;
  OddJob *job;

  odd_measure_init (&none);
  job = measure_now (self, &none, FALSE, &error);
  if (job == NULL)
    {
      complain (self, error->message);
      return;
    }
  odd_document_apply (self->document, job, _("Forget a measure"));
  gtk_window_close (GTK_WINDOW (self));
}

/* --- making --- */

static void
odd_measure_dialog_dispose (GObject *object)
{
  OddMeasureDialog *self = ODD_MEASURE_DIALOG (object);

  g_clear_object (&self->document);
  g_clear_object (&self->from);
  G_OBJECT_CLASS (odd_measure_dialog_parent_class)->dispose (object);
}

static void
odd_measure_dialog_class_init (OddMeasureDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  static const char *const names[N_ENTRIES] = { "length_0", "length_1", "length_2", "width_0", "width_1", "width_2", "diagonal_0", "diagonal_1" };

  G_OBJECT_CLASS (klass)->dispose = odd_measure_dialog_dispose;
  g_type_ensure (ODD_TYPE_LENGTH_ENTRY);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/measure-dialog.ui");
  for (guint i = 0; i < N_ENTRIES; i++)
    gtk_widget_class_bind_template_child_full (widget_class, names[i], FALSE, G_STRUCT_OFFSET (OddMeasureDialog, entries) + i * sizeof (gpointer));
  gtk_widget_class_bind_template_child (widget_class, OddMeasureDialog, title);
  gtk_widget_class_bind_template_child (widget_class, OddMeasureDialog, raw);
  gtk_widget_class_bind_template_child (widget_class, OddMeasureDialog, seam);
  gtk_widget_class_bind_template_child (widget_class, OddMeasureDialog, complaint);
  gtk_widget_class_bind_template_child (widget_class, OddMeasureDialog, length_row);
  gtk_widget_class_bind_template_child (widget_class, OddMeasureDialog, width_row);
  gtk_widget_class_bind_template_child (widget_class, OddMeasureDialog, square_row);
  gtk_widget_class_bind_template_child (widget_class, OddMeasureDialog, seams_row);
  gtk_widget_class_bind_template_child (widget_class, OddMeasureDialog, answers);
  gtk_widget_class_bind_template_child (widget_class, OddMeasureDialog, accept);
  gtk_widget_class_bind_template_child (widget_class, OddMeasureDialog, reset_row);
  gtk_widget_class_bind_template_child (widget_class, OddMeasureDialog, again_row);
  gtk_widget_class_bind_template_child (widget_class, OddMeasureDialog, again_count);
  gtk_widget_class_bind_template_child (widget_class, OddMeasureDialog, square_up_row);
  gtk_widget_class_bind_template_child (widget_class, OddMeasureDialog, expect_row);
  gtk_widget_class_bind_template_child (widget_class, OddMeasureDialog, expect);
  gtk_widget_class_bind_template_child (widget_class, OddMeasureDialog, forget);
  gtk_widget_class_bind_template_callback (widget_class, changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, way_cb);
  gtk_widget_class_bind_template_callback (widget_class, accept_cb);
  gtk_widget_class_bind_template_callback (widget_class, reset_cb);
  gtk_widget_class_bind_template_callback (widget_class, again_cb);
  gtk_widget_class_bind_template_callback (widget_class, square_up_cb);
  gtk_widget_class_bind_template_callback (widget_class, forget_cb);
}

static void
odd_measure_dialog_init (OddMeasureDialog *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static void
show_last (OddMeasureDialog *self)
{
  const OddMeasure *measure = odd_job_get_measure (get_job (self), self->id);

  gtk_widget_set_visible (self->forget, measure != NULL);
  for (guint i = 0; i < N_ENTRIES; i++)
    {
      g_object_set (self->entries[i], "unit", self->unit, NULL);
      if (measure != NULL)
        odd_length_entry_set_value (self->entries[i], i < 3 ? measure->lengths_mm[i] : i < 6 ? measure->widths_mm[i - 3] : measure->diagonals_mm[i - 6]);
    }
  if (measure != NULL && measure->seam_to_seam)
    gtk_toggle_button_set_active (self->seam, TRUE);
}

static char *
dup_what (OddJob *job,
          OddId   id)
{
  OddTextile *textile = odd_job_get_textile (job, id);
  OddPanel *panel = odd_job_get_panel (job, id, NULL, NULL);
  g_autofree char *name = NULL;

  if (textile != NULL)
    return odd_job_dup_textile_name (job, textile);
  if (panel != NULL)
    return odd_job_dup_panel_name (job, panel);
  name = odd_job_dup_panel_name (job, odd_job_find_panel_of (job, id, NULL, NULL));
  return g_strdup_printf (_("A strip of %s"), name);
}

void
odd_measure_dialog_present (GtkWidget   *from,
                            OddDocument *document,
                            OddId        id,
                            int          unit)
{
  GtkRoot *root = gtk_widget_get_root (from);
  OddMeasureDialog *self = g_object_new (ODD_TYPE_MEASURE_DIALOG, "transient-for", root, "modal", TRUE, NULL);
  g_autofree char *what = dup_what (odd_document_get_job (document), id);

  self->from = g_object_ref (from);
  self->id = id;
  self->unit = unit;
  adw_window_title_set_title (self->title, _("Measure"));
  adw_window_title_set_subtitle (self->title, what);
  self->document = g_object_ref (document);
  show_last (self);
  refresh (self);
  gtk_window_set_focus (GTK_WINDOW (self), GTK_WIDGET (self->entries[0]));
  gtk_window_present (GTK_WINDOW (self));
}
