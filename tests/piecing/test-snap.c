#include "config.h"

#include "cloth/offcuts.h"
#include "tub.h"

#define MM 1e-3

static OddPlace *
first_of (GPtrArray     *places,
          OddPlaceClass  kind)
{
  for (guint i = 0; i < places->len; i++)
    if (((OddPlace *) places->pdata[i])->kind == kind)
      return places->pdata[i];

  return NULL;
}

static GPtrArray *
places_at (OddJob          *job,
           const OddTarget *target,
           OddId            scrap_id)
{
  return odd_snap_places (job, target, scrap_id, NULL, NULL);
}

static double
length_of (OddJob *job,
           OddId   panel_id)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel_id);

  return layout->alone_length_mm;
}

static void
test_rectangle (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId panel = tub_add_panel (&job, 240, 150);
  const OddId narrow = tub_add_box (&job, 300, 200);
  const OddId wide = tub_add_box (&job, 320, 200);
  const OddTarget foot = tub_foot (job, panel);
  g_autoptr(GPtrArray) places = places_at (job, &foot, narrow);
  g_autoptr(GPtrArray) wider = places_at (job, &foot, wide);
  const OddPlace *place = places->pdata[0];

  g_test_summary ("300 x 200 on a column of 240 at 12.7: the cut takes 265.4, so 174.6 are gained and 34.6 x 200 trimmed");
  g_assert_cmpint (place->kind, ==, ODD_PLACE_FLUSH);
  g_assert_true (place->covers_all);
  g_assert_cmpfloat_with_epsilon (place->covers_mm, 240, MM);
  g_assert_cmpfloat_with_epsilon (place->edge_mm, 240, MM);
  g_assert_cmpfloat_with_epsilon (place->gain_mm, 174.6, MM);
  g_assert_cmpfloat_with_epsilon (place->trimmed_mm2, 34.6 * 200, 1);
  g_assert_cmpuint (place->n_offcuts, ==, 0);
  g_assert_null (place->warning);
  g_assert_cmpuint (place->n_cut_ends, ==, 0);
  /* The panel ends at 150; its raw edge lies at 162.7, the scrap's at 137.3, the seam on 150. */
  g_assert_cmpfloat_with_epsilon (place->seam.from.y, 150, MM);
  g_assert_cmpfloat_with_epsilon (odd_segment_length (place->seam), 240, MM);
  g_assert_cmpfloat_with_epsilon (place->raw_edges[0].from.y, 162.7, MM);
  g_assert_cmpfloat_with_epsilon (place->raw_edges[1].from.y, 137.3, MM);
  g_assert_nonnull (first_of (places, ODD_PLACE_TURNED));
  g_assert_nonnull (first_of (places, ODD_PLACE_TILTED));

  g_test_message ("20 mm wider, what is trimmed holds a square of 50: 54.6 x 200 come back");
  place = wider->pdata[0];
  g_assert_cmpuint (place->n_offcuts, ==, 1);
  g_assert_cmpfloat_with_epsilon (place->offcut_width_mm, 54.6, 0.01);
  g_assert_cmpfloat_with_epsilon (place->offcut_length_mm, 200, 0.01);
  g_assert_cmpfloat_with_epsilon (place->trimmed_mm2, 0, 1);
}

static void
test_shapes (void)
{
  const OddPoint l_shape[] = { { 0, 0 }, { 400, 0 }, { 400, 150 }, { 180, 150 }, { 180, 350 }, { 0, 350 } };
  const OddPoint triangle[] = { { 0, 0 }, { 500, 0 }, { 250, 400 } };
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId panel = tub_add_panel (&job, 240, 150);
  const OddId l = tub_add (&job, l_shape, 6);
  const OddId t = tub_add (&job, triangle, 3);
  const OddTarget foot = tub_foot (job, panel);
  g_autoptr(GPtrArray) of_l = places_at (job, &foot, l);
  g_autoptr(GPtrArray) of_t = places_at (job, &foot, t);

  g_test_summary ("The two arms of an L are places of their own; a triangle gives what lies below the width it has");
  /* as it lies: the arm 400 x 150; turned: the arm 350 x 180 */
  g_assert_cmpfloat_with_epsilon (first_of (of_l, ODD_PLACE_FLUSH)->gain_mm, 150 - 25.4, MM);
  g_assert_cmpfloat_with_epsilon (first_of (of_l, ODD_PLACE_TURNED)->gain_mm, 180 - 25.4, MM);
  /* 134.6 x 150 beside it and the leg of 180 x 200 below */
  g_assert_cmpfloat_with_epsilon (first_of (of_l, ODD_PLACE_FLUSH)->offcuts_mm2, 134.6 * 150 + 180 * 200, 1);
  /* 500 (1 - h / 400) = 265.4 */
  g_assert_cmpfloat_with_epsilon (first_of (of_t, ODD_PLACE_FLUSH)->gain_mm, 400 * (1 - 265.4 / 500) - 25.4, MM);
}

