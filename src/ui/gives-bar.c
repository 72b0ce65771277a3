#include "config.h"

#include "ui/gives-bar.h"

#include "ui/gives-words.h"
#include "ui/template-entry.h"

struct _OddGivesBar
{
  AdwBin parent_instance;
  OddDocument *document;
  OddCutCounter *counter;
  OddTray *tray;
  OddScrapModel *model;
  int unit;
  gboolean narrow;
  gboolean watching;
  OddTemplateEntry *size;
  GtkWidget *allowance_title;
  OddTemplateEntry *allowance;
  GtkLabel *sum;
  GtkPopover *popover;
  OddTemplateEntry *sizes[ODD_MAX_TEMPLATES];
  OddTemplateEntry *same_allowance;
  GtkLabel *complaint;
  GtkFlowBox *figures;
};

G_DEFINE_FINAL_TYPE (OddGivesBar, odd_gives_bar, ADW_TYPE_BIN)

enum { PROP_0, PROP_DOCUMENT, PROP_TRAY, PROP_UNIT, PROP_NARROW, N_PROPS };
static GParamSpec *props[N_PROPS];

/* --- what is told --- */

static void
sum_up (OddGivesBar *self,
        OddGives    *gives,
        OddGivesSum *out)
{
  GListModel *rows = G_LIST_MODEL (self->model);
  const guint n = g_list_model_get_n_items (rows);
  g_autoptr(GArray) ids = g_array_sized_new (FALSE, FALSE, sizeof (OddId), n + 1);
  const OddId none = 0;

  for (guint i = 0; i < n; i++)
    {
      g_autoptr(OddScrapRow) row = g_list_model_get_item (rows, i);

      g_array_append_val (ids, odd_scrap_row_get_scrap (row)->id);
    }
  /* no ids would mean all */
  g_array_append_val (ids, none);
  odd_gives_sum (gives, (const OddId *) (const void *) ids->data, n, out);
}

static void
show_sum (OddGivesBar *self,
          OddGives    *gives)
{
  g_autofree char *text = NULL;
  OddGivesSum sum;

  sum_up (self, gives, &sum);
  text = odd_gives_dup_sum (gives, &sum);
  gtk_label_set_text (self->sum, text);
  if (gtk_widget_get_visible (GTK_WIDGET (self->popover)))
    {
      g_autoptr(GPtrArray) figures = odd_gives_dup_figures (gives, &sum, (OddUnit) self->unit);

      odd_figure_list_show (figures, self->figures);
    }
}

/* While the first count runs nothing is said; it takes less than a frame or two. */
static void
refresh (OddGivesBar *self)
{
  const char *complaint;
  OddGives *gives;

  if (self->counter == NULL || self->model == NULL)
    return;
  gives = odd_cut_counter_get_gives (self->counter);
  complaint = odd_cut_counter_get_complaint (self->counter);
  gtk_label_set_text (self->complaint, complaint != NULL ? complaint : "");
  gtk_widget_set_visible (GTK_WIDGET (self->complaint), complaint != NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->figures), gives != NULL);
  if (complaint != NULL)
    gtk_widget_add_css_class (GTK_WIDGET (self->sum), "error-sentence");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->sum), "error-sentence");
  if (gives != NULL)
    show_sum (self, gives);
  else
    gtk_label_set_text (self->sum, complaint != NULL ? complaint : "");
}

static void
shown_cb (OddGivesBar *self)
{
  if (self->counter == NULL)
    return;
  refresh (self);
  odd_cut_counter_want_yield (self->counter, gtk_widget_get_visible (GTK_WIDGET (self->popover)));
}

static void
piece_cb (OddGivesBar *self)
{
  gtk_popover_popdown (self->popover);
  gtk_widget_activate_action (GTK_WIDGET (self), "win.propose", NULL);
}

/* --- life --- */

