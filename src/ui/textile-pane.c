#include "config.h"

#include "ui/textile-pane.h"

#include <glib/gi18n.h>

#include "sewing/progress.h"
#include "ui/length-entry.h"
#include "ui/merger-row.h"
#include "ui/size-rows.h"
#include "ui/treatment-rows.h"

struct _OddTextilePane
{
  OddPane parent_instance;
  GtkLabel *title;
  GtkLabel *subtitle;
  GtkLabel *size;
  GtkLabel *raw;
  AdwActionRow *width_row;
  AdwActionRow *length_row;
  OddLengthEntry *target_width;
  OddLengthEntry *target_length;
  GtkListBox *panels;
  GtkWidget *no_panels;
  GtkWidget *joins_title;
  GtkListBox *joins;
  OddSizeRows *sizes;
  OddTreatmentRows *treatment;
  GtkLabel *n_patches;
  GtkLabel *n_done;
  GtkWidget *raw_inside_row;
  GtkLabel *n_raw_inside;
};

G_DEFINE_FINAL_TYPE (OddTextilePane, odd_textile_pane, ODD_TYPE_PANE)

/* A selected textile, else the one on the table. */
static OddTextile *
find (OddPane *pane)
{
  OddJob *job = odd_pane_get_job (pane);
  OddTextile *textile = NULL;

  if (odd_pane_get_kind (pane) == ODD_SELECTED_TEXTILE)
    textile = odd_job_get_textile (job, odd_pane_get_id (pane));
  if (textile == NULL)
    textile = odd_job_get_textile (job, odd_pane_get_textile_id (pane));
  if (textile == NULL && job->textiles->len > 0)
    textile = g_ptr_array_index (job->textiles, 0);
  return textile;
}

/* --- what the maker does --- */

static void
target_cb (OddTextilePane *self)
{
  OddPane *pane = ODD_PANE (self);
  OddTextile *textile = find (pane);
  const double width = odd_length_entry_get_value (self->target_width), length = odd_length_entry_get_value (self->target_length);
  g_autoptr(GError) error = NULL;

  if (odd_pane_is_refreshing (pane) || textile == NULL)
    return;
  odd_pane_apply (pane, odd_job_set_target (odd_pane_get_job (pane), textile->id, isnan (width) ? 0.0 : width, isnan (length) ? 0.0 : length, &error),
                  &error, _("Set the wanted size"));
}

static void
move_cb (OddTextilePane *self,
         int             to,
         OddMergerRow   *row)
{
  OddPane *pane = ODD_PANE (self);
  OddTextile *textile = find (pane);
  const OddId panel_id = odd_merger_row_get_panel_id (row);
  GtkListBoxRow *moved;
  g_autoptr(GError) error = NULL;

  if (textile == NULL || to < 0 || (guint) to >= textile->n_hung)
    return;
  if (!odd_pane_apply (pane, odd_job_move_panel (odd_pane_get_job (pane), panel_id, textile->id, to, &error), &error, _("Move a panel")))
    return;
  /* rows stay where they are and show another panel: the keyboard goes with the panel */
  moved = gtk_list_box_get_row_at_index (self->panels, to);
  if (moved != NULL && gtk_widget_get_mapped (GTK_WIDGET (moved)))
    gtk_widget_grab_focus (GTK_WIDGET (moved));
}

static void
turn_cb (OddTextilePane *self,
         OddMergerRow   *row)
{
  OddPane *pane = ODD_PANE (self);
  g_autoptr(GError) error = NULL;

  odd_pane_apply (pane, odd_job_turn_panel (odd_pane_get_job (pane), odd_merger_row_get_panel_id (row), &error), &error, _("Turn panel over end"));
}

static void
offset_cb (OddTextilePane *self,
           double          mm,
           OddMergerRow   *row)
{
  OddPane *pane = ODD_PANE (self);
  g_autoptr(GError) error = NULL;

  odd_pane_apply (pane, odd_job_set_panel_offset (odd_pane_get_job (pane), odd_merger_row_get_panel_id (row), mm, &error), &error,
                  _("Set the offset of a panel"));
}

static void
panel_activated_cb (OddTextilePane *self,
                    OddMergerRow   *row)
{
  odd_pane_select (ODD_PANE (self), ODD_SELECTED_PANEL, odd_merger_row_get_panel_id (row));
}

