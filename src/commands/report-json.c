#include "config.h"

#include "commands/report-json.h"
#include "commands/report-work.h"

#include "cloth/measured.h"
#include "cloth/offcuts.h"
#include "sewing/bias.h"
#include "sewing/progress.h"
#include "store/json-printer.h"

static double
tidy (double mm)
{
  const double rounded = rint (mm * 1e9) / 1e9;

  return rounded == 0.0 ? 0.0 : rounded; /* never "-0" */
}

static OddPoint
tidy_point (OddPoint p)
{
  return odd_point (tidy (p.x), tidy (p.y));
}

static void
print_pair (OddPrinter *out, const char *member, double width_mm, double length_mm)
{
  odd_printer_point (out, member, odd_point (tidy (width_mm), tidy (length_mm)));
}

static void
print_ring (OddPrinter *out, const char *member, const OddPoint *ring, gsize n)
{
  const gboolean turn_round = odd_ring_area (ring, n) < 0.0;
  g_autofree OddPoint *points = g_new (OddPoint, n);

  for (gsize i = 0; i < n; i++)
    points[i] = tidy_point (ring[turn_round ? n - 1 - i : i]);
  odd_printer_points (out, member, points, n);
}

static void
print_convex (OddPrinter *out, const char *member, const OddConvex *convex)
{
  print_ring (out, member, convex->points, convex->n);
}

static void
print_polygon (OddPrinter *out, const char *member, OddPolygon *polygon)
{
  gsize n;
  const OddPoint *ring = odd_polygon_get_ring (polygon, &n);

  print_ring (out, member, ring, n);
}

static void
print_operations (OddPrinter *out, const OddFinish *finish, const OddProgress *progress)
{
  odd_printer_begin_array (out, "operations", finish->n_operations, FALSE);
  for (guint i = 0; i < finish->n_operations; i++)
    {
      odd_printer_begin_object (out, NULL, NULL);
      odd_printer_string (out, "kind", odd_operation_kind_get_nick (finish->operations[i].kind));
      odd_printer_string (out, "station", odd_station_get_nick (finish->operations[i].station));
      odd_printer_string (out, "state", odd_state_get_nick (odd_progress_get_state (progress, i)));
      odd_printer_end_object (out);
    }
  odd_printer_end_array (out);
}

static void
print_ends (OddPrinter *out, const OddEnd ends[2])
{
  odd_printer_begin_array (out, "ends", 2, FALSE);
  for (guint i = 0; i < 2; i++)
    {
      odd_printer_begin_object (out, NULL, NULL);
      odd_printer_string (out, "kind", odd_end_kind_get_nick (ends[i].kind));
      if (ends[i].by != 0)
        odd_printer_uint (out, "by", ends[i].by);
      else
        odd_printer_null (out, "by");
      odd_printer_end_object (out);
    }
  odd_printer_end_array (out);
}

static void
print_seam (OddPrinter *out, const OddSeam *seam, OddSegment finished, double raw_length_mm, const OddFinish *finish, double allowance_mm,
            const OddEnd ends[2], gboolean raw_inside)
{
  odd_printer_begin_object (out, NULL, NULL);
  odd_printer_uint (out, "id", seam->id);
  odd_printer_point (out, "from_mm", tidy_point (finished.from));
  odd_printer_point (out, "to_mm", tidy_point (finished.to));
  odd_printer_double (out, "raw_length_mm", tidy (raw_length_mm));
  odd_printer_string (out, "finish", finish->name);
  odd_printer_double (out, "allowance_mm", tidy (allowance_mm));
  print_operations (out, finish, seam->progress);
  print_ends (out, ends);
  odd_printer_bool (out, "raw_inside", raw_inside);
  odd_printer_end_object (out);
}

/* Of the pieces that kept-out zones leave, the one the patch lies on most. */
static OddPolygon *
find_piece_under (GPtrArray *pieces, const OddConvex *cut)
{
  g_autoptr(OddPolygon) shape = odd_polygon_new_from_convex (cut);
  OddPolygon *best = NULL;
  double best_mm2 = -1.0;

  for (guint i = 0; i < pieces->len; i++)
    {
      const double mm2 = odd_polygon_overlap_area (pieces->pdata[i], shape);

      if (mm2 > best_mm2)
        {
          best = pieces->pdata[i];
          best_mm2 = mm2;
        }
    }
  return best;
}

