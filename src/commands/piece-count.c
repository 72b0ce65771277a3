#include "config.h"

#include "commands/command-private.h"

#include <glib/gi18n.h>

#include "piecing/gives.h"

static double
resolve_allowance (OddJob                   *job,
                   const OddProposalOptions *options)
{
  const OddTextile *textile = job->textiles->len > 0 ? job->textiles->pdata[0] : NULL;
  const OddTreatment *levels[2] = { textile != NULL ? &textile->treatment : NULL, &options->treatment };
  double allowance_mm;

  odd_job_resolve (job, levels, G_N_ELEMENTS (levels), NULL, &allowance_mm);
  return allowance_mm;
}

static void
add_counts (GString *text, const guint *n, guint n_templates)
{
  for (guint t = 0; t < n_templates; t++)
    g_string_append_printf (text, " %u", n[t]);
  g_string_append_c (text, '\n');
}

static void
add_figure (GString *text, const char *name, double figure, const char *unit)
{
  char number[G_ASCII_DTOSTR_BUF_SIZE];

  g_ascii_formatd (number, sizeof number, "%.1f", figure);
  g_string_append_printf (text, "%s %s %s\n", name, number, unit);
}

/* "scrap 12 4", of two sizes "scrap 12 4 7"; "left" for a scrap that lies in a panel. */
static void
add_scraps (GString *text, OddJob *job, const OddGives *gives)
{
  for (guint i = 0; i < gives->scraps->len; i++)
    {
      const OddScrapGives *scrap = gives->scraps->pdata[i];

      g_string_append_printf (text, "%s %u", scrap->left ? "left" : "scrap", odd_job_get_scrap (job, scrap->scrap_id)->number);
      add_counts (text, scrap->n, gives->sizes.n_templates);
    }
}

static void
add_sum (GString *text, const OddGives *gives)
{
  OddGivesSum sum;

  odd_gives_sum (gives, NULL, 0, &sum);
  g_string_append (text, "all");
  add_counts (text, sum.n, gives->sizes.n_templates);
  g_string_append_printf (text, "scraps %u\n", sum.n_scraps);
  g_string_append_printf (text, "none %u\n", sum.n_none);
  add_figure (text, "none-area", sum.none_mm2 / 100.0, "cm2");
  add_figure (text, "none-weight", sum.none_grams, "g");
  g_string_append_printf (text, "none-not-weighed %u\n", sum.n_none - sum.n_weighed);
  add_figure (text, "of-heap", 100.0 * sum.of_heap, "%");
  add_figure (text, "net-yield", 100.0 * sum.net_yield, "%");
  add_figure (text, "own-bound", 100.0 * sum.own_bound, "%");
  add_figure (text, "fit", 100.0 * sum.fit, "%");
}

int
odd_command_count (OddJob *job, const OddProposalOptions *options)
{
  OddCutSizes sizes = { .n_templates = options->n_templates, .allowance_mm = resolve_allowance (job, options) };
  g_autoptr(OddGives) gives = NULL;
  g_autoptr(GString) text = g_string_new (NULL);
  g_autoptr(GError) error = NULL;

  for (guint t = 0; t < options->n_templates; t++)
    sizes.templates[t] = options->templates[t];
  gives = odd_gives_new (job, &sizes, ODD_GIVES_YIELD | (options->remains ? ODD_GIVES_REMAINS : 0), NULL, &error);
  if (gives == NULL)
    return odd_command_fail ("%s", error->message);
  add_scraps (text, job, gives);
  add_sum (text, gives);
  return odd_command_print (text->str, text->len);
}
