#include "config.h"

#include "cloth/offcuts.h"
#include "cloth/piece.h"
#include "geometry/inscribed.h"
#include "piecing/sources.h"

#define SEARCH_TOLERANCE_MM 1.0    /* cloth lost to a simpler outline: 4 % where the outline wobbles, a tenth of the time */
#define SEARCH_CORNERS 16
#define SHORT_EDGE_SHARE 0.05      /* of width + height: shorter edges carry no strip */

static void
clear_source (gpointer data)
{
  OddSource *source = data;

  g_clear_pointer (&source->piece, odd_polygon_unref);
  g_clear_pointer (&source->search, odd_polygon_unref);
}

void
odd_sources_add_piece (OddSources *self,
                       guint       scrap,
                       OddPolygon *piece)
{
  OddSource source = { scrap, piece, odd_polygon_simplify_inside (piece, SEARCH_TOLERANCE_MM, SEARCH_CORNERS) };

  if (source.search == NULL)
    clear_source (&source);
  else
    g_array_append_val (self->pieces, source);
}

/* Cloth that is unknown or pieced is one fabric with itself only; pieced, it is as light as its patches are in the mean. */
static guint
find_fabric (OddSources *self,
             OddJob     *job,
             OddScrap   *scrap,
             OddFabric  *fabric)
{
  const OddId id = fabric != NULL ? fabric->id : 0;
  OddSourceFabric added = { id, { 50.0, 0.0, 0.0 } };

  for (guint i = 0; id != 0 && i < self->fabrics->len; i++)
    if (g_array_index (self->fabrics, OddSourceFabric, i).id == id)
      return i;

  if (fabric != NULL)
    {
      added.colour = odd_lab_from_rgb (odd_fabric_get_mean_colour (fabric));
      added.colour.l = odd_fabric_get_lightness (fabric);
    }
  else if (scrap->piece != NULL)
    {
      const double lightness = odd_job_get_scrap_lightness (job, scrap);

      added.colour.l = isnan (lightness) ? added.colour.l : lightness;
    }
  g_array_append_val (self->fabrics, added);

  return self->fabrics->len - 1;
}

/* Zones that are good enough for an allowance are left out altogether here: where a seam will fall is not known yet. */
static GPtrArray *
dup_clear_cloth (OddJob   *job,
                 OddScrap *scrap)
{
  g_autoptr(GPtrArray) zones = odd_scrap_dup_allowance_zones (scrap, odd_job_get_scrap_fabric (job, scrap));
  g_autoptr(GPtrArray) cloth = odd_scrap_dup_cloth (job, scrap);
  GPtrArray *clear;

  if (zones->len == 0)
    return g_steal_pointer (&cloth);

  clear = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);
  for (guint i = 0; i < cloth->len; i++)
    g_ptr_array_extend_and_steal (clear, odd_polygon_difference_many (cloth->pdata[i], (OddPolygon *const *) zones->pdata, zones->len));

  return clear;
}

/* Seen from the other side, the grain runs mirrored. A print with an up lies just so, unless its cloth says how far off it may be. */
static void
set_limits (OddSourceScrap  *source,
            const OddScrap  *scrap,
            const OddFabric *fabric)
{
  const gboolean any_way = fabric == NULL || fabric->grain_tolerance_deg >= 90.0;
  const guint n = fabric != NULL && fabric->one_way ? 1 : any_way ? 0 : 2;

  for (guint side = 0; side < 2; side++)
    {
      const double straight_deg = side == 0 ? 90.0 - scrap->grain_deg : scrap->grain_deg - 90.0;

      source->limits[side] = (OddTurnLimits) { { straight_deg, straight_deg + 180.0 }, n, any_way ? 0.0 : fabric->grain_tolerance_deg };
    }
}

static void
add_scrap (OddSources *self,
           OddJob     *job,
           OddScrap   *scrap)
{
  OddFabric *fabric = odd_job_get_scrap_fabric (job, scrap);
  g_autoptr(GPtrArray) cloth = dup_clear_cloth (job, scrap);
  OddSourceScrap added = { scrap->id, find_fabric (self, job, scrap, fabric), fabric != NULL && fabric->reversible };

  set_limits (&added, scrap, fabric);
  g_array_append_val (self->scraps, added);
  for (guint i = 0; i < cloth->len; i++)
    {
      self->area_mm2 += odd_polygon_get_area (cloth->pdata[i]);
      odd_sources_add_piece (self, self->scraps->len - 1, odd_polygon_ref (cloth->pdata[i]));
    }
}

static gboolean
is_wanted (const OddProposalOptions *options,
           OddId                     id)
{
  if (options->scrap_ids == NULL)
    return TRUE;
  for (guint i = 0; i < options->n_scrap_ids; i++)
    if (options->scrap_ids[i] == id)
      return TRUE;

  return FALSE;
}

