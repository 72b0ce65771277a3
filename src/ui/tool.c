#include "config.h"
#include "ui/tool.h"

typedef struct { OddScene *scene; } OddToolPrivate;

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (OddTool, odd_tool, G_TYPE_OBJECT)

static void
odd_tool_class_init (OddToolClass *klass)
{
}

static void
odd_tool_init (OddTool *self)
{
}

OddScene *
odd_tool_get_scene (OddTool *self)
{
  return ((OddToolPrivate *) odd_tool_get_instance_private (self))->scene;
}

void
odd_tool_set_scene (OddTool *self, OddScene *scene)
{
  ((OddToolPrivate *) odd_tool_get_instance_private (self))->scene = scene;
}

void
odd_tool_hover (OddTool *self, OddPoint px)
{
  if (ODD_TOOL_GET_CLASS (self)->hover != NULL)
    ODD_TOOL_GET_CLASS (self)->hover (self, px);
}

void
odd_tool_click (OddTool *self, OddPoint px, int n_press)
{
  if (ODD_TOOL_GET_CLASS (self)->click != NULL)
    ODD_TOOL_GET_CLASS (self)->click (self, px, n_press);
}

gboolean
odd_tool_drag_begin (OddTool *self, OddPoint px)
{
  return ODD_TOOL_GET_CLASS (self)->drag_begin != NULL && ODD_TOOL_GET_CLASS (self)->drag_begin (self, px);
}

void
odd_tool_drag_update (OddTool *self, OddPoint px)
{
  if (ODD_TOOL_GET_CLASS (self)->drag_update != NULL)
    ODD_TOOL_GET_CLASS (self)->drag_update (self, px);
}

void
odd_tool_drag_end (OddTool *self, OddPoint px, gboolean cancelled)
{
  if (ODD_TOOL_GET_CLASS (self)->drag_end != NULL)
    ODD_TOOL_GET_CLASS (self)->drag_end (self, px, cancelled);
}

gboolean
odd_tool_key (OddTool *self, guint keyval, GdkModifierType state)
{
  return ODD_TOOL_GET_CLASS (self)->key != NULL && ODD_TOOL_GET_CLASS (self)->key (self, keyval, state);
}

void
odd_tool_snapshot (OddTool *self, GtkSnapshot *snapshot)
{
  if (ODD_TOOL_GET_CLASS (self)->snapshot != NULL)
    ODD_TOOL_GET_CLASS (self)->snapshot (self, snapshot);
}
