#include "config.h"

#include "ui/scrap-pane.h"

#include "ui/deed.h"

#include <glib/gi18n.h>

#include "cloth/offcuts.h"
#include "cloth/zones.h"
#include "sewing/act.h"
#include "ui/cut-mark.h"
#include "ui/fabric-dialog.h"
#include "ui/gives-rows.h"
#include "ui/piece-rows.h"
#include "ui/scrap-life.h"
#include "ui/scrap-view.h"
#include "ui/text-entry.h"
#include "ui/toast.h"

#define PICTURE_WIDTH_PX 240
#define PICTURE_HEIGHT_PX 208     /* a square scrap as wide as the pane lets it be, and the arrow of its grain */

struct _OddScrapPane
{
  OddPane parent_instance;
  GtkLabel *title;
  GtkLabel *subtitle;
  OddScrapView *picture;
  OddGivesRows *gives;
  GtkWidget *number_row;
  GtkSpinButton *number;
  GtkLabel *size;
  GtkLabel *area;
  AdwComboRow *fabric;
  GtkSpinButton *grain;
  AdwActionRow *washed_row;
  GtkSwitch *washed;
  AdwActionRow *cut_row;
  GtkSwitch *cut_switch;
  OddTextEntry *place;
  OddTextEntry *note;
  OddPieceRows *piece;
  GtkListBox *life;
  GtkWidget *zones_title;
  GtkListBox *zones;
  GtkWidget *take;
};

G_DEFINE_FINAL_TYPE (OddScrapPane, odd_scrap_pane, ODD_TYPE_PANE)

static OddScrap *
find (OddPane *pane)
{
  return odd_pane_get_kind (pane) == ODD_SELECTED_SCRAP ? odd_job_get_scrap (odd_pane_get_job (pane), odd_pane_get_id (pane)) : NULL;
}

static void
put (OddScrapPane   *self,
     const OddScrap *values,
     const char     *label)
{
  OddPane *pane = ODD_PANE (self);
  g_autoptr(GError) error = NULL;

  odd_pane_apply (pane, odd_job_put_scrap (odd_pane_get_job (pane), values, NULL, &error), &error, label);
}

static void
number_cb (OddScrapPane *self)
{
  OddScrap *scrap = find (ODD_PANE (self));
  OddScrap values;

  if (odd_pane_is_refreshing (ODD_PANE (self)) || scrap == NULL)
    return;
  values = *scrap;
  values.number = gtk_spin_button_get_value_as_int (self->number);
  if (values.number != scrap->number)
    put (self, &values, _("Number a scrap"));
}

static void
grain_cb (OddScrapPane *self)
{
  OddScrap *scrap = find (ODD_PANE (self));
  OddScrap values;

  if (odd_pane_is_refreshing (ODD_PANE (self)) || scrap == NULL)
    return;
  values = *scrap;
  values.grain_deg = gtk_spin_button_get_value (self->grain);
  put (self, &values, _("Set the grain of a scrap"));
}

static void
fabric_cb (OddScrapPane *self)
{
  OddJob *job = odd_pane_get_job (ODD_PANE (self));
  OddScrap *scrap = find (ODD_PANE (self));
  const guint i = adw_combo_row_get_selected (self->fabric);
  OddScrap values;

  if (odd_pane_is_refreshing (ODD_PANE (self)) || scrap == NULL || i == GTK_INVALID_LIST_POSITION)
    return;
  values = *scrap;
  values.fabric_id = i == 0 ? 0 : ((OddFabric *) g_ptr_array_index (job->fabrics, i - 1))->id;
  if (values.fabric_id != scrap->fabric_id)
    put (self, &values, _("Change the fabric of a scrap"));
}

static void
washed_cb (OddScrapPane *self)
{
  OddPane *pane = ODD_PANE (self);
  OddScrap *scrap = find (pane);
  const gboolean washed = gtk_switch_get_active (self->washed);
  const OddAct act = { .kind = ODD_ACT_WASH, .scrap_id = odd_pane_get_id (pane), .state = washed ? ODD_STATE_DONE : ODD_STATE_OPEN };

  if (!odd_pane_is_refreshing (pane) && scrap != NULL && washed != scrap->washed)
    odd_pane_do (pane, &act, washed ? _("Mark a scrap washed") : _("Mark a scrap not washed"));
}

