/* Sizes against data/figures/cut_size_checks.csv: what others print for cut and finished sizes, and for counts of squares.
 *
 * Each row's own source stands in the table and is printed with the row. Rows that are about other things than seams (cloth by the
 * yard, squares out of a width of cloth) are not ours to check here.
 */
#include "config.h"
#include "paths.h"

#include "cloth/csv.h"
#include "tests/grid.h"

#include <string.h>

#define INCH 25.4
#define REACHED_MM 0.05            /* counts of squares are reached within this */
#define FIRST_ALLOWANCE_MM 5.0     /* any other than those asked for */

static double
set_allowance (OddJob   **job,
               double     allowance_mm,
               gboolean   keep_cut)
{
  const OddTreatment treatment = { (*job)->treatment.finish_id, allowance_mm };
  GError *error = NULL;

  grid_take (job, odd_job_set_treatment (*job, ODD_LEVEL_JOB, 0, 0, &treatment, keep_cut, &error), error);
  return allowance_mm;
}

/* A panel whose patches shall be so large when all is sewn. */
static OddLayout *
sewn_to_size (guint  columns,
              guint  rows,
              double width_mm,
              double length_mm,
              double allowance_mm)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel_id;

  set_allowance (&job, allowance_mm, FALSE);
  job = grid_add_panel (job, columns, rows, width_mm, length_mm, &panel_id);
  return odd_job_dup_layout (job, panel_id);
}

/* A panel of patches that are cut so large: made with some allowance, then sewn with the one asked for, cut shapes kept. */
static OddJob *
job_from_cut (guint   columns,
              guint   rows,
              double  cut_width_mm,
              double  cut_length_mm,
              double  allowance_mm,
              OddId  *out_panel_id)
{
  OddJob *job = odd_job_new ();
  const double taken_mm = 2 * set_allowance (&job, FIRST_ALLOWANCE_MM, FALSE);

  job = grid_add_panel (job, columns, rows, cut_width_mm - taken_mm, cut_length_mm - taken_mm, out_panel_id);
  set_allowance (&job, allowance_mm, TRUE);
  return job;
}

static OddLayout *
sewn_from_cut (guint  columns,
               guint  rows,
               double cut_width_mm,
               double cut_length_mm,
               double allowance_mm)
{
  OddId panel_id;
  g_autoptr(OddJob) job = job_from_cut (columns, rows, cut_width_mm, cut_length_mm, allowance_mm, &panel_id);

  return odd_job_dup_layout (job, panel_id);
}

static OddBox
cut_box (const OddLayout *layout,
         guint            patch)
{
  return odd_convex_box (layout->patches[patch].cut);
}

static OddBox
region_box (const OddLayout *layout,
            guint            patch)
{
  return odd_convex_box (layout->patches[patch].region);
}

typedef enum { FINISHED, RAW } Measure;

/* How many squares cut so large make a row at least so wide. */
static guint
squares_needed (double  cut_mm,
                double  allowance_mm,
                double  target_mm,
                Measure measure)
{
  for (guint n = 1; n < 100; n++)
    {
      g_autoptr(OddLayout) layout = sewn_from_cut (n, 1, cut_mm, cut_mm, allowance_mm);

      if ((measure == RAW ? layout->raw_box : layout->box).width >= target_mm - REACHED_MM)
        return n;
    }
  g_assert_not_reached ();
}

/* --- the table --- */

static OddCsv *
load_table (void)
{
  g_autofree char *text = NULL;
  g_autoptr(GError) error = NULL;
  OddCsv *table;

  g_file_get_contents (ODD_SOURCEDIR "/data/figures/cut_size_checks.csv", &text, NULL, &error);
  g_assert_no_error (error);
  table = odd_csv_parse (text, &error);
  g_assert_no_error (error);
  return table;
}

