/* Laws of snap and trim over random scraps of the model heap. */
#include "config.h"

#include "bench/heap.h"
#include "tub.h"

/* Finished length and width of the panel alone. */
static OddBox
size_of (OddJob *job,
         OddId   panel_id)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel_id);

  return (OddBox) { 0, 0, layout->alone_width_mm, layout->alone_length_mm };
}

static void
assert_convex_equal (OddConvex   *a,
                     OddConvex   *b,
                     OddPoint     shift)
{
  g_autoptr(OddConvex) shifted = odd_convex_shift (a, shift);

  for (guint i = 0; i < MAX (a->n, b->n) && !odd_convex_equal (shifted, b, 1e-4); i++)
    g_test_message ("corner %u: %.4f %.4f, of the layout %.4f %.4f", i, shifted->points[i % a->n].x, shifted->points[i % a->n].y,
                    b->points[i % b->n].x, b->points[i % b->n].y);
  g_assert_true (odd_convex_equal (shifted, b, 1e-4));
}

/* The layout's frame moves when the panel grows at its top or left; then the place's shapes are seen through the shift. */
static OddPoint
frame_shift (OddJob *after,
             OddId   panel_id,
             OddId   leaf_id,
             const OddPlace *place)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (after, panel_id);
  const OddPatch *patch = odd_layout_find_patch (layout, leaf_id);

  g_assert_nonnull (patch);

  return odd_point_sub (patch->placement.shift, place->placement.shift);
}

/* Patches that no longer lie in their scraps: those that were sewn on earlier must not grow either. */
static guint
count_too_small (OddJob *job)
{
  g_autoptr(GPtrArray) findings = odd_job_check (job, NULL);
  guint n = 0;

  for (guint i = 0; i < findings->len; i++)
    n += ((OddFinding *) findings->pdata[i])->kind == ODD_FINDING_TOO_SMALL;

  return n;
}

/* All that one place promises. */
static void
check_place (OddJob         *job,
             const OddPlace *place,
             OddId           panel_id)
{
  g_autoptr(OddJob) after = odd_job_ref (job);
  const OddBox before = size_of (job, panel_id);
  const OddId leaf_id = tub_apply (&after, place);
  g_autoptr(OddLayout) layout = odd_job_dup_layout (after, panel_id);
  const OddPatch *patch = odd_layout_find_patch (layout, leaf_id);
  const OddPoint shift = frame_shift (after, panel_id, leaf_id, place);
  const OddBox now = size_of (after, panel_id);
  g_autoptr(GPtrArray) usable = odd_patch_dup_placed_usable (patch);
  double left_mm2 = 0.0, all_mm2 = 0.0;

  assert_convex_equal (place->region, patch->region, shift);
  assert_convex_equal (place->cut, patch->cut, shift);
  g_assert_false (tub_is_unsound (after, leaf_id));
  g_assert_cmpuint (count_too_small (after), ==, 0);
  /* a bare region that is narrow itself may be filled */
  if (place->target.kind != ODD_TARGET_BARE || !place->covers_all)
    g_assert_cmpfloat (odd_convex_min_width (patch->region), >=, job->settings.min_side_mm - 1e-6);
  for (guint i = 0; i < usable->len; i++)
    all_mm2 += odd_polygon_get_area (usable->pdata[i]);
  left_mm2 = place->trimmed_mm2 + place->offcuts_mm2;
  /* sheared tips of the cut shape may be cut square, nothing more */
  g_assert_cmpfloat_with_epsilon (left_mm2 + odd_convex_area (place->cut), all_mm2, 1.0);
  if (place->target.kind == ODD_TARGET_EDGE)
    {
      const double growth = MAX (now.height - before.height, now.width - before.width);

      g_assert_cmpfloat_with_epsilon (place->gain_mm, growth, 1e-4);
    }
}

typedef struct
{
  OddJob *job;
  OddId panel_id;
} Column;

static Column
loose_column (double width_mm)
{
  Column column = { odd_job_new (), 0 };

  column.panel_id = tub_add_panel (&column.job, width_mm, 300);

  return column;
}

