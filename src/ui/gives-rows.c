#include "config.h"

#include "ui/gives-rows.h"

#include <glib/gi18n.h>

#include "ui/gives-words.h"
#include "ui/template-entry.h"

struct _OddGivesRows
{
  AdwBin parent_instance;
  OddCutCounter *counter;
  OddId scrap_id;
  OddUnit unit;
  OddScrapView *view;              /* not owned: it lies in the same pane */
  gboolean watching;
  AdwActionRow *row;
  GtkToggleButton *drawn;
  OddTemplateEntry *size;
};

G_DEFINE_FINAL_TYPE (OddGivesRows, odd_gives_rows, ADW_TYPE_BIN)

static void
say (OddGivesRows *self,
     char         *title,
     char         *subtitle)
{
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->row), title);
  adw_action_row_set_subtitle (self->row, subtitle);
  g_free (title);
  g_free (subtitle);
}

static void
refresh (OddGivesRows *self)
{
  OddGives *gives = odd_cut_counter_get_gives (self->counter);
  const char *complaint = odd_cut_counter_get_complaint (self->counter);
  const OddScrapGives *scrap = gives != NULL ? odd_gives_find (gives, self->scrap_id) : NULL;

  if (gives != NULL)
    say (self, odd_gives_dup_title (gives, scrap), odd_gives_dup_subtitle (gives, scrap, self->unit));
  else if (complaint != NULL)
    say (self, g_strdup (_("Not yet clear")), g_strdup (complaint));
  gtk_widget_set_sensitive (GTK_WIDGET (self->drawn), scrap != NULL && scrap->pieces->len > 0);
  odd_scrap_view_set_gives (self->view, gtk_toggle_button_get_active (self->drawn) ? gives : NULL);
}

static void
connect_counter (OddGivesRows *self,
                 OddDocument  *document)
{
  if (self->counter != NULL)
    return;
  self->counter = g_object_ref (odd_cut_counter_get (document));
  g_signal_connect_object (self->counter, "counted", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  g_object_bind_property (self->counter, "drawn", self->drawn, "active", G_BINDING_SYNC_CREATE | G_BINDING_BIDIRECTIONAL);
  g_signal_connect_object (self->drawn, "notify::active", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  odd_template_entry_set_counter (self->size, self->counter);
}

static void
watch (OddGivesRows *self)
{
  const gboolean watching = self->counter != NULL && gtk_widget_get_mapped (GTK_WIDGET (self));

  if (watching == self->watching)
    return;
  self->watching = watching;
  if (watching)
    odd_cut_counter_watch (self->counter);
  else
    odd_cut_counter_unwatch (self->counter);
}

/* A scrap that is cut out or gone gives nothing any more; nobody asks. */
void
odd_gives_rows_show (OddGivesRows *self,
                     OddDocument  *document,
                     OddScrap     *scrap,
                     OddUnit       unit,
                     OddScrapView *view)
{
  g_return_if_fail (ODD_IS_GIVES_ROWS (self) && ODD_IS_DOCUMENT (document) && scrap != NULL && ODD_IS_SCRAP_VIEW (view));

  self->scrap_id = scrap->id;
  self->unit = unit;
  self->view = view;
  gtk_widget_set_visible (GTK_WIDGET (self), !scrap->cut_out && !scrap->gone);
  g_object_set (self->size, "unit", (int) unit, NULL);
  connect_counter (self, document);
  watch (self);
  refresh (self);
}

static void
odd_gives_rows_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (odd_gives_rows_parent_class)->map (widget);
  watch (ODD_GIVES_ROWS (widget));
}

static void
odd_gives_rows_unmap (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (odd_gives_rows_parent_class)->unmap (widget);
  watch (ODD_GIVES_ROWS (widget));
}

static void
odd_gives_rows_dispose (GObject *object)
{
  OddGivesRows *self = ODD_GIVES_ROWS (object);

  if (self->watching)
    odd_cut_counter_unwatch (self->counter);
  self->watching = FALSE;
  g_clear_object (&self->counter);
  G_OBJECT_CLASS (odd_gives_rows_parent_class)->dispose (object);
}

static void
odd_gives_rows_class_init (OddGivesRowsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = odd_gives_rows_dispose;
  GTK_WIDGET_CLASS (klass)->map = odd_gives_rows_map;
  GTK_WIDGET_CLASS (klass)->unmap = odd_gives_rows_unmap;
}

static AdwActionRow *
add_row (GtkWidget *list,
         GtkWidget *suffix)
{
  GtkWidget *row = adw_action_row_new ();

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_action_row_set_title_lines (ADW_ACTION_ROW (row), 0);
  adw_action_row_set_subtitle_lines (ADW_ACTION_ROW (row), 0);
  gtk_widget_set_valign (suffix, GTK_ALIGN_CENTER);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), suffix);
  gtk_list_box_append (GTK_LIST_BOX (list), row);
  return ADW_ACTION_ROW (row);
}

static void
odd_gives_rows_init (OddGivesRows *self)
{
  GtkWidget *list = gtk_list_box_new ();

  gtk_list_box_set_selection_mode (GTK_LIST_BOX (list), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (list, "boxed-list");
  self->drawn = GTK_TOGGLE_BUTTON (gtk_toggle_button_new ());
  gtk_button_set_icon_name (GTK_BUTTON (self->drawn), "view-reveal-symbolic");
  gtk_widget_add_css_class (GTK_WIDGET (self->drawn), "flat");
  self->size = g_object_new (ODD_TYPE_TEMPLATE_ENTRY, NULL);
  self->row = add_row (list, GTK_WIDGET (self->drawn));
  adw_action_row_set_activatable_widget (self->row, GTK_WIDGET (self->drawn));
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->drawn), _("Draw them on the scrap"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->drawn), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Draw them on the scrap"), -1);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (add_row (list, GTK_WIDGET (self->size))), _("Cut"));
  adw_bin_set_child (ADW_BIN (self), list);
}
