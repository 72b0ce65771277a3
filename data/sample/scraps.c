/* Which fabric goes where, and the scraps that the patches are cut from.
 *
 * The layouts say what shape each patch needs. Round that shape a scrap is drawn as a maker would find it: turned anyhow on the table,
 * with crooked edges, torn corners and dents, here and there with a stain. Corners are rounded to 0.1 mm, as if measured.
 */
#include "config.h"

#include <string.h>

#include "maker.h"

/* How far a scrap reaches at least and at most beyond what is cut from it. */
#define LEAST_SPARE_MM 3.0
#define MOST_SPARE_MM 30.0
/* Squares of one fabric that lie on one scrap: that many, and this far apart. */
#define MOST_ON_ONE 3
#define GAP_MM 5.0

typedef struct
{
  OddId leaf_id;
  OddConvex *cut, *region;       /* in the frame of its panel */
  guint panel;
  int fabric;                    /* index, -1: not chosen yet */
  OddPlacement placement;
  gint scrap;                    /* index into the plan's scraps, -1: none yet */
} Need;

typedef struct
{
  Maker *maker;
  GArray *needs;                 /* Need */
  GPtrArray *scraps;             /* OddScrap, without ids */
} Plan;

static Need *
get_need (Plan *plan, guint i)
{
  return &g_array_index (plan->needs, Need, i);
}

static double
between (Maker *maker, double from, double to)
{
  return g_rand_double_range (maker->random, from, to);
}

static gboolean
chance (Maker *maker, double share)
{
  return g_rand_double (maker->random) < share;
}

/* To whole steps; where those are fractions, by dividing, so that the file says 168.2 and not 168.20000000000002. Never -0. */
static double
round_to (double value, double step)
{
  const double n = rint (value / step);

  return (step < 1.0 ? n / rint (1.0 / step) : n * step) + 0.0;
}

/* --- what is needed --- */

static void
collect_needs (Plan *plan, guint panel, OddId panel_id)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (plan->maker->job, panel_id);

  for (guint i = 0; i < layout->n_patches; i++)
    {
      const OddPatch *patch = &layout->patches[i];
      const Need need = { patch->leaf->id, odd_convex_ref (patch->cut), odd_convex_ref (patch->region), panel, -1, ODD_PLACEMENT_IDENTITY, -1 };

      g_array_append_val (plan->needs, need);
    }
}

static gboolean
are_neighbours (const Need *a, const Need *b)
{
  const OddBox reach = odd_box_grow (odd_convex_box (a->region), 1.0);

  if (a->panel != b->panel || !odd_box_meets (reach, odd_convex_box (b->region)))
    return FALSE;
  for (guint i = 0; i < a->region->n; i++)
    for (guint k = 0; k <= 8; k++)
      {
        const OddSegment edge = odd_convex_edge (a->region, i);

        if (odd_convex_contains (b->region, odd_point_lerp (edge.from, edge.to, k / 8.0), 1.0))
          return TRUE;
      }
  return FALSE;
}

/* --- which fabric goes where --- */

static double
colour_distance (guint32 a, guint32 b)
{
  double sum = 0.0;

  for (guint shift = 0; shift < 24; shift += 8)
    {
      const double d = (double) ((a >> shift) & 0xff) - (double) ((b >> shift) & 0xff);

      sum += d * d;
    }
  return sqrt (sum);
}

