#include "config.h"

#include "ui/share-rows.h"

#include <glib/gi18n.h>

#include "ui/fabric-swatch.h"

#define SWATCH_PX 28
#define FIRST_LEAST 0.0            /* percent: nothing is asked for until she changes one of them */
#define FIRST_MOST 100.0

struct _OddShareRows
{
  AdwBin parent_instance;
  OddJob *job;
  GArray *shares;                  /* OddShare, in the order of the rows */
  GtkListBox *list;
  GtkListBox *fabrics;
  GtkWidget *add;
  GtkPopover *popover;
  GtkLabel *complaint;
};

G_DEFINE_FINAL_TYPE (OddShareRows, odd_share_rows, ADW_TYPE_BIN)

enum { CHANGED, N_SIGNALS };
static guint signals[N_SIGNALS];

static OddShare *
find_share (OddShareRows *self,
            OddId         fabric_id)
{
  for (guint i = 0; i < self->shares->len; i++)
    if (g_array_index (self->shares, OddShare, i).fabric_id == fabric_id)
      return &g_array_index (self->shares, OddShare, i);
  return NULL;
}

/* --- what cannot be --- */

static char *
dup_complaint (OddShareRows *self)
{
  double least = 0.0;

  for (guint i = 0; i < self->shares->len; i++)
    {
      const OddShare *share = &g_array_index (self->shares, OddShare, i);

      least += share->least;
      if (share->least > share->most)
        return g_strdup_printf (_("At least %.0f %% and at most %.0f %% of “%s” cannot both be; lower the one or raise the other."),
                                100.0 * share->least, 100.0 * share->most, odd_job_get_fabric (self->job, share->fabric_id)->name);
    }
  if (least <= 1.0 + 1e-9)
    return NULL;
  return g_strdup_printf (_("What there should be at least comes to %.0f %%; 100 %% is all there is, so lower one of them."), 100.0 * least);
}

static void
show_complaint (OddShareRows *self)
{
  g_autofree char *text = dup_complaint (self);

  gtk_label_set_text (self->complaint, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self->complaint), text != NULL);
}

static void
tell_changed (OddShareRows *self)
{
  show_complaint (self);
  g_signal_emit (self, signals[CHANGED], 0);
}

/* --- fabrics to choose from --- */

static GtkWidget *
named_swatch_new (OddFabric *fabric)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9);
  GtkWidget *name = gtk_label_new (fabric->name);

  gtk_label_set_xalign (GTK_LABEL (name), 0.0);
  gtk_label_set_ellipsize (GTK_LABEL (name), PANGO_ELLIPSIZE_END);
  gtk_widget_set_tooltip_text (name, fabric->name);
  gtk_widget_set_hexpand (name, TRUE);
  gtk_box_append (GTK_BOX (box), odd_fabric_swatch_new (fabric, SWATCH_PX));
  gtk_box_append (GTK_BOX (box), name);
  return box;
}

static void
fill_fabrics (OddShareRows *self)
{
  GtkListBoxRow *row;

  while ((row = gtk_list_box_get_row_at_index (self->fabrics, 0)) != NULL)
    gtk_list_box_remove (self->fabrics, GTK_WIDGET (row));
  for (guint i = 0; i < self->job->fabrics->len; i++)
    {
      OddFabric *fabric = self->job->fabrics->pdata[i];
      GtkWidget *added = gtk_list_box_row_new ();

      if (find_share (self, fabric->id) != NULL)
        {
          g_object_unref (g_object_ref_sink (added));
          continue;
        }
      gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (added), named_swatch_new (fabric));
      gtk_accessible_update_property (GTK_ACCESSIBLE (added), GTK_ACCESSIBLE_PROPERTY_LABEL, fabric->name, -1);
      g_object_set_data (G_OBJECT (added), "fabric", GUINT_TO_POINTER (fabric->id));
      gtk_list_box_append (self->fabrics, added);
    }
  gtk_widget_set_sensitive (self->add, gtk_list_box_get_row_at_index (self->fabrics, 0) != NULL);
}

