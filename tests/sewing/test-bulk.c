/* Layers at crossings against counts made by hand, and laws over random trees. */
#include "config.h"

#include "sewing/bulk.h"
#include "sewing/plan.h"
#include "tests/grid.h"
#include "random-trees.h"

static OddFinish *
get (OddJob     *job,
     const char *key)
{
  OddFinish *finish = odd_job_get_finish_by_key (job, key);

  g_assert_nonnull (finish);
  return finish;
}

/* A finish with layers of its own making, as the maker may have. */
static void
test_layers (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const guint open[2] = { 2, 2 }, plain[2] = { 1, 1 }, one_way[2] = { 3, 3 }, alternately[2] = { 3, 1 };

  /* the allowance of each part and the part itself */
  g_assert_cmpuint (odd_finish_count_plies (get (job, "pressed-open"), ODD_PRESSED_BY_RULE, 0), ==, 2);
  g_assert_cmpuint (odd_finish_count_plies (get (job, "pressed-open"), ODD_PRESSED_TO_FIRST, 0), ==, 3);
  g_assert_cmpuint (odd_finish_count_plies (get (job, "pressed-open"), ODD_PRESSED_TO_FIRST, 1), ==, 1);
  g_assert_cmpuint (odd_finish_count_plies (get (job, "overlocked"), ODD_PRESSED_TO_SECOND, 1), ==, 3);
  g_assert_cmpuint (odd_finish_count_plies (get (job, "french"), ODD_PRESSED_TO_FIRST, 0), ==, 5);
  /* a bound edge: the edge itself and a tape above and below it */
  g_assert_cmpuint (odd_finish_count_plies (get (job, "bound"), ODD_PRESSED_OPEN, 1), ==, 4);

  g_assert_cmpuint (odd_crossing_count_plies (get (job, "pressed-open"), ODD_PRESSED_OPEN, open), ==, 4);
  g_assert_cmpuint (odd_crossing_count_plies (get (job, "overlocked"), ODD_PRESSED_TO_FIRST, plain), ==, 3);
  g_assert_cmpuint (odd_crossing_count_plies (get (job, "french"), ODD_PRESSED_TO_FIRST, one_way), ==, 15);
  g_assert_cmpuint (odd_crossing_count_plies (get (job, "french"), ODD_PRESSED_TO_FIRST, alternately), ==, 11);
  g_assert_cmpuint (odd_crossing_count_plies (get (job, "french"), ODD_PRESSED_TO_SECOND, alternately), ==, 1 + 2 * 1 + 2 * 3);
}

/* Four squares: two row seams that meet on one across. */
static OddJob *
four_squares (const char *rows,
              const char *across,
              OddId       ids[3])
{
  OddJob *job = grid_add_panel (odd_job_new (), 2, 2, 94.6, 94.6, &ids[0]);
  OddPanel *panel = odd_job_get_panel (job, ids[0], NULL, NULL);
  GError *error = NULL;
  OddTreatment treatment = { get (job, rows)->id, NAN };

  ids[0] = panel->root->parts[0]->seams[0].id;
  ids[1] = panel->root->parts[1]->seams[0].id;
  ids[2] = panel->root->seams[0].id;
  for (guint i = 0; i < 3; i++)
    {
      if (i == 2)
        treatment.finish_id = get (job, across)->id;
      grid_take (&job, odd_job_set_treatment (job, ODD_LEVEL_SEAM, ids[i], 0, &treatment, FALSE, &error), error);
    }
  return job;
}

static void
press (OddJob     **job,
       OddId        seam,
       OddPressed   to)
{
  GError *error = NULL;

  grid_take (job, odd_job_set_pressed (*job, seam, to, &error), error);
}

static const OddCrossing *
only_crossing (GArray *crossings)
{
  g_assert_cmpuint (crossings->len, ==, 1);
  return &g_array_index (crossings, OddCrossing, 0);
}