static void
test_too_narrow (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId panel = tub_add_panel (&job, 240, 150);
  const OddId scrap = tub_add_box (&job, 200, 120);
  const OddId crumb = tub_add_box (&job, 50, 40);
  const OddTarget foot = tub_foot (job, panel);
  g_autofree char *reason = NULL;
  g_autofree char *no = NULL;
  g_autoptr(GPtrArray) places = odd_snap_places (job, &foot, scrap, NULL, &reason);
  g_autoptr(GPtrArray) none = odd_snap_places (job, &foot, crumb, NULL, &no);
  const OddPlace *place = places->pdata[0];

  g_test_summary ("200 x 120 is 65.4 too narrow for 240: it starts a row of 174.6 x 94.6; 50 x 40 is no patch at all");
  g_assert_cmpstr (reason, ==, "This scrap is 6.6 cm too narrow. Start a row with it, or turn it.");
  g_assert_cmpint (place->kind, ==, ODD_PLACE_ROW);
  g_assert_false (place->covers_all);
  g_assert_cmpfloat_with_epsilon (place->covers_mm, 174.6, MM);
  g_assert_cmpfloat_with_epsilon (place->edge_mm, 240, MM);
  g_assert_cmpfloat_with_epsilon (place->gain_mm, 94.6, MM);
  g_assert_cmpuint (none->len, ==, 0);
  g_assert_nonnull (strstr (no, "too small"));
}

static void
test_row_side (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId panel = tub_add_panel (&job, 240, 150);
  const OddId scrap = tub_add_box (&job, 150, 120);
  const OddTarget foot = tub_foot (job, panel);
  OddSnapOptions options;
  g_autoptr(GPtrArray) places = NULL;

  g_test_summary ("A row starts on the side on which the scrap is held");
  odd_snap_options_init (&options);
  options.held_at = odd_point (200, 200);
  places = odd_snap_places (job, &foot, scrap, &options, NULL);
  g_assert_cmpfloat_with_epsilon (odd_convex_support (((OddPlace *) places->pdata[0])->region, odd_point (1, 0)), 240, MM);
  g_ptr_array_unref (places);
  options.held_at = odd_point (20, 200);
  places = odd_snap_places (job, &foot, scrap, &options, NULL);
  g_assert_cmpfloat_with_epsilon (odd_convex_support (((OddPlace *) places->pdata[0])->region, odd_point (-1, 0)), 0, MM);
}

/* The bare leaf of the panel. */
static OddId
bare_leaf (OddJob *job,
           OddId   panel_id)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel_id);
  OddId found = 0;

  for (guint i = 0; i < layout->n_patches; i++)
    if (layout->patches[i].scrap == NULL)
      found = layout->patches[i].leaf->id;

  return found;
}

