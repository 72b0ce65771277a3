/* Snap and trim: the best places for one scrap, and the scraps that fit one place.
 *
 * A target gives slots (slot.c): one for each tilt of the new seam at an open edge, one for each end of a bare region. The search (search.c)
 * finds where the scrap stands in them; each of the few best becomes a place with its figures (figures.c) and is ranked by
 * its score.
 */
#include "config.h"

#include "cloth/length.h"
#include "piecing/search.h"

#include <glib/gi18n.h>

#define MAX_PLACES 12
/* Kept of each class by height alone before the figures decide; a lower patch can leave the better offcut. */
#define KEEP 3
/* Places that differ by less are one to the eye. */
#define SAME_TURN_DEG 1.0
#define N_TILTS_A_SIDE 3

void
odd_snap_options_init (OddSnapOptions *options)
{
  *options = (OddSnapOptions) {
    .held_turn_deg = 0.0,
    .held_at = { NAN, NAN },
    .keep_angle = FALSE,
    .max_tilt_deg = 15.0,
    .mirror = FALSE,
    .new_width_mm = 0.0,
  };
}

/* --- slots --- */

static GPtrArray *
slots_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) odd_slot_free);
}

static void
add_slot (GPtrArray *slots,
          OddSlot   *slot)
{
  if (slot != NULL)
    g_ptr_array_add (slots, slot);
}

/* How far the edge is off square to the panel. */
static double
edge_slant (OddJob          *job,
            const OddTarget *target)
{
  OddPanel *panel = odd_job_get_panel (job, target->panel_id, NULL, NULL);
  const OddPoint n = odd_convex_edge_half_plane (panel->outline, target->edge).normal;

  return remainder (atan2 (n.y, n.x) * 180.0 / G_PI, 90.0);
}

/* The straight slot first; tilts that go on leaning the same way are left out, one that leads back to square is put in. */
static GPtrArray *
edge_slots (OddJob          *job,
            const OddTarget *target,
            double           max_tilt_deg)
{
  GPtrArray *slots = slots_new ();
  const double slant = edge_slant (job, target);

  add_slot (slots, odd_slot_new_edge (job, target, 0.0));
  if (max_tilt_deg <= 0.0)
    return slots;
  if (fabs (slant) > 0.5)
    add_slot (slots, odd_slot_new_edge (job, target, -slant));
  for (int i = 1; i <= N_TILTS_A_SIDE; i++)
    for (int side = -1; side <= 1; side += 2)
      {
        const double tilt_deg = side * i * max_tilt_deg / N_TILTS_A_SIDE;

        if (fabs (slant + tilt_deg) <= MAX (max_tilt_deg, fabs (slant)) + 1e-9 && fabs (slant + tilt_deg) > 1e-9)
          add_slot (slots, odd_slot_new_edge (job, target, tilt_deg));
      }

  return slots;
}

static double
panel_width (OddJob               *job,
             const OddSnapOptions *options)
{
  return options->new_width_mm > 0.0 ? options->new_width_mm : job->settings.column_width_mm;
}

/* --- from finds to places --- */

static OddPlaceClass
kind_of (const OddSlot        *slot,
         const OddFind        *find,
         const OddSnapOptions *options)
{
  const double turned = remainder (slot->frame.turn_deg + find->turn_deg - options->held_turn_deg, 360.0);

  if (find->row_width_mm > 0.0 || (slot->target.kind == ODD_TARGET_BARE && !odd_slot_is_whole (slot, find->height_mm)))
    return ODD_PLACE_ROW;
  if (slot->tilt_deg != 0.0)
    return ODD_PLACE_TILTED;
  if (find->as_held)
    return ODD_PLACE_AS_HELD;

  return fabs (turned) > 45.0 + 1e-9 ? ODD_PLACE_TURNED : ODD_PLACE_FLUSH;
}

static gboolean
is_same (const OddPlace *a,
         const OddPlace *b)
{
  return fabs (remainder (a->placement.turn_deg - b->placement.turn_deg, 360.0)) < SAME_TURN_DEG
         && a->placement.mirror == b->placement.mirror
         && fabs (a->tilt_deg - b->tilt_deg) < SAME_TURN_DEG
         && a->covers_all == b->covers_all
         && (a->warning == NULL) == (b->warning == NULL);
}

