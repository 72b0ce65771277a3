#include "config.h"

#include "commands/report-text.h"

#include <glib/gi18n.h>
#include "sewing/bias.h"
#include "sewing/ends.h"
#include "sewing/own-time.h"
#include "sewing/progress.h"
#include "sewing/thread.h"

/* --- a table: columns as wide as their widest cell --- */

#define N_COLUMNS 6

typedef struct { char *cells[N_COLUMNS]; } Row;

static void
row_clear (gpointer data)
{
  Row *row = data;

  for (guint i = 0; i < N_COLUMNS; i++)
    g_free (row->cells[i]);
}

static void
append_padded (GString *text, const char *cell, glong width, gboolean to_the_right)
{
  const glong missing = width - g_utf8_strlen (cell, -1);

  if (!to_the_right)
    g_string_append (text, cell);
  for (glong i = 0; i < missing; i++)
    g_string_append_c (text, ' ');
  if (to_the_right)
    g_string_append (text, cell);
}

static void
end_line (GString *text)
{
  while (text->len > 0 && text->str[text->len - 1] == ' ')
    g_string_truncate (text, text->len - 1);
  g_string_append_c (text, '\n');
}

/* The first column holds names and stands to the left, figures to the right. */
static void
append_table (GString *text, const GArray *rows)
{
  glong widths[N_COLUMNS] = { 0 };

  for (guint r = 0; r < rows->len; r++)
    for (guint c = 0; c < N_COLUMNS; c++)
      widths[c] = MAX (widths[c], g_utf8_strlen (g_array_index (rows, Row, r).cells[c], -1));
  for (guint r = 0; r < rows->len; r++)
    {
      for (guint c = 0; c < N_COLUMNS; c++)
        {
          g_string_append (text, "  ");
          append_padded (text, g_array_index (rows, Row, r).cells[c], widths[c], c > 0);
        }
      end_line (text);
    }
}

static void
append_line (GString *text, const char *label, const char *value)
{
  g_string_append (text, "  ");
  append_padded (text, label, 14, FALSE);
  g_string_append (text, value);
  end_line (text);
}

static void
take_line (GString *text, const char *label, char *value)
{
  append_line (text, label, value);
  g_free (value);
}

/* --- what is told --- */

