#include "config.h"
#include "ui/select-tool.h"

#include "sewing/progress.h"
#include <glib/gi18n.h>

#define PILL_PX 18.0
#define RING_PX 2.0
#define CASING_PX 4.4
#define END_RING_PX 4.2

struct _OddSelectTool
{
  OddTool parent_instance;
  OddHit hover;
  gboolean dragging;
  OddId dragged_panel;
  OddPoint drag_from_px, drag_px;
};

enum { ACTIVATED, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (OddSelectTool, odd_select_tool, ODD_TYPE_TOOL)

static const GdkRGBA casing = { 1.0f, 253 / 255.0f, 248 / 255.0f, 0.84f };

static OddScene *
scene_of (OddSelectTool *self)
{
  return odd_tool_get_scene (ODD_TOOL (self));
}

static gboolean
is_ready (OddScene *scene)
{
  return scene->table != NULL && scene->selection != NULL && scene->document != NULL;
}

/* --- in words --- */

static char *
describe_patch (OddScene *scene, OddId id)
{
  const OddPatch *patch = odd_table_find_patch (scene->table, id, NULL);

  if (patch == NULL)
    return NULL;
  if (patch->scrap == NULL)
    return g_strdup_printf (_("Patch %u, bare"), patch->number);
  if (patch->fabric != NULL && patch->fabric->name[0] != '\0')
    return g_strdup_printf (_("Patch %u, scrap %u, %s"), patch->number, patch->scrap->number, patch->fabric->name);
  return g_strdup_printf (_("Patch %u, scrap %u"), patch->number, patch->scrap->number);
}

static char *
describe_seam (OddScene *scene, OddId id)
{
  const OddLaidSeam *seam = odd_table_find_seam (scene->table, id, NULL);
  g_autofree char *name = odd_job_dup_seam_name (scene->table->job, id);

  if (seam == NULL)
    return g_strdup_printf (_("Join %s"), name);
  return g_strdup_printf (_("Seam %s, %s"), name, odd_stage_get_name (odd_seam_get_stage (seam->seam, seam->finish)));
}

static char *
describe_panel (OddScene *scene, OddId id)
{
  const int item = odd_table_find_panel (scene->table, id);
  g_autofree char *name = NULL;
  g_autofree char *size = NULL;

  if (item < 0)
    return NULL;
  name = odd_job_dup_panel_name (scene->table->job, odd_job_get_panel (scene->table->job, id, NULL, NULL));
  size = odd_length_format_pair (scene->table->items[item].layout->box.width, scene->table->items[item].layout->box.height, scene->unit);
  return g_strdup_printf ("%s, %s", name, size);
}

char *
odd_scene_describe_selection (OddScene *scene)
{
  const OddId id = scene->selection != NULL ? odd_selection_get_id (scene->selection) : 0;

  if (id == 0 || scene->table == NULL)
    return NULL;
  switch (odd_selection_get_kind (scene->selection))
    {
    case ODD_SELECTED_PATCH:
      return describe_patch (scene, id);
    case ODD_SELECTED_SEAM:
      return describe_seam (scene, id);
    case ODD_SELECTED_PANEL:
      return describe_panel (scene, id);
    case ODD_SELECTED_TEXTILE:
    case ODD_SELECTED_SCRAP:
    case ODD_SELECTED_NOTHING:
    default:
      return NULL;
    }
}

/* --- edits --- */

/* Takes @after. FALSE, told, when there is none. */
static gboolean
propose (OddScene *scene, OddJob *after, GError *error, const char *label)
{
  if (after == NULL)
    {
      scene->announce (scene, error->message);
      g_error_free (error);
      return FALSE;
    }
  odd_document_apply (scene->document, after, label);
  return TRUE;
}

gboolean
odd_select_tool_make_bare (OddSelectTool *self)
{
  OddScene *scene = scene_of (self);
  const OddPatch *patch;
  g_autofree char *label = NULL;
  GError *error = NULL;
  OddJob *after;

  if (!is_ready (scene) || odd_selection_get_kind (scene->selection) != ODD_SELECTED_PATCH)
    {
      scene->announce (scene, _("Select a patch to take out."));
      return FALSE;
    }
  patch = odd_table_find_patch (scene->table, odd_selection_get_id (scene->selection), NULL);
  if (patch == NULL || patch->scrap == NULL)
    {
      scene->announce (scene, _("This patch is bare already."));
      return FALSE;
    }
  label = g_strdup_printf (_("Make patch %u bare"), patch->number);
  after = odd_job_make_bare (odd_document_get_job (scene->document), patch->leaf->id, &error);
  return propose (scene, after, error, label);
}

static OddId
selected_panel (OddScene *scene)
{
  const OddId id = odd_selection_get_id (scene->selection);
  OddPanel *panel = NULL;

  switch (odd_selection_get_kind (scene->selection))
    {
    case ODD_SELECTED_PANEL:
      return id;
    case ODD_SELECTED_PATCH:
    case ODD_SELECTED_SEAM:
      panel = odd_job_find_panel_of (scene->table->job, id, NULL, NULL);
      return panel != NULL ? panel->id : 0;
    case ODD_SELECTED_TEXTILE:
    case ODD_SELECTED_SCRAP:
    case ODD_SELECTED_NOTHING:
    default:
      return 0;
    }
}

gboolean
odd_select_tool_take_off_last (OddSelectTool *self)
{
  OddScene *scene = scene_of (self);
  OddId panel_id;
  GError *error = NULL;
  OddJob *after;

  if (!is_ready (scene) || scene->table->n_items == 0)
    return FALSE;
  panel_id = selected_panel (scene);
  if (panel_id == 0)
    panel_id = scene->table->items[scene->table->n_items - 1].panel_id;
  after = odd_job_take_off_last (odd_document_get_job (scene->document), panel_id, &error);
  return propose (scene, after, error, _("Take off last seam"));
}

static gboolean
move_panel_to (OddSelectTool *self, OddId panel_id, guint to)
{
  OddScene *scene = scene_of (self);
  const int item = odd_table_find_panel (scene->table, panel_id);
  OddTextile *textile = NULL;
  guint index;
  OddPanel *panel = odd_job_get_panel (scene->table->job, panel_id, &textile, &index);
  g_autofree char *name = NULL;
  g_autofree char *label = NULL;
  GError *error = NULL;
  OddJob *after;

  if (panel == NULL || item < 0 || to == index)
    return FALSE;
  name = odd_job_dup_panel_name (scene->table->job, panel);
  label = g_strdup_printf (_("Move %s"), name);
  after = odd_job_move_panel (odd_document_get_job (scene->document), panel_id, textile != NULL ? textile->id : 0, to, &error);
  return propose (scene, after, error, label);
}

static guint
count_siblings (OddTable *table, OddId textile_id)
{
  guint n = 0;

  for (guint i = 0; i < table->n_items; i++)
    n += table->items[i].textile_id == textile_id;
  return n;
}

gboolean
odd_select_tool_move_panel (OddSelectTool *self, int step)
{
  OddScene *scene = scene_of (self);
  OddId panel_id;
  int item, to;

  if (!is_ready (scene))
    return FALSE;
  panel_id = selected_panel (scene);
  item = panel_id != 0 ? odd_table_find_panel (scene->table, panel_id) : -1;
  if (item < 0)
    {
      scene->announce (scene, _("Select a panel to move."));
      return FALSE;
    }
  to = (int) scene->table->items[item].index + (scene->table->wrong_side ? -step : step);
  if (to < 0 || to >= (int) count_siblings (scene->table, scene->table->items[item].textile_id))
    return FALSE;
  return move_panel_to (self, panel_id, (guint) to);
}

/* --- pointer --- */

static void
hover (OddTool *tool, OddPoint px)
{
  OddSelectTool *self = ODD_SELECT_TOOL (tool);
  OddScene *scene = scene_of (self);
  OddHit hit = { ODD_SELECTED_NOTHING };

  if (scene->table != NULL && isfinite (px.x))
    hit = odd_table_hit (scene->table, scene->viewport, px, odd_scene_get_reach (scene));
  if (hit.kind == self->hover.kind && hit.id == self->hover.id)
    return;
  self->hover = hit;
  gtk_widget_set_cursor_from_name (scene->widget, hit.on_title ? "grab" : hit.kind == ODD_SELECTED_SEAM ? "pointer" : NULL);
  gtk_widget_queue_draw (scene->widget);
}

static void
click (OddTool *tool, OddPoint px, int n_press)
{
  OddSelectTool *self = ODD_SELECT_TOOL (tool);
  OddScene *scene = scene_of (self);
  OddHit hit;

  if (!is_ready (scene))
    return;
  hit = odd_table_hit (scene->table, scene->viewport, px, odd_scene_get_reach (scene));
  odd_selection_set (scene->selection, hit.kind, hit.id);
  if (n_press == 2 && hit.kind != ODD_SELECTED_NOTHING)
    g_signal_emit (self, signals[ACTIVATED], 0);
}

static gboolean
drag_begin (OddTool *tool, OddPoint px)
{
  OddSelectTool *self = ODD_SELECT_TOOL (tool);
  OddScene *scene = scene_of (self);
  OddHit hit;

  if (!is_ready (scene))
    return FALSE;
  hit = odd_table_hit (scene->table, scene->viewport, px, odd_scene_get_reach (scene));
  if (!hit.on_title)
    return FALSE;
  self->dragging = FALSE;
  self->dragged_panel = hit.id;
  self->drag_from_px = self->drag_px = px;
  return TRUE;
}

static void
drag_update (OddTool *tool, OddPoint px)
{
  OddSelectTool *self = ODD_SELECT_TOOL (tool);

  self->drag_px = px;
  if (odd_point_distance (px, self->drag_from_px) > 8)
    self->dragging = TRUE;
  gtk_widget_queue_draw (scene_of (self)->widget);
}

/* Before which item the panel would come, by the middles of the others. */
static guint
find_slot (OddSelectTool *self)
{
  OddScene *scene = scene_of (self);
  guint slot = 0;

  for (guint i = 0; i < scene->table->n_items; i++)
    {
      const OddBox box = odd_table_get_raw_px (scene->table, scene->viewport, i);

      if (self->drag_px.x > box.x + box.width / 2)
        slot = i + 1;
    }
  return slot;
}

/* The slot on the table as an index among the panel's siblings once it is taken out. */
static guint
slot_to_index (OddSelectTool *self, guint slot)
{
  OddTable *table = scene_of (self)->table;
  const int item = odd_table_find_panel (table, self->dragged_panel);
  const OddId textile_id = table->items[item].textile_id;
  guint before = 0, siblings = 0;

  for (guint i = 0; i < table->n_items; i++)
    {
      if (table->items[i].textile_id != textile_id || (int) i == item)
        continue;
      siblings++;
      before += i < slot;
    }
  return table->wrong_side ? siblings - before : before;
}

static void
drag_end (OddTool *tool, OddPoint px, gboolean cancelled)
{
  OddSelectTool *self = ODD_SELECT_TOOL (tool);
  OddScene *scene = scene_of (self);
  const OddId panel_id = self->dragged_panel;

  self->drag_px = px;
  if (self->dragging && !cancelled && odd_table_find_panel (scene->table, panel_id) >= 0)
    {
      move_panel_to (self, panel_id, slot_to_index (self, find_slot (self)));
      odd_selection_set (scene->selection, ODD_SELECTED_PANEL, panel_id);
    }
  self->dragging = FALSE;
  self->dragged_panel = 0;
  gtk_widget_queue_draw (scene->widget);
}

/* --- keys --- */

static gboolean
select_first (OddScene *scene)
{
  for (guint i = 0; i < scene->table->n_items; i++)
    {
      if (scene->table->items[i].layout->n_patches == 0)
        continue;
      odd_selection_set (scene->selection, ODD_SELECTED_PATCH, scene->table->items[i].layout->patches[0].leaf->id);
      return TRUE;
    }
  return FALSE;
}

/* From a panel: to the sides other panels, down its first patch. */
static gboolean
walk_from_panel (OddScene *scene, OddId panel_id, int dx, int dy)
{
  const int item = odd_table_find_panel (scene->table, panel_id);

  if (item < 0)
    return FALSE;
  if (dx != 0 && item + dx >= 0 && item + dx < (int) scene->table->n_items)
    odd_selection_set (scene->selection, ODD_SELECTED_PANEL, scene->table->items[item + dx].panel_id);
  else if (dy > 0 && scene->table->items[item].layout->n_patches > 0)
    odd_selection_set (scene->selection, ODD_SELECTED_PATCH, scene->table->items[item].layout->patches[0].leaf->id);
  return TRUE;
}

static gboolean
walk (OddScene *scene, int dx, int dy)
{
  const OddSelected kind = odd_selection_get_kind (scene->selection);
  const OddId id = odd_selection_get_id (scene->selection);
  OddId next;

  if (kind == ODD_SELECTED_PANEL)
    return walk_from_panel (scene, id, dx, dy);
  if (kind != ODD_SELECTED_PATCH && kind != ODD_SELECTED_SEAM)
    return select_first (scene);
  next = odd_table_get_neighbour (scene->table, scene->viewport, kind, id, dx, dy);
  if (next != 0)
    odd_selection_set (scene->selection, ODD_SELECTED_PATCH, next);
  else if (dy < 0 && selected_panel (scene) != 0)
    odd_selection_set (scene->selection, ODD_SELECTED_PANEL, selected_panel (scene));
  return TRUE;
}

static gboolean
walk_seams (OddScene *scene, int step)
{
  const OddId next = odd_table_get_next_seam (scene->table, odd_selection_get_kind (scene->selection), odd_selection_get_id (scene->selection), step);

  if (next == 0)
    return FALSE;
  odd_selection_set (scene->selection, ODD_SELECTED_SEAM, next);
  return TRUE;
}

static gboolean
key (OddTool *tool, guint keyval, GdkModifierType state)
{
  OddSelectTool *self = ODD_SELECT_TOOL (tool);
  OddScene *scene = scene_of (self);
  const gboolean shift = (state & GDK_SHIFT_MASK) != 0;

  if (!is_ready (scene) || (state & GDK_CONTROL_MASK) != 0)
    return FALSE;
  switch (keyval)
    {
    case GDK_KEY_Left:
    case GDK_KEY_KP_Left:
      return state & GDK_ALT_MASK ? odd_select_tool_move_panel (self, -1) || TRUE : walk (scene, -1, 0);
    case GDK_KEY_Right:
    case GDK_KEY_KP_Right:
      return state & GDK_ALT_MASK ? odd_select_tool_move_panel (self, 1) || TRUE : walk (scene, 1, 0);
    case GDK_KEY_Up:
    case GDK_KEY_KP_Up:
      return walk (scene, 0, -1);
    case GDK_KEY_Down:
    case GDK_KEY_KP_Down:
      return walk (scene, 0, 1);
    case GDK_KEY_s:
    case GDK_KEY_S:
      return walk_seams (scene, shift ? -1 : 1);
    case GDK_KEY_p:
    case GDK_KEY_P:
      if (selected_panel (scene) != 0)
        odd_selection_set (scene->selection, ODD_SELECTED_PANEL, selected_panel (scene));
      return TRUE;
    case GDK_KEY_Delete:
    case GDK_KEY_KP_Delete:
      odd_select_tool_make_bare (self);
      return TRUE;
    case GDK_KEY_BackSpace:
      odd_select_tool_take_off_last (self);
      return TRUE;
    case GDK_KEY_Return:
    case GDK_KEY_KP_Enter:
      if (odd_selection_get_id (scene->selection) == 0)
        return FALSE;
      g_signal_emit (self, signals[ACTIVATED], 0);
      return TRUE;
    case GDK_KEY_Escape:
      if (odd_selection_get_id (scene->selection) == 0)
        return FALSE;
      odd_selection_set (scene->selection, ODD_SELECTED_NOTHING, 0);
      return TRUE;
    default:
      return FALSE;
    }
}

/* --- what lies on top of the cloth --- */

/* A pill round the seam: a bar with round ends, its ends told by rings. */
static GArray *
pill_outline (OddSegment line)
{
  GArray *points = g_array_new (FALSE, FALSE, sizeof (OddPoint));
  const double angle = atan2 (line.to.y - line.from.y, line.to.x - line.from.x);

  for (guint end = 0; end < 2; end++)
    for (guint i = 0; i <= 12; i++)
      {
        const double turn = angle + (end == 0 ? -G_PI / 2 : G_PI / 2) + i * G_PI / 12;
        const OddPoint middle = end == 0 ? line.to : line.from;
        const OddPoint p = odd_point_add (middle, odd_point (cos (turn) * PILL_PX / 2, sin (turn) * PILL_PX / 2));

        g_array_append_val (points, p);
      }
  return points;
}

static GArray *
ring (OddPoint middle, double radius)
{
  GArray *points = g_array_new (FALSE, FALSE, sizeof (OddPoint));

  for (guint i = 0; i < 16; i++)
    {
      const OddPoint p = odd_point_add (middle, odd_point (cos (i * G_PI / 8) * radius, sin (i * G_PI / 8) * radius));

      g_array_append_val (points, p);
    }
  return points;
}

static void
stroke (GtkSnapshot *snapshot, GArray *points, const GdkRGBA *accent, double scale)
{
  odd_snapshot_path (snapshot, points, TRUE, &casing, CASING_PX * scale, NULL, 0);
  odd_snapshot_path (snapshot, points, TRUE, accent, RING_PX * scale, NULL, 0);
}

static void
mark_seam (OddScene *scene, GtkSnapshot *snapshot, OddSegment line)
{
  g_autoptr(GArray) pill = pill_outline (line);

  stroke (snapshot, pill, &scene->mark, scene->text_scale);
  for (guint end = 0; end < 2; end++)
    {
      g_autoptr(GArray) circle = ring (end == 0 ? line.from : line.to, END_RING_PX * scene->text_scale);
      const GdkRGBA ink = { 23 / 255.0f, 18 / 255.0f, 14 / 255.0f, 1.0f };

      odd_snapshot_path (snapshot, circle, TRUE, &casing, 3.9 * scene->text_scale, NULL, 0);
      odd_snapshot_path (snapshot, circle, TRUE, &ink, 1.7 * scene->text_scale, NULL, 0);
    }
}

/* Outline a little outside the finished edge, so that the seam's own marks stay visible. */
static void
mark_selected (OddScene *scene, GtkSnapshot *snapshot, OddSelected kind, OddId id)
{
  g_autoptr(GArray) outline = odd_table_get_outline_px (scene->table, scene->viewport, kind, id);

  if (outline == NULL)
    return;
  if (kind == ODD_SELECTED_SEAM)
    mark_seam (scene, snapshot, (OddSegment) { g_array_index (outline, OddPoint, 0), g_array_index (outline, OddPoint, 1) });
  else
    stroke (snapshot, outline, &scene->mark, scene->text_scale * (gtk_widget_has_visible_focus (scene->widget) ? 1.4 : 1));
}

static void
mark_hover (OddSelectTool *self, GtkSnapshot *snapshot)
{
  OddScene *scene = scene_of (self);
  GdkRGBA hint = scene->mark;
  g_autoptr(GArray) outline = NULL;

  if (self->hover.kind == ODD_SELECTED_NOTHING
      || (self->hover.kind == odd_selection_get_kind (scene->selection) && self->hover.id == odd_selection_get_id (scene->selection)))
    return;
  outline = odd_table_get_outline_px (scene->table, scene->viewport, self->hover.kind, self->hover.id);
  if (outline == NULL)
    return;
  hint.alpha = 0.75f;
  if (self->hover.kind == ODD_SELECTED_SEAM)
    {
      const OddSegment line = { g_array_index (outline, OddPoint, 0), g_array_index (outline, OddPoint, 1) };
      g_autoptr(GArray) pill = pill_outline (line);

      odd_snapshot_path (snapshot, pill, TRUE, &casing, 2.8, NULL, 0);
      odd_snapshot_path (snapshot, pill, TRUE, &hint, 1.2, NULL, 0);
      return;
    }
  odd_snapshot_path (snapshot, outline, TRUE, &casing, 2.8, NULL, 0);
  odd_snapshot_path (snapshot, outline, TRUE, &hint, 1.2, NULL, 0);
}

/* The dragged panel as a veil that follows the hand, and a bar where it would hang. */
static void
mark_drag (OddSelectTool *self, GtkSnapshot *snapshot)
{
  OddScene *scene = scene_of (self);
  const int item = odd_table_find_panel (scene->table, self->dragged_panel);
  const guint slot = find_slot (self);
  GdkRGBA veil = scene->table_colour;
  OddBox box, at;

  if (item < 0)
    return;
  box = odd_table_get_raw_px (scene->table, scene->viewport, (guint) item);
  veil.alpha = 0.55f;
  gtk_snapshot_append_color (snapshot, &veil, &GRAPHENE_RECT_INIT (box.x, box.y, box.width, box.height));
  at = odd_table_get_raw_px (scene->table, scene->viewport, MIN (slot, scene->table->n_items - 1));
  if (slot == scene->table->n_items)
    at.x += at.width + ODD_PANEL_GAP_PX;
  gtk_snapshot_append_color (snapshot, &scene->accent, &GRAPHENE_RECT_INIT (at.x - ODD_PANEL_GAP_PX / 2 - 1.5, at.y - ODD_PANEL_TITLE_PX, 3, at.height + ODD_PANEL_TITLE_PX));
  box.x += self->drag_px.x - self->drag_from_px.x;
  {
    const OddPoint corners[] = { { box.x, box.y }, { box.x + box.width, box.y }, { box.x + box.width, box.y + box.height }, { box.x, box.y + box.height } };
    g_autoptr(GArray) outline = g_array_new (FALSE, FALSE, sizeof (OddPoint));

    g_array_append_vals (outline, corners, 4);
    stroke (snapshot, outline, &scene->mark, scene->text_scale);
  }
}

static void
snapshot_select (OddTool *tool, GtkSnapshot *snapshot)
{
  OddSelectTool *self = ODD_SELECT_TOOL (tool);
  OddScene *scene = scene_of (self);

  if (!is_ready (scene))
    return;
  if (self->dragging)
    {
      mark_drag (self, snapshot);
      return;
    }
  mark_hover (self, snapshot);
  mark_selected (scene, snapshot, odd_selection_get_kind (scene->selection), odd_selection_get_id (scene->selection));
}

static void
odd_select_tool_class_init (OddSelectToolClass *klass)
{
  OddToolClass *tool_class = ODD_TOOL_CLASS (klass);

  tool_class->hover = hover;
  tool_class->click = click;
  tool_class->drag_begin = drag_begin;
  tool_class->drag_update = drag_update;
  tool_class->drag_end = drag_end;
  tool_class->key = key;
  tool_class->snapshot = snapshot_select;
  signals[ACTIVATED] = g_signal_new ("activated", ODD_TYPE_SELECT_TOOL, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
odd_select_tool_init (OddSelectTool *self)
{
}

OddTool *
odd_select_tool_new (void)
{
  return g_object_new (ODD_TYPE_SELECT_TOOL, NULL);
}
