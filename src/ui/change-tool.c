#include "config.h"
#include "ui/change-tool.h"

#include "piecing/refit.h"
#include "piecing/straighten.h"
#include "ui/line-cut.h"
#include "ui/note.h"
#include "ui/seam-handles.h"
#include <glib/gi18n.h>

#define STEP_MM 1.0
#define STEP_FAR_MM 10.0
#define STEP_DEG 1.0
#define STEP_FAR_DEG 5.0

typedef enum { DRAG_NOTHING, DRAG_HANDLE, DRAG_LINE, DRAG_SELECT } Drag;

struct _OddChangeTool
{
  OddTool parent_instance;
  OddTool *select_tool;
  OddSeamHandles *handles;
  OddLineCut *cut;
  OddId swapped;                /* the patch to be swapped with the next one chosen; 0: none */
  Drag drag;
};

G_DEFINE_FINAL_TYPE (OddChangeTool, odd_change_tool, ODD_TYPE_TOOL)

static const GdkRGBA casing = { 1.0f, 253 / 255.0f, 248 / 255.0f, 0.84f };

static OddScene *
scene_of (OddChangeTool *self)
{
  return odd_tool_get_scene (ODD_TOOL (self));
}

static gboolean
is_ready (OddScene *scene)
{
  return scene->table != NULL && scene->selection != NULL && scene->document != NULL;
}

static gboolean
say (OddScene *scene, const char *text)
{
  scene->announce (scene, text);
  return FALSE;
}

/* Takes @after; FALSE, told, when there is none. */
static gboolean
propose (OddScene *scene, OddJob *after, GError **error, const char *label)
{
  if (after == NULL)
    {
      say (scene, (*error)->message);
      g_clear_error (error);
      return FALSE;
    }
  odd_document_apply (scene->document, after, label);
  return TRUE;
}

static const OddPatch *
selected_patch (OddScene *scene)
{
  if (!is_ready (scene) || odd_selection_get_kind (scene->selection) != ODD_SELECTED_PATCH)
    return NULL;
  return odd_table_find_patch (scene->table, odd_selection_get_id (scene->selection), NULL);
}

/* What a screen reader hears while something is to be chosen or drawn; the next selection says again what it is. */
static void
ask (OddScene *scene, const char *text)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (scene->widget), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
}

void
odd_change_tool_stop (OddChangeTool *self)
{
  OddScene *scene = scene_of (self);

  if (odd_seam_handles_is_dragging (self->handles))
    odd_seam_handles_drag_end (self->handles, odd_point (0, 0), TRUE);
  self->swapped = 0;
  self->drag = DRAG_NOTHING;
  odd_line_cut_end (self->cut);
  gtk_widget_set_cursor (scene->widget, NULL);
  gtk_widget_queue_draw (scene->widget);
}

/* --- swapping --- */

gboolean
odd_change_tool_begin_swap (OddChangeTool *self)
{
  OddScene *scene = scene_of (self);
  const OddPatch *patch = selected_patch (scene);

  if (patch == NULL)
    return say (scene, _("Select a patch to swap."));
  odd_change_tool_stop (self);
  self->swapped = patch->leaf->id;
  ask (scene, _("Swap with which patch? Go there by arrows and press Enter; Escape leaves all as it is."));
  gtk_widget_grab_focus (scene->widget);
  gtk_widget_queue_draw (scene->widget);
  return TRUE;
}

static void
swap_with (OddChangeTool *self, OddId other)
{
  OddScene *scene = scene_of (self);
  const OddPatch *a = odd_table_find_patch (scene->table, self->swapped, NULL), *b = odd_table_find_patch (scene->table, other, NULL);
  g_autofree char *label = NULL;
  g_autoptr(GError) error = NULL;
  OddJob *after;

  if (a == NULL || b == NULL)
    {
      say (scene, _("Choose a patch to swap with, or press Escape."));
      return;
    }
  label = g_strdup_printf (_("Swap patches %u and %u"), a->number, b->number);
  after = odd_job_swap_patches (odd_document_get_job (scene->document), self->swapped, other, &error);
  if (!propose (scene, after, &error, label))
    return;
  odd_change_tool_stop (self);
  odd_selection_set (scene->selection, ODD_SELECTED_PATCH, other);
}

