#include "config.h"

#include "ui/estimate-dialog.h"

#include <adwaita.h>
#include <glib/gi18n.h>
#include <string.h>

#include "ui/cut-counter.h"
#include "ui/estimate-words.h"
#include "ui/length-entry.h"
#include "ui/scrap-sources.h"
#include "ui/template-rows.h"

/* First offered where nothing is known: a summer tub of plain weave. Our choice. */
#define OFFER_KG 2.0
#define OFFER_GSM 130.0
#define OFFER_SCRAP_WIDTH_MM 200.0
#define OFFER_SCRAP_LENGTH_MM 150.0
#define OFFER_WIDTH_MM 1000.0
#define OFFER_LENGTH_MM 1400.0

enum { BY_OUTLINES, BY_WEIGHT };   /* rows of known_by, where there are scraps; else the weight alone */

#define ODD_TYPE_ESTIMATE_DIALOG (odd_estimate_dialog_get_type ())
G_DECLARE_FINAL_TYPE (OddEstimateDialog, odd_estimate_dialog, ODD, ESTIMATE_DIALOG, AdwWindow)

struct _OddEstimateDialog
{
  AdwWindow parent_instance;
  GtkWidget *from;
  OddPieceFunc piece_func;
  OddJob *job;
  OddId textile_id;
  OddUnit unit;
  gboolean has_scraps;
  gboolean starting;
  GPtrArray *sources;              /* rows of draw_from: GArray of OddId; NULL: all */
  GPtrArray *tubs;                 /* OddTub of each, made by the first worker that wants it; else NULL */
  GCancellable *cancellable;       /* of what runs, or NULL */
  OddWish wish;                    /* as last answered */
  OddEstimate estimate;
  gboolean answered;               /* what is asked now */
  gboolean piece_wanted;           /* as soon as it is */
  guint ask_id;                    /* asks when all that changes at once has changed, or 0 */
  AdwLeaflet *leaflet;
  GtkWidget *wish_page;
  GtkWidget *answer_page;
  GtkWidget *back;
  GtkWidget *more;
  GtkWidget *piece;
  AdwComboRow *known_by;
  AdwComboRow *draw_from;
  GtkWidget *kg_row;
  GtkWidget *gsm_row;
  GtkWidget *scrap_row;
  GtkSpinButton *kg;
  GtkSpinButton *gsm;
  OddLengthEntry *scrap_width;
  OddLengthEntry *scrap_length;
  OddLengthEntry *width;
  OddLengthEntry *length;
  OddLengthEntry *panel_width;
  AdwComboRow *manner;
  OddTemplateRows *templates;
  GtkWidget *smallest_row;
  OddLengthEntry *smallest;
  GtkWidget *scale_row;
  OddLengthEntry *scale;
  GtkWidget *liveliness_row;
  GtkRange *liveliness;
  AdwComboRow *finish;
  OddLengthEntry *allowance;
  GtkLabel *headline;
  GtkLabel *short_headline;
  GtkLabel *sentence;
  GtkBox *remedies;
  GtkFlowBox *figures;
};

G_DEFINE_FINAL_TYPE (OddEstimateDialog, odd_estimate_dialog, ADW_TYPE_WINDOW)

static gboolean
is_by_weight (OddEstimateDialog *self)
{
  return !self->has_scraps || adw_combo_row_get_selected (self->known_by) == BY_WEIGHT;
}

/* NULL: all that are free. (transfer full) */
static GArray *
dup_scrap_ids (OddEstimateDialog *self)
{
  GArray *ids = odd_scrap_sources_get (self->sources, adw_combo_row_get_selected (self->draw_from));

  return ids != NULL ? g_array_ref (ids) : NULL;
}

/* --- what is asked --- */

typedef struct
{
  OddJob *job;
  OddTub *tub;                     /* NULL: that of the outlines is to be made */
  guint source;                    /* row of draw_from */
  GArray *scrap_ids;               /* NULL: all that are free */
  OddWish wish;
  OddEstimate estimate;
} Question;

static void
question_free (Question *question)
{
  odd_job_unref (question->job);
  g_clear_pointer (&question->tub, odd_tub_unref);
  g_clear_pointer (&question->scrap_ids, g_array_unref);
  g_free (question);
}

