#include "config.h"

#include "ui/propose-settings.h"

#include <glib/gi18n.h>

#include "ui/length-entry.h"
#include "ui/scrap-sources.h"
#include "ui/template-rows.h"
#include "ui/share-rows.h"

#define REACHED_MM 0.05            /* as in piecing: a whole number of squares reaches a size within this */
#define NEW_LENGTH_MM 1500.0       /* first offered */

struct _OddProposeSettings
{
  AdwBin parent_instance;
  OddJob *job;
  OddId textile_id;
  OddUnit unit;
  GArray *shown;                   /* OddId, or NULL */
  GPtrArray *places;               /* of into: OddProposePlace */
  GPtrArray *sources;              /* of draw_from: GArray of OddId; NULL: all */
  gboolean starting;
  OddPieceManner manner_before;
  AdwComboRow *manner;
  AdwComboRow *draw_from;
  AdwComboRow *into;
  GtkWidget *cloth_heading;
  GtkWidget *cloth_list;
  GtkWidget *seams_heading;
  GtkWidget *seams_list;
  GtkSpinButton *panels;
  AdwActionRow *width_row;
  AdwActionRow *length_row;
  OddLengthEntry *width;
  OddLengthEntry *length;
  GtkWidget *squares_heading;
  OddTemplateRows *templates;
  GtkWidget *columns_heading;
  GtkWidget *columns_list;
  OddLengthEntry *smallest;
  OddLengthEntry *row_least;
  OddLengthEntry *row_most;
  GtkWidget *rows_row;
  GtkWidget *scale_row;
  OddLengthEntry *scale;
  GtkWidget *tilt_row;
  GtkSpinButton *tilt;
  GtkRange *liveliness;
  AdwComboRow *finish;
  OddLengthEntry *allowance;
  AdwComboRow *spread;
  OddShareRows *shares;
};

G_DEFINE_FINAL_TYPE (OddProposeSettings, odd_propose_settings, ADW_TYPE_BIN)

enum { CHANGED, N_SIGNALS };
static guint signals[N_SIGNALS];

static OddPieceManner
get_manner (OddProposeSettings *self)
{
  return (OddPieceManner) adw_combo_row_get_selected (self->manner);
}

static OddTreatment
get_treatment (OddProposeSettings *self)
{
  const guint row = adw_combo_row_get_selected (self->finish);
  OddTreatment treatment = ODD_TREATMENT_INHERIT;

  if (row > 0 && row <= self->job->finishes->len)
    treatment.finish_id = ((OddFinish *) self->job->finishes->pdata[row - 1])->id;
  treatment.allowance_mm = odd_length_entry_get_value (self->allowance);
  return treatment;
}

/* --- how many squares, told beside the lengths --- */

static double
resolve_allowance (OddProposeSettings *self)
{
  const OddTextile *textile = odd_job_get_textile (self->job, self->textile_id);
  const OddTreatment own = get_treatment (self);
  const OddTreatment *levels[2] = { textile != NULL ? &textile->treatment : NULL, &own };
  double allowance_mm;

  odd_job_resolve (self->job, levels, G_N_ELEMENTS (levels), NULL, &allowance_mm);
  return allowance_mm;
}

static char *
dup_whole (OddProposeSettings *self,
           double              wanted_mm,
           double              cut_mm)
{
  const double step_mm = cut_mm - 2.0 * resolve_allowance (self);
  g_autofree char *size = NULL;
  guint n;

  if (!(step_mm > 1.0) || !isfinite (wanted_mm) || wanted_mm / step_mm > 1e4)
    return g_strdup ("");
  n = (guint) MAX (1.0, ceil ((wanted_mm - REACHED_MM) / step_mm));
  size = odd_length_format (n * step_mm, self->unit);
  return g_strdup_printf (ngettext ("%u finished square: %s", "%u finished squares: %s", n), n, size);
}

static void
show_whole (OddProposeSettings *self)
{
  OddTemplate sizes[ODD_MAX_TEMPLATES];
  const gboolean told = odd_template_rows_get (self->templates, sizes) == 1 && get_manner (self) == ODD_PIECE_SQUARES;
  g_autofree char *across = NULL;
  g_autofree char *down = NULL;

  across = told ? dup_whole (self, odd_length_entry_get_value (self->width), sizes[0].width_mm) : g_strdup ("");
  down = told ? dup_whole (self, odd_length_entry_get_value (self->length), sizes[0].length_mm) : g_strdup ("");
  adw_action_row_set_subtitle (self->width_row, across);
  adw_action_row_set_subtitle (self->length_row, down);
}

static void
changed_cb (OddProposeSettings *self)
{
  if (self->starting || self->job == NULL)
    return;
  show_whole (self);
  g_signal_emit (self, signals[CHANGED], 0);
}

