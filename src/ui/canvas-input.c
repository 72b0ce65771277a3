#include "config.h"
#include "ui/canvas-input.h"

#define WHEEL_PX 60.0                 /* one notch */
#define WHEEL_ZOOM 1.15
#define KEY_ZOOM 1.25

typedef enum { DRAG_NONE, DRAG_TOOL, DRAG_PAN } DragKind;

struct _OddCanvasInput
{
  OddCanvas *canvas;
  OddPoint pointer_px;
  gboolean space;                     /* held down */
  DragKind drag;
  OddPoint drag_start_px, panned_px;
  double pinch_zoom;
  OddPoint pinch_px;
};

static OddScene *
scene_of (OddCanvasInput *self)
{
  return odd_canvas_get_scene (self->canvas);
}

static double
zoom_of (OddCanvasInput *self)
{
  return odd_viewport_get_zoom (scene_of (self)->viewport);
}

/* --- pointer --- */

static void
motion_cb (OddCanvasInput *self, double x, double y)
{
  self->pointer_px = odd_point (x, y);
  odd_tool_hover (odd_canvas_get_tool (self->canvas), self->pointer_px);
  gtk_widget_queue_draw (GTK_WIDGET (self->canvas));
}

static void
leave_cb (OddCanvasInput *self)
{
  self->pointer_px = odd_point (NAN, NAN);
  odd_tool_hover (odd_canvas_get_tool (self->canvas), self->pointer_px);
  gtk_widget_queue_draw (GTK_WIDGET (self->canvas));
}

static gboolean
is_touch (GtkGesture *gesture)
{
  GdkDevice *device = gtk_event_controller_get_current_event_device (GTK_EVENT_CONTROLLER (gesture));

  return device != NULL && gdk_device_get_source (device) == GDK_SOURCE_TOUCHSCREEN;
}

static void
pressed_cb (OddCanvasInput *self, int n_press, double x, double y, GtkGesture *gesture)
{
  scene_of (self)->touch = is_touch (gesture);
  gtk_widget_grab_focus (GTK_WIDGET (self->canvas));
}

static void
released_cb (OddCanvasInput *self, int n_press, double x, double y, GtkGesture *gesture)
{
  if (!self->space)
    odd_tool_click (odd_canvas_get_tool (self->canvas), odd_point (x, y), n_press);
}

/* --- dragging: with the tool, else the table moves --- */

static gboolean
lies_on_cloth (OddCanvasInput *self, OddPoint px)
{
  OddScene *scene = scene_of (self);

  return scene->table != NULL && odd_table_hit (scene->table, scene->viewport, px, odd_scene_get_reach (scene)).kind != ODD_SELECTED_NOTHING;
}

static void
begin_pan (OddCanvasInput *self, OddPoint px)
{
  self->drag = DRAG_PAN;
  self->drag_start_px = px;
  self->panned_px = odd_point (0, 0);
}

static void
drag_begin_cb (OddCanvasInput *self, double x, double y, GtkGesture *gesture)
{
  const OddPoint px = odd_point (x, y);
  const guint button = gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (gesture));

  self->drag = DRAG_NONE;
  if (button == GDK_BUTTON_MIDDLE || self->space)
    begin_pan (self, px);
  else if (button == GDK_BUTTON_PRIMARY && odd_tool_drag_begin (odd_canvas_get_tool (self->canvas), px))
    {
      self->drag = DRAG_TOOL;
      self->drag_start_px = px;
    }
  else if (button == GDK_BUTTON_PRIMARY && (is_touch (gesture) || !lies_on_cloth (self, px)))
    begin_pan (self, px);
  else
    gtk_gesture_set_state (gesture, GTK_EVENT_SEQUENCE_DENIED);
}

