#include "config.h"

#include "ui/template-rows.h"

#include "ui/length-entry.h"

struct _OddTemplateRows
{
  AdwBin parent_instance;
  OddLengthEntry *widths[ODD_MAX_TEMPLATES];
  OddLengthEntry *lengths[ODD_MAX_TEMPLATES];
};

G_DEFINE_FINAL_TYPE (OddTemplateRows, odd_template_rows, ADW_TYPE_BIN)

enum { CHANGED, COMMITTED, N_SIGNALS };
static guint signals[N_SIGNALS];

static void
changed_cb (OddTemplateRows *self)
{
  g_signal_emit (self, signals[CHANGED], 0);
}

static void
committed_cb (OddTemplateRows *self)
{
  g_signal_emit (self, signals[COMMITTED], 0);
}

void
odd_template_rows_set_unit (OddTemplateRows *self,
                            OddUnit          unit)
{
  g_return_if_fail (ODD_IS_TEMPLATE_ROWS (self));

  for (guint i = 0; i < ODD_MAX_TEMPLATES; i++)
    {
      g_object_set (self->widths[i], "unit", (int) unit, NULL);
      g_object_set (self->lengths[i], "unit", (int) unit, NULL);
    }
}

void
odd_template_rows_set (OddTemplateRows   *self,
                       const OddTemplate *templates,
                       guint              n)
{
  g_return_if_fail (ODD_IS_TEMPLATE_ROWS (self) && n <= ODD_MAX_TEMPLATES);

  for (guint i = 0; i < ODD_MAX_TEMPLATES; i++)
    {
      const OddTemplate size = i < n ? templates[i] : (OddTemplate) { NAN, NAN };

      odd_length_entry_set_value (self->widths[i], size.width_mm);
      odd_length_entry_set_value (self->lengths[i], size.length_mm == size.width_mm ? NAN : size.length_mm);
    }
}

/* A row without a width is no size; one without a length is a square. */
static void
add_size (OddTemplate  size,
          OddTemplate *out,
          guint       *n)
{
  if (isnan (size.width_mm))
    return;
  if (isnan (size.length_mm))
    size.length_mm = size.width_mm;
  out[(*n)++] = size;
}

static void
take (const OddTemplate *sizes,
      OddTemplate       *out,
      guint             *out_n)
{
  *out_n = 0;
  for (guint i = 0; i < ODD_MAX_TEMPLATES; i++)
    add_size (sizes[i], out, out_n);
}

guint
odd_template_rows_get (OddTemplateRows *self,
                       OddTemplate      out[ODD_MAX_TEMPLATES])
{
  OddTemplate sizes[ODD_MAX_TEMPLATES];
  guint n;

  g_return_val_if_fail (ODD_IS_TEMPLATE_ROWS (self), 0);

  for (guint i = 0; i < ODD_MAX_TEMPLATES; i++)
    sizes[i] = (OddTemplate) { odd_length_entry_get_value (self->widths[i]), odd_length_entry_get_value (self->lengths[i]) };
  take (sizes, out, &n);
  return n;
}

gboolean
odd_template_rows_read (OddTemplateRows *self,
                        OddTemplate      out[ODD_MAX_TEMPLATES],
                        guint           *out_n,
                        const char     **out_complaint)
{
  OddTemplate sizes[ODD_MAX_TEMPLATES];

  g_return_val_if_fail (ODD_IS_TEMPLATE_ROWS (self), FALSE);

  for (guint i = 0; i < ODD_MAX_TEMPLATES; i++)
    if (!odd_length_entry_read (self->widths[i], &sizes[i].width_mm, out_complaint) ||
        !odd_length_entry_read (self->lengths[i], &sizes[i].length_mm, out_complaint))
      return FALSE;
  take (sizes, out, out_n);
  return TRUE;
}

gboolean
odd_template_rows_peek (OddTemplateRows *self,
                        OddTemplate      out[ODD_MAX_TEMPLATES],
                        guint           *out_n,
                        GError         **error)
{
  OddTemplate sizes[ODD_MAX_TEMPLATES];

  g_return_val_if_fail (ODD_IS_TEMPLATE_ROWS (self), FALSE);

  for (guint i = 0; i < ODD_MAX_TEMPLATES; i++)
    if (!odd_length_entry_peek (self->widths[i], &sizes[i].width_mm, error) || !odd_length_entry_peek (self->lengths[i], &sizes[i].length_mm, error))
      return FALSE;
  take (sizes, out, out_n);
  return TRUE;
}

static void
bind_entries (GtkWidgetClass *widget_class,
              const char     *stem,
              gssize          offset)
{
  for (guint i = 0; i < ODD_MAX_TEMPLATES; i++)
    {
      g_autofree char *name = g_strdup_printf ("%s_%u", stem, i);

      gtk_widget_class_bind_template_child_full (widget_class, name, FALSE, offset + i * sizeof (gpointer));
    }
}

static void
odd_template_rows_class_init (OddTemplateRowsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  signals[CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[COMMITTED] = g_signal_new ("committed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  g_type_ensure (ODD_TYPE_LENGTH_ENTRY);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/template-rows.ui");
  bind_entries (widget_class, "width", G_STRUCT_OFFSET (OddTemplateRows, widths));
  bind_entries (widget_class, "length", G_STRUCT_OFFSET (OddTemplateRows, lengths));
  gtk_widget_class_bind_template_callback (widget_class, changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, committed_cb);
}

static void
odd_template_rows_init (OddTemplateRows *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