static OddTreatment
get_treatment (OddEstimateDialog *self,
               double             allowance_mm)
{
  const guint row = adw_combo_row_get_selected (self->finish);
  OddTreatment treatment = { 0, allowance_mm };

  if (row > 0 && row <= self->job->finishes->len)
    treatment.finish_id = ((OddFinish *) self->job->finishes->pdata[row - 1])->id;
  return treatment;
}

static double
resolve_allowance (OddEstimateDialog *self,
                   double             allowance_mm)
{
  const OddTextile *textile = odd_job_get_textile (self->job, self->textile_id);
  const OddTreatment own = get_treatment (self, allowance_mm);
  const OddTreatment *levels[2] = { textile != NULL ? &textile->treatment : NULL, &own };
  double resolved_mm;

  odd_job_resolve (self->job, levels, G_N_ELEMENTS (levels), NULL, &resolved_mm);
  return resolved_mm;
}

static gboolean
read_patches (OddEstimateDialog *self,
              OddWish           *wish,
              GError           **error)
{
  if (wish->manner == ODD_PIECE_SQUARES)
    return odd_template_rows_peek (self->templates, wish->templates, &wish->n_templates, error);
  if (wish->manner != ODD_PIECE_CRUMBS)
    return TRUE;
  if (!odd_length_entry_peek (self->smallest, &wish->smallest_mm, error) || !odd_length_entry_peek (self->scale, &wish->scale_mm, error))
    return FALSE;
  if (isnan (wish->scale_mm))
    wish->scale_mm = 0.0;
  return TRUE;
}

static gboolean
read_wish (OddEstimateDialog *self,
           OddWish           *wish,
           GError           **error)
{
  double allowance_mm;

  *wish = (OddWish) {
    .manner = (OddPieceManner) adw_combo_row_get_selected (self->manner),
    .liveliness = gtk_range_get_value (self->liveliness),
  };
  if (!odd_length_entry_peek (self->width, &wish->width_mm, error) || !odd_length_entry_peek (self->length, &wish->length_mm, error) ||
      !odd_length_entry_peek (self->panel_width, &wish->panel_width_mm, error) || !read_patches (self, wish, error) ||
      !odd_length_entry_peek (self->allowance, &allowance_mm, error))
    return FALSE;
  wish->allowance_mm = resolve_allowance (self, allowance_mm);
  return TRUE;
}

static gboolean
read_tub (OddEstimateDialog *self,
          OddTub           **out,
          GError           **error)
{
  double width_mm, length_mm;

  *out = NULL;
  if (!is_by_weight (self))
    {
      const guint row = adw_combo_row_get_selected (self->draw_from);

      if (row < self->tubs->len && self->tubs->pdata[row] != NULL)
        *out = odd_tub_ref (self->tubs->pdata[row]);
      return TRUE;
    }
  if (!odd_length_entry_peek (self->scrap_width, &width_mm, error) || !odd_length_entry_peek (self->scrap_length, &length_mm, error))
    return FALSE;
  *out = odd_tub_new_by_weight (gtk_spin_button_get_value (self->kg), gtk_spin_button_get_value (self->gsm), width_mm, length_mm, error);
  return *out != NULL;
}

/* --- answers --- */

static void
clear_remedies (OddEstimateDialog *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->remedies))) != NULL)
    gtk_box_remove (self->remedies, child);
  gtk_widget_set_visible (GTK_WIDGET (self->remedies), FALSE);
}

static void
say (OddEstimateDialog *self,
     const char        *headline,
     const char        *sentence)
{
  gtk_label_set_text (self->headline, headline);
  gtk_label_set_text (self->short_headline, headline);
  gtk_label_set_text (self->sentence, sentence);
}

static void
refuse (OddEstimateDialog *self,
        const char        *why)
{
  g_autoptr(GPtrArray) none = odd_figure_list_new ();

  self->answered = FALSE;
  self->piece_wanted = FALSE;
  say (self, _("Not yet clear"), why);
  gtk_widget_remove_css_class (GTK_WIDGET (self->headline), "error");
  clear_remedies (self);
  odd_figure_list_show (none, self->figures);
  gtk_widget_set_sensitive (self->piece, FALSE);
}