static void
drag_update_cb (OddCanvasInput *self, double dx, double dy, GtkGesture *gesture)
{
  if (hypot (dx, dy) > 8)
    gtk_gesture_set_state (gesture, GTK_EVENT_SEQUENCE_CLAIMED);
  if (self->drag == DRAG_TOOL)
    odd_tool_drag_update (odd_canvas_get_tool (self->canvas), odd_point_add (self->drag_start_px, odd_point (dx, dy)));
  else if (self->drag == DRAG_PAN)
    {
      odd_canvas_pan_by (self->canvas, dx - self->panned_px.x, dy - self->panned_px.y);
      self->panned_px = odd_point (dx, dy);
    }
}

static void
drag_end_cb (OddCanvasInput *self, double dx, double dy, GtkGesture *gesture)
{
  if (self->drag == DRAG_TOOL)
    odd_tool_drag_end (odd_canvas_get_tool (self->canvas), odd_point_add (self->drag_start_px, odd_point (dx, dy)), FALSE);
  self->drag = DRAG_NONE;
}

static void
drag_cancel_cb (OddCanvasInput *self, GdkEventSequence *sequence, GtkGesture *gesture)
{
  if (self->drag == DRAG_TOOL)
    odd_tool_drag_end (odd_canvas_get_tool (self->canvas), self->drag_start_px, TRUE);
  self->drag = DRAG_NONE;
}

/* --- wheel and fingers --- */

static gboolean
scroll_cb (OddCanvasInput *self, double dx, double dy, GtkEventControllerScroll *controller)
{
  const GdkModifierType state = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (controller));
  const double step = gtk_event_controller_scroll_get_unit (controller) == GDK_SCROLL_UNIT_WHEEL ? WHEEL_PX : 1;
  OddPoint px = self->pointer_px;

  if (!isfinite (px.x))
    px = odd_point (odd_viewport_get_width (scene_of (self)->viewport) / 2, odd_viewport_get_height (scene_of (self)->viewport) / 2);
  if (state & GDK_CONTROL_MASK)
    odd_canvas_zoom_at (self->canvas, px, zoom_of (self) * pow (WHEEL_ZOOM, -dy * step / WHEEL_PX));
  else if ((state & GDK_SHIFT_MASK) != 0 && dx == 0)
    odd_canvas_pan_by (self->canvas, -dy * step, 0);
  else
    odd_canvas_pan_by (self->canvas, -dx * step, -dy * step);
  return TRUE;
}

static void
pinch_begin_cb (OddCanvasInput *self, GdkEventSequence *sequence, GtkGesture *gesture)
{
  self->pinch_zoom = zoom_of (self);
  gtk_gesture_get_bounding_box_center (gesture, &self->pinch_px.x, &self->pinch_px.y);
  gtk_gesture_set_state (gesture, GTK_EVENT_SEQUENCE_CLAIMED);
}

static void
pinch_cb (OddCanvasInput *self, double scale, GtkGesture *gesture)
{
  OddPoint px;

  if (!gtk_gesture_get_bounding_box_center (gesture, &px.x, &px.y))
    return;
  odd_canvas_pan_by (self->canvas, px.x - self->pinch_px.x, px.y - self->pinch_px.y);
  odd_canvas_zoom_at (self->canvas, px, self->pinch_zoom * scale);
  self->pinch_px = px;
}

/* --- keys --- */

static gboolean
view_key (OddCanvasInput *self, guint keyval)
{
  switch (keyval)
    {
    case GDK_KEY_0:
    case GDK_KEY_KP_0:
      odd_canvas_fit (self->canvas, TRUE);
      return TRUE;
    case GDK_KEY_1:
    case GDK_KEY_KP_1:
      odd_canvas_true_size (self->canvas);
      return TRUE;
    case GDK_KEY_plus:
    case GDK_KEY_equal:
    case GDK_KEY_KP_Add:
      odd_canvas_zoom_by (self->canvas, KEY_ZOOM);
      return TRUE;
    case GDK_KEY_minus:
    case GDK_KEY_KP_Subtract:
      odd_canvas_zoom_by (self->canvas, 1 / KEY_ZOOM);
      return TRUE;
    case GDK_KEY_m:
    case GDK_KEY_M:
      gtk_widget_activate_action (GTK_WIDGET (self->canvas), "win.measure", NULL);
      return TRUE;
    case GDK_KEY_u:
    case GDK_KEY_U:
      gtk_widget_activate_action (GTK_WIDGET (self->canvas), "win.unpick", NULL);
      return TRUE;
    case GDK_KEY_space:
      self->space = TRUE;
      gtk_widget_set_cursor_from_name (GTK_WIDGET (self->canvas), "grab");
      return TRUE;
    default:
      return FALSE;
    }
}

