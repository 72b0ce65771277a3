/* From what was measured to what was sewn: loss, implied allowance, seams moved; squaring up.
 *
 * A part that is measured is a strip, a panel or a textile, told by its id. All lines are in its frame as it hangs.
 */
#pragma once

#include "cloth/layout.h"

G_BEGIN_DECLS

typedef struct                /* of one direction */
{
  OddTriple spread;           /* what was measured */
  double planned_mm;          /* mean of the plan along the lines measured (all three when none was), as it is measured: raw or seam to seam */
  double planned_raw_mm;      /* the same from raw edge to raw edge */
  double now_mm;              /* the same as planned_mm, with what is known to be sewn already */
  double loss_mm;             /* planned less measured, mean; NAN when nothing was measured */
  guint n_seams;              /* sewn seams that a line crosses and that were not squared up since; the most of the lines */
  guint n_unsewn;             /* crossed but not sewn yet */
  double deeper_mm;           /* by how much each of those seams lies deeper than planned: loss / 2n; NAN without loss or seams */
  double allowance_mm;        /* planned, mean of those seams; NAN without seams */
  double implied_mm;          /* allowance_mm + deeper_mm */
} OddMeasuredWay;

typedef struct
{
  OddMeasuredWay length, width;
  double out_of_square_mm;    /* odd_out_of_square_mm(); NAN unless both diagonals were measured */
  double deeper_mm;           /* both directions taken together, by their numbers of seams; NAN when neither says */
  double implied_mm;
} OddMeasured;

/* @measure may be empty. FALSE and error when @id is no strip, panel or textile that has a region. */
gboolean odd_job_evaluate_measure (OddJob *self, OddId id, const OddMeasure *measure, OddMeasured *out, GError **error);

/* What is to be asked before this measure is believed: a question of one or two sentences (transfer full), or NULL. @out_impossible (nullable):
 * no maker's yes makes it true (0, negative): it can only be left out or typed again. */
char *odd_measure_doubt (const OddMeasure *measure, const OddMeasured *measured, gboolean *out_impossible);

/*
 * odd_job_measure:
 * @sure: the maker was asked about doubtful figures (ten times the plan) and says they are right
 *
 * Keeps the measure, and gives the seams that its lines cross the allowance it implies: planned + loss / 2n each, the loss of all lines
 * of a direction shared over all their seams. The cut is kept, so parts move. Where no seam is left to take the loss, the part
 * itself is that much smaller. Measuring anew replaces what the former measure of the same seams said. An empty measure forgets the last one
 * and takes the crossed seams back to plan.
 * Refused: nothing along the line is sewn yet; the seams would have no or more than 10 cm of allowance; doubtful and not @sure.
 */
OddJob *odd_job_measure (OddJob *self, OddId id, const OddMeasure *measure, gboolean sure, GError **error);

/* Trims what was measured to a rectangle of the least length and the least width, half of what is over on each side; from then on its seams take no
 * share of a loss. Refused: not measured; sewn to something beside it; locked. */
OddJob *odd_job_square_up (OddJob *self, OddId id, GError **error);

/* Cuts all panels of a textile to what they have in common, ends only; none is offset any more. */
OddJob *odd_job_trim_to_shortest (OddJob *self, OddId textile_id, GError **error);
/* What the panels have beyond the textile at the bottom is eased into the joins: told as ease, not as trim. */
OddJob *odd_job_accept_ease (OddJob *self, OddId textile_id, GError **error);

/* Seams that are unpicked: their sewn allowance is forgotten, and the parts move back to plan. Ids that are no seams are passed over. */
OddJob *odd_job_forget_sewn (OddJob *self, const OddId *seam_ids, guint n_ids, GError **error);

/* Raw size alone as planned, sewn allowances set aside. */
void odd_job_get_planned_raw (OddJob *self, OddId panel_id, double *out_width_mm, double *out_length_mm);
/* TRUE when a measure or a seam as sewn has a part in the panel's size. */
gboolean odd_panel_is_as_sewn (const OddPanel *panel);
gboolean odd_textile_is_as_sewn (const OddTextile *textile);
gboolean odd_layout_seam_is_sewn (const OddLaidSeam *seam);      /* its first line of stitching is done */
/* The measure kept at a strip, panel or textile; (transfer none), NULL when there is none. */
OddMeasure *odd_job_get_measure (OddJob *self, OddId id);

/* --- the seams that a line crosses --- */
typedef struct
{
  OddId seam_id;              /* seam or join */
  gboolean squared;
  double allowance_mm, planned_allowance_mm;
  double slant;               /* by how much longer than square to the seam the line takes through it: 1 / cos */
  double min_allowance_mm;    /* its finish's */
  double raw_length_mm;
  gboolean sewn;
  gboolean known;             /* measured as sewn, or squared up since */
} OddCrossing;
/* Of a strip, panel or textile: @across FALSE: the line runs down, @at of its width from the left (0 to 1); TRUE: across, @at of its length from
 * the top. Seams at less than 30 degrees to the line do not count. (transfer full) (element-type OddCrossing), NULL when there is nothing. */
GArray *odd_job_find_crossings (OddJob *self, OddId id, gboolean across, double at);

G_END_DECLS
