#include "config.h"

#include "ui/bias-mark.h"
#include "ui/patch-pane.h"

#include <glib/gi18n.h>

#include "cloth/piece.h"
#include "ui/cut-mark.h"
#include "ui/glyph.h"
#include "ui/replace-list.h"
#include "ui/seam-picture.h"

struct _OddPatchPane
{
  OddPane parent_instance;
  GtkLabel *title;
  GtkLabel *subtitle;
  OddSeamPicture *picture;
  AdwActionRow *scrap_row;
  GtkLabel *fabric;
  GtkLabel *finished;
  GtkLabel *cut;
  GtkLabel *turned;
  GtkLabel *grain;
  AdwActionRow *cut_row;
  GtkSwitch *cut_switch;
  AdwActionRow *stay_row;
  GtkSwitch *stay_switch;
  GtkWidget *complaint_box;
  GtkLabel *complaint;
  GtkToggleButton *lock;
  GtkWidget *take_out;
  GtkMenuButton *replace;
};

G_DEFINE_FINAL_TYPE (OddPatchPane, odd_patch_pane, ODD_TYPE_PANE)

static void
take_out (GtkWidget  *widget,
          const char *action,
          GVariant   *parameter)
{
  OddPane *pane = ODD_PANE (widget);
  g_autoptr(GError) error = NULL;

  odd_pane_apply (pane, odd_job_make_bare (odd_pane_get_job (pane), odd_pane_get_id (pane), &error), &error, _("Take a patch out"));
}

static void
select_scrap (GtkWidget  *widget,
              const char *action,
              GVariant   *parameter)
{
  OddPane *pane = ODD_PANE (widget);
  OddPanel *panel = odd_job_find_panel_of (odd_pane_get_job (pane), odd_pane_get_id (pane), NULL, NULL);
  OddNode *leaf = panel != NULL ? odd_node_find (panel->root, odd_pane_get_id (pane)) : NULL;

  if (leaf != NULL && leaf->scrap_id != 0)
    odd_pane_select (pane, ODD_SELECTED_SCRAP, leaf->scrap_id);
}

static void
select_panel (GtkWidget  *widget,
              const char *action,
              GVariant   *parameter)
{
  OddPane *pane = ODD_PANE (widget);
  OddPanel *panel = odd_job_find_panel_of (odd_pane_get_job (pane), odd_pane_get_id (pane), NULL, NULL);

  if (panel != NULL)
    odd_pane_select (pane, ODD_SELECTED_PANEL, panel->id);
}

static void
scrap_cb (OddPatchPane *self)
{
  select_scrap (GTK_WIDGET (self), NULL, NULL);
}

static void
cut_cb (OddPatchPane *self)
{
  OddPane *pane = ODD_PANE (self);
  const gboolean cut = gtk_switch_get_active (self->cut_switch);

  if (odd_pane_is_refreshing (pane))
    return;
  if (!odd_mark_patch_cut (GTK_WIDGET (self), odd_pane_get_document (pane), odd_pane_get_unit (pane), odd_pane_get_id (pane), cut))
    odd_pane_refresh (pane);
}

static void
stay_cb (OddPatchPane *self)
{
  OddPane *pane = ODD_PANE (self);

  if (odd_pane_is_refreshing (pane))
    return;
  if (!odd_mark_stayed (GTK_WIDGET (self), odd_pane_get_document (pane), odd_pane_get_id (pane), gtk_switch_get_active (self->stay_switch)))
    odd_pane_refresh (pane);
}

static void
show_bias (OddPatchPane    *self,
           OddJob          *job,
           const OddLayout *layout,
           const OddPatch  *patch)
{
  g_autofree char *text = odd_bias_dup_text (job, layout, patch, odd_pane_get_unit (ODD_PANE (self)));
  const gboolean stayed = patch->leaf->stayed != ODD_STATE_OPEN;

  gtk_widget_set_visible (GTK_WIDGET (self->stay_row), text != NULL || stayed);
  adw_action_row_set_subtitle (self->stay_row, text != NULL ? text : "");
  gtk_switch_set_active (self->stay_switch, stayed);
  gtk_switch_set_state (self->stay_switch, stayed);
}