static void
test_row_goes_on (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId first = tub_add_box (&job, 150, 120);
  const OddId second = tub_add_box (&job, 90, 130);
  const OddId third = tub_add_box (&job, 90, 125);
  OddTarget target = { .kind = ODD_TARGET_NEW_PANEL };
  g_autoptr(GPtrArray) starts = places_at (job, &target, first);
  g_autoptr(GPtrArray) goes_on = NULL;
  g_autoptr(GPtrArray) ends = NULL;
  OddPanel *panel;
  OddId leaf, panel_id;

  g_test_summary ("A new column of 240: 150 x 120 starts its row, 90 x 130 goes on, 90 x 125 ends it; one strip of three");
  leaf = tub_apply (&job, starts->pdata[0]);
  panel_id = ((OddPanel *) job->loose_panels->pdata[0])->id;
  g_assert_cmpfloat_with_epsilon (length_of (job, panel_id), 94.6, MM);
  g_assert_false (tub_is_unsound (job, leaf));

  target = tub_bare (bare_leaf (job, panel_id));
  goes_on = places_at (job, &target, second);
  /* 240 - 124.6 are bare; 90 gives 64.6, and 50.8 stay bare */
  g_assert_cmpfloat_with_epsilon (((OddPlace *) goes_on->pdata[0])->covers_mm, 64.6, MM);
  g_assert_cmpfloat_with_epsilon (((OddPlace *) goes_on->pdata[0])->edge_mm, 115.4, MM);
  g_assert_cmpfloat_with_epsilon (((OddPlace *) goes_on->pdata[0])->gain_mm, 94.6, MM);
  leaf = tub_apply (&job, goes_on->pdata[0]);
  g_assert_false (tub_is_unsound (job, leaf));

  target = tub_bare (bare_leaf (job, panel_id));
  ends = places_at (job, &target, third);
  g_assert_true (((OddPlace *) ends->pdata[0])->covers_all);
  leaf = tub_apply (&job, ends->pdata[0]);
  g_assert_false (tub_is_unsound (job, leaf));

  panel = job->loose_panels->pdata[0];
  g_assert_cmpuint (panel->root->n_parts, ==, 3);
  g_assert_cmpuint (panel->root->n_leaves, ==, 3);
  g_assert_cmpuint (bare_leaf (job, panel_id), ==, 0);
}

static void
test_new_panel (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId scrap = tub_add_box (&job, 300, 200);
  const OddId textile = ((OddTextile *) job->textiles->pdata[0])->id;
  const OddTarget target = { .kind = ODD_TARGET_NEW_PANEL, .textile_id = textile, .index = G_MAXUINT };
  g_autoptr(GPtrArray) places = places_at (job, &target, scrap);
  const OddPlace *place = places->pdata[0];
  OddPanel *panel;
  OddId leaf;

  g_test_summary ("A first scrap of 300 x 200 makes a panel of the column width: 240 x 174.6");
  g_assert_cmpfloat_with_epsilon (place->covers_mm, 240, MM);
  g_assert_cmpfloat_with_epsilon (place->gain_mm, 174.6, MM);
  g_assert_cmpfloat (odd_segment_length (place->seam), ==, 0);
  leaf = tub_apply (&job, place);
  panel = odd_job_find_panel_of (job, leaf, NULL, NULL);
  g_assert_cmpfloat_with_epsilon (length_of (job, panel->id), 174.6, MM);
  g_assert_false (tub_is_unsound (job, leaf));
}

static void
test_bare_column (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId panel = tub_add_panel (&job, 240, 900);
  const OddId scrap = tub_add_box (&job, 300, 200);
  const OddTarget target = tub_bare (bare_leaf (job, panel));
  g_autofree char *reason = NULL;
  g_autoptr(GPtrArray) places = odd_snap_places (job, &target, scrap, NULL, &reason);
  const OddPlace *place = places->pdata[0];
  OddId leaf;

  g_test_summary ("A bare column fills from its top: 174.6 of 900, across the whole width");
  g_assert_false (place->covers_all);
  g_assert_cmpfloat_with_epsilon (place->covers_mm, 174.6, MM);
  g_assert_cmpfloat_with_epsilon (place->edge_mm, 900, MM);
  g_assert_cmpfloat_with_epsilon (place->gain_mm, 240, MM);
  g_assert_cmpstr (reason, ==, "72.5 cm stay bare beside this scrap.");
  leaf = tub_apply (&job, place);
  g_assert_false (tub_is_unsound (job, leaf));
  g_assert_cmpfloat_with_epsilon (length_of (job, panel), 900, MM);
}

