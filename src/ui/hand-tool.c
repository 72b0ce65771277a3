#include "config.h"
#include "ui/hand-tool.h"

#include "piecing/refit.h"
#include "ui/hand-layer.h"
#include <glib/gi18n.h>

/* A scrap snaps from this far, beside half its own size. */
#define REACH_PX 48.0
#define NUDGE_MM 1.0
#define NUDGE_FAR_MM 10.0
#define TURN_DEG 15.0

struct _OddHandTool
{
  OddTool parent_instance;
  OddHandLayer *layer;
  GArray *openings;              /* (element-type OddOpening) of the table now, or NULL */
  int current;                   /* in openings, or -1 */
  OddPoint held_px;              /* NAN: by key */
  gboolean keep_angle;
  gboolean keys;                 /* reach the canvas */
};

enum { SEWN_ON, EMPTIED, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (OddHandTool, odd_hand_tool, ODD_TYPE_TOOL)

static OddScene *
scene_of (OddHandTool *self)
{
  return odd_tool_get_scene (ODD_TOOL (self));
}

static OddHandLayer *
layer_of (OddHandTool *self)
{
  if (self->layer == NULL)
    self->layer = odd_hand_layer_new (scene_of (self));
  return self->layer;
}

static gboolean
is_empty (OddHandTool *self)
{
  OddScene *scene = scene_of (self);

  return scene->hand == NULL || scene->table == NULL || odd_held_get_scrap_id (scene->hand) == 0;
}

static const OddOpening *
current_opening (OddHandTool *self)
{
  if (self->openings == NULL || self->current < 0 || self->current >= (int) self->openings->len)
    return NULL;
  return &g_array_index (self->openings, OddOpening, self->current);
}

static void
set_current (OddHandTool *self, int current)
{
  OddScene *scene = scene_of (self);
  const OddOpening *opening;

  self->current = current;
  opening = current_opening (self);
  odd_held_set_target (scene->hand, opening != NULL ? &opening->target : NULL);
}

void
odd_hand_tool_table_changed (OddHandTool *self)
{
  OddScene *scene = scene_of (self);
  const OddTarget *target;

  g_clear_pointer (&self->openings, g_array_unref);
  self->current = -1;
  if (scene->table == NULL || scene->hand == NULL)
    return;
  self->openings = odd_openings_new (scene->table);
  target = odd_held_get_target (scene->hand);
  if (target != NULL)
    self->current = odd_openings_find (self->openings, target);
}

gboolean
odd_hand_tool_is_held (OddHandTool *self)
{
  return isfinite (self->held_px.x);
}

gboolean
odd_hand_tool_has_keys (OddHandTool *self)
{
  return self->keys;
}

OddPoint
odd_hand_tool_get_held_px (OddHandTool *self)
{
  return self->held_px;
}

static gboolean
take (OddHandTool *self, OddId scrap_id)
{
  OddScene *scene = scene_of (self);
  OddScrap *scrap;

  if (scene->hand == NULL || scene->table == NULL)
    return FALSE;
  scrap = odd_job_get_scrap (scene->table->job, scrap_id);
  if (scrap != NULL && scrap->cut_out)
    {
      scene->announce (scene, _("This scrap is cut out. Take one of its offcuts."));
      return FALSE;
    }
  if (odd_job_get_scrap_state (scene->table->job, scrap_id) == ODD_SCRAP_GONE || !odd_held_take (scene->hand, scrap_id))
    {
      scene->announce (scene, _("This scrap is gone from the tub. Take another one."));
      return FALSE;
    }
  odd_hand_tool_table_changed (self);
  return TRUE;
}

gboolean
odd_hand_tool_take (OddHandTool *self, OddId scrap_id, const OddTarget *target)
{
  OddScene *scene = scene_of (self);
  int at;

  self->held_px = odd_point (NAN, NAN);
  self->keep_angle = FALSE;
  self->keys = TRUE;
  if (!take (self, scrap_id))
    return FALSE;
  at = target != NULL ? odd_openings_find (self->openings, target) : -1;
  if (at < 0)
    at = (int) odd_openings_likely (self->openings, scene->table, scene->selection);
  set_current (self, at);
  return TRUE;
}

gboolean
odd_hand_tool_hold (OddHandTool *self, OddId scrap_id, OddPoint px, gboolean keep_angle, gboolean keys)
{
  OddScene *scene = scene_of (self);

  if (scene->hand == NULL)
    return FALSE;
  if (odd_held_get_scrap_id (scene->hand) != scrap_id && !take (self, scrap_id))
    return FALSE;
  self->held_px = px;
  self->keep_angle = keep_angle;
  self->keys = keys;
  return TRUE;
}

void
odd_hand_tool_let_go (OddHandTool *self)
{
  OddScene *scene = scene_of (self);

  self->held_px = odd_point (NAN, NAN);
  if (scene->hand != NULL)
    odd_held_put_back (scene->hand);
  odd_hand_layer_update (layer_of (self), self->held_px);
  g_signal_emit (self, signals[EMPTIED], 0);
}

static double
half_size_px (OddScene *scene)
{
  OddScrap *scrap = odd_job_get_scrap (scene->table->job, odd_held_get_scrap_id (scene->hand));
  const OddBox box = odd_scrap_get_box (scrap);

  return hypot (box.width, box.height) / 2 * odd_viewport_get_zoom (scene->viewport);
}

static void
follow_pointer (OddHandTool *self)
{
  OddScene *scene = scene_of (self);
  const int nearest = odd_openings_nearest (self->openings, scene->table, scene->viewport, self->held_px, REACH_PX + half_size_px (scene), self->current);
  const OddOpening *opening;
  OddPoint at = { NAN, NAN };

  set_current (self, nearest);
  opening = current_opening (self);
  if (opening == NULL)
    return;
  if (opening->target.kind != ODD_TARGET_NEW_PANEL)
    at = odd_point_sub (odd_table_to_mm (scene->table, scene->viewport, opening->item, self->held_px),
                        scene->table->items[opening->item].hung_at_mm);
  odd_held_hold (scene->hand, at, self->keep_angle);
}

void
odd_hand_tool_update (OddHandTool *self)
{
  if (scene_of (self)->table == NULL)
    return;
  if (!is_empty (self) && odd_hand_tool_is_held (self))
    follow_pointer (self);
  odd_hand_layer_update (layer_of (self), self->held_px);
}

OddBox
odd_hand_tool_get_box_px (OddHandTool *self)
{
  return is_empty (self) ? ODD_BOX_EMPTY : odd_hand_layer_get_box_px (layer_of (self));
}

void
odd_hand_tool_step_target (OddHandTool *self, int step)
{
  const int n = self->openings != NULL ? (int) self->openings->len : 0;

  if (is_empty (self) || n == 0)
    return;
  self->held_px = odd_point (NAN, NAN);
  set_current (self, self->current < 0 ? (step > 0 ? 0 : n - 1) : ((self->current + step) % n + n) % n);
}

void
odd_hand_tool_start_loose (OddHandTool *self)
{
  const OddTarget loose = { .kind = ODD_TARGET_NEW_PANEL };
  const int at = self->openings != NULL ? odd_openings_find (self->openings, &loose) : -1;

  if (is_empty (self) || at < 0)
    return;
  self->held_px = odd_point (NAN, NAN);
  set_current (self, at);
}

void
odd_hand_tool_turn (OddHandTool *self, double by_deg)
{
  if (!is_empty (self))
    odd_held_turn (scene_of (self)->hand, by_deg);
}

gboolean
odd_hand_tool_sew_on (OddHandTool *self)
{
  OddScene *scene = scene_of (self);
  g_autoptr(GError) error = NULL;
  g_autofree char *text = NULL;
  OddId leaf = 0;

  if (is_empty (self))
    return FALSE;
  if (!odd_held_sew_on (scene->hand, &leaf, &text, &error))
    {
      scene->announce (scene, error->message);
      return FALSE;
    }
  self->held_px = odd_point (NAN, NAN);
  odd_hand_layer_update (layer_of (self), self->held_px);
  if (scene->selection != NULL)
    odd_selection_set (scene->selection, ODD_SELECTED_PATCH, leaf);
  scene->announce (scene, text);
  g_signal_emit (self, signals[SEWN_ON], 0, leaf);
  g_signal_emit (self, signals[EMPTIED], 0);
  return TRUE;
}

void
odd_hand_tool_put_back (OddHandTool *self)
{
  OddScene *scene = scene_of (self);

  if (is_empty (self))
    return;
  /* the tray lies to the left, or below on a narrow window */
  odd_hand_layer_fly_back (layer_of (self), odd_viewport_get_width (scene->viewport) < 640
                           ? odd_point (odd_viewport_get_width (scene->viewport) / 2, odd_viewport_get_height (scene->viewport))
                           : odd_point (-40, odd_viewport_get_height (scene->viewport) / 3));
  odd_hand_tool_let_go (self);
}

/* The scrap in the hand takes the place of the one in the patch. */
static gboolean
replace (OddHandTool *self, OddId leaf_id)
{
  OddScene *scene = scene_of (self);
  const OddPatch *patch = odd_table_find_patch (scene->table, leaf_id, NULL);
  g_autoptr(GError) error = NULL;
  g_autofree char *label = NULL;
  OddJob *after;

  if (patch == NULL)
    {
      scene->announce (scene, _("Select the patch whose scrap is to be replaced."));
      return FALSE;
    }
  label = g_strdup_printf (_("Replace the scrap of patch %u"), patch->number);
  after = odd_job_replace_scrap (odd_document_get_job (scene->document), leaf_id, odd_held_get_scrap_id (scene->hand), odd_held_get_turn (scene->hand), &error);
  if (after == NULL)
    {
      scene->announce (scene, error->message);
      return FALSE;
    }
  odd_hand_tool_let_go (self);
  odd_document_apply (scene->document, after, label);
  if (scene->selection != NULL)
    odd_selection_set (scene->selection, ODD_SELECTED_PATCH, leaf_id);
  return TRUE;
}

/* The patch under what is held, where no opening is near enough to be meant; 0: none. */
static OddId
covered_patch (OddHandTool *self)
{
  OddScene *scene = scene_of (self);
  OddHit hit;

  if (scene->table == NULL || !odd_hand_tool_is_held (self) || odd_held_get_place (scene->hand) != NULL)
    return 0;
  hit = odd_table_hit (scene->table, scene->viewport, self->held_px, 0);
  return hit.kind == ODD_SELECTED_PATCH ? hit.id : 0;
}

gboolean
odd_hand_tool_drop (OddHandTool *self)
{
  OddId covered;

  odd_hand_tool_update (self);
  covered = is_empty (self) ? 0 : covered_patch (self);
  if (covered != 0)
    {
      if (replace (self, covered))
        return TRUE;
      odd_hand_tool_put_back (self);
      return FALSE;
    }
  if (odd_hand_tool_sew_on (self))
    return TRUE;
  odd_hand_tool_put_back (self);
  return FALSE;
}

/* --- as a tool --- */

static void
click (OddTool *tool, OddPoint px, int n_press)
{
  OddHandTool *self = ODD_HAND_TOOL (tool);
  OddScene *scene = scene_of (self);
  const OddBox box = odd_hand_tool_get_box_px (self);
  int nearest;

  if (is_empty (self))
    return;
  if (!odd_box_is_empty (box) && odd_box_contains (box, px) && odd_held_get_place (scene->hand) != NULL)
    {
      odd_hand_tool_sew_on (self);
      return;
    }
  nearest = odd_openings_nearest (self->openings, scene->table, scene->viewport, px, REACH_PX + half_size_px (scene), -1);
  if (nearest >= 0)
    set_current (self, nearest);
}

/* In the opening's own directions: along the edge, away from it. */
static gboolean
nudge (OddHandTool *self, double dx, double dy)
{
  OddScene *scene = scene_of (self);
  const OddPlace *place = odd_held_get_place (scene->hand);
  OddPoint along = { 1, 0 }, across = { 0, 1 };
  const OddOpening *opening = current_opening (self);

  if (place == NULL)
    return TRUE;
  if (odd_segment_length (place->seam) > ODD_TOLERANCE_MM)
    along = odd_point_scale (odd_point_sub (place->seam.to, place->seam.from), 1 / odd_segment_length (place->seam));
  across = opening != NULL && opening->target.kind == ODD_TARGET_EDGE ? opening->outward : odd_point (-along.y, along.x);
  if (scene->table->wrong_side)
    dx = -dx;
  if (!odd_held_nudge (scene->hand, dx * along.x + dy * along.y, dx * across.x + dy * across.y))
    scene->announce (scene, _("No farther: the cut would leave the cloth."));
  return TRUE;
}

static gboolean
key (OddTool *tool, guint keyval, GdkModifierType state)
{
  OddHandTool *self = ODD_HAND_TOOL (tool);
  const gboolean shift = (state & GDK_SHIFT_MASK) != 0;
  const double far = shift ? NUDGE_FAR_MM : NUDGE_MM;

  if (is_empty (self) || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return FALSE;
  switch (keyval)
    {
    case GDK_KEY_Tab:
    case GDK_KEY_ISO_Left_Tab:
    case GDK_KEY_KP_Tab:
      odd_held_step (scene_of (self)->hand, shift || keyval == GDK_KEY_ISO_Left_Tab ? -1 : 1);
      return TRUE;
    case GDK_KEY_Left:
    case GDK_KEY_KP_Left:
      return nudge (self, -far, 0);
    case GDK_KEY_Right:
    case GDK_KEY_KP_Right:
      return nudge (self, far, 0);
    case GDK_KEY_Up:
    case GDK_KEY_KP_Up:
      return nudge (self, 0, -far);
    case GDK_KEY_Down:
    case GDK_KEY_KP_Down:
      return nudge (self, 0, far);
    case GDK_KEY_r:
    case GDK_KEY_R:
      odd_hand_tool_turn (self, shift ? -TURN_DEG : TURN_DEG);
      return TRUE;
    case GDK_KEY_e:
    case GDK_KEY_E:
      odd_hand_tool_step_target (self, shift ? -1 : 1);
      return TRUE;
    case GDK_KEY_j:
    case GDK_KEY_J:
      odd_hand_tool_start_loose (self);
      return TRUE;
    case GDK_KEY_Return:
    case GDK_KEY_KP_Enter:
      odd_hand_tool_sew_on (self);
      return TRUE;
    case GDK_KEY_w:
    case GDK_KEY_W:
      {
        OddSelection *selection = scene_of (self)->selection;

        replace (self, selection != NULL && odd_selection_get_kind (selection) == ODD_SELECTED_PATCH ? odd_selection_get_id (selection) : 0);
        return TRUE;
      }
    case GDK_KEY_Escape:
      odd_hand_tool_put_back (self);
      return TRUE;
    default:
      return FALSE;
    }
}

/* The open edge or bare region that is meant, so that it is seen before the scrap lies there. */
static void
mark_opening (OddHandTool *self, GtkSnapshot *snapshot)
{
  OddScene *scene = scene_of (self);
  const OddOpening *opening = current_opening (self);
  g_autoptr(GArray) points = NULL;

  if (opening == NULL || odd_held_get_place (scene->hand) != NULL || opening->target.kind == ODD_TARGET_NEW_PANEL)
    return;
  points = g_array_new (FALSE, FALSE, sizeof (OddPoint));
  if (opening->target.kind == ODD_TARGET_EDGE)
    {
      const OddPoint ends[2] = { odd_table_to_px (scene->table, scene->viewport, opening->item, opening->edge.from),
                                 odd_table_to_px (scene->table, scene->viewport, opening->item, opening->edge.to) };

      g_array_append_vals (points, ends, 2);
    }
  else
    {
      for (guint i = 0; i < opening->region->n; i++)
        {
          const OddPoint p = odd_table_to_px (scene->table, scene->viewport, opening->item, opening->region->points[i]);

          g_array_append_val (points, p);
        }
    }
  odd_snapshot_path (snapshot, points, opening->target.kind == ODD_TARGET_BARE, &scene->mark, 2.8, (const double[]) { 9, 5 }, 2);
}

/* The patch whose scrap would be replaced. */
static void
mark_covered (OddHandTool *self, GtkSnapshot *snapshot)
{
  OddScene *scene = scene_of (self);
  const OddId leaf_id = covered_patch (self);
  g_autoptr(GArray) points = leaf_id != 0 ? odd_table_get_outline_px (scene->table, scene->viewport, ODD_SELECTED_PATCH, leaf_id) : NULL;

  if (points != NULL)
    odd_snapshot_path (snapshot, points, TRUE, &scene->mark, 2.8, (const double[]) { 9, 5 }, 2);
}

static void
snapshot_hand (OddTool *tool, GtkSnapshot *snapshot)
{
  OddHandTool *self = ODD_HAND_TOOL (tool);

  if (!is_empty (self))
    {
      mark_opening (self, snapshot);
      mark_covered (self, snapshot);
    }
  if (self->layer != NULL)
    odd_hand_layer_snapshot (self->layer, snapshot);
}

static void
odd_hand_tool_dispose (GObject *object)
{
  OddHandTool *self = ODD_HAND_TOOL (object);

  g_clear_pointer (&self->layer, odd_hand_layer_free);
  g_clear_pointer (&self->openings, g_array_unref);
  G_OBJECT_CLASS (odd_hand_tool_parent_class)->dispose (object);
}

static void
odd_hand_tool_class_init (OddHandToolClass *klass)
{
  OddToolClass *tool_class = ODD_TOOL_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = odd_hand_tool_dispose;
  tool_class->click = click;
  tool_class->key = key;
  tool_class->snapshot = snapshot_hand;
  signals[SEWN_ON] = g_signal_new ("sewn-on", ODD_TYPE_HAND_TOOL, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
  signals[EMPTIED] = g_signal_new ("emptied", ODD_TYPE_HAND_TOOL, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
odd_hand_tool_init (OddHandTool *self)
{
  self->held_px = odd_point (NAN, NAN);
  self->current = -1;
}

OddTool *
odd_hand_tool_new (void)
{
  return g_object_new (ODD_TYPE_HAND_TOOL, NULL);
}