static char *
describe_work (const OddWorkCount *work)
{
  static const char *const texts[] = { N_("%u to sew"), N_("%u to finish"), N_("%u to press"), N_("%u to topstitch") };
  g_autoptr(GString) text = g_string_new (NULL);

  if (work->n_seams > 0 && work->n_done == work->n_seams)
    return g_strdup (_("every seam is done"));
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autofree char *count = g_strdup_printf (_(texts[i]), work->n[i]);

      g_string_append_printf (text, "%s%s", i > 0 ? ", " : "", count);
    }
  g_string_append_printf (text, ", ");
  g_string_append_printf (text, _("%u done"), work->n_done);
  if (work->n_raw_inside > 0)
    {
      g_string_append (text, ", ");
      g_string_append_printf (text, _("%u raw inside"), work->n_raw_inside);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static char *
describe_difference (double missing_mm, double surplus_mm, OddUnit unit, const char *missing_text, const char *surplus_text)
{
  g_autofree char *length = odd_length_format (missing_mm > 0.0 ? missing_mm : surplus_mm, unit);

  return g_strdup_printf (missing_mm > 0.0 ? missing_text : surplus_text, length);
}

static void
append_target (GString *text, const OddTextileLayout *laid, OddUnit unit)
{
  const OddTextile *textile = laid->textile;

  if (textile->target_width_mm > 0.0)
    {
      g_autofree char *target = odd_length_format (textile->target_width_mm, unit);
      g_autofree char *difference = describe_difference (laid->missing_width_mm, laid->surplus_width_mm, unit, _("%s too narrow"), _("%s to spare"));

      take_line (text, _("Wanted width"), g_strdup_printf ("%s, %s", target, difference));
    }
  if (textile->target_length_mm > 0.0)
    {
      g_autofree char *target = odd_length_format (textile->target_length_mm, unit);
      g_autofree char *difference = describe_difference (laid->missing_length_mm, laid->surplus_length_mm, unit, _("%s too short"), _("%s to spare"));

      take_line (text, _("Wanted length"), g_strdup_printf ("%s, %s", target, difference));
    }
}

static void
add_heading (GArray *rows)
{
  const Row row = { { g_strdup (_("Panel")), g_strdup (_("finished")), g_strdup (_("raw")), g_strdup (_("patches")), g_strdup (_("bare")),
                      g_strdup (_("seams done")) } };

  g_array_append_val (rows, row);
}

static void
add_panel (GArray *rows, OddJob *job, OddPanel *panel, const OddLayout *layout, OddUnit unit)
{
  const OddWorkCount work = odd_layout_count_work (layout);
  guint n_bare = 0;
  Row row;

  for (guint i = 0; i < layout->n_patches; i++)
    n_bare += layout->patches[i].scrap == NULL;
  row.cells[0] = odd_job_dup_panel_name (job, panel);
  row.cells[1] = odd_length_format_pair (layout->box.width, layout->box.height, unit);
  row.cells[2] = odd_length_format_pair (layout->raw_box.width, layout->raw_box.height, unit);
  row.cells[3] = g_strdup_printf ("%u", layout->n_patches);
  row.cells[4] = g_strdup_printf ("%u", n_bare);
  row.cells[5] = g_strdup_printf (_("%u of %u"), work.n_done, work.n_seams);
  g_array_append_val (rows, row);
}

static GArray *
new_table (void)
{
  GArray *rows = g_array_new (FALSE, FALSE, sizeof (Row));

  g_array_set_clear_func (rows, row_clear);
  add_heading (rows);
  return rows;
}

/* Patches whose long edges on the bias want to be stayed; nothing where there is none. */
static void
append_bias (GString *text, OddJob *job, OddTextile *textile, OddUnit unit)
{
  g_autoptr(GArray) patches = odd_job_dup_bias (job, textile->id);
  g_autofree char *length = NULL;
  double length_mm = 0.0;

  if (patches->len == 0)
    return;
  for (guint i = 0; i < patches->len; i++)
    length_mm += g_array_index (patches, OddBiasPatch, i).length_mm;
  length = odd_run_format (length_mm, unit);
  take_line (text, _("On the bias"), g_strdup_printf (ngettext ("%u patch to stay, %s of edges", "%u patches to stay, %s of edges", patches->len), patches->len, length));
}

static char *
describe_operations (const OddPlan *plan)
{
  GString *text = g_string_new (NULL);

  for (guint s = 0; s < ODD_N_STATIONS; s++)
    if (plan->n_left[s] > 0)
      g_string_append_printf (text, "%s%u %s", text->len > 0 ? ", " : "", plan->n_left[s], odd_station_get_name (s));
  return g_string_free (text, FALSE);
}

static char *
describe_thread (OddPlan *plan, OddUnit unit)
{
  g_autoptr(GPtrArray) uses = odd_plan_thread (plan, ODD_THREAD_WASTE);
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < uses->len; i++)
    {
      const OddThreadUse *use = uses->pdata[i];
      g_autofree char *length = odd_run_format (use->thread_mm, unit);

      if (use->figure != NULL)
        g_string_append_printf (text, "%s%s (%s)", text->len > 0 ? ", " : "", length, use->stitch);
    }
  if (odd_thread_sum_untold (uses) > 0.0)
    {
      g_autofree char *untold = odd_run_format (odd_thread_sum_untold (uses), unit);

      g_string_append_printf (text, "%s", text->len > 0 ? "; " : "");
      g_string_append_printf (text, _("no figure for %s of stitching"), untold);
    }
  return g_string_free (text, FALSE);
}

/* Both manners, then what is left by the one of few walks, as report-work.c has it. */
static void
append_plans (GString *text, OddJob *job, OddTextile *textile, OddUnit unit)
{
  g_autoptr(OddPlan) chain = odd_plan_new (job, textile->id, ODD_MANNER_CHAIN, NULL, 0, NULL);
  g_autoptr(OddPlan) walks = odd_plan_new (job, textile->id, ODD_MANNER_WALKS, NULL, 0, chain);
  const OddPlan *const plans[] = { chain, walks };
  const guint n_ends = odd_job_count_ends_to_secure (job, textile->id);

  if (walks->n_tasks == 0)
    return;
  for (guint i = 0; i < G_N_ELEMENTS (plans); i++)
    take_line (text, odd_manner_get_name (plans[i]->manner), g_strdup_printf (_("%u rounds, %u stops"), plans[i]->n_rounds, plans[i]->n_walks));
  take_line (text, _("Operations"), describe_operations (walks));
  take_line (text, _("Thread"), describe_thread (walks, unit));
  take_line (text, _("Time"), odd_range_dup_text (odd_job_plan_time (job, walks).all));
  take_line (text, _("Ends"), g_strdup_printf (_("%u to secure"), n_ends));
}

