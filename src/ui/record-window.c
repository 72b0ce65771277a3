#include "config.h"

#include "ui/record-window.h"

#include <glib/gi18n.h>
#include <string.h>

#include "ui/deed.h"

/* --- one entry, as the list knows it --- */

#define ODD_TYPE_RECORD_ENTRY (odd_record_entry_get_type ())
G_DECLARE_FINAL_TYPE (OddRecordEntry, odd_record_entry, ODD, RECORD_ENTRY, GObject)

struct _OddRecordEntry
{
  GObject parent_instance;
  OddAct *act;
  char *text;
  char *key;                  /* text and reason, folded for searching */
};

G_DEFINE_FINAL_TYPE (OddRecordEntry, odd_record_entry, G_TYPE_OBJECT)

static void
odd_record_entry_finalize (GObject *object)
{
  OddRecordEntry *self = ODD_RECORD_ENTRY (object);

  odd_act_unref (self->act);
  g_free (self->text);
  g_free (self->key);
  G_OBJECT_CLASS (odd_record_entry_parent_class)->finalize (object);
}

static void
odd_record_entry_class_init (OddRecordEntryClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = odd_record_entry_finalize;
}

static void
odd_record_entry_init (OddRecordEntry *self)
{
}

static OddRecordEntry *
entry_new (OddAct *act,
           int     unit)
{
  OddRecordEntry *self = g_object_new (ODD_TYPE_RECORD_ENTRY, NULL);
  g_autofree char *time = odd_act_dup_time (act);
  g_autofree char *all = NULL;

  self->act = odd_act_ref (act);
  self->text = odd_act_dup_text (act, unit);
  all = g_strjoin (" ", self->text, act->reason != NULL ? act->reason : "", time, NULL);
  self->key = g_utf8_casefold (all, -1);
  return self;
}

/* --- the window --- */

struct _OddRecordWindow
{
  AdwWindow parent_instance;
  OddDocument *document;
  OddSelection *selection;
  int unit;
  GListStore *entries;        /* newest first */
  GtkFilter *filter;
  char **words;               /* searched for, folded */
  GtkSearchEntry *search;
  GtkStack *stack;
  GtkListView *list;
  GtkLabel *hint;
};

G_DEFINE_FINAL_TYPE (OddRecordWindow, odd_record_window, ADW_TYPE_WINDOW)

static gboolean
matches (gpointer item,
         gpointer data)
{
  OddRecordWindow *self = data;
  OddRecordEntry *entry = item;

  for (guint i = 0; self->words != NULL && self->words[i] != NULL; i++)
    if (strstr (entry->key, self->words[i]) == NULL)
      return FALSE;
  return TRUE;
}

static void
show_page (OddRecordWindow *self)
{
  GListModel *shown = G_LIST_MODEL (gtk_list_view_get_model (self->list));
  const guint n = g_list_model_get_n_items (G_LIST_MODEL (self->entries));
  const guint n_shown = g_list_model_get_n_items (shown);
  g_autofree char *text = NULL;

  gtk_stack_set_visible_child_name (self->stack, n == 0 ? "empty" : n_shown == 0 ? "no-hits" : "list");
  if (n_shown < n)
    text = g_strdup_printf (ngettext ("%u of %u entry. Enter shows it on the table.", "%u of %u entries. Enter shows one on the table.", n), n_shown, n);
  else
    text = g_strdup_printf (ngettext ("%u entry. Enter shows it on the table.", "%u entries. Enter shows one on the table.", n), n);
  gtk_label_set_text (self->hint, text);
  gtk_widget_set_visible (GTK_WIDGET (self->hint), n > 0);
}

/* Entries that both records share stay as they are: the oldest, which lie at the end. */
static void
follow (OddRecordWindow *self)
{
  GPtrArray *record = odd_document_get_job (self->document)->record;
  const guint n = g_list_model_get_n_items (G_LIST_MODEL (self->entries));
  g_autoptr(GPtrArray) fresh = g_ptr_array_new_with_free_func (g_object_unref);
  guint same = 0;

  while (same < n && same < record->len)
    {
      g_autoptr(OddRecordEntry) entry = g_list_model_get_item (G_LIST_MODEL (self->entries), n - 1 - same);

      if (entry->act != record->pdata[same])
        break;
      same++;
    }
  for (guint i = record->len; i-- > same; )
    g_ptr_array_add (fresh, entry_new (record->pdata[i], self->unit));
  g_list_store_splice (self->entries, 0, n - same, fresh->pdata, fresh->len);
  show_page (self);
}

static void
changed_cb (OddRecordWindow *self)
{
  follow (self);
}

static void
search_cb (OddRecordWindow *self)
{
  g_autofree char *folded = g_utf8_casefold (gtk_editable_get_text (GTK_EDITABLE (self->search)), -1);

  g_strfreev (self->words);
  self->words = g_strsplit (g_strstrip (folded), " ", -1);
  gtk_filter_changed (self->filter, GTK_FILTER_CHANGE_DIFFERENT);
  show_page (self);
}

/* Escape empties the search first, then closes. */
static void
stop_cb (OddRecordWindow *self)
{
  if (*gtk_editable_get_text (GTK_EDITABLE (self->search)) != '\0')
    gtk_editable_set_text (GTK_EDITABLE (self->search), "");
  else
    gtk_window_close (GTK_WINDOW (self));
}