static void
test_slanting_bare (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId panel = tub_add_panel (&job, 240, 100);
  const OddPlacement pose = { 33, FALSE, { 500, -70 } };
  g_autoptr(OddNode) bare = odd_node_new_bare (job->next_id);
  const OddId leaf = bare->id;
  const OddExtension extension = {
    .edge = 2,
    .seam = { { 0, 1 }, 100 },
    .outer = odd_half_plane_from_edge (odd_point (240, 260), odd_point (0, 200)),
    .part = bare,
    .next_id = job->next_id + 1,
  };
  g_autoptr(OddLayout) layout = NULL;
  g_autoptr(OddConvex) posed = NULL;
  g_autoptr(OddPolygon) outline = NULL;
  g_autoptr(GPtrArray) grown = NULL;
  g_autoptr(GPtrArray) places = NULL;
  OddTarget target;
  OddId scrap;
  gsize n = 0;
  const OddPoint *ring;
  OddJob *next = odd_job_extend_panel (job, panel, &extension, NULL);

  g_test_summary ("A bare region with a slanting end is filled by a scrap of just its cut shape, 1 mm larger, in any pose");
  g_assert_nonnull (next);
  odd_job_unref (job);
  job = next;
  layout = odd_job_dup_layout (job, panel);
  posed = odd_convex_place (odd_layout_find_patch (layout, leaf)->cut, &pose);
  outline = odd_polygon_new_from_convex (posed);
  grown = odd_polygon_grow (outline, 1.0);
  ring = odd_polygon_get_ring (grown->pdata[0], &n);
  scrap = tub_add (&job, ring, n);

  target = tub_bare (leaf);
  places = places_at (job, &target, scrap);
  g_assert_cmpuint (places->len, >, 0);
  g_assert_true (((OddPlace *) places->pdata[0])->covers_all);
  g_assert_cmpuint (tub_apply (&job, places->pdata[0]), ==, leaf);
  g_assert_false (tub_is_unsound (job, leaf));
}

static void
test_zones (void)
{
  const OddPoint box[] = { { 0, 0 }, { 300, 0 }, { 300, 200 }, { 0, 200 } };
  g_autoptr(OddPolygon) at_side = odd_polygon_new_box ((OddBox) { 0, 80, 30, 30 });
  g_autoptr(OddPolygon) in_middle = odd_polygon_new_box ((OddBox) { 140, 90, 20, 10 });
  g_autoptr(OddPolygon) hole = odd_polygon_new_box ((OddBox) { 140, 60, 20, 20 });
  OddZone side = { ODD_ZONE_STAIN, at_side, TRUE };
  OddZone middle = { ODD_ZONE_STAIN, in_middle, TRUE };
  OddZone out = { ODD_ZONE_HOLE, hole, FALSE };
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId panel = tub_add_panel (&job, 240, 150);
  const OddId clear = tub_add_zoned (&job, box, 4, &side, 1);
  const OddId shows = tub_add_zoned (&job, box, 4, &middle, 1);
  const OddId holed = tub_add_zoned (&job, box, 4, &out, 1);
  const OddTarget foot = tub_foot (job, panel);
  g_autoptr(GPtrArray) of_clear = places_at (job, &foot, clear);
  g_autoptr(GPtrArray) of_shows = places_at (job, &foot, shows);
  g_autoptr(GPtrArray) of_holed = places_at (job, &foot, holed);
  gboolean warned = FALSE;

  g_test_summary ("A stain at the side is passed by, one in the middle warned of or left out, a hole kept out");
  g_assert_null (((OddPlace *) of_clear->pdata[0])->warning);
  g_assert_cmpfloat_with_epsilon (((OddPlace *) of_clear->pdata[0])->gain_mm, 174.6, MM);
  for (guint i = 0; i < of_shows->len; i++)
    {
      const OddPlace *place = of_shows->pdata[i];

      if (place->tilt_deg == 0.0 && place->gain_mm > 174)
        {
          g_assert_cmpstr (place->warning, ==, "Covers the stain by 20 x 10 mm");
          warned = TRUE;
        }
    }
  g_assert_true (warned);
  /* above the hole 60, below it 120 */
  g_assert_cmpfloat_with_epsilon (((OddPlace *) of_holed->pdata[0])->gain_mm, 120 - 25.4, MM);
}

static void
test_tilt (void)
{
  const double slope = tan (G_PI / 36); /* 5 degrees */
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId panel = tub_add_panel (&job, 240, 150);
  const OddId big = tub_add_box (&job, 700, 500);
  const OddTarget foot = tub_foot (job, panel);
  OddSnapOptions options;
  g_autoptr(GPtrArray) places = NULL;
  const OddPlace *place;
  OddId leaf;

  g_test_summary ("A seam tilted by 5 degrees: its raw edge turns about the raw corner, the wedge below is cut off the panel");
  odd_snap_options_init (&options);
  options.max_tilt_deg = 15.0;          /* seven tilts: 0, 5, 10, 15 and back */
  places = odd_snap_places (job, &foot, big, &options, NULL);
  place = first_of (places, ODD_PLACE_TILTED);
  g_assert_nonnull (place);
  g_assert_cmpfloat_with_epsilon (fabs (place->tilt_deg), 5.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (odd_segment_length (place->seam), 240 / cos (G_PI / 36), MM);
  g_assert_cmpuint (place->panel_trims->len, ==, 1);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (place->panel_trims->pdata[0]), 265.4 * 265.4 * slope / 2, 0.1);
  leaf = tub_apply (&job, place);
  g_assert_false (tub_is_unsound (job, leaf));
}

