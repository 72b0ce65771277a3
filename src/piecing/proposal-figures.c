/* Figures of a proposal, all from the layouts and scraps that came out of it. */
#include "config.h"

#include "cloth/offcuts.h"
#include "cloth/piece.h"
#include "piecing/arrange.h"
#include "piecing/neighbours.h"
#include "piecing/parallel.h"
#include "piecing/snap.h"

#define ALIKE_DELTA_E 10.0
#define LINED_UP_MM 15.0

typedef struct
{
  OddFigures *figures;
  OddJob *before, *after;
  const OddNeighbours *neighbours;
  GHashTable *scraps;              /* ids of the scraps used */
} Measure;

static void
measure_patch (Measure            *self,
               const OddLaidPatch *laid)
{
  OddFigures *figures = self->figures;
  const double width_mm = odd_convex_min_width (laid->region);

  if (laid->was_there)
    return;
  figures->smallest_side_mm = figures->n_patches == 0 ? width_mm : MIN (figures->smallest_side_mm, width_mm);
  figures->n_patches++;
  figures->finished_mm2 += odd_convex_area (laid->region);
  figures->cut_mm2 += odd_convex_area (laid->patch->cut);
  g_hash_table_add (self->scraps, GUINT_TO_POINTER (laid->patch->scrap->id));
}

static void
measure_bare (Measure        *self,
              const OddPatch *patch)
{
  if (patch->scrap != NULL)
    return;
  self->figures->n_bare++;
  self->figures->bare_mm2 += odd_convex_area (patch->region);
}

/* --- seams --- */

/* The ends that come on to one side of a seam, as places along it. */
static GArray *
ends_on (const OddLayout *layout,
         guint            seam,
         gboolean         kept_side)
{
  const OddLaidSeam *base = &layout->seams[seam];
  const OddPoint along = odd_point_scale (odd_point_sub (base->finished.to, base->finished.from), 1.0 / MAX (odd_segment_length (base->finished), ODD_TOLERANCE_MM));
  GArray *ends = g_array_new (FALSE, FALSE, sizeof (double));

  for (guint i = 0; i < layout->n_seams; i++)
    for (guint e = 0; e < 2; e++)
      {
        const OddLaidSeam *other = &layout->seams[i];
        const OddPoint end = e == 0 ? other->finished.from : other->finished.to;
        const OddPoint middle = odd_point_lerp (other->finished.from, other->finished.to, 0.5);
        const double place = odd_point_dot (along, odd_point_sub (end, base->finished.from));

        if (other->ends[e].label == (int) seam && (odd_half_plane_distance (base->line, middle) < 0.0) == kept_side)
          g_array_append_val (ends, place);
      }

  return ends;
}

static guint
count_lined_up (const OddLayout *layout,
                guint            seam)
{
  g_autoptr(GArray) here = ends_on (layout, seam, TRUE);
  g_autoptr(GArray) there = ends_on (layout, seam, FALSE);
  guint n = 0;

  for (guint i = 0; i < here->len; i++)
    for (guint k = 0; k < there->len; k++)
      if (fabs (g_array_index (here, double, i) - g_array_index (there, double, k)) < LINED_UP_MM)
        {
          n++;
          break;
        }

  return n;
}

static void
measure_panel (Measure *self,
               OddId    panel_id)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (self->after, panel_id);

  for (guint i = 0; i < layout->n_patches; i++)
    measure_bare (self, &layout->patches[i]);
  for (guint i = 0; i < layout->n_seams; i++)
    {
      if (odd_was_there (self->before, layout->seams[i].seam->id))
        continue;
      self->figures->seams_mm += layout->seams[i].raw_length_mm;
      self->figures->n_lined_up += count_lined_up (layout, i);
    }
}

static gboolean
is_among (const OddId *ids,
          guint        n,
          OddId        id)
{
  for (guint i = 0; i < n; i++)
    if (ids[i] == id)
      return TRUE;

  return FALSE;
}

static void
measure_joins (Measure     *self,
               const OddId *panels,
               guint        n_panels)
{
  for (guint t = 0; t < self->after->textiles->len; t++)
    {
      OddTextileLayout *layout = odd_job_dup_textile_layout (self->after, ((OddTextile *) self->after->textiles->pdata[t])->id);

      for (guint i = 0; i < layout->n_joins; i++)
        if ((is_among (panels, n_panels, layout->panels[i].panel_id) || is_among (panels, n_panels, layout->panels[i + 1].panel_id))
            && !odd_was_there (self->before, layout->joins[i].join->id))
          self->figures->seams_mm += layout->joins[i].raw_length_mm;
      odd_textile_layout_unref (layout);
    }
}

/* --- neighbours --- */