gboolean
odd_change_tool_replace (OddChangeTool *self, OddId leaf_id, OddId scrap_id, double turn_deg)
{
  OddScene *scene = scene_of (self);
  const OddPatch *patch = scene->table != NULL ? odd_table_find_patch (scene->table, leaf_id, NULL) : NULL;
  g_autofree char *label = NULL;
  g_autoptr(GError) error = NULL;
  OddJob *after;

  if (patch == NULL || scene->document == NULL)
    return FALSE;
  label = g_strdup_printf (_("Replace the scrap of patch %u"), patch->number);
  after = odd_job_replace_scrap (odd_document_get_job (scene->document), leaf_id, scrap_id, turn_deg, &error);
  return propose (scene, after, &error, label);
}

/* --- cutting in two --- */

gboolean
odd_change_tool_begin_cut (OddChangeTool *self)
{
  OddScene *scene = scene_of (self);
  const OddPatch *patch = selected_patch (scene);

  if (patch == NULL)
    return say (scene, _("Select a patch or a bare place to cut in two."));
  odd_change_tool_stop (self);
  odd_line_cut_begin (self->cut, patch->leaf->id);
  ask (scene, _("A line through the patch: arrows move it, comma and full stop tilt it, Enter cuts, Escape leaves it."));
  gtk_widget_set_cursor_from_name (scene->widget, "crosshair");
  gtk_widget_grab_focus (scene->widget);
  return TRUE;
}

static gboolean
cut_now (OddChangeTool *self)
{
  if (!odd_line_cut_do (self->cut))
    return FALSE;
  odd_change_tool_stop (self);
  return TRUE;
}

/* --- ends and locks --- */

static int
selected_item (OddScene *scene)
{
  const OddId id = odd_selection_get_id (scene->selection);
  OddPanel *panel;

  switch (odd_selection_get_kind (scene->selection))
    {
    case ODD_SELECTED_PANEL:
      return odd_table_find_panel (scene->table, id);
    case ODD_SELECTED_PATCH:
    case ODD_SELECTED_SEAM:
      panel = odd_job_find_panel_of (scene->table->job, id, NULL, NULL);
      return panel != NULL ? odd_table_find_panel (scene->table, panel->id) : -1;
    case ODD_SELECTED_TEXTILE:
    case ODD_SELECTED_SCRAP:
    case ODD_SELECTED_NOTHING:
    default:
      return -1;
    }
}

gboolean
odd_change_tool_straighten (OddChangeTool *self, gboolean upper, double most_tilt_deg)
{
  OddScene *scene = scene_of (self);
  const int item = is_ready (scene) ? selected_item (scene) : -1;
  g_autoptr(GError) error = NULL;
  g_autofree char *text = NULL;
  g_autofree char *area = NULL;
  double gained = 0;
  gboolean turned;
  OddJob *after;

  if (item < 0)
    return say (scene, _("Select a panel to straighten its end."));
  turned = scene->table->items[item].layout->hung.turn_deg == 180;
  after = odd_job_straighten_end (odd_document_get_job (scene->document), scene->table->items[item].panel_id, upper != turned ? 0 : 2, most_tilt_deg, &gained, &error);
  if (!propose (scene, after, &error, upper ? _("Straighten the upper end") : _("Straighten the lower end")))
    return FALSE;
  area = g_strdup_printf ("%.0f", fabs (gained) / 100);
  text = gained >= 0 ? g_strdup_printf (_("The end is straight. %s cm² of cloth won"), area) : g_strdup_printf (_("The end is straight. %s cm² of cloth trimmed off"), area);
  say (scene, text);
  return TRUE;
}

/* The node or panel that a lock of what is selected holds; what it is called, and whether it is locked. */
static OddId
find_lockable (OddScene *scene, char **out_name, gboolean *out_locked)
{
  const OddId id = odd_selection_get_id (scene->selection);
  const OddPatch *patch = NULL;
  const OddLaidSeam *seam = NULL;
  OddPanel *panel = NULL;

  switch (odd_selection_get_kind (scene->selection))
    {
    case ODD_SELECTED_PATCH:
      patch = odd_table_find_patch (scene->table, id, NULL);
      if (patch == NULL)
        return 0;
      *out_name = g_strdup_printf (_("Patch %u"), patch->number);
      *out_locked = patch->leaf->locked;
      return id;
    case ODD_SELECTED_SEAM:
      seam = odd_table_find_seam (scene->table, id, NULL);
      if (seam == NULL)
        return 0;
      *out_name = g_strdup (_("The strip of this seam"));
      *out_locked = seam->strip->locked;
      return seam->strip->id;
    case ODD_SELECTED_PANEL:
      panel = odd_job_get_panel (scene->table->job, id, NULL, NULL);
      if (panel == NULL)
        return 0;
      *out_name = odd_job_dup_panel_name (scene->table->job, panel);
      *out_locked = panel->locked;
      return id;
    case ODD_SELECTED_TEXTILE:
    case ODD_SELECTED_SCRAP:
    case ODD_SELECTED_NOTHING:
    default:
      return 0;
    }
}

