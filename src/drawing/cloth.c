#include "config.h"

#include "drawing/cloth.h"
#include "drawing/colour.h"
#include "drawing/ink.h"

/* Of cloth nobody has described yet: unbleached, plain. */
static const OddPrint unknown_print = { ODD_PRINT_PLAIN, { 0xd9d0bd, 0xd9d0bd, 0xd9d0bd, 0xd9d0bd }, 20.0 };
#define UNKNOWN_LIGHTNESS 83.0

/* --- where the cloth lies --- */

static void
placement_to_matrix (const OddPlacement *placement, cairo_matrix_t *out)
{
  const double mirror = placement->mirror ? -1.0 : 1.0;
  double c, s;

  odd_turn_cos_sin (placement->turn_deg, &c, &s);
  cairo_matrix_init (out, c * mirror, s * mirror, -s, c, placement->shift.x, placement->shift.y);
}

void
odd_cloth_get_wash (OddScrap *scrap, OddFabric *fabric, cairo_matrix_t *out)
{
  const double grain_rad = scrap->grain_deg * G_PI / 180.0;

  cairo_matrix_init_identity (out);
  if (fabric == NULL || scrap->washed)
    return;
  cairo_matrix_rotate (out, grain_rad);
  cairo_matrix_scale (out, 1.0 - fabric->shrink_along, 1.0 - fabric->shrink_across);
  cairo_matrix_rotate (out, -grain_rad);
}

static gboolean
use_picture (OddPalette *palette, cairo_t *cr, OddJob *job, OddScrap *scrap, const cairo_matrix_t *scrap_to_frame)
{
  OddPicture *picture = scrap->picture != NULL ? odd_job_get_picture (job, scrap->picture) : NULL;
  cairo_matrix_t matrix;

  if (picture == NULL || !(scrap->picture_mm_per_px > 0.0))
    return FALSE;
  cairo_matrix_init (&matrix, scrap->picture_mm_per_px, 0.0, 0.0, scrap->picture_mm_per_px, scrap->picture_at_mm.x, scrap->picture_at_mm.y);
  cairo_matrix_multiply (&matrix, &matrix, scrap_to_frame);
  return odd_palette_use_picture (palette, cr, picture, &matrix);
}

static void
use_cloth (OddPalette *palette, cairo_t *cr, OddJob *job, OddScrap *scrap, OddFabric *fabric, const OddPlacement *placement)
{
  cairo_matrix_t scrap_to_frame, print_to_scrap, wash;

  placement_to_matrix (placement, &scrap_to_frame);
  if (scrap != NULL)
    {
      odd_cloth_get_wash (scrap, fabric, &wash);
      cairo_matrix_multiply (&scrap_to_frame, &wash, &scrap_to_frame);
      if (use_picture (palette, cr, job, scrap, &scrap_to_frame))
        return;
    }
  /* a print's y axis is its grain, and y is at 90 degrees from x */
  cairo_matrix_init_rotate (&print_to_scrap, scrap != NULL ? (scrap->grain_deg - 90.0) * G_PI / 180.0 : 0.0);
  cairo_matrix_multiply (&print_to_scrap, &print_to_scrap, &scrap_to_frame);
  odd_palette_use_print (palette, cr, fabric != NULL ? &fabric->print : &unknown_print, &print_to_scrap);
}

/* --- on paper --- */

/* Lines the farther apart the lighter the cloth, none on the lightest; three slants tell neighbours of one tone apart. */
static void
hatch_by_tone (cairo_t *cr, double lightness, guint slant, double px)
{
  const double angle = (30.0 + 55.0 * (slant % 3)) * G_PI / 180.0;
  const double pitch = (5.0 + 0.22 * lightness) * px;
  const OddPoint normal = odd_point (-sin (angle), cos (angle)), along = odd_point (cos (angle), sin (angle));
  double x1, y1, x2, y2, reach, middle;

  cairo_clip_extents (cr, &x1, &y1, &x2, &y2);
  if (lightness > 88.0 || x2 <= x1)
    return;
  reach = 0.5 * hypot (x2 - x1, y2 - y1);
  middle = odd_point_dot (normal, odd_point (0.5 * (x1 + x2), 0.5 * (y1 + y2)));
  for (double at = ceil ((middle - reach) / pitch) * pitch; at < middle + reach; at += pitch)
    {
      const double centre = odd_point_dot (along, odd_point (0.5 * (x1 + x2), 0.5 * (y1 + y2)));
      const OddPoint foot = odd_point_add (odd_point_scale (normal, at), odd_point_scale (along, centre));

      cairo_move_to (cr, foot.x - reach * along.x, foot.y - reach * along.y);
      cairo_line_to (cr, foot.x + reach * along.x, foot.y + reach * along.y);
    }
  odd_set_source_rgba (cr, 0x000000, 1.0);
  cairo_set_line_width (cr, 0.28 * px);
  cairo_stroke (cr);
}

static void
fill_on_paper (cairo_t *cr, OddFabric *fabric, const OddPaintOptions *options)
{
  cairo_save (cr);
  cairo_clip (cr);
  hatch_by_tone (cr, fabric != NULL ? odd_fabric_get_lightness (fabric) : UNKNOWN_LIGHTNESS, fabric != NULL ? fabric->id : 0, options->mark_px / options->px_per_mm);
  cairo_restore (cr);
}

