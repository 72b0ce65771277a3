#include "config.h"

#include "ui/pressing-dialog.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "sewing/bulk.h"
#include "ui/toast.h"

#define ODD_TYPE_PRESSING_DIALOG (odd_pressing_dialog_get_type ())
G_DECLARE_FINAL_TYPE (OddPressingDialog, odd_pressing_dialog, ODD, PRESSING_DIALOG, AdwWindow)

struct _OddPressingDialog
{
  AdwWindow parent_instance;
  GtkWidget *from;
  OddDocument *document;
  OddId textile_id;
  GCancellable *cancellable;       /* of what runs, or NULL */
  GtkLabel *about;
  GtkSwitch *also_set;
  GtkWidget *spinner;
  GtkFlowBox *cards;
};

G_DEFINE_FINAL_TYPE (OddPressingDialog, odd_pressing_dialog, ADW_TYPE_WINDOW)

/* --- the worker --- */

typedef struct
{
  OddJob *job;
  OddId textile_id;
  gboolean also_set;
  OddBulkSum now;
  OddBulkSum sums[ODD_N_PRESS_RULES];
  OddJob *pressed[ODD_N_PRESS_RULES];
} Request;

static void
request_free (Request *request)
{
  for (guint rule = 0; rule < ODD_N_PRESS_RULES; rule++)
    g_clear_pointer (&request->pressed[rule], odd_job_unref);
  odd_job_unref (request->job);
  g_free (request);
}

static OddBulkSum
sum_up (OddJob *job,
        OddId   textile_id)
{
  g_autoptr(GArray) crossings = odd_job_dup_crossings (job, textile_id);

  return odd_crossings_sum (crossings);
}

static void
count_in_thread (GTask        *task,
                 gpointer      source,
                 gpointer      data,
                 GCancellable *cancellable)
{
  Request *request = data;
  GError *error = NULL;

  request->now = sum_up (request->job, request->textile_id);
  for (guint rule = 0; rule < ODD_N_PRESS_RULES; rule++)
    {
      request->pressed[rule] = odd_job_press_by (request->job, request->textile_id, rule, request->also_set, cancellable, &error);
      if (request->pressed[rule] == NULL)
        {
          g_task_return_error (task, error);
          return;
        }
      request->sums[rule] = sum_up (request->pressed[rule], request->textile_id);
    }
  g_task_return_boolean (task, TRUE);
}

static void
stop (OddPressingDialog *self)
{
  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
}

/* --- cards --- */

static GtkWidget *
make_label (const char *text,
            const char *class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0.0);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 24);
  if (class != NULL)
    gtk_widget_add_css_class (label, class);
  return label;
}

static char *
dup_thicker (const OddBulkSum *sum)
{
  if (sum->n_thicker == 0)
    return g_strdup (_("No crossing is thicker than it need be."));
  return g_strdup_printf (ngettext ("%u crossing is thicker than its seams alone would need.", "%u crossings are thicker than their seams alone would need.",
                                    sum->n_thicker), sum->n_thicker);
}

static void use_cb (OddPressingDialog *self, GtkButton *button);

static GtkWidget *
make_card (OddPressingDialog *self,
           const char        *title,
           const OddBulkSum  *sum)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  g_autofree char *figures = odd_bulk_sum_dup_text (sum);
  g_autofree char *thicker = dup_thicker (sum);

  gtk_widget_add_css_class (box, "card");
  gtk_widget_add_css_class (box, "remedy");
  gtk_box_append (GTK_BOX (box), make_label (title, "heading"));
  gtk_box_append (GTK_BOX (box), make_label (figures, "tabular"));
  gtk_box_append (GTK_BOX (box), make_label (thicker, "dim-label"));
  return box;
}

static void
add_card (OddPressingDialog *self,
          GtkWidget         *card)
{
  gtk_flow_box_append (self->cards, card);
  /* the buttons take the keyboard, not the cards */
  gtk_widget_set_focusable (gtk_widget_get_parent (card), FALSE);
}

static void
add_rule (OddPressingDialog *self,
          const Request     *request,
          OddPressRule       rule)
{
  GtkWidget *card = make_card (self, odd_press_rule_get_name (rule), &request->sums[rule]);
  const gboolean changes = request->pressed[rule] != request->job;
  GtkWidget *button = gtk_button_new_with_label (changes ? _("Press like this") : _("As it is now"));

  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, odd_press_rule_get_name (rule), -1);
  gtk_widget_set_sensitive (button, changes);
  gtk_widget_set_vexpand (button, TRUE);
  gtk_widget_set_valign (button, GTK_ALIGN_END);
  g_object_set_data_full (G_OBJECT (button), "before", odd_job_ref (request->job), (GDestroyNotify) odd_job_unref);
  g_object_set_data_full (G_OBJECT (button), "pressed", odd_job_ref (request->pressed[rule]), (GDestroyNotify) odd_job_unref);
  g_signal_connect_object (button, "clicked", G_CALLBACK (use_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (card), button);
  add_card (self, card);
}

