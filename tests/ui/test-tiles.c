/* The tile cache with a painter of our own: who paints, what is kept, what is dropped. */
#include "ui/tiles.h"
#include "ui/viewport.h"

typedef struct
{
  double red;                    /* what the sheet is filled with, 0..1 */
  gint *n_painted, *n_in_main;
  GMutex *gate;                  /* or NULL: painters wait for it */
} Content;

static GThread *main_thread;

static gpointer
ref_content (gpointer content)
{
  return g_atomic_rc_box_acquire (content);
}

static void
unref_content (gpointer content)
{
  g_atomic_rc_box_release (content);
}

static void
paint_content (cairo_t *cr, gpointer data, double px_per_mm, int scale_factor, OddBox clip_mm)
{
  Content *content = data;

  if (content->gate != NULL)
    {
      g_mutex_lock (content->gate);
      g_mutex_unlock (content->gate);
    }
  g_atomic_int_inc (content->n_painted);
  if (g_thread_self () == main_thread)
    g_atomic_int_inc (content->n_in_main);
  cairo_set_source_rgb (cr, content->red, 0, 1);
  cairo_paint (cr);
}

static const OddTileContent functions = { paint_content, ref_content, unref_content };

typedef struct
{
  OddTiles *tiles;
  gint n_painted, n_in_main;
  guint n_ready;
} Fixture;

static void
ready_cb (OddTiles *tiles, Fixture *fixture)
{
  fixture->n_ready++;
}

static void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture->tiles = odd_tiles_new (&functions, 2);
  g_signal_connect (fixture->tiles, "ready", G_CALLBACK (ready_cb), fixture);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  g_assert_finalize_object (fixture->tiles);
}

static Content *
new_content (Fixture *fixture, double red)
{
  Content *content = g_atomic_rc_box_new0 (Content);

  content->red = red;
  content->n_painted = &fixture->n_painted;
  content->n_in_main = &fixture->n_in_main;
  return content;
}

static void
set_sheet (Fixture *fixture, guint id, double red, OddBox box, const OddBox *damage, guint n_damage)
{
  Content *content = new_content (fixture, red);

  odd_tiles_set_sheet (fixture->tiles, id, content, box, damage, n_damage);
  unref_content (content);
}

/* One frame of 800 x 600 px. The node is what would be shown. */
static GskRenderNode *
frame (Fixture *fixture, OddPoint at, double zoom, double level, gboolean *out_complete)
{
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  const gboolean complete = odd_tiles_snapshot (fixture->tiles, snapshot, 1, at, zoom, level, 1, (OddBox) { 0, 0, 800, 600 });

  odd_tiles_end_frame (fixture->tiles);
  if (out_complete != NULL)
    *out_complete = complete;
  return gtk_snapshot_free_to_node (snapshot);
}

static void
show (Fixture *fixture, OddPoint at, double zoom, double level)
{
  GskRenderNode *node = frame (fixture, at, zoom, level, NULL);

  g_clear_pointer (&node, gsk_render_node_unref);
}

static void
settle (Fixture *fixture)
{
  while (odd_tiles_get_n_pending (fixture->tiles) > 0)
    g_main_context_iteration (NULL, TRUE);
}

/* What the node shows, drawn by cairo on white. */
static cairo_surface_t *
draw (GskRenderNode *node)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 800, 600);
  cairo_t *cr = cairo_create (surface);

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  if (node != NULL)
    gsk_render_node_draw (node, cr);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static guint32
pixel_at (cairo_surface_t *surface, int x, int y)
{
  const guchar *row = cairo_image_surface_get_data (surface) + y * cairo_image_surface_get_stride (surface);

  return ((const guint32 *) (const void *) row)[x] & 0xffffff;
}

/* 0xRRGGBB; white where nothing lies. */
static guint32
colour_at (GskRenderNode *node, int x, int y)
{
  cairo_surface_t *surface = draw (node);
  const guint32 pixel = pixel_at (surface, x, y);

  cairo_surface_destroy (surface);
  return pixel;
}

static void
assert_all (GskRenderNode *node, int from, int to, int step, guint32 colour)
{
  cairo_surface_t *surface = draw (node);

  for (int y = from; y < to; y += step)
    for (int x = from; x < to; x += step)
      g_assert_cmphex (pixel_at (surface, x, y), ==, colour);
  cairo_surface_destroy (surface);
}

static const OddBox big = { 0, 0, 1000, 1000 };

