#include "config.h"

#include "sewing/thread.h"

#include "cloth/csv.h"

#include <string.h>

/* A middling 504 for the span of its formulas: seam 0.6 mm thick, overedge 5 mm wide, 12 stitches an inch; in inches. */
#define THICKNESS_504 0.0236
#define WIDTH_504 0.1969
#define DENSITY_504 12.0

/* C = a + S (t T + w W) */
static const struct { const char *stitch; double a, t, w; } formulas[] = {
  { "101", 3, 2, 0 },
  { "301", 2, 2, 0 },
  { "401", 4, 2, 0 },
  { "504", 3, 4, 4 },
  { "514", 5, 6, 4 },
};

double
odd_thread_by_formula (const char *stitch,
                       double      thickness,
                       double      density,
                       double      width)
{
  g_return_val_if_fail (stitch != NULL, NAN);

  for (guint i = 0; i < G_N_ELEMENTS (formulas); i++)
    if (g_str_equal (formulas[i].stitch, stitch))
      return formulas[i].a + density * (formulas[i].t * thickness + formulas[i].w * width);
  return NAN;
}

double
odd_thread_by_formula_504_high (double thickness,
                                double density,
                                double width)
{
  return 5.0 + 4.0 * density * (width + thickness);
}

/* --- the table --- */

static guint
get_trust (const char *status)
{
  static const char *const words[] = { "memory", "practice", "derived", "secondary", "seen" };

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (g_str_equal (words[i], status))
      return i + 1;
  return 0;
}

typedef struct { OddThreadFigure figure; guint trust; gboolean shares_differ; } Entry;

static Entry *
find_entry (GArray     *entries,
            const char *stitch)
{
  const Entry entry = { { .stitch = stitch, .low = G_MAXDOUBLE, .needle_share = NAN } };

  for (guint i = 0; i < entries->len; i++)
    if (g_str_equal (g_array_index (entries, Entry, i).figure.stitch, stitch))
      return &g_array_index (entries, Entry, i);
  g_array_append_val (entries, entry);
  return &g_array_index (entries, Entry, entries->len - 1);
}

static void
add_share (Entry  *entry,
           double  percent)
{
  if (isnan (percent))
    return;
  if (!isnan (entry->figure.needle_share) && fabs (entry->figure.needle_share - percent / 100.0) > 0.005)
    entry->shares_differ = TRUE;
  entry->figure.needle_share = percent / 100.0;
}

static void
add_row (GArray       *entries,
         const OddCsv *table,
         guint         row)
{
  Entry *entry = find_entry (entries, odd_csv_get (table, row, "stitch"));
  const double m_per_m = odd_csv_get_number (table, row, "m_thread_per_m_seam");
  const guint trust = get_trust (odd_csv_get (table, row, "status"));

  entry->figure.low = MIN (entry->figure.low, m_per_m);
  entry->figure.high = MAX (entry->figure.high, m_per_m);
  add_share (entry, odd_csv_get_number (table, row, "needle_share_pct"));
  if (trust <= entry->trust)
    return;
  entry->trust = trust;
  entry->figure.m_per_m = m_per_m;
  entry->figure.source = odd_csv_get (table, row, "source");
}

static gpointer
load_entries (gpointer data)
{
  static OddCsv *table;      /* kept for good: the entries point into it */
  GArray *entries = g_array_new (FALSE, FALSE, sizeof (Entry));
  Entry *overedge;

  table = odd_csv_load_figures ("thread_consumption.csv");
  for (guint i = 0; i < table->rows->len; i++)
    if (!g_str_equal (odd_csv_get (table, i, "kind"), "factor"))
      add_row (entries, table, i);
  for (guint i = 0; i < entries->len; i++)
    if (g_array_index (entries, Entry, i).shares_differ)
      g_array_index (entries, Entry, i).figure.needle_share = NAN;
  overedge = find_entry (entries, "504");
  overedge->figure.low = MIN (overedge->figure.low, odd_thread_by_formula ("504", THICKNESS_504, DENSITY_504, WIDTH_504));
  overedge->figure.high = MAX (overedge->figure.high, odd_thread_by_formula_504_high (THICKNESS_504, DENSITY_504, WIDTH_504));
  return entries;
}

