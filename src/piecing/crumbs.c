/* Crumbs: a first layout by chance, cloth for it, and the moves that better it. */
#include "config.h"

#include "piecing/crumbs-private.h"

#define LARGER 1.25                /* a leaf may be so much larger than the size drawn for it */
#define MIX_SPREAD 0.75            /* of the logarithm of sizes, at full mix */
#define TRIES_A_SEAM 32
#define TRIES_CLEAR 20             /* of these, so many that must not come near the end of another seam */
#define FITS_A_LEAF 7              /* scraps that fit, small ones and large ones, that are compared when a leaf is laid first */
#define TRIES_A_LEAF 4             /* scraps tried beside the leaf's own after a seam has moved */
#define TRIES_ANEW 8
#define LEVEL_STEPS 40
#define MOST_MOVED 4               /* leaves below a seam that is moved */
#define HOT 3000.0                 /* heat at which seams go the farthest */

static double
draw (OddRandom *random,
      double     most)
{
  return odd_random_range (random, -most, most);
}

static OddHalfPlane
line_through (OddPoint p,
              double   normal_deg)
{
  OddHalfPlane line;

  odd_turn_cos_sin (normal_deg, &line.normal.x, &line.normal.y);
  line.offset_mm = odd_point_dot (line.normal, p);

  return line;
}

/* How far the region reaches along the normal. */
static void
reach_along (const OddConvex *region,
             OddPoint         normal,
             double          *out_from_mm,
             double          *out_to_mm)
{
  *out_from_mm = -odd_convex_support (region, odd_point_scale (normal, -1.0));
  *out_to_mm = odd_convex_support (region, normal);
}

/* Across its row; farther from the middle where that did not do. */
static OddHalfPlane
choose_line_in_row (const OddCrumbRules *rules,
                    const OddCrumb      *node,
                    double               calm,
                    OddRandom           *random)
{
  OddHalfPlane line = line_through (odd_point (0.0, 0.0), rules->row_turns_deg[node->field]);
  const double at = 0.5 + draw (random, 0.1 + 0.15 * rules->mix + 0.2 * (1.0 - calm));
  double from_mm, to_mm;

  reach_along (node->region, line.normal, &from_mm, &to_mm);
  line.offset_mm = from_mm + at * (to_mm - from_mm);

  return line;
}

/* Across the longer way of the region as a rule, tilted; the livelier, the farther from the middle. */
static OddHalfPlane
choose_line (const OddCrumbRules *rules,
             const OddCrumb      *node,
             double               calm,
             OddRandom           *random)
{
  const OddConvex *region = node->region;
  const OddBox box = odd_convex_box (region);
  const double across = box.width * box.width * box.width;
  const double down = box.height * box.height * box.height;
  const gboolean upright = odd_random_unit (random) * (across + down) < across;
  const double at = 0.5 + draw (random, 0.1 + 0.15 * rules->mix);
  const double tilt_deg = draw (random, rules->tilt_deg * calm);
  const OddPoint p = upright ? odd_point (box.x + at * box.width, box.y + box.height / 2.0) : odd_point (box.x + box.width / 2.0, box.y + at * box.height);

  return line_through (p, (upright ? 0.0 : 90.0) + tilt_deg);
}

static OddHalfPlane
choose_part_line (const OddCrumbRules *rules,
                  const OddCrumb      *node,
                  double               calm,
                  OddRandom           *random)
{
  return rules->row_turns_deg != NULL ? choose_line_in_row (rules, node, calm, random) : choose_line (rules, node, calm, random);
}

/* FALSE, and nothing changed: no seam found that keeps the rules. */
static gboolean
part_by_chance (OddCrumbs *self,
                guint      at,
                OddRandom *random)
{
  for (guint i = 0; i < TRIES_A_SEAM; i++)
    {
      const OddHalfPlane line = choose_part_line (self->rules, odd_crumbs_node (self, at), 1.0 - (double) i / TRIES_A_SEAM, random);

      odd_crumbs_begin (self);
      odd_crumbs_save (self, at);
      if (odd_crumbs_part (self, at, line))
        {
          const guint kids[2] = { odd_crumbs_node (self, at)->kids[0], odd_crumbs_node (self, at)->kids[1] };

          if (i >= TRIES_CLEAR || odd_crumbs_lined_up (self, kids, 2) == 0.0)
            return TRUE;
        }
      odd_crumbs_undo (self);
    }

  return FALSE;
}

