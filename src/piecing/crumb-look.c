/* What of a crumb layout pleases and what does not, told as mm2 of cloth that one would give for it. */
#include "config.h"

#include "piecing/crumbs-private.h"

#define CONTACT_MM2 12000.0        /* neighbours of one fabric; less for two that look alike */
#define TOUCH_MM 0.5               /* border that makes neighbours */
#define SAME_LINE_MM 0.01
#define LINED_UP_MM 15.0           /* seam ends on two sides of a seam nearer than this look like a mistake, and lie lump on lump */
#define LINED_UP_MM2 1200.0
#define BARE_MM2 20000.0
#define BARE_SHARE 3.0             /* and so much for each mm2 of it */
#define LIGHTNESS_SCALE 20.0       /* L* */
#define LIGHTNESS_MM2 500.0        /* two neighbours both so much lighter, or both darker, than is wanted there */
#define COURSE_MM2 1500.0          /* one leaf so much away from a graded course */
#define SHARE_MM2 400.0            /* for each hundredth that a fabric's share is beyond what is wanted, squared */

/* Border that two regions have in common, mm: below 0 when they only lie on one line; NAN when not even that. */
static double
common_border (const OddConvex *a,
               const OddConvex *b)
{
  double most = NAN;

  for (guint i = 0; i < a->n; i++)
    {
      const OddPoint from = a->points[i];
      const OddPoint way = odd_point_sub (a->points[(i + 1) % a->n], from);
      const double length = hypot (way.x, way.y);
      const OddPoint along = odd_point_scale (way, 1.0 / length);

      for (guint k = 0; k < b->n; k++)
        {
          const OddPoint p = odd_point_sub (b->points[k], from);
          const OddPoint q = odd_point_sub (b->points[(k + 1) % b->n], from);

          if (fabs (odd_point_cross (along, p)) < SAME_LINE_MM && fabs (odd_point_cross (along, q)) < SAME_LINE_MM)
            {
              const double s = odd_point_dot (along, p), t = odd_point_dot (along, q);
              const double common = MIN (length, MAX (s, t)) - MAX (0.0, MIN (s, t));

              most = isnan (most) ? common : MAX (most, common);
            }
        }
    }

  return most;
}

static double
wanted_at (const OddCrumbRules *rules,
           const OddBox        *box)
{
  const double down = (box->y + box->height / 2.0 - rules->top_mm) / rules->length_mm;

  return rules->wanted[(guint) (CLAMP (down, 0.0, 1.0) * 100.0)];
}

static double
stray_of (const OddCrumbs *self,
          guint            fabric,
          const OddBox    *box)
{
  const OddSourceFabric *cloth = &g_array_index (self->stock->sources->fabrics, OddSourceFabric, fabric);

  return cloth->id == 0 ? 0.0 : (cloth->colour.l - wanted_at (self->rules, box)) / LIGHTNESS_SCALE;
}

static double
neighbour_cost (const OddCrumbs *self,
                guint            fabric,
                const OddBox    *box,
                guint            other,
                const OddBox    *other_box)
{
  const guint n = self->stock->sources->fabrics->len;

  if (other == ODD_NO_SCRAP)
    return 0.0;

  return CONTACT_MM2 * self->rules->contacts[fabric * n + other] + LIGHTNESS_MM2 * stray_of (self, fabric, box) * stray_of (self, other, other_box);
}

static guint
fabric_of (const OddCrumbs *self,
           guint            scrap)
{
  return scrap == ODD_NO_SCRAP ? ODD_NO_SCRAP : odd_crumbs_scrap (self, scrap)->fabric;
}

typedef struct
{
  double neighbours, lined_up;
} Pair;

/* A leaf that borders on another, or a kept patch that does. */
typedef struct { const OddConvex *region; const OddBox *box; guint fabric; } Near;

static Near
near_of (const OddCrumbs *self,
         guint            id)
{
  if (id >= ODD_KEPT_FROM)
    {
      const OddKept *kept = &g_array_index (self->fields->kept, OddKept, id - ODD_KEPT_FROM);

      return (Near) { kept->region, &kept->box, self->kept_fabrics[id - ODD_KEPT_FROM] };
    }
  else
    {
      const OddCrumb *leaf = odd_crumbs_node (self, id);

      return (Near) { leaf->region, &leaf->box, fabric_of (self, leaf->scrap) };
    }
}

/* NAN: they do not lie at one line. */
static double
border_with (const OddCrumb *leaf,
             const Near     *near)
{
  return odd_box_meets (odd_box_grow (leaf->box, SAME_LINE_MM), *near->box) ? common_border (leaf->region, near->region) : NAN;
}

static gboolean
is_among (const guint *leaves,
          guint        n,
          guint        leaf)
{
  for (guint i = 0; i < n; i++)
    if (leaves[i] == leaf)
      return TRUE;

  return FALSE;
}

