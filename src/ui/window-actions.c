/* What menus, buttons and keys of the window do to document, selection and canvas. */
#include "config.h"

#include "ui/bias-mark.h"
#include "ui/window-private.h"

#include <glib/gi18n.h>

#include "ui/deed.h"
#include "ui/estimate-dialog.h"
#include "ui/cut-mark.h"
#include "ui/fabric-dialog.h"
#include "ui/finish-choice-dialog.h"
#include "ui/finish-dialog.h"
#include "ui/groups-dialog.h"
#include "ui/measure-dialog.h"
#include "ui/panel-dialog.h"
#include "ui/preferences.h"
#include "ui/pressing-dialog.h"
#include "ui/propose-dialog.h"
#include "ui/raw-question.h"
#include "ui/record-window.h"
#include "ui/remedy-dialog.h"
#include "ui/scopes.h"
#include "ui/scrap-dialog.h"
#include "ui/ticket-dialog.h"
#include "ui/toast.h"
#include "ui/unpick-dialog.h"
#include "ui/zone-dialog.h"

#define ACTION(name) \
  static void name (GtkWidget *widget, const char *action, GVariant *parameter)

ACTION (undo)
{
  odd_document_undo (ODD_WINDOW (widget)->document);
}

ACTION (redo)
{
  odd_document_redo (ODD_WINDOW (widget)->document);
}

ACTION (stage)
{
  odd_window_set_stage (ODD_WINDOW (widget), g_variant_get_string (parameter, NULL));
}

ACTION (add_scrap)
{
  OddWindow *self = ODD_WINDOW (widget);

  odd_scrap_dialog_present (widget, self->document, self->selection, self->unit);
}

ACTION (add_fabric)
{
  OddWindow *self = ODD_WINDOW (widget);

  odd_fabric_dialog_present (widget, self->document, 0, self->unit);
}

ACTION (finishes)
{
  OddWindow *self = ODD_WINDOW (widget);

  odd_finish_dialog_present (widget, self->document, 0, self->unit);
}

/* Of the chosen seam or panel, else of the textile on the table, else of all that lies there loose. (transfer full) */
static GArray *
dup_scopes (OddWindow *self)
{
  OddJob *job = odd_document_get_job (self->document);
  const OddId id = odd_selection_get_id (self->selection);
  OddTextile *textile = NULL;
  g_auto(OddSeamFacts) facts = { 0 };

  if (odd_selection_get_kind (self->selection) == ODD_SELECTED_SEAM && odd_seam_facts_init (&facts, job, id))
    return odd_scopes_of_seam (job, &facts);
  if (odd_selection_get_kind (self->selection) == ODD_SELECTED_PANEL)
    {
      OddPanel *panel = odd_job_get_panel (job, id, &textile, NULL);

      if (panel != NULL)
        return odd_scopes_of_panel (job, panel, textile);
    }
  textile = odd_job_get_textile (job, self->textile_id);
  if (textile == NULL && job->textiles->len > 0)
    textile = job->textiles->pdata[0];
  if (textile == NULL || (textile->n_hung == 0 && job->loose_panels->len > 0))
    return odd_scopes_of_job (job);
  return odd_scopes_of_textile (job, textile);
}

ACTION (compare_finishes)
{
  OddWindow *self = ODD_WINDOW (widget);
  OddJob *job = odd_document_get_job (self->document);
  g_autoptr(GArray) scopes = NULL;

  if (job->textiles->len == 0 && job->loose_panels->len == 0)
    {
      odd_toast (widget, _("There is no panel yet. Start one, then compare its finishes."), NULL, NULL);
      return;
    }
  scopes = dup_scopes (self);
  odd_finish_choice_dialog_present (widget, self->document, scopes, odd_work_pane_get_pins (self->work), self->unit);
}

ACTION (add_panel)
{
  OddWindow *self = ODD_WINDOW (widget);

  odd_panel_dialog_present (widget, self->document, self->selection, self->textile_id, self->unit);
}

