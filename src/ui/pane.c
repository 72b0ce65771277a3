#include "config.h"

#include "ui/pane.h"

#include "ui/deed.h"
#include "ui/toast.h"

typedef struct
{
  OddDocument *document;
  OddSelection *selection;
  int unit;
  guint textile_id;
  gboolean active;
  gboolean refreshing;
} OddPanePrivate;

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (OddPane, odd_pane, ADW_TYPE_BIN)

enum { PROP_0, PROP_DOCUMENT, PROP_SELECTION, PROP_UNIT, PROP_TEXTILE_ID, PROP_ACTIVE, N_PROPS };
static GParamSpec *props[N_PROPS];

static OddPanePrivate *
get (OddPane *self)
{
  return odd_pane_get_instance_private (self);
}

void
odd_pane_refresh (OddPane *self)
{
  OddPanePrivate *priv = get (self);

  if (!priv->active || priv->refreshing || priv->document == NULL || priv->selection == NULL)
    return;
  priv->refreshing = TRUE;
  ODD_PANE_GET_CLASS (self)->refresh (self);
  priv->refreshing = FALSE;
}

static void
odd_pane_dispose (GObject *object)
{
  OddPanePrivate *priv = get (ODD_PANE (object));

  priv->active = FALSE;
  g_clear_object (&priv->document);
  g_clear_object (&priv->selection);
  G_OBJECT_CLASS (odd_pane_parent_class)->dispose (object);
}

static void
odd_pane_get_property (GObject    *object,
                       guint       prop_id,
                       GValue     *value,
                       GParamSpec *pspec)
{
  OddPanePrivate *priv = get (ODD_PANE (object));

  switch (prop_id)
    {
    case PROP_DOCUMENT: g_value_set_object (value, priv->document); break;
    case PROP_SELECTION: g_value_set_object (value, priv->selection); break;
    case PROP_UNIT: g_value_set_int (value, priv->unit); break;
    case PROP_TEXTILE_ID: g_value_set_uint (value, priv->textile_id); break;
    case PROP_ACTIVE: g_value_set_boolean (value, priv->active); break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
odd_pane_set_property (GObject      *object,
                       guint         prop_id,
                       const GValue *value,
                       GParamSpec   *pspec)
{
  OddPane *self = ODD_PANE (object);
  OddPanePrivate *priv = get (self);

  switch (prop_id)
    {
    case PROP_DOCUMENT:
      if (g_set_object (&priv->document, g_value_get_object (value)) && priv->document != NULL)
        g_signal_connect_object (priv->document, "changed", G_CALLBACK (odd_pane_refresh), self, G_CONNECT_SWAPPED | G_CONNECT_AFTER);
      break;
    case PROP_SELECTION:
      if (g_set_object (&priv->selection, g_value_get_object (value)) && priv->selection != NULL)
        g_signal_connect_object (priv->selection, "changed", G_CALLBACK (odd_pane_refresh), self, G_CONNECT_SWAPPED | G_CONNECT_AFTER);
      break;
    case PROP_UNIT: priv->unit = g_value_get_int (value); break;
    case PROP_TEXTILE_ID: priv->textile_id = g_value_get_uint (value); break;
    case PROP_ACTIVE: priv->active = g_value_get_boolean (value); break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec); return;
    }
  odd_pane_refresh (self);
}

static void
odd_pane_class_init (OddPaneClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  const GParamFlags rw = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->dispose = odd_pane_dispose;
  object_class->get_property = odd_pane_get_property;
  object_class->set_property = odd_pane_set_property;
  props[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, ODD_TYPE_DOCUMENT, rw);
  props[PROP_SELECTION] = g_param_spec_object ("selection", NULL, NULL, ODD_TYPE_SELECTION, rw);
  props[PROP_UNIT] = g_param_spec_int ("unit", NULL, NULL, ODD_UNIT_CM, ODD_UNIT_INCH, ODD_UNIT_CM, rw);
  props[PROP_TEXTILE_ID] = g_param_spec_uint ("textile-id", NULL, NULL, 0, G_MAXUINT, 0, rw);
  props[PROP_ACTIVE] = g_param_spec_boolean ("active", NULL, NULL, FALSE, rw);
  g_object_class_install_properties (object_class, N_PROPS, props);
}

static void
odd_pane_init (OddPane *self)
{
}

OddDocument *odd_pane_get_document (OddPane *self) { return get (self)->document; }
OddJob *odd_pane_get_job (OddPane *self) { return odd_document_get_job (get (self)->document); }
OddSelection *odd_pane_get_selection (OddPane *self) { return get (self)->selection; }
OddSelected odd_pane_get_kind (OddPane *self) { return odd_selection_get_kind (get (self)->selection); }
OddId odd_pane_get_id (OddPane *self) { return odd_selection_get_id (get (self)->selection); }
OddUnit odd_pane_get_unit (OddPane *self) { return get (self)->unit; }
OddId odd_pane_get_textile_id (OddPane *self) { return get (self)->textile_id; }
gboolean odd_pane_is_refreshing (OddPane *self) { return get (self)->refreshing; }

gboolean
odd_pane_apply (OddPane     *self,
                OddJob      *job,
                GError     **error,
                const char  *label)
{
  if (odd_apply (GTK_WIDGET (self), get (self)->document, job, error, label))
    return TRUE;
  odd_pane_refresh (self);
  return FALSE;
}

gboolean
odd_pane_do (OddPane      *self,
             const OddAct *act,
             const char   *label)
{
  if (odd_do (GTK_WIDGET (self), get (self)->document, act, label))
    return TRUE;
  odd_pane_refresh (self);
  return FALSE;
}

void
odd_pane_select (OddPane     *self,
                 OddSelected  kind,
                 OddId        id)
{
  odd_selection_set (get (self)->selection, kind, id);
}

void
odd_label_take (GtkLabel *label,
                char     *text)
{
  gtk_label_set_text (label, text);
  g_free (text);
}