/* @fabric in the leaf, against all but some, and but what comes before @from. */
static Pair
pairs_of (const OddCrumbs *self,
          guint            at,
          guint            fabric,
          guint            from,
          const guint     *but,
          guint            n_but)
{
  const OddCrumb *leaf = odd_crumbs_node (self, at);
  const GArray *found = odd_crumbs_find_near (self, odd_box_grow (leaf->box, SAME_LINE_MM));
  Pair sum = { 0.0, 0.0 };

  for (guint i = 0; i < found->len; i++)
    {
      const guint id = g_array_index (found, guint, i);
      Near near;
      double common;

      if (id == at || id < from || is_among (but, n_but, id))
        continue;
      near = near_of (self, id);
      common = border_with (leaf, &near);
      /* a NAN is neither */
      if (common > TOUCH_MM && fabric != ODD_NO_SCRAP)
        sum.neighbours += neighbour_cost (self, fabric, &leaf->box, near.fabric, near.box);
      if (common > -SAME_LINE_MM && common < LINED_UP_MM)
        sum.lined_up += 1.0;
    }

  return sum;
}

static double
course_cost (const OddCrumbs *self,
             const OddCrumb  *leaf,
             guint            fabric)
{
  const double stray = self->rules->graded ? stray_of (self, fabric, &leaf->box) : 0.0;

  return COURSE_MM2 * stray * stray;
}

static double
look_of_leaf (const OddCrumbs *self,
              guint            at,
              guint            from,
              const guint     *but,
              guint            n_but)
{
  const OddCrumb *leaf = odd_crumbs_node (self, at);
  const guint fabric = fabric_of (self, leaf->scrap);
  const Pair pair = pairs_of (self, at, fabric, from, but, n_but);

  return pair.neighbours + LINED_UP_MM2 * pair.lined_up
         + (fabric == ODD_NO_SCRAP ? BARE_MM2 + BARE_SHARE * leaf->area_mm2 : course_cost (self, leaf, fabric));
}

double
odd_crumbs_look_of (const OddCrumbs *self,
                    const guint     *leaves,
                    guint            n)
{
  double cost = 0.0;

  for (guint i = 0; i < n; i++)
    cost += look_of_leaf (self, leaves[i], 0, leaves, i);

  return cost;
}

void
odd_crumbs_look_around (const OddCrumbs *self,
                        guint            at,
                        OddAround       *out)
{
  const OddCrumb *leaf = odd_crumbs_node (self, at);
  const GArray *found = odd_crumbs_find_near (self, odd_box_grow (leaf->box, SAME_LINE_MM));

  out->n = 0;
  for (guint i = 0; i < found->len && out->n < ODD_MOST_AROUND; i++)
    {
      const guint id = g_array_index (found, guint, i);
      const Near near = near_of (self, id);

      if (id == at || near.fabric == ODD_NO_SCRAP || !(border_with (leaf, &near) > TOUCH_MM))
        continue;
      out->of[out->n].fabric = near.fabric;
      out->of[out->n++].box = *near.box;
    }
}

double
odd_crumbs_look_with (const OddCrumbs *self,
                      guint            at,
                      guint            scrap,
                      const OddAround *around)
{
  const OddCrumb *leaf = odd_crumbs_node (self, at);
  const guint fabric = fabric_of (self, scrap);
  double cost = course_cost (self, leaf, fabric);

  if (self->rules->most_share != NULL && self->fabric_mm2[fabric] + leaf->area_mm2 > self->rules->most_share[fabric] * self->area_mm2)
    cost += SHARE_MM2 * 10.0;
  if (self->rules->most_share != NULL && self->fabric_mm2[fabric] < self->rules->least_share[fabric] * self->area_mm2)
    cost -= SHARE_MM2 * 10.0;
  for (guint i = 0; i < around->n; i++)
    cost += neighbour_cost (self, fabric, &leaf->box, around->of[i].fabric, &around->of[i].box);

  return cost;
}

double
odd_crumbs_lined_up (const OddCrumbs *self,
                     const guint     *leaves,
                     guint            n)
{
  double sum = 0.0;

  for (guint i = 0; i < n; i++)
    sum += pairs_of (self, leaves[i], ODD_NO_SCRAP, 0, leaves, i).lined_up;

  return sum;
}

double
odd_crumbs_share_cost (const OddCrumbs *self)
{
  const OddCrumbRules *rules = self->rules;
  double cost = 0.0;

  for (guint i = 0; rules->most_share != NULL && i < self->stock->sources->fabrics->len; i++)
    {
      const double share = self->fabric_mm2[i] / self->area_mm2;
      const double beyond = 100.0 * MAX (MAX (share - rules->most_share[i], rules->least_share[i] - share), 0.0);

      cost += SHARE_MM2 * beyond * (1.0 + beyond);
    }

  return cost;
}

double
odd_crumbs_get_energy (const OddCrumbs *self)
{
  double cost = self->used_mm2 + odd_crumbs_share_cost (self);

  for (guint i = 0; i < self->nodes->len; i++)
    if (odd_crumb_is_leaf (odd_crumbs_node (self, i)))
      cost += look_of_leaf (self, i, i, NULL, 0);

  return cost;
}
