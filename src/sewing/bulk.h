/* Pressing and bulk: to which side each seam is pressed, and how many layers of cloth lie on one another where seams cross.
 *
 * Counting is our own: where a seam lies over another, each of its layers has there as many layers as the part it belongs to. Open over open: 2 x 2 = 4. A
 * French seam (two layers of each part, pressed to one side) over overlocked rows (3 layers on the pressed side, 1 on the other): all rows pressed one way
 * 3 + 2 x 3 + 2 x 3 = 15, alternately 3 + 2 x 3 + 2 x 1 = 11.
 */
#pragma once

#include "cloth/edit.h"

G_BEGIN_DECLS

typedef enum
{
  ODD_PRESS_DARKER,           /* towards the darker cloth, so that nothing shows through */
  ODD_PRESS_ALTERNATE,        /* alternately from row to row, so that seams that meet lie side by side */
  ODD_PRESS_LEAST             /* so that the crossings come out as thin as our search finds */
} OddPressRule;
#define ODD_N_PRESS_RULES 3
const char *odd_press_rule_get_name (OddPressRule rule);         /* translated */

/* A place where one or two seams end on another. Two that end on it from its two sides, not more than 1 mm apart, are one crossing. */
typedef struct
{
  OddId seam_id;              /* the seam or join they end on */
  OddId panel_id;             /* 0: a join */
  OddId textile_id;           /* 0: a loose panel */
  OddPoint at;                /* panel's layout frame; a join: textile's frame */
  guint plies;                /* the most layers of cloth on one another, the cloth itself counted */
  guint least;                /* the fewest any pressing of these seams alone gives there */
  OddId end_panel_id;         /* a panel with a seam that ends there */
  OddPoint end_at;            /* that end, in that panel's layout frame */
  double thickness_mm;        /* plies times the mean thickness of the cloth there; NAN: not known */
} OddCrossing;

/* Layers on a seam's pressed side, its own cloth counted; @side 0 or 1: of the first or second part. */
guint odd_finish_count_plies (const OddFinish *finish, OddPressed pressed, guint side);
/*
 * odd_crossing_count_plies:
 * @over: the finish of the seam that is sewn across
 * @part: layers of its first and second part at one place beside the crossing, 1 where the part is plain there
 *
 * Returns: the layers on the side where more of them lie
 */
guint odd_crossing_count_plies (const OddFinish *over, OddPressed pressed, const guint part[2]);

/* All crossings of a textile or loose panel, or @textile_id 0: of everything on the table. In the order of panels and seams, joins last. (transfer full) (element-type OddCrossing) */
GArray *odd_job_dup_crossings (OddJob *job, OddId textile_id);

/* To which side a seam is pressed, or is to be. */
typedef struct
{
  OddId seam_id;              /* seam or join */
  OddId panel_id;             /* 0: a join */
  OddPoint middle;            /* panel's layout frame; a join: textile's frame */
  OddPoint toward;            /* unit, the side; open: the second */
  gboolean open;
} OddPressing;
/* Of all seams, in the order of panels and seams, joins last. (transfer full) (element-type OddPressing) */
GArray *odd_job_dup_pressings (OddJob *job, OddId textile_id);

typedef struct
{
  guint n;                    /* crossings */
  guint most;                 /* plies of the thickest; 0 without crossings */
  guint n_most;               /* how many of these */
  guint n_thicker;            /* that lie thicker than their seams alone would let them */
  double most_mm;             /* the greatest known thickness; NAN: none is known */
} OddBulkSum;
OddBulkSum odd_crossings_sum (const GArray *crossings);
/* "11 layers at 20 of 127 crossings, 5.0 mm thick". (transfer full) */
char *odd_bulk_sum_dup_text (const OddBulkSum *sum);

/*
 * odd_job_press_by:
 * @textile_id: or 0: everything on the table
 * @also_set: those too that were given a side before; else only those that go by the rule of their finish
 *
 * Gives each seam and join that is not pressed yet its side. One that may be pressed open is, unless the least bulk asks for another. The least: from both other
 * rules, from all one way, and from what is there, the side of each seam in turn, as long as the sum of the squares of the plies falls: never more than any of
 * those, but not proven the least.
 *
 * Returns: (transfer full): the next job, the same one where nothing changes; NULL with error when cancelled
 */
OddJob *odd_job_press_by (OddJob *job, OddId textile_id, OddPressRule rule, gboolean also_set, GCancellable *cancellable, GError **error);

/* How far apart the raw corners of two parts stand along a seam of this allowance when the seam lines meet: 2 a tan (tilt). @angle_deg: between the seam and what
 * it meets, 90 when square (then 0); derived: each raw corner lies a tan (tilt) beyond the place where the lines meet, and one part is turned over. mm */
#define ODD_MEETING_LEAST_MM 0.5   /* less than this nobody can set; our choice */
double odd_meeting_offset (double allowance_mm, double angle_deg);

G_END_DECLS
