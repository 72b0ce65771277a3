/* Cuts patches out of ragged scraps with flaws and prints what there was, what was left and what came back, one JSON object a line, for
 * check-cutting.py to work out again. Usage: emit-cutting SEED CASES */
#include "config.h"

#include "cloth/offcuts.h"
#include "cloth/zones.h"
#include "cloth/trees.h"

#include <stdio.h>
#include <stdlib.h>

static void
print_ring (const OddPoint *points, gsize n)
{
  printf ("[");
  for (gsize i = 0; i < n; i++)
    printf ("%s[%.17g,%.17g]", i > 0 ? "," : "", points[i].x, points[i].y);
  printf ("]");
}

static void
print_polygon (OddPolygon *polygon)
{
  gsize n;
  const OddPoint *ring = odd_polygon_get_ring (polygon, &n);

  printf ("[");
  print_ring (ring, n);
  for (guint i = 0; i < odd_polygon_get_n_holes (polygon); i++)
    {
      ring = odd_polygon_get_hole (polygon, i, &n);
      printf (",");
      print_ring (ring, n);
    }
  printf ("]");
}

static void
print_polygons (const char *name, GPtrArray *polygons)
{
  printf ("\"%s\":[", name);
  for (guint i = 0; i < polygons->len; i++)
    {
      printf ("%s", i > 0 ? "," : "");
      print_polygon (polygons->pdata[i]);
    }
  printf ("],");
}

static void
print_zones (OddScrap *scrap)
{
  printf ("\"zones\":[");
  for (guint i = 0; i < scrap->n_zones; i++)
    {
      printf ("%s{\"allowance_only\":%s,\"outline\":", i > 0 ? "," : "", scrap->zones[i].allowance_only ? "true" : "false");
      print_polygon (scrap->zones[i].outline);
      printf ("}");
    }
  printf ("]");
}

/* A star round the middle is simple whatever its rays. */
static OddPolygon *
ragged (GRand *rand, OddPoint middle, double least, double most, guint n)
{
  g_autofree OddPoint *points = g_new (OddPoint, n);

  for (guint i = 0; i < n; i++)
    {
      const double angle = (i + g_rand_double_range (rand, 0.1, 0.9)) * 2.0 * G_PI / n, r = g_rand_double_range (rand, least, most);

      points[i] = odd_point (middle.x + r * cos (angle), middle.y + r * sin (angle));
    }
  return odd_polygon_new (points, n, NULL);
}

static OddPoint
anywhere (GRand *rand, double from, double to)
{
  const double x = g_rand_double_range (rand, from, to);

  return odd_point (x, g_rand_double_range (rand, from, to));
}

/* Some zones lie beside the cloth or leave nothing of it: those are refused. */
static void
add_zones (GRand *rand, OddJob **job, OddId scrap)
{
  const int n = g_rand_int_range (rand, 0, 4);

  for (int i = 0; i < n; i++)
    {
      g_autoptr(OddPolygon) zone = ragged (rand, anywhere (rand, 80, 620), 8, 60, 7);
      OddJob *next = odd_job_add_zone (*job, scrap, ODD_ZONE_STAIN, g_rand_boolean (rand), zone, NULL);

      if (next != NULL)
        take (job, next);
    }
}

static void
emit_case (GRand *rand)
{
  g_autoptr(OddJob) job = odd_job_new ();
  g_autoptr(OddLayout) layout = NULL;
  g_autoptr(OddPolygon) outline = ragged (rand, odd_point (350, 350), 120, 320, g_rand_int_range (rand, 4, 14));
  g_autoptr(GPtrArray) cuts = NULL;
  g_autoptr(GPtrArray) cloth = NULL;
  g_autoptr(GPtrArray) remains = NULL;
  g_autoptr(GPtrArray) offcuts = NULL;
  OddId panel_id = 0, scrap = 0;
  OddScrap values;

  take (&job, add_squares (job, 0, 2, 1, 100, &panel_id));
  layout = odd_job_dup_layout (job, panel_id);
  odd_scrap_init_values (&values);
  values.outline = outline;
  values.washed = TRUE;
  take (&job, odd_job_put_scrap (job, &values, &scrap, NULL));
  add_zones (rand, &job, scrap);
  for (guint i = 0; i < 2; i++)
    {
      const OddPoint to = anywhere (rand, 150, 450), from = odd_convex_centroid (layout->patches[i].region);
      const OddPlacement turned = { g_rand_double_range (rand, 0, 360), FALSE, { 0, 0 } };
      const OddPoint there = odd_placement_apply (&turned, to);
      const OddPlacement at = { turned.turn_deg, FALSE, odd_point_sub (from, there) };

      take (&job, odd_job_place_scrap (job, layout->patches[i].leaf->id, scrap, &at, NULL));
    }
  cuts = odd_scrap_dup_cut_shapes (job, scrap);
  cloth = odd_scrap_dup_cloth (job, odd_job_get_scrap (job, scrap));
  remains = odd_scrap_remains (job, scrap);
  printf ("{\"square\":%.17g,\"outline\":", job->settings.usable_square_mm);
  print_polygon (outline);
  printf (",");
  print_zones (odd_job_get_scrap (job, scrap));
  printf (",");
  print_polygons ("cuts", cuts);
  print_polygons ("cloth", cloth);
  print_polygons ("remains", remains);
  take (&job, odd_job_cut_scrap (job, scrap, NULL));
  offcuts = odd_job_dup_offcuts (job, scrap);
  printf ("\"offcuts\":[");
  for (guint i = 0; i < offcuts->len; i++)
    {
      printf ("%s{\"outline\":", i > 0 ? "," : "");
      print_polygon (((OddScrap *) offcuts->pdata[i])->outline);
      printf (",");
      print_zones (offcuts->pdata[i]);
      printf ("}");
    }
  printf ("],\"waste\":%.17g}\n", odd_job_get_waste_mm2 (job, scrap));
}

int
main (int argc, char **argv)
{
  GRand *rand;

  if (argc != 3)
    return 2;
  rand = g_rand_new_with_seed ((guint32) atoi (argv[1]));
  for (int i = 0; i < atoi (argv[2]); i++)
    emit_case (rand);
  g_rand_free (rand);
  return 0;
}
