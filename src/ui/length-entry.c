#include "config.h"

#include "ui/length-entry.h"

#include <glib/gi18n.h>

struct _OddLengthEntry
{
  GtkEntry parent_instance;
  double value_mm;
  int unit;
  gboolean allow_negative;
  gboolean allow_empty;
  char *complaint;
  GtkWidget *popover;
  GtkWidget *sentence;
};

G_DEFINE_FINAL_TYPE (OddLengthEntry, odd_length_entry, GTK_TYPE_ENTRY)

enum { PROP_0, PROP_VALUE, PROP_UNIT, PROP_ALLOW_NEGATIVE, PROP_ALLOW_EMPTY, N_PROPS };
enum { COMMITTED, N_SIGNALS };
static GParamSpec *props[N_PROPS];
static guint signals[N_SIGNALS];

static void
complain (OddLengthEntry *self,
          const char     *sentence)
{
  g_free (self->complaint);
  self->complaint = g_strdup (sentence);
  if (sentence != NULL)
    {
      gtk_widget_add_css_class (GTK_WIDGET (self), "error");
      gtk_label_set_text (GTK_LABEL (self->sentence), sentence);
      gtk_accessible_update_state (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_STATE_INVALID, GTK_ACCESSIBLE_INVALID_TRUE, -1);
      if (gtk_widget_get_mapped (GTK_WIDGET (self)))
        gtk_popover_popup (GTK_POPOVER (self->popover));
    }
  else
    {
      gtk_widget_remove_css_class (GTK_WIDGET (self), "error");
      gtk_accessible_reset_state (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_STATE_INVALID);
      gtk_popover_popdown (GTK_POPOVER (self->popover));
    }
  gtk_widget_set_tooltip_text (GTK_WIDGET (self), sentence);
}

static void
show_value (OddLengthEntry *self)
{
  g_autofree char *text = isnan (self->value_mm) ? g_strdup ("") : odd_length_format (self->value_mm, self->unit);

  gtk_editable_set_text (GTK_EDITABLE (self), text);
  complain (self, NULL);
}

static gboolean
is_as_shown (OddLengthEntry *self)
{
  g_autofree char *text = isnan (self->value_mm) ? g_strdup ("") : odd_length_format (self->value_mm, self->unit);

  return strcmp (text, gtk_editable_get_text (GTK_EDITABLE (self))) == 0;
}

/* Leaving an entry that shows 12.7 mm as "1.3 cm" must not turn it into 13. */
static void
commit (OddLengthEntry *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self));
  g_autofree char *stripped = g_strstrip (g_strdup (text));
  g_autoptr(GError) error = NULL;
  double mm = NAN;

  if (is_as_shown (self))
    {
      complain (self, NULL);
      return;
    }
  if (*stripped == '\0' && self->allow_empty)
    mm = NAN;
  else if (!odd_length_parse (stripped, self->unit, TRUE, self->allow_negative, &mm, &error))
    {
      complain (self, error->message);
      return;
    }
  self->value_mm = mm;
  show_value (self);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_VALUE]);
  g_signal_emit (self, signals[COMMITTED], 0, mm);
}

static void
activate_cb (OddLengthEntry *self)
{
  commit (self);
}

static void
left_cb (OddLengthEntry *self)
{
  commit (self);
}

static gboolean
key_cb (OddLengthEntry *self,
        guint           keyval)
{
  if (keyval != GDK_KEY_Escape || (is_as_shown (self) && self->complaint == NULL))
    return FALSE;
  show_value (self);
  return TRUE;
}

static void
odd_length_entry_size_allocate (GtkWidget *widget,
                                int        width,
                                int        height,
                                int        baseline)
{
  GTK_WIDGET_CLASS (odd_length_entry_parent_class)->size_allocate (widget, width, height, baseline);
  gtk_popover_present (GTK_POPOVER (ODD_LENGTH_ENTRY (widget)->popover));
}

static void
odd_length_entry_dispose (GObject *object)
{
  OddLengthEntry *self = ODD_LENGTH_ENTRY (object);

  g_clear_pointer (&self->popover, gtk_widget_unparent);
  G_OBJECT_CLASS (odd_length_entry_parent_class)->dispose (object);
}

static void
odd_length_entry_finalize (GObject *object)
{
  g_free (ODD_LENGTH_ENTRY (object)->complaint);
  G_OBJECT_CLASS (odd_length_entry_parent_class)->finalize (object);
}

