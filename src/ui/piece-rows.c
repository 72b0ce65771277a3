#include "config.h"

#include "ui/piece-rows.h"

#include "ui/deed.h"

#include <glib/gi18n.h>

#include "sewing/act.h"
#include "sewing/piece-ends.h"
#include "ui/piece-cut-dialog.h"
#include "ui/toast.h"

struct _OddPieceRows
{
  GtkBox parent_instance;
  OddPane *pane;               /* not owned: the pane it lies in */
  OddId scrap_id;
  GtkWidget *ends_title;
  GtkListBox *ends;
  GtkListBox *parts;
  GtkWidget *cut;
  GtkWidget *apart;
};

G_DEFINE_FINAL_TYPE (OddPieceRows, odd_piece_rows, GTK_TYPE_BOX)

static void
cut_cb (OddPieceRows *self)
{
  odd_piece_cut_dialog_present (GTK_WIDGET (self), odd_pane_get_document (self->pane), odd_pane_get_selection (self->pane), self->scrap_id,
                                odd_pane_get_unit (self->pane));
}

static void
apart_cb (OddPieceRows *self)
{
  const OddId panel_id = odd_job_get_scrap (odd_pane_get_job (self->pane), self->scrap_id)->piece->id;
  const OddAct act = { .kind = ODD_ACT_PIECE, .scrap_id = self->scrap_id, .state = ODD_STATE_OPEN, .clock_s = odd_now_s () };
  g_autoptr(GError) error = NULL;

  if (odd_pane_apply (self->pane, odd_job_do (odd_pane_get_job (self->pane), &act, &error), &error, _("Make a piece a panel again")))
    odd_pane_select (self->pane, ODD_SELECTED_PANEL, panel_id);
}

static void
part_cb (OddPieceRows  *self,
         GtkListBoxRow *row)
{
  odd_pane_select (self->pane, ODD_SELECTED_SCRAP, GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (row), "scrap")));
}

static void
secure_cb (GtkWidget    *button,
           OddPieceRows *self)
{
  const OddAct act = {
    .kind = ODD_ACT_SECURE,
    .scrap_id = self->scrap_id,
    .seam_id = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "seam")),
    .end = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "end")),
    .state = ODD_STATE_DONE,
    .clock_s = odd_now_s (),
  };
  g_autoptr(GError) error = NULL;

  odd_pane_apply (self->pane, odd_job_do (odd_pane_get_job (self->pane), &act, &error), &error, _("Back-stitch a cut end"));
}

static void
empty (GtkListBox *list)
{
  GtkListBoxRow *row;

  while ((row = gtk_list_box_get_row_at_index (list, 0)) != NULL)
    gtk_list_box_remove (list, GTK_WIDGET (row));
}

static void
show_ends (OddPieceRows *self,
           OddJob       *job,
           OddScrap     *scrap)
{
  g_autoptr(GArray) ends = odd_job_dup_piece_ends (job, scrap);

  empty (self->ends);
  for (guint i = 0; i < ends->len; i++)
    {
      const OddPieceEnd *end = &g_array_index (ends, OddPieceEnd, i);
      GtkWidget *row = adw_action_row_new ();
      GtkWidget *button = gtk_button_new_with_label (_("Back-stitch"));

      g_object_set_data (G_OBJECT (button), "seam", GUINT_TO_POINTER (end->seam_id));
      g_object_set_data (G_OBJECT (button), "end", GUINT_TO_POINTER (end->end));
      g_signal_connect (button, "clicked", G_CALLBACK (secure_cb), self);
      gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
      adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), end->text);
      adw_action_row_set_subtitle (ADW_ACTION_ROW (row), _("cut, comes undone"));
      adw_action_row_add_suffix (ADW_ACTION_ROW (row), button);
      gtk_list_box_append (self->ends, row);
    }
  gtk_widget_set_visible (self->ends_title, ends->len > 0);
  gtk_widget_set_visible (GTK_WIDGET (self->ends), ends->len > 0);
}

