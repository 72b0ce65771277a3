/* A model heap whose scraps are of twelve invented fabrics, dark to light. */
#pragma once

#include "heap.h"

#define TUB_N_FABRICS 12

static inline OddJob *
tub_of_fabrics (guint   n_scraps,
                guint32 seed)
{
  static const guint32 GROUNDS[TUB_N_FABRICS] = { 0x22304f, 0x7a2f2b, 0x3f6b4a, 0xc9b458, 0xe8e0d0, 0x8f8f96,
                                                  0x5a3d6b, 0xd98c5f, 0x9fc3d6, 0x2d2a2a, 0xb5486e, 0xf2f0ea };
  g_autoptr(GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr(GPtrArray) scraps = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_scrap_unref);
  OddId fabrics[TUB_N_FABRICS];
  OddJob *job = odd_job_new ();
  OddJob *next;

  for (guint i = 0; i < TUB_N_FABRICS; i++)
    {
      g_autofree char *name = g_strdup_printf ("Cloth %u", i + 1);
      OddFabric values;

      odd_fabric_init_values (&values);
      values.name = name;
      values.print.colours[0] = GROUNDS[i];
      next = odd_job_put_fabric (job, &values, &fabrics[i], NULL);
      g_assert (next != NULL);
      odd_job_unref (job);
      job = next;
    }
  for (guint i = 0; i < n_scraps; i++)
    {
      g_autoptr(OddPolygon) outline = heap_polygon (rand);
      OddScrap values;

      odd_scrap_init_values (&values);
      values.outline = outline;
      values.washed = TRUE;
      values.fabric_id = fabrics[g_rand_int_range (rand, 0, TUB_N_FABRICS)];
      g_ptr_array_add (scraps, odd_scrap_new (&values, NULL));
    }
  next = odd_job_put_scraps (job, scraps, NULL);
  g_assert (next != NULL);
  odd_job_unref (job);

  return next;
}
