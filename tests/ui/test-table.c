/* What lies where on the table, where a scrap can go, what an edit spoils: no display. */
#include "table-job.h"
#include "ui/openings.h"
#include "ui/sheet.h"

typedef struct
{
  OddJob *job;
  OddTable *table;
  OddViewport *viewport;
  OddId first_free;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture->job = table_job_new (4, 3, 5, 4, &fixture->first_free);
  fixture->table = odd_table_new (fixture->job, 0, FALSE, FALSE);
  fixture->viewport = odd_viewport_new ();
  odd_viewport_set_size (fixture->viewport, 900, 700);
  odd_viewport_place (fixture->viewport, 0.5, odd_point (0, 0), odd_point (40, 60));
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  odd_table_unref (fixture->table);
  g_object_unref (fixture->viewport);
  odd_job_unref (fixture->job);
}

static void
test_gap (Fixture *fixture, gconstpointer data)
{
  g_test_summary ("Panels lie 21 px apart whatever the zoom, their raw tops level, as long as they are alone");
  for (double zoom = 0.1; zoom < 5; zoom *= 2.1)
    {
      odd_viewport_place (fixture->viewport, zoom, odd_point (0, 0), odd_point (40, 60));
      for (guint i = 0; i + 1 < fixture->table->n_items; i++)
        {
          const OddBox a = odd_table_get_raw_px (fixture->table, fixture->viewport, i), b = odd_table_get_raw_px (fixture->table, fixture->viewport, i + 1);

          g_assert_cmpfloat_with_epsilon (b.x - a.x - a.width, ODD_PANEL_GAP_PX, 1e-6);
          g_assert_cmpfloat_with_epsilon (a.y, b.y, 1e-6);
        }
    }
  /* the fourth panel has two rows, which trims none of the others here */
  g_assert_cmpfloat_with_epsilon (fixture->table->items[0].layout->box.height, 5 * 94.6, 1e-6);
  g_assert_cmpfloat_with_epsilon (fixture->table->items[3].layout->box.height, 2 * 94.6, 1e-6);
}

static void
test_there_and_back (Fixture *fixture, gconstpointer data)
{
  g_autoptr(OddTable) behind = odd_table_new (fixture->job, 0, FALSE, TRUE);
  OddTable *tables[2] = { fixture->table, behind };

  for (guint side = 0; side < 2; side++)
    for (guint n = 0; n < 100; n++)
      {
        const guint item = (guint) g_test_rand_int_range (0, 4);
        const OddPoint mm = odd_point (g_test_rand_double_range (0, 280), g_test_rand_double_range (0, 180));
        const OddPoint px = odd_table_to_px (tables[side], fixture->viewport, item, mm);
        const OddPoint back = odd_table_to_mm (tables[side], fixture->viewport, item, px);

        g_assert_cmpfloat_with_epsilon (back.x, mm.x, 1e-6);
        g_assert_cmpfloat_with_epsilon (back.y, mm.y, 1e-6);
        g_assert_true (odd_box_contains (odd_table_get_raw_px (tables[side], fixture->viewport, item), px));
      }
}

static void
test_wrong_side (Fixture *fixture, gconstpointer data)
{
  g_autoptr(OddTable) behind = odd_table_new (fixture->job, 0, FALSE, TRUE);
  OddPoint left, right;

  g_test_summary ("From the wrong side the first panel lies on the right, and its left edge on the right");
  g_assert_cmpuint (behind->items[3].panel_id, ==, fixture->table->items[0].panel_id);
  left = odd_table_to_px (behind, fixture->viewport, 3, odd_point (0, 0));
  right = odd_table_to_px (behind, fixture->viewport, 3, odd_point (100, 0));
  g_assert_cmpfloat_with_epsilon (left.x - right.x, 50, 1e-6);
}

static void
test_zoom_keeps_cloth (Fixture *fixture, gconstpointer data)
{
  g_test_summary ("The cloth under the pointer stays there, though the gaps do not grow with it");
  for (guint n = 0; n < 200; n++)
    {
      const guint item = (guint) g_test_rand_int_range (0, 4);
      const OddPoint mm = odd_point (g_test_rand_double_range (0, 280), g_test_rand_double_range (0, 180));
      const OddPoint px = odd_table_to_px (fixture->table, fixture->viewport, item, mm);
      OddPoint now;

      odd_table_zoom_at (fixture->table, fixture->viewport, px, odd_viewport_get_zoom (fixture->viewport) * g_test_rand_double_range (0.5, 2));
      now = odd_table_to_px (fixture->table, fixture->viewport, item, mm);
      g_assert_cmpfloat_with_epsilon (now.x, px.x, 1e-5);
      g_assert_cmpfloat_with_epsilon (now.y, px.y, 1e-5);
      if (n % 20 == 0)
        odd_viewport_place (fixture->viewport, 0.5, odd_point (0, 0), odd_point (40, 60));
    }
}