static void
test_four_squares (void)
{
  OddId ids[3];
  g_autoptr(OddJob) open = four_squares ("pressed-open", "pressed-open", ids);
  g_autoptr(GArray) one = odd_job_dup_crossings (open, 0);
  g_autoptr(OddJob) job = four_squares ("overlocked", "french", ids);
  g_autoptr(GArray) same = odd_job_dup_crossings (job, 0);
  g_autoptr(GArray) nested = NULL;

  g_assert_cmpuint (only_crossing (one)->plies, ==, 4);
  g_assert_true (isnan (only_crossing (one)->thickness_mm));
  g_assert_cmpuint (only_crossing (same)->plies, ==, 15);
  g_assert_cmpuint (only_crossing (same)->seam_id, ==, ids[2]);
  g_assert_cmpfloat_with_epsilon (only_crossing (same)->at.x, 94.6, 1e-6);
  g_assert_cmpfloat_with_epsilon (only_crossing (same)->at.y, 94.6, 1e-6);
  press (&job, ids[1], ODD_PRESSED_TO_SECOND);
  nested = odd_job_dup_crossings (job, 0);
  g_assert_cmpuint (only_crossing (nested)->plies, ==, 11);
  g_assert_cmpuint (only_crossing (nested)->least, ==, 11);
}

/* Two panels of a square and a half: no seam of theirs meets one of the other; each join of a row seam counts its own. */
static void
test_join (void)
{
  OddId a, b;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 1, 2, 100, 100, &a);
  g_autoptr(GArray) crossings = NULL, sides = NULL;
  g_autoptr(OddJob) alternately = NULL;
  g_autoptr(GArray) nested = NULL;

  job = grid_add_panel (job, 1, 2, 100, 100, &b);
  crossings = odd_job_dup_crossings (job, 0);
  /* neighbouring panels are pressed opposite ways */
  alternately = odd_job_press_by (job, 0, ODD_PRESS_ALTERNATE, FALSE, NULL, NULL);
  nested = odd_job_dup_crossings (alternately, 0);
  g_assert_cmpuint (only_crossing (nested)->plies, ==, 7);
  sides = odd_job_dup_pressings (alternately, 0);
  g_assert_cmpuint (sides->len, ==, 3);
  g_assert_cmpfloat (g_array_index (sides, OddPressing, 0).toward.y, ==, 1.0);
  g_assert_cmpfloat (g_array_index (sides, OddPressing, 1).toward.y, ==, -1.0);
  g_assert_false (g_array_index (sides, OddPressing, 0).open);
  g_assert_cmpfloat_with_epsilon (g_array_index (sides, OddPressing, 0).middle.y, 100.0, 1e-6);
  g_assert_cmpuint (g_array_index (sides, OddPressing, 2).panel_id, ==, 0);
  /* overlocked over overlocked, all to the first side: 3 + 3 + 3 above the row seam */
  g_assert_cmpuint (only_crossing (crossings)->plies, ==, 9);
  g_assert_cmpuint (only_crossing (crossings)->panel_id, ==, 0);
  press (&job, odd_job_get_panel (job, b, NULL, NULL)->root->seams[0].id, ODD_PRESSED_TO_SECOND);
  g_clear_pointer (&crossings, g_array_unref);
  crossings = odd_job_dup_crossings (job, 0);
  /* 3 + 3 + 1 above, 1 + 1 + 3 below */
  g_assert_cmpuint (only_crossing (crossings)->plies, ==, 7);
}

/* The last press says to which side; no other step does. */
static void
test_sentence (void)
{
  OddId ids[3];
  g_autoptr(OddJob) job = four_squares ("overlocked", "pressed-open", ids);
  g_autoptr(OddPlan) plan = NULL;
  guint n = 0;

  press (&job, ids[1], ODD_PRESSED_TO_SECOND);
  plan = odd_plan_new (job, 0, ODD_MANNER_WALKS, NULL, 0, NULL);
  for (guint i = 0; i < plan->n_tasks; i++)
    {
      g_autofree char *pressing = odd_plan_dup_pressing (plan, i);

      if (plan->tasks[i].work != ODD_WORK_PRESS || plan->tasks[i].key.id == ids[2])      /* "Press the seam open" says it all */
        {
          g_assert_null (pressing);
          continue;
        }
      n++;
      g_assert_cmpstr (pressing, ==, plan->tasks[i].key.id == ids[0] ? "Allowances towards 1" : "Allowances towards 4");
    }
  g_assert_cmpuint (n, ==, 2);
}