/* What speaks against this fabric here: a neighbour that looks alike, a fabric used often already, a face that looks the other way. */
static double
weigh_fabric (Plan *plan, const Need *need, guint fabric, const guint *used)
{
  OddFabric *candidate = odd_job_get_fabric (plan->maker->job, plan->maker->fabrics[fabric]);
  const guint32 colour = odd_fabric_get_mean_colour (candidate);
  double against = used[fabric] * 26.0 + between (plan->maker, 0.0, 34.0);

  for (guint i = 0; i < plan->needs->len; i++)
    {
      const Need *other = get_need (plan, i);
      OddFabric *beside;

      if (other == need || other->fabric < 0 || !are_neighbours (need, other))
        continue;
      if ((guint) other->fabric == fabric)
        against += 10000.0;
      beside = odd_job_get_fabric (plan->maker->job, plan->maker->fabrics[other->fabric]);
      against += MAX (0.0, 150.0 - colour_distance (colour, odd_fabric_get_mean_colour (beside)));
      against += MAX (0.0, 30.0 - fabs (odd_fabric_get_lightness (candidate) - odd_fabric_get_lightness (beside))) * 2.0;
      against += candidate->print.kind == beside->print.kind ? 60.0 : 0.0;
    }
  return against;
}

static void
choose_fabrics (Plan *plan)
{
  g_autofree guint *used = g_new0 (guint, plan->maker->n_fabrics);

  for (guint i = 0; i < plan->needs->len; i++)
    {
      Need *need = get_need (plan, i);
      double least = G_MAXDOUBLE;

      for (guint fabric = 0; fabric < plan->maker->n_fabrics; fabric++)
        {
          const double against = weigh_fabric (plan, need, fabric, used);

          if (against < least)
            {
              least = against;
              need->fabric = (int) fabric;
            }
        }
      used[need->fabric]++;
    }
}

/* --- outlines --- */

/* Everything that lies within the pushed edges of @need; a corner here and there torn off. */
static OddConvex *
tear_round (Maker *maker, const OddConvex *need)
{
  g_autofree OddHalfPlane *planes = g_new (OddHalfPlane, need->n);
  g_autofree int *labels = g_new0 (int, need->n);
  OddConvex *torn;

  for (guint i = 0; i < need->n; i++)
    {
      const double spare_mm = chance (maker, 0.25) ? between (maker, 12.0, MOST_SPARE_MM) : between (maker, LEAST_SPARE_MM, 12.0);
      const OddPlacement crooked = { between (maker, -3.0, 3.0), FALSE, { 0.0, 0.0 } };
      OddHalfPlane plane = odd_half_plane_place (odd_convex_edge_half_plane (need, i), &crooked);

      plane.offset_mm = odd_convex_support (need, plane.normal) + spare_mm;
      planes[i] = plane;
    }
  torn = odd_convex_new_from_half_planes (planes, labels, need->n);
  for (guint i = 0; i < need->n; i++)
    {
      const OddPlacement half_way = { between (maker, 25.0, 60.0), FALSE, { 0.0, 0.0 } };
      OddHalfPlane tear = odd_half_plane_place (planes[i], &half_way);
      OddConvex *clipped;

      if (!chance (maker, 0.4))
        continue;
      tear.offset_mm = odd_convex_support (need, tear.normal) + LEAST_SPARE_MM;
      clipped = odd_convex_clip (torn, tear, 0);
      odd_convex_unref (torn);
      torn = clipped;
    }
  return torn;
}

/* Corners of @torn, edges dented where there is cloth to spare. */
static GArray *
dent (Maker *maker, const OddConvex *torn, const OddConvex *need)
{
  GArray *corners = g_array_new (FALSE, FALSE, sizeof (OddPoint));

  for (guint i = 0; i < torn->n; i++)
    {
      const OddSegment edge = odd_convex_edge (torn, i);
      const OddHalfPlane plane = odd_convex_edge_half_plane (torn, i);
      const double spare_mm = plane.offset_mm - odd_convex_support (need, plane.normal) - LEAST_SPARE_MM;
      const OddPoint middle = odd_point_lerp (edge.from, edge.to, between (maker, 0.3, 0.7));

      g_array_append_val (corners, edge.from);
      if (odd_segment_length (edge) > 50.0 && spare_mm > 2.0 && chance (maker, 0.6))
        {
          const OddPoint dented = odd_point_sub (middle, odd_point_scale (plane.normal, between (maker, 0.3, 1.0) * spare_mm));

          g_array_append_val (corners, dented);
        }
    }
  return corners;
}

