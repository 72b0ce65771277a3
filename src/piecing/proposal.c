#include "config.h"

#include "piecing/propose-private.h"

#include <glib/gi18n.h>

#define LEAST_MM 10.0              /* no patch is worth sewing below this */
#define MOST_MM 10000.0
#define MOST_PANELS 200
#define MOST_TILT_DEG 45.0
#define MOST_SECONDS 86400.0
#define LITTLE_MM2 1e5             /* told in cm2 */
#define MOST_PATCHES 100000.0

G_DEFINE_QUARK (odd-piecing-error-quark, odd_piecing_error)

void
odd_proposal_options_init (OddProposalOptions *options,
                           OddJob             *job,
                           OddPieceManner           manner)
{
  *options = (OddProposalOptions) {
    .manner = manner,
    .width_mm = job->settings.column_width_mm,
    .length_mm = 1500.0,
    .n_panels = 1,
    .templates = { { 100.0, 100.0 } },
    .n_templates = 1,
    .treatment = ODD_TREATMENT_INHERIT,
    .smallest_mm = job->settings.min_side_mm,
    .row_least_mm = 40.0,
    .row_most_mm = 180.0,
    .liveliness = 0.6,
    .tilt_deg = 18.0,
    .spread = ODD_SPREAD_EVEN,
    .seed = 1,
  };
  /* below it, a column is nine to fifteen bars as wide as itself: calm, and dull to wear */
  if (manner == ODD_PIECE_COLUMNS)
    options->liveliness = 0.85;
  if (manner == ODD_PIECE_SQUARES)
    options->treatment.allowance_mm = 10.0;
}

void
odd_proposal_free (OddProposal *self)
{
  g_clear_pointer (&self->job, odd_job_unref);
  g_clear_pointer (&self->panels, g_array_unref);
  g_clear_pointer (&self->parts, g_array_unref);
  g_free (self->missing);
  g_free (self->remark);
  g_free (self);
}

void
odd_sentence_add (GString    *text,
                  const char *format,
                  ...)
{
  va_list args;

  if (text->len > 0)
    g_string_append_c (text, ' ');
  va_start (args, format);
  g_string_append_vprintf (text, format, args);
  va_end (args);
}

/* --- checks --- */

static gboolean
check_length (const char *name,
              double      mm,
              double      least_mm,
              GError    **error)
{
  if (isfinite (mm) && mm >= least_mm && mm <= MOST_MM)
    return TRUE;
  g_set_error (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_RANGE,
               _("The %s is %.1f mm; it must be between %.0f mm and %.0f m."), name, mm, least_mm, MOST_MM / 1000.0);

  return FALSE;
}

static gboolean
check_allowance (double   allowance_mm,
                 GError **error)
{
  if (isfinite (allowance_mm) && allowance_mm > 0.0)
    return TRUE;
  g_set_error (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_RANGE,
               _("The allowance is %.1f mm; a seam needs more than nothing."), allowance_mm);

  return FALSE;
}

gboolean
odd_templates_check (const OddTemplate *templates,
                     guint              n_templates,
                     double             allowance_mm,
                     GError           **error)
{
  if (!check_allowance (allowance_mm, error))
    return FALSE;
  if (n_templates < 1 || n_templates > ODD_MAX_TEMPLATES)
    {
      g_set_error (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_RANGE,
                   _("There are %u template sizes; choose one to %u."), n_templates, ODD_MAX_TEMPLATES);
      return FALSE;
    }
  for (guint i = 0; i < n_templates; i++)
    {
      const double side_mm = MIN (templates[i].width_mm, templates[i].length_mm);

      if (!check_length (_("template"), templates[i].width_mm, LEAST_MM, error)
          || !check_length (_("template"), templates[i].length_mm, LEAST_MM, error))
        return FALSE;
      if (side_mm - 2.0 * allowance_mm < LEAST_MM)
        {
          g_set_error (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_RANGE,
                       _("Two allowances of %.1f mm leave less than %.0f mm of a template of %.1f mm; take a larger template or a smaller allowance."),
                       allowance_mm, LEAST_MM, side_mm);
          return FALSE;
        }
    }

  return TRUE;
}

static gboolean
check_liveliness (const OddProposalOptions *options,
                  GError                  **error)
{
  if (options->liveliness >= 0.0 && options->liveliness <= 1.0)
    return TRUE;
  g_set_error (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_RANGE, _("Liveliness is %.2f; it must be between 0 and 1."), options->liveliness);

  return FALSE;
}

