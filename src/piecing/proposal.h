/* A proposal: panels pieced by themselves from the scraps of a job, and the figures to judge them by. */
#pragma once

#include "cloth/edit.h"

G_BEGIN_DECLS

typedef enum { ODD_PIECE_SQUARES, ODD_PIECE_COLUMNS, ODD_PIECE_CRUMBS } OddPieceManner;
typedef enum { ODD_SPREAD_EVEN, ODD_SPREAD_LIGHT_TOP, ODD_SPREAD_DARK_TOP } OddSpread;   /* light and dark over the length */

/* Where it goes. */
typedef enum
{
  ODD_INTO_TEXTILE,                 /* new panels, hung at the textile's right */
  ODD_INTO_LOOSE,                   /* new loose panels: pieces by themselves */
  ODD_INTO_BARE,                    /* the bare regions of panels that are there */
  ODD_INTO_UNLOCKED                 /* the same panels anew, but for what is locked, cut out or sewn */
} OddInto;

#define ODD_MAX_TEMPLATES 3

/* What is drawn round before cutting: allowances included, mm. */
typedef struct { double width_mm, length_mm; } OddTemplate;

/* About so much of the finished area at most, 0..1; and about so much at least where the tub has it. */
typedef struct { OddId fabric_id; double most, least; } OddShare;

typedef struct
{
  OddPieceManner manner;
  double width_mm, length_mm;       /* finished, of each panel alone; squares: at least so much, in whole squares */
  guint n_panels;
  OddTemplate templates[ODD_MAX_TEMPLATES];   /* squares */
  guint n_templates;
  OddTreatment treatment;           /* of seams, edges and joins; both members unset: as the textile has it */
  double smallest_mm;               /* no finished side below this (columns); no patch narrower (crumbs) */
  double row_least_mm, row_most_mm; /* finished heights of rows (columns) */
  double liveliness;                /* 0 calm: widest pieces, or all of one size; 1 lively: many sizes (columns, crumbs) */
  double tilt_deg;                  /* of seams against the panel's sides, at most (crumbs) */
  double scale_mm;                  /* finished side of a patch of middle size (crumbs); 0: by the tub */
  OddSpread spread;
  guint64 seed;
  guint n_threads;                  /* 0: one a processor; no matter for the result */
  guint64 moves;                    /* of the arrangement; 0: as many as the size of the cloth asks for */
  double seconds;                   /* above 0: the arrangement goes on so long instead, and what comes out depends on the computer */
  OddId textile_id;                 /* 0: the job's first */
  const OddId *scrap_ids;           /* (nullable): the scraps to draw from, those that are not free left out; NULL: all that are free */
  guint n_scrap_ids;
  gboolean remains;                 /* what is left of scraps that lie in a panel already may be drawn from too */
  const OddShare *shares;           /* (nullable): fabrics of which there may not be more, or should not be less, than so much */
  guint n_shares;
  OddInto into;
  const OddId *panel_ids;           /* (nullable): bare, unlocked: these panels; NULL: all of the textile */
  guint n_panel_ids;
  const OddId *part_ids;            /* (nullable): bare, unlocked, and improving: what lies in these strips and patches alone; NULL: all of the panels */
  guint n_part_ids;
} OddProposalOptions;

/* Squares of 10 cm with 1 cm allowance; columns of the job's width; crumbs tilted up to 18 degrees; one panel, 1.5 m; seed 1. Our choice. */
void odd_proposal_options_init (OddProposalOptions *options, OddJob *job, OddPieceManner manner);

/* All measured on the layouts that came out, not taken from the search. Areas mm2, lengths mm. */
typedef struct
{
  guint n_patches, n_bare;
  double finished_mm2;              /* of the patches */
  double bare_mm2;
  double cut_mm2;                   /* their cut shapes */
  double heap_mm2;                  /* usable cloth there was to draw from */
  double used_mm2;                  /* usable cloth of the scraps used, less the offcuts that come back */
  double net_yield;                 /* finished / used; 0..1 */
  double own_bound;                 /* finished / cut: what allowances alone leave of these very patches */
  double fit;                       /* net_yield / own_bound: how well scraps were used, whatever the size of patches */
  double of_heap;                   /* finished / heap */
  double smallest_side_mm;          /* least width of any patch; 0 without patches */
  guint n_contacts;                 /* pairs of patches of one fabric that share a border; joins included */
  guint n_alike;                    /* pairs of different fabrics that share a border and differ by less than 10 in CIEDE2000 */
  guint n_lined_up;                 /* ends of seams on the two sides of one seam nearer than 15 mm; wanted in a grid of squares */
  double lightness_spread;          /* standard deviation of the mean L* of each patch with its neighbours, about the wanted course */
  double seams_mm;                  /* raw lengths, joins of new panels included */
  guint n_scraps_used;
  guint n_offcuts;
  double offcuts_mm2;
  guint32 widest_share_fabric;      /* fabric with most patches, 0: unknown cloth */
  double widest_share;              /* its share of the patches */
} OddFigures;

