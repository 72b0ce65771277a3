#include "config.h"
#include "ui/seam-handles.h"

#include "cloth/line-move.h"
#include "ui/note.h"
#include <glib/gi18n.h>

#define TARGET_PX 34.0                /* however small the handle looks */
#define END_INSET_PX 30.0             /* of a tilting handle from the seam's end */
#define KNOB_PX 6.5
#define LEAST_FOR_TILT_PX 120.0       /* a shorter seam shows the middle handle only; it is tilted by key */
#define LINE_PX 2.8
#define RAW_PX 1.1
#define AT_LIMIT 1e-3

typedef enum { HANDLE_NONE = -1, HANDLE_FROM, HANDLE_MIDDLE, HANDLE_TO } Handle;

struct _OddSeamHandles
{
  OddScene *scene;
  Handle dragged;
  OddLineMove *move;                  /* while dragged */
  OddLinePath path;
  OddLineLimits limits;
  OddPoint start;                     /* where it was taken hold of, frame of @move */
  guint item;
  double amount, wanted;              /* as shown; as the pointer asks */
};

static const GdkRGBA casing = { 1.0f, 253 / 255.0f, 248 / 255.0f, 0.84f };
static const GdkRGBA red = { 163 / 255.0f, 16 / 255.0f, 29 / 255.0f, 1.0f };
static const GdkRGBA ink = { 23 / 255.0f, 18 / 255.0f, 14 / 255.0f, 1.0f };

OddSeamHandles *
odd_seam_handles_new (OddScene *scene)
{
  OddSeamHandles *self = g_new0 (OddSeamHandles, 1);

  self->scene = scene;
  self->dragged = HANDLE_NONE;
  return self;
}

static void
let_go (OddSeamHandles *self)
{
  g_clear_pointer (&self->move, odd_line_move_free);
  self->dragged = HANDLE_NONE;
}

void
odd_seam_handles_free (OddSeamHandles *self)
{
  let_go (self);
  g_free (self);
}

gboolean
odd_seam_handles_is_dragging (OddSeamHandles *self)
{
  return self->dragged != HANDLE_NONE;
}

/* --- where they are --- */

static const OddLaidSeam *
selected_seam (OddSeamHandles *self, guint *out_item)
{
  OddScene *scene = self->scene;

  if (scene->table == NULL || scene->selection == NULL || odd_selection_get_kind (scene->selection) != ODD_SELECTED_SEAM)
    return NULL;
  return odd_table_find_seam (scene->table, odd_selection_get_id (scene->selection), out_item);
}

static gboolean
get_segment_px (OddSeamHandles *self, OddSegment *out)
{
  guint item;
  const OddLaidSeam *seam = selected_seam (self, &item);

  if (seam == NULL || seam->raw_length_mm <= 0)
    return FALSE;
  out->from = odd_table_to_px (self->scene->table, self->scene->viewport, item, seam->finished.from);
  out->to = odd_table_to_px (self->scene->table, self->scene->viewport, item, seam->finished.to);
  return TRUE;
}

static gboolean
get_handle_px (OddSegment seam, Handle handle, OddPoint *out)
{
  const double length = odd_segment_length (seam), inset = END_INSET_PX / MAX (length, 1);

  *out = odd_point_lerp (seam.from, seam.to, handle == HANDLE_MIDDLE ? 0.5 : handle == HANDLE_FROM ? inset : 1 - inset);
  return handle == HANDLE_MIDDLE || length >= LEAST_FOR_TILT_PX;
}

static Handle
find_handle (OddSeamHandles *self, OddPoint px)
{
  OddSegment seam;
  OddPoint at;

  if (!get_segment_px (self, &seam))
    return HANDLE_NONE;
  for (Handle handle = HANDLE_FROM; handle <= HANDLE_TO; handle++)
    if (get_handle_px (seam, handle, &at) && odd_point_distance (at, px) <= TARGET_PX / 2)
      return handle;
  return HANDLE_NONE;
}

/* A sewn seam shows no handles; who drags it all the same is told why it stays. */
static gboolean
is_sewn (OddSeamHandles *self)
{
  const OddLaidSeam *seam = selected_seam (self, NULL);

  return seam != NULL && odd_seam_is_touched (seam->seam);
}