/* What the tray shows, to draw from. */
static GArray *
dup_shown_scraps (OddWindow *self)
{
  GListModel *rows = G_LIST_MODEL (odd_tray_get_model (self->tray));
  GArray *ids = g_array_new (FALSE, FALSE, sizeof (OddId));

  for (guint i = 0; rows != NULL && i < g_list_model_get_n_items (rows); i++)
    {
      g_autoptr(OddScrapRow) row = g_list_model_get_item (rows, i);

      if (odd_scrap_row_get_state (row) == ODD_SCRAP_FREE)
        g_array_append_val (ids, odd_scrap_row_get_scrap (row)->id);
    }
  return ids;
}

static void
piece_by_itself (GtkWidget                *widget,
                 const OddProposalOptions *offer)
{
  OddWindow *self = ODD_WINDOW (widget);
  g_autoptr(GArray) shown = dup_shown_scraps (self);

  odd_propose_dialog_present (widget, self->document, self->selection, self->textile_id, shown, self->unit, offer);
}

ACTION (propose)
{
  piece_by_itself (widget, NULL);
}

ACTION (groups)
{
  OddWindow *self = ODD_WINDOW (widget);

  odd_groups_dialog_present (widget, self->document, self->unit);
}

ACTION (estimate)
{
  OddWindow *self = ODD_WINDOW (widget);

  odd_estimate_dialog_present (widget, self->document, self->textile_id, self->unit, piece_by_itself);
}

static void
measure_part_of (OddWindow *self,
                 OddId      id)
{
  if (id != 0)
    odd_measure_dialog_present (GTK_WIDGET (self->canvas), self->document, id, self->unit);
}

ACTION (measure)
{
  OddWindow *self = ODD_WINDOW (widget);
  OddJob *job = odd_document_get_job (self->document);
  const OddSelected kind = odd_selection_get_kind (self->selection);
  OddTextile *textile = odd_job_get_textile (job, self->textile_id);
  OddId id = odd_measurable_of (job, kind, odd_selection_get_id (self->selection));

  if (id == 0 && kind == ODD_SELECTED_NOTHING && textile != NULL && textile->n_hung > 0)
    id = textile->id;
  if (id == 0)
    odd_toast (GTK_WIDGET (self->canvas), _("Select a seam, a panel or the textile first, then measure it."), NULL, NULL);
  measure_part_of (self, id);
}

ACTION (measure_part)
{
  measure_part_of (ODD_WINDOW (widget), g_variant_get_uint32 (parameter));
}

ACTION (remedies)
{
  OddWindow *self = ODD_WINDOW (widget);
  const OddId asked = g_variant_get_uint32 (parameter);
  const OddId textile_id = asked != 0 ? asked : self->textile_id;

  if (textile_id != 0)
    odd_remedy_dialog_present (GTK_WIDGET (self->canvas), self->document, textile_id, self->unit);
  else
    odd_toast (GTK_WIDGET (self->canvas), _("There is no textile yet. Hang a panel first."), NULL, NULL);
}

ACTION (preferences)
{
  OddWindow *self = ODD_WINDOW (widget);

  if (self->settings != NULL)
    odd_preferences_present (GTK_WINDOW (self), self->settings, self->document);
}

ACTION (print)
{
  OddWindow *self = ODD_WINDOW (widget);

  odd_ticket_dialog_present (GTK_WINDOW (self), self->settings, odd_document_get_job (self->document), odd_document_get_title (self->document), self->unit,
                             odd_work_pane_get_manner (self->work), odd_work_pane_get_pins (self->work));
}

ACTION (ends)
{
  gtk_widget_activate_action (GTK_WIDGET (ODD_WINDOW (widget)->work), "work.ends", NULL);
}

ACTION (take)
{
  odd_window_take_scrap (ODD_WINDOW (widget), g_variant_get_uint32 (parameter));
}

