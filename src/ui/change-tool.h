/*
 * The tool in use while the hand is empty. What it does not take for itself it hands on to the select tool: pointing, selecting, walking.
 * Its own: the handles of the selected seam, a swap of two patches, the line that cuts a patch in two, locks, free ends.
 */
#pragma once

#include "ui/tool.h"

G_BEGIN_DECLS

#define ODD_TYPE_CHANGE_TOOL (odd_change_tool_get_type ())
G_DECLARE_FINAL_TYPE (OddChangeTool, odd_change_tool, ODD, CHANGE_TOOL, OddTool)

/* Both have @scene already or get it now. @select_tool: a reference is added. */
OddTool *odd_change_tool_new (OddScene *scene, OddTool *select_tool);

/* As the keys do them; FALSE when there is nothing to do, the reason announced. */
gboolean odd_change_tool_begin_swap (OddChangeTool *self);             /* W: the selected patch with the one chosen next */
gboolean odd_change_tool_begin_cut (OddChangeTool *self);              /* X */
gboolean odd_change_tool_straighten (OddChangeTool *self, gboolean upper, double most_tilt_deg);     /* F; the end as seen */
gboolean odd_change_tool_toggle_lock (OddChangeTool *self);            /* L: patch, strip of the seam, panel */
gboolean odd_change_tool_replace (OddChangeTool *self, OddId leaf_id, OddId scrap_id, double turn_deg);
/* Something else is in the hand, or the job has changed under it. */
void odd_change_tool_stop (OddChangeTool *self);

G_END_DECLS
