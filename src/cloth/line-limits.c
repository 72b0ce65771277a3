/* How far a line may go.
 *
 * Every condition (a patch fits its scrap, is wide enough, two seams do not meet ...) is a question to a line. Along a path, a region gains
 * or loses a corner only where the line passes a corner of the region's base. Between two such places a region only grows, or only shrinks, and
 * so does its cut shape: whether the condition holds can change there once at most. So each condition is asked at those places and just behind
 * them, and the first place where it fails is found by bisection in the one interval in which it must lie. What a condition allows bounds the
 * search of the next; most of them are then done with by a few questions.
 */
#include "config.h"

#include "cloth/line-move-private.h"

#define JUST_BEHIND 1e-6
#define EXACT 1e-5
#define TILT_STEP_DEG 5.0        /* a tilted patch grows on one side and shrinks on the other: asked in between too */
#define OVERLAP_MM2 1.0          /* as in check.c */

OddHalfPlane
odd_line_move_side (OddHalfPlane line,
                    gboolean     first)
{
  return first ? line : odd_half_plane_flip (line);
}

void
odd_reached_clear (OddReached *reached)
{
  odd_convex_unref (reached->base);
  g_clear_pointer (&reached->usable, g_ptr_array_unref);
  g_clear_pointer (&reached->zones, g_ptr_array_unref);
  g_clear_pointer (&reached->others, g_ptr_array_unref);
  g_clear_pointer (&reached->moving, g_array_unref);
}

/* --- one patch --- */

static double
label_allowance (const OddLayout *layout,
                 int              label)
{
  return label >= 0 ? layout->seams[label].allowance_mm : layout->edges[-1 - label].allowance_mm;
}

static OddConvex *
cut_shape (const OddLineMove *self,
           OddConvex         *region)
{
  g_autofree double *allowances = g_new (double, region->n);

  for (guint i = 0; i < region->n; i++)
    allowances[i] = label_allowance (self->layout, region->labels[i]);
  return odd_convex_cut_shape (region, allowances);
}

static OddPolygon *
in_scrap (const OddPatch *patch,
          OddConvex      *cut)
{
  const OddPlacement back = odd_placement_inverse (&patch->placement);
  g_autoptr(OddConvex) placed = odd_convex_place (cut, &back);

  return odd_polygon_new_from_convex (placed);
}

/* Other patches of the same scrap: those the line can reach move with it, the others stay. */
static void
prepare_others (OddLineMove *self,
                OddReached  *reached)
{
  guint n = 0;
  const OddUse *uses = odd_job_get_uses (self->job, reached->patch->scrap->id, &n);

  if (n < 2)
    return;
  reached->others = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);
  reached->moving = g_array_new (FALSE, FALSE, sizeof (guint));
  for (guint i = 0; i < n; i++)
    {
      guint at = self->reached->len;

      if (uses[i].leaf->id == reached->patch->leaf->id)
        continue;
      for (guint k = 0; k < self->reached->len; k++)
        if (g_array_index (self->reached, OddReached, k).patch->leaf->id == uses[i].leaf->id)
          at = k;
      if (at < self->reached->len)
        g_array_append_val (reached->moving, at);
      else
        {
          g_autoptr(OddLayout) layout = odd_job_dup_layout_apart (self->job, uses[i].panel->id);
          const OddPatch *other = odd_layout_find_patch (layout, uses[i].leaf->id);

          if (other != NULL)
            g_ptr_array_add (reached->others, in_scrap (other, other->cut));
        }
    }
}

static OddConvex *
region_at (const OddLineMove *self,
           const OddReached  *reached,
           OddHalfPlane       line)
{
  return odd_convex_clip (reached->base, odd_line_move_side (line, reached->first), self->label);
}

static gboolean
overlaps (OddLineMove      *self,
          const OddReached *reached,
          OddConvex        *cut,
          OddHalfPlane      line)
{
  g_autoptr(OddPolygon) own = NULL;

  if (reached->others == NULL)
    return FALSE;
  own = in_scrap (reached->patch, cut);
  for (guint i = 0; i < reached->others->len; i++)
    if (odd_polygon_overlap_area (own, reached->others->pdata[i]) > OVERLAP_MM2)
      return TRUE;
  for (guint i = 0; i < reached->moving->len; i++)
    {
      const OddReached *other = &g_array_index (self->reached, OddReached, g_array_index (reached->moving, guint, i));
      g_autoptr(OddConvex) region = region_at (self, other, line);
      g_autoptr(OddConvex) other_cut = region != NULL ? cut_shape (self, region) : NULL;
      g_autoptr(OddPolygon) theirs = other_cut != NULL ? in_scrap (other->patch, other_cut) : NULL;

      if (theirs != NULL && odd_polygon_overlap_area (own, theirs) > OVERLAP_MM2)
        return TRUE;
    }
  return FALSE;
}