/* Against a square of the wanted size; a patch of a high row may be larger, or it would be a bar. */
static double
size_of (const OddCrumbs *self,
         guint            at)
{
  const OddCrumb *node = odd_crumbs_node (self, at);
  OddHalfPlane line;
  double from_mm, to_mm;

  if (self->rules->row_turns_deg == NULL)
    return odd_convex_area (node->region);
  line = line_through (odd_point (0.0, 0.0), self->rules->row_turns_deg[node->field] + 90.0);
  reach_along (node->region, line.normal, &from_mm, &to_mm);

  return odd_convex_area (node->region) * sqrt (self->rules->scale_mm / (to_mm - from_mm));
}

static void
lay_out (OddCrumbs    *self,
         guint         at,
         OddRandom    *random,
         GCancellable *cancellable)
{
  const double goal_mm = self->rules->scale_mm * exp (draw (random, MIX_SPREAD * self->rules->mix));
  guint kids[2];

  if (size_of (self, at) <= LARGER * goal_mm * goal_mm || g_cancellable_is_cancelled (cancellable) || !part_by_chance (self, at, random))
    return;
  kids[0] = odd_crumbs_node (self, at)->kids[0];
  kids[1] = odd_crumbs_node (self, at)->kids[1];
  lay_out (self, kids[0], random, cancellable);
  lay_out (self, kids[1], random, cancellable);
}

/* --- rows, and patches side by side in each --- */

/* The livelier, the farther from the middle of what rows may be. */
static double
draw_height (const OddCrumbRules *rules,
             OddRandom           *random)
{
  const double middle_mm = sqrt (rules->row_least_mm * rules->row_most_mm);

  return middle_mm * exp (draw (random, 0.5 * rules->mix * log (rules->row_most_mm / rules->row_least_mm)));
}

/* A row off the upper end, so high that what is left can be rows too. FALSE, and nothing changed: all of it has to be one. */
static gboolean
part_off_row (OddCrumbs *self,
              guint      at,
              OddRandom *random)
{
  const OddCrumbRules *rules = self->rules;
  OddHalfPlane line = line_through (odd_point (0.0, 0.0), rules->row_turns_deg[odd_crumbs_node (self, at)->field] + 90.0);
  double from_mm, to_mm;

  reach_along (odd_crumbs_node (self, at)->region, line.normal, &from_mm, &to_mm);
  if (to_mm - from_mm < 2.0 * rules->row_least_mm)
    return FALSE;
  for (guint i = 0; i < TRIES_A_SEAM; i++)
    {
      const double height_mm = draw_height (rules, random);

      if (height_mm >= to_mm - from_mm - ODD_TOLERANCE_MM)
        return FALSE;
      line.offset_mm = MIN (from_mm + height_mm, to_mm - rules->row_least_mm);
      odd_crumbs_begin (self);
      odd_crumbs_save (self, at);
      if (odd_crumbs_part (self, at, line))
        return TRUE;
      odd_crumbs_undo (self);
    }

  return FALSE;
}

static void
lay_out_rows (OddCrumbs    *self,
              guint         at,
              OddRandom    *random,
              GCancellable *cancellable)
{
  guint rest = at;

  while (part_off_row (self, rest, random))
    {
      const guint row = odd_crumbs_node (self, rest)->kids[0];

      rest = odd_crumbs_node (self, rest)->kids[1];
      lay_out (self, row, random, cancellable);
    }
  lay_out (self, rest, random, cancellable);
}

/* --- cloth for all leaves --- */

