#include "config.h"

#include "ui/panel-pane.h"

#include "ui/deed.h"

#include <glib/gi18n.h>

#include "sewing/act.h"
#include "sewing/progress.h"
#include "ui/seam-picture.h"
#include "ui/size-rows.h"
#include "ui/text-entry.h"
#include "ui/toast.h"
#include "ui/treatment-rows.h"

struct _OddPanelPane
{
  OddPane parent_instance;
  GtkLabel *title;
  GtkLabel *subtitle;
  OddSeamPicture *picture;
  OddTextEntry *name;
  GtkLabel *finished;
  GtkLabel *alone;
  GtkLabel *raw;
  GtkWidget *trim_row;
  GtkLabel *trims;
  GtkLabel *patches;
  OddSizeRows *sizes;
  OddTreatmentRows *treatment;
  AdwActionRow *work_rows[4];     /* by OddWork */
  GtkButton *mark_buttons[4];
  GtkToggleButton *lock;
  GtkWidget *hang_button;
  GtkWidget *scraps_button;
  GtkWidget *turn_button;
};

G_DEFINE_FINAL_TYPE (OddPanelPane, odd_panel_pane, ODD_TYPE_PANE)

static OddPanel *
find (OddPane     *pane,
      OddTextile **out_textile,
      guint       *out_index)
{
  if (odd_pane_get_kind (pane) != ODD_SELECTED_PANEL)
    return NULL;
  return odd_job_get_panel (odd_pane_get_job (pane), odd_pane_get_id (pane), out_textile, out_index);
}

static void
turn (GtkWidget  *widget,
      const char *action,
      GVariant   *parameter)
{
  OddPane *pane = ODD_PANE (widget);
  g_autoptr(GError) error = NULL;

  odd_pane_apply (pane, odd_job_turn_panel (odd_pane_get_job (pane), odd_pane_get_id (pane), &error), &error, _("Turn panel over end"));
}

static void
take_off_last (GtkWidget  *widget,
               const char *action,
               GVariant   *parameter)
{
  OddPane *pane = ODD_PANE (widget);
  g_autoptr(GError) error = NULL;

  odd_pane_apply (pane, odd_job_take_off_last (odd_pane_get_job (pane), odd_pane_get_id (pane), &error), &error, _("Take off last seam"));
}

static void
remove_panel (GtkWidget  *widget,
              const char *action,
              GVariant   *parameter)
{
  OddPane *pane = ODD_PANE (widget);
  g_autoptr(GError) error = NULL;

  odd_pane_apply (pane, odd_job_remove_panel (odd_pane_get_job (pane), odd_pane_get_id (pane), &error), &error, _("Remove a panel"));
}

/* A loose panel goes last into the textile on the table. */
static void
hang (GtkWidget  *widget,
      const char *action,
      GVariant   *parameter)
{
  OddPane *pane = ODD_PANE (widget);
  g_autoptr(GError) error = NULL;

  odd_pane_apply (pane, odd_job_move_panel (odd_pane_get_job (pane), odd_pane_get_id (pane), odd_pane_get_textile_id (pane), G_MAXUINT, &error),
                  &error, _("Hang a panel in the textile"));
}

static void
take_down (GtkWidget  *widget,
           const char *action,
           GVariant   *parameter)
{
  OddPane *pane = ODD_PANE (widget);
  g_autoptr(GError) error = NULL;

  odd_pane_apply (pane, odd_job_move_panel (odd_pane_get_job (pane), odd_pane_get_id (pane), 0, G_MAXUINT, &error), &error,
                  _("Take a panel out of the textile"));
}

/* Sewn, it is cloth like any other; what is not finished yet can hardly be reached any more, so that is told. */
static void
to_scraps (GtkWidget  *widget,
           const char *action,
           GVariant   *parameter)
{
  OddPane *pane = ODD_PANE (widget);
  g_autoptr(OddLayout) layout = odd_job_dup_layout (odd_pane_get_job (pane), odd_pane_get_id (pane));
  const OddWorkCount count = odd_layout_count_work (layout);
  const guint open = count.n[ODD_WORK_FINISH] + count.n[ODD_WORK_PRESS];
  g_autoptr(GError) error = NULL;
  const OddAct act = { .kind = ODD_ACT_PIECE, .panel_id = odd_pane_get_id (pane), .state = ODD_STATE_DONE, .clock_s = odd_now_s () };
  g_autofree char *text = NULL;
  GPtrArray *scraps;

  if (!odd_pane_apply (pane, odd_job_do (odd_pane_get_job (pane), &act, &error), &error, _("Put a piece among the scraps")))
    return;
  scraps = odd_pane_get_job (pane)->scraps;
  odd_pane_select (pane, ODD_SELECTED_SCRAP, ((OddScrap *) scraps->pdata[scraps->len - 1])->id);
  if (open > 0)
    text = g_strdup_printf (ngettext ("Among the scraps now. %u seam is not finished and pressed: do that before it is sewn over.",
                                      "Among the scraps now. %u seams are not finished and pressed: do that before they are sewn over.", open), open);
  else
    text = g_strdup (_("Among the scraps now"));
  odd_toast (widget, text, _("Undo"), "win.undo");
}

