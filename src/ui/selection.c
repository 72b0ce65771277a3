#include "config.h"
#include "ui/selection.h"

struct _OddSelection
{
  GObject parent_instance;
  OddDocument *document;
  OddSelected kind;
  OddId id;
};

enum { PROP_DOCUMENT = 1, PROP_KIND, PROP_ID, N_PROPS };
enum { CHANGED, N_SIGNALS };

static GParamSpec *props[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (OddSelection, odd_selection, G_TYPE_OBJECT)

GType
odd_selected_get_type (void)
{
  static gsize type = 0;
  static const GEnumValue values[] = {
    { ODD_SELECTED_NOTHING, "ODD_SELECTED_NOTHING", "nothing" },
    { ODD_SELECTED_SCRAP, "ODD_SELECTED_SCRAP", "scrap" },
    { ODD_SELECTED_PATCH, "ODD_SELECTED_PATCH", "patch" },
    { ODD_SELECTED_SEAM, "ODD_SELECTED_SEAM", "seam" },
    { ODD_SELECTED_PANEL, "ODD_SELECTED_PANEL", "panel" },
    { ODD_SELECTED_TEXTILE, "ODD_SELECTED_TEXTILE", "textile" },
    { 0, NULL, NULL }
  };

  if (g_once_init_enter (&type))
    g_once_init_leave (&type, g_enum_register_static ("OddSelected", values));
  return type;
}

static gboolean
panel_holds (OddJob *job, OddId id, gboolean seam)
{
  OddTextile *textile = NULL;
  OddPanel *panel = odd_job_find_panel_of (job, id, &textile, NULL);

  if (panel == NULL)                  /* a join of two panels */
    return seam && textile != NULL;
  if (seam)
    return odd_node_find_seam (panel->root, id, NULL) != NULL;
  return odd_node_find (panel->root, id) != NULL;
}

static gboolean
is_in_job (OddJob *job, OddSelected kind, OddId id)
{
  switch (kind)
    {
    case ODD_SELECTED_SCRAP:
      return odd_job_get_scrap (job, id) != NULL;
    case ODD_SELECTED_PATCH:
      return panel_holds (job, id, FALSE);
    case ODD_SELECTED_SEAM:
      return panel_holds (job, id, TRUE);
    case ODD_SELECTED_PANEL:
      return odd_job_get_panel (job, id, NULL, NULL) != NULL;
    case ODD_SELECTED_TEXTILE:
      return odd_job_get_textile (job, id) != NULL;
    case ODD_SELECTED_NOTHING:
    default:
      return FALSE;
    }
}

static void
document_changed_cb (OddSelection *self, OddJob *before, OddJob *after)
{
  if (self->kind != ODD_SELECTED_NOTHING && !is_in_job (after, self->kind, self->id))
    odd_selection_set (self, ODD_SELECTED_NOTHING, 0);
}

static void
odd_selection_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  OddSelection *self = ODD_SELECTION (object);

  switch (id)
    {
    case PROP_DOCUMENT:
      g_value_set_object (value, self->document);
      break;
    case PROP_KIND:
      g_value_set_enum (value, self->kind);
      break;
    case PROP_ID:
      g_value_set_uint (value, self->id);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
odd_selection_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  OddSelection *self = ODD_SELECTION (object);

  if (id != PROP_DOCUMENT)
    {
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
      return;
    }
  self->document = g_value_dup_object (value);
  if (self->document != NULL)
    g_signal_connect_object (self->document, "changed", G_CALLBACK (document_changed_cb), self, G_CONNECT_SWAPPED);
}

static void
odd_selection_dispose (GObject *object)
{
  g_clear_object (&ODD_SELECTION (object)->document);
  G_OBJECT_CLASS (odd_selection_parent_class)->dispose (object);
}

static void
odd_selection_class_init (OddSelectionClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  const GParamFlags read = G_PARAM_READABLE | G_PARAM_STATIC_STRINGS | G_PARAM_EXPLICIT_NOTIFY;

  object_class->get_property = odd_selection_get_property;
  object_class->set_property = odd_selection_set_property;
  object_class->dispose = odd_selection_dispose;
  props[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, ODD_TYPE_DOCUMENT,
                                              G_PARAM_READWRITE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS);
  props[PROP_KIND] = g_param_spec_enum ("kind", NULL, NULL, ODD_TYPE_SELECTED, ODD_SELECTED_NOTHING, read);
  props[PROP_ID] = g_param_spec_uint ("id", NULL, NULL, 0, G_MAXUINT, 0, read);
  g_object_class_install_properties (object_class, N_PROPS, props);
  signals[CHANGED] = g_signal_new ("changed", ODD_TYPE_SELECTION, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
odd_selection_init (OddSelection *self)
{
}

OddSelection *
odd_selection_new (OddDocument *document)
{
  return g_object_new (ODD_TYPE_SELECTION, "document", document, NULL);
}

void
odd_selection_set (OddSelection *self, OddSelected kind, OddId id)
{
  g_return_if_fail (ODD_IS_SELECTION (self));

  if (kind == ODD_SELECTED_NOTHING)
    id = 0;
  if (self->kind == kind && self->id == id)
    return;
  g_object_freeze_notify (G_OBJECT (self));
  if (self->kind != kind)
    g_object_notify_by_pspec (G_OBJECT (self), props[PROP_KIND]);
  if (self->id != id)
    g_object_notify_by_pspec (G_OBJECT (self), props[PROP_ID]);
  self->kind = kind;
  self->id = id;
  g_object_thaw_notify (G_OBJECT (self));
  g_signal_emit (self, signals[CHANGED], 0);
}

OddSelected
odd_selection_get_kind (OddSelection *self)
{
  g_return_val_if_fail (ODD_IS_SELECTION (self), ODD_SELECTED_NOTHING);
  return self->kind;
}

OddId
odd_selection_get_id (OddSelection *self)
{
  g_return_val_if_fail (ODD_IS_SELECTION (self), 0);
  return self->id;
}