static void
test_tilt_on_row (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId first = tub_add_box (&job, 145, 120);
  const OddId second = tub_add_box (&job, 150, 120);
  const OddId big = tub_add_box (&job, 700, 500);
  OddTarget target = { .kind = ODD_TARGET_NEW_PANEL };
  g_autoptr(GPtrArray) starts = places_at (job, &target, first);
  g_autoptr(GPtrArray) ends = NULL;
  g_autoptr(GPtrArray) tilted = NULL;
  OddId panel;
  guint n_tilted = 0;

  g_test_summary ("On a row of two, 94.6 high: a tilt cuts off the end of the seam between them");
  tub_apply (&job, starts->pdata[0]);
  panel = ((OddPanel *) job->loose_panels->pdata[0])->id;
  target = tub_bare (bare_leaf (job, panel));
  ends = places_at (job, &target, second);
  tub_apply (&job, ends->pdata[0]);

  target = tub_foot (job, panel);
  tilted = places_at (job, &target, big);
  for (guint i = 0; i < tilted->len; i++)
    {
      const OddPlace *place = tilted->pdata[i];

      if (place->tilt_deg == 0.0)
        {
          g_assert_cmpuint (place->n_cut_ends, ==, 0);
          continue;
        }
      n_tilted++;
      g_assert_cmpuint (place->n_cut_ends, ==, 1);
    }
  g_assert_cmpuint (n_tilted, >, 0);
}

static void
test_tilt_refused (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId low = tub_add_box (&job, 300, 56.4);
  const OddId big = tub_add_box (&job, 700, 500);
  OddTarget target = { .kind = ODD_TARGET_NEW_PANEL };
  g_autoptr(GPtrArray) starts = places_at (job, &target, low);
  g_autoptr(GPtrArray) places = NULL;

  g_test_summary ("A column 31 long cannot be tilted at all: its patch would get narrower than 30");
  tub_apply (&job, starts->pdata[0]);
  target = tub_foot (job, ((OddPanel *) job->loose_panels->pdata[0])->id);
  places = places_at (job, &target, big);
  g_assert_cmpuint (places->len, >, 0);
  for (guint i = 0; i < places->len; i++)
    g_assert_cmpfloat (((OddPlace *) places->pdata[i])->tilt_deg, ==, 0);
}

static void
test_keep_angle (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId panel = tub_add_panel (&job, 150, 150);
  const OddId scrap = tub_add_box (&job, 400, 300);
  const OddTarget foot = tub_foot (job, panel);
  OddSnapOptions options;
  g_autoptr(GPtrArray) places = NULL;

  g_test_summary ("With the angle kept, only the held turn is offered");
  odd_snap_options_init (&options);
  options.keep_angle = TRUE;
  options.held_turn_deg = 17;
  options.max_tilt_deg = 0;
  places = odd_snap_places (job, &foot, scrap, &options, NULL);
  g_assert_cmpuint (places->len, ==, 1);
  g_assert_cmpint (((OddPlace *) places->pdata[0])->kind, ==, ODD_PLACE_AS_HELD);
  g_assert_cmpfloat_with_epsilon (((OddPlace *) places->pdata[0])->placement.turn_deg, 17, 1e-9);
}

static void
test_nudge (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId panel = tub_add_panel (&job, 240, 150);
  const OddId scrap = tub_add_box (&job, 300, 200);
  const OddTarget foot = tub_foot (job, panel);
  g_autoptr(GPtrArray) places = places_at (job, &foot, scrap);
  OddPlace *place = odd_place_copy (places->pdata[0]);
  OddId leaf;

  g_test_summary ("34.6 mm of play along the seam, none across but towards it");
  g_assert_true (odd_place_nudge (job, place, -20, 0));
  g_assert_false (odd_place_nudge (job, place, -20, 0));
  g_assert_true (odd_place_nudge (job, place, 10, 0));
  g_assert_true (odd_place_nudge (job, place, 0, -10));
  g_assert_cmpfloat_with_epsilon (place->gain_mm, 164.6, MM);
  g_assert_cmpint (place->kind, ==, ODD_PLACE_FLUSH);
  g_assert_true (odd_place_nudge (job, place, 0, 10));
  g_assert_false (odd_place_nudge (job, place, 0, 1));
  g_assert_cmpfloat_with_epsilon (place->gain_mm, 174.6, MM);
  leaf = tub_apply (&job, place);
  g_assert_false (tub_is_unsound (job, leaf));
  odd_place_free (place);
}

