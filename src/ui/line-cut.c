#include "config.h"
#include "ui/line-cut.h"

#include "piecing/refit.h"
#include "ui/note.h"
#include <glib/gi18n.h>

#define LEAST_PX 12.0                 /* a shorter stroke is no line */
#define SQUARE_DEG 2.0                /* drawn nearly square to the panel, a line is taken to be */

struct _OddLineCut
{
  OddScene *scene;
  OddId leaf_id;
  OddPoint through;                   /* table's layout frame */
  double deg;                         /* direction of the line, from x towards y */
  OddPoint from_px, to_px;            /* while drawn; NAN: not */
};

static const GdkRGBA casing = { 1.0f, 253 / 255.0f, 248 / 255.0f, 0.84f };

OddLineCut *
odd_line_cut_new (OddScene *scene)
{
  OddLineCut *self = g_new0 (OddLineCut, 1);

  self->scene = scene;
  self->from_px = odd_point (NAN, NAN);
  return self;
}

void
odd_line_cut_free (OddLineCut *self)
{
  g_free (self);
}

static const OddPatch *
get_patch (OddLineCut *self, guint *out_item)
{
  return self->leaf_id != 0 && self->scene->table != NULL ? odd_table_find_patch (self->scene->table, self->leaf_id, out_item) : NULL;
}

gboolean
odd_line_cut_begin (OddLineCut *self, OddId leaf_id)
{
  const OddPatch *patch;
  OddBox box;

  self->leaf_id = leaf_id;
  self->from_px = odd_point (NAN, NAN);
  patch = get_patch (self, NULL);
  if (patch == NULL)
    {
      self->leaf_id = 0;
      return FALSE;
    }
  box = odd_convex_box (patch->region);
  self->through = odd_point (box.x + box.width / 2, box.y + box.height / 2);
  self->deg = box.height >= box.width ? 0 : 90;
  gtk_widget_queue_draw (self->scene->widget);
  return TRUE;
}

OddId
odd_line_cut_get_leaf (OddLineCut *self)
{
  return self->leaf_id;
}

void
odd_line_cut_end (OddLineCut *self)
{
  self->leaf_id = 0;
  self->from_px = odd_point (NAN, NAN);
  gtk_widget_queue_draw (self->scene->widget);
}

/* --- drawing it --- */

void
odd_line_cut_draw_from (OddLineCut *self, OddPoint px)
{
  self->from_px = self->to_px = px;
}

gboolean
odd_line_cut_draw_to (OddLineCut *self, OddPoint px)
{
  guint item;
  OddPoint a, b;
  double deg, square;

  self->to_px = px;
  gtk_widget_queue_draw (self->scene->widget);
  if (get_patch (self, &item) == NULL || odd_point_distance (self->from_px, px) < LEAST_PX)
    return FALSE;
  a = odd_table_to_mm (self->scene->table, self->scene->viewport, item, self->from_px);
  b = odd_table_to_mm (self->scene->table, self->scene->viewport, item, px);
  deg = atan2 (b.y - a.y, b.x - a.x) * 180 / G_PI;
  square = round (deg / 90) * 90;
  self->deg = fabs (deg - square) < SQUARE_DEG ? square : deg;
  self->through = odd_point_lerp (a, b, 0.5);
  return TRUE;
}

static OddHalfPlane
get_line (OddLineCut *self)
{
  const OddPlacement turn = { self->deg + 90, FALSE, { 0, 0 } };
  const OddPoint normal = odd_placement_apply (&turn, odd_point (1, 0));

  return (OddHalfPlane) { normal, odd_point_dot (normal, self->through) };
}

void
odd_line_cut_nudge (OddLineCut *self, int dx, int dy, double by_mm)
{
  if (self->scene->table != NULL && self->scene->table->wrong_side)
    dx = -dx;
  self->through = odd_point_add (self->through, odd_point (dx * by_mm, dy * by_mm));
  gtk_widget_queue_draw (self->scene->widget);
}

void
odd_line_cut_tilt (OddLineCut *self, double by_deg)
{
  const OddPatch *patch = get_patch (self, NULL);
  OddSegment chord;

  if (patch != NULL && odd_convex_chord (patch->region, get_line (self), &chord))
    self->through = odd_point_lerp (chord.from, chord.to, 0.5);
  self->deg += self->scene->table->wrong_side ? -by_deg : by_deg;
  gtk_widget_queue_draw (self->scene->widget);
}