static void
connect_parts (OddGivesBar *self)
{
  if (self->document == NULL)
    return;
  if (self->counter == NULL)
    {
      self->counter = g_object_ref (odd_cut_counter_get (self->document));
      g_signal_connect_object (self->counter, "counted", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
      odd_template_entry_set_counter (self->size, self->counter);
      odd_template_entry_set_counter (self->allowance, self->counter);
      odd_template_entry_set_counter (self->same_allowance, self->counter);
      for (guint i = 0; i < ODD_MAX_TEMPLATES; i++)
        odd_template_entry_set_counter (self->sizes[i], self->counter);
    }
  if (self->model == NULL && self->tray != NULL && odd_tray_get_model (self->tray) != NULL)
    {
      self->model = g_object_ref (odd_tray_get_model (self->tray));
      g_signal_connect_object (self->model, "items-changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED | G_CONNECT_AFTER);
    }
}

static void
watch (OddGivesBar *self,
       gboolean     watching)
{
  if (self->counter == NULL || watching == self->watching)
    return;
  self->watching = watching;
  if (watching)
    odd_cut_counter_watch (self->counter);
  else
    odd_cut_counter_unwatch (self->counter);
}

static void
odd_gives_bar_map (GtkWidget *widget)
{
  OddGivesBar *self = ODD_GIVES_BAR (widget);

  GTK_WIDGET_CLASS (odd_gives_bar_parent_class)->map (widget);
  connect_parts (self);
  watch (self, TRUE);
  refresh (self);
}

static void
odd_gives_bar_unmap (GtkWidget *widget)
{
  watch (ODD_GIVES_BAR (widget), FALSE);
  GTK_WIDGET_CLASS (odd_gives_bar_parent_class)->unmap (widget);
}

static void
show_width (OddGivesBar *self)
{
  g_object_set (self->size, "short", self->narrow, NULL);
  gtk_widget_set_visible (self->allowance_title, !self->narrow);
  gtk_widget_set_visible (GTK_WIDGET (self->allowance), !self->narrow);
}

static void
odd_gives_bar_dispose (GObject *object)
{
  OddGivesBar *self = ODD_GIVES_BAR (object);

  watch (self, FALSE);
  g_clear_object (&self->model);
  g_clear_object (&self->tray);
  g_clear_object (&self->counter);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (odd_gives_bar_parent_class)->dispose (object);
}

static void
odd_gives_bar_get_property (GObject    *object,
                            guint       prop_id,
                            GValue     *value,
                            GParamSpec *pspec)
{
  OddGivesBar *self = ODD_GIVES_BAR (object);

  switch (prop_id)
    {
    case PROP_DOCUMENT: g_value_set_object (value, self->document); break;
    case PROP_TRAY: g_value_set_object (value, self->tray); break;
    case PROP_UNIT: g_value_set_int (value, self->unit); break;
    case PROP_NARROW: g_value_set_boolean (value, self->narrow); break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
odd_gives_bar_set_property (GObject      *object,
                            guint         prop_id,
                            const GValue *value,
                            GParamSpec   *pspec)
{
  OddGivesBar *self = ODD_GIVES_BAR (object);

  switch (prop_id)
    {
    case PROP_DOCUMENT: g_set_object (&self->document, g_value_get_object (value)); break;
    case PROP_TRAY: g_set_object (&self->tray, g_value_get_object (value)); break;
    case PROP_UNIT:
      self->unit = g_value_get_int (value);
      refresh (self);
      break;
    case PROP_NARROW:
      self->narrow = g_value_get_boolean (value);
      show_width (self);
      break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, OddGivesBar, name)

static void
odd_gives_bar_class_init (OddGivesBarClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  const GParamFlags rw = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->dispose = odd_gives_bar_dispose;
  object_class->get_property = odd_gives_bar_get_property;
  object_class->set_property = odd_gives_bar_set_property;
  widget_class->map = odd_gives_bar_map;
  widget_class->unmap = odd_gives_bar_unmap;
  props[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, ODD_TYPE_DOCUMENT, rw);
  props[PROP_TRAY] = g_param_spec_object ("tray", NULL, NULL, ODD_TYPE_TRAY, rw);
  props[PROP_UNIT] = g_param_spec_int ("unit", NULL, NULL, ODD_UNIT_CM, ODD_UNIT_INCH, ODD_UNIT_CM, rw);
  props[PROP_NARROW] = g_param_spec_boolean ("narrow", NULL, NULL, FALSE, rw);
  g_object_class_install_properties (object_class, N_PROPS, props);

  g_type_ensure (ODD_TYPE_TEMPLATE_ENTRY);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/gives-bar.ui");
  BIND (size);
  BIND (allowance_title);
  BIND (allowance);
  BIND (sum);
  BIND (popover);
  BIND (same_allowance);
  BIND (complaint);
  BIND (figures);
  for (guint i = 0; i < ODD_MAX_TEMPLATES; i++)
    {
      g_autofree char *name = g_strdup_printf ("size_%u", i);

      gtk_widget_class_bind_template_child_full (widget_class, name, FALSE, G_STRUCT_OFFSET (OddGivesBar, sizes) + i * sizeof (gpointer));
    }
  gtk_widget_class_bind_template_callback (widget_class, piece_cb);
  gtk_widget_class_bind_template_callback (widget_class, shown_cb);
}

static void
odd_gives_bar_init (OddGivesBar *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  show_width (self);
}

GtkWidget *
odd_gives_bar_new (void)
{
  return g_object_new (ODD_TYPE_GIVES_BAR, NULL);
}