static void
put_text (OddScrapPane *self,
          OddId         scrap_id,
          const char   *text,
          gboolean      is_place)
{
  OddScrap *scrap = odd_job_get_scrap (odd_pane_get_job (ODD_PANE (self)), scrap_id);
  OddScrap values;

  if (scrap == NULL)
    return;
  values = *scrap;
  *(is_place ? &values.place : &values.note) = *text != '\0' ? (char *) text : NULL;
  put (self, &values, is_place ? _("Say where a scrap is kept") : _("Note on a scrap"));
}

static void
place_cb (OddScrapPane *self,
          guint         scrap_id,
          const char   *text)
{
  put_text (self, scrap_id, text, TRUE);
}

static void
note_cb (OddScrapPane *self,
         guint         scrap_id,
         const char   *text)
{
  put_text (self, scrap_id, text, FALSE);
}

static void
cut_cb (OddScrapPane *self)
{
  OddPane *pane = ODD_PANE (self);
  OddScrap *scrap = find (pane);
  const gboolean cut_out = gtk_switch_get_active (self->cut_switch);

  if (odd_pane_is_refreshing (pane) || scrap == NULL || cut_out == scrap->cut_out)
    return;
  if (!odd_mark_scrap_cut_out (GTK_WIDGET (self), odd_pane_get_document (pane), odd_pane_get_unit (pane), scrap->id, cut_out))
    odd_pane_refresh (pane);
}

static void
take (GtkWidget  *widget,
      const char *action,
      GVariant   *parameter)
{
  gtk_widget_activate_action (widget, "win.take", "u", odd_pane_get_id (ODD_PANE (widget)));
}

static void
take_loose (GtkWidget  *widget,
            const char *action,
            GVariant   *parameter)
{
  gtk_widget_activate_action (widget, "win.take-loose", "u", odd_pane_get_id (ODD_PANE (widget)));
}

static void
set_gone (GtkWidget  *widget,
          const char *action,
          GVariant   *parameter)
{
  OddPane *pane = ODD_PANE (widget);
  const gboolean gone = g_str_equal (action, "scrap.gone");
  const OddAct act = { .kind = ODD_ACT_GONE, .scrap_id = odd_pane_get_id (pane), .state = gone ? ODD_STATE_DONE : ODD_STATE_OPEN,
                       .clock_s = odd_now_s () };
  g_autoptr(GError) error = NULL;

  odd_pane_apply (pane, odd_job_do (odd_pane_get_job (pane), &act, &error), &error,
                  gone ? _("Mark a scrap gone") : _("Bring a scrap back"));
}

/* In a panel its patch is shown, in a piece the piece: that is what lies on the table. */
static void
locate (GtkWidget  *widget,
        const char *action,
        GVariant   *parameter)
{
  OddPane *pane = ODD_PANE (widget);
  guint n = 0;
  const OddUse *uses = odd_job_get_uses (odd_pane_get_job (pane), odd_pane_get_id (pane), &n);

  OddScrap *pieced = n > 0 ? odd_job_find_pieced (odd_pane_get_job (pane), uses[0].panel->id) : NULL;

  if (n == 0)
    return;
  if (pieced != NULL)
    {
      odd_pane_select (pane, ODD_SELECTED_SCRAP, pieced->id);
      return;
    }
  odd_pane_select (pane, ODD_SELECTED_PATCH, uses[0].leaf->id);
  gtk_widget_activate_action (widget, "win.locate", NULL);
}

static void
edit_fabric (GtkWidget  *widget,
             const char *action,
             GVariant   *parameter)
{
  OddPane *pane = ODD_PANE (widget);
  OddScrap *scrap = find (pane);

  if (scrap != NULL)
    odd_fabric_dialog_present (widget, odd_pane_get_document (pane), scrap->fabric_id, odd_pane_get_unit (pane));
}