static void
odd_length_entry_get_property (GObject    *object,
                               guint       prop_id,
                               GValue     *value,
                               GParamSpec *pspec)
{
  OddLengthEntry *self = ODD_LENGTH_ENTRY (object);

  switch (prop_id)
    {
    case PROP_VALUE: g_value_set_double (value, self->value_mm); break;
    case PROP_UNIT: g_value_set_int (value, self->unit); break;
    case PROP_ALLOW_NEGATIVE: g_value_set_boolean (value, self->allow_negative); break;
    case PROP_ALLOW_EMPTY: g_value_set_boolean (value, self->allow_empty); break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
odd_length_entry_set_property (GObject      *object,
                               guint         prop_id,
                               const GValue *value,
                               GParamSpec   *pspec)
{
  OddLengthEntry *self = ODD_LENGTH_ENTRY (object);

  switch (prop_id)
    {
    case PROP_VALUE:
      odd_length_entry_set_value (self, g_value_get_double (value));
      break;
    case PROP_UNIT:
      if (self->unit != g_value_get_int (value))
        {
          self->unit = g_value_get_int (value);
          show_value (self);
        }
      break;
    case PROP_ALLOW_NEGATIVE: self->allow_negative = g_value_get_boolean (value); break;
    case PROP_ALLOW_EMPTY: self->allow_empty = g_value_get_boolean (value); break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
odd_length_entry_class_init (OddLengthEntryClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->dispose = odd_length_entry_dispose;
  object_class->finalize = odd_length_entry_finalize;
  object_class->get_property = odd_length_entry_get_property;
  object_class->set_property = odd_length_entry_set_property;
  GTK_WIDGET_CLASS (klass)->size_allocate = odd_length_entry_size_allocate;

  props[PROP_VALUE] = g_param_spec_double ("value", NULL, NULL, -G_MAXDOUBLE, G_MAXDOUBLE, 0.0,
                                           G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  props[PROP_UNIT] = g_param_spec_int ("unit", NULL, NULL, ODD_UNIT_CM, ODD_UNIT_INCH, ODD_UNIT_CM,
                                       G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  props[PROP_ALLOW_NEGATIVE] = g_param_spec_boolean ("allow-negative", NULL, NULL, FALSE,
                                                     G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  props[PROP_ALLOW_EMPTY] = g_param_spec_boolean ("allow-empty", NULL, NULL, FALSE,
                                                  G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  signals[COMMITTED] = g_signal_new ("committed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                     G_TYPE_NONE, 1, G_TYPE_DOUBLE);
}

static void
odd_length_entry_init (OddLengthEntry *self)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkEventController *key = gtk_event_controller_key_new ();

  self->value_mm = NAN;
  self->sentence = gtk_label_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (self->sentence), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (self->sentence), 36);
  gtk_widget_add_css_class (self->sentence, "error-sentence");
  self->popover = gtk_popover_new ();
  gtk_popover_set_child (GTK_POPOVER (self->popover), self->sentence);
  gtk_popover_set_autohide (GTK_POPOVER (self->popover), FALSE);
  gtk_widget_set_can_focus (self->popover, FALSE);
  gtk_widget_set_parent (self->popover, GTK_WIDGET (self));

  gtk_editable_set_width_chars (GTK_EDITABLE (self), 6);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (self), 7);
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (GTK_WIDGET (self), "length");
  g_signal_connect (self, "activate", G_CALLBACK (activate_cb), NULL);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (left_cb), self);
  g_signal_connect_swapped (key, "key-pressed", G_CALLBACK (key_cb), self);
  gtk_event_controller_set_propagation_phase (key, GTK_PHASE_CAPTURE);
  gtk_widget_add_controller (GTK_WIDGET (self), focus);
  gtk_widget_add_controller (GTK_WIDGET (self), key);
}

GtkWidget *
odd_length_entry_new (void)
{
  return g_object_new (ODD_TYPE_LENGTH_ENTRY, NULL);
}

double
odd_length_entry_get_value (OddLengthEntry *self)
{
  g_return_val_if_fail (ODD_IS_LENGTH_ENTRY (self), NAN);

  return self->value_mm;
}

void
odd_length_entry_set_value (OddLengthEntry *self,
                            double          mm)
{
  g_return_if_fail (ODD_IS_LENGTH_ENTRY (self));

  if (self->value_mm == mm || (isnan (self->value_mm) && isnan (mm)))
    return;
  self->value_mm = mm;
  show_value (self);
}

gboolean
odd_length_entry_read (OddLengthEntry  *self,
                       double          *out_mm,
                       const char     **out_complaint)
{
  g_return_val_if_fail (ODD_IS_LENGTH_ENTRY (self) && out_mm != NULL && out_complaint != NULL, FALSE);

  commit (self);
  if (self->complaint != NULL)
    {
      *out_complaint = self->complaint;
      gtk_widget_grab_focus (GTK_WIDGET (self));
      return FALSE;
    }
  *out_mm = self->value_mm;
  return TRUE;
}

gboolean
odd_length_entry_peek (OddLengthEntry *self,
                       double         *out_mm,
                       GError        **error)
{
  g_autofree char *stripped = NULL;

  g_return_val_if_fail (ODD_IS_LENGTH_ENTRY (self) && out_mm != NULL, FALSE);

  stripped = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self))));
  if (!is_as_shown (self) && !(*stripped == '\0' && self->allow_empty))
    return odd_length_parse (stripped, self->unit, TRUE, self->allow_negative, out_mm, error);
  *out_mm = is_as_shown (self) ? self->value_mm : NAN;
  return TRUE;
}

const char *
odd_length_entry_get_complaint (OddLengthEntry *self)
{
  g_return_val_if_fail (ODD_IS_LENGTH_ENTRY (self), NULL);

  return self->complaint;
}
