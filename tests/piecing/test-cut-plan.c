/* What templates give from a scrap. */
#include "config.h"
#include "paths.h"

#include "cloth/csv.h"
#include "geometry/inscribed.h"
#include "piecing/cut-plan.h"
#include "bench/heap.h"
#include "tub.h"

#define INCH 25.4

static OddPolygon *
polygon (const OddPoint *points,
         guint           n)
{
  g_autoptr(GError) error = NULL;
  OddPolygon *self = odd_polygon_new (points, n, &error);

  g_assert_no_error (error);

  return self;
}

static OddPolygon *
rectangle (double width_mm,
           double length_mm,
           double turn_deg)
{
  const OddPlacement pose = { turn_deg, FALSE, { 3.0, -7.0 } };
  g_autoptr(OddPolygon) box = odd_polygon_new_box ((OddBox) { 0.0, 0.0, width_mm, length_mm });

  return odd_polygon_place (box, &pose);
}

static OddCutPlan *
plan (OddPolygon        *cloth,
      const OddTemplate *templates,
      guint              n_templates)
{
  g_autoptr(GArray) turns = odd_polygon_flush_turns (cloth, 5.0);

  return odd_cut_plan_new (cloth, (const double *) turns->data, turns->len, templates, n_templates, 5.0);
}

static guint
count (OddPolygon *cloth,
       double      width_mm,
       double      length_mm)
{
  const OddTemplate template = { width_mm, length_mm };
  g_autoptr(OddCutPlan) found = plan (cloth, &template, 1);

  return found->pieces->len;
}

/* Squares from a fat quarter of 18 x 22 in: M. Hohn, Math Charts (2002), rows FQ of data/figures/cut_size_checks.csv. */
static void
test_fat_quarter (void)
{
  g_autofree char *text = NULL;
  g_autoptr(GError) error = NULL;
  g_autoptr(OddCsv) table = NULL;
  guint n_checked = 0;

  g_file_get_contents (ODD_SOURCEDIR "/data/figures/cut_size_checks.csv", &text, NULL, &error);
  g_assert_no_error (error);
  table = odd_csv_parse (text, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < table->rows->len; i++)
    {
      const char *id = odd_csv_get (table, i, "id");
      double inches;

      if (!g_str_has_prefix (id, "FQ"))
        continue;
      inches = g_ascii_strtod (id + 2, NULL);
      for (guint k = 0; k < 4; k++)
        {
          g_autoptr(OddPolygon) cloth = rectangle (18.0 * INCH, 22.0 * INCH, 23.7 * k);

          g_assert_cmpfloat (count (cloth, inches * INCH, inches * INCH), ==, odd_csv_get_number (table, i, "published"));
        }
      n_checked++;
    }
  g_assert_cmpuint (n_checked, ==, 10);
}

/* By hand: 250 x 90 holds two rectangles of 120 x 80 along it; upright 80 x 120 fits only when the cloth may be turned. */
static void
test_rectangles (void)
{
  const OddTemplate upright = { 80.0, 120.0 };
  const double as_it_lies = 0.0;
  g_autoptr(OddPolygon) cloth = rectangle (250.0, 90.0, 0.0);
  g_autoptr(OddCutPlan) fixed = odd_cut_plan_new (cloth, &as_it_lies, 1, &upright, 1, 5.0);

  g_assert_cmpuint (fixed->pieces->len, ==, 0);
  g_assert_cmpuint (count (cloth, 120.0, 80.0), ==, 2);
  g_assert_cmpuint (count (cloth, 80.0, 120.0), ==, 2);
}

/* By hand: an L of arms 200 x 60 (below) and 60 x 200 (left): squares of 60 are 3 in the foot, and 2 more above its corner. */
static void
test_concave (void)
{
  const OddPoint points[6] = { { 0, 0 }, { 60, 0 }, { 60, 140 }, { 200, 140 }, { 200, 200 }, { 0, 200 } };
  g_autoptr(OddPolygon) cloth = polygon (points, 6);

  g_assert_cmpuint (count (cloth, 60.0, 60.0), ==, 5);
}

/* By hand: 210 x 100 gives two of 100 x 100; 210 x 145 two of 100 and, in the strip of 45 left, five of 40. */
static void
test_two_templates (void)
{
  const OddTemplate both[2] = { { 100.0, 100.0 }, { 40.0, 40.0 } };
  g_autoptr(OddPolygon) cloth = rectangle (210.0, 145.0, 0.0);
  g_autoptr(OddCutPlan) found = plan (cloth, both, 2);
  guint n[2] = { 0, 0 };

  for (guint i = 0; i < found->pieces->len; i++)
    n[g_array_index (found->pieces, OddPlanned, i).template]++;
  g_assert_cmpuint (n[0], ==, 2);
  g_assert_cmpuint (n[1], ==, 5);
  g_assert_cmpfloat_with_epsilon (found->finished_mm2, 2 * 90.0 * 90.0 + 5 * 30.0 * 30.0, 1e-6);
}

/* Law: planned pieces lie in the cloth, apart from one another, and weigh what the plan says. */
static void
test_pieces_in_cloth (void)
{
  static const int LABELS[4] = { 0, 1, 2, 3 };
  g_autoptr(GRand) rand = g_rand_new_with_seed (g_test_rand_int ());
  const OddTemplate templates[2] = { { 70.0, 70.0 }, { 45.0, 60.0 } };
  guint n_pieces = 0;

  for (guint i = 0; i < 200; i++)
    {
      g_autoptr(OddPolygon) cloth = heap_polygon (rand);
      g_autoptr(OddCutPlan) found = plan (cloth, templates, 2);
      const OddPlacement turn = { found->turn_deg, FALSE, { 0.0, 0.0 } };
      const OddPlacement back = odd_placement_inverse (&turn);
      double mm2 = 0.0;

      for (guint k = 0; k < found->pieces->len; k++)
        {
          const OddPlanned *one = &g_array_index (found->pieces, OddPlanned, k);
          const OddTemplate *size = &templates[one->template];
          g_autoptr(OddConvex) box = odd_convex_new_rectangle ((OddBox) { one->at.x, one->at.y, size->width_mm, size->length_mm }, LABELS);
          g_autoptr(OddConvex) placed = odd_convex_place (box, &back);

          g_assert_true (odd_polygon_contains_convex (cloth, placed, ODD_TOLERANCE_MM));
          mm2 += (size->width_mm - 10.0) * (size->length_mm - 10.0);
          for (guint m = 0; m < k; m++)
            {
              const OddPlanned *two = &g_array_index (found->pieces, OddPlanned, m);
              const OddTemplate *other = &templates[two->template];

              g_assert_true (one->at.x + size->width_mm <= two->at.x + 1e-6 || two->at.x + other->width_mm <= one->at.x + 1e-6
                             || one->at.y + size->length_mm <= two->at.y + 1e-6 || two->at.y + other->length_mm <= one->at.y + 1e-6);
            }
        }
      g_assert_cmpfloat_with_epsilon (found->finished_mm2, mm2, 1e-6);
      n_pieces += found->pieces->len;
    }
  g_assert_cmpuint (n_pieces, >, 200);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cut-plan/fat-quarter", test_fat_quarter);
  g_test_add_func ("/cut-plan/rectangles", test_rectangles);
  g_test_add_func ("/cut-plan/concave", test_concave);
  g_test_add_func ("/cut-plan/two-templates", test_two_templates);
  g_test_add_func ("/cut-plan/pieces-in-cloth", test_pieces_in_cloth);

  return g_test_run ();
}