static void
release (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  const OddAct act = { .kind = ODD_ACT_RELEASE, .node_id = odd_pane_get_id (ODD_PANE (widget)) };

  odd_pane_do (ODD_PANE (widget), &act, _("Release a patch"));
}

static void
lock_cb (OddPatchPane *self)
{
  OddPane *pane = ODD_PANE (self);
  const gboolean locked = gtk_toggle_button_get_active (self->lock);
  g_autoptr(GError) error = NULL;

  if (odd_pane_is_refreshing (pane))
    return;
  odd_pane_apply (pane, odd_job_set_lock (odd_pane_get_job (pane), odd_pane_get_id (pane), locked, &error), &error,
                  locked ? _("Lock a patch") : _("Unlock a patch"));
}

static void
replace_cb (GtkMenuButton *button,
            gpointer       data)
{
  OddPane *pane = data;

  gtk_menu_button_set_popover (button, odd_replace_list_new (odd_pane_get_job (pane), odd_pane_get_id (pane), (int) odd_pane_get_unit (pane)));
}

static char *
dup_size (const OddConvex *shape,
          OddUnit          unit)
{
  const OddBox box = odd_convex_box (shape);

  return odd_length_format_pair (box.width, box.height, unit);
}

static void
show_scrap (OddPatchPane   *self,
            OddJob         *job,
            const OddPatch *patch)
{
  g_autofree char *number = NULL;

  if (patch->scrap == NULL)
    {
      adw_action_row_set_subtitle (self->scrap_row, _("bare: drag a scrap here"));
      gtk_label_set_text (self->fabric, "");
      gtk_label_set_text (self->turned, "");
      gtk_label_set_text (self->grain, "");
      return;
    }
  number = g_strdup_printf (_("No. %u"), patch->scrap->number);
  adw_action_row_set_subtitle (self->scrap_row, number);
  odd_label_take (self->fabric, odd_job_dup_scrap_cloth_name (job, patch->scrap));
  odd_label_take (self->turned, g_strdup_printf (patch->placement.mirror ? _("%.1f°, mirrored") : _("%.1f°"), patch->placement.turn_deg));
  odd_label_take (self->grain, g_strdup_printf (_("%.0f°"), odd_placement_apply_angle (&patch->placement, patch->scrap->grain_deg)));
}

static void
show_complaint (OddPatchPane   *self,
                const OddPatch *patch)
{
  const gboolean fits = patch->scrap == NULL || odd_patch_fits (patch);

  gtk_widget_set_visible (self->complaint_box, !fits);
  gtk_label_set_text (self->complaint, fits ? "" : _("The cut shape reaches beyond the good cloth of its scrap. Take it out and sew on a larger scrap, or make the allowance smaller."));
}