static void
show_manner (OddProposeSettings *self)
{
  const gboolean squares = get_manner (self) == ODD_PIECE_SQUARES;

  gtk_widget_set_visible (self->squares_heading, squares);
  gtk_widget_set_visible (GTK_WIDGET (self->templates), squares);
  gtk_widget_set_visible (self->columns_heading, !squares);
  gtk_widget_set_visible (self->columns_list, !squares);
  gtk_widget_set_visible (self->rows_row, get_manner (self) == ODD_PIECE_COLUMNS);
  gtk_widget_set_visible (self->scale_row, get_manner (self) == ODD_PIECE_CRUMBS);
  gtk_widget_set_visible (self->tilt_row, get_manner (self) == ODD_PIECE_CRUMBS);
}

static const OddProposePlace *
get_place (OddProposeSettings *self)
{
  const guint row = adw_combo_row_get_selected (self->into);

  return row < self->places->len ? self->places->pdata[row] : NULL;
}

/* A place that is there has its size and its seams already. */
static void
show_place (OddProposeSettings *self)
{
  const OddProposePlace *place = get_place (self);
  const gboolean made = place == NULL || place->into == ODD_INTO_TEXTILE || place->into == ODD_INTO_LOOSE;

  gtk_widget_set_visible (self->cloth_heading, made);
  gtk_widget_set_visible (self->cloth_list, made);
  gtk_widget_set_visible (self->seams_heading, made);
  gtk_widget_set_visible (self->seams_list, made);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (self->into), place != NULL ? place->says : "");
}

static void
into_cb (OddProposeSettings *self)
{
  if (self->starting || self->job == NULL)
    return;
  show_place (self);
  changed_cb (self);
}

/* What the manner before offered first gives way to what this one offers; an allowance that was typed stays. */
static void
manner_cb (OddProposeSettings *self)
{
  OddProposalOptions before, own;
  const double shown = odd_length_entry_get_value (self->allowance);

  if (self->starting || self->job == NULL)
    return;
  odd_proposal_options_init (&own, self->job, get_manner (self));
  odd_proposal_options_init (&before, self->job, self->manner_before);
  if (shown == before.treatment.allowance_mm || (isnan (shown) && isnan (before.treatment.allowance_mm)))
    odd_length_entry_set_value (self->allowance, own.treatment.allowance_mm);
  self->manner_before = get_manner (self);
  show_manner (self);
  changed_cb (self);
}

/* --- what is offered first --- */

static double
offer_length (const OddTextile *textile)
{
  double length_mm = 0.0;

  for (guint i = 0; textile != NULL && i < textile->n_hung; i++)
    length_mm = MAX (length_mm, odd_convex_box (textile->hung[i].panel->outline).height);
  if (textile != NULL && textile->target_length_mm > 0.0)
    length_mm = textile->target_length_mm;
  return length_mm > 0.0 ? length_mm : NEW_LENGTH_MM;
}

/* As many as the wanted width still asks for. */
static guint
offer_panels (OddJob     *job,
              OddTextile *textile,
              double      width_mm)
{
  g_autoptr(OddTextileLayout) layout = NULL;
  double missing_mm;

  if (textile == NULL || textile->target_width_mm <= 0.0)
    return 1;
  layout = odd_job_dup_textile_layout (job, textile->id);
  missing_mm = layout->n_panels > 0 ? layout->missing_width_mm : textile->target_width_mm;
  return (guint) CLAMP (ceil ((missing_mm - REACHED_MM) / width_mm), 1.0, 60.0);
}

static void
fill_draw_from (OddProposeSettings *self)
{
  g_autoptr(GtkStringList) names = gtk_string_list_new (NULL);

  g_clear_pointer (&self->sources, g_ptr_array_unref);
  self->sources = odd_scrap_sources_new (self->job, self->shown, names);
  adw_combo_row_set_model (self->draw_from, G_LIST_MODEL (names));
}

static void
fill_into (OddProposeSettings *self,
           OddSelected         kind,
           OddId               id)
{
  g_autoptr(GtkStringList) texts = gtk_string_list_new (NULL);
  guint first;

  g_clear_pointer (&self->places, g_ptr_array_unref);
  self->places = odd_propose_places_new (self->job, self->textile_id, kind, id, self->unit, &first);
  for (guint i = 0; i < self->places->len; i++)
    gtk_string_list_append (texts, ((OddProposePlace *) self->places->pdata[i])->text);
  adw_combo_row_set_model (self->into, G_LIST_MODEL (texts));
  adw_combo_row_set_selected (self->into, first);
}

static void
fill_finishes (OddProposeSettings *self)
{
  g_autoptr(GtkStringList) names = gtk_string_list_new (NULL);

  gtk_string_list_append (names, _("as the textile has it"));
  for (guint i = 0; i < self->job->finishes->len; i++)
    gtk_string_list_append (names, ((OddFinish *) self->job->finishes->pdata[i])->name);
  adw_combo_row_set_model (self->finish, G_LIST_MODEL (names));
}

