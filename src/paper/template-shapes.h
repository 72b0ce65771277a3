/* Which templates a job needs: cut shapes that are the same are one. */
#pragma once

#include "cloth/layout.h"
#include "paper/options.h"

G_BEGIN_DECLS

typedef struct
{
  OddConvex *cut;              /* its box begins at 0,0; the length of the panel is upright until it is turned */
  OddConvex *region;           /* finished, in the same frame and with the same labels; as most of its patches have it */
  gboolean one_region;         /* all of them have it so */
  char *letter;                /* "A", "B" ... "Z", "AA" */
  char *patches;               /* "Squares 1–35; Bricks 3" */
  guint n_patches;
  gboolean one_grain;          /* the grain of all its patches lies within 10 degrees (our choice) of this: */
  double grain_deg;            /* in the template's frame, 0 <= it < 180 */
  gboolean turned;             /* by a quarter, so that it needs less paper */
  /*< private >*/
  GArray *regions;
} OddTemplate;

/* In the order in which patches first need them, panel by panel, textiles first. Nothing that lies in a piece: it is cut already.
 * (transfer full) (element-type OddTemplate) */
GPtrArray *odd_job_dup_templates (OddJob *job, OddTemplateChoice choice);
/* How far a cut edge lies from its seam line; mm, NAN for a tip that is cut square. */
double odd_template_get_allowance (const OddTemplate *self, guint edge);
/* A quarter to the right, and back. */
void odd_template_turn (OddTemplate *self);

G_END_DECLS