static void
test_remains (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId panel = tub_add_panel (&job, 240, 150);
  const OddId scrap = tub_add_box (&job, 600, 200);
  OddTarget foot = tub_foot (job, panel);
  g_autoptr(GPtrArray) places = places_at (job, &foot, scrap);
  g_autoptr(GPtrArray) again = NULL;
  g_autoptr(GPtrArray) remains = NULL;
  OddId leaf;

  g_test_summary ("600 x 200 gives two patches: the second lies on what the first leaves");
  tub_apply (&job, places->pdata[0]);
  remains = odd_scrap_remains (job, scrap);
  g_assert_cmpuint (remains->len, ==, 1);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (remains->pdata[0]), 334.6 * 200, 1);
  foot = tub_foot (job, panel);
  again = places_at (job, &foot, scrap);
  g_assert_cmpuint (again->len, >, 0);
  leaf = tub_apply (&job, again->pdata[0]);
  g_assert_false (tub_is_unsound (job, leaf));
  g_ptr_array_unref (remains);
  remains = odd_scrap_remains (job, scrap);
  g_assert_cmpuint (remains->len, ==, 1);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (remains->pdata[0]), (600 - 2 * 265.4) * 200, 1);
}

static void
test_refused (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId panel = tub_add_panel (&job, 240, 150);
  const OddId scrap = tub_add_box (&job, 300, 200);
  const OddTarget foot = tub_foot (job, panel);
  OddJob *locked = odd_job_set_lock (job, panel, TRUE, NULL);
  g_autofree char *reason = NULL;
  g_autoptr(GPtrArray) places = odd_snap_places (locked, &foot, scrap, NULL, &reason);

  g_test_summary ("A locked panel offers no place, and says so");
  g_assert_cmpuint (places->len, ==, 0);
  g_assert_nonnull (strstr (reason, "locked"));
  odd_job_unref (locked);
}

static void
test_which_fit (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId panel = tub_add_panel (&job, 240, 150);
  const OddId fits = tub_add_box (&job, 266, 100);
  const OddId wasteful = tub_add_box (&job, 300, 100);
  const OddTarget foot = tub_foot (job, panel);
  g_autoptr(GArray) found = NULL;

  g_test_summary ("Of three scraps two fit, the one with less waste first");
  tub_add_box (&job, 200, 200);
  found = odd_snap_which_fit (job, &foot, NULL);
  g_assert_cmpuint (found->len, ==, 2);
  g_assert_cmpuint (g_array_index (found, OddFit, 0).scrap_id, ==, fits);
  g_assert_cmpuint (g_array_index (found, OddFit, 1).scrap_id, ==, wasteful);
  g_assert_cmpfloat_with_epsilon (g_array_index (found, OddFit, 0).gain_mm, 74.6, MM);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/snap/rectangle", test_rectangle);
  g_test_add_func ("/snap/shapes", test_shapes);
  g_test_add_func ("/snap/too-narrow", test_too_narrow);
  g_test_add_func ("/snap/row-side", test_row_side);
  g_test_add_func ("/snap/row-goes-on", test_row_goes_on);
  g_test_add_func ("/snap/new-panel", test_new_panel);
  g_test_add_func ("/snap/bare-column", test_bare_column);
  g_test_add_func ("/snap/slanting-bare", test_slanting_bare);
  g_test_add_func ("/snap/zones", test_zones);
  g_test_add_func ("/snap/tilt", test_tilt);
  g_test_add_func ("/snap/tilt-on-row", test_tilt_on_row);
  g_test_add_func ("/snap/tilt-refused", test_tilt_refused);
  g_test_add_func ("/snap/keep-angle", test_keep_angle);
  g_test_add_func ("/snap/nudge", test_nudge);
  g_test_add_func ("/snap/remains", test_remains);
  g_test_add_func ("/snap/refused", test_refused);
  g_test_add_func ("/snap/which-fit", test_which_fit);

  return g_test_run ();
}