static gboolean
lies_in (GPtrArray       *usable,
         const OddConvex *cut)
{
  for (guint i = 0; i < usable->len; i++)
    if (odd_polygon_contains_convex (usable->pdata[i], cut, ODD_FIT_TOLERANCE_MM))
      return TRUE;
  return FALSE;
}

static gboolean
shows_flaw (GPtrArray *zones,
            OddConvex *region)
{
  g_autoptr(OddPolygon) shown = zones->len > 0 ? odd_polygon_new_from_convex (region) : NULL;

  for (guint i = 0; i < zones->len; i++)
    {
      g_autoptr(GPtrArray) common = odd_polygon_intersection (zones->pdata[i], shown);

      if (common->len > 0)
        return TRUE;
    }
  return FALSE;
}

static OddStopKind
cloth_stop (OddLineMove      *self,
            const OddReached *reached,
            OddConvex        *region,
            OddHalfPlane      line)
{
  g_autoptr(OddConvex) cut = cut_shape (self, region);

  if (!lies_in (reached->usable, cut))
    return ODD_STOP_SCRAP;
  if (shows_flaw (reached->zones, region))
    return ODD_STOP_FLAW;
  return overlaps (self, reached, cut, line) ? ODD_STOP_OVERLAP : ODD_STOP_NONE;
}

static void
prepare (OddLineMove *self,
         OddReached  *reached)
{
  const OddPatch *patch = reached->patch;
  g_autoptr(GPtrArray) zones = NULL;

  if (reached->prepared)
    return;
  reached->prepared = TRUE;
  if (patch->scrap == NULL)
    return;
  reached->usable = odd_patch_dup_placed_usable (patch);
  reached->zones = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);
  zones = odd_scrap_dup_allowance_zones (patch->scrap, patch->fabric);
  for (guint i = 0; i < zones->len; i++)
    g_ptr_array_add (reached->zones, odd_polygon_place (zones->pdata[i], &patch->placement));
  prepare_others (self, reached);
  reached->fits = cloth_stop (self, reached, patch->region, self->line) == ODD_STOP_NONE;
}

static gboolean
all_inside (const OddConvex *region,
            OddHalfPlane     side)
{
  for (guint i = 0; i < region->n; i++)
    if (odd_half_plane_distance (side, region->points[i]) > ODD_TOLERANCE_MM)
      return FALSE;
  return TRUE;
}

static gboolean
lies_within (const OddConvex *region,
             const OddConvex *outer)
{
  for (guint i = 0; i < region->n; i++)
    if (!odd_convex_contains (outer, region->points[i], 2 * ODD_TOLERANCE_MM))
      return FALSE;
  return TRUE;
}

/* The corners of the allowances count too: where the line leans less than the edge that was cut, they would stick out. */
static gboolean
fits_its_cloth (OddLineMove      *self,
                const OddReached *reached,
                OddConvex        *region)
{
  g_autoptr(OddConvex) cut = NULL;

  if (!lies_within (region, reached->patch->region))
    return FALSE;
  if (reached->patch->leaf->cut != ODD_STATE_DONE || reached->patch->cut == NULL)
    return TRUE;
  cut = cut_shape (self, region);
  return cut != NULL && lies_within (cut, reached->patch->cut);
}

static OddStopKind
ask_patch (OddLineMove  *self,
           OddReached   *reached,
           OddHalfPlane  line)
{
  const OddHalfPlane side = odd_line_move_side (line, reached->first), now = odd_line_move_side (self->line, reached->first);
  g_autoptr(OddConvex) region = NULL;

  if (all_inside (reached->base, side) && all_inside (reached->base, now))
    return ODD_STOP_NONE;
  region = region_at (self, reached, line);
  if (region == NULL)
    return ODD_STOP_VANISHED;
  if (reached->locked && !odd_convex_equal (region, reached->patch->region, ODD_TOLERANCE_MM))
    return ODD_STOP_LOCKED;
  if (reached->fixed != ODD_STOP_NONE && !fits_its_cloth (self, reached, region))
    return reached->fixed;
  if (odd_convex_min_width (region) < reached->least_width_mm - ODD_TOLERANCE_MM)
    return ODD_STOP_NARROW;
  prepare (self, reached);
  return reached->fits ? cloth_stop (self, reached, region, line) : ODD_STOP_NONE;
}

