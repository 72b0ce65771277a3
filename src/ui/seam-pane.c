#include "config.h"

#include "ui/seam-pane.h"

#include <glib/gi18n.h>

#include "drawing/painter.h"
#include "sewing/bulk.h"
#include "ui/glyph.h"
#include "ui/raw-question.h"
#include "ui/deed.h"
#include "ui/seam-facts.h"
#include "ui/seam-picture.h"
#include "ui/steps.h"
#include "ui/treatment-rows.h"

struct _OddSeamPane
{
  OddPane parent_instance;
  GtkLabel *title;
  GtkLabel *subtitle;
  OddSeamPicture *picture;
  OddSteps *steps;
  OddTreatmentRows *treatment;
  AdwActionRow *pressed_row;
  GtkToggleButton *to_first;
  GtkToggleButton *to_second;
  GtkToggleButton *to_both;
  AdwActionRow *end_rows[2];
  OddGlyph *end_marks[2];
  GtkLabel *end_words[2];
  GtkToggleButton *secure[2];
  GtkWidget *advice_box;
  OddGlyph *advice_mark;
  GtkLabel *advice;
  GtkButton *main_button;
  GtkToggleButton *lock;
};

G_DEFINE_FINAL_TYPE (OddSeamPane, odd_seam_pane, ODD_TYPE_PANE)

/* --- what the maker does --- */

static OddId
seam_id (OddSeamPane *self)
{
  return odd_pane_get_id (ODD_PANE (self));
}

/* %NULL for a join. */
static OddNode *
find_strip (OddSeamPane *self)
{
  OddPanel *panel = odd_job_find_panel_of (odd_pane_get_job (ODD_PANE (self)), seam_id (self), NULL, NULL);

  return panel != NULL ? odd_node_find_seam (panel->root, seam_id (self), NULL) : NULL;
}

static void
lock_cb (OddSeamPane *self)
{
  OddPane *pane = ODD_PANE (self);
  const gboolean locked = gtk_toggle_button_get_active (self->lock);
  OddNode *strip = find_strip (self);
  g_autoptr(GError) error = NULL;

  if (odd_pane_is_refreshing (pane) || strip == NULL)
    return;
  odd_pane_apply (pane, odd_job_set_lock (odd_pane_get_job (pane), strip->id, locked, &error), &error, locked ? _("Lock a strip") : _("Unlock a strip"));
}

static void
show_lock (OddSeamPane *self)
{
  const OddNode *strip = find_strip (self);

  gtk_widget_set_visible (GTK_WIDGET (self->lock), strip != NULL);
  gtk_toggle_button_set_active (self->lock, strip != NULL && strip->locked);
}

void
odd_seam_pane_mark_next (OddSeamPane *self)
{
  OddPane *pane = ODD_PANE (self);

  g_return_if_fail (ODD_IS_SEAM_PANE (self));

  odd_mark_next_asking (GTK_WIDGET (self), odd_pane_get_document (pane), odd_pane_get_selection (pane), seam_id (self));
}

void
odd_seam_pane_unmark_last (OddSeamPane *self)
{
  const OddAct act = { .kind = ODD_ACT_UNMARK, .seam_id = seam_id (self), .operation = ODD_ACT_NEXT };

  g_return_if_fail (ODD_IS_SEAM_PANE (self));

  odd_pane_do (ODD_PANE (self), &act, _("Open the last operation again"));
}

static void
main_button_cb (OddSeamPane *self)
{
  odd_seam_pane_mark_next (self);
}

/* Open again: the operation and all that were done after it. */
static void
reopen (OddSeamPane *self,
        guint        operation)
{
  const OddAct act = { .kind = ODD_ACT_UNMARK, .seam_id = seam_id (self), .operation = operation };

  odd_pane_do (ODD_PANE (self), &act, _("Open an operation again"));
}

static void
step_toggled_cb (OddSeamPane *self,
                 guint        operation,
                 gboolean     done)
{
  OddPane *pane = ODD_PANE (self);

  if (done)
    odd_mark_up_to_asking (GTK_WIDGET (self), odd_pane_get_document (pane), odd_pane_get_selection (pane), seam_id (self), operation);
  else
    reopen (self, operation);
}