static void
show_hung (OddPanelPane *self,
           OddTextile   *textile)
{
  const gboolean is_hung = textile != NULL;

  gtk_widget_action_set_enabled (GTK_WIDGET (self), "panel.hang", !is_hung && odd_pane_get_textile_id (ODD_PANE (self)) != 0);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "panel.take-down", is_hung);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "panel.to-scraps", !is_hung);
  gtk_widget_set_visible (self->scraps_button, !is_hung);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "panel.turn", is_hung);
  gtk_widget_set_visible (self->hang_button, !is_hung);
  gtk_widget_set_visible (self->turn_button, is_hung);
}

static void
name_cb (OddPanelPane *self,
         guint         panel_id,
         const char   *name)
{
  OddPane *pane = ODD_PANE (self);
  g_autoptr(GError) error = NULL;

  odd_pane_apply (pane, odd_job_set_panel_name (odd_pane_get_job (pane), panel_id, name, &error), &error, _("Rename a panel"));
}

static void
lock_cb (OddPanelPane *self)
{
  OddPane *pane = ODD_PANE (self);
  const gboolean locked = gtk_toggle_button_get_active (self->lock);
  g_autoptr(GError) error = NULL;

  if (odd_pane_is_refreshing (pane))
    return;
  odd_pane_apply (pane, odd_job_set_lock (odd_pane_get_job (pane), odd_pane_get_id (pane), locked, &error), &error,
                  locked ? _("Lock a panel") : _("Unlock a panel"));
}

static const char *
work_label (OddWork work)
{
  switch (work)
    {
    case ODD_WORK_SEW: return _("Mark a panel sewn");
    case ODD_WORK_FINISH: return _("Mark a panel finished");
    case ODD_WORK_PRESS: return _("Mark a panel pressed");
    default: return _("Mark a panel topstitched");
    }
}

/* How many seams the act just done left out, see sewing/act.c. */
static guint
last_left (OddJob *job)
{
  const OddAct *act = job->record->len > 0 ? job->record->pdata[job->record->len - 1] : NULL;

  return act != NULL && act->kind == ODD_ACT_MARK_PANEL && act->n_figures > 1 ? (guint) act->figures[1] : 0;
}

static void
mark_cb (OddPanelPane *self,
         GtkButton    *button)
{
  OddPane *pane = ODD_PANE (self);
  OddWork work = ODD_WORK_SEW;
  OddAct act = { .kind = ODD_ACT_MARK_PANEL, .panel_id = odd_pane_get_id (pane) };
  guint left;

  while (work < ODD_WORK_NONE && self->mark_buttons[work] != button)
    work++;
  act.operation = work;
  if (!odd_pane_do (pane, &act, work_label (work)))
    return;
  left = last_left (odd_pane_get_job (pane));
  if (left > 0)
    {
      g_autofree char *text = g_strdup_printf (ngettext ("%u seam was left: it would enclose raw ends. Finish and press those first.",
                                                         "%u seams were left: they would enclose raw ends. Finish and press those first.", left), left);

      odd_toast (GTK_WIDGET (self), text, NULL, NULL);
    }
}

static void
show_trims (OddPanelPane     *self,
            OddTextileLayout *textile,
            guint             index,
            OddUnit           unit)
{
  const double top = textile != NULL ? textile->panels[index].trim_top_mm : 0.0;
  const double bottom = textile != NULL ? textile->panels[index].trim_bottom_mm : 0.0;
  g_autofree char *top_text = odd_length_format (top, unit);
  g_autofree char *bottom_text = odd_length_format (bottom, unit);

  gtk_widget_set_visible (self->trim_row, top > 0.05 || bottom > 0.05);
  odd_label_take (self->trims, g_strdup_printf (_("%s above, %s below"), top_text, bottom_text));
}

static void
show_work (OddPanelPane    *self,
           const OddLayout *layout)
{
  const OddWorkCount count = odd_layout_count_work (layout);

  for (guint i = 0; i < 4; i++)
    {
      g_autofree char *text = g_strdup_printf (ngettext ("%u seam", "%u seams", count.n[i]), count.n[i]);

      adw_action_row_set_subtitle (self->work_rows[i], text);
      gtk_widget_set_visible (GTK_WIDGET (self->work_rows[i]), count.n[i] > 0);
      gtk_widget_set_sensitive (GTK_WIDGET (self->mark_buttons[i]), count.n[i] > 0);
    }
}

