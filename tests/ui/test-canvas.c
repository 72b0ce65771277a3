/* The canvas in a window: by key from a scrap in the hand to a longer panel, and back. */
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
  guint n_dropped;
} Fixture;

static void
announced_cb (Fixture *fixture, const char *text)
{
  g_ptr_array_add (fixture->told, g_strdup (text));
}

static void
dropped_cb (Fixture *fixture, guint leaf)
{
  fixture->n_dropped++;
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
  g_signal_connect_swapped (fixture->canvas, "scrap-dropped", G_CALLBACK (dropped_cb), fixture);
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

static gboolean
press (Fixture *fixture, guint keyval, GdkModifierType state)
{
  return odd_tool_key (odd_canvas_get_tool (ODD_CANVAS (fixture->canvas)), keyval, state);
}

static OddTable *
table_of (Fixture *fixture)
{
  return odd_canvas_get_scene (ODD_CANVAS (fixture->canvas))->table;
}

static guint
get_uint (Fixture *fixture, const char *name)
{
  guint value;

  g_object_get (fixture->canvas, name, &value, NULL);
  return value;
}

static guint
count_patches (OddJob *job)
{
  const OddTextile *textile = g_ptr_array_index (job->textiles, 0);
  guint n = 0;

  for (guint i = 0; i < textile->n_hung; i++)
    n += textile->hung[i].panel->root->n_leaves;
  return n;
}

static void
test_take_sew_undo (Fixture *fixture, gconstpointer data)
{
  OddJob *before = odd_job_ref (odd_document_get_job (fixture->document));
  const OddId panel_id = table_of (fixture)->items[1].panel_id;
  const double length = table_of (fixture)->items[1].layout->box.height;
  OddJob *after;

  g_test_summary ("Take, Enter: the last panel is longer and the scrap sewn on, as one named step; undo brings the same job back");
  odd_canvas_take_scrap (ODD_CANVAS (fixture->canvas), fixture->first_free, NULL);
  settle ();
  g_assert_cmpuint (get_uint (fixture, "in-hand"), ==, fixture->first_free);
  g_assert_cmpuint (get_uint (fixture, "n-places"), >, 0);
  g_assert_true (press (fixture, GDK_KEY_Return, 0));
  settle ();

  after = odd_document_get_job (fixture->document);
  g_assert_cmpuint (get_uint (fixture, "in-hand"), ==, 0);
  g_assert_cmpuint (fixture->n_dropped, ==, 1);
  g_assert_cmpuint (fixture->told->len, ==, 1);
  g_assert_cmpuint (count_patches (after), >, count_patches (before));
  g_assert_cmpint (odd_job_get_scrap_state (after, fixture->first_free), ==, ODD_SCRAP_PLACED);
  g_assert_cmpfloat (table_of (fixture)->items[odd_table_find_panel (table_of (fixture), panel_id)].layout->box.height, >, length);
  g_assert_nonnull (strstr (odd_document_get_undo_label (fixture->document), "Sew on scrap"));
  g_assert_cmpint (odd_selection_get_kind (fixture->selection), ==, ODD_SELECTED_PATCH);

  g_assert_true (odd_document_undo (fixture->document));
  g_assert_true (odd_document_get_job (fixture->document) == before);
  g_assert_cmpint (odd_selection_get_kind (fixture->selection), ==, ODD_SELECTED_NOTHING);
  settle ();
  odd_job_unref (before);
}

static void
test_places (Fixture *fixture, gconstpointer data)
{
  OddJob *before = odd_document_get_job (fixture->document);
  guint n;

  g_test_summary ("Tab goes round all places, Shift+Tab back; Escape leaves everything as it was");
  odd_canvas_take_scrap (ODD_CANVAS (fixture->canvas), fixture->first_free + 1, NULL);
  n = get_uint (fixture, "n-places");
  g_assert_cmpuint (n, >, 1);
  for (guint i = 1; i <= n; i++)
    {
      g_assert_true (press (fixture, GDK_KEY_Tab, 0));
      g_assert_cmpuint (get_uint (fixture, "place-index"), ==, i % n);
    }
  g_assert_true (press (fixture, GDK_KEY_ISO_Left_Tab, GDK_SHIFT_MASK));
  g_assert_cmpuint (get_uint (fixture, "place-index"), ==, n - 1);
  g_assert_true (press (fixture, GDK_KEY_Escape, 0));
  g_assert_cmpuint (get_uint (fixture, "in-hand"), ==, 0);
  g_assert_true (odd_document_get_job (fixture->document) == before);
  settle ();
}

static void
test_openings (Fixture *fixture, gconstpointer data)
{
  OddScene *scene = odd_canvas_get_scene (ODD_CANVAS (fixture->canvas));
  const OddTarget *target;
  OddTarget first;
  guint n = 0;

  g_test_summary ("E goes round all openings and comes back to the first; a new panel is among them");
  odd_canvas_take_scrap (ODD_CANVAS (fixture->canvas), fixture->first_free, NULL);
  first = *odd_held_get_target (scene->hand);
  do
    {
      g_assert_true (press (fixture, GDK_KEY_e, 0));
      target = odd_held_get_target (scene->hand);
      n++;
    }
  while (!odd_target_equal (target, &first) && n < 100);
  g_assert_cmpuint (n, ==, 2 * 4 + 2);            /* and a loose piece */
  g_assert_true (press (fixture, GDK_KEY_j, 0));
  g_assert_cmpint (odd_held_get_target (scene->hand)->kind, ==, ODD_TARGET_NEW_PANEL);
  g_assert_cmpuint (odd_held_get_target (scene->hand)->textile_id, ==, 0);
  do
    press (fixture, GDK_KEY_e, 0);
  while (odd_held_get_target (scene->hand)->kind != ODD_TARGET_NEW_PANEL);
  g_assert_cmpuint (get_uint (fixture, "n-places"), >, 0);
  g_assert_true (press (fixture, GDK_KEY_Return, 0));
  g_assert_cmpuint (table_of (fixture)->n_items, ==, 3);
  settle ();
}

static void
test_hold (Fixture *fixture, gconstpointer data)
{
  OddScene *scene = odd_canvas_get_scene (ODD_CANVAS (fixture->canvas));
  const OddBox raw = odd_table_get_raw_px (scene->table, scene->viewport, 0);
  const OddId panel_id = scene->table->items[0].panel_id;
  guint n;

  g_test_summary ("Held below the first panel, a scrap snaps to it, Tab goes on to the next place, and letting go sews it on there");
  odd_canvas_hold_scrap (ODD_CANVAS (fixture->canvas), fixture->first_free, raw.x + raw.width / 2, raw.y + raw.height + 30, FALSE);
  settle ();
  n = get_uint (fixture, "n-places");
  g_assert_cmpuint (n, >, 1);
  g_assert_cmpuint (odd_held_get_target (scene->hand)->panel_id, ==, panel_id);
  g_assert_true (press (fixture, GDK_KEY_Tab, 0));
  g_assert_cmpuint (get_uint (fixture, "place-index"), ==, 1);
  g_assert_true (odd_canvas_drop_scrap (ODD_CANVAS (fixture->canvas)));
  g_assert_cmpuint (fixture->n_dropped, ==, 1);
  g_assert_cmpint (odd_job_get_scrap_state (odd_document_get_job (fixture->document), fixture->first_free), ==, ODD_SCRAP_PLACED);

  g_test_message ("far from everything it is put back, and nothing changes");
  odd_canvas_hold_scrap (ODD_CANVAS (fixture->canvas), fixture->first_free + 1, -5000, -5000, FALSE);
  g_assert_false (odd_canvas_drop_scrap (ODD_CANVAS (fixture->canvas)));
  g_assert_cmpuint (get_uint (fixture, "in-hand"), ==, 0);
  g_assert_cmpuint (fixture->n_dropped, ==, 1);
  settle ();
}

static void
test_target_undone (Fixture *fixture, gconstpointer data)
{
  OddScene *scene = odd_canvas_get_scene (ODD_CANVAS (fixture->canvas));
  const OddTarget fresh = { .kind = ODD_TARGET_NEW_PANEL, .textile_id = scene->table->textile_id, .index = 2 };
  const OddTarget *aimed;

  g_test_summary ("The panel aimed at is undone while the scrap is in the hand: it stays there and finds another place");
  odd_canvas_take_scrap (ODD_CANVAS (fixture->canvas), fixture->first_free, &fresh);
  press (fixture, GDK_KEY_Return, 0);
  g_assert_cmpuint (scene->table->n_items, ==, 3);
  odd_canvas_take_scrap (ODD_CANVAS (fixture->canvas), fixture->first_free + 1, NULL);
  aimed = odd_held_get_target (scene->hand);
  g_assert_cmpuint (aimed->panel_id, ==, scene->table->items[2].panel_id);
  settle ();
  odd_document_undo (fixture->document);
  settle ();
  g_assert_cmpuint (scene->table->n_items, ==, 2);
  g_assert_cmpuint (get_uint (fixture, "in-hand"), ==, fixture->first_free + 1);
  g_assert_null (odd_held_get_target (scene->hand));
  g_assert_true (press (fixture, GDK_KEY_e, 0));
  g_assert_cmpuint (get_uint (fixture, "n-places"), >, 0);
  press (fixture, GDK_KEY_Escape, 0);
  settle ();
}

static void
test_bare (Fixture *fixture, gconstpointer data)
{
  const OddId leaf = table_of (fixture)->items[0].layout->patches[5].leaf->id;
  const OddPatch *patch;

  g_test_summary ("Delete takes the cloth of the selected patch out, once");
  odd_selection_set (fixture->selection, ODD_SELECTED_PATCH, leaf);
  g_assert_true (press (fixture, GDK_KEY_Delete, 0));
  patch = odd_table_find_patch (table_of (fixture), leaf, NULL);
  g_assert_nonnull (patch);
  g_assert_null (patch->scrap);
  g_assert_cmpstr (odd_document_get_undo_label (fixture->document), ==, "Make patch 6 bare");
  g_assert_cmpuint (fixture->told->len, ==, 0);
  g_assert_true (press (fixture, GDK_KEY_Delete, 0));
  g_assert_cmpuint (fixture->told->len, ==, 1);
}

static void
test_fill_bare (Fixture *fixture, gconstpointer data)
{
  const OddId leaf = table_of (fixture)->items[0].layout->patches[5].leaf->id;
  const OddId scrap = table_of (fixture)->items[0].layout->patches[5].scrap->id;

  g_test_summary ("A bare patch that is selected is where a scrap goes first");
  odd_selection_set (fixture->selection, ODD_SELECTED_PATCH, leaf);
  press (fixture, GDK_KEY_Delete, 0);
  odd_canvas_take_scrap (ODD_CANVAS (fixture->canvas), scrap, NULL);
  g_assert_cmpint (odd_held_get_target (odd_canvas_get_scene (ODD_CANVAS (fixture->canvas))->hand)->leaf_id, ==, leaf);
  g_assert_cmpuint (get_uint (fixture, "n-places"), >, 0);
  press (fixture, GDK_KEY_Return, 0);
  g_assert_cmpint (odd_job_get_scrap_state (odd_document_get_job (fixture->document), scrap), ==, ODD_SCRAP_PLACED);
  settle ();
}

static void
test_move_panel (Fixture *fixture, gconstpointer data)
{
  const OddId first = table_of (fixture)->items[0].panel_id;

  g_test_summary ("Alt+Right moves the selected panel one on, and no farther than the end");
  odd_selection_set (fixture->selection, ODD_SELECTED_PANEL, first);
  g_assert_true (press (fixture, GDK_KEY_Right, GDK_ALT_MASK));
  g_assert_cmpuint (table_of (fixture)->items[1].panel_id, ==, first);
  press (fixture, GDK_KEY_Right, GDK_ALT_MASK);
  g_assert_cmpuint (table_of (fixture)->items[1].panel_id, ==, first);
  press (fixture, GDK_KEY_Left, GDK_ALT_MASK);
  g_assert_cmpuint (table_of (fixture)->items[0].panel_id, ==, first);
  g_assert_cmpuint (odd_selection_get_id (fixture->selection), ==, first);
}

static void
test_walk (Fixture *fixture, gconstpointer data)
{
  g_test_summary ("Arrows go from patch to patch, S to a seam of it, P to its panel; the screen reader is told");
  g_assert_true (press (fixture, GDK_KEY_Down, 0));
  g_assert_cmpint (odd_selection_get_kind (fixture->selection), ==, ODD_SELECTED_PATCH);
  press (fixture, GDK_KEY_Right, 0);
  g_assert_cmpuint (odd_selection_get_id (fixture->selection), ==, table_of (fixture)->items[0].layout->patches[1].leaf->id);
  press (fixture, GDK_KEY_s, 0);
  g_assert_cmpint (odd_selection_get_kind (fixture->selection), ==, ODD_SELECTED_SEAM);
  press (fixture, GDK_KEY_p, 0);
  g_assert_cmpint (odd_selection_get_kind (fixture->selection), ==, ODD_SELECTED_PANEL);
  gtk_test_accessible_assert_property (GTK_ACCESSIBLE (fixture->canvas), GTK_ACCESSIBLE_PROPERTY_LABEL, "Panel 1, 28.38 × 37.84 cm");
  press (fixture, GDK_KEY_Escape, 0);
  g_assert_cmpint (odd_selection_get_kind (fixture->selection), ==, ODD_SELECTED_NOTHING);
  gtk_test_accessible_assert_property (GTK_ACCESSIBLE (fixture->canvas), GTK_ACCESSIBLE_PROPERTY_LABEL, "Sewing table");
}

static void
test_joined (Fixture *fixture, gconstpointer data)
{
  g_test_summary ("Every way to show and both arrangements can be drawn");
  for (int show = ODD_SHOW_PATCHES; show <= ODD_SHOW_WRONG_SIDE; show++)
    {
      g_object_set (fixture->canvas, "show", show, "joined", show % 2 == 1, NULL);
      settle ();
      g_assert_cmpuint (table_of (fixture)->n_items, ==, 2);
    }
}

#define ADD(path, func) g_test_add ("/ui/canvas/" path, Fixture, NULL, set_up, func, tear_down)

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  adw_init ();
  ADD ("take-sew-undo", test_take_sew_undo);
  ADD ("places", test_places);
  ADD ("openings", test_openings);
  ADD ("hold", test_hold);
  ADD ("target-undone", test_target_undone);
  ADD ("bare", test_bare);
  ADD ("fill-bare", test_fill_bare);
  ADD ("move-panel", test_move_panel);
  ADD ("walk", test_walk);
  ADD ("joined", test_joined);
  return g_test_run ();
}
