#include "config.h"

#include "ui/glyph.h"

#include "ui/symbol.h"

struct _OddGlyph
{
  GtkWidget parent_instance;
  char *kind;
  double scale;
};

G_DEFINE_FINAL_TYPE (OddGlyph, odd_glyph, GTK_TYPE_WIDGET)

enum { PROP_0, PROP_KIND, PROP_SCALE, N_PROPS };
static GParamSpec *props[N_PROPS];

static void
odd_glyph_measure (GtkWidget      *widget,
                  GtkOrientation  orientation,
                  int             for_size,
                  int            *minimum,
                  int            *natural,
                  int            *minimum_baseline,
                  int            *natural_baseline)
{
  OddGlyph *self = ODD_GLYPH (widget);
  double width = 0.0, height = 0.0;

  odd_symbol_get_size (self->kind, &width, &height);
  *minimum = *natural = ceil (self->scale * (orientation == GTK_ORIENTATION_HORIZONTAL ? width : height));
}

static void
odd_glyph_snapshot (GtkWidget   *widget,
                   GtkSnapshot *snapshot)
{
  OddGlyph *self = ODD_GLYPH (widget);
  const int width = gtk_widget_get_width (widget);
  const int height = gtk_widget_get_height (widget);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, width, height));
  GdkRGBA colour;

  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &colour);
  gdk_cairo_set_source_rgba (cr, &colour);
  cairo_scale (cr, self->scale, self->scale);
  odd_symbol_paint (cr, self->kind, width / self->scale, height / self->scale);
  cairo_destroy (cr);
}

static void
odd_glyph_finalize (GObject *object)
{
  g_free (ODD_GLYPH (object)->kind);
  G_OBJECT_CLASS (odd_glyph_parent_class)->finalize (object);
}

static void
odd_glyph_get_property (GObject    *object,
                       guint       prop_id,
                       GValue     *value,
                       GParamSpec *pspec)
{
  if (prop_id == PROP_KIND)
    g_value_set_string (value, ODD_GLYPH (object)->kind);
  else if (prop_id == PROP_SCALE)
    g_value_set_double (value, ODD_GLYPH (object)->scale);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
}

static void
odd_glyph_set_property (GObject      *object,
                       guint         prop_id,
                       const GValue *value,
                       GParamSpec   *pspec)
{
  if (prop_id == PROP_KIND)
    odd_glyph_set_kind (ODD_GLYPH (object), g_value_get_string (value));
  else if (prop_id == PROP_SCALE)
    ODD_GLYPH (object)->scale = g_value_get_double (value);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
}

static void
odd_glyph_class_init (OddGlyphClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->finalize = odd_glyph_finalize;
  object_class->get_property = odd_glyph_get_property;
  object_class->set_property = odd_glyph_set_property;
  widget_class->measure = odd_glyph_measure;
  widget_class->snapshot = odd_glyph_snapshot;
  props[PROP_KIND] = g_param_spec_string ("kind", NULL, NULL, "", G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  props[PROP_SCALE] = g_param_spec_double ("scale", NULL, NULL, 0.5, 8.0, 1.0, G_PARAM_READWRITE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  /* What it shows is always said in words beside it. */
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
odd_glyph_init (OddGlyph *self)
{
  self->kind = g_strdup ("");
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
}

GtkWidget *
odd_glyph_new (const char *kind)
{
  return g_object_new (ODD_TYPE_GLYPH, "kind", kind, NULL);
}

void
odd_glyph_set_kind (OddGlyph    *self,
                   const char *kind)
{
  g_return_if_fail (ODD_IS_GLYPH (self));

  if (g_strcmp0 (self->kind, kind) == 0)
    return;
  g_free (self->kind);
  self->kind = g_strdup (kind != NULL ? kind : "");
  gtk_widget_queue_resize (GTK_WIDGET (self));
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_KIND]);
}

const char *
odd_glyph_get_kind (OddGlyph *self)
{
  g_return_val_if_fail (ODD_IS_GLYPH (self), NULL);

  return self->kind;
}