static void
show_answer (OddEstimateDialog *self)
{
  const double gsm = is_by_weight (self) ? gtk_spin_button_get_value (self->gsm) : 0.0;
  g_autofree char *headline = odd_estimate_dup_headline (&self->estimate, &self->wish, self->unit);
  g_autofree char *sentence = odd_estimate_dup_sentence (&self->estimate, &self->wish, gsm, self->unit);
  g_autoptr(GPtrArray) figures = odd_estimate_dup_figures (&self->estimate, &self->wish, self->unit);

  say (self, headline, sentence);
  if (self->estimate.short_mm2 > 0.0)
    gtk_widget_add_css_class (GTK_WIDGET (self->headline), "error");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->headline), "error");
  clear_remedies (self);
  odd_figure_list_show (figures, self->figures);
  gtk_widget_set_sensitive (self->piece, self->has_scraps);
}

/* What is still being typed is taken first, or setting the value it had before would be no change. */
static void
take_typed (OddEstimateDialog *self)
{
  OddTemplate sizes[ODD_MAX_TEMPLATES];
  const char *complaint = NULL;
  double typed_mm;
  guint n;

  odd_template_rows_read (self->templates, sizes, &n, &complaint);
  odd_length_entry_read (self->scale, &typed_mm, &complaint);
  odd_length_entry_read (self->allowance, &typed_mm, &complaint);
}

static void
remedy_cb (OddEstimateDialog *self,
           GtkWidget         *button)
{
  const OddRemedy *remedy = g_object_get_data (G_OBJECT (button), "remedy");
  const OddRemedy chosen = *remedy;

  take_typed (self);
  switch (chosen.kind)
    {
    case ODD_REMEDY_SIZE:
    case ODD_REMEDY_ANOTHER_SIZE:
      odd_template_rows_set (self->templates, chosen.wish.templates, chosen.wish.n_templates);
      return;
    case ODD_REMEDY_SCALE:
      odd_length_entry_set_value (self->scale, chosen.wish.scale_mm);
      return;
    default:
      break;
    }
  odd_length_entry_set_value (self->allowance, NAN);
  for (guint i = 0; i < self->job->finishes->len; i++)
    if (((OddFinish *) self->job->finishes->pdata[i])->id == chosen.finish_id)
      adw_combo_row_set_selected (self->finish, i + 1);
}

static void
show_remedies (OddEstimateDialog *self,
               GArray            *remedies)
{
  clear_remedies (self);
  /* first: what is put into a box that is hidden does not make it forget the size it had */
  gtk_widget_set_visible (GTK_WIDGET (self->remedies), remedies->len > 0);
  for (guint i = 0; i < remedies->len; i++)
    {
      const OddRemedy *remedy = &g_array_index (remedies, OddRemedy, i);
      g_autofree char *label = odd_remedy_dup_label (remedy, self->job, self->unit);
      GtkWidget *button = gtk_button_new_with_label (label);
      GtkLabel *text = GTK_LABEL (gtk_button_get_child (GTK_BUTTON (button)));

      gtk_label_set_wrap (text, TRUE);
      gtk_label_set_justify (text, GTK_JUSTIFY_CENTER);
      g_object_set_data_full (G_OBJECT (button), "remedy", g_memdup2 (remedy, sizeof *remedy), g_free);
      g_signal_connect_object (button, "clicked", G_CALLBACK (remedy_cb), self, G_CONNECT_SWAPPED);
      gtk_box_append (self->remedies, button);
    }
}

/* --- on to piecing --- */

static void
piece_cb (OddEstimateDialog *self)
{
  g_autoptr(GtkWidget) from = g_object_ref (self->from);
  g_autoptr(GArray) scrap_ids = dup_scrap_ids (self);
  const OddPieceFunc piece = self->piece_func;
  OddProposalOptions offer;
  double allowance_mm = NAN;

  self->piece_wanted = !self->answered;
  if (!self->answered || piece == NULL)
    return;
  odd_proposal_options_init (&offer, self->job, self->wish.manner);
  odd_length_entry_peek (self->allowance, &allowance_mm, NULL);
  offer.width_mm = self->wish.panel_width_mm;
  offer.length_mm = self->wish.length_mm;
  offer.n_panels = self->estimate.n_panels;
  if (self->wish.manner == ODD_PIECE_SQUARES)
    {
      offer.n_templates = self->wish.n_templates;
      memcpy (offer.templates, self->wish.templates, sizeof offer.templates);
    }
  if (self->wish.manner == ODD_PIECE_CRUMBS)
    {
      offer.smallest_mm = self->wish.smallest_mm;
      offer.scale_mm = self->wish.scale_mm;
    }
  offer.liveliness = self->wish.liveliness;
  offer.treatment = get_treatment (self, allowance_mm);
  offer.scrap_ids = scrap_ids != NULL ? (const OddId *) scrap_ids->data : NULL;
  offer.n_scrap_ids = scrap_ids != NULL ? scrap_ids->len : 0;
  gtk_window_close (GTK_WINDOW (self));
  piece (from, &offer);
}