static void
activate_cb (OddRecordWindow *self,
             guint            at)
{
  g_autoptr(OddRecordEntry) entry = g_list_model_get_item (G_LIST_MODEL (gtk_list_view_get_model (self->list)), at);
  GtkWindow *parent = gtk_window_get_transient_for (GTK_WINDOW (self));
  OddSelected kind;
  OddId id;

  if (!odd_act_find (entry->act, odd_document_get_job (self->document), &kind, &id))
    {
      gtk_label_set_text (self->hint, _("What this was about is not there any more; search for its pieces among the scraps."));
      return;
    }
  odd_selection_set (self->selection, kind, id);
  if (parent != NULL)
    gtk_widget_activate_action (GTK_WIDGET (parent), "win.locate", NULL);
}

/* --- rows --- */

static GtkWidget *
row_label (const char *style)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0.0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  if (style != NULL)
    {
      gtk_widget_add_css_class (label, style);
      gtk_widget_add_css_class (label, "dim-label");
    }
  return label;
}

static void
setup_cb (GtkSignalListItemFactory *factory,
          GtkListItem              *item)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *column = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *time = row_label ("tabular");

  gtk_label_set_wrap (GTK_LABEL (time), FALSE);
  gtk_label_set_width_chars (GTK_LABEL (time), 6);
  gtk_widget_set_valign (time, GTK_ALIGN_START);
  gtk_widget_set_hexpand (column, TRUE);
  gtk_box_append (GTK_BOX (column), row_label (NULL));
  gtk_box_append (GTK_BOX (column), row_label ("second"));
  gtk_box_append (GTK_BOX (row), time);
  gtk_box_append (GTK_BOX (row), column);
  gtk_list_item_set_child (item, row);
}

static void
bind_cb (GtkSignalListItemFactory *factory,
         GtkListItem              *item)
{
  OddRecordEntry *entry = gtk_list_item_get_item (item);
  GtkWidget *row = gtk_list_item_get_child (item);
  GtkWidget *time = gtk_widget_get_first_child (row);
  GtkWidget *text = gtk_widget_get_first_child (gtk_widget_get_next_sibling (time));
  GtkWidget *reason = gtk_widget_get_next_sibling (text);
  g_autofree char *when = odd_act_dup_time (entry->act);

  gtk_label_set_text (GTK_LABEL (time), when);
  gtk_label_set_text (GTK_LABEL (text), entry->text);
  gtk_label_set_text (GTK_LABEL (reason), entry->act->reason != NULL ? entry->act->reason : "");
  gtk_widget_set_visible (reason, entry->act->reason != NULL);
}

static void
odd_record_window_dispose (GObject *object)
{
  OddRecordWindow *self = ODD_RECORD_WINDOW (object);

  g_clear_object (&self->document);
  g_clear_object (&self->selection);
  g_clear_object (&self->entries);
  G_OBJECT_CLASS (odd_record_window_parent_class)->dispose (object);
}

static void
odd_record_window_finalize (GObject *object)
{
  g_strfreev (ODD_RECORD_WINDOW (object)->words);
  G_OBJECT_CLASS (odd_record_window_parent_class)->finalize (object);
}

static void
odd_record_window_class_init (OddRecordWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = odd_record_window_dispose;
  G_OBJECT_CLASS (klass)->finalize = odd_record_window_finalize;
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/record-window.ui");
  gtk_widget_class_bind_template_child (widget_class, OddRecordWindow, search);
  gtk_widget_class_bind_template_child (widget_class, OddRecordWindow, stack);
  gtk_widget_class_bind_template_child (widget_class, OddRecordWindow, list);
  gtk_widget_class_bind_template_child (widget_class, OddRecordWindow, hint);
  gtk_widget_class_bind_template_callback (widget_class, search_cb);
  gtk_widget_class_bind_template_callback (widget_class, stop_cb);
  gtk_widget_class_bind_template_callback (widget_class, activate_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
odd_record_window_init (OddRecordWindow *self)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  GtkFilterListModel *filtered;

  gtk_widget_init_template (GTK_WIDGET (self));
  self->entries = g_list_store_new (ODD_TYPE_RECORD_ENTRY);
  self->filter = GTK_FILTER (gtk_custom_filter_new (matches, self, NULL));
  filtered = gtk_filter_list_model_new (g_object_ref (G_LIST_MODEL (self->entries)), self->filter);
  g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), NULL);
  gtk_list_view_set_factory (self->list, factory);
  gtk_list_view_set_model (self->list, GTK_SELECTION_MODEL (gtk_single_selection_new (G_LIST_MODEL (filtered))));
  gtk_search_entry_set_key_capture_widget (self->search, GTK_WIDGET (self));
  g_object_unref (factory);
}

static OddRecordWindow *
find_open (GtkWindow *parent)
{
  g_autoptr(GList) windows = gtk_window_list_toplevels ();

  for (GList *l = windows; l != NULL; l = l->next)
    if (ODD_IS_RECORD_WINDOW (l->data) && gtk_window_get_transient_for (l->data) == parent)
      return l->data;
  return NULL;
}

void
odd_record_window_present (GtkWindow    *parent,
                           OddDocument  *document,
                           OddSelection *selection,
                           int           unit)
{
  OddRecordWindow *self = find_open (parent);

  if (self == NULL)
    {
      self = g_object_new (ODD_TYPE_RECORD_WINDOW, "transient-for", parent, "destroy-with-parent", TRUE, NULL);
      self->document = g_object_ref (document);
      self->selection = g_object_ref (selection);
      self->unit = unit;
      g_signal_connect_object (document, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
      follow (self);
    }
  gtk_window_present (GTK_WINDOW (self));
}