static void
add_place (GPtrArray            *places,
           const OddHand        *hand,
           const OddSlot        *slot,
           const OddSearch      *search,
           const OddFind        *found,
           const OddSnapOptions *options)
{
  OddFind find = *found;
  OddPlace *place;

  odd_search_refit (hand, slot, search, &find);
  place = odd_place_new (hand, slot, g_array_index (hand->of_piece, guint, find.piece), &find.placement, find.height_mm, options);
  if (place == NULL)
    return;
  place->kind = kind_of (slot, &find, options);
  g_ptr_array_add (places, place);
}

static int
compare_places (gconstpointer a,
                gconstpointer b)
{
  const OddPlace *p = *(OddPlace **) a;
  const OddPlace *q = *(OddPlace **) b;

  if (p->score != q->score)
    return p->score < q->score ? -1 : 1;
  if (p->kind != q->kind)
    return p->kind < q->kind ? -1 : 1;
  if (p->tilt_deg != q->tilt_deg)
    return fabs (p->tilt_deg) < fabs (q->tilt_deg) || (fabs (p->tilt_deg) == fabs (q->tilt_deg) && p->tilt_deg > q->tilt_deg) ? -1 : 1;

  return (p->placement.turn_deg > q->placement.turn_deg) - (p->placement.turn_deg < q->placement.turn_deg);
}

/* The best of each class, then the rest, without those that are the same to the eye. Takes @places. */
static GPtrArray *
rank (GPtrArray *places)
{
  GPtrArray *ranked = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_place_free);
  gboolean seen[ODD_PLACE_AS_HELD + 1] = { FALSE };
  guint n_first = 0;

  g_ptr_array_sort (places, compare_places);
  for (guint i = 0; i < places->len; i++)
    for (guint k = 0; places->pdata[i] != NULL && k < i; k++)
      if (places->pdata[k] != NULL && is_same (places->pdata[k], places->pdata[i]))
        g_clear_pointer (&places->pdata[i], odd_place_free);
  for (guint i = 0; i < places->len; i++)
    {
      OddPlace *place = places->pdata[i];

      if (place == NULL)
        continue;
      if (!seen[place->kind])
        g_ptr_array_insert (ranked, n_first++, place);
      else if (ranked->len < MAX_PLACES)
        g_ptr_array_add (ranked, place);
      else
        odd_place_free (place);
      seen[place->kind] = TRUE;
    }
  g_ptr_array_set_free_func (places, NULL);
  g_ptr_array_unref (places);
  if (ranked->len > MAX_PLACES)
    g_ptr_array_set_size (ranked, MAX_PLACES);

  return ranked;
}

static GPtrArray *
places_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) odd_place_free);
}

static GPtrArray *
whole_places (const OddHand        *hand,
              GPtrArray            *slots,
              const OddSearch      *search,
              const OddSnapOptions *options)
{
  GPtrArray *places = places_new ();
  g_autoptr(GArray) finds = odd_search_whole (hand, (OddSlot *const *) slots->pdata, slots->len, search);

  for (guint i = 0; i < finds->len; i++)
    {
      const OddFind *find = &g_array_index (finds, OddFind, i);

      add_place (places, hand, slots->pdata[find->slot], search, find, options);
    }

  return places;
}

static GPtrArray *
row_places (const OddHand        *hand,
            OddSlot              *slot,
            const OddSearch      *search,
            const OddSnapOptions *options)
{
  GPtrArray *places = places_new ();
  const OddPoint held = odd_placement_undo (&slot->frame, options->held_at);
  const double middle = slot->cut_left_mm + slot->cut_width_mm / 2.0;
  const gboolean at_end = !isnan (held.x) && held.x - held.y * slot->shear > middle;
  g_autoptr(GArray) finds = odd_search_rows (hand, slot, search, at_end);

  for (guint i = 0; i < finds->len; i++)
    {
      const OddFind *find = &g_array_index (finds, OddFind, i);
      g_autoptr(OddSlot) row = odd_slot_new_row (slot, find->row_width_mm, at_end);

      add_place (places, hand, row, search, find, options);
    }

  return places;
}

