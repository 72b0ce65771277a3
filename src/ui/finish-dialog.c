#include "config.h"

#include "ui/finish-dialog.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "ui/length-entry.h"
#include "ui/operation-row.h"
#include "ui/toast.h"

#define ODD_TYPE_FINISH_DIALOG (odd_finish_dialog_get_type ())
G_DECLARE_FINAL_TYPE (OddFinishDialog, odd_finish_dialog, ODD, FINISH_DIALOG, AdwWindow)

struct _OddFinishDialog
{
  AdwWindow parent_instance;
  OddDocument *document;
  gboolean filling;
  guint plies[2];            /* not shown, but copied */
  AdwComboRow *which;        /* the job's finishes in order, then a new one */
  GtkEditable *name;
  OddLengthEntry *allowance;
  OddLengthEntry *least;
  OddLengthEntry *kept;
  GtkSwitch *may_open;
  GtkListBox *operations;
  GtkEditable *note;
  AdwComboRow *keep;
  GtkLabel *source;
  GtkLabel *complaint;
  GtkWidget *remove;
  GtkWidget *copy;
};

G_DEFINE_FINAL_TYPE (OddFinishDialog, odd_finish_dialog, ADW_TYPE_WINDOW)

static GPtrArray *
get_finishes (OddFinishDialog *self)
{
  return odd_document_get_job (self->document)->finishes;
}

/* NULL: a new one. */
static OddFinish *
get_chosen (OddFinishDialog *self)
{
  const guint at = adw_combo_row_get_selected (self->which);

  return at < get_finishes (self)->len ? g_ptr_array_index (get_finishes (self), at) : NULL;
}

/* --- steps --- */

static void
clear_operations (OddFinishDialog *self)
{
  GtkListBoxRow *row;

  while ((row = gtk_list_box_get_row_at_index (self->operations, 0)) != NULL)
    gtk_list_box_remove (self->operations, GTK_WIDGET (row));
}

/* Nothing happens at either end of the list. */
static void
shift_row (OddFinishDialog *self,
           OddOperationRow *row,
           int              by)
{
  const int at = gtk_list_box_row_get_index (GTK_LIST_BOX_ROW (row));

  if (at + by < 0 || gtk_list_box_get_row_at_index (self->operations, at + by) == NULL)
    return;
  g_object_ref (row);
  gtk_list_box_remove (self->operations, GTK_WIDGET (row));
  gtk_list_box_insert (self->operations, GTK_WIDGET (row), at + by);
  g_object_unref (row);
}

static void
lift_cb (OddFinishDialog *self,
         OddOperationRow *row)
{
  shift_row (self, row, -1);
}

static void
lower_cb (OddFinishDialog *self,
          OddOperationRow *row)
{
  shift_row (self, row, 1);
}

static void
drop_cb (OddFinishDialog *self,
         OddOperationRow *row)
{
  gtk_list_box_remove (self->operations, GTK_WIDGET (row));
}