typedef struct
{
  OddJob *job;                      /* the job with the panels in it */
  GArray *panels;                   /* OddId of the new ones, or of those pieced anew */
  GArray *parts;                    /* OddId of the strips and patches that came into panels that were there: to improve these alone; else NULL */
  OddFigures figures;
  char *missing;                    /* sentences: what is short and by how much; NULL when nothing is */
  char *remark;                     /* sentences: what could not be had and why; NULL */
} OddProposal;

void odd_proposal_free (OddProposal *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddProposal, odd_proposal_free)

#define ODD_PIECING_ERROR (odd_piecing_error_quark ())
GQuark odd_piecing_error_quark (void);
typedef enum
{
  ODD_PIECING_ERROR_RANGE,          /* a length or count that makes no sense */
  ODD_PIECING_ERROR_NO_SCRAP        /* no scrap is free, or none fits; the message says which limit rules them out */
} OddPiecingError;

/* Can squares be cut and sewn so? ODD_PIECING_ERROR_RANGE says what is wrong. */
gboolean odd_templates_check (const OddTemplate *templates, guint n_templates, double allowance_mm, GError **error);

/* Called from the thread that calls odd_propose(), 0..1 rising. */
typedef void (*OddProgressFunc) (double done, gpointer data);

/*
 * odd_propose:
 * @job: read only; stays as it is
 * @progress: (nullable)
 * @cancellable: (nullable): polled often; G_IO_ERROR_CANCELLED
 *
 * Adds panels to a textile, drawing from free scraps alone, so whatever stands is kept. The same job, options and seed give the same
 * proposal, whatever the number of threads. Not enough cloth is no error: regions stay bare and @missing says what is short.
 *
 * Returns: (transfer full): the proposal, or NULL with an error
 */
OddProposal *odd_propose (OddJob *job, const OddProposalOptions *options, OddProgressFunc progress, gpointer data, GCancellable *cancellable, GError **error);

/* What odd_propose() would fill or take off with @options->into bare or unlocked: places, patches that come off, and their area. */
typedef struct { guint n_places, n_patches; double area_mm2; } OddRoom;
OddRoom odd_proposal_measure_room (OddJob *job, const OddProposalOptions *options);

/*
 * OddImproveFunc:
 * @done: 0..1, rising
 * @so_far: (nullable) (transfer none): the best yet, when it is better than the last one told; at most two a second, or, counted in moves, twenty in all
 *
 * Called from the thread that calls odd_improve().
 */
typedef void (*OddImproveFunc) (double done, OddProposal *so_far, gpointer data);

/*
 * odd_improve:
 * @job: with the panels in it, as from odd_propose(); read only
 * @panels: (array length=n_panels): panels of crumbs, or of any straight seams; what is locked, cut out or sewn stays
 * @options: smallest_mm, tilt_deg, spread, seed, n_threads, moves (0: by the size of the cloth) or seconds, scraps to draw from, parts
 * @improve: (nullable)
 *
 * Moves seams and exchanges scraps for as long as @options say (simulated annealing, two of them side by side, the better one copied now and
 * then). Counted in moves, the same job, options and seed give the same proposal, whatever the number of threads. Never worse than it was.
 * Ids of parts that are pieced anew are new.
 *
 * Returns: (transfer full): the proposal, or NULL with an error; G_IO_ERROR_CANCELLED: what was told last is the best there is
 */
OddProposal *odd_improve (OddJob *job, const OddId *panels, guint n_panels, const OddProposalOptions *options, OddImproveFunc improve, gpointer data,
                          GCancellable *cancellable, GError **error);

/* The figures of these panels in @after, against the job before they were made; of panels that stood there, those of the patches and seams that came
 * new, what was there already counting as a neighbour only. @heap_mm2: cloth there was to draw from; @spread: what
 * the lightness was to follow. FALSE when cancelled: not whole then. */
gboolean odd_figures_measure (OddFigures *self, OddJob *before, OddJob *after, const OddId *panels, guint n_panels, double heap_mm2, OddSpread spread,
                              guint n_threads, GCancellable *cancellable);
/* "net_yield 79.8 %" and so on, one a line, untranslated words, point as decimal mark. (transfer full) */
char *odd_figures_dup_text (const OddFigures *self);

G_END_DECLS