static OddLab
colour_of (const OddPatch *patch)
{
  OddLab colour = { 50.0, 0.0, 0.0 };

  if (patch->fabric != NULL)
    {
      colour = odd_lab_from_rgb (odd_fabric_get_mean_colour (patch->fabric));
      colour.l = odd_fabric_get_lightness (patch->fabric);
    }
  else if (patch->piece != NULL)
    {
      const double lightness = odd_patch_get_lightness (patch);

      colour.l = isnan (lightness) ? colour.l : lightness;
    }

  return colour;
}

static void
count_contact (OddFigures     *figures,
               const OddPatch *a,
               const OddPatch *b)
{
  if (odd_patches_are_of_one_cloth (a, b))
    figures->n_contacts++;
  else if (a->fabric != NULL && b->fabric != NULL && odd_lab_difference (colour_of (a), colour_of (b)) < ALIKE_DELTA_E)
    figures->n_alike++;
}

static double
deviation (const double *values,
           const double *about,
           guint         n)
{
  double mean = 0.0, sum = 0.0;

  for (guint i = 0; i < n; i++)
    mean += (values[i] - about[i]) / n;
  for (guint i = 0; i < n; i++)
    sum += (values[i] - about[i] - mean) * (values[i] - about[i] - mean) / n;

  return sqrt (sum);
}

static void
measure_look (Measure  *self,
              OddSpread spread)
{
  const OddNeighbours *neighbours = self->neighbours;
  const guint n = neighbours->laid->len;
  const OddLaidPatch *laid = (const OddLaidPatch *) neighbours->laid->data;
  g_autofree double *own = g_new (double, n + 1);
  g_autofree double *sum = g_new (double, n + 1);
  g_autofree guint *count = g_new (guint, n + 1);
  g_autofree OddPoint *middles = g_new (OddPoint, n + 1);
  g_autofree double *wanted = NULL;
  OddCellGraph places = { NULL, middles, NULL, NULL, n };

  for (guint i = 0; i < n; i++)
    {
      own[i] = sum[i] = colour_of (laid[i].patch).l;
      count[i] = 1;
      middles[i] = odd_convex_centroid (laid[i].region);
    }
  for (guint p = 0; p < neighbours->pairs->len; p++)
    {
      const OddPair pair = g_array_index (neighbours->pairs, OddPair, p);

      if (!laid[pair.a].was_there || !laid[pair.b].was_there)
        count_contact (self->figures, laid[pair.a].patch, laid[pair.b].patch);
      sum[pair.a] += own[pair.b];
      sum[pair.b] += own[pair.a];
      count[pair.a]++;
      count[pair.b]++;
    }
  for (guint i = 0; i < n; i++)
    sum[i] /= count[i];
  wanted = odd_wanted_lightness (&places, own, spread);
  self->figures->lightness_spread = n > 0 ? deviation (sum, wanted, n) : 0.0;
}

static void
measure_shares (Measure *self)
{
  g_autoptr(GHashTable) counts = g_hash_table_new (NULL, NULL);
  guint most = 0;

  for (guint i = 0; i < self->neighbours->laid->len; i++)
    {
      const OddPatch *patch = g_array_index (self->neighbours->laid, OddLaidPatch, i).patch;
      const gpointer key = GUINT_TO_POINTER (patch->fabric != NULL ? patch->fabric->id : 0);
      const guint n = GPOINTER_TO_UINT (g_hash_table_lookup (counts, key)) + 1;

      g_hash_table_insert (counts, key, GUINT_TO_POINTER (n));
      if (patch->fabric == NULL || n <= most)
        continue;
      most = n;
      self->figures->widest_share_fabric = patch->fabric->id;
    }
  self->figures->widest_share = self->neighbours->laid->len > 0 ? (double) most / self->neighbours->laid->len : 0.0;
}

/* --- scraps --- */

static double
total_area (const GPtrArray *polygons)
{
  double mm2 = 0.0;

  for (guint i = 0; i < polygons->len; i++)
    mm2 += odd_polygon_get_area (polygons->pdata[i]);

  return mm2;
}

/* One scrap before and after. */
typedef struct { OddScrap *scrap; guint n_offcuts; double offcuts_mm2, used_mm2; } Used;
typedef struct { OddJob *before, *after; GArray *used; } Using;

static void
use_cb (guint    item,
        gpointer data)
{
  const Using *self = data;
  Used *used = &g_array_index (self->used, Used, item);
  g_autoptr(GPtrArray) cloth = odd_scrap_dup_cloth (self->before, used->scrap);
  g_autoptr(GPtrArray) remains = odd_scrap_remains (self->after, used->scrap->id);

  used->n_offcuts = remains->len;
  used->offcuts_mm2 = total_area (remains);
  used->used_mm2 = total_area (cloth) - used->offcuts_mm2;
}