gboolean
odd_change_tool_toggle_lock (OddChangeTool *self)
{
  OddScene *scene = scene_of (self);
  g_autofree char *name = NULL;
  g_autofree char *text = NULL;
  g_autoptr(GError) error = NULL;
  gboolean locked = FALSE;
  const OddId id = is_ready (scene) ? find_lockable (scene, &name, &locked) : 0;

  if (id == 0)
    return say (scene, _("Select a patch, a seam or a panel to lock."));
  text = g_strdup_printf (locked ? _("%s is open to changes again") : _("%s is locked"), name);
  if (!propose (scene, odd_job_set_lock (odd_document_get_job (scene->document), id, !locked, &error), &error, locked ? _("Unlock") : _("Lock")))
    return FALSE;
  say (scene, text);
  return TRUE;
}

/* --- pointer --- */

static gboolean
is_cutting (OddChangeTool *self)
{
  return odd_line_cut_get_leaf (self->cut) != 0;
}

static void
hover (OddTool *tool, OddPoint px)
{
  OddChangeTool *self = ODD_CHANGE_TOOL (tool);
  OddScene *scene = scene_of (self);
  const char *cursor = NULL;

  if (is_cutting (self))
    return;
  if (self->swapped == 0 && isfinite (px.x) && is_ready (scene))
    cursor = odd_seam_handles_get_cursor (self->handles, px);
  odd_tool_hover (self->select_tool, cursor != NULL ? odd_point (NAN, NAN) : px);
  if (cursor != NULL)
    gtk_widget_set_cursor_from_name (scene->widget, cursor);
}

static void
click (OddTool *tool, OddPoint px, int n_press)
{
  OddChangeTool *self = ODD_CHANGE_TOOL (tool);
  OddScene *scene = scene_of (self);
  OddHit hit;

  if (is_cutting (self))
    return;
  if (self->swapped == 0)
    {
      if (!is_ready (scene) || odd_seam_handles_get_cursor (self->handles, px) == NULL)
        odd_tool_click (self->select_tool, px, n_press);
      return;
    }
  hit = odd_table_hit (scene->table, scene->viewport, px, 0);
  swap_with (self, hit.kind == ODD_SELECTED_PATCH ? hit.id : 0);
}

static gboolean
drag_begin (OddTool *tool, OddPoint px)
{
  OddChangeTool *self = ODD_CHANGE_TOOL (tool);

  if (is_cutting (self))
    {
      odd_line_cut_draw_from (self->cut, px);
      self->drag = DRAG_LINE;
    }
  else if (self->swapped != 0)
    self->drag = DRAG_NOTHING;
  else if (odd_seam_handles_drag_begin (self->handles, px))
    self->drag = DRAG_HANDLE;
  else
    self->drag = odd_tool_drag_begin (self->select_tool, px) ? DRAG_SELECT : DRAG_NOTHING;
  return self->drag != DRAG_NOTHING;
}

static void
drag_update (OddTool *tool, OddPoint px)
{
  OddChangeTool *self = ODD_CHANGE_TOOL (tool);

  if (self->drag == DRAG_LINE)
    odd_line_cut_draw_to (self->cut, px);
  else if (self->drag == DRAG_HANDLE)
    odd_seam_handles_drag_update (self->handles, px);
  else if (self->drag == DRAG_SELECT)
    odd_tool_drag_update (self->select_tool, px);
}

/* A line that cannot be cut is told and goes back to the one proposed, so that another can be drawn. */
static void
end_line (OddChangeTool *self, OddPoint px, gboolean cancelled)
{
  const OddId leaf_id = odd_line_cut_get_leaf (self->cut);
  const gboolean drawn = odd_line_cut_draw_to (self->cut, px);

  if (cancelled || !drawn || !cut_now (self))
    odd_line_cut_begin (self->cut, leaf_id);
}