/* --- reasons --- */

static void
set_reason (char **out_reason,
            char  *text)
{
  if (out_reason != NULL && *out_reason == NULL)
    *out_reason = text;
  else
    g_free (text);
}

/* Why nothing is as wide as the slot. */
static void
tell_shortage (char           **out_reason,
               const OddHand   *hand,
               const OddSlot   *slot,
               const OddSearch *search,
               gboolean         rows)
{
  const double short_mm = odd_search_shortage (hand, slot, search);
  const double least_mm = search->min_height_mm + slot->base_allowance_mm + slot->far_allowance_mm;
  /* to the full millimetre, upwards: a scrap larger by so much will do */
  g_autofree char *by = odd_length_format (MAX (1.0, ceil (short_mm - 0.05)), ODD_UNIT_CM);
  g_autofree char *least = odd_length_format (least_mm, ODD_UNIT_CM);

  if (short_mm >= slot->cut_width_mm - ODD_TOLERANCE_MM)
    set_reason (out_reason, g_strdup_printf (_("This scrap is too small: with its allowances a patch takes at least %s each way."), least));
  else if (slot->target.kind == ODD_TARGET_BARE)
    set_reason (out_reason, g_strdup_printf (_("This scrap is %s too narrow for this place. Turn it, or take a larger one."), by));
  else if (rows)
    set_reason (out_reason, g_strdup_printf (_("This scrap is %s too narrow. Start a row with it, or turn it."), by));
  else
    set_reason (out_reason, g_strdup_printf (_("This scrap is %s too narrow, and no row can be started with it. Turn it, or take a larger one."), by));
}

/* Things that rule a scrap or a target out before any search. */
static gboolean
is_ruled_out (OddJob          *job,
              const OddTarget *target,
              OddScrap        *scrap,
              char           **out_reason)
{
  OddTextile *textile = NULL;
  OddPanel *panel = NULL;

  if (scrap->gone)
    {
      set_reason (out_reason, g_strdup_printf (_("Scrap %u is gone."), scrap->number));
      return TRUE;
    }
  if (target->kind == ODD_TARGET_NEW_PANEL)
    return FALSE;

  panel = target->kind == ODD_TARGET_EDGE ? odd_job_get_panel (job, target->panel_id, &textile, NULL)
                                          : odd_job_find_panel_of (job, target->leaf_id, &textile, NULL);
  g_return_val_if_fail (panel != NULL, TRUE);
  if (panel->locked)
    {
      g_autofree char *name = odd_job_dup_panel_name (job, panel);

      set_reason (out_reason, g_strdup_printf (_("%s is locked. Unlock it first."), name));
      return TRUE;
    }
  if (target->kind == ODD_TARGET_BARE && odd_node_find (panel->root, target->leaf_id)->scrap_id != 0)
    {
      set_reason (out_reason, g_strdup (_("A scrap lies here already. Take it out first.")));
      return TRUE;
    }

  return FALSE;
}

/* --- targets --- */

static GPtrArray *
open_places (const OddHand        *hand,
             GPtrArray            *slots,
             const OddSearch      *search,
             const OddSnapOptions *options,
             char                **out_reason)
{
  GPtrArray *places;

  if (slots->len == 0)
    {
      g_autofree char *least = odd_length_format (search->min_height_mm, ODD_UNIT_CM);

      set_reason (out_reason, g_strdup_printf (_("A seam here would leave a patch narrower than %s."), least));
      return places_new ();
    }
  places = whole_places (hand, slots, search, options);
  if (places->len > 0)
    return places;

  g_ptr_array_unref (places);
  places = row_places (hand, slots->pdata[0], search, options);
  tell_shortage (out_reason, hand, slots->pdata[0], search, places->len > 0);

  return places;
}

static gboolean
covers_all (GPtrArray *places)
{
  for (guint i = 0; i < places->len; i++)
    if (((OddPlace *) places->pdata[i])->covers_all)
      return TRUE;

  return FALSE;
}