/* Alternate rows nest at every crossing of a grid: 3 + 3 + 1 each, as many crossings as inner corners. */
static void
test_grid (void)
{
  OddId id;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 5, 4, 80, 80, &id);
  GError *error = NULL;
  g_autoptr(GArray) before = odd_job_dup_crossings (job, 0);
  g_autoptr(OddJob) alternately = odd_job_press_by (job, 0, ODD_PRESS_ALTERNATE, FALSE, NULL, &error);
  g_autoptr(OddJob) least = odd_job_press_by (job, 0, ODD_PRESS_LEAST, FALSE, NULL, &error);
  g_autoptr(GArray) nested = odd_job_dup_crossings (alternately, 0);
  g_autoptr(GArray) thin = odd_job_dup_crossings (least, 0);
  const OddBulkSum sum = odd_crossings_sum (nested);
  g_autofree char *text = odd_bulk_sum_dup_text (&sum);

  g_assert_cmpstr (text, ==, "7 layers at 12 of 12 crossings");
  g_assert_cmpuint (odd_crossings_sum (before).n, ==, 4 * 3);
  g_assert_cmpuint (odd_crossings_sum (before).most, ==, 9);
  g_assert_cmpuint (odd_crossings_sum (before).n_thicker, ==, 12);
  g_assert_cmpuint (odd_crossings_sum (nested).most, ==, 7);
  g_assert_cmpuint (odd_crossings_sum (nested).n_most, ==, 12);
  g_assert_cmpuint (odd_crossings_sum (nested).n_thicker, ==, 0);
  g_assert_cmpuint (odd_crossings_sum (thin).most, ==, 7);
  g_assert_cmpuint (odd_crossings_sum (thin).n_thicker, ==, 0);
}

static OddId
put_fabric (OddJob     **job,
            const char  *name,
            double       lightness)
{
  OddFabric values;
  OddId id = 0;
  GError *error = NULL;

  odd_fabric_init_values (&values);
  values.name = (char *) name;
  values.lightness = lightness;
  values.thickness_mm = 0.3;
  grid_take (job, odd_job_put_fabric (*job, &values, &id, &error), error);
  return id;
}

static void
place (OddJob **job,
       OddId    leaf,
       OddId    fabric)
{
  const OddPlacement at = ODD_PLACEMENT_IDENTITY;
  g_autoptr(OddConvex) box = odd_convex_new_rectangle ((OddBox) { -50, -50, 600, 600 }, (int[4]) { 0, 0, 0, 0 });
  g_autoptr(OddPolygon) outline = odd_polygon_new_from_convex (box);
  OddScrap values;
  OddId id = 0;
  GError *error = NULL;

  odd_scrap_init_values (&values);
  values.outline = outline;
  values.fabric_id = fabric;
  grid_take (job, odd_job_put_scrap (*job, &values, &id, &error), error);
  grid_take (job, odd_job_place_scrap (*job, leaf, id, &at, &error), error);
}

