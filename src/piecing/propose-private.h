/* What the manners share while a proposal is made. */
#pragma once

#include "piecing/cut-plan.h"
#include "piecing/field.h"
#include "piecing/random.h"
#include "piecing/rows.h"

G_BEGIN_DECLS

typedef struct
{
  OddJob *job;
  const OddProposalOptions *options;
  double allowance_mm;
  OddSources *sources;
  double width_mm;              /* finished width of each panel: the manner may widen it to whole squares */
  GString *missing;             /* sentences */
  OddProgressFunc progress;     /* or NULL */
  gpointer progress_data;
  GCancellable *cancellable;
  OddConvex *within;            /* squares: the cut shape that templates in rows from y = 0 on must cover; NULL: a panel of whole squares */
  double earlier;               /* within: rows begin so much of a square before they would if both ends were alike */
  OddJob *before;               /* into cloth that stands: before anything was taken off; else NULL */
} OddProposing;

static inline void
odd_proposing_tell (const OddProposing *self,
                    double              done)
{
  if (self->progress != NULL)
    self->progress (done, self->progress_data);
}

/* Adds a sentence. */
void odd_sentence_add (GString *text, const char *format, ...) G_GNUC_PRINTF (2, 3);

/* Each fills @panels, options->n_panels arrays of rows (odd_rows_new()). */
gboolean odd_propose_squares (OddProposing *self, GPtrArray **panels, GError **error);
gboolean odd_propose_columns (OddProposing *self, GPtrArray **panels, GError **error);

/* What the templates give of one piece, at the turns its cloth allows. */
OddCutPlan *odd_sources_plan_piece (const OddSources *sources, guint piece, const OddTemplate *templates, guint n_templates, double allowance_mm);
/* Finished side of a middle patch of crumbs where none is wanted: from the middle piece of the sources; the largest panel gets a few dozen of them at
 * least. @panel_mm2: finished */
double odd_crumb_scale_by_tub (const OddSources *sources, double panel_mm2, double allowance_mm, double smallest_mm);

/* FALSE with an error when there is nothing to draw from. */
gboolean odd_sources_check (OddJob *job, const OddSources *sources, GError **error);
/* Fills the fields. (transfer full): fields->job with them filled. */
OddJob *odd_propose_crumbs (OddProposing *self, const OddFields *fields, GError **error);
/* The same from what lay there before, made better. */
OddJob *odd_improve_crumbs (OddProposing *self, const OddFields *fields, OddImproveFunc improve, gpointer data, GError **error);
/* Bare regions, or all that is not kept, of panels that are there. */
OddProposal *odd_propose_into (const OddProposing *self, const OddTextile *textile, GError **error);
/* The figures and what is to be said of them. Takes @after. NULL with an error when cancelled. */
OddProposal *odd_proposal_new (const OddProposing *self, OddJob *before, OddJob *after, const OddId *panels, guint n_panels, GError **error);
/* Why neighbours are of one fabric, from the figures that are there already. (transfer full) (nullable) */
char *odd_proposing_dup_remark (const OddProposing *self, OddJob *before, const OddProposal *proposal);
/* Notes in the proposal what took the places of the fields. */
void odd_proposal_note_parts (OddProposal *self, const OddFields *fields);
/* Panels that fields belong to, each once. (transfer full) GArray of OddId */
GArray *odd_fields_dup_panels (const OddFields *fields);

G_END_DECLS