static void
join_activated_cb (OddTextilePane *self,
                   GtkListBoxRow  *row)
{
  OddTextile *textile = find (ODD_PANE (self));
  const int i = gtk_list_box_row_get_index (row);

  if (textile != NULL && i >= 0 && (guint) i + 1 < textile->n_hung)
    odd_pane_select (ODD_PANE (self), ODD_SELECTED_SEAM, textile->joins[i].id);
}

static void
add_textile (GtkWidget  *widget,
             const char *action,
             GVariant   *parameter)
{
  OddPane *pane = ODD_PANE (widget);
  OddId id = 0;
  g_autoptr(GError) error = NULL;

  if (odd_pane_apply (pane, odd_job_add_textile (odd_pane_get_job (pane), "", &id, &error), &error, _("Add a textile")))
    odd_pane_select (pane, ODD_SELECTED_TEXTILE, id);
}

static void
remove_textile (GtkWidget  *widget,
                const char *action,
                GVariant   *parameter)
{
  OddPane *pane = ODD_PANE (widget);
  OddTextile *textile = find (pane);
  g_autoptr(GError) error = NULL;

  if (textile != NULL)
    odd_pane_apply (pane, odd_job_remove_textile (odd_pane_get_job (pane), textile->id, &error), &error, _("Remove a textile"));
}

static void
rename_answer_cb (OddTextilePane   *self,
                  const char       *response,
                  AdwMessageDialog *dialog)
{
  OddPane *pane = ODD_PANE (self);
  OddTextile *textile = find (pane);
  const char *name = gtk_editable_get_text (GTK_EDITABLE (adw_message_dialog_get_extra_child (dialog)));
  g_autoptr(GError) error = NULL;

  if (g_str_equal (response, "rename") && textile != NULL && !g_str_equal (name, textile->name))
    odd_pane_apply (pane, odd_job_set_textile_name (odd_pane_get_job (pane), textile->id, name, &error), &error, _("Rename the textile"));
}

static void
rename_textile (GtkWidget  *widget,
                const char *action,
                GVariant   *parameter)
{
  OddTextile *textile = find (ODD_PANE (widget));
  GtkRoot *root = gtk_widget_get_root (widget);
  GtkWidget *dialog = adw_message_dialog_new (GTK_IS_WINDOW (root) ? GTK_WINDOW (root) : NULL, _("Name of the textile"), NULL);
  GtkWidget *entry = gtk_entry_new ();

  gtk_editable_set_text (GTK_EDITABLE (entry), textile != NULL ? textile->name : "");
  gtk_entry_set_activates_default (GTK_ENTRY (entry), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Name"), -1);
  adw_message_dialog_set_extra_child (ADW_MESSAGE_DIALOG (dialog), entry);
  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "cancel", _("_Cancel"), "rename", _("_Rename"), NULL);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "rename");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  g_signal_connect_object (dialog, "response", G_CALLBACK (rename_answer_cb), widget, G_CONNECT_SWAPPED);
  gtk_window_present (GTK_WINDOW (dialog));
}

/* --- what is shown --- */

static char *
dup_width_word (const OddTextileLayout *layout,
                OddUnit                 unit)
{
  const guint panels = odd_textile_layout_panels_missing (layout);
  g_autofree char *missing = odd_length_format (layout->missing_width_mm, unit);
  g_autofree char *surplus = odd_length_format (layout->surplus_width_mm, unit);

  if (layout->textile->target_width_mm <= 0.0)
    return g_strdup (_("not said"));
  if (layout->missing_width_mm > 0.05 && panels > 0)
    return g_strdup_printf (ngettext ("%s missing: %u panel", "%s missing: %u panels", panels), missing, panels);
  if (layout->missing_width_mm > 0.05)
    return g_strdup_printf (_("%s missing"), missing);
  if (layout->surplus_width_mm > 0.05)
    return g_strdup_printf (_("reached, %s more"), surplus);
  return g_strdup (_("reached"));
}

static char *
dup_length_word (const OddTextileLayout *layout,
                 OddUnit                 unit)
{
  g_autofree char *missing = odd_length_format (layout->missing_length_mm, unit);
  g_autofree char *surplus = odd_length_format (layout->surplus_length_mm, unit);

  if (layout->textile->target_length_mm <= 0.0)
    return g_strdup (_("not said"));
  if (layout->missing_length_mm > 0.05)
    return g_strdup_printf (_("%s missing"), missing);
  if (layout->surplus_length_mm > 0.05)
    return g_strdup_printf (_("reached, %s more"), surplus);
  return g_strdup (_("reached"));
}

