#include "config.h"

#include "ui/status-line.h"

#include <glib/gi18n.h>

#include "cloth/measured.h"
#include "sewing/progress.h"
#include "ui/findings-button.h"
#include "ui/glyph.h"

/* Of each OddWork, then of what is raw inside: those are in one of the others too. */
enum { RAW_INSIDE = ODD_WORK_TOPSTITCH + 1, N_COUNTS };

struct _OddStatusLine
{
  OddPane parent_instance;
  gboolean narrow;
  double zoom;
  GtkLabel *size;
  GtkLabel *missing;
  GtkWidget *counts;
  GtkWidget *count_boxes[N_COUNTS];
  GtkLabel *count_labels[N_COUNTS];
  GtkWidget *short_boxes[N_COUNTS];      /* mark and figure only, where the words find no room */
  GtkLabel *short_labels[N_COUNTS];
  GtkWidget *pop_boxes[N_COUNTS];
  GtkLabel *pop_labels[N_COUNTS];
  GtkWidget *counts_popover;
  GtkWidget *to_do_button;
  GtkLabel *to_do;
  GtkWidget *done;
  GtkWidget *findings;
  GtkWidget *zoom_button;
  GtkLabel *zoom_label;
};

G_DEFINE_FINAL_TYPE (OddStatusLine, odd_status_line, ODD_TYPE_PANE)

enum { PROP_0, PROP_NARROW, PROP_ZOOM, N_PROPS };
static GParamSpec *props[N_PROPS];

static OddTextileLayout *
dup_layout (OddJob *job,
            OddId   textile_id)
{
  return odd_job_get_textile (job, textile_id) != NULL ? odd_job_dup_textile_layout (job, textile_id) : NULL;
}

char *
odd_status_line_dup_size (OddJob *job,
                          OddId   textile_id,
                          int     unit)
{
  g_autoptr(OddTextileLayout) layout = dup_layout (job, textile_id);
  const guint n_loose = job->loose_panels->len;
  g_autofree char *size = NULL;

  if ((layout == NULL || layout->n_panels == 0) && n_loose > 0)
    return g_strdup_printf (ngettext ("%u loose panel, not hung yet", "%u loose panels, none hung yet", n_loose), n_loose);
  if (layout == NULL || layout->n_panels == 0)
    return g_strdup (_("No panel yet"));
  size = odd_length_format_pair (layout->finished_width_mm, layout->finished_length_mm, unit);
  /* Translators: a size: "112 × 98 cm as sewn" */
  return odd_textile_is_as_sewn (odd_job_get_textile (job, textile_id)) ? g_strdup_printf (_("%s as sewn"), size) : g_steal_pointer (&size);
}

char *
odd_status_line_dup_missing (OddJob *job,
                             OddId   textile_id,
                             int     unit)
{
  g_autoptr(OddTextileLayout) layout = dup_layout (job, textile_id);
  g_autofree char *width = NULL;
  g_autofree char *length = NULL;

  if (layout == NULL || layout->n_panels == 0)
    return g_strdup ("");
  width = odd_length_format_bare (layout->missing_width_mm, unit);
  length = odd_length_format_bare (layout->missing_length_mm, unit);
  if (layout->missing_width_mm > 0.05 && layout->missing_length_mm > 0.05)
    return g_strdup_printf (_(", %s too narrow, %s too short"), width, length);
  if (layout->missing_width_mm > 0.05)
    return g_strdup_printf (_(", %s too narrow"), width);
  if (layout->missing_length_mm > 0.05)
    return g_strdup_printf (_(", %s too short"), length);
  return g_strdup ("");
}