static void
set_units (OddProposeSettings *self)
{
  OddLengthEntry *const entries[] = { self->width, self->length, self->smallest, self->row_least, self->row_most, self->scale, self->allowance };

  for (guint i = 0; i < G_N_ELEMENTS (entries); i++)
    g_object_set (entries[i], "unit", (int) self->unit, NULL);
  odd_template_rows_set_unit (self->templates, self->unit);
}

void
odd_propose_settings_start (OddProposeSettings *self,
                            OddJob             *job,
                            OddId               textile_id,
                            OddUnit             unit,
                            GArray             *shown,
                            OddSelected         kind,
                            OddId               id)
{
  OddTextile *textile;
  OddProposalOptions options;

  g_return_if_fail (ODD_IS_PROPOSE_SETTINGS (self) && job != NULL);

  self->starting = TRUE;
  g_clear_pointer (&self->job, odd_job_unref);
  self->job = odd_job_ref (job);
  self->textile_id = textile_id;
  self->unit = unit;
  g_clear_pointer (&self->shown, g_array_unref);
  self->shown = shown != NULL ? g_array_ref (shown) : NULL;
  textile = odd_job_get_textile (job, textile_id);
  odd_proposal_options_init (&options, job, ODD_PIECE_SQUARES);
  set_units (self);
  fill_draw_from (self);
  fill_into (self, kind, id);
  fill_finishes (self);
  odd_share_rows_start (self->shares, job);
  gtk_spin_button_set_value (self->panels, offer_panels (job, textile, options.width_mm));
  odd_length_entry_set_value (self->width, options.width_mm);
  odd_length_entry_set_value (self->length, offer_length (textile));
  odd_template_rows_set (self->templates, options.templates, options.n_templates);
  odd_length_entry_set_value (self->smallest, options.smallest_mm);
  odd_length_entry_set_value (self->row_least, options.row_least_mm);
  odd_length_entry_set_value (self->row_most, options.row_most_mm);
  odd_length_entry_set_value (self->scale, options.scale_mm > 0.0 ? options.scale_mm : NAN);
  gtk_spin_button_set_value (self->tilt, options.tilt_deg);
  odd_length_entry_set_value (self->allowance, options.treatment.allowance_mm);
  gtk_range_set_value (self->liveliness, options.liveliness);
  if (get_place (self) != NULL && get_place (self)->panel_id != 0)
    adw_combo_row_set_selected (self->manner, odd_propose_guess_manner (job, kind, id));
  self->manner_before = get_manner (self);
  show_manner (self);
  show_place (self);
  show_whole (self);
  self->starting = FALSE;
}

void
odd_propose_settings_offer (OddProposeSettings       *self,
                            const OddProposalOptions *options)
{
  guint row = 0;

  g_return_if_fail (ODD_IS_PROPOSE_SETTINGS (self) && self->job != NULL && options != NULL);

  self->starting = TRUE;
  for (guint i = 0; i < self->job->finishes->len; i++)
    if (((OddFinish *) self->job->finishes->pdata[i])->id == options->treatment.finish_id)
      row = i + 1;
  adw_combo_row_set_selected (self->manner, options->manner);
  adw_combo_row_set_selected (self->draw_from, odd_scrap_sources_find (self->sources, options->scrap_ids, options->n_scrap_ids));
  adw_combo_row_set_selected (self->into, 0);
  adw_combo_row_set_selected (self->finish, row);
  gtk_spin_button_set_value (self->panels, options->n_panels);
  odd_length_entry_set_value (self->width, options->width_mm);
  odd_length_entry_set_value (self->length, options->length_mm);
  odd_template_rows_set (self->templates, options->templates, options->n_templates);
  odd_length_entry_set_value (self->smallest, options->smallest_mm);
  odd_length_entry_set_value (self->scale, options->scale_mm > 0.0 ? options->scale_mm : NAN);
  odd_length_entry_set_value (self->allowance, options->treatment.allowance_mm);
  gtk_range_set_value (self->liveliness, options->liveliness);
  self->manner_before = get_manner (self);
  show_manner (self);
  show_place (self);
  show_whole (self);
  self->starting = FALSE;
}

void
odd_propose_settings_offer_sizes (OddProposeSettings *self,
                                  const OddCutSizes  *sizes)
{
  g_return_if_fail (ODD_IS_PROPOSE_SETTINGS (self) && self->job != NULL && sizes != NULL);

  self->starting = TRUE;
  odd_template_rows_set (self->templates, sizes->templates, sizes->n_templates);
  if (get_manner (self) == ODD_PIECE_SQUARES)
    odd_length_entry_set_value (self->allowance, sizes->allowance_mm);
  show_whole (self);
  self->starting = FALSE;
}