/* The other way round: what must lie on the table so that the wash leaves this. */
static OddPoint
unshrink (OddPoint p, const OddFabric *fabric, double grain_deg)
{
  const OddPlacement turn = { -grain_deg, FALSE, { 0.0, 0.0 } };
  const OddPoint along = odd_placement_apply (&turn, p);

  return odd_placement_undo (&turn, odd_point (along.x / (1.0 - fabric->shrink_along), along.y / (1.0 - fabric->shrink_across)));
}

/* --- scraps --- */

static const char *const places[] = { "Blue tub", "Blue tub", "Bag by the window", "Basket", "Blue tub", "Bag by the window" };

static OddPolygon *
new_spot (OddPoint at, double radius_mm)
{
  OddPoint ring[7];

  for (guint i = 0; i < G_N_ELEMENTS (ring); i++)
    {
      const double angle = i * 2.0 * G_PI / G_N_ELEMENTS (ring);
      const double radius = radius_mm * (i % 2 == 0 ? 1.0 : 0.8);

      ring[i] = odd_point (round_to (at.x + radius * cos (angle), 0.1), round_to (at.y + radius * 0.7 * sin (angle), 0.1));
    }
  return odd_polygon_new (ring, G_N_ELEMENTS (ring), NULL);
}

/* @corners: the scrap after the wash, its frame. @flaw: (nullable): a zone to keep clear of. */
static void
add_scrap (Plan *plan, const GArray *corners, guint fabric_index, double grain_deg, gboolean washed, OddZone *flaw)
{
  Maker *maker = plan->maker;
  OddFabric *fabric = odd_job_get_fabric (maker->job, maker->fabrics[fabric_index]);
  g_autofree OddPoint *ring = g_new (OddPoint, corners->len);
  OddScrap values;
  OddScrap *scrap;

  for (guint i = 0; i < corners->len; i++)
    {
      const OddPoint p = g_array_index (corners, OddPoint, i);
      const OddPoint on_table = washed ? p : unshrink (p, fabric, grain_deg);

      ring[i] = odd_point (round_to (on_table.x, 0.1), round_to (on_table.y, 0.1));
    }
  odd_scrap_init_values (&values);
  values.outline = odd_polygon_new (ring, corners->len, &maker->error);
  if (values.outline == NULL)
    sample_step (maker, NULL);
  values.fabric_id = fabric->id;
  values.grain_deg = grain_deg;
  values.washed = washed;
  values.place = (char *) places[g_rand_int_range (maker->random, 0, G_N_ELEMENTS (places))];
  values.zones = flaw;
  values.n_zones = flaw != NULL;
  scrap = odd_scrap_new (&values, &maker->error);
  odd_polygon_unref (values.outline);
  if (scrap == NULL)
    sample_step (maker, NULL);
  g_ptr_array_add (plan->scraps, scrap);
}

/* From the panel's frame to that of a scrap that lies on the table as @turn_deg says, its box near the origin. */
static OddPlacement
choose_placement (const GArray *corners, double turn_deg)
{
  OddPlacement placement = { turn_deg, FALSE, { 0.0, 0.0 } };
  g_autofree OddPoint *turned = g_new (OddPoint, corners->len);
  OddBox box;

  for (guint i = 0; i < corners->len; i++)
    turned[i] = odd_placement_undo (&placement, g_array_index (corners, OddPoint, i));
  box = odd_box_from_points (turned, corners->len);
  placement.shift = odd_placement_apply (&placement, odd_point (box.x, box.y));
  placement.shift = odd_point (round_to (placement.shift.x, 0.1), round_to (placement.shift.y, 0.1));
  return placement;
}