static void
test_never_in_a_frame (Fixture *fixture, gconstpointer data)
{
  gboolean complete = TRUE;
  GskRenderNode *node;

  g_test_summary ("A frame lays down what there is; only workers paint");
  set_sheet (fixture, 1, 1, big, NULL, 0);
  node = frame (fixture, odd_point (0, 0), 0.5, 0.5, &complete);
  g_assert_false (complete);
  g_assert_cmphex (colour_at (node, 100, 100), ==, 0xffffff);
  g_clear_pointer (&node, gsk_render_node_unref);
  settle (fixture);
  g_assert_cmpuint (fixture->n_ready, >, 0);
  node = frame (fixture, odd_point (0, 0), 0.5, 0.5, &complete);
  g_assert_true (complete);
  g_assert_cmphex (colour_at (node, 100, 100), ==, 0xff00ff);
  g_assert_cmpint (fixture->n_painted, >=, 4);
  g_assert_cmpint (fixture->n_in_main, ==, 0);
  g_clear_pointer (&node, gsk_render_node_unref);
}

static void
test_once_each (Fixture *fixture, gconstpointer data)
{
  int before;

  g_test_summary ("The same view again paints nothing");
  set_sheet (fixture, 1, 1, big, NULL, 0);
  for (guint i = 0; i < 3; i++)            /* tiles, then the ring round them, then nothing */
    {
      show (fixture, odd_point (0, 0), 0.5, 0.5);
      settle (fixture);
    }
  before = fixture->n_painted;
  show (fixture, odd_point (3, 4), 0.5, 0.5);
  settle (fixture);
  g_assert_cmpint (fixture->n_painted, ==, before);
}

static void
test_damage (Fixture *fixture, gconstpointer data)
{
  const OddBox damage = { 10, 10, 20, 20 };
  GskRenderNode *node;
  gboolean complete = TRUE;
  int before;

  g_test_summary ("Only tiles that meet the damage are painted again, and the old ones stay until then");
  set_sheet (fixture, 1, 1, big, NULL, 0);
  for (guint i = 0; i < 3; i++)
    {
      show (fixture, odd_point (0, 0), 0.5, 0.5);
      settle (fixture);
    }
  before = fixture->n_painted;
  set_sheet (fixture, 1, 0, big, &damage, 1);
  node = frame (fixture, odd_point (0, 0), 0.5, 0.5, &complete);
  g_assert_false (complete);
  g_assert_cmphex (colour_at (node, 30, 30), ==, 0xff00ff);       /* no flash */
  g_clear_pointer (&node, gsk_render_node_unref);
  settle (fixture);
  g_assert_cmpint (fixture->n_painted, ==, before + 2);             /* one tile and the overview */
  node = frame (fixture, odd_point (0, 0), 0.5, 0.5, &complete);
  g_assert_true (complete);
  g_assert_cmphex (colour_at (node, 30, 30), ==, 0x0000ff);
  g_assert_cmphex (colour_at (node, 400, 400), ==, 0xff00ff);
  g_clear_pointer (&node, gsk_render_node_unref);
}

static void
test_stale_results_dropped (Fixture *fixture, gconstpointer data)
{
  GMutex gate;
  Content *old = new_content (fixture, 1);
  GskRenderNode *node;

  g_test_summary ("What workers bring of an earlier content never reaches the screen");
  g_mutex_init (&gate);
  g_mutex_lock (&gate);
  old->gate = &gate;
  odd_tiles_set_sheet (fixture->tiles, 1, old, big, NULL, 0);
  unref_content (old);
  show (fixture, odd_point (0, 0), 0.5, 0.5);
  set_sheet (fixture, 1, 0, big, NULL, 0);
  show (fixture, odd_point (0, 0), 0.5, 0.5);
  g_mutex_unlock (&gate);
  settle (fixture);
  node = frame (fixture, odd_point (0, 0), 0.5, 0.5, NULL);
  assert_all (node, 20, 500, 60, 0x0000ff);
  g_assert_cmpuint (odd_tiles_get_n_dropped (fixture->tiles), >, 0);
  g_clear_pointer (&node, gsk_render_node_unref);
  settle (fixture);
  g_mutex_clear (&gate);
}

static void
test_unwanted_cancelled (Fixture *fixture, gconstpointer data)
{
  g_test_summary ("A view that is left before it was painted is taken from the list");
  set_sheet (fixture, 1, 1, (OddBox) { 0, 0, 10000, 10000 }, NULL, 0);
  for (int i = 0; i < 20; i++)
    show (fixture, odd_point (-i * 900, 0), 2, 2);
  g_assert_cmpuint (odd_tiles_get_n_pending (fixture->tiles), <=, 20);
  settle (fixture);
}