const char *
odd_seam_handles_get_cursor (OddSeamHandles *self, OddPoint px)
{
  const Handle handle = find_handle (self, px);
  OddSegment seam;

  if (handle == HANDLE_NONE || !get_segment_px (self, &seam))
    return NULL;
  if (is_sewn (self))
    return "not-allowed";
  if (handle != HANDLE_MIDDLE)
    return "grab";
  return fabs (seam.to.x - seam.from.x) >= fabs (seam.to.y - seam.from.y) ? "ns-resize" : "ew-resize";
}

/* --- between the table's frame and that of the move --- */

static OddPoint
to_move (OddSeamHandles *self, OddLineMove *move, guint item, OddPoint p)
{
  const OddPoint own = odd_placement_undo (&self->scene->table->items[item].layout->hung, p);

  return odd_placement_apply (&odd_line_move_get_layout (move)->hung, own);
}

static OddPoint
to_px (OddSeamHandles *self, OddPoint p)
{
  OddScene *scene = self->scene;
  const OddPoint own = odd_placement_undo (&odd_line_move_get_layout (self->move)->hung, p);

  return odd_table_to_px (scene->table, scene->viewport, self->item,
                          odd_placement_apply (&scene->table->items[self->item].layout->hung, own));
}

/* --- dragging --- */

static OddLineMove *
new_move (OddSeamHandles *self)
{
  OddScene *scene = self->scene;
  g_autoptr(GError) error = NULL;
  OddLineMove *move = odd_line_move_new_seam (odd_document_get_job (scene->document), odd_selection_get_id (scene->selection), &error);

  if (move == NULL)
    scene->announce (scene, error->message);
  return move;
}

gboolean
odd_seam_handles_drag_begin (OddSeamHandles *self, OddPoint px)
{
  OddScene *scene = self->scene;
  const Handle handle = find_handle (self, px);
  const OddLaidSeam *seam = selected_seam (self, &self->item);

  if (handle == HANDLE_NONE || scene->document == NULL)
    return FALSE;
  let_go (self);
  self->move = new_move (self);
  if (self->move == NULL)
    return TRUE;
  self->dragged = handle;
  self->start = to_move (self, self->move, self->item, odd_table_to_mm (scene->table, scene->viewport, self->item, px));
  self->path = (OddLinePath) { handle != HANDLE_MIDDLE, to_move (self, self->move, self->item, handle == HANDLE_FROM ? seam->finished.to : seam->finished.from) };
  odd_line_move_get_limits (self->move, &self->path, &self->limits);
  self->amount = self->wanted = 0;
  return TRUE;
}

static double
turn_between (OddPoint pivot, OddPoint from, OddPoint to)
{
  const OddPoint a = odd_point_sub (from, pivot), b = odd_point_sub (to, pivot);

  return atan2 (odd_point_cross (a, b), odd_point_dot (a, b)) * 180 / G_PI;
}

void
odd_seam_handles_drag_update (OddSeamHandles *self, OddPoint px)
{
  OddScene *scene = self->scene;
  OddPoint p;

  if (self->move == NULL)
    return;
  p = to_move (self, self->move, self->item, odd_table_to_mm (scene->table, scene->viewport, self->item, px));
  if (self->path.tilt)
    self->wanted = turn_between (self->path.pivot, self->start, p);
  else
    self->wanted = odd_point_dot (odd_line_move_get_line (self->move).normal, odd_point_sub (p, self->start));
  self->amount = CLAMP (self->wanted, self->limits.least, self->limits.most);
  gtk_widget_queue_draw (scene->widget);
}

static const char *
step_label (gboolean tilt)
{
  return tilt ? _("Tilt a seam") : _("Move a seam");
}

void
odd_seam_handles_drag_end (OddSeamHandles *self, OddPoint px, gboolean cancelled)
{
  OddScene *scene = self->scene;
  g_autoptr(OddLineMove) move = NULL;
  g_autoptr(GError) error = NULL;
  OddJob *after;

  if (self->move == NULL)
    return;
  if (!cancelled)
    odd_seam_handles_drag_update (self, px);
  move = g_steal_pointer (&self->move);
  let_go (self);
  gtk_widget_queue_draw (scene->widget);
  if (cancelled || self->amount == 0)
    return;
  after = odd_line_move_apply (move, odd_line_move_line_at (move, &self->path, self->amount), &error);
  if (after != NULL)
    odd_document_apply (scene->document, after, step_label (self->path.tilt));
  else
    scene->announce (scene, error->message);
}