/* A flaw for every so many scraps: kept out where the cloth is spare, or a mark that may lie in an allowance. */
static OddZone *
find_flaw (Maker *maker, const OddConvex *torn, const OddConvex *need, const OddConvex *region, const OddPlacement *placement)
{
  OddZone *flaw = NULL;

  for (guint i = 0; i < torn->n && flaw == NULL && chance (maker, 0.6); i++)
    {
      const OddHalfPlane plane = odd_convex_edge_half_plane (torn, i);
      const OddSegment edge = odd_convex_edge (torn, i);
      const double spare_mm = plane.offset_mm - odd_convex_support (need, plane.normal);
      const OddPoint middle = odd_point_lerp (edge.from, edge.to, 0.5);

      if (spare_mm < 14.0 || odd_segment_length (edge) < 60.0)
        continue;
      flaw = g_new0 (OddZone, 1);
      flaw->kind = chance (maker, 0.5) ? ODD_ZONE_STAIN : ODD_ZONE_THIN;
      flaw->outline = new_spot (odd_placement_undo (placement, odd_point_sub (middle, odd_point_scale (plane.normal, spare_mm * 0.45))), spare_mm * 0.4);
    }
  if (flaw == NULL && region != NULL && chance (maker, 0.07))
    {
      const OddSegment edge = odd_convex_edge (region, 0);
      const OddPoint middle = odd_point_lerp (edge.from, edge.to, 0.4);
      const OddPoint outwards = odd_convex_edge_half_plane (region, 0).normal;

      flaw = g_new0 (OddZone, 1);
      flaw->kind = ODD_ZONE_OLD_SEAM;
      flaw->allowance_only = TRUE;
      flaw->outline = new_spot (odd_placement_undo (placement, odd_point_add (middle, odd_point_scale (outwards, 6.3))), 4.5);
    }
  return flaw;
}

static void
free_flaw (OddZone *flaw)
{
  if (flaw == NULL)
    return;
  odd_polygon_unref (flaw->outline);
  g_free (flaw);
}

/* How the print runs in the patch: upright where it has an up, along or across elsewhere, anyhow among crumbs. */
static double
choose_grain (Maker *maker, const Need *need)
{
  const OddFabric *fabric = odd_job_get_fabric (maker->job, maker->fabrics[need->fabric]);
  const gboolean crumb = need->panel == 2;

  if (crumb)
    return 90.0 + round_to (between (maker, -28.0, 28.0), 1.0);
  if (fabric->one_way)
    return 90.0;
  return chance (maker, 0.6) ? 90.0 : 0.0;
}

static OddConvex *
new_carrier (Plan *plan, const Need *need, guint n)
{
  const OddBox box = odd_convex_box (need->cut);

  if (n == 1)
    return odd_convex_ref (need->cut);
  return odd_convex_new_rectangle ((OddBox) { box.x, box.y, box.width * n + GAP_MM * (n - 1), box.height }, (int[4]) { 0, 0, 0, 0 });
}

/* One scrap for these needs: the first lies in it where it lies in the panel, further ones (squares) beside it. */
static void
cut_from_one (Plan *plan, const guint *which, guint n)
{
  Maker *maker = plan->maker;
  const Need *first = get_need (plan, which[0]);
  const double turn_deg = first->panel == 2 ? round_to (between (maker, 0.0, 360.0), 1.0)
                                            : g_rand_int_range (maker->random, 0, 4) * 90.0 + round_to (between (maker, -9.0, 9.0), 0.5);
  const double grain_deg = fmod (choose_grain (maker, first) - turn_deg + 720.0, 360.0);
  const gboolean washed = chance (maker, 0.8);
  g_autoptr(OddConvex) carrier = new_carrier (plan, first, n);
  g_autoptr(OddConvex) torn = tear_round (maker, carrier);
  g_autoptr(GArray) corners = dent (maker, torn, carrier);
  const OddPlacement placement = choose_placement (corners, turn_deg);
  const OddBox at = odd_convex_box (first->cut);
  OddZone *flaw = washed ? find_flaw (maker, torn, carrier, n == 1 ? first->region : NULL, &placement) : NULL;

  for (guint i = 0; i < n; i++)
    {
      Need *need = get_need (plan, which[i]);
      const OddBox to = odd_convex_box (need->cut);
      const OddPoint shift = odd_point (to.x - at.x - i * (at.width + GAP_MM), to.y - at.y);

      need->scrap = (gint) plan->scraps->len;
      need->placement = placement;
      need->placement.shift = odd_point (round_to (placement.shift.x + shift.x, 0.1), round_to (placement.shift.y + shift.y, 0.1));
    }
  for (guint i = 0; i < corners->len; i++)
    g_array_index (corners, OddPoint, i) = odd_placement_undo (&placement, g_array_index (corners, OddPoint, i));
  add_scrap (plan, corners, (guint) first->fabric, grain_deg, washed, flaw);
  free_flaw (flaw);
}