static void
drag_end (OddTool *tool, OddPoint px, gboolean cancelled)
{
  OddChangeTool *self = ODD_CHANGE_TOOL (tool);

  const Drag drag = self->drag;

  self->drag = DRAG_NOTHING;
  if (drag == DRAG_LINE)
    end_line (self, px, cancelled);
  else if (drag == DRAG_HANDLE)
    odd_seam_handles_drag_end (self->handles, px, cancelled);
  else if (drag == DRAG_SELECT)
    odd_tool_drag_end (self->select_tool, px, cancelled);
}

/* --- keys --- */

static gboolean
arrow_of (guint keyval, int *out_dx, int *out_dy)
{
  switch (keyval)
    {
    case GDK_KEY_Left:
    case GDK_KEY_KP_Left:
      *out_dx = -1;
      return TRUE;
    case GDK_KEY_Right:
    case GDK_KEY_KP_Right:
      *out_dx = 1;
      return TRUE;
    case GDK_KEY_Up:
    case GDK_KEY_KP_Up:
      *out_dy = -1;
      return TRUE;
    case GDK_KEY_Down:
    case GDK_KEY_KP_Down:
      *out_dy = 1;
      return TRUE;
    default:
      return FALSE;
    }
}

/* Comma against the clock, full stop with it. 0: another key. */
static int
turn_of (guint keyval)
{
  switch (keyval)
    {
    case GDK_KEY_comma:
    case GDK_KEY_less:
    case GDK_KEY_semicolon:
      return -1;
    case GDK_KEY_period:
    case GDK_KEY_greater:
    case GDK_KEY_colon:
      return 1;
    default:
      return 0;
    }
}

static gboolean
key_while_cutting (OddChangeTool *self, guint keyval, gboolean far)
{
  int dx = 0, dy = 0;

  if (arrow_of (keyval, &dx, &dy))
    odd_line_cut_nudge (self->cut, dx, dy, far ? STEP_FAR_MM : STEP_MM);
  else if (turn_of (keyval) != 0)
    odd_line_cut_tilt (self->cut, turn_of (keyval) * (far ? STEP_FAR_DEG : STEP_DEG));
  else if (keyval == GDK_KEY_r || keyval == GDK_KEY_R)
    odd_line_cut_tilt (self->cut, 90);
  else if (keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter)
    cut_now (self);
  else if (keyval == GDK_KEY_Escape || keyval == GDK_KEY_x || keyval == GDK_KEY_X)
    odd_change_tool_stop (self);
  else
    return FALSE;
  return TRUE;
}

static gboolean
key_while_swapping (OddChangeTool *self, guint keyval, GdkModifierType state)
{
  OddScene *scene = scene_of (self);

  if (keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter)
    swap_with (self, odd_selection_get_kind (scene->selection) == ODD_SELECTED_PATCH ? odd_selection_get_id (scene->selection) : 0);
  else if (keyval == GDK_KEY_Escape || keyval == GDK_KEY_w || keyval == GDK_KEY_W)
    odd_change_tool_stop (self);
  else
    return odd_tool_key (self->select_tool, keyval, state);
  return TRUE;
}

static gboolean
key_for_seam (OddChangeTool *self, guint keyval, GdkModifierType state)
{
  const gboolean far = (state & GDK_SHIFT_MASK) != 0;
  int dx = 0, dy = 0;

  if ((state & GDK_ALT_MASK) != 0 && arrow_of (keyval, &dx, &dy))
    odd_seam_handles_nudge (self->handles, dx, dy, far ? STEP_FAR_MM : STEP_MM);
  else if ((state & GDK_ALT_MASK) == 0 && turn_of (keyval) != 0)
    odd_seam_handles_tilt (self->handles, turn_of (keyval) * (far ? STEP_FAR_DEG : STEP_DEG));
  else
    return FALSE;
  return TRUE;
}

static gboolean
key_plain (OddChangeTool *self, guint keyval, gboolean shift)
{
  switch (keyval)
    {
    case GDK_KEY_w:
    case GDK_KEY_W:
      odd_change_tool_begin_swap (self);
      return TRUE;
    case GDK_KEY_x:
    case GDK_KEY_X:
      odd_change_tool_begin_cut (self);
      return TRUE;
    case GDK_KEY_f:
    case GDK_KEY_F:
      odd_change_tool_straighten (self, shift, 0);
      return TRUE;
    case GDK_KEY_l:
    case GDK_KEY_L:
      odd_change_tool_toggle_lock (self);
      return TRUE;
    default:
      return FALSE;
    }
}

