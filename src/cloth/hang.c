/* The panel merger's arithmetic.
 *
 * A panel's outline is stored as the panel alone. In a textile its raw edges stay where they are and the finished edges
 * follow: a joined edge moves inwards by (joining allowance - own allowance), and every panel is trimmed at top and bottom to
 * the rectangle that all raw edges cover. A side that is not square to the frame is trimmed at the innermost end of its
 * raw edge, so that the side of the textile comes out straight.
 */
#include "config.h"

#include "cloth/hang.h"

enum { TOP, RIGHT, BOTTOM, LEFT };

void
odd_panel_resolve_edge (OddJob      *job,
                        OddTextile  *textile,
                        OddPanel    *panel,
                        guint        edge,
                        OddFinish  **out_finish,
                        double      *out_allowance_mm)
{
  const OddTreatment *const levels[] = {
    textile != NULL ? &textile->treatment : NULL,
    &panel->treatment,
    edge < panel->outline->n ? &panel->edges[edge].treatment : NULL
  };

  odd_job_resolve (job, levels, G_N_ELEMENTS (levels), out_finish, out_allowance_mm);
}

OddConvex *
odd_panel_dup_raw_outline (OddJob     *job,
                           OddTextile *textile,
                           OddPanel   *panel)
{
  g_autofree double *allowances = g_new (double, panel->outline->n);

  for (guint i = 0; i < panel->outline->n; i++)
    odd_panel_resolve_edge (job, textile, panel, i, NULL, &allowances[i]);
  return odd_convex_cut_shape (panel->outline, allowances);
}

OddHang
odd_hang_loose (void)
{
  return (OddHang) { .in_textile = FALSE };
}

/* Where the raw side lies, innermost end of its edge. */
static double
raw_side (const OddConvex *raw,
          int              edge,
          guint            side)
{
  const OddBox box = odd_convex_box (raw);

  for (guint i = 0; i < raw->n; i++)
    if (edge >= 0 && raw->labels[i] == edge)
      {
        const OddSegment s = odd_convex_edge (raw, i);

        switch (side)
          {
          case TOP: return MAX (s.from.y, s.to.y);
          case RIGHT: return MIN (s.from.x, s.to.x);
          case BOTTOM: return MIN (s.from.y, s.to.y);
          default: return MAX (s.from.x, s.to.x);
          }
      }
  switch (side)
    {
    case TOP: return box.y;
    case RIGHT: return box.x + box.width;
    case BOTTOM: return box.y + box.height;
    default: return box.x;
    }
}

static void
hang_alone (OddJob     *job,
            OddTextile *textile,
            guint       index,
            OddHang    *hang)
{
  const OddHung *hung = &textile->hung[index];
  const OddPlacement turn = { hung->half_turn ? 180.0 : 0.0, FALSE, { 0.0, 0.0 } };
  g_autoptr(OddConvex) raw = odd_panel_dup_raw_outline (job, textile, hung->panel);
  g_autoptr(OddConvex) turned = odd_convex_place (raw, &turn);

  *hang = (OddHang) { .in_textile = TRUE, .half_turn = hung->half_turn };
  for (guint side = 0; side < 4; side++)
    {
      const int edge = odd_panel_side_edge (hung->panel, hung->half_turn ? (side + 2) % 4 : side);
      OddFinish *finish = NULL;

      hang->raw_mm[side] = raw_side (turned, edge, side);
      odd_panel_resolve_edge (job, textile, hung->panel, edge >= 0 ? (guint) edge : G_MAXUINT, &finish, &hang->allowance_mm[side]);
      hang->finish_id[side] = finish->id;
    }
}

static void
hang_join (OddJob     *job,
           OddTextile *textile,
           guint       join,
           OddHang    *hangs)
{
  const OddTreatment *const levels[] = { &textile->treatment, &textile->joins[join].treatment };
  OddFinish *finish = NULL;
  double allowance_mm = 0.0;

  odd_job_resolve (job, levels, G_N_ELEMENTS (levels), &finish, &allowance_mm);
  if (textile->joins[join].sewn_mm > 0.0)
    allowance_mm = textile->joins[join].sewn_mm;
  hangs[join].allowance_mm[RIGHT] = hangs[join + 1].allowance_mm[LEFT] = allowance_mm;
  hangs[join].finish_id[RIGHT] = hangs[join + 1].finish_id[LEFT] = finish->id;
  hangs[join].join_id[RIGHT] = hangs[join + 1].join_id[LEFT] = textile->joins[join].id;
}

/* Trims all panels to what their raw edges have in common, and gives the two ends of the textile one allowance each: the largest. */
static void
hang_level (OddTextile *textile,
            OddHang    *hangs)
{
  double top = -G_MAXDOUBLE, bottom = G_MAXDOUBLE, allowance_top = 0.0, allowance_bottom = 0.0;

  for (guint i = 0; i < textile->n_hung; i++)
    {
      const double at = textile->hung[i].offset_mm - textile->hung[0].offset_mm;

      top = MAX (top, at);
      bottom = MIN (bottom, at + hangs[i].raw_mm[BOTTOM] - hangs[i].raw_mm[TOP]);
      allowance_top = MAX (allowance_top, hangs[i].allowance_mm[TOP]);
      allowance_bottom = MAX (allowance_bottom, hangs[i].allowance_mm[BOTTOM]);
    }
  if (bottom - top <= allowance_top + allowance_bottom + 1.0)
    return;   /* nothing in common: the panels stay as they are, the textile has no length */
  for (guint i = 0; i < textile->n_hung; i++)
    {
      const double at = textile->hung[i].offset_mm - textile->hung[0].offset_mm;
      const double end = at + hangs[i].raw_mm[BOTTOM] - hangs[i].raw_mm[TOP];

      hangs[i].trimmed_mm[TOP] = top - at;
      hangs[i].eased_mm = CLAMP (end - bottom, 0.0, textile->hung[i].ease_mm);
      hangs[i].trimmed_mm[BOTTOM] = end - bottom - hangs[i].eased_mm;
      hangs[i].raw_mm[TOP] += top - at;
      hangs[i].raw_mm[BOTTOM] -= end - bottom;
      hangs[i].allowance_mm[TOP] = allowance_top;
      hangs[i].allowance_mm[BOTTOM] = allowance_bottom;
    }
}

OddHang *
odd_textile_hang (OddJob     *job,
                  OddTextile *textile)
{
  OddHang *hangs = g_new0 (OddHang, MAX (textile->n_hung, 1));

  for (guint i = 0; i < textile->n_hung; i++)
    hang_alone (job, textile, i, &hangs[i]);
  for (guint i = 0; i + 1 < textile->n_hung; i++)
    hang_join (job, textile, i, hangs);
  if (textile->n_hung > 0)
    hang_level (textile, hangs);
  return hangs;
}
