#include "config.h"

#include "ui/size-rows.h"

#include <glib/gi18n.h>

#include "cloth/measured.h"
#include "sewing/expected.h"
#include "sewing/remedies.h"
#include "ui/measure-dialog.h"

struct _OddSizeRows
{
  AdwBin parent_instance;
  AdwActionRow *state;
  AdwActionRow *expected;
  AdwActionRow *unequal;
};

G_DEFINE_FINAL_TYPE (OddSizeRows, odd_size_rows, ADW_TYPE_BIN)

/* --- as planned, as sewn --- */

static gboolean
is_as_sewn (OddJob *job,
            OddId   id)
{
  OddTextile *textile = odd_job_get_textile (job, id);
  OddPanel *panel = odd_job_get_panel (job, id, NULL, NULL);

  if (textile != NULL)
    return odd_textile_is_as_sewn (textile);
  return panel != NULL ? odd_panel_is_as_sewn (panel) : odd_job_get_measure (job, id) != NULL;
}

static void
show_state (OddSizeRows *self,
            OddJob      *job,
            OddId        id,
            OddUnit      unit)
{
  OddMeasure none;
  OddMeasured measured;
  g_autofree char *now = NULL;
  g_autofree char *planned = NULL;
  g_autofree char *text = NULL;
  const gboolean sewn = is_as_sewn (job, id);

  odd_measure_init (&none);
  if (!odd_job_evaluate_measure (job, id, &none, &measured, NULL))
    {
      gtk_widget_set_visible (GTK_WIDGET (self->state), FALSE);
      return;
    }
  now = odd_length_format_pair (measured.width.now_mm, measured.length.now_mm, unit);
  planned = odd_length_format_pair (measured.width.planned_mm, measured.length.planned_mm, unit);
  /* How a textile was planned is told panel by panel: the shortest rules, and it may be another one by now. */
  text = sewn && odd_job_get_textile (job, id) == NULL ? g_strdup_printf (_("%s raw; planned %s"), now, planned) : g_strdup_printf (_("%s raw"), now);
  gtk_widget_set_visible (GTK_WIDGET (self->state), TRUE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->state), sewn ? _("Sizes as sewn") : _("Sizes as planned"));
  adw_action_row_set_subtitle (self->state, text);
}

/* --- expected --- */

static void
say_expected (GString           *text,
              const OddExpected *expected,
              const char        *format,
              OddUnit            unit)
{
  g_autofree char *mean = odd_length_format (expected->mean_mm, unit);
  g_autofree char *least = odd_length_format (expected->least_95_mm, unit);
  g_autofree char *more = odd_length_format (expected->add_mm, unit);
  const double percent = 100.0 * expected->chance_short;

  if (text->len > 0)
    g_string_append_c (text, '\n');
  g_string_append_printf (text, format, mean, least);
  if (expected->add_mm >= 0.05)
    g_string_append_printf (text, _("; add %s"), more);
  /* Where the plan itself falls short, that is told as missing. */
  if (expected->wanted_mm < expected->planned_mm && percent >= 0.5)
    g_string_append_printf (text, _("; shorter than wanted in %.0f of 100"), percent);
}

static void
show_expected (OddSizeRows *self,
               OddJob      *job,
               OddId        id,
               OddUnit      unit)
{
  GString *text = g_string_new (NULL);
  OddExpected expected;

  if (odd_job_expect (job, id, TRUE, &expected) && expected.n_seams > 0)
    say_expected (text, &expected, _("%s wide, 95 %% at least %s"), unit);
  if (odd_job_expect (job, id, FALSE, &expected) && expected.n_seams > 0)
    say_expected (text, &expected, _("%s long, 95 %% at least %s"), unit);
  gtk_widget_set_visible (GTK_WIDGET (self->expected), text->len > 0);
  adw_action_row_set_subtitle (self->expected, text->str);
  g_string_free (text, TRUE);
}

/* --- unequal panels --- */

static void
show_unequal (OddSizeRows *self,
              OddJob      *job,
              OddId        id,
              OddUnit      unit)
{
  g_autoptr(OddUnequal) unequal = odd_job_get_textile (job, id) != NULL ? odd_job_find_unequal (job, id, unit) : NULL;
  g_autofree char *name = NULL;
  g_autofree char *gap = NULL;
  g_autofree char *text = NULL;

  gtk_widget_set_visible (GTK_WIDGET (self->unequal), unequal != NULL);
  if (unequal == NULL)
    return;
  name = odd_job_dup_panel_name (job, odd_job_get_panel (job, g_array_index (unequal->short_panels, OddId, 0), NULL, NULL));
  gap = odd_depth_format (unequal->gap_mm, unit);
  text = g_strdup_printf (_("%s is %s short: see what can be done"), name, gap);
  adw_action_row_set_subtitle (self->unequal, text);
}

void
odd_size_rows_show (OddSizeRows *self,
                    OddJob      *job,
                    OddId        id,
                    OddUnit      unit)
{
  g_return_if_fail (ODD_IS_SIZE_ROWS (self));

  gtk_actionable_set_action_target (GTK_ACTIONABLE (self->state), "u", id);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (self->unequal), "u", id);
  show_state (self, job, id, unit);
  show_expected (self, job, id, unit);
  show_unequal (self, job, id, unit);
}

static AdwActionRow *
add_row (GtkWidget  *list,
         const char *title,
         const char *action)
{
  GtkWidget *row = adw_action_row_new ();

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  adw_action_row_set_title_lines (ADW_ACTION_ROW (row), 0);
  adw_action_row_set_subtitle_lines (ADW_ACTION_ROW (row), 0);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), action != NULL);
  if (action != NULL)
    {
      gtk_actionable_set_action_target (GTK_ACTIONABLE (row), "u", 0);
      gtk_actionable_set_action_name (GTK_ACTIONABLE (row), action);
      adw_action_row_add_suffix (ADW_ACTION_ROW (row), gtk_image_new_from_icon_name ("go-next-symbolic"));
    }
  gtk_list_box_append (GTK_LIST_BOX (list), row);
  return ADW_ACTION_ROW (row);
}

static void
odd_size_rows_class_init (OddSizeRowsClass *klass)
{
}

static void
odd_size_rows_init (OddSizeRows *self)
{
  GtkWidget *list = gtk_list_box_new ();

  gtk_list_box_set_selection_mode (GTK_LIST_BOX (list), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (list, "boxed-list");
  self->state = add_row (list, _("Sizes as planned"), "win.measure-part");
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->state), _("Measure (M)"));
  self->expected = add_row (list, _("Expected when sewn"), NULL);
  self->unequal = add_row (list, _("Unequal panels"), "win.remedies");
  adw_bin_set_child (ADW_BIN (self), list);
}