static void
odd_patch_pane_refresh (OddPane *pane)
{
  OddPatchPane *self = ODD_PATCH_PANE (pane);
  OddJob *job = odd_pane_get_job (pane);
  const OddUnit unit = odd_pane_get_unit (pane);
  OddTextile *textile = NULL;
  OddPanel *panel = NULL;
  g_autoptr(OddLayout) layout = NULL;
  g_autoptr(OddTextileLayout) textile_layout = NULL;
  g_autofree char *name = NULL;
  const OddPatch *patch;

  if (odd_pane_get_kind (pane) == ODD_SELECTED_PATCH)
    panel = odd_job_find_panel_of (job, odd_pane_get_id (pane), &textile, NULL);
  if (panel == NULL)
    return;
  layout = odd_job_dup_layout (job, panel->id);
  patch = odd_layout_find_patch (layout, odd_pane_get_id (pane));
  if (patch == NULL)
    {
      /* trimmed away where it hangs: it still lies on the table */
      odd_layout_unref (layout);
      layout = odd_job_dup_layout_apart (job, panel->id);
      patch = odd_layout_find_patch (layout, odd_pane_get_id (pane));
    }
  if (patch == NULL)
    return;
  textile_layout = textile != NULL ? odd_job_dup_textile_layout (job, textile->id) : NULL;
  name = odd_job_dup_panel_name (job, panel);
  odd_label_take (self->title, g_strdup_printf (patch->scrap != NULL ? _("Patch %u") : _("Bare place %u"), patch->number));
  gtk_label_set_text (self->subtitle, name);
  odd_seam_picture_show (self->picture, job, layout, textile_layout, patch->leaf->id);
  show_scrap (self, job, patch);
  odd_label_take (self->finished, dup_size (patch->region, unit));
  odd_label_take (self->cut, dup_size (patch->cut, unit));
  gtk_switch_set_active (self->cut_switch, patch->leaf->cut == ODD_STATE_DONE);
  gtk_switch_set_state (self->cut_switch, patch->leaf->cut == ODD_STATE_DONE);
  gtk_widget_set_sensitive (GTK_WIDGET (self->cut_row), patch->scrap != NULL);
  show_bias (self, job, layout, patch);
  gtk_toggle_button_set_active (self->lock, patch->leaf->locked);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "patch.take-out", patch->scrap != NULL);
  show_complaint (self, patch);
}

static void
odd_patch_pane_class_init (OddPatchPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  ODD_PANE_CLASS (klass)->refresh = odd_patch_pane_refresh;
  g_type_ensure (ODD_TYPE_GLYPH);
  g_type_ensure (ODD_TYPE_SEAM_PICTURE);
  gtk_widget_class_install_action (widget_class, "patch.take-out", NULL, take_out);
  gtk_widget_class_install_action (widget_class, "patch.scrap", NULL, select_scrap);
  gtk_widget_class_install_action (widget_class, "patch.release", NULL, release);
  gtk_widget_class_install_action (widget_class, "patch.panel", NULL, select_panel);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/patch-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, OddPatchPane, title);
  gtk_widget_class_bind_template_child (widget_class, OddPatchPane, subtitle);
  gtk_widget_class_bind_template_child (widget_class, OddPatchPane, picture);
  gtk_widget_class_bind_template_child (widget_class, OddPatchPane, scrap_row);
  gtk_widget_class_bind_template_child (widget_class, OddPatchPane, fabric);
  gtk_widget_class_bind_template_child (widget_class, OddPatchPane, finished);
  gtk_widget_class_bind_template_child (widget_class, OddPatchPane, cut);
  gtk_widget_class_bind_template_child (widget_class, OddPatchPane, turned);
  gtk_widget_class_bind_template_child (widget_class, OddPatchPane, grain);
  gtk_widget_class_bind_template_child (widget_class, OddPatchPane, cut_row);
  gtk_widget_class_bind_template_child (widget_class, OddPatchPane, cut_switch);
  gtk_widget_class_bind_template_child (widget_class, OddPatchPane, stay_row);
  gtk_widget_class_bind_template_child (widget_class, OddPatchPane, stay_switch);
  gtk_widget_class_bind_template_child (widget_class, OddPatchPane, complaint_box);
  gtk_widget_class_bind_template_child (widget_class, OddPatchPane, complaint);
  gtk_widget_class_bind_template_child (widget_class, OddPatchPane, lock);
  gtk_widget_class_bind_template_child (widget_class, OddPatchPane, take_out);
  gtk_widget_class_bind_template_child (widget_class, OddPatchPane, replace);
  gtk_widget_class_bind_template_callback (widget_class, scrap_cb);
  gtk_widget_class_bind_template_callback (widget_class, cut_cb);
  gtk_widget_class_bind_template_callback (widget_class, stay_cb);
  gtk_widget_class_bind_template_callback (widget_class, lock_cb);
}

static void
odd_patch_pane_init (OddPatchPane *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_menu_button_set_create_popup_func (self->replace, replace_cb, self, NULL);
}
