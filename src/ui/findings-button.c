#include "config.h"

#include "ui/findings-button.h"

#include <glib/gi18n.h>

#include "ui/toast.h"

/* While she drags or types, jobs come faster than they can be checked. */
#define REST_MS 200
#define MOST_ROWS 200

struct _OddFindingsButton
{
  OddPane parent_instance;
  GtkMenuButton *button;
  GtkLabel *label;
  GtkListBox *list;
  GtkLabel *more;
  GPtrArray *findings;
  GCancellable *cancellable;
  guint timer;
  guint next;              /* the finding to go to next */
  guint n_misfits;         /* of the job checked last */
};

G_DEFINE_FINAL_TYPE (OddFindingsButton, odd_findings_button, ODD_TYPE_PANE)

enum { PROP_0, PROP_COUNT, N_PROPS };
static GParamSpec *props[N_PROPS];

static guint
get_count (OddFindingsButton *self)
{
  return self->findings != NULL ? self->findings->len : 0;
}

static void
go_to (OddFindingsButton *self,
       guint              at)
{
  const OddFinding *finding = g_ptr_array_index (self->findings, at);

  self->next = at + 1;
  if (finding->seam_id != 0)
    odd_pane_select (ODD_PANE (self), ODD_SELECTED_SEAM, finding->seam_id);
  else if (finding->leaf_id != 0)
    odd_pane_select (ODD_PANE (self), ODD_SELECTED_PATCH, finding->leaf_id);
  else if (finding->panel_id != 0)
    odd_pane_select (ODD_PANE (self), ODD_SELECTED_PANEL, finding->panel_id);
  else if (finding->scrap_id != 0)
    odd_pane_select (ODD_PANE (self), ODD_SELECTED_SCRAP, finding->scrap_id);
  gtk_widget_activate_action (GTK_WIDGET (self), "win.locate", NULL);
}

static void
row_cb (OddFindingsButton *self,
        GtkListBoxRow     *row)
{
  gtk_menu_button_popdown (self->button);
  go_to (self, gtk_list_box_row_get_index (row));
}

static gboolean
is_misfit (const OddFinding *finding)
{
  return finding->kind == ODD_FINDING_TOO_SMALL || finding->kind == ODD_FINDING_ZONE || finding->kind == ODD_FINDING_OVERLAP ||
         finding->kind == ODD_FINDING_MIRRORED || finding->kind == ODD_FINDING_VANISHED;
}

/* Whatever edit it was: a wider allowance, a stain marked late, a fabric that shrinks. A job just opened is no edit. */
static void
tell_misfits (OddFindingsButton *self)
{
  const guint was = self->n_misfits;
  guint n = 0, first = G_MAXUINT;
  g_autofree char *text = NULL;

  for (guint i = 0; i < get_count (self); i++)
    if (is_misfit (g_ptr_array_index (self->findings, i)))
      {
        first = MIN (first, i);
        n++;
      }
  self->n_misfits = n;
  if (n <= was || odd_document_get_undo_label (odd_pane_get_document (ODD_PANE (self))) == NULL)
    return;
  self->next = first;
  text = g_strdup_printf (ngettext ("%u patch no longer fits its scrap", "%u patches no longer fit their scraps", n), n);
  odd_toast (GTK_WIDGET (self), text, _("Show"), "win.next-finding");
}

static void
fill_list (OddFindingsButton *self)
{
  GtkListBoxRow *row;

  while ((row = gtk_list_box_get_row_at_index (self->list, 0)) != NULL)
    gtk_list_box_remove (self->list, GTK_WIDGET (row));
  for (guint i = 0; i < get_count (self) && i < MOST_ROWS; i++)
    {
      const OddFinding *finding = g_ptr_array_index (self->findings, i);
      GtkWidget *label = gtk_label_new (finding->text);

      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_label_set_xalign (GTK_LABEL (label), 0.0);
      gtk_widget_set_margin_top (label, 8);
      gtk_widget_set_margin_bottom (label, 8);
      gtk_widget_set_margin_start (label, 9);
      gtk_widget_set_margin_end (label, 9);
      gtk_list_box_append (self->list, label);
    }
  gtk_widget_set_visible (GTK_WIDGET (self->more), get_count (self) > MOST_ROWS);
}

