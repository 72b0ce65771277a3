/* The usual work ticket of a textile of 500 patches, each on a scrap of its own: laying it out, drawing it into a PDF, and how large that is. Goals: 2 s
 * and 5 MB; beside a calibration loop of the same run. */
#include "config.h"

#include <glib/gstdio.h>
#include <stdio.h>
#include <time.h>

#include "../cloth/trees.h"
#include "heap.h"
#include "paper/ticket.h"

#define N_PANELS 4
#define COLUMNS 5
#define ROWS 25
#define SIDE_MM 80.0

/* Processor time, so that what else runs does not count. */
static gint64
now_us (void)
{
  struct timespec time;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &time);
  return time.tv_sec * G_USEC_PER_SEC + time.tv_nsec / 1000;
}

static double
calibrate_ms (void)
{
  const gint64 start = now_us ();
  volatile double sum = 0.0;

  for (guint i = 1; i < 20 * 1000 * 1000; i++)
    sum += 1.0 / i;
  return (now_us () - start) / 1000.0;
}

static OddId
add_fabric (OddJob **job, guint i)
{
  OddFabric values;
  OddId id;
  g_autofree char *name = g_strdup_printf ("Fabric %u", i + 1);

  odd_fabric_init_values (&values);
  values.name = name;
  values.lightness = 15.0 + 6.0 * i;
  take (job, odd_job_put_fabric (*job, &values, &id, NULL));
  return id;
}

static OddId
add_scrap (OddJob **job, GRand *rand, OddId fabric_id, OddPoint *out_middle)
{
  g_autoptr(OddPolygon) outline = heap_ragged_polygon (rand, 12, 190.0);
  const OddBox box = odd_polygon_get_box (outline);
  OddScrap values;
  OddId id;

  odd_scrap_init_values (&values);
  values.outline = outline;
  values.fabric_id = fabric_id;
  values.place = (char *) "Blue tub";
  *out_middle = odd_point (box.x + box.width / 2, box.y + box.height / 2);
  take (job, odd_job_put_scrap (*job, &values, &id, NULL));
  return id;
}

static void
fill_panel (OddJob **job, OddId panel_id, GRand *rand, const OddId *fabrics, guint n_fabrics)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (*job, panel_id);

  for (guint i = 0; i < layout->n_patches; i++)
    {
      const OddPoint centre = odd_convex_centroid (layout->patches[i].region);
      OddPoint middle;
      const OddId scrap_id = add_scrap (job, rand, fabrics[i % n_fabrics], &middle);
      const OddPlacement placement = { 0.0, FALSE, odd_point_sub (centre, middle) };

      take (job, odd_job_place_scrap (*job, layout->patches[i].leaf->id, scrap_id, &placement, NULL));
    }
}

static OddJob *
make_job (void)
{
  GRand *rand = g_rand_new_with_seed (1);
  OddJob *job = odd_job_new ();
  OddId fabrics[12];

  for (guint i = 0; i < G_N_ELEMENTS (fabrics); i++)
    fabrics[i] = add_fabric (&job, i);
  for (guint i = 0; i < N_PANELS; i++)
    {
      OddId panel_id;

      take (&job, add_squares (job, first_textile (job)->id, COLUMNS, ROWS, SIDE_MM, &panel_id));
      fill_panel (&job, panel_id, rand, fabrics, G_N_ELEMENTS (fabrics));
    }
  g_rand_free (rand);
  return job;
}

int
main (void)
{
  g_autoptr(OddJob) job = make_job ();
  g_autofree char *path = g_build_filename (g_get_tmp_dir (), "oddment-bench-ticket.pdf", NULL);
  const gint64 start = now_us ();
  g_autoptr(OddTicket) ticket = odd_ticket_new (job, "Bench", ODD_PAPER_A4, ODD_UNIT_CM, NULL);
  const double laid_ms = (now_us () - start) / 1000.0;
  GStatBuf file;

  g_assert_true (odd_ticket_write_pdf (ticket, path, NULL));
  g_stat (path, &file);
  printf ("ticket %u patches: %u pages, lay out %.0f ms, in all %.0f ms, %.2f MB (calibration %.0f ms)\n", N_PANELS * COLUMNS * ROWS, odd_ticket_get_n_pages (ticket),
          laid_ms, (now_us () - start) / 1000.0, file.st_size / 1e6, calibrate_ms ());
  g_unlink (path);
  return 0;
}