/* Of a scrap that lies in a panel, what is left can be cut as well. */
static gboolean
may_draw_from (OddJob                   *job,
               const OddScrap           *scrap,
               const OddProposalOptions *options)
{
  const OddScrapState state = odd_job_get_scrap_state (job, scrap->id);

  return state == ODD_SCRAP_FREE || (options->remains && state != ODD_SCRAP_GONE);
}

static const OddShare *
find_share (const OddSources         *self,
            const OddProposalOptions *options,
            guint                     fabric)
{
  const OddId id = g_array_index (self->fabrics, OddSourceFabric, fabric).id;

  for (guint k = 0; k < options->n_shares && id != 0; k++)
    if (options->shares[k].fabric_id == id)
      return &options->shares[k];

  return NULL;
}

double *
odd_sources_dup_shares (const OddSources         *self,
                        const OddProposalOptions *options)
{
  double *most = g_new (double, self->fabrics->len + 1);

  for (guint i = 0; i < self->fabrics->len; i++)
    most[i] = find_share (self, options, i) != NULL ? find_share (self, options, i)->most : 1.0;

  return most;
}

double *
odd_sources_dup_least (const OddSources         *self,
                       const OddProposalOptions *options)
{
  double *least = g_new (double, self->fabrics->len + 1);

  for (guint i = 0; i < self->fabrics->len; i++)
    least[i] = find_share (self, options, i) != NULL ? find_share (self, options, i)->least : 0.0;

  return least;
}

GArray *
odd_sources_pieces_new (void)
{
  GArray *pieces = g_array_new (FALSE, FALSE, sizeof (OddSource));

  g_array_set_clear_func (pieces, clear_source);

  return pieces;
}

static gboolean
came_free (OddJob *before,
           OddJob *job,
           OddId   id)
{
  return before != job && odd_job_get_scrap (before, id) != NULL && odd_job_get_scrap_state (before, id) == ODD_SCRAP_PLACED
         && odd_job_get_scrap_state (job, id) == ODD_SCRAP_FREE;
}

OddSources *
odd_sources_new (OddJob                   *job,
                 const OddProposalOptions *options)
{
  return odd_sources_new_freed (job, job, options);
}

OddSources *
odd_sources_new_freed (OddJob                   *before,
                       OddJob                   *job,
                       const OddProposalOptions *options)
{
  OddSources *self = g_new0 (OddSources, 1);

  self->scraps = g_array_new (FALSE, FALSE, sizeof (OddSourceScrap));
  self->fabrics = g_array_new (FALSE, FALSE, sizeof (OddSourceFabric));
  self->pieces = odd_sources_pieces_new ();
  for (guint i = 0; i < job->scraps->len; i++)
    {
      OddScrap *scrap = job->scraps->pdata[i];

      if (may_draw_from (job, scrap, options) && (is_wanted (options, scrap->id) || came_free (before, job, scrap->id)))
        add_scrap (self, job, scrap);
    }

  return self;
}

void
odd_sources_free (OddSources *self)
{
  g_array_unref (self->scraps);
  g_array_unref (self->fabrics);
  g_array_unref (self->pieces);
  g_free (self);
}

/* Straight to the grain first; of turns that differ by a half only one, where both are allowed. */
static void
keep_allowed (GArray              *turns,
              const OddTurnLimits *limits)
{
  g_autoptr(GArray) flush = g_array_copy (turns);

  g_array_set_size (turns, 0);
  g_array_append_val (turns, limits->turn_deg[0]);
  for (guint i = 0; i < flush->len; i++)
    {
      const double turn_deg = g_array_index (flush, double, i);

      if (odd_turn_limits_allow (limits, turn_deg) && (limits->n == 1 || turn_deg < 180.0))
        g_array_append_val (turns, turn_deg);
    }
}

GArray *
odd_scrap_allowed_turns (const OddSourceScrap *scrap,
                         OddPolygon           *piece,
                         gboolean              half)
{
  const OddBox box = odd_polygon_get_box (piece);
  GArray *turns;

  turns = odd_polygon_flush_turns (piece, SHORT_EDGE_SHARE * (box.width + box.height));
  if (scrap->limits[0].n > 0)
    {
      keep_allowed (turns, &scrap->limits[0]);
      return turns;
    }
  if (turns->len == 0)
    {
      const double as_it_lies[4] = { 0.0, 90.0, 180.0, 270.0 };

      g_array_append_vals (turns, as_it_lies, 4);
    }
  g_array_set_size (turns, half ? turns->len / 2 : turns->len / 4);

  return turns;
}