/* --- all conditions, one after the other --- */

static guint
count_conditions (const OddLineMove *self)
{
  return 1 + self->meetings->len + self->reached->len;
}

static gboolean
lies_between_neighbours (const OddLineMove *self,
                         OddHalfPlane       line,
                         OddStop           *stop)
{
  OddSegment chord;

  stop->kind = ODD_STOP_RANGE;
  if (!odd_convex_chord (self->region, line, &chord))
    return FALSE;
  stop->kind = ODD_STOP_SEAM;
  for (guint i = 0; i < self->n_neighbours; i++)
    if (odd_half_plane_distance (self->neighbours[i], chord.from) > -ODD_TOLERANCE_MM ||
        odd_half_plane_distance (self->neighbours[i], chord.to) > -ODD_TOLERANCE_MM)
      return FALSE;
  return TRUE;
}

/* Condition 0: the line lies in its region, between its neighbours; then the meetings; then the patches. */
static gboolean
ask (OddLineMove  *self,
     guint         condition,
     OddHalfPlane  line,
     OddStop      *stop)
{
  OddReached *reached;

  stop->leaf_id = 0;
  if (condition == 0)
    return lies_between_neighbours (self, line, stop);
  if (condition <= self->meetings->len)
    {
      const OddMeeting *meeting = &g_array_index (self->meetings, OddMeeting, condition - 1);

      stop->kind = ODD_STOP_SEAM;
      return odd_half_plane_distance (odd_line_move_side (line, meeting->first), meeting->at) > -ODD_TOLERANCE_MM;
    }
  reached = &g_array_index (self->reached, OddReached, condition - 1 - self->meetings->len);
  stop->leaf_id = reached->patch->leaf->id;
  stop->kind = ask_patch (self, reached, line);
  return stop->kind == ODD_STOP_NONE;
}

gboolean
odd_line_move_allows (OddLineMove  *self,
                      OddHalfPlane  line,
                      OddStop      *out_stop)
{
  OddStop stop = { ODD_STOP_NONE, 0 };

  for (guint i = 0; i < count_conditions (self); i++)
    if (!ask (self, i, line, &stop))
      {
        if (out_stop != NULL)
          *out_stop = stop;
        return FALSE;
      }
  return TRUE;
}

/* --- along a path --- */

static OddHalfPlane
line_at (OddHalfPlane       from,
         const OddLinePath *path,
         double             amount)
{
  const OddPlacement turn = { amount, FALSE, { 0.0, 0.0 } };
  OddPoint normal;

  if (!path->tilt)
    return odd_half_plane_push (from, amount);
  normal = odd_placement_apply (&turn, from.normal);
  return (OddHalfPlane) { normal, odd_point_dot (normal, path->pivot) };
}

OddHalfPlane
odd_line_move_line_at (OddLineMove       *self,
                       const OddLinePath *path,
                       double             amount)
{
  return line_at (self->line, path, amount);
}

/* Where along the path the line passes the point; NAN: never. */
static double
amount_at (OddHalfPlane       from,
           const OddLinePath *path,
           OddPoint           p)
{
  const OddPoint n = from.normal, d = odd_point_sub (p, path->pivot);
  double deg;

  if (!path->tilt)
    return odd_half_plane_distance (from, p);
  if (hypot (d.x, d.y) < ODD_TOLERANCE_MM)
    return NAN;
  deg = atan2 (odd_point_dot (n, d), odd_point_dot (odd_point (n.y, -n.x), d)) * 180.0 / G_PI;
  return deg > 90.0 ? deg - 180.0 : deg < -90.0 ? deg + 180.0 : deg;
}

typedef struct
{
  OddLineMove *move;
  const OddLinePath *path;
  OddHalfPlane from;
  double sign;                   /* 1 or -1 */
  double best;                   /* how far all conditions asked so far allow */
  OddStop stop;
  GArray *places;                /* double: of the condition asked now */
} Search;

static void
add_place (Search *search,
           double  amount)
{
  amount *= search->sign;
  if (isfinite (amount) && amount > 0.0 && amount < search->best)
    g_array_append_val (search->places, amount);
}