static void
chosen_cb (OddShareRows  *self,
           GtkListBoxRow *row)
{
  const OddId fabric_id = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (row), "fabric"));

  gtk_popover_popdown (self->popover);
  odd_share_rows_add (self, fabric_id);
}

/* --- rows --- */

static OddShare *
share_of (OddShareRows *self,
          GtkWidget    *within)
{
  GtkWidget *row = gtk_widget_get_ancestor (within, GTK_TYPE_LIST_BOX_ROW);

  return find_share (self, GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (row), "fabric")));
}

static void
least_cb (OddShareRows  *self,
          GtkSpinButton *spin)
{
  share_of (self, GTK_WIDGET (spin))->least = gtk_spin_button_get_value (spin) / 100.0;
  tell_changed (self);
}

static void
most_cb (OddShareRows  *self,
         GtkSpinButton *spin)
{
  share_of (self, GTK_WIDGET (spin))->most = gtk_spin_button_get_value (spin) / 100.0;
  tell_changed (self);
}

static void
remove_cb (OddShareRows *self,
           GtkWidget    *button)
{
  GtkWidget *row = gtk_widget_get_ancestor (button, GTK_TYPE_LIST_BOX_ROW);

  g_array_remove_index (self->shares, (guint) (share_of (self, button) - (OddShare *) self->shares->data));
  gtk_widget_grab_focus (self->add);
  gtk_list_box_remove (self->list, row);
  fill_fabrics (self);
  tell_changed (self);
}

static GtkWidget *
percent_new (OddShareRows *self,
             const char   *title,
             const char   *name,
             double        percent,
             GCallback     changed_cb,
             GtkWidget   **out_spin)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  GtkWidget *label = gtk_label_new (title);
  GtkWidget *spin = gtk_spin_button_new_with_range (0.0, 100.0, 1.0);
  g_autofree char *spoken = g_strdup_printf ("%s: %s", name, title);

  gtk_spin_button_set_increments (GTK_SPIN_BUTTON (spin), 5.0, 10.0);
  gtk_spin_button_set_numeric (GTK_SPIN_BUTTON (spin), TRUE);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (spin), percent);
  gtk_label_set_xalign (GTK_LABEL (label), 0.0);
  gtk_widget_add_css_class (label, "second");
  gtk_widget_set_hexpand (spin, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (spin), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  g_signal_connect_object (spin, "value-changed", changed_cb, self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), spin);
  *out_spin = spin;
  return box;
}

