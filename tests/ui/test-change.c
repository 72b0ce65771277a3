/* Changing what stands, by pointer and by key, in a window. */
#include "table-job.h"
#include "ui/canvas-input.h"
#include "ui/canvas.h"

#include <adwaita.h>

typedef struct
{
  GtkWidget *window, *canvas;
  OddDocument *document;
  OddSelection *selection;
  OddId first_free;
  GPtrArray *told;                 /* (element-type utf8) */
} Fixture;

static void
announced_cb (Fixture *fixture, const char *text)
{
  g_ptr_array_add (fixture->told, g_strdup (text));
}

static void
settle (void)
{
  for (guint i = 0; i < 60; i++)
    {
      while (g_main_context_iteration (NULL, FALSE))
        ;
      g_usleep (1000);
    }
}

static void
set_up (Fixture *fixture, gconstpointer data)
{
  OddJob *job = table_job_new (2, 3, 4, 6, &fixture->first_free);

  fixture->document = odd_document_new (job);
  odd_job_unref (job);
  fixture->selection = odd_selection_new (fixture->document);
  fixture->told = g_ptr_array_new_with_free_func (g_free);
  fixture->canvas = odd_canvas_new ();
  g_object_set (fixture->canvas, "document", fixture->document, "selection", fixture->selection, NULL);
  g_signal_connect_swapped (fixture->canvas, "announced", G_CALLBACK (announced_cb), fixture);
  fixture->window = gtk_window_new ();
  gtk_window_set_default_size (GTK_WINDOW (fixture->window), 800, 600);
  gtk_window_set_child (GTK_WINDOW (fixture->window), fixture->canvas);
  gtk_window_present (GTK_WINDOW (fixture->window));
  settle ();
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  g_object_ref (fixture->canvas);
  gtk_window_destroy (GTK_WINDOW (fixture->window));
  settle ();
  g_assert_finalize_object (fixture->canvas);
  g_assert_finalize_object (fixture->selection);
  g_assert_finalize_object (fixture->document);
  g_ptr_array_unref (fixture->told);
}

static OddTool *
tool_of (Fixture *fixture)
{
  return odd_canvas_get_tool (ODD_CANVAS (fixture->canvas));
}

static gboolean
press (Fixture *fixture, guint keyval, GdkModifierType state)
{
  return odd_tool_key (tool_of (fixture), keyval, state);
}

static OddTable *
table_of (Fixture *fixture)
{
  return odd_canvas_get_scene (ODD_CANVAS (fixture->canvas))->table;
}

static OddJob *
job_of (Fixture *fixture)
{
  return odd_document_get_job (fixture->document);
}

static const char *
last_told (Fixture *fixture)
{
  return fixture->told->len > 0 ? fixture->told->pdata[fixture->told->len - 1] : "";
}

static OddNode *
root_of (Fixture *fixture, guint item)
{
  return odd_job_get_panel (job_of (fixture), table_of (fixture)->items[item].panel_id, NULL, NULL)->root;
}

/* Of the seam between the first two rows of the first panel. */
static double
seam_y (Fixture *fixture)
{
  return root_of (fixture, 0)->seams[0].line.offset_mm;
}

static OddSegment
select_row_seam (Fixture *fixture)
{
  OddTable *table = table_of (fixture);
  OddViewport *viewport = odd_canvas_get_scene (ODD_CANVAS (fixture->canvas))->viewport;
  const OddId id = root_of (fixture, 0)->seams[0].id;
  const OddLaidSeam *seam = odd_table_find_seam (table, id, NULL);

  odd_selection_set (fixture->selection, ODD_SELECTED_SEAM, id);
  return (OddSegment) { odd_table_to_px (table, viewport, 0, seam->finished.from), odd_table_to_px (table, viewport, 0, seam->finished.to) };
}

static double
zoom_of (Fixture *fixture)
{
  return odd_viewport_get_zoom (odd_canvas_get_scene (ODD_CANVAS (fixture->canvas))->viewport);
}