static void
pressed_cb (OddSeamPane     *self,
            GtkToggleButton *button)
{
  OddPane *pane = ODD_PANE (self);
  const OddPressed pressed = button == self->to_first ? ODD_PRESSED_TO_FIRST : button == self->to_second ? ODD_PRESSED_TO_SECOND : ODD_PRESSED_OPEN;
  g_autoptr(GError) error = NULL;

  if (odd_pane_is_refreshing (pane) || !gtk_toggle_button_get_active (button))
    return;
  odd_pane_apply (pane, odd_job_set_pressed (odd_pane_get_job (pane), seam_id (self), pressed, &error), &error, _("Press the other way"));
}

static void
secure_cb (OddSeamPane     *self,
           GtkToggleButton *button)
{
  OddPane *pane = ODD_PANE (self);
  const gboolean secured = gtk_toggle_button_get_active (button);
  const OddAct act = { .kind = ODD_ACT_SECURE, .seam_id = seam_id (self), .end = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "end")), .state = secured ? ODD_STATE_DONE : ODD_STATE_OPEN };

  if (!odd_pane_is_refreshing (pane))
    odd_pane_do (pane, &act, secured ? _("Back-stitch an end") : _("Undo a back-stitch"));
}

static void
skip_answer_cb (OddSeamPane      *self,
                const char       *response,
                AdwMessageDialog *dialog)
{
  const char *reason = gtk_editable_get_text (GTK_EDITABLE (adw_message_dialog_get_extra_child (dialog)));
  const OddAct act = { .kind = ODD_ACT_SKIP, .seam_id = seam_id (self), .reason = *reason != '\0' ? (char *) reason : NULL };

  if (g_str_equal (response, "skip"))
    odd_pane_do (ODD_PANE (self), &act, _("Skip an operation"));
}

static void
skip (GtkWidget  *widget,
      const char *action,
      GVariant   *parameter)
{
  GtkRoot *root = gtk_widget_get_root (widget);
  GtkWidget *dialog = adw_message_dialog_new (GTK_IS_WINDOW (root) ? GTK_WINDOW (root) : NULL, _("Skip this operation?"),
                                              _("Say why, so that you know later."));
  GtkWidget *entry = gtk_entry_new ();

  gtk_entry_set_placeholder_text (GTK_ENTRY (entry), _("Selvedge, does not fray"));
  gtk_entry_set_activates_default (GTK_ENTRY (entry), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Reason"), -1);
  adw_message_dialog_set_extra_child (ADW_MESSAGE_DIALOG (dialog), entry);
  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "cancel", _("_Cancel"), "skip", _("_Skip"), NULL);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "skip");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  g_signal_connect_object (dialog, "response", G_CALLBACK (skip_answer_cb), widget, G_CONNECT_SWAPPED);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
unmark (GtkWidget  *widget,
        const char *action,
        GVariant   *parameter)
{
  odd_seam_pane_unmark_last (ODD_SEAM_PANE (widget));
}

/* --- what is shown --- */

static const char *
done_label (const OddOperation *operation)
{
  switch (operation->kind)
    {
    case ODD_OPERATION_SEW: return _("Mark sewn");
    case ODD_OPERATION_NEATEN: return operation->station == ODD_STATION_OVERLOCKER ? _("Mark overlocked") : _("Mark neatened");
    case ODD_OPERATION_TRIM: return _("Mark trimmed");
    case ODD_OPERATION_FOLD: return _("Mark folded");
    case ODD_OPERATION_PRESS: return _("Mark pressed");
    default: return _("Mark topstitched");
    }
}

static void
show_main_button (OddSeamPane        *self,
                  const OddSeamFacts *facts)
{
  const gboolean open = facts->next_operation < facts->finish->n_operations;

  gtk_button_set_label (self->main_button, open ? done_label (&facts->finish->operations[facts->next_operation]) : _("Every operation is done"));
  gtk_widget_set_sensitive (GTK_WIDGET (self->main_button), open);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "seam.skip", open);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "seam.unmark", odd_seam_is_touched (facts->seam));
}

