/* What a tub of scraps gives, and whether that is enough, without piecing anything: from its weight alone, or from the outlines. */
#pragma once

#include "piecing/proposal.h"

G_BEGIN_DECLS

/* Cloth there is, asked many times; what was worked out is kept. Atomically reference counted; may be asked from any thread. */
typedef struct _OddTub OddTub;

/* The usable cloth of the free scraps. @scrap_ids: (nullable): only these. */
OddTub *odd_tub_new (OddJob *job, const OddId *scrap_ids, guint n_scrap_ids);
/*
 * odd_tub_new_by_weight:
 * @kg: of the whole tub
 * @gsm: mean weight of its cloth, g/m2
 * @scrap_width_mm: about as large is a scrap
 *
 * Before any outline exists: rectangles about so large, either side between half as long and half as long again, evenly spread (our own
 * assumption). Sound scraps of a plain shape: real ones give less.
 *
 * Returns: (transfer full): NULL with an error for a figure that makes no sense
 */
OddTub *odd_tub_new_by_weight (double kg, double gsm, double scrap_width_mm, double scrap_length_mm, GError **error);
OddTub *odd_tub_ref (OddTub *self);
void odd_tub_unref (OddTub *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddTub, odd_tub_unref)
double odd_tub_get_area_mm2 (const OddTub *self);
double odd_tub_get_n_scraps (const OddTub *self);          /* a whole number unless by weight */
gboolean odd_tub_is_by_weight (const OddTub *self);

typedef struct
{
  OddPieceManner manner;
  double width_mm, length_mm;       /* finished, of the textile */
  double panel_width_mm;            /* finished; squares: at least, in whole squares */
  OddTemplate templates[ODD_MAX_TEMPLATES];    /* squares: cut sizes */
  guint n_templates;
  double allowance_mm;              /* of all seams and edges */
  double liveliness;                /* as in #OddProposalOptions: columns, crumbs */
  double smallest_mm, scale_mm;     /* the same: crumbs */
} OddWish;

typedef struct
{
  guint n_panels;
  double panel_width_mm, panel_length_mm;      /* finished, of each alone; of the shortest where rows of several heights make them differ */
  double cut_width_mm, cut_length_mm;          /* the same with its edge allowances: raw edge to raw edge */
  double width_mm, length_mm;       /* finished, of the textile that comes of it */
  guint n_patches;                  /* squares: exact; else about */
  guint n_wanted[ODD_MAX_TEMPLATES];           /* the same by template */
  double patch_mm;                  /* side of a square as large as a mean patch; squares: of the first template */
  double seams_mm;                  /* raw lengths, joins included; squares of one size: exact; else about */
  double own_bound;                 /* finished / cut, of patches of this size */
  double heap_mm2;
  double heap_bound;                /* sum |scrap eroded by the allowance| / sum |scrap|: no patches of any shape can show more */
  double gives_mm2;                 /* finished cloth it will about give; squares: as counted */
  guint n_gives;                    /* squares it gives; else 0 */
  guint n_gives_of[ODD_MAX_TEMPLATES];         /* the same by template, cut in one pass */
  double wanted_mm2;                /* finished */
  double short_mm2;                 /* finished; 0: enough */
  guint n_short;                    /* squares; else 0 */
  guint n_short_of[ODD_MAX_TEMPLATES];
  double more_mm2;                  /* about so much more of such scraps would do; 0: enough; INFINITY: none of these scraps gives anything */
  double longest_mm;                /* the longest textile of the wanted width that it gives; 0: none */
  double largest_width_mm, largest_length_mm;  /* the largest of about the wanted proportion; 0: none */
} OddEstimate;

/*
 * odd_tub_estimate:
 * @out: untouched on error
 *
 * Squares are counted scrap by scrap with the cutting plans (cut-plan.h), and shared among rows as a proposal shares them (square-rows.h). For
 * columns it is the heap bound times a share that proposals reach when they use up the model heap of tests/bench; for crumbs the same, by
 * the size of patches: bench-estimate prints both shares, and how far the estimate strays.
 *
 * Returns: %FALSE with an error: ODD_PIECING_ERROR or cancelled
 */
gboolean odd_tub_estimate (OddTub *self, const OddWish *wish, OddEstimate *out, GCancellable *cancellable, GError **error);

typedef enum
{
  ODD_REMEDY_SIZE,                  /* smaller templates */
  ODD_REMEDY_ANOTHER_SIZE,          /* a smaller template beside those that are there */
  ODD_REMEDY_SCALE,                 /* crumbs: another size of patches */
  ODD_REMEDY_FINISH
} OddRemedyKind;

/* A change that would make the tub enough. */
typedef struct
{
  OddRemedyKind kind;
  OddWish wish;                     /* with the change */
  OddId finish_id;                  /* of ODD_REMEDY_FINISH */
} OddRemedy;

/*
 * odd_tub_find_remedies:
 *
 * The largest smaller templates, the first in whole centimetres and the others with it; the largest template, in whole centimetres, to cut
 * besides; the size of patches next to the wanted one; the finish of the job with the widest smaller allowance.
 *
 * Returns: (transfer full) (element-type OddRemedy): those that would do; NULL when cancelled
 */
GArray *odd_tub_find_remedies (OddTub *self, OddJob *job, const OddWish *wish, GCancellable *cancellable, GError **error);

G_END_DECLS