static void
append_textile (GString *text, OddJob *job, OddTextile *textile, OddUnit unit)
{
  g_autoptr(OddTextileLayout) laid = odd_job_dup_textile_layout (job, textile->id);
  g_autofree char *name = odd_job_dup_textile_name (job, textile);
  const OddWorkCount work = odd_job_count_work (job, textile->id);
  g_autoptr(GArray) rows = new_table ();

  g_string_append_printf (text, "\n%s\n", name);
  if (laid->n_panels == 0)
    {
      g_string_append_printf (text, "  %s\n", _("No panels yet."));
      return;
    }
  take_line (text, _("Finished"), odd_length_format_pair (laid->finished_width_mm, laid->finished_length_mm, unit));
  take_line (text, _("Raw"), odd_length_format_pair (laid->raw_width_mm, laid->raw_length_mm, unit));
  append_target (text, laid, unit);
  take_line (text, _("Seams"), describe_work (&work));
  append_plans (text, job, textile, unit);
  append_bias (text, job, textile, unit);
  for (guint i = 0; i < laid->n_panels; i++)
    add_panel (rows, job, textile->hung[i].panel, laid->panels[i].layout, unit);
  g_string_append_c (text, '\n');
  append_table (text, rows);
}

static void
append_loose_panels (GString *text, OddJob *job, OddUnit unit)
{
  g_autoptr(GArray) rows = new_table ();

  if (job->loose_panels->len == 0)
    return;
  g_string_append_printf (text, "\n%s\n", _("Loose panels"));
  for (guint i = 0; i < job->loose_panels->len; i++)
    {
      OddPanel *panel = job->loose_panels->pdata[i];
      g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel->id);

      add_panel (rows, job, panel, layout, unit);
    }
  append_table (text, rows);
}

static void
append_scraps (GString *text, OddJob *job)
{
  guint n[4] = { 0 };

  for (guint i = 0; i < job->scraps->len; i++)
    n[odd_job_get_scrap_state (job, ((OddScrap *) job->scraps->pdata[i])->id)]++;
  g_string_append_printf (text, "\n%s\n", _("Scraps"));
  take_line (text, _("In all"), g_strdup_printf (_("%u of %u fabrics"), job->scraps->len, job->fabrics->len));
  take_line (text, _("Of these"), g_strdup_printf (_("%u free, %u placed, %u sewn, %u gone"), n[ODD_SCRAP_FREE], n[ODD_SCRAP_PLACED],
                                                   n[ODD_SCRAP_SEWN], n[ODD_SCRAP_GONE]));
}

static void
append_findings (GString *text, OddJob *job, const char *file)
{
  g_autoptr(GPtrArray) findings = odd_job_check (job, NULL);

  if (findings->len == 0)
    {
      g_string_append_printf (text, "\n%s\n", _("Every patch fits its scrap."));
      return;
    }
  g_string_append_c (text, '\n');
  g_string_append_printf (text, ngettext ("%u finding: “oddment check %s” tells it.", "%u findings: “oddment check %s” lists them.", findings->len),
                          findings->len, file);
  g_string_append_c (text, '\n');
}

char *
odd_report_text (OddJob *job, const char *title, const char *file, OddUnit unit)
{
  g_autoptr(GString) text = g_string_new (title);

  g_return_val_if_fail (job != NULL && title != NULL && file != NULL, NULL);

  g_string_append_c (text, '\n');
  for (guint i = 0; i < job->textiles->len; i++)
    append_textile (text, job, job->textiles->pdata[i], unit);
  append_loose_panels (text, job, unit);
  append_scraps (text, job);
  append_findings (text, job, file);
  return g_string_free (g_steal_pointer (&text), FALSE);
}
