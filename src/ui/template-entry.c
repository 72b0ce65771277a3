#include "config.h"

#include "ui/template-entry.h"

#include <glib/gi18n.h>
#include <math.h>

#include "ui/length-entry.h"

#define ENTRY_CHARS 7

struct _OddTemplateEntry
{
  GtkBox parent_instance;
  OddCutCounter *counter;
  guint place;
  int unit;
  gboolean is_short;
  gboolean following;              /* the entries follow the counter, not the other way round */
  OddLengthEntry *width;
  GtkWidget *times;
  OddLengthEntry *length;
};

G_DEFINE_FINAL_TYPE (OddTemplateEntry, odd_template_entry, GTK_TYPE_BOX)

enum { PROP_0, PROP_UNIT, PROP_PLACE, PROP_SHORT, N_PROPS };
static GParamSpec *props[N_PROPS];

static gboolean
is_allowance (OddTemplateEntry *self)
{
  return self->place == ODD_MAX_TEMPLATES;
}

static void
typed_cb (OddTemplateEntry *self)
{
  OddTemplate size = { NAN, NAN };
  g_autoptr(GError) error = NULL;

  if (self->following || self->counter == NULL)
    return;
  self->following = TRUE;
  if (!odd_length_entry_peek (self->width, &size.width_mm, &error) || !odd_length_entry_peek (self->length, &size.length_mm, &error))
    odd_cut_counter_complain (self->counter, error->message);
  else if (is_allowance (self))
    odd_cut_counter_set_allowance (self->counter, size.width_mm);
  else
    odd_cut_counter_set_template (self->counter, self->place, size);
  self->following = FALSE;
}

static void
follow (OddTemplateEntry *self)
{
  OddTemplate size;

  if (self->following || self->counter == NULL)
    return;
  self->following = TRUE;
  if (is_allowance (self))
    odd_length_entry_set_value (self->width, odd_cut_counter_get_allowance (self->counter));
  else
    {
      size = odd_cut_counter_get_template (self->counter, self->place);
      odd_length_entry_set_value (self->width, size.width_mm);
      odd_length_entry_set_value (self->length, size.length_mm == size.width_mm ? NAN : size.length_mm);
    }
  self->following = FALSE;
}

void
odd_template_entry_set_counter (OddTemplateEntry *self,
                                OddCutCounter    *counter)
{
  g_return_if_fail (ODD_IS_TEMPLATE_ENTRY (self) && ODD_IS_CUT_COUNTER (counter));

  if (self->counter == counter)
    return;
  g_return_if_fail (self->counter == NULL);
  self->counter = g_object_ref (counter);
  g_signal_connect_object (counter, "sizes-changed", G_CALLBACK (follow), self, G_CONNECT_SWAPPED);
  follow (self);
}

static void
show_parts (OddTemplateEntry *self)
{
  gtk_widget_set_visible (self->times, !self->is_short && !is_allowance (self));
  gtk_widget_set_visible (GTK_WIDGET (self->length), !self->is_short && !is_allowance (self));
}

static OddLengthEntry *
add_entry (OddTemplateEntry *self,
           const char       *placeholder,
           const char       *name)
{
  GtkWidget *entry = odd_length_entry_new ();

  g_object_set (entry, "allow-empty", TRUE, "placeholder-text", placeholder, "width-chars", ENTRY_CHARS, "max-width-chars", ENTRY_CHARS,
                "valign", GTK_ALIGN_CENTER, NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_object_bind_property (self, "unit", entry, "unit", G_BINDING_SYNC_CREATE);
  g_signal_connect_object (entry, "changed", G_CALLBACK (typed_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (self), entry);
  return ODD_LENGTH_ENTRY (entry);
}

static void
odd_template_entry_constructed (GObject *object)
{
  OddTemplateEntry *self = ODD_TEMPLATE_ENTRY (object);

  G_OBJECT_CLASS (odd_template_entry_parent_class)->constructed (object);
  gtk_box_set_spacing (GTK_BOX (self), 6);
  self->width = add_entry (self, self->place == 0 || is_allowance (self) ? NULL : _("none"), is_allowance (self) ? _("Allowance") : _("Cut width"));
  self->times = gtk_label_new ("×");
  gtk_box_append (GTK_BOX (self), self->times);
  self->length = add_entry (self, _("square"), _("Cut length"));
  show_parts (self);
}

static void
odd_template_entry_dispose (GObject *object)
{
  g_clear_object (&ODD_TEMPLATE_ENTRY (object)->counter);
  G_OBJECT_CLASS (odd_template_entry_parent_class)->dispose (object);
}

static void
odd_template_entry_get_property (GObject    *object,
                                 guint       prop_id,
                                 GValue     *value,
                                 GParamSpec *pspec)
{
  OddTemplateEntry *self = ODD_TEMPLATE_ENTRY (object);

  switch (prop_id)
    {
    case PROP_UNIT: g_value_set_int (value, self->unit); break;
    case PROP_PLACE: g_value_set_uint (value, self->place); break;
    case PROP_SHORT: g_value_set_boolean (value, self->is_short); break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

/* Another unit writes the same length otherwise: nothing was typed. */
static void
odd_template_entry_set_property (GObject      *object,
                                 guint         prop_id,
                                 const GValue *value,
                                 GParamSpec   *pspec)
{
  OddTemplateEntry *self = ODD_TEMPLATE_ENTRY (object);

  switch (prop_id)
    {
    case PROP_UNIT:
      self->unit = g_value_get_int (value);
      self->following = TRUE;
      g_object_notify_by_pspec (object, pspec);
      self->following = FALSE;
      break;
    case PROP_PLACE: self->place = g_value_get_uint (value); break;
    case PROP_SHORT:
      self->is_short = g_value_get_boolean (value);
      if (self->width != NULL)
        show_parts (self);
      break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
odd_template_entry_class_init (OddTemplateEntryClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  const GParamFlags rw = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->constructed = odd_template_entry_constructed;
  object_class->dispose = odd_template_entry_dispose;
  object_class->get_property = odd_template_entry_get_property;
  object_class->set_property = odd_template_entry_set_property;
  props[PROP_UNIT] = g_param_spec_int ("unit", NULL, NULL, ODD_UNIT_CM, ODD_UNIT_INCH, ODD_UNIT_CM, rw | G_PARAM_EXPLICIT_NOTIFY);
  props[PROP_PLACE] = g_param_spec_uint ("place", NULL, NULL, 0, ODD_MAX_TEMPLATES, 0, rw | G_PARAM_CONSTRUCT_ONLY);
  props[PROP_SHORT] = g_param_spec_boolean ("short", NULL, NULL, FALSE, rw);
  g_object_class_install_properties (object_class, N_PROPS, props);
}

static void
odd_template_entry_init (OddTemplateEntry *self)
{
}
