/* Pieced scraps in the window: the line of a cut, the panes, a loose piece begun by key. */
#include "../cloth/pieces.h"
#include "ui/canvas.h"
#include "ui/detail-pane.h"
#include "ui/openings.h"
#include "ui/panel-pane.h"
#include "ui/piece-cut-dialog.h"
#include "ui/piece-rows.h"
#include "ui/scrap-row.h"
#include "widgets.h"

static void
settle (guint ms)
{
  const gint64 end = g_get_monotonic_time () + ms * 1000;

  while (g_get_monotonic_time () < end)
    {
      g_main_context_iteration (NULL, FALSE);
      g_usleep (2000);
    }
}

/* By hand: a box of 200 x 100 mm at 10, 20. */
static void
test_line (void)
{
  const OddBox box = { 10, 20, 200, 100 };
  OddCutLine line = { FALSE, 30.0, 0.0 };
  OddHalfPlane plane = odd_cut_line_to_half_plane (&line, box);

  g_assert_cmpfloat_with_epsilon (plane.normal.y, 1.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (plane.offset_mm, 50.0, 1e-12);
  line = (OddCutLine) { TRUE, 30.0, 0.0 };
  plane = odd_cut_line_to_half_plane (&line, box);
  g_assert_cmpfloat_with_epsilon (plane.normal.x, 1.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (plane.offset_mm, 40.0, 1e-12);
  /* falls to the right by 45 degrees, through the middle of the box */
  g_assert_true (odd_cut_line_through (&line, box, odd_point (100, 61), odd_point (110, 70.9)));
  g_assert_false (line.upright);
  g_assert_false (odd_cut_line_through (&line, box, odd_point (5, 5), odd_point (5, 5)));
}

/* A line through two points goes through them, whichever way it is told. */
static void
test_line_law (void)
{
  g_autoptr(GRand) random = g_rand_new_with_seed (7);
  const OddBox box = { -12.7, -12.7, 325.4, 225.4 };

  for (guint i = 0; i < 500; i++)
    {
      const OddPoint a = { g_rand_double_range (random, -10, 300), g_rand_double_range (random, -10, 200) };
      const OddPoint b = { g_rand_double_range (random, -10, 300), g_rand_double_range (random, -10, 200) };
      OddCutLine line = { 0 };
      OddHalfPlane plane;

      g_assert_true (odd_cut_line_through (&line, box, a, b));
      g_assert_cmpfloat (fabs (line.tilt_deg), <=, 45.0 + 1e-9);
      plane = odd_cut_line_to_half_plane (&line, box);
      g_assert_cmpfloat_with_epsilon (odd_half_plane_distance (plane, a), 0.0, 1e-6);
      g_assert_cmpfloat_with_epsilon (odd_half_plane_distance (plane, b), 0.0, 1e-6);
    }
}

typedef struct { OddDocument *document; OddSelection *selection; OddDetailPane *pane; } Fixture;

static void
set_up (Fixture *self, gconstpointer data)
{
  OddId panel_id = 0;
  g_autoptr(OddJob) job = piece_job (2, 2, &panel_id);

  self->document = odd_document_new (job);
  self->selection = odd_selection_new (self->document);
  self->pane = g_object_ref_sink (g_object_new (ODD_TYPE_DETAIL_PANE, "document", self->document, "selection", self->selection,
                                                "textile-id", first_textile (job)->id, "stage", "piecing", NULL));
  odd_selection_set (self->selection, ODD_SELECTED_PANEL, panel_id);
}

static void
tear_down (Fixture *self, gconstpointer data)
{
  settle (300);
  g_assert_finalize_object (self->pane);
  g_assert_finalize_object (self->selection);
  g_assert_finalize_object (self->document);
}

static void
test_panes (Fixture *self, gconstpointer data)
{
  OddJob *job = odd_document_get_job (self->document);
  GtkWidget *button = find_button (GTK_WIDGET (self->pane), "Put among the _scraps");
  OddId scrap_id, ids[2];

  g_assert_nonnull (button);
  g_assert_true (gtk_widget_activate_action (find_type (GTK_WIDGET (self->pane), ODD_TYPE_PANEL_PANE), "panel.to-scraps", NULL));
  job = odd_document_get_job (self->document);
  g_assert_cmpuint (job->loose_panels->len, ==, 0);
  g_assert_cmpint (odd_selection_get_kind (self->selection), ==, ODD_SELECTED_SCRAP);
  scrap_id = odd_selection_get_id (self->selection);
  g_assert_true (holds_text (GTK_WIDGET (self->pane), "Piece 5"));
  g_assert_true (holds_text (GTK_WIDGET (self->pane), "Scrap 4"));
  g_assert_false (holds_text (GTK_WIDGET (self->pane), "Ends to secure"));

  odd_document_apply (self->document, odd_job_cut_piece (job, scrap_id, (OddHalfPlane) { { 0, 1 }, 150 }, ids, NULL), "cut");
  odd_selection_set (self->selection, ODD_SELECTED_SCRAP, ids[1]);
  g_assert_true (holds_text (GTK_WIDGET (self->pane), "Ends to secure"));
  g_assert_true (holds_text (GTK_WIDGET (self->pane), "Between patches 1 and 2"));
  g_signal_emit_by_name (find_button (GTK_WIDGET (self->pane), "Back-stitch"), "clicked");
  g_assert_false (holds_text (GTK_WIDGET (self->pane), "Ends to secure"));
  g_assert_true (odd_document_undo (self->document));
  g_assert_true (holds_text (GTK_WIDGET (self->pane), "Ends to secure"));
}

static void
test_back (Fixture *self, gconstpointer data)
{
  GtkWidget *rows;

  g_assert_true (gtk_widget_activate_action (find_type (GTK_WIDGET (self->pane), ODD_TYPE_PANEL_PANE), "panel.to-scraps", NULL));
  rows = find_type (GTK_WIDGET (self->pane), ODD_TYPE_PIECE_ROWS);
  g_signal_emit_by_name (find_button (rows, "Make it a _panel again"), "clicked");
  g_assert_cmpuint (odd_document_get_job (self->document)->loose_panels->len, ==, 1);
  g_assert_cmpint (odd_selection_get_kind (self->selection), ==, ODD_SELECTED_PANEL);
}

static void
test_row (void)
{
  OddId scrap_id = 0;
  g_autoptr(OddJob) job = piece_scrap_job (2, 2, &scrap_id);
  OddScrap *scrap = odd_job_get_scrap (job, scrap_id);
  g_autoptr(OddScrapRow) row = odd_scrap_row_new (job, scrap, ODD_SCRAP_FREE);
  OddFabric values = *(OddFabric *) job->fabrics->pdata[0];

  g_assert_cmpstr (odd_scrap_row_get_cloth (row), ==, "pieced, 2 fabrics");
  g_assert_true (odd_scrap_row_matches (row, "PIECED"));
  g_assert_true (odd_scrap_row_is_true (row, job, scrap, ODD_SCRAP_FREE));
  values.print.colours[0] = 0x00ff00;
  take (&job, odd_job_put_fabric (job, &values, NULL, NULL));
  g_assert_false (odd_scrap_row_is_true (row, job, odd_job_get_scrap (job, scrap_id), ODD_SCRAP_FREE));
}

/* A loose piece has no place on the table: no pointer finds it, the keyboard does. */
static void
test_opening (void)
{
  OddId panel_id = 0;
  g_autoptr(OddJob) job = piece_job (2, 2, &panel_id);
  const OddId textile_id = first_textile (job)->id;
  g_autoptr(OddTable) table = odd_table_new (job, textile_id, FALSE, FALSE);
  g_autoptr(GArray) openings = odd_openings_new (table);
  g_autoptr(OddViewport) viewport = odd_viewport_new ();
  const OddTarget loose = { .kind = ODD_TARGET_NEW_PANEL };
  const int at = odd_openings_find (openings, &loose);

  g_assert_cmpint (at, ==, (int) openings->len - 2);
  odd_viewport_set_size (viewport, 800, 600);
  for (guint i = 0; i < 100; i++)
    g_assert_cmpint (odd_openings_nearest (openings, table, viewport, odd_point (8 * i, 6 * i), 1e6, -1), !=, at);
}

int
main (int argc, char *argv[])
{
  gtk_test_init (&argc, &argv, NULL);
  adw_init ();
  g_test_add_func ("/pieces/line", test_line);
  g_test_add_func ("/pieces/line-law", test_line_law);
  g_test_add ("/pieces/panes", Fixture, NULL, set_up, test_panes, tear_down);
  g_test_add ("/pieces/back", Fixture, NULL, set_up, test_back, tear_down);
  g_test_add_func ("/pieces/row", test_row);
  g_test_add_func ("/pieces/opening", test_opening);
  return g_test_run ();
}