/* One row a scrap, though several patches may lie on it. */
static void
show_parts (OddPieceRows *self,
            OddJob       *job,
            OddScrap     *scrap)
{
  g_autoptr(OddLayout) layout = odd_job_dup_piece_layout (job, scrap);
  g_autoptr(GHashTable) seen = g_hash_table_new (NULL, NULL);

  empty (self->parts);
  for (guint i = 0; i < layout->n_patches; i++)
    {
      OddScrap *part = layout->patches[i].scrap;
      GtkWidget *row;
      g_autofree char *title = NULL;
      g_autofree char *cloth = NULL;

      if (part == NULL || !g_hash_table_add (seen, part))
        continue;
      row = adw_action_row_new ();
      title = g_strdup_printf (_("Scrap %u"), part->number);
      cloth = odd_job_dup_scrap_cloth_name (job, part);
      g_object_set_data (G_OBJECT (row), "scrap", GUINT_TO_POINTER (part->id));
      gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), TRUE);
      adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
      adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
      adw_action_row_set_subtitle (ADW_ACTION_ROW (row), cloth);
      adw_action_row_add_suffix (ADW_ACTION_ROW (row), gtk_image_new_from_icon_name ("go-next-symbolic"));
      gtk_list_box_append (self->parts, row);
    }
}

void
odd_piece_rows_show (OddPieceRows *self,
                     OddPane      *pane,
                     OddScrap     *scrap)
{
  OddJob *job = odd_pane_get_job (pane);
  const gboolean free = odd_job_get_scrap_state (job, scrap->id) == ODD_SCRAP_FREE;

  g_return_if_fail (ODD_IS_PIECE_ROWS (self));

  self->pane = pane;
  self->scrap_id = scrap->id;
  gtk_widget_set_visible (GTK_WIDGET (self), scrap->piece != NULL);
  if (scrap->piece == NULL)
    return;
  show_ends (self, job, scrap);
  show_parts (self, job, scrap);
  gtk_widget_set_sensitive (self->cut, free);
  gtk_widget_set_visible (self->apart, scrap->parent_id == 0);
  gtk_widget_set_sensitive (self->apart, free);
}

static GtkWidget *
add_title (OddPieceRows *self,
           const char   *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0.0);
  gtk_widget_set_margin_top (label, 15);
  gtk_widget_add_css_class (label, "heading");
  gtk_box_append (GTK_BOX (self), label);
  return label;
}

static GtkListBox *
add_list (OddPieceRows *self,
          const char   *name)
{
  GtkWidget *list = gtk_list_box_new ();

  gtk_list_box_set_selection_mode (GTK_LIST_BOX (list), GTK_SELECTION_NONE);
  gtk_widget_set_margin_top (list, 6);
  gtk_widget_add_css_class (list, "boxed-list");
  gtk_accessible_update_property (GTK_ACCESSIBLE (list), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_box_append (GTK_BOX (self), list);
  return GTK_LIST_BOX (list);
}

static GtkWidget *
add_button (OddPieceRows *self,
            const char   *text,
            GCallback     clicked)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (text);

  gtk_widget_set_margin_top (button, 6);
  gtk_box_append (GTK_BOX (self), button);
  g_signal_connect_swapped (button, "clicked", clicked, self);
  return button;
}

static void
odd_piece_rows_class_init (OddPieceRowsClass *klass)
{
}

static void
odd_piece_rows_init (OddPieceRows *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  self->ends_title = add_title (self, _("Ends to secure"));
  self->ends = add_list (self, _("Ends to secure"));
  add_title (self, _("Sewn from"));
  self->parts = add_list (self, _("Scraps it is sewn from"));
  g_signal_connect_swapped (self->parts, "row-activated", G_CALLBACK (part_cb), self);
  gtk_widget_set_margin_bottom (GTK_WIDGET (self->parts), 6);
  self->cut = add_button (self, _("Cut a_cross…"), G_CALLBACK (cut_cb));
  self->apart = add_button (self, _("Make it a _panel again"), G_CALLBACK (apart_cb));
}