/* --- keys --- */

/* As far as it may go; why no farther is told. */
static void
go (OddSeamHandles *self, OddLineMove *move, const OddLinePath *path, double by)
{
  OddScene *scene = self->scene;
  OddLineLimits limits;
  double amount;
  g_autofree char *key = g_strdup_printf ("seam-%u-%d", odd_selection_get_id (scene->selection), path->tilt);

  odd_line_move_get_limits (move, path, &limits);
  amount = CLAMP (by, limits.least, limits.most);
  if (fabs (amount) > AT_LIMIT)
    odd_document_apply_merging (scene->document, odd_line_move_apply (move, odd_line_move_line_at (move, path, amount), NULL), step_label (path->tilt), key);
  if (amount != by)
    {
      g_autofree char *reason = odd_line_move_dup_reason (move, by > 0 ? &limits.at_most : &limits.at_least);

      scene->announce (scene, reason);
    }
}

void
odd_seam_handles_nudge (OddSeamHandles *self, int dx, int dy, double by_mm)
{
  OddScene *scene = self->scene;
  const OddLinePath path = { FALSE, { 0, 0 } };
  g_autoptr(OddLineMove) move = NULL;
  OddPoint normal;

  if (selected_seam (self, NULL) == NULL)
    return;
  move = new_move (self);
  if (move == NULL)
    return;
  normal = odd_line_move_get_line (move).normal;
  if (scene->table->wrong_side)
    dx = -dx;
  if ((dx != 0) != (fabs (normal.x) > fabs (normal.y)))
    scene->announce (scene, dx != 0 ? _("This seam moves up and down. Comma and full stop tilt it.") : _("This seam moves left and right. Comma and full stop tilt it."));
  else
    go (self, move, &path, (dx != 0 ? dx * normal.x : dy * normal.y) > 0 ? by_mm : -by_mm);
}

void
odd_seam_handles_tilt (OddSeamHandles *self, double by_deg)
{
  guint item;
  const OddLaidSeam *seam = selected_seam (self, &item);
  g_autoptr(OddLineMove) move = NULL;
  OddLinePath path = { TRUE, { 0, 0 } };

  if (seam == NULL)
    return;
  move = new_move (self);
  if (move == NULL)
    return;
  path.pivot = to_move (self, move, item, odd_point_lerp (seam->finished.from, seam->finished.to, 0.5));
  go (self, move, &path, self->scene->table->wrong_side ? -by_deg : by_deg);
}

/* --- what is seen --- */

static void
draw_knob (OddScene *scene, GtkSnapshot *snapshot, OddPoint at, gboolean round_one)
{
  const double r = KNOB_PX * scene->text_scale;
  GskRoundedRect knob;

  gsk_rounded_rect_init_from_rect (&knob, &GRAPHENE_RECT_INIT ((float) (at.x - r), (float) (at.y - r), (float) (2 * r), (float) (2 * r)),
                                   round_one ? (float) r : 3);
  gtk_snapshot_append_outset_shadow (snapshot, &knob, &(GdkRGBA) { 0, 0, 0, 0.35f }, 0, 1, 0, 3);
  gtk_snapshot_push_rounded_clip (snapshot, &knob);
  gtk_snapshot_append_color (snapshot, &(GdkRGBA) { 1.0f, 253 / 255.0f, 248 / 255.0f, 1.0f }, &knob.bounds);
  gtk_snapshot_pop (snapshot);
  gtk_snapshot_append_border (snapshot, &knob, (const float[]) { 2.4f, 2.4f, 2.4f, 2.4f }, (const GdkRGBA[]) { scene->mark, scene->mark, scene->mark, scene->mark });
}

static GArray *
segment_px (OddSeamHandles *self, OddHalfPlane line)
{
  GArray *points = NULL;
  OddSegment segment;

  if (odd_line_move_get_segment (self->move, line, &segment))
    {
      const OddPoint ends[2] = { to_px (self, segment.from), to_px (self, segment.to) };

      points = g_array_new (FALSE, FALSE, sizeof (OddPoint));
      g_array_append_vals (points, ends, 2);
    }
  return points;
}