static void
show_pressed (OddSeamPane        *self,
              const OddSeamFacts *facts,
              OddJob             *job)
{
  const OddPressed pressed = odd_pressed_resolve (facts->seam->pressed_to, facts->finish);
  const gboolean level = odd_seam_facts_is_level (facts);
  g_autofree char *side = odd_seam_facts_dup_side (facts, job, pressed == ODD_PRESSED_TO_SECOND);
  g_autofree char *text = NULL;

  if (pressed == ODD_PRESSED_OPEN)
    text = g_strdup (_("open, one side each way"));
  else if (pressed == ODD_PRESSED_TO_FIRST)
    text = g_strdup_printf (level ? _("up, to %s") : _("left, to %s"), side);
  else
    text = g_strdup_printf (level ? _("down, to %s") : _("right, to %s"), side);
  adw_action_row_set_subtitle (self->pressed_row, text);
  gtk_toggle_button_set_active (self->to_first, pressed == ODD_PRESSED_TO_FIRST);
  gtk_toggle_button_set_active (self->to_second, pressed == ODD_PRESSED_TO_SECOND);
  gtk_toggle_button_set_active (self->to_both, pressed == ODD_PRESSED_OPEN);
  gtk_widget_set_sensitive (GTK_WIDGET (self->to_both), facts->finish->may_open);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->to_first), level ? _("Press up") : _("Press left"));
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->to_second), level ? _("Press down") : _("Press right"));
}

static const char *
end_word (OddEndKind kind)
{
  switch (kind)
    {
    case ODD_END_CAUGHT: return _("caught");
    case ODD_END_BACK_STITCHED: return _("back-stitched");
    case ODD_END_CUT: return _("cut, secure it");
    default: return _("open");
    }
}

static void
show_end (OddSeamPane        *self,
          const OddSeamFacts *facts,
          OddUnit             unit,
          guint               place)
{
  const guint end = odd_seam_facts_get_end (facts, place);
  const OddEnd *laid = &facts->ends[end];
  const double apart_mm = odd_meeting_offset (facts->allowance_mm, laid->angle_deg);
  g_autofree char *apart = odd_length_format (apart_mm, unit == ODD_UNIT_CM ? ODD_UNIT_MM : unit);
  g_autofree char *meeting = g_strdup_printf (_("raw corners %s apart"), apart);
  g_autofree char *mark = g_strconcat (place == 0 ? "left-" : "right-", odd_end_kind_get_nick (laid->kind), NULL);
  const char *title;

  if (odd_seam_facts_is_level (facts))
    title = place == 0 ? _("Left end") : _("Right end");
  else
    title = place == 0 ? _("Upper end") : _("Lower end");
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->end_rows[place]), title);
  adw_action_row_set_subtitle (self->end_rows[place], apart_mm >= ODD_MEETING_LEAST_MM ? meeting : "");
  odd_glyph_set_kind (self->end_marks[place], mark);
  gtk_label_set_text (self->end_words[place], end_word (laid->kind));
  g_object_set_data (G_OBJECT (self->secure[place]), "end", GUINT_TO_POINTER (end));
  gtk_toggle_button_set_active (self->secure[place], facts->seam->end_secured[end]);
}

/* The left or upper one first. */
static void
show_ends (OddSeamPane        *self,
           const OddSeamFacts *facts,
           OddUnit             unit)
{
  show_end (self, facts, unit, 0);
  show_end (self, facts, unit, 1);
}

static void
show_advice (OddSeamPane        *self,
             const OddSeamFacts *facts,
             OddJob             *job)
{
  g_autofree char *advice = odd_job_seam_advice (job, facts->seam->id);

  gtk_widget_set_visible (self->advice_box, advice != NULL);
  if (advice == NULL)
    return;
  gtk_label_set_text (self->advice, advice);
  odd_glyph_set_kind (self->advice_mark, facts->next_operation < facts->finish->n_operations
                                          ? odd_operation_get_symbol (&facts->finish->operations[facts->next_operation]) : "check");
}

static void
show_picture (OddSeamPane        *self,
              const OddSeamFacts *facts,
              OddJob             *job)
{
  if (facts->layout != NULL)
    odd_seam_picture_show (self->picture, job, facts->layout, facts->textile, facts->seam->id);
  else
    odd_seam_picture_show_join (self->picture, job, facts->textile, facts->number - 1);
}