/* Bold figure, plain word. */
static void
show_count (GtkLabel *label,
            guint     n,
            guint     which)
{
  g_autofree char *markup = NULL;

  switch (which)
    {
    case ODD_WORK_SEW: markup = g_strdup_printf (_("<b>%u</b> to sew"), n); break;
    case ODD_WORK_FINISH: markup = g_strdup_printf (_("<b>%u</b> to finish"), n); break;
    case ODD_WORK_PRESS: markup = g_strdup_printf (_("<b>%u</b> to press"), n); break;
    case RAW_INSIDE: markup = g_strdup_printf (_("<b>%u</b> raw inside"), n); break;
    default: markup = g_strdup_printf (_("<b>%u</b> to topstitch"), n); break;
    }
  gtk_label_set_markup (label, markup);
}

/* The words are told by the tooltip, and to a screen reader. */
static void
show_short (GtkLabel  *label,
            GtkWidget *box,
            GtkLabel  *whole,
            guint      n)
{
  g_autofree char *markup = g_strdup_printf ("<b>%u</b>", n);

  gtk_label_set_markup (label, markup);
  gtk_widget_set_tooltip_text (box, gtk_label_get_text (whole));
  gtk_accessible_update_property (GTK_ACCESSIBLE (label), GTK_ACCESSIBLE_PROPERTY_LABEL, gtk_label_get_text (whole), -1);
  gtk_widget_set_visible (box, n > 0);
}

static void
show_counts (OddStatusLine      *self,
             const OddWorkCount *count)
{
  const guint counts[N_COUNTS] = { count->n[ODD_WORK_SEW], count->n[ODD_WORK_FINISH], count->n[ODD_WORK_PRESS], count->n[ODD_WORK_TOPSTITCH], count->n_raw_inside };
  const guint to_do = counts[ODD_WORK_SEW] + counts[ODD_WORK_FINISH] + counts[ODD_WORK_PRESS] + counts[ODD_WORK_TOPSTITCH];
  g_autofree char *markup = g_strdup_printf (_("<b>%u</b> to do"), to_do);

  for (guint i = 0; i < N_COUNTS; i++)
    {
      show_count (self->count_labels[i], counts[i], i);
      show_count (self->pop_labels[i], counts[i], i);
      show_short (self->short_labels[i], self->short_boxes[i], self->count_labels[i], counts[i]);
      gtk_widget_set_visible (self->count_boxes[i], counts[i] > 0);
      gtk_widget_set_visible (self->pop_boxes[i], counts[i] > 0);
    }
  gtk_label_set_markup (self->to_do, markup);
  gtk_widget_set_visible (self->counts, !self->narrow && to_do > 0);
  gtk_widget_set_visible (self->to_do_button, self->narrow && to_do > 0);
  gtk_widget_set_visible (self->done, count->n_seams > 0 && to_do == 0);
}

static void
odd_status_line_refresh (OddPane *pane)
{
  OddStatusLine *self = ODD_STATUS_LINE (pane);
  OddJob *job = odd_pane_get_job (pane);
  const OddId textile_id = odd_pane_get_textile_id (pane);
  const OddUnit unit = odd_pane_get_unit (pane);
  OddWorkCount count;

  odd_label_take (self->size, odd_status_line_dup_size (job, textile_id, unit));
  odd_label_take (self->missing, odd_status_line_dup_missing (job, textile_id, unit));
  /* Of everything on the table: a loose panel wants sewing too. */
  count = odd_job_count_work (job, 0);
  show_counts (self, &count);
}

static void
show_zoom (OddStatusLine *self)
{
  gtk_widget_set_visible (self->zoom_button, !self->narrow);
  odd_label_take (self->zoom_label, isnan (self->zoom) ? g_strdup ("") : g_strdup_printf (_("%.0f %%"), self->zoom));
}