/* The scrap starts a piece of its own, beside the textile. */
ACTION (take_loose)
{
  const OddTarget loose = { .kind = ODD_TARGET_NEW_PANEL };
  OddWindow *self = ODD_WINDOW (widget);

  odd_window_take_scrap (self, g_variant_get_uint32 (parameter));
  odd_canvas_take_scrap (self->canvas, g_variant_get_uint32 (parameter), &loose);
}

ACTION (locate)
{
  OddWindow *self = ODD_WINDOW (widget);
  const OddSelected kind = odd_selection_get_kind (self->selection);

  if (kind == ODD_SELECTED_NOTHING || kind == ODD_SELECTED_SCRAP)
    return;
  if (g_str_equal (self->stage, "scraps"))
    odd_window_set_stage (self, "piecing");
  odd_canvas_reveal (self->canvas, kind, odd_selection_get_id (self->selection));
}

ACTION (mark_next)
{
  OddWindow *self = ODD_WINDOW (widget);

  if (odd_selection_get_kind (self->selection) == ODD_SELECTED_SEAM)
    odd_mark_next_asking (GTK_WIDGET (self->canvas), self->document, self->selection, odd_selection_get_id (self->selection));
}

ACTION (unmark_last)
{
  OddWindow *self = ODD_WINDOW (widget);
  const OddAct act = { .kind = ODD_ACT_UNMARK, .seam_id = odd_selection_get_id (self->selection), .operation = ODD_ACT_NEXT };

  if (odd_selection_get_kind (self->selection) == ODD_SELECTED_SEAM)
    odd_do (GTK_WIDGET (self->canvas), self->document, &act, _("Open the last operation again"));
}

ACTION (unpick)
{
  OddWindow *self = ODD_WINDOW (widget);

  if (odd_selection_get_kind (self->selection) == ODD_SELECTED_SEAM)
    odd_unpick_dialog_present (GTK_WIDGET (self->canvas), self->document, odd_selection_get_id (self->selection), self->unit);
  else
    odd_toast (GTK_WIDGET (self->canvas), _("Choose the seam to unpick first"), NULL, NULL);
}

ACTION (record)
{
  OddWindow *self = ODD_WINDOW (widget);

  odd_record_window_present (GTK_WINDOW (self), self->document, self->selection, self->unit);
}

ACTION (next_bias)
{
  OddWindow *self = ODD_WINDOW (widget);

  odd_select_next_bias (widget, self->document, self->selection);
}

ACTION (mark_cut)
{
  OddWindow *self = ODD_WINDOW (widget);

  odd_toggle_cut (GTK_WIDGET (self->canvas), self->document, self->unit, odd_selection_get_kind (self->selection), odd_selection_get_id (self->selection));
}

/* Of the scrap that is selected, or that the selected patch is cut from. */
ACTION (zones)
{
  OddWindow *self = ODD_WINDOW (widget);
  OddJob *job = odd_document_get_job (self->document);
  OddId id = odd_selection_get_id (self->selection);
  const OddSelected kind = odd_selection_get_kind (self->selection);
  OddPanel *panel = kind == ODD_SELECTED_PATCH ? odd_job_find_panel_of (job, id, NULL, NULL) : NULL;

  if (panel != NULL)
    id = odd_node_find (panel->root, id)->scrap_id;
  if ((panel != NULL || kind == ODD_SELECTED_SCRAP) && odd_job_get_scrap (job, id) != NULL)
    odd_zone_dialog_present (widget, self->document, id, self->unit);
  else
    odd_toast (GTK_WIDGET (self->canvas), _("Select the scrap, or a patch of it, to mark a stain or a hole on it."), NULL, NULL);
}

/* --- looking --- */

ACTION (pressing)
{
  OddWindow *self = ODD_WINDOW (widget);

  odd_pressing_dialog_present (widget, self->document, self->textile_id);
}

static void
show_cb (GSimpleAction *action,
         GVariant      *parameter,
         gpointer       data)
{
  OddShow show = ODD_SHOW_PATCHES;

  if (!odd_show_from_nick (g_variant_get_string (parameter, NULL), &show))
    return;
  g_object_set (ODD_WINDOW (data)->canvas, "show", (int) show, NULL);
  g_simple_action_set_state (action, parameter);
}