/* A column hung among longer ones (a textile trims what is longer than its neighbours), the middle one turned. */
static Column
hung_column (double width_mm,
             guint  index)
{
  OddJob *job = odd_job_new ();
  const OddId textile = ((OddTextile *) job->textiles->pdata[0])->id;
  OddId panels[3];
  OddJob *next;

  for (guint i = 0; i < 3; i++)
    {
      next = odd_job_add_panel (job, textile, G_MAXUINT, "", width_mm, i == index ? 300 : 3000, &panels[i], NULL);
      g_assert_nonnull (next);
      odd_job_unref (job);
      job = next;
    }
  next = odd_job_turn_panel (job, panels[1], NULL);
  odd_job_unref (job);

  return (Column) { next, panels[index] };
}

static void
add_scrap (Column     *column,
           OddPolygon *outline,
           OddId      *out_id)
{
  g_autoptr(OddScrap) scrap = heap_scrap (outline);
  OddJob *next = odd_job_put_scrap (column->job, scrap, out_id, NULL);

  g_assert_nonnull (next);
  odd_job_unref (column->job);
  column->job = next;
}

static void
test_edges (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (3);
  guint n_places = 0;

  g_test_summary ("Every place at an edge, top, foot or side: cut shape in the cloth, figures those of the layout that follows");
  for (guint i = 0; i < 120; i++)
    {
      /* as it hangs in a textile, a slanting end is squared: there, straight seams only */
      const gboolean hangs = i % 3 == 0;
      Column column = hangs ? hung_column (80 + 70 * (i % 4), i % 2) : loose_column (80 + 70 * (i % 4));
      g_autoptr(OddPolygon) outline = i % 5 == 4 ? heap_ragged_polygon (rand, 30, 300) : heap_polygon (rand);
      OddPanel *panel = odd_job_get_panel (column.job, column.panel_id, NULL, NULL);
      const OddTarget target = { .kind = ODD_TARGET_EDGE, .panel_id = column.panel_id, .edge = (guint) odd_panel_side_edge (panel, i % 4 == 1 ? 0 : 2) };
      OddSnapOptions options;
      g_autoptr(GPtrArray) places = NULL;
      OddId scrap_id = 0;

      odd_snap_options_init (&options);
      options.max_tilt_deg = hangs ? 0 : 15;
      add_scrap (&column, outline, &scrap_id);
      places = odd_snap_places (column.job, &target, scrap_id, &options, NULL);
      for (guint k = 0; k < places->len; k++)
        check_place (column.job, places->pdata[k], column.panel_id);
      n_places += places->len;
      odd_job_unref (column.job);
    }
  g_assert_cmpuint (n_places, >, 300);
}

static OddId
some_bare (OddJob *job,
           OddId   panel_id)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel_id);

  for (guint i = 0; i < layout->n_patches; i++)
    if (layout->patches[i].scrap == NULL)
      return layout->patches[i].leaf->id;

  return 0;
}

/* Builds a column with whatever comes: at its foot while nothing is bare, else in the bare rest; every place on the way is checked. */
static void
build (guint32 seed)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (seed);
  Column column = loose_column (180);
  guint n_sewn = 0;

  for (guint i = 0; i < 40; i++)
    {
      g_autoptr(OddPolygon) outline = heap_polygon (rand);
      const OddId bare = some_bare (column.job, column.panel_id);
      const OddTarget target = bare != 0 ? tub_bare (bare) : tub_foot (column.job, column.panel_id);
      g_autoptr(GPtrArray) places = NULL;
      OddId scrap_id = 0;

      add_scrap (&column, outline, &scrap_id);
      places = odd_snap_places (column.job, &target, scrap_id, NULL, NULL);
      if (places->len == 0)
        continue;
      for (guint k = 0; k < places->len; k++)
        check_place (column.job, places->pdata[k], column.panel_id);
      tub_apply (&column.job, places->pdata[g_rand_int_range (rand, 0, places->len)]);
      n_sewn++;
    }
  g_assert_cmpuint (n_sewn, >, 3);
  odd_job_unref (column.job);
}

static void
test_columns (void)
{
  g_test_summary ("Columns grown of random scraps stay sound, tilts, rows and bare rests mixed");
  for (guint32 seed = 1; seed <= 8; seed++)
    build (seed);
}