/* --- the worker: first the answer, then, where it is short, what would help --- */

static void
remedies_in_thread (GTask        *task,
                    gpointer      source,
                    gpointer      data,
                    GCancellable *cancellable)
{
  Question *question = data;
  GError *error = NULL;
  GArray *remedies = odd_tub_find_remedies (question->tub, question->job, &question->wish, cancellable, &error);

  if (remedies != NULL)
    g_task_return_pointer (task, remedies, (GDestroyNotify) g_array_unref);
  else
    g_task_return_error (task, error);
}

static void
remedies_cb (GObject      *source,
             GAsyncResult *result,
             gpointer      data)
{
  OddEstimateDialog *self = ODD_ESTIMATE_DIALOG (source);
  g_autoptr(GArray) remedies = g_task_propagate_pointer (G_TASK (result), NULL);

  if (remedies != NULL && self->cancellable == g_task_get_cancellable (G_TASK (result)))
    show_remedies (self, remedies);
}

static void
ask_remedies (OddEstimateDialog *self,
              const Question    *answered)
{
  g_autoptr(GTask) task = g_task_new (self, self->cancellable, remedies_cb, NULL);
  Question *question = g_memdup2 (answered, sizeof *answered);

  odd_job_ref (question->job);
  odd_tub_ref (question->tub);
  question->scrap_ids = NULL;
  g_task_set_task_data (task, question, (GDestroyNotify) question_free);
  g_task_run_in_thread (task, remedies_in_thread);
}