static GtkWidget *
head_new (OddShareRows *self,
          OddFabric    *fabric,
          GtkWidget   **out_remove)
{
  GtkWidget *head = named_swatch_new (fabric);
  GtkWidget *remove = gtk_button_new_from_icon_name ("list-remove-symbolic");
  g_autofree char *spoken = g_strdup_printf (_("As much of “%s” as comes"), fabric->name);

  gtk_widget_add_css_class (remove, "flat");
  gtk_widget_set_tooltip_text (remove, spoken);
  gtk_accessible_update_property (GTK_ACCESSIBLE (remove), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  g_signal_connect_object (remove, "clicked", G_CALLBACK (remove_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (head), remove);
  *out_remove = remove;
  return head;
}

static GtkWidget *
row_new (OddShareRows *self,
         OddFabric    *fabric)
{
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  GtkWidget *percents = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9);
  GtkWidget *least, *most, *remove;

  gtk_widget_add_css_class (box, "share-row");
  gtk_box_set_homogeneous (GTK_BOX (percents), TRUE);
  gtk_box_append (GTK_BOX (percents), percent_new (self, _("at least %"), fabric->name, FIRST_LEAST, G_CALLBACK (least_cb), &least));
  gtk_box_append (GTK_BOX (percents), percent_new (self, _("at most %"), fabric->name, FIRST_MOST, G_CALLBACK (most_cb), &most));
  gtk_box_append (GTK_BOX (box), head_new (self, fabric, &remove));
  gtk_box_append (GTK_BOX (box), percents);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  gtk_widget_set_focusable (row, FALSE);
  g_object_set_data (G_OBJECT (row), "fabric", GUINT_TO_POINTER (fabric->id));
  g_object_set_data (G_OBJECT (row), "least", least);
  g_object_set_data (G_OBJECT (row), "most", most);
  g_object_set_data (G_OBJECT (row), "remove", remove);
  return row;
}

void
odd_share_rows_add (OddShareRows *self,
                    OddId         fabric_id)
{
  const OddShare share = { fabric_id, FIRST_MOST / 100.0, FIRST_LEAST / 100.0 };
  OddFabric *fabric;
  GtkWidget *row;

  g_return_if_fail (ODD_IS_SHARE_ROWS (self) && self->job != NULL);

  fabric = odd_job_get_fabric (self->job, fabric_id);
  if (fabric == NULL || find_share (self, fabric_id) != NULL)
    return;
  g_array_append_val (self->shares, share);
  row = row_new (self, fabric);
  gtk_list_box_append (self->list, row);
  fill_fabrics (self);
  gtk_widget_grab_focus (g_object_get_data (G_OBJECT (row), "least"));
  tell_changed (self);
}

/* --- life --- */

void
odd_share_rows_start (OddShareRows *self,
                      OddJob       *job)
{
  GtkListBoxRow *row;

  g_return_if_fail (ODD_IS_SHARE_ROWS (self) && job != NULL);

  g_clear_pointer (&self->job, odd_job_unref);
  self->job = odd_job_ref (job);
  g_array_set_size (self->shares, 0);
  while ((row = gtk_list_box_get_row_at_index (self->list, 1)) != NULL)
    gtk_list_box_remove (self->list, GTK_WIDGET (row));
  fill_fabrics (self);
  show_complaint (self);
  gtk_widget_set_visible (GTK_WIDGET (self), job->fabrics->len > 0);
}

const OddShare *
odd_share_rows_get (OddShareRows *self,
                    guint        *out_n)
{
  g_return_val_if_fail (ODD_IS_SHARE_ROWS (self), NULL);

  *out_n = self->shares->len;
  return self->shares->len > 0 ? (const OddShare *) self->shares->data : NULL;
}

const char *
odd_share_rows_get_complaint (OddShareRows *self)
{
  g_return_val_if_fail (ODD_IS_SHARE_ROWS (self), NULL);

  return gtk_widget_get_visible (GTK_WIDGET (self->complaint)) ? gtk_label_get_text (self->complaint) : NULL;
}

static void
odd_share_rows_dispose (GObject *object)
{
  OddShareRows *self = ODD_SHARE_ROWS (object);

  g_clear_pointer (&self->job, odd_job_unref);
  g_clear_pointer (&self->shares, g_array_unref);
  G_OBJECT_CLASS (odd_share_rows_parent_class)->dispose (object);
}

static void
odd_share_rows_class_init (OddShareRowsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = odd_share_rows_dispose;
  signals[CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/share-rows.ui");
  gtk_widget_class_bind_template_child (widget_class, OddShareRows, list);
  gtk_widget_class_bind_template_child (widget_class, OddShareRows, fabrics);
  gtk_widget_class_bind_template_child (widget_class, OddShareRows, add);
  gtk_widget_class_bind_template_child (widget_class, OddShareRows, popover);
  gtk_widget_class_bind_template_child (widget_class, OddShareRows, complaint);
  gtk_widget_class_bind_template_callback (widget_class, chosen_cb);
}

static void
odd_share_rows_init (OddShareRows *self)
{
  self->shares = g_array_new (FALSE, FALSE, sizeof (OddShare));
  gtk_widget_init_template (GTK_WIDGET (self));
}