/* Most of the time goes here: by several threads, summed up in one order. */
static gboolean
measure_scraps (Measure      *self,
                guint         n_threads,
                GCancellable *cancellable)
{
  OddFigures *figures = self->figures;
  g_autoptr(GArray) list = g_array_new (FALSE, FALSE, sizeof (Used));
  Using using = { self->before, self->after, list };

  for (guint i = 0; i < self->before->scraps->len; i++)
    {
      const Used used = { .scrap = self->before->scraps->pdata[i] };

      if (g_hash_table_contains (self->scraps, GUINT_TO_POINTER (used.scrap->id)))
        g_array_append_val (list, used);
    }
  if (!odd_for_each_item (list->len, n_threads, use_cb, &using, cancellable, NULL))
    return FALSE;
  figures->n_scraps_used = list->len;
  for (guint i = 0; i < list->len; i++)
    {
      const Used *used = &g_array_index (list, Used, i);

      figures->n_offcuts += used->n_offcuts;
      figures->offcuts_mm2 += used->offcuts_mm2;
      figures->used_mm2 += used->used_mm2;
    }

  return TRUE;
}

gboolean
odd_figures_measure (OddFigures   *self,
                     OddJob       *before,
                     OddJob       *after,
                     const OddId  *panels,
                     guint         n_panels,
                     double        heap_mm2,
                     OddSpread     spread,
                     guint         n_threads,
                     GCancellable *cancellable)
{
  g_autoptr(OddNeighbours) neighbours = odd_neighbours_new (before, after, panels, n_panels);
  g_autoptr(GHashTable) scraps = g_hash_table_new (NULL, NULL);
  Measure measure = { self, before, after, neighbours, scraps };

  *self = (OddFigures) { .heap_mm2 = heap_mm2 };
  if (g_cancellable_is_cancelled (cancellable))
    return FALSE;
  for (guint i = 0; i < neighbours->laid->len; i++)
    measure_patch (&measure, &g_array_index (neighbours->laid, OddLaidPatch, i));
  for (guint i = 0; i < n_panels && !g_cancellable_is_cancelled (cancellable); i++)
    measure_panel (&measure, panels[i]);
  if (g_cancellable_is_cancelled (cancellable))
    return FALSE;
  measure_joins (&measure, panels, n_panels);
  measure_look (&measure, spread);
  measure_shares (&measure);
  if (!measure_scraps (&measure, n_threads, cancellable))
    return FALSE;

  self->net_yield = self->used_mm2 > 0.0 ? self->finished_mm2 / self->used_mm2 : 0.0;
  self->own_bound = self->cut_mm2 > 0.0 ? self->finished_mm2 / self->cut_mm2 : 0.0;
  self->fit = self->own_bound > 0.0 ? self->net_yield / self->own_bound : 0.0;
  self->of_heap = heap_mm2 > 0.0 ? self->finished_mm2 / heap_mm2 : 0.0;

  return TRUE;
}

static void
add_number (GString    *text,
            const char *name,
            double      value,
            const char *format,
            const char *unit)
{
  char number[G_ASCII_DTOSTR_BUF_SIZE];

  g_ascii_formatd (number, sizeof number, format, value);
  g_string_append_printf (text, "%s %s%s%s\n", name, number, unit[0] != '\0' ? " " : "", unit);
}

char *
odd_figures_dup_text (const OddFigures *self)
{
  GString *text = g_string_new (NULL);

  add_number (text, "net-yield", 100.0 * self->net_yield, "%.1f", "%");
  add_number (text, "own-bound", 100.0 * self->own_bound, "%.1f", "%");
  add_number (text, "fit", 100.0 * self->fit, "%.1f", "%");
  add_number (text, "finished-of-heap", 100.0 * self->of_heap, "%.1f", "%");
  add_number (text, "patches", self->n_patches, "%.0f", "");
  add_number (text, "bare", self->n_bare, "%.0f", "");
  add_number (text, "bare-area", self->bare_mm2 / 100.0, "%.0f", "cm2");
  add_number (text, "smallest-side", self->smallest_side_mm, "%.1f", "mm");
  add_number (text, "same-fabric-neighbours", self->n_contacts, "%.0f", "");
  add_number (text, "alike-neighbours", self->n_alike, "%.0f", "");
  add_number (text, "lined-up-seams", self->n_lined_up, "%.0f", "");
  add_number (text, "lightness-spread", self->lightness_spread, "%.1f", "L*");
  add_number (text, "seams", self->seams_mm / 1000.0, "%.2f", "m");
  add_number (text, "scraps-used", self->n_scraps_used, "%.0f", "");
  add_number (text, "offcuts", self->n_offcuts, "%.0f", "");
  add_number (text, "offcuts-area", self->offcuts_mm2 / 100.0, "%.0f", "cm2");

  return g_string_free (text, FALSE);
}