static void
odd_status_line_get_property (GObject    *object,
                              guint       prop_id,
                              GValue     *value,
                              GParamSpec *pspec)
{
  OddStatusLine *self = ODD_STATUS_LINE (object);

  switch (prop_id)
    {
    case PROP_NARROW: g_value_set_boolean (value, self->narrow); break;
    case PROP_ZOOM: g_value_set_double (value, self->zoom); break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
odd_status_line_set_property (GObject      *object,
                              guint         prop_id,
                              const GValue *value,
                              GParamSpec   *pspec)
{
  OddStatusLine *self = ODD_STATUS_LINE (object);

  switch (prop_id)
    {
    case PROP_NARROW:
      self->narrow = g_value_get_boolean (value);
      odd_pane_refresh (ODD_PANE (self));
      break;
    case PROP_ZOOM: self->zoom = g_value_get_double (value); break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec); return;
    }
  show_zoom (self);
}

static void
pop_clicked_cb (OddStatusLine *self)
{
  gtk_popover_popdown (GTK_POPOVER (self->counts_popover));
}

static void
odd_status_line_class_init (OddStatusLineClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  static const char *const works[N_COUNTS] = { "sew", "finish", "press", "topstitch", "raw" };
  static const struct { const char *prefix; gsize offset; } parts[] = {
    { "count_box_", G_STRUCT_OFFSET (OddStatusLine, count_boxes) },
    { "count_label_", G_STRUCT_OFFSET (OddStatusLine, count_labels) },
    { "short_box_", G_STRUCT_OFFSET (OddStatusLine, short_boxes) },
    { "short_label_", G_STRUCT_OFFSET (OddStatusLine, short_labels) },
    { "pop_box_", G_STRUCT_OFFSET (OddStatusLine, pop_boxes) },
    { "pop_label_", G_STRUCT_OFFSET (OddStatusLine, pop_labels) },
  };

  object_class->get_property = odd_status_line_get_property;
  object_class->set_property = odd_status_line_set_property;
  ODD_PANE_CLASS (klass)->refresh = odd_status_line_refresh;
  props[PROP_NARROW] = g_param_spec_boolean ("narrow", NULL, NULL, FALSE, G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  props[PROP_ZOOM] = g_param_spec_double ("zoom", NULL, NULL, 0.0, G_MAXDOUBLE, 100.0, G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  g_type_ensure (ODD_TYPE_GLYPH);
  g_type_ensure (ODD_TYPE_FINDINGS_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/status-line.ui");
  gtk_widget_class_bind_template_child (widget_class, OddStatusLine, size);
  gtk_widget_class_bind_template_child (widget_class, OddStatusLine, missing);
  gtk_widget_class_bind_template_child (widget_class, OddStatusLine, counts);
  gtk_widget_class_bind_template_child (widget_class, OddStatusLine, counts_popover);
  gtk_widget_class_bind_template_child (widget_class, OddStatusLine, to_do_button);
  gtk_widget_class_bind_template_child (widget_class, OddStatusLine, to_do);
  gtk_widget_class_bind_template_child (widget_class, OddStatusLine, done);
  gtk_widget_class_bind_template_child (widget_class, OddStatusLine, findings);
  gtk_widget_class_bind_template_child (widget_class, OddStatusLine, zoom_button);
  gtk_widget_class_bind_template_child (widget_class, OddStatusLine, zoom_label);
  gtk_widget_class_bind_template_callback (widget_class, pop_clicked_cb);
  for (guint p = 0; p < G_N_ELEMENTS (parts); p++)
    for (guint i = 0; i < G_N_ELEMENTS (works); i++)
      {
        g_autofree char *name = g_strconcat (parts[p].prefix, works[i], NULL);

        gtk_widget_class_bind_template_child_full (widget_class, name, FALSE, parts[p].offset + i * sizeof (gpointer));
      }
}

static void
odd_status_line_init (OddStatusLine *self)
{
  self->zoom = 100.0;
  gtk_widget_init_template (GTK_WIDGET (self));
  g_object_set (self, "active", TRUE, NULL);
}

void
odd_status_line_open_findings (OddStatusLine *self)
{
  g_return_if_fail (ODD_IS_STATUS_LINE (self));

  odd_findings_button_open (ODD_FINDINGS_BUTTON (self->findings));
}

gboolean
odd_status_line_next_finding (OddStatusLine *self)
{
  g_return_val_if_fail (ODD_IS_STATUS_LINE (self), FALSE);

  return odd_findings_button_next (ODD_FINDINGS_BUTTON (self->findings));
}