static void
add_operation (OddFinishDialog    *self,
               const OddOperation *operation)
{
  GtkWidget *row = odd_operation_row_new (operation);

  g_signal_connect_object (row, "lift", G_CALLBACK (lift_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (row, "lower", G_CALLBACK (lower_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (row, "drop", G_CALLBACK (drop_cb), self, G_CONNECT_SWAPPED);
  gtk_list_box_append (self->operations, row);
}

static void
add_operation_cb (OddFinishDialog *self)
{
  const OddOperation press = { .kind = ODD_OPERATION_PRESS, .station = ODD_STATION_IRON, .face = ODD_FACE_ONE_LAYER, .text = (char *) _("Press") };

  add_operation (self, &press);
}

/* (transfer full) Strings inside are lent by the rows. */
static GArray *
read_operations (OddFinishDialog *self)
{
  GArray *operations = g_array_new (FALSE, TRUE, sizeof (OddOperation));
  GtkListBoxRow *row;

  for (int i = 0; (row = gtk_list_box_get_row_at_index (self->operations, i)) != NULL; i++)
    {
      OddOperation operation;

      odd_operation_row_read (ODD_OPERATION_ROW (row), &operation);
      g_array_append_val (operations, operation);
    }
  return operations;
}

/* --- values to widgets and back --- */

static void
fill_which (OddFinishDialog *self)
{
  g_autoptr(GtkStringList) names = gtk_string_list_new (NULL);

  for (guint i = 0; i < get_finishes (self)->len; i++)
    gtk_string_list_append (names, ((OddFinish *) g_ptr_array_index (get_finishes (self), i))->name);
  gtk_string_list_append (names, _("New finish"));
  self->filling = TRUE;
  adw_combo_row_set_model (self->which, G_LIST_MODEL (names));
  self->filling = FALSE;
}

static void
show (OddFinishDialog *self)
{
  const OddOperation sew = { .kind = ODD_OPERATION_SEW, .station = ODD_STATION_SEWING_MACHINE, .stitch = (char *) "301",
                             .face = ODD_FACE_RIGHT_SIDES, .text = (char *) _("Sew right sides together") };
  OddFinish *finish = get_chosen (self);

  gtk_label_set_text (self->complaint, "");
  gtk_editable_set_text (self->name, finish != NULL ? finish->name : "");
  gtk_editable_set_text (self->note, finish != NULL && finish->note != NULL ? finish->note : "");
  odd_length_entry_set_value (self->allowance, finish != NULL ? finish->allowance_mm : 12.7);
  odd_length_entry_set_value (self->least, finish != NULL ? finish->min_allowance_mm : 6.0);
  odd_length_entry_set_value (self->kept, finish != NULL ? finish->width_kept_mm : 12.7);
  gtk_switch_set_active (self->may_open, finish == NULL || finish->may_open);
  self->plies[0] = finish != NULL ? finish->plies[0] : 1;
  self->plies[1] = finish != NULL ? finish->plies[1] : 1;
  gtk_label_set_text (self->source, finish != NULL && finish->source != NULL ? finish->source : "");
  gtk_widget_set_visible (self->remove, finish != NULL);
  gtk_widget_set_visible (self->copy, finish != NULL);
  clear_operations (self);
  if (finish == NULL)
    add_operation (self, &sew);
  for (guint i = 0; finish != NULL && i < finish->n_operations; i++)
    add_operation (self, &finish->operations[i]);
}

static void
chosen_cb (OddFinishDialog *self)
{
  if (!self->filling && self->document != NULL)
    show (self);
}

/* A new finish that begins as this one is shown, changes and all. */
static void
copy_cb (OddFinishDialog *self)
{
  g_autofree char *name = g_strdup_printf (_("%s, changed"), gtk_editable_get_text (self->name));

  self->filling = TRUE;
  adw_combo_row_set_selected (self->which, get_finishes (self)->len);
  self->filling = FALSE;
  gtk_editable_set_text (self->name, name);
  gtk_label_set_text (self->source, "");
  gtk_widget_set_visible (self->remove, FALSE);
  gtk_widget_set_visible (self->copy, FALSE);
  gtk_widget_grab_focus (GTK_WIDGET (self->name));
}

/* A word for the file and the command line, made from the name: "Hong-Kong binding" is "hong-kong-binding". */
static char *
key_from_name (OddJob     *job,
               const char *name)
{
  g_autofree char *ascii = g_str_to_ascii (name, "C");
  g_autoptr(GString) word = g_string_new (NULL);

  for (const char *c = ascii; *c != '\0'; c++)
    if (g_ascii_isalnum (*c))
      g_string_append_c (word, g_ascii_tolower (*c));
    else if (word->len > 0 && word->str[word->len - 1] != '-')
      g_string_append_c (word, '-');
  if (word->len > 0 && word->str[word->len - 1] == '-')
    g_string_truncate (word, word->len - 1);
  if (word->len == 0)
    g_string_append (word, "finish");
  for (guint i = 2; odd_job_get_finish_by_key (job, word->str) != NULL; i++)
    {
      char *dash = strrchr (word->str, '-');

      if (i > 2 && dash != NULL)
        g_string_truncate (word, dash - word->str);
      g_string_append_printf (word, "-%u", i);
    }
  return g_strdup (word->str);
}

static gboolean
same_operation (const OddOperation *a,
                const OddOperation *b)
{
  return a->kind == b->kind && a->station == b->station && a->face == b->face && a->before_joining == b->before_joining &&
         a->at_mm == b->at_mm && g_strcmp0 (a->stitch, b->stitch) == 0 && g_strcmp0 (a->text, b->text) == 0;
}

/* In all that the dialog can change. */
static gboolean
same_finish (const OddFinish *a,
             const OddFinish *b)
{
  if (g_strcmp0 (a->name, b->name) != 0 || g_strcmp0 (a->note, b->note) != 0 || a->allowance_mm != b->allowance_mm ||
      a->min_allowance_mm != b->min_allowance_mm || a->width_kept_mm != b->width_kept_mm || !a->may_open != !b->may_open ||
      a->n_operations != b->n_operations)
    return FALSE;
  for (guint i = 0; i < a->n_operations; i++)
    if (!same_operation (&a->operations[i], &b->operations[i]))
      return FALSE;
  return TRUE;
}

static gboolean
read_lengths (OddFinishDialog *self,
              OddFinish       *values)
{
  const char *complaint = NULL;

  if (odd_length_entry_read (self->allowance, &values->allowance_mm, &complaint) &&
      odd_length_entry_read (self->least, &values->min_allowance_mm, &complaint) &&
      odd_length_entry_read (self->kept, &values->width_kept_mm, &complaint))
    return TRUE;
  gtk_label_set_text (self->complaint, complaint);
  return FALSE;
}

static void
save_cb (OddFinishDialog *self)
{
  OddJob *job = odd_document_get_job (self->document);
  OddFinish *was = get_chosen (self);
  const char *note = gtk_editable_get_text (self->note);
  g_autoptr(GArray) operations = read_operations (self);
  g_autoptr(GError) error = NULL;
  g_autofree char *key = NULL;
  OddFinish values = { .plies = { self->plies[0], self->plies[1] } };
  OddJob *changed;

  if (was != NULL)
    values = *was;
  else
    values.source = (char *) _("our own");
  values.name = (char *) gtk_editable_get_text (self->name);
  if (was == NULL)
    values.key = key = key_from_name (job, values.name);
  if (!read_lengths (self, &values))
    return;
  values.may_open = gtk_switch_get_active (self->may_open);
  values.note = *note != '\0' ? (char *) note : NULL;
  values.operations = (OddOperation *) (gpointer) operations->data;
  values.n_operations = operations->len;
  if (was != NULL && same_finish (was, &values))
    {
      gtk_window_close (GTK_WINDOW (self));
      return;
    }
  changed = odd_job_put_finish (job, &values, adw_combo_row_get_selected (self->keep) == 0, NULL, &error);
  if (changed == NULL)
    {
      gtk_label_set_text (self->complaint, error->message);
      return;
    }
  odd_document_apply (self->document, changed, was != NULL ? _("Change a finish") : _("Add a finish"));
  gtk_window_close (GTK_WINDOW (self));
}

static void
remove_cb (OddFinishDialog *self)
{
  OddFinish *finish = get_chosen (self);
  g_autoptr(GError) error = NULL;
  OddJob *changed;

  if (finish == NULL)
    return;
  changed = odd_job_remove_finish (odd_document_get_job (self->document), finish->id, &error);
  if (changed == NULL)
    {
      gtk_label_set_text (self->complaint, error->message);
      return;
    }
  odd_document_apply (self->document, changed, _("Remove a finish"));
  fill_which (self);
  show (self);
}

static void
odd_finish_dialog_dispose (GObject *object)
{
  g_clear_object (&ODD_FINISH_DIALOG (object)->document);
  G_OBJECT_CLASS (odd_finish_dialog_parent_class)->dispose (object);
}

static void
odd_finish_dialog_class_init (OddFinishDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = odd_finish_dialog_dispose;
  g_type_ensure (ODD_TYPE_LENGTH_ENTRY);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/finish-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, OddFinishDialog, which);
  gtk_widget_class_bind_template_child (widget_class, OddFinishDialog, name);
  gtk_widget_class_bind_template_child (widget_class, OddFinishDialog, allowance);
  gtk_widget_class_bind_template_child (widget_class, OddFinishDialog, least);
  gtk_widget_class_bind_template_child (widget_class, OddFinishDialog, kept);
  gtk_widget_class_bind_template_child (widget_class, OddFinishDialog, may_open);
  gtk_widget_class_bind_template_child (widget_class, OddFinishDialog, operations);
  gtk_widget_class_bind_template_child (widget_class, OddFinishDialog, note);
  gtk_widget_class_bind_template_child (widget_class, OddFinishDialog, keep);
  gtk_widget_class_bind_template_child (widget_class, OddFinishDialog, source);
  gtk_widget_class_bind_template_child (widget_class, OddFinishDialog, complaint);
  gtk_widget_class_bind_template_child (widget_class, OddFinishDialog, remove);
  gtk_widget_class_bind_template_child (widget_class, OddFinishDialog, copy);
  gtk_widget_class_bind_template_callback (widget_class, chosen_cb);
  gtk_widget_class_bind_template_callback (widget_class, add_operation_cb);
  gtk_widget_class_bind_template_callback (widget_class, save_cb);
  gtk_widget_class_bind_template_callback (widget_class, copy_cb);
  gtk_widget_class_bind_template_callback (widget_class, remove_cb);
}

static void
odd_finish_dialog_init (OddFinishDialog *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
odd_finish_dialog_present (GtkWidget   *from,
                           OddDocument *document,
                           OddId        finish_id,
                           int          unit)
{
  GtkRoot *root = gtk_widget_get_root (from);
  OddFinishDialog *self = g_object_new (ODD_TYPE_FINISH_DIALOG, "transient-for", root, "modal", TRUE, NULL);

  self->document = g_object_ref (document);
  g_object_set (self->allowance, "unit", unit, NULL);
  g_object_set (self->least, "unit", unit, NULL);
  g_object_set (self->kept, "unit", unit, NULL);
  fill_which (self);
  for (guint i = 0; i < get_finishes (self)->len; i++)
    if (((OddFinish *) g_ptr_array_index (get_finishes (self), i))->id == finish_id)
      adw_combo_row_set_selected (self->which, i);
  show (self);
  gtk_window_present (GTK_WINDOW (self));
}
