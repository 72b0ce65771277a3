/* Processor time a frame of the canvas while the table moves under the hand and while a scrap is dragged over it, 100 patches beside 5,000;
 * a window of 1280 x 800. All threads of the program are counted, so cloth drawn by workers in the meantime is too. */
#include "config.h"

#include "table-job.h"
#include "ui/canvas-input.h"
#include "ui/canvas.h"

#include <adwaita.h>
#include <stdio.h>
#include <time.h>

#define N_FRAMES 60

typedef struct
{
  GtkWidget *window, *canvas;
  OddDocument *document;
  OddId first_free;
} Bench;

static double
cpu_ms (void)
{
  struct timespec now;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &now);
  return now.tv_sec * 1e3 + now.tv_nsec / 1e6;
}

/* Milliseconds for a fixed amount of arithmetic: the measure of this computer in this run. */
static double
calibrate (void)
{
  const double start = cpu_ms ();
  volatile double sum = 0.0;

  for (guint i = 1; i <= 10000000; i++)
    sum += sqrt (i) / (i + 1.0);
  return cpu_ms () - start;
}

static void
after_paint_cb (GdkFrameClock *clock, gboolean *painted)
{
  *painted = TRUE;
}

static void
one_frame (Bench *bench)
{
  GdkFrameClock *clock = gtk_widget_get_frame_clock (bench->canvas);
  gboolean painted = FALSE;
  const gulong handler = g_signal_connect (clock, "after-paint", G_CALLBACK (after_paint_cb), &painted);

  gtk_widget_queue_draw (bench->canvas);
  while (!painted)
    g_main_context_iteration (NULL, TRUE);
  g_signal_handler_disconnect (clock, handler);
}

static void
rest (Bench *bench, guint ms)
{
  const gint64 until = g_get_monotonic_time () + ms * 1000;

  while (g_get_monotonic_time () < until)
    {
      one_frame (bench);
      g_usleep (10000);
    }
}

static Bench
open_window (guint panels, guint columns, guint rows)
{
  Bench bench = { 0 };
  OddJob *job = table_job_new_sewn (panels, columns, rows, 4, &bench.first_free);

  bench.document = odd_document_new (job);
  odd_job_unref (job);
  bench.canvas = odd_canvas_new ();
  g_object_set (bench.canvas, "document", bench.document, NULL);
  bench.window = gtk_window_new ();
  gtk_window_set_decorated (GTK_WINDOW (bench.window), FALSE);
  gtk_window_set_default_size (GTK_WINDOW (bench.window), 1280, 800);
  gtk_window_set_child (GTK_WINDOW (bench.window), bench.canvas);
  gtk_window_present (GTK_WINDOW (bench.window));
  rest (&bench, 3000);
  return bench;
}

static void
close_window (Bench *bench)
{
  gtk_window_destroy (GTK_WINDOW (bench->window));
  g_object_unref (bench->document);
}

static double
measure_pan (Bench *bench)
{
  const double start = cpu_ms ();

  for (guint i = 0; i < N_FRAMES; i++)
    {
      odd_canvas_pan_by (ODD_CANVAS (bench->canvas), i < N_FRAMES / 2 ? -6.6 : 6.6, i % 2 ? 3.3 : -3.3);
      one_frame (bench);
    }
  return (cpu_ms () - start) / N_FRAMES;
}

static double
measure_zoom (Bench *bench)
{
  const double start = cpu_ms ();

  for (guint i = 0; i < N_FRAMES; i++)
    {
      odd_canvas_zoom_by (ODD_CANVAS (bench->canvas), i < N_FRAMES / 2 ? 1.03 : 1 / 1.03);
      one_frame (bench);
    }
  return (cpu_ms () - start) / N_FRAMES;
}

/* Along the lower edge of the first panel, so that places are worked out and drawn for every frame. */
static double
measure_drag (Bench *bench)
{
  OddScene *scene = odd_canvas_get_scene (ODD_CANVAS (bench->canvas));
  OddHandTool *hand = odd_canvas_get_hand_tool (ODD_CANVAS (bench->canvas));
  const OddBox box = odd_table_get_raw_px (scene->table, scene->viewport, 0);
  double start, taken;

  odd_hand_tool_hold (hand, bench->first_free, odd_point (box.x + box.width / 2, box.y + box.height + 20), FALSE, TRUE);
  odd_canvas_queue_update (ODD_CANVAS (bench->canvas));
  rest (bench, 300);
  start = cpu_ms ();
  for (guint i = 0; i < N_FRAMES; i++)
    {
      odd_hand_tool_hold (hand, bench->first_free, odd_point (box.x + box.width / 2 + 0.5 * i, box.y + box.height + 20 + (i % 7)), FALSE, TRUE);
      odd_canvas_queue_update (ODD_CANVAS (bench->canvas));
      one_frame (bench);
    }
  taken = (cpu_ms () - start) / N_FRAMES;
  odd_hand_tool_put_back (hand);
  return taken;
}

int
main (int argc, char **argv)
{
  const struct { guint panels, columns, rows; } sizes[] = { { 4, 3, 10 }, { 8, 11, 65 } };
  double idle;

  gtk_init ();
  adw_init ();
  printf ("calibration %.1f ms, renderer %s; CPU ms a frame, 1280 x 800\n", calibrate (), g_getenv ("GSK_RENDERER") != NULL ? g_getenv ("GSK_RENDERER") : "default");
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      Bench bench = open_window (sizes[i].panels, sizes[i].columns, sizes[i].rows);
      const OddTextile *textile = g_ptr_array_index (odd_document_get_job (bench.document)->textiles, 0);
      guint n = 0;
      double pan;

      for (guint k = 0; k < textile->n_hung; k++)
        n += textile->hung[k].panel->root->n_leaves;
      idle = cpu_ms ();
      for (guint k = 0; k < N_FRAMES; k++)
        one_frame (&bench);
      idle = (cpu_ms () - idle) / N_FRAMES;
      pan = measure_pan (&bench);
      rest (&bench, 500);
      printf ("%5u patches: still %5.1f, pan %5.1f, drag %5.1f, zoom %5.1f\n", n, idle, pan, measure_drag (&bench), measure_zoom (&bench));
      fflush (stdout);
      close_window (&bench);
    }
  return 0;
}
