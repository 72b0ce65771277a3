/*
 * A tool: what pointer and keys mean on the canvas just now. Tools have one shape; the canvas asks the one in use. A tool never edits
 * a value itself: it proposes an edit to the document.
 */
#pragma once

#include "ui/scene.h"

G_BEGIN_DECLS

#define ODD_TYPE_TOOL (odd_tool_get_type ())
G_DECLARE_DERIVABLE_TYPE (OddTool, odd_tool, ODD, TOOL, GObject)

struct _OddToolClass
{
  GObjectClass parent_class;

  void (*hover) (OddTool *self, OddPoint px);                          /* NAN: the pointer left */
  void (*click) (OddTool *self, OddPoint px, int n_press);
  gboolean (*drag_begin) (OddTool *self, OddPoint px);                 /* FALSE: nothing to drag here, the canvas may pan */
  void (*drag_update) (OddTool *self, OddPoint px);
  void (*drag_end) (OddTool *self, OddPoint px, gboolean cancelled);
  gboolean (*key) (OddTool *self, guint keyval, GdkModifierType state);
  void (*snapshot) (OddTool *self, GtkSnapshot *snapshot);
};

OddScene *odd_tool_get_scene (OddTool *self);                          /* (transfer none) */
void odd_tool_set_scene (OddTool *self, OddScene *scene);              /* once, by the canvas */

void odd_tool_hover (OddTool *self, OddPoint px);
void odd_tool_click (OddTool *self, OddPoint px, int n_press);
gboolean odd_tool_drag_begin (OddTool *self, OddPoint px);
void odd_tool_drag_update (OddTool *self, OddPoint px);
void odd_tool_drag_end (OddTool *self, OddPoint px, gboolean cancelled);
gboolean odd_tool_key (OddTool *self, guint keyval, GdkModifierType state);
void odd_tool_snapshot (OddTool *self, GtkSnapshot *snapshot);

G_END_DECLS