/* --- reading --- */

static gboolean
read_lengths (OddProposeSettings *self,
              OddProposalOptions *options,
              const char        **complaint)
{
  if (gtk_widget_get_visible (self->cloth_list) &&
      (!odd_length_entry_read (self->width, &options->width_mm, complaint) ||
       !odd_length_entry_read (self->length, &options->length_mm, complaint) ||
       !odd_length_entry_read (self->allowance, &options->treatment.allowance_mm, complaint)))
    return FALSE;
  if (options->manner == ODD_PIECE_SQUARES)
    return odd_template_rows_read (self->templates, options->templates, &options->n_templates, complaint);
  if (!odd_length_entry_read (self->smallest, &options->smallest_mm, complaint))
    return FALSE;
  if (options->manner == ODD_PIECE_CRUMBS)
    return odd_length_entry_read (self->scale, &options->scale_mm, complaint);
  return odd_length_entry_read (self->row_least, &options->row_least_mm, complaint) &&
         odd_length_entry_read (self->row_most, &options->row_most_mm, complaint);
}

gboolean
odd_propose_settings_read (OddProposeSettings *self,
                           OddProposalOptions *options,
                           const char        **out_complaint)
{
  const GArray *ids;

  g_return_val_if_fail (ODD_IS_PROPOSE_SETTINGS (self) && self->job != NULL, FALSE);

  odd_proposal_options_init (options, self->job, get_manner (self));
  options->treatment = gtk_widget_get_visible (self->seams_list) ? get_treatment (self) : ODD_TREATMENT_INHERIT;
  if (!read_lengths (self, options, out_complaint))
    return FALSE;
  options->textile_id = self->textile_id;
  options->n_panels = (guint) gtk_spin_button_get_value_as_int (self->panels);
  options->liveliness = gtk_range_get_value (self->liveliness);
  options->tilt_deg = gtk_spin_button_get_value (self->tilt);
  if (get_place (self) != NULL)
    odd_propose_place_apply (get_place (self), options);
  if (isnan (options->scale_mm))
    options->scale_mm = 0.0;
  options->spread = (OddSpread) adw_combo_row_get_selected (self->spread);
  ids = odd_scrap_sources_get (self->sources, adw_combo_row_get_selected (self->draw_from));
  if (ids != NULL)
    {
      options->scrap_ids = (const OddId *) ids->data;
      options->n_scrap_ids = ids->len;
    }
  options->shares = odd_share_rows_get (self->shares, &options->n_shares);
  show_whole (self);
  return TRUE;
}

gboolean
odd_propose_settings_can_be (OddProposeSettings *self)
{
  g_return_val_if_fail (ODD_IS_PROPOSE_SETTINGS (self), FALSE);

  return odd_share_rows_get_complaint (self->shares) == NULL;
}

/* --- life --- */

static void
odd_propose_settings_dispose (GObject *object)
{
  OddProposeSettings *self = ODD_PROPOSE_SETTINGS (object);

  g_clear_pointer (&self->job, odd_job_unref);
  g_clear_pointer (&self->shown, g_array_unref);
  g_clear_pointer (&self->places, g_ptr_array_unref);
  g_clear_pointer (&self->sources, g_ptr_array_unref);
  G_OBJECT_CLASS (odd_propose_settings_parent_class)->dispose (object);
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, OddProposeSettings, name)

static void
odd_propose_settings_class_init (OddProposeSettingsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = odd_propose_settings_dispose;
  signals[CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  g_type_ensure (ODD_TYPE_LENGTH_ENTRY);
  g_type_ensure (ODD_TYPE_TEMPLATE_ROWS);
  g_type_ensure (ODD_TYPE_SHARE_ROWS);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/propose-settings.ui");
  BIND (manner);
  BIND (draw_from);
  BIND (into);
  BIND (cloth_heading);
  BIND (cloth_list);
  BIND (seams_heading);
  BIND (seams_list);
  BIND (panels);
  BIND (width_row);
  BIND (length_row);
  BIND (width);
  BIND (length);
  BIND (squares_heading);
  BIND (templates);
  BIND (columns_heading);
  BIND (columns_list);
  BIND (smallest);
  BIND (row_least);
  BIND (row_most);
  BIND (rows_row);
  BIND (scale_row);
  BIND (scale);
  BIND (tilt_row);
  BIND (tilt);
  BIND (liveliness);
  BIND (finish);
  BIND (allowance);
  BIND (spread);
  BIND (shares);
  gtk_widget_class_bind_template_callback (widget_class, changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, manner_cb);
  gtk_widget_class_bind_template_callback (widget_class, into_cb);
}

static void
odd_propose_settings_init (OddProposeSettings *self)
{
  self->places = g_ptr_array_new ();
  self->sources = g_ptr_array_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
}