static void
drag (Fixture *fixture, OddPoint from, OddPoint to)
{
  g_assert_true (odd_tool_drag_begin (tool_of (fixture), from));
  for (guint i = 1; i <= 8; i++)
    odd_tool_drag_update (tool_of (fixture), odd_point_lerp (from, to, i / 8.0));
  settle ();
  odd_tool_drag_end (tool_of (fixture), to, FALSE);
}

static void
test_drag_seam (Fixture *fixture, gconstpointer data)
{
  const OddSegment seam = select_row_seam (fixture);
  const OddPoint middle = odd_point_lerp (seam.from, seam.to, 0.5);
  const double before = seam_y (fixture);

  g_test_summary ("The middle handle moves the seam with the pointer; one step of undo");
  drag (fixture, middle, odd_point (middle.x + 40, middle.y + 12 * zoom_of (fixture)));
  g_assert_cmpfloat_with_epsilon (seam_y (fixture), before + 12, 1e-6);
  g_assert_true (odd_document_undo (fixture->document));
  g_assert_cmpfloat (seam_y (fixture), ==, before);
  g_assert_null (odd_document_get_undo_label (fixture->document));
}

/* The middle handle dragged by so many mm on the canvas; how far the seam between the first rows went. */
static double
drag_middle (Fixture *fixture, double mm)
{
  const OddSegment seam = select_row_seam (fixture);
  const OddPoint middle = odd_point_lerp (seam.from, seam.to, 0.5);
  const double before = seam_y (fixture);

  drag (fixture, middle, odd_point (middle.x, middle.y + mm * zoom_of (fixture)));
  return seam_y (fixture) - before;
}

static void
test_drag_however_shown (Fixture *fixture, gconstpointer data)
{
  const OddId panel_id = table_of (fixture)->items[0].panel_id;

  g_test_summary ("The seam follows the pointer joined, on the wrong side, and in a panel turned over end, where down is up");
  g_object_set (fixture->canvas, "joined", TRUE, NULL);
  settle ();
  g_assert_cmpfloat_with_epsilon (drag_middle (fixture, 9), 9, 1e-6);
  g_object_set (fixture->canvas, "joined", FALSE, "show", (int) ODD_SHOW_WRONG_SIDE, NULL);
  settle ();
  g_assert_cmpfloat_with_epsilon (drag_middle (fixture, -4), -4, 1e-6);
  g_object_set (fixture->canvas, "show", (int) ODD_SHOW_PATCHES, NULL);
  odd_document_apply (fixture->document, odd_job_turn_panel (job_of (fixture), panel_id, NULL), "Turn");
  settle ();
  g_assert_cmpfloat_with_epsilon (drag_middle (fixture, 6), -6, 1e-6);
}

static void
test_sewn_seam_stays (Fixture *fixture, gconstpointer data)
{
  const OddState done = ODD_STATE_DONE;
  g_autoptr(OddProgress) progress = odd_progress_new (&done, NULL, 1);

  g_test_summary ("A sewn seam is not moved by its handle: one sentence that offers to unpick");
  odd_document_apply (fixture->document, odd_job_set_progress (job_of (fixture), root_of (fixture, 0)->seams[0].id, progress, NULL), "Sew");
  g_assert_cmpfloat (drag_middle (fixture, 9), ==, 0);
  g_assert_nonnull (strstr (last_told (fixture), "Unpick"));
  g_assert_cmpstr (odd_document_get_undo_label (fixture->document), ==, "Sew");
}