static guint
take_largest (const OddCrumbs *self,
              GArray          *waiting)
{
  guint largest = 0;
  guint leaf;

  for (guint i = 1; i < waiting->len; i++)
    if (odd_crumbs_node (self, g_array_index (waiting, guint, i))->area_mm2 > odd_crumbs_node (self, g_array_index (waiting, guint, largest))->area_mm2)
      largest = i;
  leaf = g_array_index (waiting, guint, largest);
  g_array_remove_index_fast (waiting, largest);

  return leaf;
}

/* One that finds no cloth is parted, and its halves wait in its place. */
static gboolean
lay_all (OddCrumbs    *self,
         GArray       *waiting,
         OddRandom    *random,
         GCancellable *cancellable)
{
  while (waiting->len > 0)
    {
      const guint leaf = take_largest (self, waiting);

      if (g_cancellable_is_cancelled (cancellable))
        return FALSE;
      odd_crumbs_begin (self);
      odd_crumbs_save (self, leaf);
      if (odd_crumbs_lay_best (self, leaf, FITS_A_LEAF, random) || !part_by_chance (self, leaf, random))
        continue;
      for (guint i = 0; i < 2; i++)
        {
          const guint kid = odd_crumbs_node (self, leaf)->kids[i];

          g_array_append_val (waiting, kid);
        }
    }

  return TRUE;
}

static void
collect_leaves (const OddCrumbs *self,
                guint            at,
                GArray          *leaves)
{
  const OddCrumb *node = odd_crumbs_node (self, at);

  if (odd_crumb_is_leaf (node))
    g_array_append_val (leaves, at);
  else
    for (guint i = 0; i < 2; i++)
      collect_leaves (self, node->kids[i], leaves);
}

/* The level line above which so much of the region lies. */
static OddHalfPlane
level_line (OddConvex *region,
            double     above_mm2)
{
  const OddBox box = odd_convex_box (region);
  OddHalfPlane line = { { 0.0, 1.0 }, 0.0 };
  double low_mm = box.y, high_mm = box.y + box.height;

  for (guint i = 0; i < LEVEL_STEPS; i++)
    {
      g_autoptr(OddConvex) above = NULL;

      line.offset_mm = (low_mm + high_mm) / 2.0;
      above = odd_convex_clip (region, line, 0);
      if (above != NULL && odd_convex_area (above) > above_mm2)
        high_mm = line.offset_mm;
      else
        low_mm = line.offset_mm;
    }

  return line;
}

/* What of a field is to be pieced, if cloth for so much is there: the whole, a strip of it above a level seam, or nothing (-1). */
static int
field_within (OddCrumbs *self,
              guint      root,
              double     reach_mm2)
{
  const double area_mm2 = odd_convex_area (odd_crumbs_node (self, root)->region);
  OddHalfPlane line;

  if (reach_mm2 >= area_mm2)
    return (int) root;
  if (reach_mm2 <= 0.0)
    return -1;
  line = level_line (odd_crumbs_node (self, root)->region, reach_mm2);
  odd_crumbs_begin (self);
  odd_crumbs_save (self, root);
  if (odd_crumbs_part (self, root, line))
    return odd_crumbs_node (self, root)->kids[0];
  odd_crumbs_undo (self);

  return reach_mm2 > area_mm2 / 2.0 ? (int) root : -1;
}

gboolean
odd_crumbs_fill (OddCrumbs    *self,
                 double        reach_mm2,
                 OddRandom    *random,
                 GCancellable *cancellable)
{
  g_autoptr(GArray) waiting = g_array_new (FALSE, FALSE, sizeof (guint));
  gboolean done;

  for (guint i = 0; i < self->roots->len; i++)
    {
      const guint root = g_array_index (self->roots, guint, i);
      const int at = field_within (self, root, reach_mm2);

      reach_mm2 -= odd_convex_area (odd_crumbs_node (self, root)->region);
      if (at < 0)
        continue;
      if (self->rules->row_turns_deg != NULL)
        lay_out_rows (self, (guint) at, random, cancellable);
      else
        lay_out (self, (guint) at, random, cancellable);
      collect_leaves (self, at, waiting);
    }
  done = lay_all (self, waiting, random, cancellable);
  odd_crumbs_begin (self);

  return done;
}