static void
cut_scraps (Plan *plan)
{
  for (guint i = 0; i < plan->needs->len; i++)
    {
      const Need *need = get_need (plan, i);
      const guint most = need->panel == 0 ? g_rand_int_range (plan->maker->random, 1, MOST_ON_ONE + 1) : 1;
      guint which[MOST_ON_ONE] = { i };
      guint n = 1;

      if (need->scrap >= 0)
        continue;
      for (guint k = i + 1; k < plan->needs->len && n < most; k++)
        if (get_need (plan, k)->panel == 0 && get_need (plan, k)->scrap < 0 && get_need (plan, k)->fabric == need->fabric)
          which[n++] = k;
      cut_from_one (plan, which, n);
    }
}

/* --- scraps that are still free --- */

static void
append_corner (GArray *corners, double x, double y)
{
  const OddPoint p = odd_point (x, y);

  g_array_append_val (corners, p);
}

/* Corners round an ellipse, each on its own ray: never crosses itself. */
static GArray *
draw_round (Maker *maker, double width_mm, double length_mm)
{
  GArray *corners = g_array_new (FALSE, FALSE, sizeof (OddPoint));
  const guint n = (guint) g_rand_int_range (maker->random, 3, 8);
  const double start = between (maker, 0.0, 2.0 * G_PI);

  for (guint i = 0; i < n; i++)
    {
      const double angle = start + (i + between (maker, -0.22, 0.22)) * 2.0 * G_PI / n;
      const double reach = between (maker, 0.8, 1.15);

      append_corner (corners, width_mm / 2 * (1.2 + reach * cos (angle)), length_mm / 2 * (1.2 + reach * sin (angle)));
    }
  return corners;
}

/* A crooked rectangle; with @notch what a cut-out sleeve or collar leaves in one corner. */
static GArray *
draw_square (Maker *maker, double width_mm, double length_mm, gboolean notch)
{
  GArray *corners = g_array_new (FALSE, FALSE, sizeof (OddPoint));

  append_corner (corners, between (maker, 0, 12), between (maker, 0, 12));
  append_corner (corners, width_mm - between (maker, 0, 14), between (maker, 0, 10));
  if (notch)
    {
      append_corner (corners, width_mm - between (maker, 0, 8), length_mm * between (maker, 0.35, 0.5));
      append_corner (corners, width_mm * between (maker, 0.5, 0.62), length_mm * between (maker, 0.46, 0.56));
      append_corner (corners, width_mm * between (maker, 0.46, 0.55), length_mm - between (maker, 0, 8));
    }
  else
    append_corner (corners, width_mm - between (maker, 0, 10), length_mm - between (maker, 0, 16));
  append_corner (corners, between (maker, 0, 12), length_mm - between (maker, 0, 10));
  return corners;
}