static void
test_drag_to_the_limit (Fixture *fixture, gconstpointer data)
{
  const OddSegment seam = select_row_seam (fixture);
  const OddPoint middle = odd_point_lerp (seam.from, seam.to, 0.5);
  const double before = seam_y (fixture);
  g_autoptr(GPtrArray) findings = NULL;

  g_test_summary ("Dragged across the whole row, the seam is held where the scraps of the next row end: they begin 60 mm above its seam, and 12.7 of that are allowance");
  drag (fixture, middle, odd_point (middle.x, middle.y - 2000));
  g_assert_cmpfloat_with_epsilon (seam_y (fixture), before - 60 + 12.7 - ODD_FIT_TOLERANCE_MM, 1e-3);
  findings = odd_job_check (job_of (fixture), NULL);
  g_assert_cmpuint (findings->len, ==, 0);
}

static void
test_tilt_and_cancel (Fixture *fixture, gconstpointer data)
{
  OddSegment seam = select_row_seam (fixture);
  OddPoint end = odd_point_lerp (seam.from, seam.to, 1 - 30 / odd_segment_length (seam));
  OddHalfPlane line;

  g_test_summary ("An end handle tilts the seam round its other end; Escape while dragging leaves all as it was");
  drag (fixture, end, odd_point (end.x, end.y + 14));
  line = root_of (fixture, 0)->seams[0].line;
  g_assert_cmpfloat (fabs (line.normal.x), >, 0.01);
  g_assert_cmpfloat_with_epsilon (odd_half_plane_distance (line, odd_point (0, odd_table_find_seam (table_of (fixture), root_of (fixture, 0)->seams[0].id, NULL)->finished.from.y)), 0, 1e-6);
  odd_document_undo (fixture->document);

  seam = select_row_seam (fixture);
  end = odd_point_lerp (seam.from, seam.to, 0.5);
  g_assert_true (odd_tool_drag_begin (tool_of (fixture), end));
  odd_tool_drag_update (tool_of (fixture), odd_point (end.x, end.y + 20));
  g_assert_true (press (fixture, GDK_KEY_Escape, 0));
  odd_tool_drag_end (tool_of (fixture), odd_point (end.x, end.y + 20), FALSE);
  g_assert_null (odd_document_get_undo_label (fixture->document));
}

static void
test_keys_move_seam (Fixture *fixture, gconstpointer data)
{
  const double before = (select_row_seam (fixture), seam_y (fixture));

  g_test_summary ("Alt and arrows: 1 mm, with Shift 10; comma and full stop tilt by a degree; moves join into one step; across it, the way is told");
  for (guint i = 0; i < 3; i++)
    g_assert_true (press (fixture, GDK_KEY_Down, GDK_ALT_MASK));
  g_assert_true (press (fixture, GDK_KEY_Down, GDK_ALT_MASK | GDK_SHIFT_MASK));
  g_assert_true (press (fixture, GDK_KEY_Up, GDK_ALT_MASK));
  g_assert_cmpfloat_with_epsilon (seam_y (fixture), before + 12, 1e-6);
  g_assert_true (press (fixture, GDK_KEY_Left, GDK_ALT_MASK));
  g_assert_nonnull (strstr (last_told (fixture), "up and down"));
  g_assert_true (press (fixture, GDK_KEY_period, 0));
  g_assert_cmpfloat_with_epsilon (fabs (root_of (fixture, 0)->seams[0].line.normal.x), sin (G_PI / 180), 1e-9);
  g_assert_true (odd_document_undo (fixture->document));
  g_assert_true (odd_document_undo (fixture->document));
  g_assert_cmpfloat (seam_y (fixture), ==, before);
  for (guint i = 0; i < 20; i++)
    press (fixture, GDK_KEY_Up, GDK_ALT_MASK | GDK_SHIFT_MASK);
  g_assert_nonnull (strstr (last_told (fixture), "ends here"));
}

static OddId
leaf_at (Fixture *fixture, guint row, guint column)
{
  return root_of (fixture, 0)->parts[row]->parts[column]->id;
}

static OddId
scrap_at (Fixture *fixture, guint row, guint column)
{
  return root_of (fixture, 0)->parts[row]->parts[column]->scrap_id;
}