static void
test_hit (Fixture *fixture, gconstpointer data)
{
  OddTable *table = fixture->table;
  const OddLayout *layout = table->items[1].layout;
  const OddPatch *patch = &layout->patches[4];
  OddPoint px = odd_table_to_px (table, fixture->viewport, 1, odd_convex_centroid (patch->region));
  OddHit hit = odd_table_hit (table, fixture->viewport, px, 12);
  OddBox raw;

  g_assert_cmpint (hit.kind, ==, ODD_SELECTED_PATCH);
  g_assert_cmpuint (hit.id, ==, patch->leaf->id);

  px = odd_table_to_px (table, fixture->viewport, 1, odd_point_lerp (layout->seams[0].finished.from, layout->seams[0].finished.to, 0.5));
  hit = odd_table_hit (table, fixture->viewport, odd_point (px.x + 3, px.y + 3), 12);
  g_assert_cmpint (hit.kind, ==, ODD_SELECTED_SEAM);

  raw = odd_table_get_raw_px (table, fixture->viewport, 2);
  hit = odd_table_hit (table, fixture->viewport, odd_point (raw.x + 20, raw.y - 10), 12);
  g_assert_cmpint (hit.kind, ==, ODD_SELECTED_PANEL);
  g_assert_true (hit.on_title);
  g_assert_cmpuint (hit.id, ==, table->items[2].panel_id);

  hit = odd_table_hit (table, fixture->viewport, odd_point (raw.x - ODD_PANEL_GAP_PX / 2, raw.y + 20), 12);
  g_assert_cmpint (hit.kind, ==, ODD_SELECTED_NOTHING);
}

static void
test_walk (Fixture *fixture, gconstpointer data)
{
  OddTable *table = fixture->table;
  const OddLayout *layout = table->items[0].layout;
  const OddId first = layout->patches[0].leaf->id;

  g_test_summary ("Squares of 3 in a row: right is the next, down the one three on, and over the gap lies the next panel");
  g_assert_cmpuint (odd_table_get_neighbour (table, fixture->viewport, ODD_SELECTED_PATCH, first, 1, 0), ==, layout->patches[1].leaf->id);
  g_assert_cmpuint (odd_table_get_neighbour (table, fixture->viewport, ODD_SELECTED_PATCH, first, 0, 1), ==, layout->patches[3].leaf->id);
  g_assert_cmpuint (odd_table_get_neighbour (table, fixture->viewport, ODD_SELECTED_PATCH, first, -1, 0), ==, 0);
  g_assert_cmpuint (odd_table_get_neighbour (table, fixture->viewport, ODD_SELECTED_PATCH, layout->patches[2].leaf->id, 1, 0), ==,
                    table->items[1].layout->patches[0].leaf->id);
}

static void
test_joined (Fixture *fixture, gconstpointer data)
{
  g_autoptr(OddTable) joined = odd_table_new (fixture->job, 0, TRUE, FALSE);

  g_test_summary ("Joined, the finished edges of neighbours meet");
  for (guint i = 0; i + 1 < joined->n_items; i++)
    {
      const OddPoint right = odd_table_to_px (joined, fixture->viewport, i, odd_point (joined->items[i].layout->box.width, 0));
      const OddPoint left = odd_table_to_px (joined, fixture->viewport, i + 1, odd_point (0, 0));

      g_assert_cmpfloat_with_epsilon (right.x, left.x, 1e-6);
      g_assert_cmpfloat_with_epsilon (right.y, left.y, 1e-6);
    }
}

static void
test_openings (Fixture *fixture, gconstpointer data)
{
  g_autoptr(GArray) openings = odd_openings_new (fixture->table);
  const OddOpening *likely = &g_array_index (openings, OddOpening, odd_openings_likely (openings, fixture->table, NULL));
  const OddOpening *last = &g_array_index (openings, OddOpening, openings->len - 1);
  OddPoint below;
  int nearest;

  g_test_summary ("Four edges a panel and a new panel; the likeliest is the lower edge of the last one");
  g_assert_cmpuint (openings->len, ==, 4 * 4 + 2);
  g_assert_cmpint (last->target.kind, ==, ODD_TARGET_NEW_PANEL);
  g_assert_cmpuint (last->target.index, ==, 4);
  g_assert_cmpint (likely->target.kind, ==, ODD_TARGET_EDGE);
  g_assert_cmpuint (likely->target.panel_id, ==, fixture->table->items[3].panel_id);
  g_assert_cmpfloat (likely->outward.y, >, 0.9);

  below = odd_table_to_px (fixture->table, fixture->viewport, 1, odd_point (140, fixture->table->items[1].layout->box.height + 60));
  nearest = odd_openings_nearest (openings, fixture->table, fixture->viewport, below, 100, -1);
  g_assert_cmpint (nearest, >=, 0);
  g_assert_cmpuint (g_array_index (openings, OddOpening, nearest).target.panel_id, ==, fixture->table->items[1].panel_id);
  g_assert_cmpfloat (g_array_index (openings, OddOpening, nearest).outward.y, >, 0.9);
  g_assert_cmpint (odd_openings_nearest (openings, fixture->table, fixture->viewport, odd_point (-900, -900), 100, -1), ==, -1);
}

