/* What is sewn and still wants something, counted by hand. Three by two squares cut 120 mm: row seams 120 mm raw, the one across 309.2 mm. */
#include "config.h"

#include "sewing/unfinished.h"
#include "tests/grid.h"

#define PITCH 94.6
#define ACROSS (3 * PITCH + 25.4)

static void
mark (OddJob **job,
      OddId    seam)
{
  GError *error = NULL;

  grid_take (job, odd_job_mark_next (*job, seam, TRUE, &error), error);
}

static guint
count (OddJob            *job,
       OddUnfinishedKind  kind)
{
  g_auto(OddUnfinished) unfinished = { 0 };

  odd_unfinished_init (&unfinished, job, kind);
  return unfinished.seams->len;
}

/* Overlocked: sew, overlock, press. */
static void
test_steps (void)
{
  OddId id;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 3, 2, PITCH, PITCH, &id);
  OddNode *root = odd_job_get_panel (job, id, NULL, NULL)->root;
  const OddId first = root->parts[0]->seams[0].id, second = root->parts[0]->seams[1].id, across = root->seams[0].id;
  g_auto(OddUnfinished) all = { 0 };
  g_autofree char *text = NULL, *none = NULL, *one = NULL, *no_seam = NULL;
  g_auto(OddUnfinished) nothing = { 0 };

  odd_unfinished_init (&nothing, job, ODD_UNFINISHED_ALL);
  g_assert_cmpuint (nothing.seams->len, ==, 0);
  none = odd_unfinished_dup_text (&nothing, ODD_UNIT_CM);
  g_assert_cmpstr (none, ==, "No sewn seam wants that");

  mark (&job, first);
  mark (&job, second);
  mark (&job, second);
  g_assert_cmpuint (count (job, ODD_UNFINISHED_FINISH), ==, 1);
  g_assert_cmpuint (count (job, ODD_UNFINISHED_PRESS), ==, 1);
  g_assert_cmpuint (count (job, ODD_UNFINISHED_TOPSTITCH), ==, 0);
  odd_unfinished_init (&all, job, ODD_UNFINISHED_ALL);
  g_assert_cmpuint (all.seams->len, ==, 2);
  g_assert_cmpfloat_with_epsilon (all.run_mm, 240.0, 1e-6);
  g_assert_cmpuint (all.n_open[ODD_STATION_OVERLOCKER], ==, 1);
  g_assert_cmpuint (all.n_open[ODD_STATION_IRON], ==, 2);
  g_assert_cmpuint (all.n_open[ODD_STATION_SEWING_MACHINE], ==, 0);
  g_assert_cmpfloat_with_epsilon (all.open_mm[ODD_STATION_IRON], 240.0, 1e-6);
  text = odd_unfinished_dup_text (&all, ODD_UNIT_CM);
  g_assert_cmpstr (text, ==, "2 seams · overlocker 1, 0.1 m · iron 2, 0.2 m");

  /* sewn over: both are raw inside, and the one across has its edges next */
  mark (&job, across);
  g_assert_cmpuint (count (job, ODD_UNFINISHED_RAW_INSIDE), ==, 2);
  g_assert_cmpuint (count (job, ODD_UNFINISHED_FINISH), ==, 1);
  g_assert_cmpuint (count (job, ODD_UNFINISHED_ALL), ==, 3);
  odd_unfinished_clear (&all);
  odd_unfinished_init (&all, job, ODD_UNFINISHED_FINISH);
  g_assert_cmpfloat_with_epsilon (all.run_mm, ACROSS, 1e-6);
  g_assert_true (g_str_has_prefix (one = odd_unfinished_dup_text (&all, ODD_UNIT_CM), "To be made fast: 1 seam · "));
  odd_unfinished_clear (&all);
  odd_unfinished_init (&all, job, ODD_UNFINISHED_TOPSTITCH);
  g_assert_cmpstr (no_seam = odd_unfinished_dup_text (&all, ODD_UNIT_CM), ==, "To be topstitched: no seam");
}

static void
test_join (void)
{
  OddId id;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 1, 1, 200, 300, &id);
  g_auto(OddUnfinished) all = { 0 };
  OddUnfinishedKind kind = ODD_UNFINISHED_NOTHING;

  job = grid_add_panel (job, 1, 1, 200, 300, &id);
  mark (&job, ((OddTextile *) job->textiles->pdata[0])->joins[0].id);
  odd_unfinished_init (&all, job, ODD_UNFINISHED_ALL);
  g_assert_cmpuint (all.seams->len, ==, 1);
  g_assert_cmpuint (g_array_index (all.seams, OddUnfinishedSeam, 0).panel_id, ==, 0);
  g_assert_true (odd_unfinished_kind_from_nick ("raw-inside", &kind));
  g_assert_cmpint (kind, ==, ODD_UNFINISHED_RAW_INSIDE);
  g_assert_false (odd_unfinished_kind_from_nick ("else", &kind));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sewing/unfinished/steps", test_steps);
  g_test_add_func ("/sewing/unfinished/join", test_join);
  return g_test_run ();
}