/* --- moves --- */

/* A node by chance that is (no) leaf; -1: none found. */
static int
choose_node (const OddCrumbs *self,
             gboolean         leaf,
             OddRandom       *random)
{
  for (guint i = 0; i < 32; i++)
    {
      const guint at = odd_random_below (random, self->nodes->len);
      const OddCrumb *node = odd_crumbs_node (self, at);

      if (!node->gone && (node->kids[0] < 0) == leaf)
        return (int) at;
    }

  return -1;
}

static void
save_below (OddCrumbs *self,
            guint      at)
{
  const int first = odd_crumbs_node (self, at)->kids[0];
  const int second = odd_crumbs_node (self, at)->kids[1];

  odd_crumbs_save (self, at);
  if (first < 0)
    return;
  save_below (self, first);
  save_below (self, second);
}

/* The larger first. */
static void
sort_leaves (const OddCrumbs *self,
             guint           *leaves,
             guint            n)
{
  for (guint i = 1; i < n; i++)
    for (guint k = i; k > 0 && odd_crumbs_node (self, leaves[k])->area_mm2 > odd_crumbs_node (self, leaves[k - 1])->area_mm2; k--)
      {
        const guint held = leaves[k];

        leaves[k] = leaves[k - 1];
        leaves[k - 1] = held;
      }
}

static OddHalfPlane
moved_line (const OddCrumbs *self,
            const OddCrumb  *node,
            double           heat,
            OddRandom       *random)
{
  const double reach = sqrt (MIN (heat / HOT, 1.0));
  const double most_deg = self->rules->tilt_deg;
  const OddPoint middle = odd_point (node->box.x + node->box.width / 2.0, node->box.y + node->box.height / 2.0);
  const double away_mm = odd_half_plane_distance (node->line, middle) + draw (random, 2.0 + 28.0 * reach);
  const double normal_deg = atan2 (node->line.normal.y, node->line.normal.x) * 180.0 / G_PI;
  const double turn_deg = self->rules->row_turns_deg != NULL ? self->rules->row_turns_deg[node->field] : 0.0;
  const double square_deg = turn_deg + 90.0 * round ((normal_deg - turn_deg) / 90.0);
  const double tilt_deg = normal_deg - square_deg + draw (random, most_deg * (0.05 + 0.5 * reach));

  return odd_half_plane_push (line_through (middle, square_deg + CLAMP (tilt_deg, -most_deg, most_deg)), -away_mm);
}

static gboolean
lay_moved (OddCrumbs   *self,
           guint       *leaves,
           const guint *scraps,
           guint        n,
           OddRandom   *random)
{
  guint sorted[MOST_MOVED];

  for (guint i = 0; i < n; i++)
    sorted[i] = leaves[i];
  sort_leaves (self, sorted, n);
  for (guint i = 0; i < n; i++)
    {
      guint own = ODD_NO_SCRAP;

      for (guint k = 0; k < n; k++)
        if (leaves[k] == sorted[i])
          own = scraps[k];
      if (!odd_crumbs_lay_some (self, sorted[i], own, TRIES_A_LEAF, random) && own != ODD_NO_SCRAP)
        return FALSE;
    }

  return TRUE;
}

/* One that parts rows: it stays, so that rows stay rows. */
static gboolean
parts_rows (const OddCrumbs *self,
            const OddCrumb  *node)
{
  OddPoint along;

  if (self->rules->row_turns_deg == NULL)
    return FALSE;
  odd_turn_cos_sin (self->rules->row_turns_deg[node->field], &along.x, &along.y);

  return fabs (odd_point_dot (node->line.normal, along)) < 0.5;
}