static void
test_swap (Fixture *fixture, gconstpointer data)
{
  const OddId first = scrap_at (fixture, 0, 0), third = scrap_at (fixture, 0, 2);
  OddScene *scene = odd_canvas_get_scene (ODD_CANVAS (fixture->canvas));
  OddPoint px;

  g_test_summary ("W, two steps to the right, Enter: the scraps have changed places. W and a click change them back");
  odd_selection_set (fixture->selection, ODD_SELECTED_PATCH, leaf_at (fixture, 0, 0));
  g_assert_true (press (fixture, GDK_KEY_w, 0));
  press (fixture, GDK_KEY_Right, 0);
  press (fixture, GDK_KEY_Right, 0);
  settle ();
  g_assert_true (press (fixture, GDK_KEY_Return, 0));
  g_assert_cmpuint (scrap_at (fixture, 0, 0), ==, third);
  g_assert_cmpuint (scrap_at (fixture, 0, 2), ==, first);
  g_assert_true (odd_canvas_begin_swap (ODD_CANVAS (fixture->canvas)));
  px = odd_table_to_px (scene->table, scene->viewport, 0, odd_convex_centroid (odd_table_find_patch (scene->table, leaf_at (fixture, 0, 0), NULL)->region));
  odd_tool_click (tool_of (fixture), px, 1);
  g_assert_cmpuint (scrap_at (fixture, 0, 0), ==, first);
  press (fixture, GDK_KEY_w, 0);
  press (fixture, GDK_KEY_Escape, 0);
  press (fixture, GDK_KEY_Return, 0);
  g_assert_cmpuint (scrap_at (fixture, 0, 0), ==, first);
}

static void
test_cut_in_two (Fixture *fixture, gconstpointer data)
{
  OddScene *scene = odd_canvas_get_scene (ODD_CANVAS (fixture->canvas));
  const OddId leaf = leaf_at (fixture, 1, 1);
  const guint before = root_of (fixture, 0)->n_leaves;
  OddBox box;

  g_test_summary ("X and Enter cut across the middle; drawn upright by the pointer, the line joins the row; a line outside is refused and nothing changes");
  odd_selection_set (fixture->selection, ODD_SELECTED_PATCH, leaf);
  g_assert_true (press (fixture, GDK_KEY_x, 0));
  settle ();
  press (fixture, GDK_KEY_Down, GDK_SHIFT_MASK);
  g_assert_true (press (fixture, GDK_KEY_Return, 0));
  g_assert_cmpuint (root_of (fixture, 0)->n_leaves, ==, before + 1);
  odd_document_undo (fixture->document);

  odd_canvas_begin_cut (ODD_CANVAS (fixture->canvas));
  box = odd_convex_box (odd_table_find_patch (scene->table, leaf, NULL)->region);
  drag (fixture, odd_table_to_px (scene->table, scene->viewport, 0, odd_point (box.x + 40, box.y - 5)),
        odd_table_to_px (scene->table, scene->viewport, 0, odd_point (box.x + 41, box.y + box.height + 5)));
  g_assert_cmpuint (root_of (fixture, 0)->parts[1]->n_parts, ==, 4);
  odd_document_undo (fixture->document);

  odd_canvas_begin_cut (ODD_CANVAS (fixture->canvas));
  drag (fixture, odd_point (2, 2), odd_point (60, 4));
  g_assert_nonnull (strstr (last_told (fixture), "misses"));
  g_assert_cmpuint (root_of (fixture, 0)->n_leaves, ==, before);
  g_assert_null (odd_document_get_undo_label (fixture->document));
  g_assert_true (press (fixture, GDK_KEY_Escape, 0));
}