static GArray *
draw_free (Maker *maker, guint i)
{
  switch (i % 6)
    {
    case 0: return draw_square (maker, between (maker, 285, 335), between (maker, 120, 230), FALSE);   /* wide enough for the open end */
    case 1: return draw_round (maker, between (maker, 130, 210), between (maker, 130, 240));
    case 2: return draw_square (maker, between (maker, 180, 260), between (maker, 170, 240), TRUE);
    case 3: return draw_square (maker, between (maker, 240, 320), between (maker, 75, 110), FALSE);
    case 4: return draw_square (maker, between (maker, 110, 170), between (maker, 110, 190), FALSE);
    default: return draw_round (maker, between (maker, 110, 180), between (maker, 120, 170));
    }
}

static OddZone *
draw_flaw (Maker *maker, const GArray *corners, guint i)
{
  static const OddZoneKind kinds[] = { ODD_ZONE_HOLE, ODD_ZONE_STAIN, ODD_ZONE_MARK, ODD_ZONE_OLD_SEAM };
  const OddBox box = odd_box_from_points ((const OddPoint *) corners->data, corners->len);
  OddZone *flaw;

  if (i % 7 != 3)
    return NULL;
  flaw = g_new0 (OddZone, 1);
  flaw->kind = kinds[i / 7 % G_N_ELEMENTS (kinds)];
  flaw->allowance_only = flaw->kind == ODD_ZONE_OLD_SEAM;
  flaw->outline = new_spot (odd_point (box.x + box.width * between (maker, 0.4, 0.6), box.y + box.height * between (maker, 0.4, 0.55)),
                            between (maker, 6, 14));
  return flaw;
}

static void
add_free_scraps (Plan *plan, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      Maker *maker = plan->maker;
      g_autoptr(GArray) corners = draw_free (maker, i);
      OddZone *flaw = draw_flaw (maker, corners, i);
      const double grain_deg = chance (maker, 0.7) ? 90.0 : round_to (between (maker, 0.0, 180.0), 5.0);

      add_scrap (plan, corners, (i * 7 + 3) % maker->n_fabrics, grain_deg, chance (maker, 0.75), flaw);
      free_flaw (flaw);
    }
}

/* --- into the job --- */

/* In the order in which they came out of the tub: none. */
static guint *
shuffle (Maker *maker, guint n)
{
  guint *order = g_new (guint, n);

  for (guint i = 0; i < n; i++)
    order[i] = i;
  for (guint i = n - 1; i > 0; i--)
    {
      const guint k = (guint) g_rand_int_range (maker->random, 0, (gint32) i + 1);
      const guint kept = order[i];

      order[i] = order[k];
      order[k] = kept;
    }
  return order;
}

static void
put_scraps (Plan *plan, OddId *out_ids)
{
  g_autofree guint *order = shuffle (plan->maker, plan->scraps->len);

  for (guint i = 0; i < plan->scraps->len; i++)
    sample_step (plan->maker, odd_job_put_scrap (plan->maker->job, plan->scraps->pdata[order[i]], &out_ids[order[i]], &plan->maker->error));
}

static void
need_clear (gpointer data)
{
  Need *need = data;

  odd_convex_unref (need->cut);
  odd_convex_unref (need->region);
}

void
sample_fill (Maker *maker, const OddId *panels, guint n_panels, guint n_free)
{
  Plan plan = { maker, g_array_new (FALSE, FALSE, sizeof (Need)), g_ptr_array_new_with_free_func ((GDestroyNotify) odd_scrap_unref) };
  g_autofree OddId *ids = NULL;

  g_array_set_clear_func (plan.needs, need_clear);
  for (guint i = 0; i < n_panels; i++)
    collect_needs (&plan, i, panels[i]);
  choose_fabrics (&plan);
  cut_scraps (&plan);
  add_free_scraps (&plan, n_free);
  ids = g_new0 (OddId, plan.scraps->len);
  put_scraps (&plan, ids);
  for (guint i = 0; i < plan.needs->len; i++)
    {
      const Need *need = get_need (&plan, i);

      sample_step (maker, odd_job_place_scrap (maker->job, need->leaf_id, ids[need->scrap], &need->placement, &maker->error));
    }
  g_array_unref (plan.needs);
  g_ptr_array_unref (plan.scraps);
}