static void
remove_scrap (GtkWidget  *widget,
              const char *action,
              GVariant   *parameter)
{
  OddPane *pane = ODD_PANE (widget);
  g_autoptr(GError) error = NULL;

  odd_pane_apply (pane, odd_job_remove_scrap (odd_pane_get_job (pane), odd_pane_get_id (pane), &error), &error, _("Remove a scrap"));
}

/* What a line of its life is about is shown where it lies. */
static void
life_cb (OddScrapPane  *self,
         GtkListBoxRow *row)
{
  OddPane *pane = ODD_PANE (self);
  OddSelected kind;
  OddId id;

  if (!odd_scrap_life_find (row, odd_pane_get_job (pane), &kind, &id))
    return;
  odd_pane_select (pane, kind, id);
  if (kind != ODD_SELECTED_SCRAP)
    gtk_widget_activate_action (GTK_WIDGET (self), "win.locate", NULL);
}

/* --- what is shown --- */

static void
show_fabric (OddScrapPane *self,
             OddJob       *job,
             OddScrap     *scrap)
{
  g_autoptr(GtkStringList) names = gtk_string_list_new (NULL);
  guint selected = 0;

  gtk_string_list_append (names, _("unknown cloth"));
  for (guint i = 0; i < job->fabrics->len; i++)
    {
      OddFabric *fabric = g_ptr_array_index (job->fabrics, i);

      gtk_string_list_append (names, fabric->name);
      if (fabric->id == scrap->fabric_id)
        selected = i + 1;
    }
  adw_combo_row_set_model (self->fabric, G_LIST_MODEL (names));
  adw_combo_row_set_selected (self->fabric, selected);
}

static void
show_zones (OddScrapPane *self,
            OddScrap     *scrap,
            OddUnit       unit)
{
  GtkListBoxRow *row;

  while ((row = gtk_list_box_get_row_at_index (self->zones, 0)) != NULL)
    gtk_list_box_remove (self->zones, GTK_WIDGET (row));
  for (guint i = 0; i < scrap->n_zones; i++)
    {
      const OddZone *zone = &scrap->zones[i];
      const OddBox box = odd_polygon_get_box (zone->outline);
      g_autofree char *size = odd_length_format_pair (box.width, box.height, unit);
      g_autofree char *about = g_strdup_printf (zone->allowance_only ? _("%s, allowed inside an allowance") : _("%s, kept out"), size);
      GtkWidget *item = adw_action_row_new ();

      adw_preferences_row_set_title (ADW_PREFERENCES_ROW (item), odd_zone_kind_get_name (zone->kind));
      adw_action_row_set_subtitle (ADW_ACTION_ROW (item), about);
      gtk_list_box_append (self->zones, item);
    }
  gtk_widget_set_visible (GTK_WIDGET (self->zones), scrap->n_zones > 0);
  gtk_widget_set_visible (self->zones_title, scrap->n_zones > 0);
}

/* "2 of 3 patches are cut"; of a scrap that is cut out: "2 offcuts, 38 cm² are waste". */
static char *
dup_cutting (OddJob   *job,
             OddScrap *scrap,
             OddUnit   unit)
{
  g_autoptr(GPtrArray) offcuts = odd_job_dup_offcuts (job, scrap->id);
  g_autofree char *waste = odd_area_format (odd_job_get_waste_mm2 (job, scrap->id), unit);
  guint n = 0, n_cut = 0;
  const OddUse *uses = odd_job_get_uses (job, scrap->id, &n);

  for (guint i = 0; i < n; i++)
    n_cut += uses[i].leaf->cut == ODD_STATE_DONE;
  if (scrap->cut_out)
    return g_strdup_printf (ngettext ("%u offcut, %s of waste", "%u offcuts, %s of waste", offcuts->len), offcuts->len, waste);
  if (n == 0)
    return g_strdup (_("nothing is planned on it"));
  return g_strdup_printf (ngettext ("%u of %u patch is cut", "%u of %u patches are cut", n), n_cut, n);
}