/* --- doing it --- */

gboolean
odd_line_cut_do (OddLineCut *self)
{
  OddScene *scene = self->scene;
  guint item = 0;
  const OddPatch *patch = get_patch (self, &item);
  g_autofree char *label = NULL;
  g_autoptr(GError) error = NULL;
  OddPlacement back;
  OddId bare_id = 0;
  OddJob *after;

  if (patch == NULL || scene->document == NULL)
    return FALSE;
  back = odd_placement_inverse (&scene->table->items[item].layout->hung);
  label = g_strdup_printf (_("Cut patch %u in two"), patch->number);
  after = odd_job_cut_in_two (odd_document_get_job (scene->document), self->leaf_id, odd_half_plane_place (get_line (self), &back), &bare_id, &error);
  if (after == NULL)
    {
      scene->announce (scene, error->message);
      return FALSE;
    }
  odd_line_cut_end (self);
  odd_document_apply (scene->document, after, label);
  if (bare_id != 0)
    scene->announce (scene, _("The scrap has no cloth for the seam between the halves, so the smaller half is bare."));
  return TRUE;
}

/* --- what is seen --- */

static void
stroke (OddScene *scene, GtkSnapshot *snapshot, OddPoint from, OddPoint to, double width, const double *dash)
{
  g_autoptr(GArray) points = g_array_new (FALSE, FALSE, sizeof (OddPoint));

  g_array_append_val (points, from);
  g_array_append_val (points, to);
  odd_snapshot_path (snapshot, points, FALSE, &casing, (width + 3.2) * scene->text_scale, NULL, 0);
  odd_snapshot_path (snapshot, points, FALSE, &scene->mark, width * scene->text_scale, dash, 2);
}

/* "12.0 × 18.4 cm and 12.0 × 9.3 cm" */
static char *
describe_halves (OddLineCut *self, const OddPatch *patch)
{
  const OddHalfPlane line = get_line (self);
  g_autoptr(OddConvex) first = odd_convex_clip (patch->region, line, 0);
  g_autoptr(OddConvex) second = odd_convex_clip (patch->region, odd_half_plane_flip (line), 0);
  g_autofree char *a = NULL;
  g_autofree char *b = NULL;

  if (first == NULL || second == NULL)
    return g_strdup (_("The line misses the patch"));
  a = odd_length_format_pair (odd_convex_box (first).width, odd_convex_box (first).height, self->scene->unit);
  b = odd_length_format_pair (odd_convex_box (second).width, odd_convex_box (second).height, self->scene->unit);
  return g_strdup_printf (_("%s and %s"), a, b);
}

void
odd_line_cut_snapshot (OddLineCut *self, GtkSnapshot *snapshot)
{
  OddScene *scene = self->scene;
  guint item;
  const OddPatch *patch = get_patch (self, &item);
  g_autoptr(GArray) outline = NULL;
  g_autofree char *halves = NULL;
  OddSegment chord;

  if (patch == NULL)
    return;
  outline = odd_table_get_outline_px (scene->table, scene->viewport, ODD_SELECTED_PATCH, self->leaf_id);
  odd_snapshot_path (snapshot, outline, TRUE, &casing, 4.4 * scene->text_scale, NULL, 0);
  odd_snapshot_path (snapshot, outline, TRUE, &scene->mark, 2 * scene->text_scale, NULL, 0);
  if (isfinite (self->from_px.x))
    stroke (scene, snapshot, self->from_px, self->to_px, 1.1, (const double[]) { 2.4, 2.2 });
  halves = describe_halves (self, patch);
  if (odd_convex_chord (patch->region, get_line (self), &chord))
    {
      const OddPoint from = odd_table_to_px (scene->table, scene->viewport, item, chord.from);
      const OddPoint to = odd_table_to_px (scene->table, scene->viewport, item, chord.to);

      stroke (scene, snapshot, from, to, 2.8, (const double[]) { 9, 5 });
      odd_snapshot_note (scene, snapshot, odd_point_lerp (from, to, 0.5), halves,
                         _("Draw a line, or move this one by arrows and tilt it by comma and full stop. Enter cuts, Escape leaves it."));
    }
  else
    odd_snapshot_note (scene, snapshot, odd_table_to_px (scene->table, scene->viewport, item, odd_convex_centroid (patch->region)), halves,
                       _("Draw it from one edge of the patch to another."));
}