static void
show_sizes (OddTextilePane         *self,
            const OddTextileLayout *layout,
            OddUnit                 unit)
{
  OddTextile *textile = layout->textile;
  g_autofree char *width = dup_width_word (layout, unit);
  g_autofree char *length = dup_length_word (layout, unit);

  odd_label_take (self->size, odd_length_format_pair (layout->finished_width_mm, layout->finished_length_mm, unit));
  odd_label_take (self->raw, odd_length_format_pair (layout->raw_width_mm, layout->raw_length_mm, unit));
  adw_action_row_set_subtitle (self->width_row, width);
  adw_action_row_set_subtitle (self->length_row, length);
  g_object_set (self->target_width, "unit", (int) unit, NULL);
  g_object_set (self->target_length, "unit", (int) unit, NULL);
  odd_length_entry_set_value (self->target_width, textile->target_width_mm > 0.0 ? textile->target_width_mm : NAN);
  odd_length_entry_set_value (self->target_length, textile->target_length_mm > 0.0 ? textile->target_length_mm : NAN);
}

static GtkWidget *
make_merger_row (OddTextilePane *self)
{
  GtkWidget *row = odd_merger_row_new ();

  g_signal_connect_object (row, "move", G_CALLBACK (move_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (row, "turn", G_CALLBACK (turn_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (row, "offset", G_CALLBACK (offset_cb), self, G_CONNECT_SWAPPED);
  return row;
}

/* As many rows as wanted; those that are there are kept: one of them may be telling us right now. */
static void
set_n_rows (GtkListBox     *list,
            guint           n,
            GtkWidget    *(*make) (OddTextilePane *self),
            OddTextilePane *self)
{
  guint have = 0;
  GtkListBoxRow *surplus;

  while (gtk_list_box_get_row_at_index (list, have) != NULL)
    have++;
  for (; have < n; have++)
    gtk_list_box_append (list, make (self));
  while ((surplus = gtk_list_box_get_row_at_index (list, n)) != NULL)
    gtk_list_box_remove (list, GTK_WIDGET (surplus));
}

static void
show_panels (OddTextilePane   *self,
             OddJob           *job,
             OddTextileLayout *layout,
             OddUnit           unit)
{
  OddPane *pane = ODD_PANE (self);
  const OddId selected = odd_pane_get_kind (pane) == ODD_SELECTED_PANEL ? odd_pane_get_id (pane) : 0;

  set_n_rows (self->panels, layout->n_panels, make_merger_row, self);
  gtk_list_box_unselect_all (self->panels);
  for (guint i = 0; i < layout->n_panels; i++)
    {
      GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->panels, i);

      odd_merger_row_show (ODD_MERGER_ROW (row), job, layout, i, unit);
      if (layout->panels[i].panel_id == selected)
        gtk_list_box_select_row (self->panels, row);
    }
  gtk_widget_set_visible (GTK_WIDGET (self->panels), layout->n_panels > 0);
  gtk_widget_set_visible (self->no_panels, layout->n_panels == 0);
}

static GtkWidget *
make_join_row (OddTextilePane *self)
{
  GtkWidget *row = adw_action_row_new ();

  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), TRUE);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), gtk_image_new_from_icon_name ("go-next-symbolic"));
  return row;
}

static void
show_joins (OddTextilePane         *self,
            OddJob                 *job,
            const OddTextileLayout *layout,
            OddUnit                 unit)
{
  set_n_rows (self->joins, layout->n_joins, make_join_row, self);
  for (guint i = 0; i < layout->n_joins; i++)
    {
      const OddLaidJoin *join = &layout->joins[i];
      GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->joins, i);
      g_autofree char *allowance = odd_length_format (join->allowance_mm, unit);
      g_autofree char *title = g_strdup_printf (_("Join %u · %u"), i + 1, i + 2);
      g_autofree char *about = g_strdup_printf ("%s, %s, %s", join->finish->name, allowance, odd_stage_get_name (odd_seam_get_stage (join->join, join->finish)));

      adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
      adw_action_row_set_subtitle (ADW_ACTION_ROW (row), about);
    }
  gtk_widget_set_visible (GTK_WIDGET (self->joins), layout->n_joins > 0);
  gtk_widget_set_visible (self->joins_title, layout->n_joins > 0);
}

