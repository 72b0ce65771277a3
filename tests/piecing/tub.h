/* Jobs for the tests of the piecing room: a column and one scrap at a time. */
#pragma once

#include "piecing/proposal.h"
#include "piecing/snap.h"

static inline OddId
tub_add_zoned (OddJob        **job,
               const OddPoint *points,
               guint           n,
               OddZone        *zones,
               guint           n_zones)
{
  OddScrap values;
  g_autoptr(OddPolygon) outline = NULL;
  g_autoptr(OddScrap) scrap = NULL;
  g_autoptr(GError) error = NULL;
  OddJob *next;
  OddId id = 0;

  odd_scrap_init_values (&values);
  outline = odd_polygon_new (points, n, &error);
  g_assert_no_error (error);
  values.outline = outline;
  values.washed = TRUE;
  values.zones = zones;
  values.n_zones = n_zones;
  next = odd_job_put_scrap (*job, &values, &id, &error);
  g_assert_no_error (error);
  odd_job_unref (*job);
  *job = next;

  return id;
}

static inline OddId
tub_add (OddJob        **job,
         const OddPoint *points,
         guint           n)
{
  return tub_add_zoned (job, points, n, NULL, 0);
}

static inline OddId
tub_add_box (OddJob **job,
             double   width_mm,
             double   height_mm)
{
  const OddPoint points[4] = { { 0, 0 }, { width_mm, 0 }, { width_mm, height_mm }, { 0, height_mm } };

  return tub_add (job, points, 4);
}

/* A loose bare panel; its edges run top 0, right 1, bottom 2, left 3. */
static inline OddId
tub_add_panel (OddJob **job,
               double   width_mm,
               double   length_mm)
{
  g_autoptr(GError) error = NULL;
  OddId id = 0;
  OddJob *next = odd_job_add_panel (*job, 0, 0, "", width_mm, length_mm, &id, &error);

  g_assert_no_error (error);
  odd_job_unref (*job);
  *job = next;

  return id;
}

/* The edge of the outline at the foot of the panel as it hangs alone. */
static inline OddTarget
tub_foot (OddJob *job,
          OddId   panel_id)
{
  OddPanel *panel = odd_job_get_panel (job, panel_id, NULL, NULL);

  return (OddTarget) { .kind = ODD_TARGET_EDGE, .panel_id = panel_id, .edge = (guint) odd_panel_side_edge (panel, 2) };
}

static inline OddTarget
tub_bare (OddId leaf_id)
{
  return (OddTarget) { .kind = ODD_TARGET_BARE, .leaf_id = leaf_id };
}

static inline OddId
tub_apply (OddJob        **job,
           const OddPlace *place)
{
  g_autoptr(GError) error = NULL;
  OddId leaf_id = 0;
  OddJob *next = odd_job_apply_place (*job, place, &leaf_id, &error);

  g_assert_no_error (error);
  odd_job_unref (*job);
  *job = next;

  return leaf_id;
}

/* Does the check name this patch as too small for its scrap, showing a zone, or swallowed? */
static inline gboolean
tub_is_unsound (OddJob *job,
                OddId   leaf_id)
{
  g_autoptr(GPtrArray) findings = odd_job_check (job, NULL);

  for (guint i = 0; i < findings->len; i++)
    {
      const OddFinding *finding = findings->pdata[i];

      if (finding->leaf_id == leaf_id && finding->kind != ODD_FINDING_ZONE)
        return TRUE;
      if (finding->kind == ODD_FINDING_OVERLAP || finding->kind == ODD_FINDING_VANISHED)
        return TRUE;
    }

  return FALSE;
}

/* Crumbs of @job in one panel, 10 mm allowed at every seam. */
static inline OddProposalOptions
tub_crumb_options (OddJob *job,
                   double  width_mm,
                   double  length_mm,
                   guint64 moves)
{
  OddProposalOptions options;

  odd_proposal_options_init (&options, job, ODD_PIECE_CRUMBS);
  options.width_mm = width_mm;
  options.length_mm = length_mm;
  options.treatment.allowance_mm = 10.0;
  options.moves = moves;

  return options;
}