/* A seam goes elsewhere, and the leaves below it look for cloth, their own first. */
static gboolean
move_seam (OddCrumbs *self,
           gboolean   anew,
           double     heat,
           OddRandom *random,
           guint     *leaves,
           guint     *n,
           double    *look_mm2)
{
  const int at = choose_node (self, FALSE, random);
  guint scraps[MOST_MOVED];
  OddHalfPlane line;

  if (at < 0 || parts_rows (self, odd_crumbs_node (self, at)))
    return FALSE;
  *n = odd_crumbs_leaves_below (self, at, leaves, MOST_MOVED);
  if (*n > (anew ? 2 : MOST_MOVED))
    return FALSE;
  line = anew ? choose_part_line (self->rules, odd_crumbs_node (self, at), 1.0, random) : moved_line (self, odd_crumbs_node (self, at), heat, random);
  *look_mm2 = odd_crumbs_look_of (self, leaves, *n);
  save_below (self, at);
  for (guint i = 0; i < *n; i++)
    {
      scraps[i] = odd_crumbs_node (self, leaves[i])->scrap;
      odd_crumbs_take_off (self, leaves[i]);
    }
  odd_crumbs_node (self, at)->line = line;

  return odd_crumbs_reshape (self, at) && lay_moved (self, leaves, scraps, *n, random);
}

static gboolean
lay_anew (OddCrumbs *self,
          OddRandom *random,
          guint     *leaves,
          guint     *n,
          double    *look_mm2)
{
  const int at = choose_node (self, TRUE, random);

  if (at < 0)
    return FALSE;
  leaves[0] = at;
  *n = 1;
  *look_mm2 = odd_crumbs_look_of (self, leaves, 1);
  odd_crumbs_save (self, at);
  odd_crumbs_take_off (self, at);

  return odd_crumbs_lay_some (self, at, ODD_NO_SCRAP, TRIES_ANEW, random);
}

/* Two leaves change scraps. */
static gboolean
exchange (OddCrumbs *self,
          OddRandom *random,
          guint     *leaves,
          guint     *n,
          double    *look_mm2)
{
  const int a = choose_node (self, TRUE, random);
  const int b = choose_node (self, TRUE, random);
  guint scraps[2];

  if (a < 0 || b < 0 || a == b)
    return FALSE;
  scraps[0] = odd_crumbs_node (self, a)->scrap;
  scraps[1] = odd_crumbs_node (self, b)->scrap;
  if (scraps[0] == scraps[1] || scraps[0] == ODD_NO_SCRAP || scraps[1] == ODD_NO_SCRAP)
    return FALSE;
  leaves[0] = a;
  leaves[1] = b;
  *n = 2;
  *look_mm2 = odd_crumbs_look_of (self, leaves, 2);
  odd_crumbs_save (self, a);
  odd_crumbs_save (self, b);
  odd_crumbs_take_off (self, a);
  odd_crumbs_take_off (self, b);

  return odd_crumbs_lay (self, a, scraps[1], random) && odd_crumbs_lay (self, b, scraps[0], random);
}

void
odd_crumbs_move (OddCrumbs *self,
                 double     heat,
                 OddRandom *random)
{
  const guint dice = odd_random_below (random, 16);
  const double chance = odd_random_unit (random);
  const double share_mm2 = odd_crumbs_share_cost (self);
  guint leaves[MOST_MOVED + 1];
  guint n = 0;
  double look_mm2 = 0.0;
  double change;
  gboolean done;

  odd_crumbs_begin (self);
  if (dice < 9)
    done = move_seam (self, dice == 0, heat, random, leaves, &n, &look_mm2);
  else if (dice < 13)
    done = lay_anew (self, random, leaves, &n, &look_mm2);
  else
    done = exchange (self, random, leaves, &n, &look_mm2);
  if (done)
    {
      change = self->used_mm2 - self->used_before_mm2 + odd_crumbs_look_of (self, leaves, n) - look_mm2 + odd_crumbs_share_cost (self) - share_mm2;
      if (change <= 0.0 || chance < exp (-change / heat))
        return;
    }
  odd_crumbs_undo (self);
}