static void
print_placed_outline (OddPrinter *out, const OddPatch *patch)
{
  g_autoptr(GPtrArray) pieces = odd_patch_dup_placed_usable (patch);
  OddPolygon *piece = pieces != NULL ? find_piece_under (pieces, patch->cut) : NULL;
  const guint n_holes = piece != NULL ? odd_polygon_get_n_holes (piece) : 0;

  if (piece != NULL)
    print_polygon (out, "placed_outline_mm", piece);
  else
    odd_printer_null (out, "placed_outline_mm");
  odd_printer_begin_array (out, "placed_holes_mm", n_holes, FALSE);
  for (guint i = 0; i < n_holes; i++)
    {
      gsize n;
      const OddPoint *ring = odd_polygon_get_hole (piece, i, &n);

      print_ring (out, NULL, ring, n);
    }
  odd_printer_end_array (out);
}

static void
print_bias (OddPrinter *out, OddJob *job, const OddLayout *layout, const OddPatch *patch)
{
  g_autoptr(GArray) edges = odd_layout_dup_bias_edges (layout, patch, &job->settings);

  if (patch->leaf->stayed != ODD_STATE_OPEN)
    odd_printer_string (out, "stayed", odd_state_get_nick (patch->leaf->stayed));
  if (edges->len == 0)
    return;
  odd_printer_begin_array (out, "bias_edges", edges->len, FALSE);
  for (guint i = 0; i < edges->len; i++)
    {
      const OddBiasEdge *edge = &g_array_index (edges, OddBiasEdge, i);

      odd_printer_begin_object (out, NULL, NULL);
      odd_printer_point (out, "from_mm", edge->cut.from);
      odd_printer_point (out, "to_mm", edge->cut.to);
      odd_printer_double (out, "off_deg", edge->off_deg);
      odd_printer_end_object (out);
    }
  odd_printer_end_array (out);
}

static void
print_patch (OddPrinter *out, OddJob *job, const OddLayout *layout, const OddPatch *patch)
{
  odd_printer_begin_object (out, NULL, NULL);
  odd_printer_uint (out, "id", patch->leaf->id);
  odd_printer_uint (out, "patch", patch->number);
  if (patch->scrap != NULL)
    odd_printer_uint (out, "scrap", patch->scrap->number);
  else
    odd_printer_null (out, "scrap");
  if (patch->piece != NULL)
    odd_printer_string (out, "fabric", "pieced");
  else if (patch->fabric != NULL)
    odd_printer_string (out, "fabric", patch->fabric->name);
  else
    odd_printer_null (out, "fabric");
  print_convex (out, "region_mm", patch->region);
  print_convex (out, "cut_mm", patch->cut);
  print_placed_outline (out, patch);
  print_bias (out, job, layout, patch);
  odd_printer_end_object (out);
}

/* Alone: as planned, and as sewn where something of that is known. */
static void
print_raw_sizes (OddPrinter *out, OddJob *job, OddPanel *panel, const OddLayout *layout)
{
  double width_mm, length_mm;

  odd_job_get_planned_raw (job, panel->id, &width_mm, &length_mm);
  print_pair (out, "planned_raw_mm", width_mm, length_mm);
  if (odd_panel_is_as_sewn (panel))
    print_pair (out, "sewn_raw_mm", layout->planned_raw_width_mm, layout->planned_raw_length_mm);
  else
    odd_printer_null (out, "sewn_raw_mm");
}

static void
print_panel (OddPrinter *out, const char *member, OddJob *job, OddPanel *panel, const OddLayout *layout, OddTextileLayout *textile, OddPoint at)
{
  g_autofree char *name = odd_job_dup_panel_name (job, panel);
  g_autofree gboolean *raw_inside = odd_layout_raw_inside (layout, textile);

  odd_printer_begin_object (out, member, NULL);
  odd_printer_string (out, "name", name);
  print_pair (out, "at_mm", at.x, at.y);
  print_pair (out, "finished_mm", layout->box.width, layout->box.height);
  print_pair (out, "alone_mm", layout->alone_width_mm, layout->alone_length_mm);
  print_pair (out, "raw_mm", layout->raw_box.width, layout->raw_box.height);
  print_raw_sizes (out, job, panel, layout);
  print_convex (out, "outline_mm", layout->outline);
  odd_printer_begin_array (out, "patches", layout->n_patches, TRUE);
  for (guint i = 0; i < layout->n_patches; i++)
    print_patch (out, job, layout, &layout->patches[i]);
  odd_printer_end_array (out);
  odd_printer_begin_array (out, "seams", layout->n_seams, TRUE);
  for (guint i = 0; i < layout->n_seams; i++)
    {
      const OddLaidSeam *laid = &layout->seams[i];

      print_seam (out, laid->seam, laid->finished, laid->raw_length_mm, laid->finish, laid->allowance_mm, laid->ends, raw_inside[i]);
    }
  odd_printer_end_array (out);
  odd_printer_end_object (out);
}

