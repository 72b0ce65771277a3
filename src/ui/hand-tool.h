/* The tool in use while a scrap is in the hand: finds the nearest opening, shows the place, turns, steps, nudges, sews on. */
#pragma once

#include "ui/tool.h"

G_BEGIN_DECLS

#define ODD_TYPE_HAND_TOOL (odd_hand_tool_get_type ())
G_DECLARE_FINAL_TYPE (OddHandTool, odd_hand_tool, ODD, HAND_TOOL, OddTool)

/* Signals: sewn-on (guint leaf); emptied: the hand is empty again. */
OddTool *odd_hand_tool_new (void);

/* By key: at @target, or the likeliest opening. FALSE when the scrap cannot be taken, told. */
gboolean odd_hand_tool_take (OddHandTool *self, OddId scrap_id, const OddTarget *target);
/* By pointer: held at @px, its own angle kept with @keep_angle; @keys: keys reach the canvas meanwhile. */
gboolean odd_hand_tool_hold (OddHandTool *self, OddId scrap_id, OddPoint px, gboolean keep_angle, gboolean keys);
void odd_hand_tool_let_go (OddHandTool *self);               /* the pointer left with the scrap: no picture, nothing told */
void odd_hand_tool_step_target (OddHandTool *self, int step);
void odd_hand_tool_start_loose (OddHandTool *self);          /* aims at a new loose piece */
void odd_hand_tool_turn (OddHandTool *self, double by_deg);
gboolean odd_hand_tool_sew_on (OddHandTool *self);           /* FALSE: refused, told */
void odd_hand_tool_put_back (OddHandTool *self);
gboolean odd_hand_tool_is_held (OddHandTool *self);          /* by a pointer */
gboolean odd_hand_tool_has_keys (OddHandTool *self);
gboolean odd_hand_tool_drop (OddHandTool *self);             /* the pointer let go: sewn on, or put back and told why */
/* Before the frame: the place for where the scrap is held now, and its picture. */
void odd_hand_tool_update (OddHandTool *self);
OddBox odd_hand_tool_get_box_px (OddHandTool *self);
OddPoint odd_hand_tool_get_held_px (OddHandTool *self);
void odd_hand_tool_table_changed (OddHandTool *self);

G_END_DECLS
