#include "config.h"

#include "ui/propose-places.h"

#include <glib/gi18n.h>

#define LEANS_DEG 0.5
#define ONE_SIZE_MM 1.0            /* squares that are joined or trimmed at an edge are not all alike */

static void
place_free (gpointer data)
{
  OddProposePlace *place = data;

  g_free (place->text);
  g_free (place->says);
  g_free (place);
}

void
odd_propose_place_apply (const OddProposePlace *place,
                         OddProposalOptions    *options)
{
  options->into = place->into;
  options->panel_ids = place->panel_id != 0 ? &place->panel_id : NULL;
  options->n_panel_ids = place->panel_id != 0;
  options->part_ids = place->part_id != 0 ? &place->part_id : NULL;
  options->n_part_ids = place->part_id != 0;
}

/* Takes @text. */
static OddProposePlace *
add_place (GPtrArray *places,
           OddInto    into,
           OddId      panel_id,
           OddId      part_id,
           char      *text)
{
  OddProposePlace *place = g_new0 (OddProposePlace, 1);

  *place = (OddProposePlace) { into, panel_id, part_id, text, g_strdup ("") };
  g_ptr_array_add (places, place);
  return place;
}

static OddRoom
measure (OddJob                *job,
         OddId                  textile_id,
         const OddProposePlace *place)
{
  OddProposalOptions options;

  odd_proposal_options_init (&options, job, ODD_PIECE_CRUMBS);
  options.textile_id = textile_id;
  odd_propose_place_apply (place, &options);
  return odd_proposal_measure_room (job, &options);
}

/* Bare places and the same anew, each where there is anything. Takes the texts. Whether anything is bare. */
static gboolean
add_both (GPtrArray *places,
          OddJob    *job,
          OddId      textile_id,
          OddUnit    unit,
          OddId      panel_id,
          OddId      part_id,
          char      *bare_text,
          char      *anew_text)
{
  OddProposePlace *bare = add_place (places, ODD_INTO_BARE, panel_id, part_id, bare_text);
  OddProposePlace *anew = add_place (places, ODD_INTO_UNLOCKED, panel_id, part_id, anew_text);
  const OddRoom bare_room = measure (job, textile_id, bare);
  const OddRoom anew_room = measure (job, textile_id, anew);
  g_autofree char *area = odd_area_format (bare_room.area_mm2, unit);

  g_free (bare->says);
  bare->says = g_strdup_printf (ngettext ("%u bare place, %s", "%u bare places, %s", bare_room.n_places), bare_room.n_places, area);
  g_free (anew->says);
  anew->says = g_strdup_printf (ngettext ("%u patch comes off; what is locked, cut out or sewn stays", "%u patches come off; what is locked, cut out or sewn stays",
                                          anew_room.n_patches), anew_room.n_patches);
  if (anew_room.n_patches == 0)
    g_ptr_array_remove (places, anew);
  if (bare_room.n_places == 0)
    g_ptr_array_remove (places, bare);
  return bare_room.n_places > 0;
}

/* The strip of a seam, the patch itself; 0: no part of a panel. */
static OddId
part_of (OddPanel    *panel,
         OddSelected  kind,
         OddId        id)
{
  OddNode *strip;

  if (panel == NULL || kind == ODD_SELECTED_PANEL)
    return 0;
  if (kind == ODD_SELECTED_PATCH)
    return id;
  strip = odd_node_find_seam (panel->root, id, NULL);
  return strip != NULL ? strip->id : 0;
}

static OddPanel *
panel_of (OddJob      *job,
          OddSelected  kind,
          OddId        id)
{
  switch (kind)
    {
    case ODD_SELECTED_PANEL: return odd_job_get_panel (job, id, NULL, NULL);
    case ODD_SELECTED_PATCH: case ODD_SELECTED_SEAM: return odd_job_find_panel_of (job, id, NULL, NULL);
    default: return NULL;
    }
}

static gboolean
has_leaning_seam (const OddLayout *layout)
{
  for (guint i = 0; i < layout->n_seams; i++)
    {
      const OddPoint normal = layout->seams[i].line.normal;

      if (fabs (remainder (atan2 (normal.y, normal.x) * 180.0 / G_PI, 90.0)) > LEANS_DEG)
        return TRUE;
    }
  return FALSE;
}

static gboolean
has_one_size (const OddLayout *layout)
{
  const OddBox first = odd_convex_box (layout->patches[0].region);

  for (guint i = 1; i < layout->n_patches; i++)
    {
      const OddBox box = odd_convex_box (layout->patches[i].region);

      if (fabs (box.width - first.width) > ONE_SIZE_MM || fabs (box.height - first.height) > ONE_SIZE_MM)
        return FALSE;
    }
  return TRUE;
}

OddPieceManner
odd_propose_guess_manner (OddJob      *job,
                          OddSelected  kind,
                          OddId        id)
{
  OddPanel *panel = panel_of (job, kind, id);
  g_autoptr(OddLayout) layout = panel != NULL ? odd_job_dup_layout_apart (job, panel->id) : NULL;

  if (layout == NULL || layout->n_patches < 2)
    return ODD_PIECE_SQUARES;
  return has_leaning_seam (layout) ? ODD_PIECE_CRUMBS : has_one_size (layout) ? ODD_PIECE_SQUARES : ODD_PIECE_COLUMNS;
}

GPtrArray *
odd_propose_places_new (OddJob      *job,
                        OddId        textile_id,
                        OddSelected  kind,
                        OddId        id,
                        OddUnit      unit,
                        guint       *out_first)
{
  GPtrArray *places = g_ptr_array_new_with_free_func (place_free);
  const OddTextile *textile = odd_job_get_textile (job, textile_id);
  OddPanel *panel = panel_of (job, kind, id);
  const OddId part_id = part_of (panel, kind, id);
  gboolean bare = FALSE;

  add_place (places, ODD_INTO_TEXTILE, 0, 0, g_strdup (_("in new panels")));
  add_place (places, ODD_INTO_LOOSE, 0, 0, g_strdup (_("in loose panels")));
  if (part_id != 0 && part_id != panel->root->id)
    bare = kind == ODD_SELECTED_PATCH
           ? add_both (places, job, textile_id, unit, panel->id, part_id, g_strdup (_("this bare place")), g_strdup (_("this patch anew")))
           : add_both (places, job, textile_id, unit, panel->id, part_id, g_strdup (_("bare in this strip")), g_strdup (_("this strip anew")));
  if (panel != NULL)
    {
      g_autofree char *name = odd_job_dup_panel_name (job, panel);

      bare = add_both (places, job, textile_id, unit, panel->id, 0, g_strdup_printf (_("bare in %s"), name), g_strdup_printf (_("%s anew"), name)) || bare;
    }
  if (textile != NULL && textile->n_hung > (panel != NULL ? 1 : 0))
    add_both (places, job, textile_id, unit, 0, 0, g_strdup (_("all that is bare")), g_strdup (_("all panels anew")));
  *out_first = bare ? 2 : 0;
  return places;
}