static gboolean
check_rows (const OddProposalOptions *options,
            GError                  **error)
{
  if (!check_length (_("smallest side"), options->smallest_mm, LEAST_MM, error)
      || !check_length (_("lowest row"), options->row_least_mm, options->smallest_mm, error)
      || !check_length (_("highest row"), options->row_most_mm, options->row_least_mm, error)
      || !check_length (_("width"), options->width_mm, options->smallest_mm, error)
      || !check_length (_("length"), options->length_mm, options->row_least_mm, error))
    return FALSE;

  return check_liveliness (options, error);
}

static gboolean
check_crumbs (const OddProposalOptions *options,
              GError                  **error)
{
  if (!check_length (_("smallest side"), options->smallest_mm, LEAST_MM, error)
      || !check_length (_("width"), options->width_mm, options->smallest_mm, error)
      || !check_length (_("length"), options->length_mm, options->smallest_mm, error)
      || (options->scale_mm != 0.0 && !check_length (_("size of a middle patch"), options->scale_mm, options->smallest_mm, error)))
    return FALSE;
  if (!(options->tilt_deg >= 0.0 && options->tilt_deg <= MOST_TILT_DEG))
    {
      g_set_error (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_RANGE, _("The tilt is %.1f degrees; it must be between 0 and %.0f."),
                   options->tilt_deg, MOST_TILT_DEG);
      return FALSE;
    }

  return check_liveliness (options, error);
}

/* Smallest thinkable patches: what would take minutes and sew for years is refused. */
static gboolean
check_amount (const OddProposalOptions *options,
              double                    allowance_mm,
              GError                  **error)
{
  double side_mm = options->smallest_mm;
  double n;

  if (!isfinite (options->seconds) || options->seconds < 0.0 || options->seconds > MOST_SECONDS)
    {
      g_set_error (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_RANGE,
                   _("%.1f seconds are given; it must be 0 to %.0f."), options->seconds, MOST_SECONDS);
      return FALSE;
    }
  if (options->n_panels < 1 || options->n_panels > MOST_PANELS)
    {
      g_set_error (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_RANGE,
                   _("%u panels are asked for; it must be 1 to %u."), options->n_panels, MOST_PANELS);
      return FALSE;
    }
  if (options->manner == ODD_PIECE_SQUARES)
    side_mm = MIN (options->templates[0].width_mm, options->templates[0].length_mm) - 2.0 * allowance_mm;
  n = options->width_mm * options->length_mm * options->n_panels / (side_mm * side_mm);
  if (n <= MOST_PATCHES)
    return TRUE;
  g_set_error (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_RANGE,
               _("That would be about %.0f patches; at most %.0f can be pieced at once. Ask for less cloth or larger patches."), n, MOST_PATCHES);

  return FALSE;
}

static gboolean
check_options (const OddProposalOptions *options,
               double                    allowance_mm,
               GError                  **error)
{
  if (!check_length (_("width"), options->width_mm, LEAST_MM, error)
      || !check_length (_("length"), options->length_mm, LEAST_MM, error))
    return FALSE;
  if (!check_allowance (allowance_mm, error))
    return FALSE;
  if (options->manner == ODD_PIECE_SQUARES ? !odd_templates_check (options->templates, options->n_templates, allowance_mm, error)
      : options->manner == ODD_PIECE_COLUMNS ? !check_rows (options, error) : !check_crumbs (options, error))
    return FALSE;

  return check_amount (options, allowance_mm, error);
}

gboolean
odd_sources_check (OddJob           *job,
                   const OddSources *sources,
                   GError          **error)
{
  if (sources->pieces->len > 0)
    return TRUE;
  if (job->scraps->len == 0)
    g_set_error_literal (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_NO_SCRAP, _("There are no scraps to piece from. Add scraps first."));
  else
    g_set_error (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_NO_SCRAP,
                 ngettext ("The only scrap is not free. Take a panel apart or add scraps.",
                           "None of the %u scraps is free. Take a panel apart or add scraps.", job->scraps->len), job->scraps->len);

  return FALSE;
}

/* --- from rows to a job --- */

static gboolean
is_set (const OddTreatment *treatment)
{
  return treatment->finish_id != 0 || !isnan (treatment->allowance_mm);
}

/* A textile without panels takes the treatment itself, so that joins have it too. */
static OddJob *
treat_textile (OddJob             *job,
               const OddTextile   *textile,
               const OddTreatment *treatment,
               GError            **error)
{
  if (textile->n_hung > 0 || !is_set (treatment))
    return odd_job_ref (job);

  return odd_job_set_treatment (job, ODD_LEVEL_TEXTILE, textile->id, 0, treatment, FALSE, error);
}

/* The join on the new panel's left, where the textile was there before and has another treatment. */
static OddJob *
treat_join (OddJob             *job,
            OddId               textile_id,
            gboolean            was_empty,
            const OddTreatment *treatment,
            GError            **error)
{
  const OddTextile *textile = odd_job_get_textile (job, textile_id);

  if (was_empty || textile->n_hung < 2 || !is_set (treatment))
    return odd_job_ref (job);

  return odd_job_set_treatment (job, ODD_LEVEL_SEAM, textile->joins[textile->n_hung - 2].id, 0, treatment, TRUE, error);
}