static gboolean
key_pressed_cb (OddCanvasInput *self, guint keyval, guint keycode, GdkModifierType state, GtkEventControllerKey *controller)
{
  OddScene *scene = scene_of (self);
  const GdkModifierType held = state & (GDK_SHIFT_MASK | GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK);

  if (odd_tool_key (odd_canvas_get_tool (self->canvas), keyval, held))
    {
      if (scene->selection != NULL)
        odd_canvas_reveal (self->canvas, odd_selection_get_kind (scene->selection), odd_selection_get_id (scene->selection));
      return GDK_EVENT_STOP;
    }
  if ((held & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK)) == 0 && view_key (self, keyval))
    return GDK_EVENT_STOP;
  return GDK_EVENT_PROPAGATE;
}

static void
key_released_cb (OddCanvasInput *self, guint keyval, guint keycode, GdkModifierType state, GtkEventControllerKey *controller)
{
  if (keyval != GDK_KEY_space)
    return;
  self->space = FALSE;
  gtk_widget_set_cursor (GTK_WIDGET (self->canvas), NULL);
}

static void
focus_leave_cb (OddCanvasInput *self)
{
  self->space = FALSE;
}

/* --- a scrap dragged from the tray --- */

static GdkDragAction
drop_motion (OddCanvasInput *self, GtkDropTarget *target, double x, double y)
{
  const GValue *value = gtk_drop_target_get_value (target);
  GdkDevice *device = gtk_event_controller_get_current_event_device (GTK_EVENT_CONTROLLER (target));
  GdkModifierType state = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (target));

  if (value == NULL || !G_VALUE_HOLDS_UINT (value))
    return GDK_ACTION_COPY;             /* its number is still on the way */
  if (device != NULL && gdk_device_get_seat (device) != NULL)
    state |= gdk_device_get_modifier_state (gdk_seat_get_keyboard (gdk_device_get_seat (device)));
  if (!odd_hand_tool_hold (odd_canvas_get_hand_tool (self->canvas), g_value_get_uint (value), odd_point (x, y), (state & GDK_SHIFT_MASK) != 0, FALSE))
    return 0;
  odd_canvas_queue_update (self->canvas);
  return GDK_ACTION_COPY;
}

static GdkDragAction
drop_motion_cb (OddCanvasInput *self, double x, double y, GtkDropTarget *target)
{
  self->pointer_px = odd_point (x, y);
  return drop_motion (self, target, x, y);
}

static void
drop_leave_cb (OddCanvasInput *self)
{
  self->pointer_px = odd_point (NAN, NAN);
  odd_hand_tool_let_go (odd_canvas_get_hand_tool (self->canvas));
}

static gboolean
drop_cb (OddCanvasInput *self, const GValue *value, double x, double y, GtkDropTarget *target)
{
  OddHandTool *tool = odd_canvas_get_hand_tool (self->canvas);

  if (!G_VALUE_HOLDS_UINT (value) || !odd_hand_tool_hold (tool, g_value_get_uint (value), odd_point (x, y), FALSE, FALSE))
    return FALSE;
  gtk_widget_grab_focus (GTK_WIDGET (self->canvas));
  return odd_hand_tool_drop (tool);
}