static void
show_cutting (OddScrapPane *self,
              OddJob       *job,
              OddScrap     *scrap,
              OddUnit       unit)
{
  g_autofree char *about = dup_cutting (job, scrap, unit);
  guint n = 0;

  odd_job_get_uses (job, scrap->id, &n);
  adw_action_row_set_subtitle (self->cut_row, about);
  gtk_switch_set_active (self->cut_switch, scrap->cut_out);
  gtk_switch_set_state (self->cut_switch, scrap->cut_out);
  gtk_widget_set_sensitive (GTK_WIDGET (self->cut_row), n > 0 || scrap->cut_out);
}

static char *
dup_state (OddJob   *job,
           OddScrap *scrap)
{
  guint n = 0;
  const OddUse *uses = odd_job_get_uses (job, scrap->id, &n);
  g_autofree char *panel = n > 0 ? odd_job_dup_panel_name (job, uses[0].panel) : NULL;

  switch (odd_job_get_scrap_state (job, scrap->id))
    {
    case ODD_SCRAP_PLACED: return g_strdup_printf (_("placed in %s"), panel);
    case ODD_SCRAP_SEWN: return g_strdup_printf (_("sewn into %s"), panel);
    case ODD_SCRAP_GONE: return g_strdup (_("gone"));
    default: return g_strdup (_("free"));
    }
}

static gboolean
has_cloth (OddJob        *job,
           OddScrap      *scrap,
           OddScrapState  state)
{
  g_autoptr(GPtrArray) remains = state == ODD_SCRAP_PLACED || state == ODD_SCRAP_SEWN ? odd_scrap_remains (job, scrap->id) : NULL;

  return state == ODD_SCRAP_FREE || (remains != NULL && remains->len > 0);
}

static void
odd_scrap_pane_refresh (OddPane *pane)
{
  OddScrapPane *self = ODD_SCRAP_PANE (pane);
  OddJob *job = odd_pane_get_job (pane);
  const OddUnit unit = odd_pane_get_unit (pane);
  OddScrap *scrap = find (pane);
  OddScrapState state;
  OddBox box;
  OddFabric *fabric;
  guint n_uses = 0;

  if (scrap == NULL)
    return;
  box = odd_scrap_get_box (scrap);
  state = odd_job_get_scrap_state (job, scrap->id);
  fabric = odd_job_get_scrap_fabric (job, scrap);
  odd_job_get_uses (job, scrap->id, &n_uses);
  odd_label_take (self->title, g_strdup_printf (scrap->piece != NULL ? _("Piece %u") : _("Scrap %u"), scrap->number));
  odd_label_take (self->subtitle, dup_state (job, scrap));
  odd_scrap_view_show (self->picture, job, scrap, unit);
  odd_gives_rows_show (self->gives, odd_pane_get_document (pane), scrap, unit, self->picture);
  gtk_spin_button_set_value (self->number, scrap->number);
  odd_label_take (self->size, odd_length_format_pair (box.width, box.height, unit));
  odd_label_take (self->area, odd_area_format (odd_polygon_get_area (scrap->outline), unit));
  gtk_widget_set_visible (GTK_WIDGET (self->fabric), scrap->piece == NULL);
  odd_piece_rows_show (self->piece, pane, scrap);
  show_fabric (self, job, scrap);
  gtk_spin_button_set_value (self->grain, scrap->grain_deg);
  gtk_switch_set_active (self->washed, scrap->washed);
  gtk_switch_set_state (self->washed, scrap->washed);
  if (fabric != NULL && !scrap->washed && (fabric->shrink_along > 0.0 || fabric->shrink_across > 0.0))
    {
      g_autofree char *text = g_strdup_printf (_("will shrink %.0f %% along, %.0f %% across"), fabric->shrink_along * 100.0, fabric->shrink_across * 100.0);

      adw_action_row_set_subtitle (self->washed_row, text);
    }
  else
    adw_action_row_set_subtitle (self->washed_row, NULL);
  odd_text_entry_show (self->place, scrap->id, scrap->place);
  odd_text_entry_show (self->note, scrap->id, scrap->note);
  odd_scrap_life_show (self->life, job, scrap->id, unit);
  show_zones (self, scrap, unit);
  show_cutting (self, job, scrap, unit);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "scrap.take", has_cloth (job, scrap, state));
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "scrap.loose", state == ODD_SCRAP_FREE);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "scrap.remove", n_uses == 0 && scrap->piece == NULL);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "scrap.gone", n_uses == 0 && !scrap->gone);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "scrap.here", scrap->gone);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "scrap.locate", n_uses > 0);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "scrap.fabric", scrap->fabric_id != 0);
}