/* A copy whose next id is past those the panels have taken. */
static OddJob *
with_next_id (OddJob *job,
              OddId   next_id,
              GError **error)
{
  OddJob values = *job;

  values.next_id = next_id;

  return odd_job_new_take (&values, error);
}

static OddJob *
hang_panel (OddJob             *job,
            OddId               textile_id,
            gboolean            was_empty,
            OddPanel           *panel,
            const OddTreatment *treatment,
            GError            **error)
{
  g_autoptr(OddJob) hung = odd_job_insert_panel (job, textile_id, G_MAXUINT, panel, error);

  return hung != NULL ? treat_join (hung, textile_id, was_empty, treatment, error) : NULL;
}

/* Hangs the panels, whose ids are below @next_id, or leaves them loose. */
static OddJob *
hang_panels (const OddProposing *self,
             OddTextile         *textile,
             GPtrArray          *panels,
             OddId               next_id,
             GArray             *out_ids,
             GError            **error)
{
  const OddProposalOptions *options = self->options;
  const gboolean loose = options->into == ODD_INTO_LOOSE;
  g_autoptr(OddJob) treated = loose ? odd_job_ref (self->job) : treat_textile (self->job, textile, &options->treatment, error);
  g_autoptr(OddJob) job = NULL;

  if (treated == NULL)
    return NULL;
  job = with_next_id (treated, next_id, error);
  for (guint i = 0; job != NULL && i < panels->len; i++)
    {
      OddPanel *panel = panels->pdata[i];
      OddJob *hung = loose ? odd_job_insert_panel (job, 0, G_MAXUINT, panel, error)
                           : hang_panel (job, textile->id, textile->n_hung == 0, panel, &options->treatment, error);

      odd_job_unref (job);
      job = hung;
      g_array_append_val (out_ids, panel->id);
    }

  return g_steal_pointer (&job);
}

/* What a new panel says of its seams itself: nothing where the textile says it. */
static OddTreatment
panel_treatment (const OddProposing *self,
                 const OddTextile   *textile)
{
  return self->options->into == ODD_INTO_LOOSE || textile->n_hung > 0 ? self->options->treatment : ODD_TREATMENT_INHERIT;
}

/* --- what is to be said --- */

/* How much more cloth it would take if it were used as well as this. */
static void
tell_bare (const OddProposing *self,
           const OddFigures   *figures)
{
  if (figures->n_bare == 0 || figures->net_yield <= 0.0)
    return;
  if (figures->bare_mm2 < LITTLE_MM2)
    {
      odd_sentence_add (self->missing, _("%.0f cm² of %.0f cm² stay bare; about %.0f cm² more of such scraps would fill them."),
                        figures->bare_mm2 / 100.0, (figures->bare_mm2 + figures->finished_mm2) / 100.0, figures->bare_mm2 / figures->net_yield / 100.0);
      return;
    }
  odd_sentence_add (self->missing, _("%.2f m² of %.2f m² stay bare; about %.2f m² more of such scraps would fill them."),
                    figures->bare_mm2 / 1e6, (figures->bare_mm2 + figures->finished_mm2) / 1e6, figures->bare_mm2 / figures->net_yield / 1e6);
}

static OddTextile *
find_textile (OddJob                   *job,
              const OddProposalOptions *options,
              GError                  **error)
{
  OddTextile *textile = NULL;

  if (options->textile_id != 0)
    textile = odd_job_get_textile (job, options->textile_id);
  else if (job->textiles->len > 0)
    textile = job->textiles->pdata[0];
  if (textile == NULL)
    g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("There is no textile to hang the panels in. Add a textile first."));

  return textile;
}

OddProposal *
odd_proposal_new (const OddProposing *self,
                  OddJob             *before,
                  OddJob             *after,
                  const OddId        *panels,
                  guint               n_panels,
                  GError            **error)
{
  g_autoptr(OddProposal) proposal = g_new0 (OddProposal, 1);

  proposal->panels = g_array_new (FALSE, FALSE, sizeof (OddId));
  g_array_append_vals (proposal->panels, panels, n_panels);
  proposal->job = after;
  if (!odd_figures_measure (&proposal->figures, before, after, panels, n_panels, self->sources->area_mm2, self->options->spread,
                            self->options->n_threads, self->cancellable))
    {
      g_cancellable_set_error_if_cancelled (self->cancellable, error);
      return NULL;
    }
  tell_bare (self, &proposal->figures);
  if (self->missing->len > 0)
    proposal->missing = g_strdup (self->missing->str);
  proposal->remark = odd_proposing_dup_remark (self, before, proposal);

  return g_steal_pointer (&proposal);
}