/* @found: in the row's unit; mm for inches. What is published goes before what was computed for the table. */
static void
check_within (const char *id,
              double      found,
              double      tolerance)
{
  g_autoptr(OddCsv) table = load_table ();
  const int row = odd_csv_find (table, "id", id);
  double expected;

  g_assert_cmpint (row, >=, 0);
  expected = odd_csv_get_number (table, row, "published");
  if (isnan (expected))
    expected = odd_csv_get_number (table, row, "computed");
  if (g_str_equal (odd_csv_get (table, row, "unit"), "in"))
    expected *= INCH;
  g_test_message ("%s, %s: %s", id, odd_csv_get (table, row, "what"), odd_csv_get (table, row, "source"));
  g_assert_cmpfloat_with_epsilon (found, expected, tolerance);
}

static void
check (const char *id,
       double      found)
{
  check_within (id, found, 1e-6);
}

static void
test_cut_from_finished (void)
{
  g_autoptr(OddLayout) four = sewn_to_size (2, 2, 3 * INCH, 3 * INCH, INCH / 4);
  g_autoptr(OddLayout) oblong = sewn_to_size (4, 2, 2.5 * INCH, 5 * INCH, INCH / 4);
  g_autoptr(OddLayout) nine = sewn_to_size (3, 3, 4 * INCH, 4 * INCH, INCH / 4);
  g_autoptr(OddLayout) large = sewn_to_size (2, 2, 8 * INCH, 8 * INCH, INCH / 4);
  g_autoptr(OddLayout) sixteen = sewn_to_size (4, 4, 4 * INCH, 4 * INCH, INCH / 4);
  g_autoptr(OddLayout) tall = sewn_to_size (4, 2, 3 * INCH, 6 * INCH, INCH / 4);
  g_autoptr(OddLayout) metric = sewn_to_size (3, 3, 80, 80, 7.5);

  check ("CS1", cut_box (four, 3).width);
  check ("CS2", cut_box (oblong, 0).width);
  check ("CS3", cut_box (oblong, 7).height);
  check ("CS4", cut_box (nine, 4).width);
  check ("CS5", cut_box (large, 0).height);
  check ("CS6", cut_box (sixteen, 5).width);
  check ("CS9", cut_box (tall, 2).height);
  check ("CS27", cut_box (metric, 4).width - region_box (metric, 4).width);
}

static void
test_finished_from_cut (void)
{
  g_autoptr(OddLayout) quarter = sewn_from_cut (3, 3, 6.5 * INCH, 6.5 * INCH, INCH / 4);
  g_autoptr(OddLayout) half = sewn_from_cut (3, 3, 6 * INCH, 6 * INCH, INCH / 2);
  g_autoptr(OddLayout) strips = sewn_from_cut (3, 1, 1.5 * INCH, 6 * INCH, INCH / 4);
  g_autoptr(OddLayout) two = sewn_from_cut (2, 1, 3 * INCH, 3 * INCH, INCH / 4);
  g_autoptr(OddLayout) three = sewn_from_cut (3, 1, 5 * INCH, 5 * INCH, INCH / 4);
  g_autoptr(OddLayout) forty = sewn_from_cut (5, 8, 5 * INCH, 5 * INCH, INCH / 4);

  check ("CS10", region_box (quarter, 4).width);
  check ("CS12", region_box (half, 4).height);
  check ("CS14", strips->raw_box.width);
  check ("CS15", two->raw_box.width);
  check ("CS16", region_box (three, 1).width);
  check ("CS17", region_box (strips, 1).width);
  check ("CS21", forty->box.height);
}

static void
test_counts_of_squares (void)
{
  g_autoptr(OddLayout) five = sewn_from_cut (3, 3, 5 * INCH, 5 * INCH, INCH / 4);
  const double across = 56 * INCH / region_box (five, 4).width;
  const double down = 64 * INCH / region_box (five, 4).height;

  check ("CS11a", squares_needed (6.5 * INCH, INCH / 4, 48 * INCH, FINISHED));
  check ("CS11b", squares_needed (6.5 * INCH, INCH / 4, 66 * INCH, FINISHED));
  check ("CS13a", squares_needed (6 * INCH, INCH / 2, 50 * INCH, FINISHED));
  check ("CS13b", squares_needed (6 * INCH, INCH / 2, 65 * INCH, FINISHED));
  check_within ("CS18", across, 0.05);      /* printed to a tenth */
  check_within ("CS19", down, 0.05);
  check ("CS20", floor (across) * floor (down));
  check ("CS26", squares_needed (6.5 * INCH, INCH / 4, 92 * INCH, FINISHED) * squares_needed (6.5 * INCH, INCH / 4, 96 * INCH, FINISHED));
}