static void
answer_in_thread (GTask        *task,
                  gpointer      source,
                  gpointer      data,
                  GCancellable *cancellable)
{
  Question *question = data;
  GError *error = NULL;

  if (question->tub == NULL)
    question->tub = odd_tub_new (question->job, question->scrap_ids != NULL ? (const OddId *) question->scrap_ids->data : NULL,
                                 question->scrap_ids != NULL ? question->scrap_ids->len : 0);
  if (odd_tub_estimate (question->tub, &question->wish, &question->estimate, cancellable, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

static void
answered_cb (GObject      *source,
             GAsyncResult *result,
             gpointer      data)
{
  OddEstimateDialog *self = ODD_ESTIMATE_DIALOG (source);
  Question *question = g_task_get_task_data (G_TASK (result));
  g_autoptr(GError) error = NULL;
  const gboolean done = g_task_propagate_boolean (G_TASK (result), &error);

  if (question->tub != NULL && !odd_tub_is_by_weight (question->tub) && self->tubs != NULL && self->tubs->pdata[question->source] == NULL)
    self->tubs->pdata[question->source] = odd_tub_ref (question->tub);
  if (self->cancellable == NULL || self->cancellable != g_task_get_cancellable (G_TASK (result)))
    return;
  if (!done)
    {
      refuse (self, error->message);
      return;
    }
  self->wish = question->wish;
  self->estimate = question->estimate;
  self->answered = TRUE;
  show_answer (self);
  if (self->piece_wanted)
    piece_cb (self);
  else if (self->estimate.short_mm2 > 0.0)
    ask_remedies (self, question);
}

static void
call_off (OddEstimateDialog *self)
{
  if (self->cancellable != NULL)
    g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
}

static gboolean
ask_cb (gpointer data)
{
  OddEstimateDialog *self = data;
  g_autoptr(GTask) task = NULL;
  g_autoptr(GError) error = NULL;
  g_autoptr(OddTub) tub = NULL;
  Question *question;
  OddWish wish;

  self->ask_id = 0;
  if (!read_wish (self, &wish, &error) || !read_tub (self, &tub, &error))
    {
      refuse (self, error->message);
      return G_SOURCE_REMOVE;
    }
  question = g_new0 (Question, 1);
  question->job = odd_job_ref (self->job);
  question->tub = g_steal_pointer (&tub);
  question->wish = wish;
  question->source = adw_combo_row_get_selected (self->draw_from);
  question->scrap_ids = dup_scrap_ids (self);
  self->cancellable = g_cancellable_new ();
  task = g_task_new (self, self->cancellable, answered_cb, NULL);
  g_task_set_task_data (task, question, (GDestroyNotify) question_free);
  g_task_run_in_thread (task, answer_in_thread);
  return G_SOURCE_REMOVE;
}

/* Not at once: a text that is replaced is empty for a moment, and a button that is off for that moment would miss its click. */
static void
ask (OddEstimateDialog *self)
{
  call_off (self);
  self->answered = FALSE;
  if (self->ask_id == 0)
    self->ask_id = g_idle_add_full (G_PRIORITY_HIGH_IDLE, ask_cb, self, NULL);
}

static void
changed_cb (OddEstimateDialog *self)
{
  const gboolean by_weight = is_by_weight (self);
  const OddPieceManner manner = (OddPieceManner) adw_combo_row_get_selected (self->manner);

  if (self->starting || self->job == NULL)
    return;
  gtk_widget_set_visible (GTK_WIDGET (self->draw_from), !by_weight);
  gtk_widget_set_visible (self->kg_row, by_weight);
  gtk_widget_set_visible (self->gsm_row, by_weight);
  gtk_widget_set_visible (self->scrap_row, by_weight);
  gtk_widget_set_visible (GTK_WIDGET (self->templates), manner == ODD_PIECE_SQUARES);
  gtk_widget_set_visible (self->smallest_row, manner == ODD_PIECE_CRUMBS);
  gtk_widget_set_visible (self->scale_row, manner == ODD_PIECE_CRUMBS);
  gtk_widget_set_visible (self->liveliness_row, manner != ODD_PIECE_SQUARES);
  ask (self);
}

/* --- narrow --- */

static void
back_cb (OddEstimateDialog *self)
{
  adw_leaflet_set_visible_child (self->leaflet, self->wish_page);
}

static void
more_cb (OddEstimateDialog *self)
{
  adw_leaflet_set_visible_child (self->leaflet, self->answer_page);
}

static void
folded_cb (OddEstimateDialog *self)
{
  const gboolean folded = adw_leaflet_get_folded (self->leaflet);
  const gboolean on_answer = adw_leaflet_get_visible_child (self->leaflet) == self->answer_page;

  gtk_widget_set_visible (self->back, folded && on_answer);
  gtk_widget_set_visible (self->more, folded && !on_answer);
  gtk_widget_set_opacity (GTK_WIDGET (self->short_headline), folded && !on_answer ? 1.0 : 0.0);
}

/* --- life --- */

static void
tub_unref_nullable (gpointer data)
{
  if (data != NULL)
    odd_tub_unref (data);
}

static void
fill_lists (OddEstimateDialog *self)
{
  g_autoptr(GtkStringList) sources = gtk_string_list_new (NULL);
  g_autoptr(GtkStringList) known = gtk_string_list_new (NULL);
  g_autoptr(GtkStringList) finishes = gtk_string_list_new (NULL);

  self->sources = odd_scrap_sources_new (self->job, NULL, sources);
  self->tubs = g_ptr_array_new_with_free_func (tub_unref_nullable);
  g_ptr_array_set_size (self->tubs, self->sources->len);
  adw_combo_row_set_model (self->draw_from, G_LIST_MODEL (sources));
  if (self->has_scraps)
    gtk_string_list_append (known, _("its outlines"));
  gtk_string_list_append (known, _("its weight"));
  adw_combo_row_set_model (self->known_by, G_LIST_MODEL (known));
  gtk_string_list_append (finishes, _("as the textile has it"));
  for (guint i = 0; i < self->job->finishes->len; i++)
    gtk_string_list_append (finishes, ((OddFinish *) self->job->finishes->pdata[i])->name);
  adw_combo_row_set_model (self->finish, G_LIST_MODEL (finishes));
}

static void
start (OddEstimateDialog *self,
       const OddCutSizes *sizes)
{
  const OddTextile *textile = odd_job_get_textile (self->job, self->textile_id);
  OddLengthEntry *const entries[] = { self->scrap_width, self->scrap_length, self->width, self->length, self->panel_width, self->smallest, self->scale, self->allowance };
  OddProposalOptions offer;

  for (guint i = 0; i < G_N_ELEMENTS (entries); i++)
    g_object_set (entries[i], "unit", (int) self->unit, NULL);
  odd_template_rows_set_unit (self->templates, self->unit);
  odd_proposal_options_init (&offer, self->job, ODD_PIECE_SQUARES);
  self->starting = TRUE;
  self->has_scraps = odd_scrap_sources_count_free (self->job) > 0;
  fill_lists (self);
  gtk_spin_button_set_value (self->kg, OFFER_KG);
  gtk_spin_button_set_value (self->gsm, OFFER_GSM);
  odd_length_entry_set_value (self->scrap_width, OFFER_SCRAP_WIDTH_MM);
  odd_length_entry_set_value (self->scrap_length, OFFER_SCRAP_LENGTH_MM);
  odd_length_entry_set_value (self->width, textile != NULL && textile->target_width_mm > 0.0 ? textile->target_width_mm : OFFER_WIDTH_MM);
  odd_length_entry_set_value (self->length, textile != NULL && textile->target_length_mm > 0.0 ? textile->target_length_mm : OFFER_LENGTH_MM);
  odd_length_entry_set_value (self->panel_width, offer.width_mm);
  odd_template_rows_set (self->templates, sizes->templates, sizes->n_templates);
  odd_length_entry_set_value (self->smallest, offer.smallest_mm);
  odd_length_entry_set_value (self->allowance, sizes->allowance_mm);
  gtk_range_set_value (self->liveliness, offer.liveliness);
  self->starting = FALSE;
  changed_cb (self);
}

static void
odd_estimate_dialog_dispose (GObject *object)
{
  OddEstimateDialog *self = ODD_ESTIMATE_DIALOG (object);

  call_off (self);
  g_clear_handle_id (&self->ask_id, g_source_remove);
  g_clear_object (&self->from);
  g_clear_pointer (&self->tubs, g_ptr_array_unref);
  g_clear_pointer (&self->sources, g_ptr_array_unref);
  g_clear_pointer (&self->job, odd_job_unref);
  G_OBJECT_CLASS (odd_estimate_dialog_parent_class)->dispose (object);
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, OddEstimateDialog, name)

static void
bind_children (GtkWidgetClass *widget_class)
{
  BIND (leaflet);
  BIND (wish_page);
  BIND (answer_page);
  BIND (back);
  BIND (more);
  BIND (piece);
  BIND (known_by);
  BIND (draw_from);
  BIND (kg_row);
  BIND (gsm_row);
  BIND (scrap_row);
  BIND (kg);
  BIND (gsm);
  BIND (scrap_width);
  BIND (scrap_length);
  BIND (width);
  BIND (length);
  BIND (panel_width);
  BIND (manner);
  BIND (templates);
  BIND (smallest_row);
  BIND (smallest);
  BIND (scale_row);
  BIND (scale);
  BIND (liveliness_row);
  BIND (liveliness);
  BIND (finish);
  BIND (allowance);
  BIND (headline);
  BIND (short_headline);
  BIND (sentence);
  BIND (remedies);
  BIND (figures);
}

static void
odd_estimate_dialog_class_init (OddEstimateDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = odd_estimate_dialog_dispose;
  g_type_ensure (ODD_TYPE_LENGTH_ENTRY);
  g_type_ensure (ODD_TYPE_TEMPLATE_ROWS);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/estimate-dialog.ui");
  bind_children (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, piece_cb);
  gtk_widget_class_bind_template_callback (widget_class, back_cb);
  gtk_widget_class_bind_template_callback (widget_class, more_cb);
  gtk_widget_class_bind_template_callback (widget_class, folded_cb);
}

static void
odd_estimate_dialog_init (OddEstimateDialog *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  folded_cb (self);
}

void
odd_estimate_dialog_present (GtkWidget   *from,
                             OddDocument *document,
                             OddId        textile_id,
                             int          unit,
                             OddPieceFunc piece)
{
  GtkRoot *root = gtk_widget_get_root (from);
  OddEstimateDialog *self = g_object_new (ODD_TYPE_ESTIMATE_DIALOG, "transient-for", root, "modal", TRUE, NULL);
  const OddCutSizes sizes = odd_cut_counter_get_sizes (odd_cut_counter_get (document));

  self->from = g_object_ref (from);
  self->piece_func = piece;
  self->job = odd_job_ref (odd_document_get_job (document));
  self->textile_id = textile_id;
  self->unit = (OddUnit) unit;
  start (self, &sizes);
  gtk_window_present (GTK_WINDOW (self));
}