static void
add_places_of (Search          *search,
               const OddConvex *region)
{
  for (guint i = 0; i < region->n; i++)
    add_place (search, amount_at (search->from, search->path, region->points[i]));
}

static int
compare_doubles (gconstpointer a,
                 gconstpointer b)
{
  const double x = *(const double *) a, y = *(const double *) b;

  return (x > y) - (x < y);
}

static gboolean
ask_at (Search  *search,
        guint    condition,
        double   amount,
        OddStop *stop)
{
  return ask (search->move, condition, line_at (search->from, search->path, search->sign * amount), stop);
}

/* The condition holds at @good and fails at @bad. */
static void
bisect (Search *search,
        guint   condition,
        double  good,
        double  bad,
        OddStop stop)
{
  while (bad - good > EXACT)
    {
      const double middle = (good + bad) / 2.0;
      OddStop at_middle;

      if (ask_at (search, condition, middle, &at_middle))
        good = middle;
      else
        {
          bad = middle;
          stop = at_middle;
        }
    }
  search->best = good;
  search->stop = stop;
}

static void
search_condition (Search *search,
                  guint   condition)
{
  double good = 0.0;

  g_array_append_val (search->places, search->best);
  if (search->path->tilt)
    for (double deg = TILT_STEP_DEG; deg < search->best; deg += TILT_STEP_DEG)
      g_array_append_val (search->places, deg);
  g_array_sort (search->places, compare_doubles);
  for (guint i = 0; i < search->places->len; i++)
    {
      const double place = g_array_index (search->places, double, i);
      OddStop stop;

      if (!ask_at (search, condition, place, &stop))
        {
          bisect (search, condition, good, place, stop);
          return;
        }
      good = place;
      if (place + JUST_BEHIND < search->best && !ask_at (search, condition, place + JUST_BEHIND, &stop))
        {
          search->best = place;
          search->stop = stop;
          return;
        }
    }
}

/* Is the patch out of the line's reach along the whole of the way that is left? */
static gboolean
is_out_of_reach (const Search     *search,
                 const OddReached *reached)
{
  return search->places->len == 0 && all_inside (reached->base, odd_line_move_side (search->from, reached->first));
}

static double
search_way (OddLineMove       *self,
            const OddLinePath *path,
            OddHalfPlane       from,
            double             sign,
            double             farthest,
            OddStop           *out_stop)
{
  Search search = { self, path, from, sign, farthest, { ODD_STOP_RANGE, 0 }, g_array_new (FALSE, FALSE, sizeof (double)) };

  for (guint i = 0; i < count_conditions (self) && search.best > 0.0; i++)
    {
      g_array_set_size (search.places, 0);
      if (i == 0)
        add_places_of (&search, self->region);
      else if (i <= self->meetings->len)
        add_place (&search, amount_at (from, path, g_array_index (self->meetings, OddMeeting, i - 1).at));
      else
        {
          const OddReached *reached = &g_array_index (self->reached, OddReached, i - 1 - self->meetings->len);

          add_places_of (&search, reached->base);
          if (is_out_of_reach (&search, reached))
            continue;
        }
      search_condition (&search, i);
    }
  g_array_unref (search.places);
  *out_stop = search.stop;
  return sign * search.best;
}

void
odd_line_move_get_limits (OddLineMove       *self,
                          const OddLinePath *path,
                          OddLineLimits     *out)
{
  const OddPoint n = self->line.normal;
  const double beyond = odd_convex_support (self->region, n) - self->line.offset_mm;
  const double before = odd_convex_support (self->region, odd_point (-n.x, -n.y)) + self->line.offset_mm;

  out->most = search_way (self, path, self->line, 1.0, path->tilt ? ODD_MOST_TILT_DEG : MAX (beyond, 0.0), &out->at_most);
  out->least = search_way (self, path, self->line, -1.0, path->tilt ? ODD_MOST_TILT_DEG : MAX (before, 0.0), &out->at_least);
}

double
odd_line_move_get_reach (OddLineMove  *self,
                         OddHalfPlane  from,
                         OddStop      *out_stop)
{
  const OddLinePath outward = { FALSE, { 0.0, 0.0 } };
  const double farthest = odd_convex_support (self->region, from.normal) - from.offset_mm;

  return odd_line_move_allows (self, from, out_stop) ? search_way (self, &outward, from, 1.0, MAX (farthest, 0.0), out_stop) : -1.0;
}