static void
tell_rest (char      **out_reason,
           GPtrArray  *places)
{
  double short_mm = INFINITY;
  g_autofree char *by = NULL;

  for (guint i = 0; i < places->len; i++)
    {
      const OddPlace *place = places->pdata[i];

      short_mm = MIN (short_mm, place->edge_mm - place->covers_mm);
    }
  by = odd_length_format (round (short_mm), ODD_UNIT_CM);
  set_reason (out_reason, g_strdup_printf (_("%s stay bare beside this scrap."), by));
}

/* Places that fill a bare region which no channel measures. */
static GPtrArray *
shape_places (const OddHand        *hand,
              OddSlot              *slot,
              const OddSearch      *search,
              const OddSnapOptions *options)
{
  GPtrArray *places = places_new ();
  g_autoptr(GArray) finds = odd_search_shape (hand, slot, search);

  for (guint i = 0; i < finds->len; i++)
    {
      const OddFind *find = &g_array_index (finds, OddFind, i);
      OddPlace *place = odd_place_new (hand, slot, g_array_index (hand->of_piece, guint, find->piece), &find->placement, slot->max_height_mm, options);

      if (place == NULL)
        continue;
      place->kind = fabs (remainder (find->turn_deg - options->held_turn_deg, 360.0)) > 45.0 + 1e-9 ? ODD_PLACE_TURNED : ODD_PLACE_FLUSH;
      g_ptr_array_add (places, place);
    }

  return places;
}

/* All of the region where the scrap covers it, else what it takes from this end. */
static GPtrArray *
places_from_end (const OddHand        *hand,
                 GPtrArray            *slots,
                 const OddSearch      *search,
                 const OddSnapOptions *options)
{
  GPtrArray *places = whole_places (hand, slots, search, options);
  GPtrArray *filling;

  if (covers_all (places) || odd_slot_is_plain (slots->pdata[0]))
    return places;
  filling = shape_places (hand, slots->pdata[0], search, options);
  if (filling->len == 0)
    {
      g_ptr_array_unref (filling);
      return places;
    }
  g_ptr_array_unref (places);

  return filling;
}

/* From the best end that takes the scrap. */
static GPtrArray *
bare_places (const OddHand        *hand,
             const OddTarget      *target,
             const OddSearch      *search,
             const OddSnapOptions *options,
             char                **out_reason)
{
  g_autoptr(GArray) bases = odd_slot_bases (hand->job, target, options->held_at);
  g_autoptr(OddSlot) first = NULL;

  for (guint i = 0; i < bases->len; i++)
    {
      g_autoptr(GPtrArray) slots = slots_new ();
      GPtrArray *places;

      add_slot (slots, odd_slot_new_bare (hand->job, target, g_array_index (bases, guint, i)));
      if (slots->len == 0)
        continue;
      places = places_from_end (hand, slots, search, options);
      if (places->len > 0 && !covers_all (places))
        tell_rest (out_reason, places);
      if (places->len > 0)
        return places;
      g_ptr_array_unref (places);
      if (first == NULL)
        first = g_ptr_array_steal_index (slots, 0);
    }
  if (first != NULL)
    tell_shortage (out_reason, hand, first, search, FALSE);

  return places_new ();
}

static OddSearch
search_of (OddJob               *job,
           const OddSnapOptions *options)
{
  return (OddSearch) {
    .held_turn_deg = options->held_turn_deg,
    .only_held = options->keep_angle,
    .mirror = options->mirror,
    .keep = KEEP,
    .min_height_mm = job->settings.min_side_mm,
  };
}