static void
test_limit (Fixture *fixture, gconstpointer data)
{
  const gsize limit = 8 * 1024 * 1024;

  g_test_summary ("The least recently used go when the limit is reached; one frame is always kept");
  odd_tiles_set_limit (fixture->tiles, limit);
  set_sheet (fixture, 1, 1, big, NULL, 0);
  for (double zoom = 0.6; zoom < 4; zoom *= 1.23)
    {
      gboolean complete = FALSE;

      for (guint i = 0; i < 2; i++)
        {
          show (fixture, odd_point (-50, -50), zoom, zoom);
          settle (fixture);
        }
      g_clear_pointer (&(GskRenderNode *) { frame (fixture, odd_point (-50, -50), zoom, zoom, &complete) }, gsk_render_node_unref);
      g_assert_true (complete);
      settle (fixture);
      g_assert_cmpuint (odd_tiles_get_bytes (fixture->tiles), <=, limit + 2 * ODD_TILE_PX * ODD_TILE_PX * 4 * 8);
    }
  odd_tiles_set_limit (fixture->tiles, 1);
  show (fixture, odd_point (-50, -50), 3, 3);
  settle (fixture);
  show (fixture, odd_point (-50, -50), 3, 3);
  g_assert_cmpuint (odd_tiles_get_n_tiles (fixture->tiles), <, 60);
  settle (fixture);
}

static void
test_substitute (Fixture *fixture, gconstpointer data)
{
  GskRenderNode *node;
  gboolean complete = TRUE;

  g_test_summary ("At a new zoom the old cloth lies there, scaled, until the new is painted");
  set_sheet (fixture, 1, 1, big, NULL, 0);
  show (fixture, odd_point (0, 0), 0.5, 0.5);
  settle (fixture);
  show (fixture, odd_point (0, 0), 0.5, 0.5);
  settle (fixture);
  node = frame (fixture, odd_point (0, 0), 0.55, 0.55, &complete);
  g_assert_false (complete);
  assert_all (node, 5, 540, 31, 0xff00ff);
  g_clear_pointer (&node, gsk_render_node_unref);
  settle (fixture);
}

static void
test_no_gap_between_tiles (Fixture *fixture, gconstpointer data)
{
  g_test_summary ("No hairline of the table shows between tiles, at odd places and scaled");
  set_sheet (fixture, 1, 1, big, NULL, 0);
  for (guint i = 0; i < 6; i++)
    {
      const double zoom = 0.53 + i * 0.061, level = i % 2 ? zoom : odd_zoom_half_octave (zoom);
      const OddPoint at = odd_point (3.3 + i * 0.17, 1.51 + i * 0.31);
      GskRenderNode *node;

      show (fixture, at, zoom, level);
      settle (fixture);
      node = frame (fixture, at, zoom, level, NULL);
      assert_all (node, 10, 500, 1, 0xff00ff);
      g_clear_pointer (&node, gsk_render_node_unref);
      settle (fixture);
    }
}

static void
test_removed (Fixture *fixture, gconstpointer data)
{
  set_sheet (fixture, 1, 1, big, NULL, 0);
  show (fixture, odd_point (0, 0), 0.5, 0.5);
  odd_tiles_remove_sheet (fixture->tiles, 1);
  settle (fixture);
  while (g_main_context_iteration (NULL, FALSE))
    ;
  g_assert_cmpuint (odd_tiles_get_n_tiles (fixture->tiles), ==, 0);
  g_assert_cmpuint (odd_tiles_get_bytes (fixture->tiles), ==, 0);
  g_assert_null (odd_tiles_get_content (fixture->tiles, 1));
}

#define ADD(path, func) g_test_add ("/ui/tiles/" path, Fixture, NULL, set_up, func, tear_down)

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  main_thread = g_thread_self ();
  ADD ("never-in-a-frame", test_never_in_a_frame);
  ADD ("once-each", test_once_each);
  ADD ("damage", test_damage);
  ADD ("stale-results-dropped", test_stale_results_dropped);
  ADD ("unwanted-cancelled", test_unwanted_cancelled);
  ADD ("limit", test_limit);
  ADD ("substitute", test_substitute);
  ADD ("no-gap-between-tiles", test_no_gap_between_tiles);
  ADD ("removed", test_removed);
  return g_test_run ();
}