/* Panels of one column, cut so wide, joined side by side. */
static double
joined_raw_width (guint  n_panels,
                  double cut_mm,
                  double allowance_mm)
{
  g_autoptr(OddJob) job = odd_job_new ();
  g_autoptr(OddTextileLayout) textile = NULL;
  OddId panel_id;

  set_allowance (&job, allowance_mm, FALSE);
  for (guint i = 0; i < n_panels; i++)
    job = grid_add_panel (job, 1, 3, cut_mm - 2 * allowance_mm, 120, &panel_id);
  textile = odd_job_dup_textile_layout (job, ((OddTextile *) job->textiles->pdata[0])->id);
  return textile->raw_width_mm;
}

static void
test_joined (void)
{
  check ("CS22", joined_raw_width (2, 42 * INCH, INCH / 2));
  check ("D8", joined_raw_width (8, 120, 12.7));
}

/* Squares cut 120 at half an inch: common practice, no source. */
static void
test_scrap_squares (void)
{
  g_autoptr(OddLayout) three = sewn_from_cut (3, 3, 120, 120, 12.7);
  g_autoptr(OddLayout) ten = sewn_from_cut (10, 1, 120, 120, 12.7);
  g_autoptr(OddLayout) eleven = sewn_from_cut (1, 11, 120, 120, 12.7);
  g_autoptr(OddLayout) sixteen = sewn_from_cut (1, 16, 120, 120, 12.7);

  check ("D1", region_box (three, 4).width);
  g_assert_cmpfloat_with_epsilon (three->raw_box.width, 309.2, 1e-6);
  g_assert_cmpfloat_with_epsilon (three->box.height, 283.8, 1e-6);
  check ("D2", ten->raw_box.width);
  check ("D3", squares_needed (120, 12.7, 1000, RAW));
  check ("D4", eleven->raw_box.height);
  check ("D5", squares_needed (120, 12.7, 1500, RAW));
  check ("D6", sixteen->raw_box.height);
  check_within ("D7", 100 * odd_convex_area (three->patches[4].region) / odd_convex_area (three->patches[4].cut), 5e-5);
}

/* Seams 1 mm deeper on both sides, cut kept, edges as they were. */
static void
test_sewn_too_deep (void)
{
  const OddTreatment deeper = { 0, 13.7 };
  OddId panel_id;
  g_autoptr(OddJob) job = job_from_cut (10, 1, 120, 120, 12.7, &panel_id);
  g_autoptr(OddLayout) planned = odd_job_dup_layout (job, panel_id);
  g_autoptr(OddLayout) sewn = NULL;
  GError *error = NULL;

  grid_take (&job, odd_job_set_treatment (job, ODD_LEVEL_STRIP, planned->root->id, 0, &deeper, TRUE, &error), error);
  sewn = odd_job_dup_layout (job, panel_id);
  check ("D9", planned->raw_box.width - sewn->raw_box.width);
}

/* 3/8 + 1/4 = 5/8 in: Oklahoma Cooperative Extension, 4-H Construction Card No. 810. On squares cut 120 the pitch is 88.25. */
static void
test_french (void)
{
  OddId panel_id;
  g_autoptr(OddJob) job = job_from_cut (3, 3, 120, 120, 12.7, &panel_id);
  g_autoptr(OddLayout) layout = NULL;
  const OddFinish *french = odd_job_get_finish_by_key (job, "french");
  const OddTreatment treatment = { french->id, NAN };
  GError *error = NULL;

  g_assert_cmpfloat_with_epsilon (french->operations[0].at_mm + french->operations[3].at_mm, 5.0 / 8.0 * INCH, 1e-9);
  grid_take (&job, odd_job_set_treatment (job, ODD_LEVEL_JOB, 0, 0, &treatment, TRUE, &error), error);
  layout = odd_job_dup_layout (job, panel_id);
  check ("D10", region_box (layout, 4).width);
  g_assert_cmpfloat_with_epsilon (cut_box (layout, 4).width, 120, 1e-6);
}