static void
counted_cb (GObject      *source,
            GAsyncResult *result,
            gpointer      data)
{
  OddPressingDialog *self = ODD_PRESSING_DIALOG (source);
  const Request *request = g_task_get_task_data (G_TASK (result));
  GtkFlowBoxChild *child;

  if (self->cancellable == NULL || self->cancellable != g_task_get_cancellable (G_TASK (result)))
    return;
  g_clear_object (&self->cancellable);
  gtk_widget_set_visible (self->spinner, FALSE);
  if (!g_task_propagate_boolean (G_TASK (result), NULL))
    return;
  while ((child = gtk_flow_box_get_child_at_index (self->cards, 0)) != NULL)
    gtk_flow_box_remove (self->cards, GTK_WIDGET (child));
  gtk_widget_set_sensitive (GTK_WIDGET (self->cards), TRUE);
  add_card (self, make_card (self, _("As it is now"), &request->now));
  for (guint rule = 0; rule < ODD_N_PRESS_RULES; rule++)
    add_rule (self, request, rule);
}

/* --- asking and taking --- */

static void
ask (OddPressingDialog *self)
{
  Request *request = g_new0 (Request, 1);
  g_autoptr(GTask) task = NULL;

  stop (self);
  request->job = odd_job_ref (odd_document_get_job (self->document));
  request->textile_id = self->textile_id;
  request->also_set = gtk_switch_get_active (self->also_set);
  self->cancellable = g_cancellable_new ();
  task = g_task_new (self, self->cancellable, counted_cb, NULL);
  g_task_set_task_data (task, request, (GDestroyNotify) request_free);
  gtk_widget_set_visible (self->spinner, TRUE);
  gtk_widget_set_sensitive (GTK_WIDGET (self->cards), FALSE);
  g_task_run_in_thread (task, count_in_thread);
}

static void
asked_cb (OddPressingDialog *self)
{
  if (self->document != NULL)
    ask (self);
}

/* What the worker made is taken as it is: no window waits for thousands of seams. */
static void
use_cb (OddPressingDialog *self,
        GtkButton         *button)
{
  OddJob *pressed = g_object_get_data (G_OBJECT (button), "pressed");

  if (odd_document_get_job (self->document) != g_object_get_data (G_OBJECT (button), "before"))
    {
      ask (self);
      return;
    }
  odd_document_apply (self->document, odd_job_ref (pressed), _("Set how seams are pressed"));
  odd_toast (self->from, _("Every seam that is not pressed yet has its side."), _("_Undo"), "win.undo");
  gtk_window_close (GTK_WINDOW (self));
}

static void
odd_pressing_dialog_dispose (GObject *object)
{
  OddPressingDialog *self = ODD_PRESSING_DIALOG (object);

  stop (self);
  g_clear_object (&self->document);
  g_clear_object (&self->from);
  G_OBJECT_CLASS (odd_pressing_dialog_parent_class)->dispose (object);
}

static void
odd_pressing_dialog_class_init (OddPressingDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = odd_pressing_dialog_dispose;
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/pressing-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, OddPressingDialog, about);
  gtk_widget_class_bind_template_child (widget_class, OddPressingDialog, also_set);
  gtk_widget_class_bind_template_child (widget_class, OddPressingDialog, spinner);
  gtk_widget_class_bind_template_child (widget_class, OddPressingDialog, cards);
  gtk_widget_class_bind_template_callback (widget_class, asked_cb);
}

static void
odd_pressing_dialog_init (OddPressingDialog *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
odd_pressing_dialog_present (GtkWidget   *from,
                             OddDocument *document,
                             OddId        textile_id)
{
  OddPressingDialog *self = g_object_new (ODD_TYPE_PRESSING_DIALOG, "transient-for", gtk_widget_get_root (from), "modal", TRUE, NULL);

  self->from = g_object_ref (from);
  self->document = g_object_ref (document);
  self->textile_id = textile_id;
  ask (self);
  gtk_window_present (GTK_WINDOW (self));
}