static void
show_counts (OddTextilePane         *self,
             OddJob                 *job,
             const OddTextileLayout *layout)
{
  const OddWorkCount count = odd_job_count_work (job, layout->textile->id);
  guint n_patches = 0;

  for (guint i = 0; i < layout->n_panels; i++)
    n_patches += layout->panels[i].layout->n_patches;
  odd_label_take (self->n_patches, g_strdup_printf ("%u", n_patches));
  odd_label_take (self->n_done, g_strdup_printf (_("%u of %u"), count.n_done, count.n_seams));
  odd_label_take (self->n_raw_inside, g_strdup_printf ("%u", count.n_raw_inside));
  gtk_widget_set_visible (self->raw_inside_row, count.n_raw_inside > 0);
}

static void
odd_textile_pane_refresh (OddPane *pane)
{
  OddTextilePane *self = ODD_TEXTILE_PANE (pane);
  OddJob *job = odd_pane_get_job (pane);
  const OddUnit unit = odd_pane_get_unit (pane);
  OddTextile *textile = find (pane);
  g_autoptr(OddTextileLayout) layout = NULL;
  g_autoptr(GArray) scopes = NULL;

  if (textile == NULL)
    return;
  scopes = odd_scopes_of_textile (job, textile);
  layout = odd_job_dup_textile_layout (job, textile->id);
  odd_label_take (self->title, odd_job_dup_textile_name (job, textile));
  odd_label_take (self->subtitle, layout->n_panels == 1 ? g_strdup (_("One panel is a start. Add a second to join them."))
                                    : g_strdup_printf (ngettext ("%u panel joined", "%u panels joined", layout->n_panels), layout->n_panels));
  show_sizes (self, layout, unit);
  gtk_widget_set_visible (GTK_WIDGET (self->sizes), layout->n_panels > 0);
  odd_size_rows_show (self->sizes, job, textile->id, unit);
  show_panels (self, job, layout, unit);
  show_joins (self, job, layout, unit);
  odd_treatment_rows_show (self->treatment, pane, scopes);
  show_counts (self, job, layout);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "textile.remove", job->textiles->len > 1);
}

static void
odd_textile_pane_class_init (OddTextilePaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  ODD_PANE_CLASS (klass)->refresh = odd_textile_pane_refresh;
  g_type_ensure (ODD_TYPE_LENGTH_ENTRY);
  g_type_ensure (ODD_TYPE_SIZE_ROWS);
  g_type_ensure (ODD_TYPE_TREATMENT_ROWS);
  gtk_widget_class_install_action (widget_class, "textile.add", NULL, add_textile);
  gtk_widget_class_install_action (widget_class, "textile.remove", NULL, remove_textile);
  gtk_widget_class_install_action (widget_class, "textile.rename", NULL, rename_textile);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/textile-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, OddTextilePane, title);
  gtk_widget_class_bind_template_child (widget_class, OddTextilePane, subtitle);
  gtk_widget_class_bind_template_child (widget_class, OddTextilePane, size);
  gtk_widget_class_bind_template_child (widget_class, OddTextilePane, raw);
  gtk_widget_class_bind_template_child (widget_class, OddTextilePane, width_row);
  gtk_widget_class_bind_template_child (widget_class, OddTextilePane, length_row);
  gtk_widget_class_bind_template_child (widget_class, OddTextilePane, target_width);
  gtk_widget_class_bind_template_child (widget_class, OddTextilePane, target_length);
  gtk_widget_class_bind_template_child (widget_class, OddTextilePane, panels);
  gtk_widget_class_bind_template_child (widget_class, OddTextilePane, no_panels);
  gtk_widget_class_bind_template_child (widget_class, OddTextilePane, joins_title);
  gtk_widget_class_bind_template_child (widget_class, OddTextilePane, joins);
  gtk_widget_class_bind_template_child (widget_class, OddTextilePane, sizes);
  gtk_widget_class_bind_template_child (widget_class, OddTextilePane, treatment);
  gtk_widget_class_bind_template_child (widget_class, OddTextilePane, n_patches);
  gtk_widget_class_bind_template_child (widget_class, OddTextilePane, n_done);
  gtk_widget_class_bind_template_child (widget_class, OddTextilePane, raw_inside_row);
  gtk_widget_class_bind_template_child (widget_class, OddTextilePane, n_raw_inside);
  gtk_widget_class_bind_template_callback (widget_class, target_cb);
  gtk_widget_class_bind_template_callback (widget_class, panel_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, join_activated_cb);
}

static void
odd_textile_pane_init (OddTextilePane *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
