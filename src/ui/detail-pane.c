#include "config.h"

#include "ui/detail-pane.h"

#include "ui/hint-pane.h"
#include "ui/panel-pane.h"
#include "ui/patch-pane.h"
#include "ui/scrap-pane.h"
#include "ui/textile-pane.h"

struct _OddDetailPane
{
  OddPane parent_instance;
  char *stage;
  GtkStack *stack;
  OddSeamPane *seam;
};

G_DEFINE_FINAL_TYPE (OddDetailPane, odd_detail_pane, ODD_TYPE_PANE)

enum { PROP_0, PROP_STAGE, N_PROPS };
static GParamSpec *props[N_PROPS];

static const char *
choose (OddDetailPane *self)
{
  const OddSelected kind = odd_pane_get_kind (ODD_PANE (self));
  const gboolean merging = g_strcmp0 (self->stage, "textile") == 0;

  switch (kind)
    {
    case ODD_SELECTED_SCRAP: return merging ? "textile" : "scrap";
    case ODD_SELECTED_PATCH: return "patch";
    case ODD_SELECTED_SEAM: return "seam";
    case ODD_SELECTED_PANEL: return merging ? "textile" : "panel";
    case ODD_SELECTED_TEXTILE: return "textile";
    default: return merging ? "textile" : "hint";
    }
}

/* Only the pane that is seen follows the job. */
static void
odd_detail_pane_refresh (OddPane *pane)
{
  OddDetailPane *self = ODD_DETAIL_PANE (pane);
  const char *name = choose (self);
  GtkWidget *shown = gtk_stack_get_child_by_name (self->stack, name);
  GtkWidget *child;

  for (child = gtk_widget_get_first_child (GTK_WIDGET (self->stack)); child != NULL; child = gtk_widget_get_next_sibling (child))
    if (child != shown)
      g_object_set (child, "active", FALSE, NULL);
  g_object_set (shown, "active", TRUE, NULL);
  gtk_stack_set_visible_child (self->stack, shown);
}

static void
odd_detail_pane_finalize (GObject *object)
{
  g_free (ODD_DETAIL_PANE (object)->stage);
  G_OBJECT_CLASS (odd_detail_pane_parent_class)->finalize (object);
}

static void
odd_detail_pane_get_property (GObject    *object,
                              guint       prop_id,
                              GValue     *value,
                              GParamSpec *pspec)
{
  if (prop_id == PROP_STAGE)
    g_value_set_string (value, ODD_DETAIL_PANE (object)->stage);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
}

static void
odd_detail_pane_set_property (GObject      *object,
                              guint         prop_id,
                              const GValue *value,
                              GParamSpec   *pspec)
{
  OddDetailPane *self = ODD_DETAIL_PANE (object);

  if (prop_id != PROP_STAGE)
    {
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
      return;
    }
  g_free (self->stage);
  self->stage = g_value_dup_string (value);
  odd_pane_refresh (ODD_PANE (self));
}

static void
odd_detail_pane_class_init (OddDetailPaneClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->finalize = odd_detail_pane_finalize;
  object_class->get_property = odd_detail_pane_get_property;
  object_class->set_property = odd_detail_pane_set_property;
  ODD_PANE_CLASS (klass)->refresh = odd_detail_pane_refresh;
  props[PROP_STAGE] = g_param_spec_string ("stage", NULL, NULL, NULL, G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  g_type_ensure (ODD_TYPE_HINT_PANE);
  g_type_ensure (ODD_TYPE_PANEL_PANE);
  g_type_ensure (ODD_TYPE_PATCH_PANE);
  g_type_ensure (ODD_TYPE_SCRAP_PANE);
  g_type_ensure (ODD_TYPE_SEAM_PANE);
  g_type_ensure (ODD_TYPE_TEXTILE_PANE);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/detail-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, OddDetailPane, stack);
  gtk_widget_class_bind_template_child (widget_class, OddDetailPane, seam);
}

static void
odd_detail_pane_init (OddDetailPane *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_object_set (self, "active", TRUE, NULL);
}

OddSeamPane *
odd_detail_pane_get_seam_pane (OddDetailPane *self)
{
  g_return_val_if_fail (ODD_IS_DETAIL_PANE (self), NULL);

  return self->seam;
}

const char *
odd_detail_pane_get_shown (OddDetailPane *self)
{
  g_return_val_if_fail (ODD_IS_DETAIL_PANE (self), NULL);

  return gtk_stack_get_visible_child_name (self->stack);
}