GPtrArray *
odd_snap_places (OddJob               *job,
                 const OddTarget      *target,
                 OddId                 scrap_id,
                 const OddSnapOptions *options,
                 char                **out_reason)
{
  OddScrap *scrap = odd_job_get_scrap (job, scrap_id);
  g_autoptr(OddHand) hand = NULL;
  g_autoptr(GPtrArray) slots = NULL;
  OddSnapOptions own;
  OddSearch search;

  g_return_val_if_fail (scrap != NULL, places_new ());

  if (out_reason != NULL)
    *out_reason = NULL;
  odd_snap_options_init (&own);
  if (options != NULL)
    own = *options;
  if (is_ruled_out (job, target, scrap, out_reason))
    return places_new ();
  hand = odd_hand_new (job, scrap);
  if (hand->pieces->len == 0)
    {
      set_reason (out_reason, g_strdup_printf (_("Nothing is left of scrap %u."), scrap->number));
      return places_new ();
    }

  search = search_of (job, &own);
  switch (target->kind)
    {
    case ODD_TARGET_EDGE:
      slots = edge_slots (job, target, own.max_tilt_deg);
      return rank (open_places (hand, slots, &search, &own, out_reason));
    case ODD_TARGET_BARE:
      return rank (bare_places (hand, target, &search, &own, out_reason));
    default:
      slots = slots_new ();
      add_slot (slots, odd_slot_new_panel (job, target, panel_width (job, &own)));
      return rank (open_places (hand, slots, &search, &own, out_reason));
    }
}

/* --- which scraps fit here? --- */

static GPtrArray *
straight_slots (OddJob          *job,
                const OddTarget *target)
{
  GPtrArray *slots = slots_new ();
  g_autoptr(GArray) bases = NULL;

  switch (target->kind)
    {
    case ODD_TARGET_EDGE:
      add_slot (slots, odd_slot_new_edge (job, target, 0.0));
      break;
    case ODD_TARGET_BARE:
      bases = odd_slot_bases (job, target, odd_point (NAN, NAN));
      if (bases->len > 0)
        add_slot (slots, odd_slot_new_bare (job, target, g_array_index (bases, guint, 0)));
      break;
    default:
      add_slot (slots, odd_slot_new_panel (job, target, job->settings.column_width_mm));
      break;
    }

  return slots;
}

static int
compare_fits (gconstpointer a,
              gconstpointer b)
{
  const OddFit *p = a;
  const OddFit *q = b;

  if (p->score != q->score)
    return p->score < q->score ? -1 : 1;

  return (p->scrap_id > q->scrap_id) - (p->scrap_id < q->scrap_id);
}

/* The best place of one scrap; FALSE when it does not take the whole. */
static gboolean
fit_scrap (OddJob          *job,
           GPtrArray       *slots,
           OddScrap        *scrap,
           const OddSearch *search,
           OddFit          *out)
{
  g_autoptr(OddHand) hand = odd_hand_new (job, scrap);
  g_autoptr(GPtrArray) places = NULL;
  OddSnapOptions options;
  gboolean found = FALSE;

  odd_snap_options_init (&options);
  options.held_turn_deg = NAN;
  places = ((OddSlot *) slots->pdata[0])->target.kind == ODD_TARGET_BARE ? places_from_end (hand, slots, search, &options)
                                                                         : whole_places (hand, slots, search, &options);
  for (guint i = 0; i < places->len; i++)
    {
      const OddPlace *place = places->pdata[i];

      if (!place->covers_all || (found && place->score >= out->score))
        continue;
      *out = (OddFit) { scrap->id, place->gain_mm, place->score };
      found = TRUE;
    }

  return found;
}

GArray *
odd_snap_which_fit (OddJob          *job,
                    const OddTarget *target,
                    GCancellable    *cancellable)
{
  GArray *fits = g_array_new (FALSE, FALSE, sizeof (OddFit));
  g_autoptr(GPtrArray) slots = straight_slots (job, target);
  const OddSearch search = { .held_turn_deg = NAN, .keep = 1, .min_height_mm = job->settings.min_side_mm };

  for (guint i = 0; slots->len > 0 && i < job->scraps->len && !g_cancellable_is_cancelled (cancellable); i++)
    {
      OddScrap *scrap = job->scraps->pdata[i];
      OddFit fit;

      if (odd_job_get_scrap_state (job, scrap->id) == ODD_SCRAP_FREE && fit_scrap (job, slots, scrap, &search, &fit))
        g_array_append_val (fits, fit);
    }
  g_array_sort (fits, compare_fits);

  return fits;
}
