/* The tool in use while the hand is empty: points, selects, walks by key, moves panels by their titles. */
#pragma once

#include "ui/tool.h"

G_BEGIN_DECLS

#define ODD_TYPE_SELECT_TOOL (odd_select_tool_get_type ())
G_DECLARE_FINAL_TYPE (OddSelectTool, odd_select_tool, ODD, SELECT_TOOL, OddTool)

/* Signal: activated: Enter, or a second click on what is selected. */
OddTool *odd_select_tool_new (void);

/* Edits of what is selected; FALSE when there is nothing to do, the reason announced. */
gboolean odd_select_tool_make_bare (OddSelectTool *self);
gboolean odd_select_tool_take_off_last (OddSelectTool *self);
gboolean odd_select_tool_move_panel (OddSelectTool *self, int step);
/* What is selected in words: "Patch 7, scrap 14"; "Seam 4 · 5, sewn"; NULL for nothing. (transfer full) */
char *odd_scene_describe_selection (OddScene *scene);

G_END_DECLS