/* 3 x 3 of 120, inner seams from 12.7 to 15.875 and edges at 12.7 still: finished 2 x (120 - 12.7 - 15.875) + 88.25 = 271.1,
 * raw 296.5; derived by hand. */
static void
test_inner_seams_wider (void)
{
  const OddTreatment wider = { 0, 15.875 };
  OddId panel_id;
  g_autoptr(OddJob) job = job_from_cut (3, 3, 120, 120, 12.7, &panel_id);
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel_id);
  GError *error = NULL;
  OddId strips[4] = { layout->root->id };

  for (guint i = 0; i < 3; i++)
    strips[i + 1] = layout->root->parts[i]->id;
  for (guint i = 0; i < G_N_ELEMENTS (strips); i++)
    grid_take (&job, odd_job_set_treatment (job, ODD_LEVEL_STRIP, strips[i], 0, &wider, TRUE, &error), error);
  odd_layout_unref (layout);
  layout = odd_job_dup_layout (job, panel_id);

  g_assert_cmpfloat_with_epsilon (region_box (layout, 4).width, 88.25, 1e-6);
  g_assert_cmpfloat_with_epsilon (layout->box.width, 271.1, 1e-6);
  g_assert_cmpfloat_with_epsilon (layout->box.height, 271.1, 1e-6);
  g_assert_cmpfloat_with_epsilon (layout->raw_box.width, 296.5, 1e-6);
  g_assert_cmpfloat_with_epsilon (cut_box (layout, 0).width, 120, 1e-6);
  g_assert_cmpfloat_with_epsilon (cut_box (layout, 4).height, 120, 1e-6);
}

/* Two panels of 3 x 3 squares cut 120 at 12.7, joined by a French seam of 15.875: each 283.8 - 3.175 = 280.625 wide, 561.25
 * together, raw 561.25 + 2 x 12.7 = 586.65; derived by hand. */
static void
test_joined_by_french_seam (void)
{
  OddId panel_id;
  g_autoptr(OddJob) job = job_from_cut (3, 3, 120, 120, 12.7, &panel_id);
  g_autoptr(OddTextileLayout) textile = NULL;
  const OddTreatment french = { odd_job_get_finish_by_key (job, "french")->id, NAN };
  GError *error = NULL;

  job = grid_add_panel (job, 3, 3, 94.6, 94.6, &panel_id);
  grid_take (&job, odd_job_set_treatment (job, ODD_LEVEL_SEAM, ((OddTextile *) job->textiles->pdata[0])->joins[0].id, 0, &french, TRUE, &error), error);
  textile = odd_job_dup_textile_layout (job, ((OddTextile *) job->textiles->pdata[0])->id);

  for (guint i = 0; i < 2; i++)
    {
      g_assert_cmpfloat_with_epsilon (textile->panels[i].layout->box.width, 280.625, 1e-6);
      g_assert_cmpfloat_with_epsilon (textile->panels[i].layout->alone_width_mm, 283.8, 1e-6);
    }
  g_assert_cmpfloat_with_epsilon (textile->finished_width_mm, 561.25, 1e-6);
  g_assert_cmpfloat_with_epsilon (textile->raw_width_mm, 586.65, 1e-6);
  g_assert_cmpfloat_with_epsilon (textile->finished_length_mm, 283.8, 1e-6);
  g_assert_cmpfloat_with_epsilon (textile->raw_length_mm, 309.2, 1e-6);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cut-sizes/cut-from-finished", test_cut_from_finished);
  g_test_add_func ("/cut-sizes/finished-from-cut", test_finished_from_cut);
  g_test_add_func ("/cut-sizes/counts-of-squares", test_counts_of_squares);
  g_test_add_func ("/cut-sizes/joined", test_joined);
  g_test_add_func ("/cut-sizes/scrap-squares", test_scrap_squares);
  g_test_add_func ("/cut-sizes/sewn-too-deep", test_sewn_too_deep);
  g_test_add_func ("/cut-sizes/french", test_french);
  g_test_add_func ("/cut-sizes/inner-seams-wider", test_inner_seams_wider);
  g_test_add_func ("/cut-sizes/joined-by-french-seam", test_joined_by_french_seam);
  return g_test_run ();
}