static void
test_no_flicker (Fixture *fixture, gconstpointer data)
{
  g_autoptr(GArray) openings = odd_openings_new (fixture->table);
  const OddBox a = odd_table_get_raw_px (fixture->table, fixture->viewport, 0), b = odd_table_get_raw_px (fixture->table, fixture->viewport, 1);
  const double middle = (a.x + a.width + b.x) / 2, y = a.y + 100;
  const int left = odd_openings_nearest (openings, fixture->table, fixture->viewport, odd_point (middle - 3, y), 100, -1);
  const int right = odd_openings_nearest (openings, fixture->table, fixture->viewport, odd_point (middle + 3, y), 100, -1);

  g_test_summary ("Between two openings the one shown stays until the other is clearly nearer");
  g_assert_cmpint (left, !=, right);
  g_assert_cmpint (odd_openings_nearest (openings, fixture->table, fixture->viewport, odd_point (middle + 3, y), 100, left), ==, left);
  g_assert_cmpint (odd_openings_nearest (openings, fixture->table, fixture->viewport, odd_point (middle - 3, y), 100, right), ==, right);
}

static OddSheet *
new_sheet (OddJob *job, OddId panel_id, OddSwatches *swatches)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout_apart (job, panel_id);
  OddPaintOptions options;

  odd_paint_options_init (&options);
  return odd_sheet_new (job, layout, NULL, swatches, &options);
}

static void
test_damage (Fixture *fixture, gconstpointer data)
{
  const OddId first = fixture->table->items[0].panel_id, second = fixture->table->items[1].panel_id;
  const OddPatch *patch = &fixture->table->items[1].layout->patches[7];
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();
  g_autoptr(GError) error = NULL;
  g_autoptr(OddJob) after = odd_job_make_bare (fixture->job, patch->leaf->id, &error);
  g_autoptr(OddSheet) first_before = new_sheet (fixture->job, first, swatches), first_after = NULL;
  g_autoptr(OddSheet) second_before = new_sheet (fixture->job, second, swatches), second_after = NULL;
  g_autoptr(GArray) none = NULL;
  g_autoptr(GArray) some = NULL;
  OddBox all = ODD_BOX_EMPTY;

  g_test_summary ("An edit spoils the patch that changed and nothing else; a panel left alone keeps all its tiles");
  g_assert_no_error (error);
  first_after = new_sheet (after, first, swatches);
  second_after = new_sheet (after, second, swatches);
  none = odd_sheet_compare (first_after, first_before);
  g_assert_nonnull (none);
  g_assert_cmpuint (none->len, ==, 0);
  some = odd_sheet_compare (second_after, second_before);
  g_assert_nonnull (some);
  g_assert_cmpuint (some->len, >, 0);
  for (guint i = 0; i < some->len; i++)
    all = odd_box_union (all, g_array_index (some, OddBox, i));
  g_assert_true (odd_box_contains (all, odd_convex_centroid (patch->region)));
  g_assert_cmpfloat (all.width * all.height, <, 250 * 250);
}

static void
test_damage_of_a_mark (Fixture *fixture, gconstpointer data)
{
  const OddId id = fixture->table->items[0].panel_id;
  const OddId seam_id = fixture->table->items[0].layout->seams[0].seam->id;
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();
  g_autoptr(GError) error = NULL;
  g_autoptr(OddJob) after = odd_job_mark_next (fixture->job, seam_id, TRUE, &error);
  g_autoptr(OddSheet) before_sheet = new_sheet (fixture->job, id, swatches), after_sheet = NULL;
  g_autoptr(GArray) damage = NULL;

  g_test_summary ("Marking a seam sewn spoils the seam, not the panel");
  g_assert_no_error (error);
  after_sheet = new_sheet (after, id, swatches);
  damage = odd_sheet_compare (after_sheet, before_sheet);
  g_assert_nonnull (damage);
  g_assert_cmpuint (damage->len, >, 0);
  g_assert_cmpuint (damage->len, <, 12);
}

#define ADD(path, func) g_test_add ("/ui/table/" path, Fixture, NULL, set_up, func, tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("gap", test_gap);
  ADD ("there-and-back", test_there_and_back);
  ADD ("wrong-side", test_wrong_side);
  ADD ("zoom-keeps-cloth", test_zoom_keeps_cloth);
  ADD ("hit", test_hit);
  ADD ("walk", test_walk);
  ADD ("joined", test_joined);
  ADD ("openings", test_openings);
  ADD ("no-flicker", test_no_flicker);
  ADD ("damage", test_damage);
  ADD ("damage-of-a-mark", test_damage_of_a_mark);
  return g_test_run ();
}