/* --- all controllers --- */

static GtkEventController *
add (OddCanvasInput *self, GtkEventController *controller)
{
  gtk_widget_add_controller (GTK_WIDGET (self->canvas), controller);
  return controller;
}

static void
add_pointer (OddCanvasInput *self)
{
  GtkEventController *motion = add (self, gtk_event_controller_motion_new ());
  GtkEventController *click = add (self, GTK_EVENT_CONTROLLER (gtk_gesture_click_new ()));
  GtkEventController *drag = add (self, GTK_EVENT_CONTROLLER (gtk_gesture_drag_new ()));
  GtkEventController *scroll = add (self, gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES));
  GtkEventController *pinch = add (self, GTK_EVENT_CONTROLLER (gtk_gesture_zoom_new ()));

  g_signal_connect_swapped (motion, "enter", G_CALLBACK (motion_cb), self);
  g_signal_connect_swapped (motion, "motion", G_CALLBACK (motion_cb), self);
  g_signal_connect_swapped (motion, "leave", G_CALLBACK (leave_cb), self);
  g_signal_connect_swapped (click, "pressed", G_CALLBACK (pressed_cb), self);
  g_signal_connect_swapped (click, "released", G_CALLBACK (released_cb), self);
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (drag), 0);
  g_signal_connect_swapped (drag, "drag-begin", G_CALLBACK (drag_begin_cb), self);
  g_signal_connect_swapped (drag, "drag-update", G_CALLBACK (drag_update_cb), self);
  g_signal_connect_swapped (drag, "drag-end", G_CALLBACK (drag_end_cb), self);
  g_signal_connect_swapped (drag, "cancel", G_CALLBACK (drag_cancel_cb), self);
  g_signal_connect_swapped (scroll, "scroll", G_CALLBACK (scroll_cb), self);
  g_signal_connect_swapped (pinch, "begin", G_CALLBACK (pinch_begin_cb), self);
  g_signal_connect_swapped (pinch, "scale-changed", G_CALLBACK (pinch_cb), self);
}

static void
add_keys (OddCanvasInput *self)
{
  GtkEventController *key = add (self, gtk_event_controller_key_new ());
  GtkEventController *focus = add (self, gtk_event_controller_focus_new ());

  g_signal_connect_swapped (key, "key-pressed", G_CALLBACK (key_pressed_cb), self);
  g_signal_connect_swapped (key, "key-released", G_CALLBACK (key_released_cb), self);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (focus_leave_cb), self);
  g_signal_connect_swapped (focus, "enter", G_CALLBACK (gtk_widget_queue_draw), self->canvas);
}

static void
add_drop (OddCanvasInput *self)
{
  GtkDropTarget *drop = gtk_drop_target_new (G_TYPE_UINT, GDK_ACTION_COPY | GDK_ACTION_MOVE);

  gtk_drop_target_set_preload (drop, TRUE);
  g_signal_connect_swapped (drop, "enter", G_CALLBACK (drop_motion_cb), self);
  g_signal_connect_swapped (drop, "motion", G_CALLBACK (drop_motion_cb), self);
  g_signal_connect_swapped (drop, "leave", G_CALLBACK (drop_leave_cb), self);
  g_signal_connect_swapped (drop, "drop", G_CALLBACK (drop_cb), self);
  add (self, GTK_EVENT_CONTROLLER (drop));
}

OddCanvasInput *
odd_canvas_input_new (OddCanvas *canvas)
{
  OddCanvasInput *self = g_new0 (OddCanvasInput, 1);

  self->canvas = canvas;
  self->pointer_px = odd_point (NAN, NAN);
  add_pointer (self);
  add_keys (self);
  add_drop (self);
  return self;
}

void
odd_canvas_input_free (OddCanvasInput *self)
{
  g_free (self);
}

OddPoint
odd_canvas_input_get_pointer (OddCanvasInput *self)
{
  return self->pointer_px;
}