static void
show_count (OddFindingsButton *self)
{
  const guint n = get_count (self);
  g_autofree char *text = g_strdup_printf ("%u", n);
  g_autofree char *tip = g_strdup_printf (ngettext ("%u place is not sound", "%u places are not sound", n), n);

  gtk_label_set_text (self->label, text);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->button), tip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->button), GTK_ACCESSIBLE_PROPERTY_LABEL, tip, -1);
  gtk_widget_set_visible (GTK_WIDGET (self), n > 0);
  fill_list (self);
}

static void
checked_cb (GObject      *source,
            GAsyncResult *result,
            gpointer      data)
{
  OddFindingsButton *self = ODD_FINDINGS_BUTTON (source);
  GPtrArray *findings = g_task_propagate_pointer (G_TASK (result), NULL);

  if (findings == NULL)
    return;
  g_clear_pointer (&self->findings, g_ptr_array_unref);
  self->findings = findings;
  self->next = 0;
  tell_misfits (self);
  show_count (self);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_COUNT]);
}

static void
check_in_thread (GTask        *task,
                 gpointer      source,
                 gpointer      data,
                 GCancellable *cancellable)
{
  GPtrArray *findings = odd_job_check (data, cancellable);

  g_task_return_pointer (task, findings, (GDestroyNotify) g_ptr_array_unref);
}

static gboolean
timer_cb (gpointer data)
{
  OddFindingsButton *self = data;
  g_autoptr(GTask) task = NULL;

  self->timer = 0;
  self->cancellable = g_cancellable_new ();
  task = g_task_new (self, self->cancellable, checked_cb, NULL);
  g_task_set_task_data (task, odd_job_ref (odd_pane_get_job (ODD_PANE (self))), (GDestroyNotify) odd_job_unref);
  g_task_run_in_thread (task, check_in_thread);
  return G_SOURCE_REMOVE;
}

static void
stop (OddFindingsButton *self)
{
  g_clear_handle_id (&self->timer, g_source_remove);
  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
}

static void
odd_findings_button_refresh (OddPane *pane)
{
  OddFindingsButton *self = ODD_FINDINGS_BUTTON (pane);

  stop (self);
  self->timer = g_timeout_add (REST_MS, timer_cb, self);
}

void
odd_findings_button_open (OddFindingsButton *self)
{
  g_return_if_fail (ODD_IS_FINDINGS_BUTTON (self));

  if (get_count (self) > 0)
    gtk_menu_button_popup (self->button);
}

gboolean
odd_findings_button_next (OddFindingsButton *self)
{
  g_return_val_if_fail (ODD_IS_FINDINGS_BUTTON (self), FALSE);

  if (get_count (self) == 0)
    return FALSE;
  go_to (self, self->next < get_count (self) ? self->next : 0);
  return TRUE;
}

static void
odd_findings_button_dispose (GObject *object)
{
  OddFindingsButton *self = ODD_FINDINGS_BUTTON (object);

  stop (self);
  g_clear_pointer (&self->findings, g_ptr_array_unref);
  G_OBJECT_CLASS (odd_findings_button_parent_class)->dispose (object);
}

static void
odd_findings_button_get_property (GObject    *object,
                                  guint       prop_id,
                                  GValue     *value,
                                  GParamSpec *pspec)
{
  if (prop_id == PROP_COUNT)
    g_value_set_uint (value, get_count (ODD_FINDINGS_BUTTON (object)));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
}

static void
odd_findings_button_class_init (OddFindingsButtonClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = odd_findings_button_dispose;
  object_class->get_property = odd_findings_button_get_property;
  ODD_PANE_CLASS (klass)->refresh = odd_findings_button_refresh;
  props[PROP_COUNT] = g_param_spec_uint ("count", NULL, NULL, 0, G_MAXUINT, 0, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/findings-button.ui");
  gtk_widget_class_bind_template_child (widget_class, OddFindingsButton, button);
  gtk_widget_class_bind_template_child (widget_class, OddFindingsButton, label);
  gtk_widget_class_bind_template_child (widget_class, OddFindingsButton, list);
  gtk_widget_class_bind_template_child (widget_class, OddFindingsButton, more);
  gtk_widget_class_bind_template_callback (widget_class, row_cb);
}

static void
odd_findings_button_init (OddFindingsButton *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
  g_object_set (self, "active", TRUE, NULL);
}