static void
test_take_off (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (5);
  guint n = 0;

  g_test_summary ("Sewn on straight and taken off again, a panel has its old size");
  for (guint i = 0; i < 60; i++)
    {
      Column column = hung_column (120, i % 2);
      g_autoptr(OddPolygon) outline = heap_polygon (rand);
      const OddTarget target = tub_foot (column.job, column.panel_id);
      const OddBox before = size_of (column.job, column.panel_id);
      g_autoptr(GPtrArray) places = NULL;
      OddId scrap_id = 0;

      add_scrap (&column, outline, &scrap_id);
      places = odd_snap_places (column.job, &target, scrap_id, NULL, NULL);
      for (guint k = 0; k < places->len; k++)
        {
          const OddPlace *place = places->pdata[k];
          g_autoptr(OddJob) job = odd_job_ref (column.job);
          g_autoptr(OddJob) off = NULL;
          OddBox after;

          if (place->tilt_deg != 0.0)
            continue;
          tub_apply (&job, place);
          off = odd_job_take_off_last (job, column.panel_id, NULL);
          g_assert_nonnull (off);
          after = size_of (off, column.panel_id);
          g_assert_cmpfloat_with_epsilon (after.width, before.width, 1e-6);
          g_assert_cmpfloat_with_epsilon (after.height, before.height, 1e-6);
          n++;
        }
      odd_job_unref (column.job);
    }
  g_assert_cmpuint (n, >, 50);
}

static void
test_determinism (void)
{
  g_autoptr(OddJob) a = heap_add_scraps (odd_job_new (), 40, 2);
  g_autoptr(OddJob) b = heap_add_scraps (odd_job_new (), 40, 2);
  const OddId panel_a = tub_add_panel (&a, 150, 200);
  const OddId panel_b = tub_add_panel (&b, 150, 200);
  const OddTarget foot_a = tub_foot (a, panel_a);
  const OddTarget foot_b = tub_foot (b, panel_b);

  g_test_summary ("The same question twice: the same places to the last bit, in the same order");
  for (guint i = 0; i < a->scraps->len; i++)
    {
      g_autoptr(GPtrArray) p = odd_snap_places (a, &foot_a, ((OddScrap *) a->scraps->pdata[i])->id, NULL, NULL);
      g_autoptr(GPtrArray) q = odd_snap_places (b, &foot_b, ((OddScrap *) b->scraps->pdata[i])->id, NULL, NULL);

      g_assert_cmpuint (p->len, ==, q->len);
      for (guint k = 0; k < p->len; k++)
        {
          const OddPlace *x = p->pdata[k], *y = q->pdata[k];

          g_assert_cmpint (x->kind, ==, y->kind);
          g_assert_true (x->score == y->score && x->placement.turn_deg == y->placement.turn_deg
                         && x->placement.shift.x == y->placement.shift.x && x->placement.shift.y == y->placement.shift.y);
        }
    }
}

static void
test_order (void)
{
  g_autoptr(OddJob) job = heap_add_scraps (odd_job_new (), 60, 4);
  const OddId panel = tub_add_panel (&job, 150, 200);
  const OddTarget foot = tub_foot (job, panel);

  g_test_summary ("At most twelve places; the first ones are of different classes, by score; rows only where nothing covers all");
  for (guint i = 0; i < job->scraps->len; i++)
    {
      g_autoptr(GPtrArray) places = odd_snap_places (job, &foot, ((OddScrap *) job->scraps->pdata[i])->id, NULL, NULL);
      guint seen = 0;

      g_assert_cmpuint (places->len, <=, 12);
      for (guint k = 0; k < places->len; k++)
        {
          const OddPlace *place = places->pdata[k];

          g_assert_true (place->covers_all == ((OddPlace *) places->pdata[0])->covers_all);
          g_assert_true (place->covers_all == (place->kind != ODD_PLACE_ROW));
          if ((seen & (1u << place->kind)) == 0)
            for (guint m = 0; m < k; m++)
              g_assert_true (((OddPlace *) places->pdata[m])->kind != place->kind);
          seen |= 1u << place->kind;
        }
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/snap-laws/edges", test_edges);
  g_test_add_func ("/snap-laws/columns", test_columns);
  g_test_add_func ("/snap-laws/take-off", test_take_off);
  g_test_add_func ("/snap-laws/determinism", test_determinism);
  g_test_add_func ("/snap-laws/order", test_order);

  return g_test_run ();
}
