/* Layers over the cloth: what still wants work is told and drawn, crossings are counted in a worker and drawn. */
#include "table-job.h"
#include "ui/canvas.h"

#include <adwaita.h>

typedef struct
{
  GtkWidget *window, *canvas;
  OddDocument *document;
} Fixture;

static void
settle (void)
{
  for (guint i = 0; i < 120; i++)
    {
      while (g_main_context_iteration (NULL, FALSE))
        ;
      g_usleep (1000);
    }
}

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  OddId first_free;
  g_autoptr(OddJob) job = table_job_new (2, 3, 4, 6, &first_free);
  g_autoptr(OddJob) sewn = odd_job_mark_next (job, ((OddTextile *) job->textiles->pdata[0])->hung[0].panel->root->seams[0].id, TRUE, NULL);

  g_assert_nonnull (sewn);
  fixture->document = odd_document_new (sewn);
  fixture->canvas = odd_canvas_new ();
  g_object_set (fixture->canvas, "document", fixture->document, NULL);
  fixture->window = gtk_window_new ();
  gtk_window_set_default_size (GTK_WINDOW (fixture->window), 800, 600);
  gtk_window_set_child (GTK_WINDOW (fixture->window), fixture->canvas);
  gtk_window_present (GTK_WINDOW (fixture->window));
  settle ();
}

static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  g_object_ref (fixture->canvas);
  gtk_window_destroy (GTK_WINDOW (fixture->window));
  settle ();
  g_assert_finalize_object (fixture->canvas);
  g_assert_finalize_object (fixture->document);
}

/* How many nodes a frame is made of. */
static guint
count_nodes (GskRenderNode *node)
{
  guint n = 1;

  if (gsk_render_node_get_node_type (node) == GSK_CONTAINER_NODE)
    for (guint i = 0; i < gsk_container_node_get_n_children (node); i++)
      n += count_nodes (gsk_container_node_get_child (node, i));
  else if (gsk_render_node_get_node_type (node) == GSK_CLIP_NODE)
    n += count_nodes (gsk_clip_node_get_child (node));
  return n;
}

static guint
count_frame (Fixture *fixture)
{
  g_autoptr(GdkPaintable) paintable = gtk_widget_paintable_new (fixture->canvas);
  g_autoptr(GtkSnapshot) snapshot = gtk_snapshot_new ();
  g_autoptr(GskRenderNode) node = NULL;

  gdk_paintable_snapshot (paintable, snapshot, 800, 600);
  node = gtk_snapshot_to_node (snapshot);
  return node != NULL ? count_nodes (node) : 0;
}

/* When tiles and crossings have come: nothing changes any more. */
static guint
count_drawn (Fixture *fixture)
{
  guint before = 0, now;

  for (guint i = 0; i < 40; i++)
    {
      settle ();
      now = count_frame (fixture);
      if (now != 0 && now == before)
        return now;
      before = now;
    }
  g_assert_not_reached ();
}

static void
test_unfinished (Fixture       *fixture,
                 gconstpointer  data)
{
  g_auto(OddUnfinished) unfinished = { 0 };
  g_autofree char *text = NULL, *wrong = NULL;
  guint with;

  odd_unfinished_init (&unfinished, odd_document_get_job (fixture->document), ODD_UNFINISHED_ALL);
  g_assert_cmpuint (unfinished.seams->len, ==, 1);
  text = odd_unfinished_dup_text (&unfinished, ODD_UNIT_CM);
  odd_canvas_set_unfinished (ODD_CANVAS (fixture->canvas), ODD_UNFINISHED_ALL);
  wrong = gtk_test_accessible_check_property (GTK_ACCESSIBLE (fixture->canvas), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, text);
  g_assert_cmpstr (wrong, ==, NULL);
  with = count_drawn (fixture);
  odd_canvas_set_unfinished (ODD_CANVAS (fixture->canvas), ODD_UNFINISHED_NOTHING);
  g_assert_cmpint (odd_canvas_get_unfinished (ODD_CANVAS (fixture->canvas)), ==, ODD_UNFINISHED_NOTHING);
  g_assert_cmpuint (count_drawn (fixture), <, with);
}

static void
test_bulk (Fixture       *fixture,
           gconstpointer  data)
{
  guint with;

  odd_canvas_set_bulk (ODD_CANVAS (fixture->canvas), TRUE);
  with = count_drawn (fixture);
  odd_canvas_set_bulk (ODD_CANVAS (fixture->canvas), FALSE);
  g_assert_false (odd_canvas_get_bulk (ODD_CANVAS (fixture->canvas)));
  g_assert_cmpuint (count_drawn (fixture), <, with);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();

  g_test_add ("/canvas-layers/unfinished", Fixture, NULL, set_up, test_unfinished, tear_down);
  g_test_add ("/canvas-layers/bulk", Fixture, NULL, set_up, test_bulk, tear_down);

  return g_test_run ();
}