/* The one that is shown already: the cloth as it is again. */
static void
unfinished_cb (GSimpleAction *action,
               GVariant      *parameter,
               gpointer       data)
{
  OddWindow *self = data;
  OddUnfinishedKind kind = ODD_UNFINISHED_NOTHING;

  if (!odd_unfinished_kind_from_nick (g_variant_get_string (parameter, NULL), &kind))
    return;
  if (kind == odd_canvas_get_unfinished (self->canvas))
    kind = ODD_UNFINISHED_NOTHING;
  odd_canvas_set_unfinished (self->canvas, kind);
  g_simple_action_set_state (action, g_variant_new_string (odd_unfinished_kind_get_nick (kind)));
}

static void
bulk_cb (GSimpleAction *action,
         GVariant      *state,
         gpointer       data)
{
  odd_canvas_set_bulk (ODD_WINDOW (data)->canvas, g_variant_get_boolean (state));
  g_simple_action_set_state (action, state);
}

/* What menus show a mark for: these have a state, which actions of the class cannot have. */
void
odd_window_add_looks (OddWindow *self)
{
  static const GActionEntry entries[] = {
    { "show", show_cb, "s", "'patches'", NULL },
    { "unfinished", unfinished_cb, "s", "'nothing'", NULL },
    { "bulk", NULL, NULL, "false", bulk_cb },
  };

  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
}

ACTION (fit)
{
  odd_canvas_fit (ODD_WINDOW (widget)->canvas, TRUE);
}

ACTION (true_size)
{
  OddWindow *self = ODD_WINDOW (widget);

  odd_canvas_true_size (self->canvas);
}

ACTION (zoom_in)
{
  odd_canvas_zoom_by (ODD_WINDOW (widget)->canvas, 1.25);
}

ACTION (zoom_out)
{
  odd_canvas_zoom_by (ODD_WINDOW (widget)->canvas, 0.8);
}

/* --- moving about --- */

ACTION (find)
{
  OddWindow *self = ODD_WINDOW (widget);

  if (g_str_equal (self->stage, "scraps"))
    odd_tray_focus_search (self->page_tray);
  else if (odd_window_is_narrow (self))
    odd_window_set_stage (self, "scraps");
  else
    {
      odd_window_set_stage (self, "piecing");
      adw_flap_set_reveal_flap (self->left_flap, TRUE);
      odd_tray_focus_search (self->tray);
    }
}

ACTION (findings)
{
  OddWindow *self = ODD_WINDOW (widget);

  odd_status_line_open_findings (self->status);
}

ACTION (next_finding)
{
  OddWindow *self = ODD_WINDOW (widget);

  if (!odd_status_line_next_finding (self->status))
    odd_toast (GTK_WIDGET (self->canvas), _("All is sound"), NULL, NULL);
}

ACTION (toggle_tray)
{
  OddWindow *self = ODD_WINDOW (widget);

  adw_flap_set_reveal_flap (self->left_flap, !adw_flap_get_reveal_flap (self->left_flap));
}

ACTION (toggle_detail)
{
  OddWindow *self = ODD_WINDOW (widget);

  adw_flap_set_reveal_flap (self->right_flap, !adw_flap_get_reveal_flap (self->right_flap));
}

static gboolean
holds_focus (OddWindow *self,
             GtkWidget *pane)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));

  return focus != NULL && (focus == pane || gtk_widget_is_ancestor (focus, pane));
}

static gboolean
enter_pane (GtkWidget *pane)
{
  if (!gtk_widget_get_mapped (pane) || !gtk_widget_get_child_visible (pane))
    return FALSE;
  return gtk_widget_grab_focus (pane) || gtk_widget_child_focus (pane, GTK_DIR_TAB_FORWARD);
}