static void
odd_panel_pane_refresh (OddPane *pane)
{
  OddPanelPane *self = ODD_PANEL_PANE (pane);
  OddJob *job = odd_pane_get_job (pane);
  const OddUnit unit = odd_pane_get_unit (pane);
  OddTextile *textile = NULL;
  guint index = 0;
  OddPanel *panel = find (pane, &textile, &index);
  g_autoptr(OddLayout) layout = NULL;
  g_autoptr(OddTextileLayout) textile_layout = NULL;
  g_autofree char *textile_name = NULL;
  g_autoptr(GArray) scopes = NULL;

  if (panel == NULL)
    return;
  scopes = odd_scopes_of_panel (job, panel, textile);
  layout = odd_job_dup_layout (job, panel->id);
  textile_layout = textile != NULL ? odd_job_dup_textile_layout (job, textile->id) : NULL;
  textile_name = textile != NULL ? odd_job_dup_textile_name (job, textile) : g_strdup (_("not hung in a textile"));
  odd_label_take (self->title, odd_job_dup_panel_name (job, panel));
  gtk_label_set_text (self->subtitle, textile_name);
  odd_seam_picture_show (self->picture, job, layout, textile_layout, 0);
  odd_text_entry_show (self->name, panel->id, panel->name);
  odd_label_take (self->finished, odd_length_format_pair (layout->box.width, layout->box.height, unit));
  odd_label_take (self->alone, odd_length_format_pair (layout->alone_width_mm, layout->alone_length_mm, unit));
  odd_label_take (self->raw, odd_length_format_pair (layout->raw_box.width, layout->raw_box.height, unit));
  odd_label_take (self->patches, g_strdup_printf ("%u", layout->n_patches));
  odd_size_rows_show (self->sizes, job, panel->id, unit);
  show_hung (self, textile);
  show_trims (self, textile_layout, index, unit);
  odd_treatment_rows_show (self->treatment, pane, scopes);
  show_work (self, layout);
  gtk_toggle_button_set_active (self->lock, panel->locked);
}

static void
odd_panel_pane_class_init (OddPanelPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  static const char *const works[] = { "sew", "finish", "press", "topstitch" };

  ODD_PANE_CLASS (klass)->refresh = odd_panel_pane_refresh;
  g_type_ensure (ODD_TYPE_SEAM_PICTURE);
  g_type_ensure (ODD_TYPE_SIZE_ROWS);
  g_type_ensure (ODD_TYPE_TEXT_ENTRY);
  g_type_ensure (ODD_TYPE_TREATMENT_ROWS);
  gtk_widget_class_install_action (widget_class, "panel.turn", NULL, turn);
  gtk_widget_class_install_action (widget_class, "panel.take-off-last", NULL, take_off_last);
  gtk_widget_class_install_action (widget_class, "panel.remove", NULL, remove_panel);
  gtk_widget_class_install_action (widget_class, "panel.hang", NULL, hang);
  gtk_widget_class_install_action (widget_class, "panel.take-down", NULL, take_down);
  gtk_widget_class_install_action (widget_class, "panel.to-scraps", NULL, to_scraps);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/panel-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, OddPanelPane, title);
  gtk_widget_class_bind_template_child (widget_class, OddPanelPane, subtitle);
  gtk_widget_class_bind_template_child (widget_class, OddPanelPane, picture);
  gtk_widget_class_bind_template_child (widget_class, OddPanelPane, name);
  gtk_widget_class_bind_template_child (widget_class, OddPanelPane, finished);
  gtk_widget_class_bind_template_child (widget_class, OddPanelPane, alone);
  gtk_widget_class_bind_template_child (widget_class, OddPanelPane, raw);
  gtk_widget_class_bind_template_child (widget_class, OddPanelPane, trim_row);
  gtk_widget_class_bind_template_child (widget_class, OddPanelPane, trims);
  gtk_widget_class_bind_template_child (widget_class, OddPanelPane, patches);
  gtk_widget_class_bind_template_child (widget_class, OddPanelPane, sizes);
  gtk_widget_class_bind_template_child (widget_class, OddPanelPane, treatment);
  gtk_widget_class_bind_template_child (widget_class, OddPanelPane, lock);
  gtk_widget_class_bind_template_child (widget_class, OddPanelPane, hang_button);
  gtk_widget_class_bind_template_child (widget_class, OddPanelPane, scraps_button);
  gtk_widget_class_bind_template_child (widget_class, OddPanelPane, turn_button);
  for (guint i = 0; i < G_N_ELEMENTS (works); i++)
    {
      g_autofree char *row = g_strconcat (works[i], "_row", NULL);
      g_autofree char *button = g_strconcat ("mark_", works[i], NULL);

      gtk_widget_class_bind_template_child_full (widget_class, row, FALSE, G_STRUCT_OFFSET (OddPanelPane, work_rows) + i * sizeof (gpointer));
      gtk_widget_class_bind_template_child_full (widget_class, button, FALSE, G_STRUCT_OFFSET (OddPanelPane, mark_buttons) + i * sizeof (gpointer));
    }
  gtk_widget_class_bind_template_callback (widget_class, name_cb);
  gtk_widget_class_bind_template_callback (widget_class, mark_cb);
  gtk_widget_class_bind_template_callback (widget_class, lock_cb);
}

static void
odd_panel_pane_init (OddPanelPane *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