/* Left light, right dark: to the right; a third of unknown cloth says nothing, and then rows decide. 9 layers of 0.3 mm are 2.7 mm. */
static void
test_darker (void)
{
  OddId ids[3];
  OddId panel_id;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 2, 2, 94.6, 94.6, &panel_id);
  OddPanel *panel = odd_job_get_panel (job, panel_id, NULL, NULL);
  const OddId leaves[4] = { panel->root->parts[0]->parts[0]->id, panel->root->parts[0]->parts[1]->id, panel->root->parts[1]->parts[0]->id,
                            panel->root->parts[1]->parts[1]->id };
  const OddId light = put_fabric (&job, "light", 85), dark = put_fabric (&job, "dark", 30);
  GError *error = NULL;
  g_autoptr(OddJob) darker = NULL;
  g_autoptr(GArray) crossings = NULL;

  ids[0] = panel->root->parts[0]->seams[0].id;
  ids[1] = panel->root->parts[1]->seams[0].id;
  ids[2] = panel->root->seams[0].id;
  place (&job, leaves[0], light);
  place (&job, leaves[1], dark);
  place (&job, leaves[2], dark);
  place (&job, leaves[3], light);
  darker = odd_job_press_by (job, 0, ODD_PRESS_DARKER, FALSE, NULL, &error);
  panel = odd_job_get_panel (darker, panel_id, NULL, NULL);
  g_assert_cmpint (panel->root->parts[0]->seams[0].pressed_to, ==, ODD_PRESSED_TO_SECOND);
  g_assert_cmpint (odd_pressed_resolve (panel->root->parts[1]->seams[0].pressed_to, get (darker, "overlocked")), ==, ODD_PRESSED_TO_FIRST);
  crossings = odd_job_dup_crossings (job, 0);
  g_assert_cmpfloat_with_epsilon (only_crossing (crossings)->thickness_mm, 2.7, 1e-9);

  /* what she set by hand stays, unless she says otherwise; what is pressed stays anyway */
  press (&job, ids[0], ODD_PRESSED_TO_FIRST);
  g_clear_pointer (&darker, odd_job_unref);
  darker = odd_job_press_by (job, 0, ODD_PRESS_DARKER, FALSE, NULL, &error);
  g_assert_cmpint (odd_job_get_panel (darker, panel_id, NULL, NULL)->root->parts[0]->seams[0].pressed_to, ==, ODD_PRESSED_TO_FIRST);
  g_clear_pointer (&darker, odd_job_unref);
  darker = odd_job_press_by (job, 0, ODD_PRESS_DARKER, TRUE, NULL, &error);
  g_assert_cmpint (odd_job_get_panel (darker, panel_id, NULL, NULL)->root->parts[0]->seams[0].pressed_to, ==, ODD_PRESSED_TO_SECOND);
}

/* 2 x 12.7 x tan 15 = 6.806; an end that is square needs no mark; 45 degrees: twice the allowance. */
static void
test_meeting (void)
{
  g_assert_cmpfloat_with_epsilon (odd_meeting_offset (12.7, 75.0), 6.8059, 1e-3);
  g_assert_cmpfloat_with_epsilon (odd_meeting_offset (12.7, 105.0), 6.8059, 1e-3);
  g_assert_cmpfloat (odd_meeting_offset (12.7, 90.0), ==, 0.0);
  g_assert_cmpfloat_with_epsilon (odd_meeting_offset (10.0, 45.0), 20.0, 1e-9);
}