static gboolean
key (OddTool *tool, guint keyval, GdkModifierType state)
{
  OddChangeTool *self = ODD_CHANGE_TOOL (tool);
  OddScene *scene = scene_of (self);
  const gboolean shift = (state & GDK_SHIFT_MASK) != 0;

  if (!is_ready (scene) || (state & GDK_CONTROL_MASK) != 0)
    return FALSE;
  if (odd_seam_handles_is_dragging (self->handles))
    {
      if (keyval == GDK_KEY_Escape)
        odd_change_tool_stop (self);
      return TRUE;
    }
  if (is_cutting (self))
    return key_while_cutting (self, keyval, shift);
  if (self->swapped != 0)
    return key_while_swapping (self, keyval, state);
  if (odd_selection_get_kind (scene->selection) == ODD_SELECTED_SEAM && key_for_seam (self, keyval, state))
    return TRUE;
  if ((state & GDK_ALT_MASK) == 0 && key_plain (self, keyval, shift))
    return TRUE;
  return odd_tool_key (self->select_tool, keyval, state);
}

/* --- what lies on top --- */

static void
mark_swapped (OddChangeTool *self, GtkSnapshot *snapshot)
{
  OddScene *scene = scene_of (self);
  g_autoptr(GArray) outline = odd_table_get_outline_px (scene->table, scene->viewport, ODD_SELECTED_PATCH, self->swapped);
  OddBox box;

  if (outline == NULL)
    return;
  odd_snapshot_path (snapshot, outline, TRUE, &casing, 6 * scene->text_scale, NULL, 0);
  odd_snapshot_path (snapshot, outline, TRUE, &scene->mark, 2.8 * scene->text_scale, (const double[]) { 9, 5 }, 2);
  box = odd_box_from_points ((const OddPoint *) (const void *) outline->data, outline->len);
  odd_snapshot_note (scene, snapshot, odd_point (box.x + box.width / 2, box.y + box.height / 2), _("Swap with which patch?"),
                     _("Click it, or go there by arrows and press Enter. Escape leaves all as it is."));
}

static void
snapshot_change (OddTool *tool, GtkSnapshot *snapshot)
{
  OddChangeTool *self = ODD_CHANGE_TOOL (tool);
  OddScene *scene = scene_of (self);

  if (scene->table != NULL)
    odd_snapshot_locks (scene, snapshot);
  if (!is_cutting (self) && !odd_seam_handles_is_dragging (self->handles))
    odd_tool_snapshot (self->select_tool, snapshot);
  if (!is_ready (scene))
    return;
  if (self->swapped != 0)
    mark_swapped (self, snapshot);
  else if (is_cutting (self))
    odd_line_cut_snapshot (self->cut, snapshot);
  else
    odd_seam_handles_snapshot (self->handles, snapshot);
}

static void
odd_change_tool_finalize (GObject *object)
{
  OddChangeTool *self = ODD_CHANGE_TOOL (object);

  odd_seam_handles_free (self->handles);
  odd_line_cut_free (self->cut);
  g_object_unref (self->select_tool);
  G_OBJECT_CLASS (odd_change_tool_parent_class)->finalize (object);
}

static void
odd_change_tool_class_init (OddChangeToolClass *klass)
{
  OddToolClass *tool_class = ODD_TOOL_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = odd_change_tool_finalize;
  tool_class->hover = hover;
  tool_class->click = click;
  tool_class->drag_begin = drag_begin;
  tool_class->drag_update = drag_update;
  tool_class->drag_end = drag_end;
  tool_class->key = key;
  tool_class->snapshot = snapshot_change;
}

static void
odd_change_tool_init (OddChangeTool *self)
{
}

OddTool *
odd_change_tool_new (OddScene *scene, OddTool *select_tool)
{
  OddChangeTool *self = g_object_new (ODD_TYPE_CHANGE_TOOL, NULL);

  odd_tool_set_scene (ODD_TOOL (self), scene);
  self->select_tool = g_object_ref (select_tool);
  self->handles = odd_seam_handles_new (scene);
  self->cut = odd_line_cut_new (scene);
  return ODD_TOOL (self);
}