const OddThreadFigure *
odd_thread_get_figure (const char *stitch)
{
  static GOnce once = G_ONCE_INIT;
  const GArray *entries = g_once (&once, load_entries, NULL);

  g_return_val_if_fail (stitch != NULL, NULL);

  for (guint i = 0; i < entries->len; i++)
    if (g_str_equal (g_array_index (entries, Entry, i).figure.stitch, stitch))
      return &g_array_index (entries, Entry, i).figure;
  return NULL;
}

/* --- of a plan --- */

void
odd_thread_use_free (OddThreadUse *use)
{
  g_free (use->stitch);
  g_free (use);
}

guint
odd_operation_count_lines (const OddOperation *operation)
{
  g_return_val_if_fail (operation != NULL, 1);

  return operation->kind == ODD_OPERATION_NEATEN && (operation->before_joining || operation->face == ODD_FACE_ONE_LAYER) ? 2 : 1;
}

static gboolean
is_stitched (const OddOperation *operation)
{
  return operation->kind == ODD_OPERATION_SEW || operation->kind == ODD_OPERATION_NEATEN || operation->kind == ODD_OPERATION_TOPSTITCH;
}

static OddThreadUse *
find_use (GPtrArray          *uses,
          const OddOperation *operation)
{
  const char *named = operation->station == ODD_STATION_OVERLOCKER ? "504" : "301";
  const char *stitch = operation->stitch != NULL ? operation->stitch : named;
  OddThreadUse *use;

  for (guint i = 0; i < uses->len; i++)
    if (g_str_equal (((OddThreadUse *) uses->pdata[i])->stitch, stitch))
      return uses->pdata[i];
  use = g_new0 (OddThreadUse, 1);
  use->stitch = g_strdup (stitch);
  use->station = operation->station;
  use->figure = odd_thread_get_figure (stitch);
  g_ptr_array_add (uses, use);
  return use;
}

static void
work_out (OddThreadUse *use,
          double        waste)
{
  const double share = use->figure != NULL ? use->figure->needle_share : NAN;

  if (use->figure == NULL)
    return;
  use->thread_mm = use->seam_mm * use->figure->m_per_m * waste;
  use->low_mm = use->seam_mm * use->figure->low * waste;
  use->high_mm = use->seam_mm * use->figure->high * waste;
  use->needle_mm = use->thread_mm * share;
  use->under_mm = use->thread_mm * (1.0 - share);
}

static int
compare_stitches (gconstpointer a,
                  gconstpointer b)
{
  return strcmp ((*(OddThreadUse *const *) a)->stitch, (*(OddThreadUse *const *) b)->stitch);
}

GPtrArray *
odd_plan_thread (OddPlan *plan,
                 double   waste)
{
  GPtrArray *uses = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_thread_use_free);

  g_return_val_if_fail (plan != NULL && waste >= 1.0, uses);

  for (guint i = 0; i < plan->n_tasks; i++)
    {
      OddTaskFacts facts;

      if (plan->tasks[i].key.kind != ODD_TASK_OPERATION)
        continue;
      odd_plan_get_facts (plan, i, &facts);
      if (is_stitched (facts.operation))
        find_use (uses, facts.operation)->seam_mm += facts.length_mm * odd_operation_count_lines (facts.operation);
    }
  for (guint i = 0; i < uses->len; i++)
    work_out (uses->pdata[i], waste);
  g_ptr_array_sort (uses, compare_stitches);
  return uses;
}

double
odd_thread_sum_untold (const GPtrArray *uses)
{
  double sum_mm = 0.0;

  g_return_val_if_fail (uses != NULL, 0.0);

  for (guint i = 0; i < uses->len; i++)
    if (((const OddThreadUse *) uses->pdata[i])->figure == NULL)
      sum_mm += ((const OddThreadUse *) uses->pdata[i])->seam_mm;
  return sum_mm;
}

guint
odd_thread_count_spools (double thread_mm,
                         double spool_m)
{
  g_return_val_if_fail (spool_m > 0.0, 0);

  return ceil (thread_mm / 1000.0 / spool_m - 1e-9);
}