/* The same from the cut shapes: two patches on a seam that leans by 15 degrees, the raw corners of each dropped on the seam's line. */
static void
test_meeting_of_cut_shapes (void)
{
  OddId panel_id = 0, next;
  g_autoptr(OddJob) empty = odd_job_new ();
  g_autoptr(OddJob) bare = odd_job_add_panel (empty, 0, G_MAXUINT, NULL, 300, 400, &panel_id, NULL);
  const double tilt = 15.0 * G_PI / 180.0;
  const OddPoint normal = odd_point (sin (tilt), cos (tilt));
  g_autoptr(OddNode) above = odd_node_new_bare (bare->next_id), below = odd_node_new_bare (bare->next_id + 1);
  OddNode *const parts[2] = { above, below };
  OddSeam seam;
  g_autoptr(OddNode) strip = NULL;
  g_autoptr(OddJob) job = NULL;
  g_autoptr(OddLayout) layout = NULL;
  g_autoptr(OddPlan) plan = NULL;
  g_autofree char *sentence = NULL;
  double corner[2] = { G_MAXDOUBLE, G_MAXDOUBLE };
  OddPoint along = odd_point (cos (tilt), -sin (tilt));

  next = bare->next_id + 4;
  odd_seam_init (&seam, bare->next_id + 2, (OddHalfPlane) { normal, odd_point_dot (normal, odd_point (150, 200)) });
  strip = odd_node_new_strip (bare->next_id + 3, parts, &seam, 2);
  odd_seam_clear (&seam);
  job = odd_job_replace_leaf (bare, odd_job_get_panel (bare, panel_id, NULL, NULL)->root->id, strip, next, NULL);
  g_assert_nonnull (job);
  layout = odd_job_dup_layout (job, panel_id);
  for (guint i = 0; i < 2; i++)
    {
      const OddConvex *region = layout->patches[i].region;
      /* the side edge of each part, at its seam allowance beyond the seam: where the side's finished line meets the raw edge */
      const OddHalfPlane raw = odd_half_plane_push (i == 0 ? layout->seams[0].line : odd_half_plane_flip (layout->seams[0].line), layout->seams[0].allowance_mm);
      OddPoint met;

      g_assert_nonnull (region);
      g_assert_true (odd_half_plane_meet (raw, (OddHalfPlane) { { -1, 0 }, 0 }, &met));
      corner[i] = odd_point_dot (met, along);
    }
  g_assert_cmpfloat_with_epsilon (layout->seams[0].ends[0].angle_deg, 75.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (fabs (corner[0] - corner[1]), odd_meeting_offset (12.7, layout->seams[0].ends[0].angle_deg), 1e-6);
  /* and the order of work says it */
  plan = odd_plan_new (job, 0, ODD_MANNER_WALKS, NULL, 0, NULL);
  sentence = odd_plan_dup_text (plan, 0, ODD_UNIT_CM);
  g_assert_nonnull (strstr (sentence, "raw corners 6.8 mm apart at both ends"));
}

static guint64
get_squares (GArray *crossings)
{
  guint64 sum = 0;

  for (guint i = 0; i < crossings->len; i++)
    sum += (guint64) g_array_index (crossings, OddCrossing, i).plies * g_array_index (crossings, OddCrossing, i).plies;
  return sum;
}

static guint64
squares_by (OddJob       *job,
            OddPressRule  rule)
{
  GError *error = NULL;
  g_autoptr(OddJob) pressed = odd_job_press_by (job, 0, rule, FALSE, NULL, &error);
  g_autoptr(GArray) crossings = odd_job_dup_crossings (pressed, 0);
  g_autoptr(OddJob) again = odd_job_press_by (pressed, 0, rule, FALSE, NULL, &error);

  g_assert_no_error (error);
  for (guint i = 0; i < crossings->len; i++)
    g_assert_cmpuint (g_array_index (crossings, OddCrossing, i).plies, >=, g_array_index (crossings, OddCrossing, i).least);
  /* what a rule set is set by hand from then on */
  if (rule != ODD_PRESS_LEAST)
    g_assert_true (again == pressed);
  return get_squares (crossings);
}

/* The least bulk is no more than either rule's, and a panel that hangs upside down has the same crossings. */
static void
test_laws (void)
{
  g_autoptr(OddJob) empty = odd_job_new ();
  g_autoptr(GRand) rand = g_rand_new_with_seed (55);
  guint64 all[ODD_N_PRESS_RULES] = { 0 };
  guint n = 0;

  for (guint i = 0; i < 150; i++)
    {
      g_autoptr(OddJob) job = random_trees_new (empty, rand, 1 + i % 3, 24);
      g_autoptr(GArray) crossings = odd_job_dup_crossings (job, 0);
      g_autoptr(OddJob) turned = odd_job_turn_panel (job, ((OddTextile *) job->textiles->pdata[0])->hung[0].panel->id, NULL);
      g_autoptr(GArray) upside_down = odd_job_dup_crossings (turned, 0);

      for (guint rule = 0; rule < ODD_N_PRESS_RULES; rule++)
        {
          const guint64 sum = squares_by (job, rule);

          all[rule] += sum;
          if (rule == ODD_PRESS_LEAST)
            g_assert_cmpuint (sum, <=, get_squares (crossings));
        }
      n += crossings->len;
      if (i % 3 == 0)
        {
          g_assert_cmpuint (upside_down->len, ==, crossings->len);
          g_assert_cmpuint (get_squares (upside_down), ==, get_squares (crossings));
        }
    }
  g_assert_cmpuint (n, >, 1000);
  g_assert_cmpuint (all[ODD_PRESS_LEAST], <, all[ODD_PRESS_ALTERNATE]);
  g_assert_cmpuint (all[ODD_PRESS_LEAST], <, all[ODD_PRESS_DARKER]);
  g_test_message ("%u crossings, mean square by darker %.1f, alternately %.1f, least %.1f", n, (double) all[0] / n, (double) all[1] / n, (double) all[2] / n);
}

/* All ways to press the seams of a small job, one after another. */
static guint64
find_least (OddJob *job,
            GArray *seams,
            guint   at)
{
  guint64 least = G_MAXUINT64;

  if (at == seams->len)
    {
      g_autoptr(GArray) crossings = odd_job_dup_crossings (job, 0);

      return get_squares (crossings);
    }
  for (OddPressed to = ODD_PRESSED_TO_FIRST; to <= ODD_PRESSED_OPEN; to++)
    {
      const OddLaidSeam *laid;
      g_autoptr(OddJob) pressed = NULL;
      g_autoptr(OddLayout) layout = odd_job_dup_layout (job, ((OddTextile *) job->textiles->pdata[0])->hung[0].panel->id);

      laid = odd_layout_find_seam (layout, g_array_index (seams, OddId, at));
      if (to == ODD_PRESSED_OPEN && !laid->finish->may_open)
        continue;
      pressed = odd_job_set_pressed (job, laid->seam->id, to, NULL);
      least = MIN (least, find_least (pressed, seams, at + 1));
    }
  return least;
}

/* The search against all ways there are: never less than the least, and nearly always just that. */
static void
test_against_all (void)
{
  g_autoptr(OddJob) empty = odd_job_new ();
  g_autoptr(GRand) rand = g_rand_new_with_seed (56);
  guint n = 0, n_least = 0;

  while (n < 40)
    {
      g_autoptr(OddJob) job = random_trees_new (empty, rand, 1, 8);
      g_autoptr(OddLayout) layout = odd_job_dup_layout (job, ((OddTextile *) job->textiles->pdata[0])->hung[0].panel->id);
      g_autoptr(GArray) seams = g_array_new (FALSE, FALSE, sizeof (OddId));
      guint64 ours, least;

      for (guint i = 0; i < layout->n_seams; i++)
        g_array_append_val (seams, layout->seams[i].seam->id);
      if (seams->len < 3 || seams->len > 6)
        continue;
      ours = squares_by (job, ODD_PRESS_LEAST);
      least = find_least (job, seams, 0);
      g_assert_cmpuint (ours, >=, least);
      n++;
      n_least += ours == least;
    }
  g_test_message ("the least in %u of %u", n_least, n);
  g_assert_cmpuint (n_least, >=, 36);
}

static void
test_cancel (void)
{
  OddId id;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 3, 3, 80, 80, &id);
  g_autoptr(GCancellable) cancellable = g_cancellable_new ();
  g_autoptr(GError) error = NULL;

  g_cancellable_cancel (cancellable);
  g_assert_null (odd_job_press_by (job, 0, ODD_PRESS_LEAST, FALSE, cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sewing/bulk/layers", test_layers);
  g_test_add_func ("/sewing/bulk/four-squares", test_four_squares);
  g_test_add_func ("/sewing/bulk/join", test_join);
  g_test_add_func ("/sewing/bulk/sentence", test_sentence);
  g_test_add_func ("/sewing/bulk/grid", test_grid);
  g_test_add_func ("/sewing/bulk/darker", test_darker);
  g_test_add_func ("/sewing/bulk/meeting", test_meeting);
  g_test_add_func ("/sewing/bulk/meeting-of-cut-shapes", test_meeting_of_cut_shapes);
  g_test_add_func ("/sewing/bulk/laws", test_laws);
  g_test_add_func ("/sewing/bulk/against-all", test_against_all);
  g_test_add_func ("/sewing/bulk/cancel", test_cancel);
  return g_test_run ();
}