static void
print_textile (OddPrinter *out, OddJob *job, OddTextile *textile)
{
  g_autoptr(OddTextileLayout) laid = odd_job_dup_textile_layout (job, textile->id);
  g_autofree char *name = odd_job_dup_textile_name (job, textile);

  odd_printer_begin_object (out, NULL, NULL);
  odd_printer_string (out, "name", name);
  print_pair (out, "finished_mm", laid->finished_width_mm, laid->finished_length_mm);
  print_pair (out, "raw_mm", laid->raw_width_mm, laid->raw_length_mm);
  print_pair (out, "missing_mm", laid->missing_width_mm, laid->missing_length_mm);
  print_pair (out, "surplus_mm", laid->surplus_width_mm, laid->surplus_length_mm);
  odd_printer_begin_array (out, "panels", laid->n_panels, TRUE);
  for (guint i = 0; i < laid->n_panels; i++)
    print_panel (out, NULL, job, textile->hung[i].panel, laid->panels[i].layout, laid, laid->panels[i].at);
  odd_printer_end_array (out);
  odd_printer_begin_array (out, "joins", laid->n_joins, TRUE);
  for (guint i = 0; i < laid->n_joins; i++)
    {
      const OddLaidJoin *join = &laid->joins[i];

      print_seam (out, join->join, join->finished, join->raw_length_mm, join->finish, join->allowance_mm, join->ends,
                  odd_job_seam_is_raw_inside (job, join->join->id));
    }
  odd_printer_end_array (out);
  odd_report_print_work (out, job, textile->id);
  odd_printer_end_object (out);
}

static void
print_loose_panel (OddPrinter *out, OddJob *job, OddPanel *panel)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel->id);

  print_panel (out, NULL, job, panel, layout, NULL, odd_point (0.0, 0.0));
}

/* What a pieced scrap is sewn from, at_mm in the scrap's frame. */
static void
print_piece (OddPrinter *out, OddJob *job, OddScrap *scrap)
{
  g_autoptr(OddLayout) layout = odd_job_dup_piece_layout (job, scrap);

  if (layout != NULL)
    print_panel (out, "piece", job, scrap->piece, layout, NULL, scrap->piece_at.shift);
}

static void
print_scrap (OddPrinter *out, OddJob *job, OddScrap *scrap)
{
  OddFabric *fabric = odd_job_get_scrap_fabric (job, scrap);
  OddScrap *parent = odd_job_get_scrap (job, scrap->parent_id);
  g_autoptr(OddPolygon) outline = odd_scrap_dup_outline (scrap, fabric);
  g_autoptr(GPtrArray) remains = odd_scrap_remains (job, scrap->id);

  odd_printer_begin_object (out, NULL, NULL);
  odd_printer_uint (out, "number", scrap->number);
  if (scrap->piece != NULL)
    odd_printer_string (out, "fabric", "pieced");
  else if (fabric != NULL)
    odd_printer_string (out, "fabric", fabric->name);
  else
    odd_printer_null (out, "fabric");
  odd_printer_string (out, "state", odd_scrap_state_get_nick (odd_job_get_scrap_state (job, scrap->id)));
  odd_printer_bool (out, "washed", scrap->washed);
  print_polygon (out, "outline_mm", outline);
  if (parent != NULL)
    odd_printer_uint (out, "parent", parent->number);
  else
    odd_printer_null (out, "parent");
  odd_printer_begin_array (out, "remains", remains->len, FALSE);
  for (guint i = 0; i < remains->len; i++)
    print_polygon (out, NULL, remains->pdata[i]);
  odd_printer_end_array (out);
  print_piece (out, job, scrap);
  odd_printer_end_object (out);
}

typedef struct
{
  guint n_panels, n_patches, n_bare, n_seams;
  double seams_mm, cloth_mm2;
} Totals;