static void
test_lock (Fixture *fixture, gconstpointer data)
{
  const OddId leaf = leaf_at (fixture, 0, 0);

  g_test_summary ("L locks the patch; the seam beside it is refused then, and a swap; L again opens it");
  odd_selection_set (fixture->selection, ODD_SELECTED_PATCH, leaf);
  g_assert_true (press (fixture, GDK_KEY_l, 0));
  settle ();
  g_assert_true (root_of (fixture, 0)->parts[0]->parts[0]->locked);
  select_row_seam (fixture);
  press (fixture, GDK_KEY_Down, GDK_ALT_MASK);
  g_assert_nonnull (strstr (last_told (fixture), "Patch 1 is locked"));
  odd_selection_set (fixture->selection, ODD_SELECTED_PATCH, leaf);
  press (fixture, GDK_KEY_l, 0);
  g_assert_false (root_of (fixture, 0)->parts[0]->parts[0]->locked);
  odd_selection_set (fixture->selection, ODD_SELECTED_SEAM, root_of (fixture, 0)->parts[0]->seams[0].id);
  press (fixture, GDK_KEY_l, 0);
  g_assert_true (root_of (fixture, 0)->parts[0]->locked);
  odd_selection_set (fixture->selection, ODD_SELECTED_PANEL, table_of (fixture)->items[0].panel_id);
  press (fixture, GDK_KEY_l, 0);
  g_assert_true (odd_job_get_panel (job_of (fixture), table_of (fixture)->items[0].panel_id, NULL, NULL)->locked);
  settle ();
}

static void
test_straighten (Fixture *fixture, gconstpointer data)
{
  const double before = table_of (fixture)->items[0].layout->box.height;

  g_test_summary ("F takes the lower end out to where the shortest scrap of the last row reaches");
  odd_selection_set (fixture->selection, ODD_SELECTED_PANEL, table_of (fixture)->items[0].panel_id);
  g_assert_true (press (fixture, GDK_KEY_f, 0));
  g_assert_nonnull (strstr (last_told (fixture), "won"));
  /* scraps of 420 mm begin 60 above the row */
  g_assert_cmpfloat_with_epsilon (table_of (fixture)->items[0].layout->box.height,
                                  before - odd_convex_box (odd_table_find_patch (table_of (fixture), leaf_at (fixture, 2, 0), NULL)->region).height
                                    + 420 - 60 - 12.7 + ODD_FIT_TOLERANCE_MM, 1e-3);
  press (fixture, GDK_KEY_f, 0);
  g_assert_nonnull (strstr (last_told (fixture), "straight, and"));
}

static void
test_replace (Fixture *fixture, gconstpointer data)
{
  const OddId leaf = leaf_at (fixture, 1, 1), before = scrap_at (fixture, 1, 1);

  g_test_summary ("With a scrap in the hand, W puts it in the selected patch's place");
  odd_selection_set (fixture->selection, ODD_SELECTED_PATCH, leaf);
  odd_canvas_take_scrap (ODD_CANVAS (fixture->canvas), fixture->first_free, NULL);
  g_assert_true (press (fixture, GDK_KEY_w, 0));
  g_assert_cmpuint (scrap_at (fixture, 1, 1), ==, fixture->first_free);
  g_assert_true (odd_document_undo (fixture->document));
  g_assert_cmpuint (scrap_at (fixture, 1, 1), ==, before);
}

int
main (int argc, char *argv[])
{
  gtk_test_init (&argc, &argv, NULL);
  adw_init ();
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
#define ADD(name, func) g_test_add ("/change/" name, Fixture, NULL, set_up, func, tear_down)
  ADD ("drag-seam", test_drag_seam);
  ADD ("drag-however-shown", test_drag_however_shown);
  ADD ("sewn-seam-stays", test_sewn_seam_stays);
  ADD ("drag-to-the-limit", test_drag_to_the_limit);
  ADD ("tilt-and-cancel", test_tilt_and_cancel);
  ADD ("keys-move-seam", test_keys_move_seam);
  ADD ("swap", test_swap);
  ADD ("cut-in-two", test_cut_in_two);
  ADD ("lock", test_lock);
  ADD ("straighten", test_straighten);
  ADD ("replace", test_replace);
  return g_test_run ();
}