static void
walk_panes (OddWindow *self,
            int        step)
{
  GtkWidget *const panes[] = {
    GTK_WIDGET (self->tray), GTK_WIDGET (self->page_tray), GTK_WIDGET (self->canvas), GTK_WIDGET (self->strip_tray),
    GTK_WIDGET (self->status), GTK_WIDGET (self->detail),
  };
  const int n = G_N_ELEMENTS (panes);
  int at = 0;

  while (at < n && !holds_focus (self, panes[at]))
    at++;
  if (at == n)
    at = step > 0 ? -1 : n;
  for (int i = 1; i <= n; i++)
    if (enter_pane (panes[((at + step * i) % n + n) % n]))
      return;
}

ACTION (next_pane)
{
  walk_panes (ODD_WINDOW (widget), 1);
}

ACTION (previous_pane)
{
  walk_panes (ODD_WINDOW (widget), -1);
}

void
odd_window_update_actions (OddWindow *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  const OddSelected kind = odd_selection_get_kind (self->selection);

  gtk_widget_action_set_enabled (widget, "win.undo", odd_document_get_undo_label (self->document) != NULL);
  gtk_widget_action_set_enabled (widget, "win.redo", odd_document_get_redo_label (self->document) != NULL);
  gtk_widget_action_set_enabled (widget, "win.mark-next", kind == ODD_SELECTED_SEAM);
  gtk_widget_action_set_enabled (widget, "win.unmark-last", kind == ODD_SELECTED_SEAM);
  odd_window_update_change_actions (self);
  gtk_widget_action_set_enabled (widget, "win.locate", kind != ODD_SELECTED_NOTHING && kind != ODD_SELECTED_SCRAP);
}

void
odd_window_install_actions (GtkWidgetClass *widget_class)
{
  static const struct { const char *name; const char *type; GtkWidgetActionActivateFunc activate; } actions[] = {
    { "win.undo", NULL, undo },
    { "win.redo", NULL, redo },
    { "win.stage", "s", stage },
    { "win.add-scrap", NULL, add_scrap },
    { "win.add-fabric", NULL, add_fabric },
    { "win.finishes", NULL, finishes },
    { "win.compare-finishes", NULL, compare_finishes },
    { "win.pressing", NULL, pressing },
    { "win.add-panel", NULL, add_panel },
    { "win.propose", NULL, propose },
    { "win.groups", NULL, groups },
    { "win.estimate", NULL, estimate },
    { "win.measure", NULL, measure },
    { "win.measure-part", "u", measure_part },
    { "win.remedies", "u", remedies },
    { "win.preferences", NULL, preferences },
    { "win.print", NULL, print },
    { "win.take", "u", take },
    { "win.take-loose", "u", take_loose },
    { "win.locate", NULL, locate },
    { "win.mark-next", NULL, mark_next },
    { "win.unmark-last", NULL, unmark_last },
    { "win.mark-cut", NULL, mark_cut },
    { "win.next-bias", NULL, next_bias },
    { "win.zones", NULL, zones },
    { "win.unpick", NULL, unpick },
    { "win.record", NULL, record },
    { "win.fit", NULL, fit },
    { "win.true-size", NULL, true_size },
    { "win.zoom-in", NULL, zoom_in },
    { "win.zoom-out", NULL, zoom_out },
    { "win.find", NULL, find },
    { "win.findings", NULL, findings },
    { "win.next-finding", NULL, next_finding },
    { "win.ends", NULL, ends },
    { "win.toggle-tray", NULL, toggle_tray },
    { "win.toggle-detail", NULL, toggle_detail },
    { "win.next-pane", NULL, next_pane },
    { "win.previous-pane", NULL, previous_pane },
  };

  odd_window_install_change_actions (widget_class);
  for (guint i = 0; i < G_N_ELEMENTS (actions); i++)
    gtk_widget_class_install_action (widget_class, actions[i].name, actions[i].type, actions[i].activate);
  /* bound to the window: a letter that an entry is typing never comes this far */
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_c, 0, "win.mark-cut", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_b, 0, "win.next-bias", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_z, 0, "win.zones", NULL);
}