void
odd_cloth_fill (OddPalette *palette, cairo_t *cr, OddJob *job, OddScrap *scrap, OddFabric *fabric, const OddPlacement *placement, gboolean flat, const OddPaintOptions *options)
{
  if (scrap != NULL && scrap->piece != NULL)
    {
      odd_piece_fill (palette, cr, job, scrap, placement, flat, options);
      return;
    }
  if (options->on_paper)
    {
      fill_on_paper (cr, fabric, options);
      return;
    }
  if (options->show == ODD_SHOW_LIGHTNESS)
    odd_set_source_rgba (cr, odd_colour_grey (fabric != NULL ? odd_fabric_get_lightness (fabric) : UNKNOWN_LIGHTNESS), 1.0);
  else if (flat && (scrap == NULL || scrap->picture == NULL))
    odd_set_source_rgba (cr, odd_palette_get_mean_colour (palette, fabric != NULL ? &fabric->print : &unknown_print), 1.0);
  else
    use_cloth (palette, cr, job, scrap, fabric, placement);
  if (options->show != ODD_SHOW_SEAMS)
    {
      cairo_fill (cr);
      return;
    }
  cairo_fill_preserve (cr);
  odd_set_source_rgba (cr, ODD_PAPER, 0.66);
  cairo_fill (cr);
}

/* --- ditch and rim --- */

#define DITCH_REACH_MM 6.5
#define RIM_MM 1.6

/* A dark line 5 mm wide on the edge at 42 %, blurred: the part of it within the patch. Taken from the normal distribution
 * with a deviation of 1.6 mm, at the distances below. */
static const struct { double mm, dark; } ditch_profile[] = {
  { 0.0, 0.37 }, { 0.8, 0.35 }, { 1.6, 0.29 }, { 2.6, 0.20 }, { 4.0, 0.075 }, { 5.2, 0.02 }, { DITCH_REACH_MM, 0.0 },
};

#define LARGEST_RING 64

/* What of a convex ring lies within @reach of the line through @a along its inner normal. */
static guint
clip_strip (const OddPoint *points, guint n, OddHalfPlane edge, double reach, OddPoint *out)
{
  guint n_out = 0;

  for (guint i = 0; i < n; i++)
    {
      const OddPoint p = points[i], q = points[(i + 1) % n];
      const double d = odd_half_plane_distance (edge, p) + reach, e = odd_half_plane_distance (edge, q) + reach;

      if (d >= 0.0)
        out[n_out++] = p;
      if ((d >= 0.0) != (e >= 0.0))
        out[n_out++] = odd_point_lerp (p, q, d / (d - e));
    }
  return n_out;
}

static void
ditch_along (cairo_t *cr, const OddPoint *points, guint n, guint edge, gboolean mirrored)
{
  static const double upper_left = -G_SQRT2 / 2.0;
  const OddHalfPlane plane = odd_half_plane_from_edge (points[edge], points[(edge + 1) % n]);
  const double facing = MAX (0.0, upper_left * ((mirrored ? -plane.normal.x : plane.normal.x) + plane.normal.y));
  const OddPoint inner = odd_point_sub (points[edge], odd_point_scale (plane.normal, DITCH_REACH_MM));
  OddPoint strip[2 * LARGEST_RING];
  const guint n_strip = clip_strip (points, n, plane, DITCH_REACH_MM, strip);
  cairo_pattern_t *pattern;

  if (n_strip < 3)
    return;
  pattern = cairo_pattern_create_linear (points[edge].x, points[edge].y, inner.x, inner.y);
  for (guint i = 0; i < G_N_ELEMENTS (ditch_profile); i++)
    {
      const double mm = ditch_profile[i].mm;
      /* the side that faces the light catches it on the swell behind the ditch */
      const double lit = facing * 0.46 * exp (-0.5 * (mm - RIM_MM) * (mm - RIM_MM) / (0.5 * RIM_MM * 0.5 * RIM_MM));
      const double light = lit - ditch_profile[i].dark;

      odd_pattern_add_stop (pattern, mm / DITCH_REACH_MM, light < 0.0 ? ODD_INK : 0xffffff, fabs (light));
    }
  odd_trace_ring (cr, strip, n_strip);
  cairo_set_source (cr, pattern);
  cairo_fill (cr);
  cairo_pattern_destroy (pattern);
}

void
odd_cloth_ditch (cairo_t *cr, const OddPoint *points, guint n, gboolean mirrored, const OddPaintOptions *options)
{
  if (options->on_paper || n > LARGEST_RING)
    return;
  for (guint i = 0; i < n; i++)
    ditch_along (cr, points, n, i, mirrored);
}

/* --- shadow --- */

#define SHADOW 0x1a130c
#define SHADOW_RINGS 9

/* No blur filter: rings of one path, each a little wider and all faint, add up to a soft edge. The widths grow with the square, so
 * that the shadow falls off quickly near the cloth and slowly far from it. */
void
odd_cloth_shadow (cairo_t *cr, gboolean in_hand)
{
  const double reach_mm = in_hand ? 14.0 : 3.6, down_mm = in_hand ? 5.0 : 1.2, dark = in_hand ? 0.34 : 0.30;
  cairo_path_t *path = cairo_copy_path (cr);

  cairo_save (cr);
  cairo_new_path (cr);
  cairo_translate (cr, 0.0, down_mm);
  cairo_append_path (cr, path);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  odd_set_source_rgba (cr, SHADOW, dark / SHADOW_RINGS);
  for (guint i = 1; i <= SHADOW_RINGS; i++)
    {
      cairo_set_line_width (cr, 2.0 * reach_mm * i * i / (SHADOW_RINGS * SHADOW_RINGS));
      cairo_stroke_preserve (cr);
    }
  odd_set_source_rgba (cr, SHADOW, dark);
  cairo_fill (cr);
  cairo_restore (cr);
  cairo_new_path (cr);
  cairo_append_path (cr, path);
  cairo_path_destroy (path);
}