static void
stroke (OddSeamHandles *self, GtkSnapshot *snapshot, OddHalfPlane line, const GdkRGBA *colour, double width, double rim, const double *dash)
{
  g_autoptr(GArray) points = segment_px (self, line);
  const double scale = self->scene->text_scale;

  if (points == NULL)
    return;
  odd_snapshot_path (snapshot, points, FALSE, &casing, (width + rim) * scale, NULL, 0);
  odd_snapshot_path (snapshot, points, FALSE, colour, width * scale, dash, 2);
}

static void
outline_patch (OddSeamHandles *self, GtkSnapshot *snapshot, OddId leaf_id)
{
  OddScene *scene = self->scene;
  g_autoptr(GArray) outline = odd_table_get_outline_px (scene->table, scene->viewport, ODD_SELECTED_PATCH, leaf_id);

  if (outline == NULL)
    return;
  odd_snapshot_path (snapshot, outline, TRUE, &casing, 4.4 * scene->text_scale, NULL, 0);
  odd_snapshot_path (snapshot, outline, TRUE, &red, 2.0 * scene->text_scale, NULL, 0);
}

static void
draw_note (OddSeamHandles *self, GtkSnapshot *snapshot, OddHalfPlane line, const OddStop *stop)
{
  OddScene *scene = self->scene;
  g_autoptr(GArray) points = segment_px (self, line);
  g_autofree char *length = odd_length_format (fabs (self->amount), scene->unit);
  g_autofree char *figure = fabs (self->amount) < AT_LIMIT && stop != NULL ? g_strdup (_("Held where it is"))
                            : self->path.tilt ? g_strdup_printf (_("Tilted by %.1f°"), fabs (self->amount)) : g_strdup_printf (_("Moved by %s"), length);
  g_autofree char *reason = stop != NULL ? odd_line_move_dup_reason (self->move, stop) : NULL;

  if (points == NULL)
    return;
  odd_snapshot_note (scene, snapshot, odd_point_lerp (g_array_index (points, OddPoint, 0), g_array_index (points, OddPoint, 1), 0.5), figure, reason);
}

static void
snapshot_drag (OddSeamHandles *self, GtkSnapshot *snapshot)
{
  const OddHalfPlane line = odd_line_move_line_at (self->move, &self->path, self->amount);
  const OddLaidSeam *seam = selected_seam (self, NULL);
  const OddStop *stop = NULL;

  if (self->wanted > self->limits.most + AT_LIMIT)
    stop = &self->limits.at_most;
  else if (self->wanted < self->limits.least - AT_LIMIT)
    stop = &self->limits.at_least;
  if (stop != NULL && stop->leaf_id != 0)
    outline_patch (self, snapshot, stop->leaf_id);
  for (int i = -1; i <= 1; i += 2)
    {
      stroke (self, snapshot, odd_line_move_line_at (self->move, &self->path, i < 0 ? self->limits.least : self->limits.most), &ink, 1.3, 1.2, (const double[]) { 1.5, 3 });
      if (seam != NULL)
        stroke (self, snapshot, odd_half_plane_push (line, i * seam->allowance_mm), &self->scene->mark, RAW_PX, 1.2, (const double[]) { 2.4, 2.2 });
    }
  stroke (self, snapshot, line, stop != NULL ? &red : &self->scene->mark, LINE_PX, 3.2, (const double[]) { 9, 5 });
  draw_note (self, snapshot, line, stop);
}

void
odd_seam_handles_snapshot (OddSeamHandles *self, GtkSnapshot *snapshot)
{
  OddSegment seam;
  OddPoint at;

  if (self->move != NULL && self->item < self->scene->table->n_items)
    snapshot_drag (self, snapshot);
  else if (!is_sewn (self) && get_segment_px (self, &seam))
    for (Handle handle = HANDLE_FROM; handle <= HANDLE_TO; handle++)
      if (get_handle_px (seam, handle, &at))
        draw_knob (self->scene, snapshot, at, handle != HANDLE_MIDDLE);
}