/* Panels of rows. */
static OddProposal *
propose_rows (OddProposing *self,
              OddTextile   *textile,
              GError      **error)
{
  const guint n = self->options->n_panels;
  g_autoptr(GPtrArray) panels = g_ptr_array_new_with_free_func ((GDestroyNotify) g_ptr_array_unref);
  g_autoptr(GPtrArray) built = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_panel_unref);
  g_autoptr(GArray) ids = g_array_new (FALSE, FALSE, sizeof (OddId));
  const OddTreatment treatment = panel_treatment (self, textile);
  OddId next_id = self->job->next_id;
  GPtrArray **rows;
  OddJob *job;

  for (guint i = 0; i < n; i++)
    g_ptr_array_add (panels, odd_rows_new ());
  rows = (GPtrArray **) panels->pdata;
  if (!(self->options->manner == ODD_PIECE_SQUARES ? odd_propose_squares (self, rows, error) : odd_propose_columns (self, rows, error)))
    return NULL;
  for (guint i = 0; i < n; i++)
    g_ptr_array_add (built, odd_rows_build_panel (rows[i], self->sources, self->width_mm, self->allowance_mm, &treatment, &next_id));
  job = hang_panels (self, textile, built, next_id, ids, error);

  return job != NULL ? odd_proposal_new (self, self->job, job, (const OddId *) ids->data, ids->len, error) : NULL;
}

/* Bare panels, as large as is wanted. */
static OddJob *
add_bare_panels (OddProposing *self,
                 OddTextile   *textile,
                 GArray       *out_ids,
                 GError      **error)
{
  const OddProposalOptions *options = self->options;
  g_autoptr(GPtrArray) built = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_panel_unref);
  const OddTreatment treatment = panel_treatment (self, textile);
  OddId next_id = self->job->next_id;

  for (guint i = 0; i < options->n_panels; i++)
    {
      g_autoptr(OddPanel) plain = odd_panel_new_bare (next_id, "", options->width_mm, options->length_mm, next_id + 1);

      g_ptr_array_add (built, odd_panel_with_treatment (plain, &treatment));
      next_id += 2;
    }

  return hang_panels (self, textile, built, next_id, out_ids, error);
}

static OddProposal *
propose_crumbs (OddProposing *self,
                OddTextile   *textile,
                GError      **error)
{
  g_autoptr(GArray) ids = g_array_new (FALSE, FALSE, sizeof (OddId));
  g_autoptr(OddJob) bare = add_bare_panels (self, textile, ids, error);
  g_autoptr(OddFields) fields = NULL;
  OddJob *job;

  fields = bare != NULL ? odd_fields_new (bare, (const OddId *) ids->data, ids->len, NULL, 0, FALSE, error) : NULL;
  job = fields != NULL ? odd_propose_crumbs (self, fields, error) : NULL;

  return job != NULL ? odd_proposal_new (self, self->job, job, (const OddId *) ids->data, ids->len, error) : NULL;
}

OddProposal *
odd_propose (OddJob                   *job,
             const OddProposalOptions *options,
             OddProgressFunc           progress,
             gpointer                  data,
             GCancellable             *cancellable,
             GError                  **error)
{
  g_autoptr(OddSources) sources = NULL;
  g_autoptr(GString) missing = NULL;
  g_autoptr(OddProposal) proposal = NULL;
  OddTextile *textile;
  OddProposing self;
  double allowance_mm;

  g_return_val_if_fail (job != NULL && options != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  textile = find_textile (job, options, error);
  if (textile == NULL)
    return NULL;
  {
    const OddTreatment *levels[2] = { &textile->treatment, &options->treatment };

    odd_job_resolve (job, levels, G_N_ELEMENTS (levels), NULL, &allowance_mm);
  }
  if (!check_options (options, allowance_mm, error) || g_cancellable_set_error_if_cancelled (cancellable, error))
    return NULL;
  missing = g_string_new (NULL);
  self = (OddProposing) { job, options, allowance_mm, NULL, options->width_mm, missing, progress, data, cancellable };
  if (options->into == ODD_INTO_BARE || options->into == ODD_INTO_UNLOCKED)
    return odd_propose_into (&self, textile, error);
  self.sources = sources = odd_sources_new (job, options);
  if (!odd_sources_check (job, sources, error))
    return NULL;
  proposal = options->manner == ODD_PIECE_CRUMBS ? propose_crumbs (&self, textile, error) : propose_rows (&self, textile, error);
  if (proposal != NULL)
    odd_proposing_tell (&self, 1.0);

  return g_steal_pointer (&proposal);
}