static void
odd_scrap_pane_class_init (OddScrapPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  ODD_PANE_CLASS (klass)->refresh = odd_scrap_pane_refresh;
  g_type_ensure (ODD_TYPE_GIVES_ROWS);
  g_type_ensure (ODD_TYPE_PIECE_ROWS);
  g_type_ensure (ODD_TYPE_SCRAP_VIEW);
  g_type_ensure (ODD_TYPE_TEXT_ENTRY);
  gtk_widget_class_install_action (widget_class, "scrap.take", NULL, take);
  gtk_widget_class_install_action (widget_class, "scrap.locate", NULL, locate);
  gtk_widget_class_install_action (widget_class, "scrap.fabric", NULL, edit_fabric);
  gtk_widget_class_install_action (widget_class, "scrap.remove", NULL, remove_scrap);
  gtk_widget_class_install_action (widget_class, "scrap.loose", NULL, take_loose);
  gtk_widget_class_install_action (widget_class, "scrap.gone", NULL, set_gone);
  gtk_widget_class_install_action (widget_class, "scrap.here", NULL, set_gone);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/scrap-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, OddScrapPane, title);
  gtk_widget_class_bind_template_child (widget_class, OddScrapPane, subtitle);
  gtk_widget_class_bind_template_child (widget_class, OddScrapPane, picture);
  gtk_widget_class_bind_template_child (widget_class, OddScrapPane, gives);
  gtk_widget_class_bind_template_child (widget_class, OddScrapPane, number_row);
  gtk_widget_class_bind_template_child (widget_class, OddScrapPane, number);
  gtk_widget_class_bind_template_child (widget_class, OddScrapPane, size);
  gtk_widget_class_bind_template_child (widget_class, OddScrapPane, area);
  gtk_widget_class_bind_template_child (widget_class, OddScrapPane, fabric);
  gtk_widget_class_bind_template_child (widget_class, OddScrapPane, grain);
  gtk_widget_class_bind_template_child (widget_class, OddScrapPane, washed_row);
  gtk_widget_class_bind_template_child (widget_class, OddScrapPane, washed);
  gtk_widget_class_bind_template_child (widget_class, OddScrapPane, cut_row);
  gtk_widget_class_bind_template_child (widget_class, OddScrapPane, cut_switch);
  gtk_widget_class_bind_template_child (widget_class, OddScrapPane, place);
  gtk_widget_class_bind_template_child (widget_class, OddScrapPane, note);
  gtk_widget_class_bind_template_child (widget_class, OddScrapPane, piece);
  gtk_widget_class_bind_template_child (widget_class, OddScrapPane, life);
  gtk_widget_class_bind_template_child (widget_class, OddScrapPane, zones_title);
  gtk_widget_class_bind_template_child (widget_class, OddScrapPane, zones);
  gtk_widget_class_bind_template_child (widget_class, OddScrapPane, take);
  gtk_widget_class_bind_template_callback (widget_class, life_cb);
  gtk_widget_class_bind_template_callback (widget_class, number_cb);
  gtk_widget_class_bind_template_callback (widget_class, grain_cb);
  gtk_widget_class_bind_template_callback (widget_class, fabric_cb);
  gtk_widget_class_bind_template_callback (widget_class, washed_cb);
  gtk_widget_class_bind_template_callback (widget_class, cut_cb);
  gtk_widget_class_bind_template_callback (widget_class, place_cb);
  gtk_widget_class_bind_template_callback (widget_class, note_cb);
}

static void
odd_scrap_pane_init (OddScrapPane *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  odd_scrap_view_set_least (self->picture, PICTURE_WIDTH_PX, PICTURE_HEIGHT_PX);
}