static void
odd_seam_pane_refresh (OddPane *pane)
{
  OddSeamPane *self = ODD_SEAM_PANE (pane);
  OddJob *job = odd_pane_get_job (pane);
  g_auto(OddSeamFacts) facts = { 0 };
  g_autoptr(GArray) scopes = NULL;

  if (odd_pane_get_kind (pane) != ODD_SELECTED_SEAM || !odd_seam_facts_init (&facts, job, seam_id (self)))
    return;
  odd_label_take (self->title, odd_seam_facts_dup_title (&facts));
  odd_label_take (self->subtitle, odd_seam_facts_dup_subtitle (&facts, job, odd_pane_get_unit (pane)));
  show_picture (self, &facts, job);
  odd_steps_show (self->steps, facts.finish, facts.seam->progress);
  scopes = odd_scopes_of_seam (job, &facts);
  odd_treatment_rows_show (self->treatment, pane, scopes);
  show_pressed (self, &facts, job);
  show_ends (self, &facts, odd_pane_get_unit (pane));
  show_advice (self, &facts, job);
  show_main_button (self, &facts);
  show_lock (self);
}

static void
odd_seam_pane_class_init (OddSeamPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  ODD_PANE_CLASS (klass)->refresh = odd_seam_pane_refresh;
  g_type_ensure (ODD_TYPE_GLYPH);
  g_type_ensure (ODD_TYPE_STEPS);
  g_type_ensure (ODD_TYPE_SEAM_PICTURE);
  g_type_ensure (ODD_TYPE_TREATMENT_ROWS);
  gtk_widget_class_install_action (widget_class, "seam.skip", NULL, skip);
  gtk_widget_class_install_action (widget_class, "seam.unmark", NULL, unmark);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/seam-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, OddSeamPane, title);
  gtk_widget_class_bind_template_child (widget_class, OddSeamPane, subtitle);
  gtk_widget_class_bind_template_child (widget_class, OddSeamPane, picture);
  gtk_widget_class_bind_template_child (widget_class, OddSeamPane, steps);
  gtk_widget_class_bind_template_child (widget_class, OddSeamPane, treatment);
  gtk_widget_class_bind_template_child (widget_class, OddSeamPane, pressed_row);
  gtk_widget_class_bind_template_child (widget_class, OddSeamPane, to_first);
  gtk_widget_class_bind_template_child (widget_class, OddSeamPane, to_second);
  gtk_widget_class_bind_template_child (widget_class, OddSeamPane, to_both);
  gtk_widget_class_bind_template_child_full (widget_class, "end_row_0", FALSE, G_STRUCT_OFFSET (OddSeamPane, end_rows[0]));
  gtk_widget_class_bind_template_child_full (widget_class, "end_row_1", FALSE, G_STRUCT_OFFSET (OddSeamPane, end_rows[1]));
  gtk_widget_class_bind_template_child_full (widget_class, "end_mark_0", FALSE, G_STRUCT_OFFSET (OddSeamPane, end_marks[0]));
  gtk_widget_class_bind_template_child_full (widget_class, "end_mark_1", FALSE, G_STRUCT_OFFSET (OddSeamPane, end_marks[1]));
  gtk_widget_class_bind_template_child_full (widget_class, "end_word_0", FALSE, G_STRUCT_OFFSET (OddSeamPane, end_words[0]));
  gtk_widget_class_bind_template_child_full (widget_class, "end_word_1", FALSE, G_STRUCT_OFFSET (OddSeamPane, end_words[1]));
  gtk_widget_class_bind_template_child_full (widget_class, "secure_0", FALSE, G_STRUCT_OFFSET (OddSeamPane, secure[0]));
  gtk_widget_class_bind_template_child_full (widget_class, "secure_1", FALSE, G_STRUCT_OFFSET (OddSeamPane, secure[1]));
  gtk_widget_class_bind_template_child (widget_class, OddSeamPane, advice_box);
  gtk_widget_class_bind_template_child (widget_class, OddSeamPane, advice_mark);
  gtk_widget_class_bind_template_child (widget_class, OddSeamPane, advice);
  gtk_widget_class_bind_template_child (widget_class, OddSeamPane, main_button);
  gtk_widget_class_bind_template_child (widget_class, OddSeamPane, lock);
  gtk_widget_class_bind_template_callback (widget_class, lock_cb);
  gtk_widget_class_bind_template_callback (widget_class, main_button_cb);
  gtk_widget_class_bind_template_callback (widget_class, step_toggled_cb);
  gtk_widget_class_bind_template_callback (widget_class, pressed_cb);
  gtk_widget_class_bind_template_callback (widget_class, secure_cb);
}

static void
odd_seam_pane_init (OddSeamPane *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
