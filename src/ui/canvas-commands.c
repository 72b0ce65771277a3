/* What window, panes and tests have the canvas do: each as its keys do it. */
#include "config.h"

#include "ui/canvas-private.h"
#include "ui/change-tool.h"
#include "ui/hand-tool.h"
#include "ui/select-tool.h"

void
odd_canvas_take_scrap (OddCanvas *self, OddId scrap_id, const OddTarget *target)
{
  g_return_if_fail (ODD_IS_CANVAS (self));

  if (odd_hand_tool_take (ODD_HAND_TOOL (self->hand_tool), scrap_id, target))
    gtk_widget_grab_focus (GTK_WIDGET (self));
}

void
odd_canvas_hold_scrap (OddCanvas *self, OddId scrap_id, double x, double y, gboolean keep_angle)
{
  g_return_if_fail (ODD_IS_CANVAS (self));

  if (!odd_hand_tool_hold (ODD_HAND_TOOL (self->hand_tool), scrap_id, odd_point (x, y), keep_angle, TRUE))
    return;
  if (!gtk_widget_has_focus (GTK_WIDGET (self)))
    gtk_widget_grab_focus (GTK_WIDGET (self));
  odd_canvas_queue_update (self);
}

gboolean
odd_canvas_drop_scrap (OddCanvas *self)
{
  g_return_val_if_fail (ODD_IS_CANVAS (self), FALSE);
  return odd_hand_tool_drop (ODD_HAND_TOOL (self->hand_tool));
}

void
odd_canvas_next_place (OddCanvas *self, int step)
{
  g_return_if_fail (ODD_IS_CANVAS (self));
  if (odd_canvas_is_in_hand (self))
    odd_held_step (self->scene.hand, step);
}

void
odd_canvas_next_target (OddCanvas *self, int step)
{
  g_return_if_fail (ODD_IS_CANVAS (self));
  odd_hand_tool_step_target (ODD_HAND_TOOL (self->hand_tool), step);
}

void
odd_canvas_turn_in_hand (OddCanvas *self, double by_deg)
{
  g_return_if_fail (ODD_IS_CANVAS (self));
  odd_hand_tool_turn (ODD_HAND_TOOL (self->hand_tool), by_deg);
}

void
odd_canvas_sew_on (OddCanvas *self)
{
  g_return_if_fail (ODD_IS_CANVAS (self));
  odd_hand_tool_sew_on (ODD_HAND_TOOL (self->hand_tool));
}

void
odd_canvas_put_back (OddCanvas *self)
{
  g_return_if_fail (ODD_IS_CANVAS (self));
  odd_hand_tool_put_back (ODD_HAND_TOOL (self->hand_tool));
}

gboolean
odd_canvas_make_bare (OddCanvas *self)
{
  g_return_val_if_fail (ODD_IS_CANVAS (self), FALSE);
  return odd_select_tool_make_bare (ODD_SELECT_TOOL (self->select_tool));
}

gboolean
odd_canvas_take_off_last (OddCanvas *self)
{
  g_return_val_if_fail (ODD_IS_CANVAS (self), FALSE);
  return odd_select_tool_take_off_last (ODD_SELECT_TOOL (self->select_tool));
}

gboolean
odd_canvas_move_panel (OddCanvas *self, int step)
{
  g_return_val_if_fail (ODD_IS_CANVAS (self), FALSE);
  return odd_select_tool_move_panel (ODD_SELECT_TOOL (self->select_tool), step);
}

gboolean
odd_canvas_begin_swap (OddCanvas *self)
{
  g_return_val_if_fail (ODD_IS_CANVAS (self), FALSE);
  return odd_change_tool_begin_swap (ODD_CHANGE_TOOL (self->change_tool));
}

gboolean
odd_canvas_begin_cut (OddCanvas *self)
{
  g_return_val_if_fail (ODD_IS_CANVAS (self), FALSE);
  return odd_change_tool_begin_cut (ODD_CHANGE_TOOL (self->change_tool));
}

gboolean
odd_canvas_straighten (OddCanvas *self, gboolean upper, double most_tilt_deg)
{
  g_return_val_if_fail (ODD_IS_CANVAS (self), FALSE);
  return odd_change_tool_straighten (ODD_CHANGE_TOOL (self->change_tool), upper, most_tilt_deg);
}

gboolean
odd_canvas_toggle_lock (OddCanvas *self)
{
  g_return_val_if_fail (ODD_IS_CANVAS (self), FALSE);
  return odd_change_tool_toggle_lock (ODD_CHANGE_TOOL (self->change_tool));
}

gboolean
odd_canvas_replace (OddCanvas *self, OddId leaf_id, OddId scrap_id)
{
  g_return_val_if_fail (ODD_IS_CANVAS (self), FALSE);
  return odd_change_tool_replace (ODD_CHANGE_TOOL (self->change_tool), leaf_id, scrap_id, NAN);
}