static void
add_layout (Totals *totals, const OddLayout *layout)
{
  totals->n_panels++;
  totals->n_patches += layout->n_patches;
  totals->n_seams += layout->n_seams;
  for (guint i = 0; i < layout->n_patches; i++)
    {
      totals->n_bare += layout->patches[i].scrap == NULL;
      totals->cloth_mm2 += layout->patches[i].scrap != NULL ? odd_convex_area (layout->patches[i].region) : 0.0;
    }
  for (guint i = 0; i < layout->n_seams; i++)
    totals->seams_mm += layout->seams[i].raw_length_mm;
}

static Totals
add_up (OddJob *job)
{
  Totals totals = { 0 };

  for (guint i = 0; i < job->textiles->len; i++)
    {
      OddTextile *textile = job->textiles->pdata[i];
      g_autoptr(OddTextileLayout) laid = odd_job_dup_textile_layout (job, textile->id);

      for (guint k = 0; k < laid->n_panels; k++)
        add_layout (&totals, laid->panels[k].layout);
      for (guint k = 0; k < laid->n_joins; k++)
        {
          totals.n_seams++;
          totals.seams_mm += laid->joins[k].raw_length_mm;
        }
    }
  for (guint i = 0; i < job->loose_panels->len; i++)
    {
      OddPanel *panel = job->loose_panels->pdata[i];
      g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel->id);

      add_layout (&totals, layout);
    }
  return totals;
}

static void
print_scrap_counts (OddPrinter *out, OddJob *job)
{
  static const OddScrapState states[] = { ODD_SCRAP_FREE, ODD_SCRAP_PLACED, ODD_SCRAP_SEWN, ODD_SCRAP_GONE };
  guint n[G_N_ELEMENTS (states)] = { 0 };

  for (guint i = 0; i < job->scraps->len; i++)
    n[odd_job_get_scrap_state (job, ((OddScrap *) job->scraps->pdata[i])->id)]++;
  odd_printer_begin_object (out, "scraps", NULL);
  for (guint i = 0; i < G_N_ELEMENTS (states); i++)
    odd_printer_uint (out, odd_scrap_state_get_nick (states[i]), n[states[i]]);
  odd_printer_end_object (out);
}

static void
print_totals (OddPrinter *out, OddJob *job)
{
  static const char *const works[] = { "to_sew", "to_finish", "to_press", "to_topstitch" };
  const Totals totals = add_up (job);
  const OddWorkCount work = odd_job_count_work (job, 0);

  odd_printer_begin_object (out, "totals", NULL);
  odd_printer_uint (out, "panels", totals.n_panels);
  odd_printer_uint (out, "patches", totals.n_patches);
  odd_printer_uint (out, "bare", totals.n_bare);
  odd_printer_double (out, "cloth_mm2", tidy (totals.cloth_mm2));
  odd_printer_uint (out, "seams", totals.n_seams);
  odd_printer_double (out, "raw_length_mm", tidy (totals.seams_mm));
  for (guint i = 0; i < G_N_ELEMENTS (works); i++)
    odd_printer_uint (out, works[i], work.n[i]);
  odd_printer_uint (out, "done", work.n_done);
  odd_printer_uint (out, "raw_inside", work.n_raw_inside);
  print_scrap_counts (out, job);
  odd_printer_end_object (out);
}

GBytes *
odd_report_json (OddJob *job, GError **error)
{
  g_autoptr(OddPrinter) out = odd_printer_new ();

  g_return_val_if_fail (job != NULL, NULL);

  odd_printer_begin_object (out, NULL, NULL);
  odd_printer_begin_array (out, "textiles", job->textiles->len, TRUE);
  for (guint i = 0; i < job->textiles->len; i++)
    print_textile (out, job, job->textiles->pdata[i]);
  odd_printer_end_array (out);
  odd_printer_begin_array (out, "loose_panels", job->loose_panels->len, TRUE);
  for (guint i = 0; i < job->loose_panels->len; i++)
    print_loose_panel (out, job, job->loose_panels->pdata[i]);
  odd_printer_end_array (out);
  odd_printer_begin_array (out, "scraps", job->scraps->len, TRUE);
  for (guint i = 0; i < job->scraps->len; i++)
    print_scrap (out, job, job->scraps->pdata[i]);
  odd_printer_end_array (out);
  print_totals (out, job);
  odd_printer_end_object (out);
  return odd_printer_finish (out, error);
}
