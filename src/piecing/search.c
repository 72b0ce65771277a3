/* The search for places.
 *
 * A turn is worth trying when it lays an edge of the scrap along the seam or across it; the angle at which the scrap is held is
 * tried besides. For every turn the cloth is parted in slabs once, and for every slot (tilt of the seam) an upper bound of the height is read
 * off. Then the turns are tried in full in the order of their bounds, until no bound can beat the few kept of its class: of some 450
 * candidates of a scrap with 16 corners a few dozen are tried.
 */
#include "config.h"

#include "piecing/search.h"

/* Shorter edges do not lead a ruler. */
#define FLUSH_EDGE_MM 20.0
/* Widths tried for the first patch of a row. */
#define N_ROW_WIDTHS 10
#define N_CLASSES 8
/* Turns nearer to one another than this are one. */
#define SAME_TURN_DEG 0.05

typedef struct
{
  OddFind find;
  guint class;              /* 0, 1: near to and far from the hand's angle; 2: tilted; 3: as held; 4 .. 7: the same, clear of zones */
  double bound_mm2;
} Try;

/* --- turns --- */

/* Turns in [0, 360) that lay one of the longer edges along x, or along y; nearer than 0.05 degrees to one another are one. */
static void
add_turn (GArray *turns,
          double  turn_deg)
{
  turn_deg = fmod (turn_deg + 720.0, 360.0);
  for (guint i = 0; i < turns->len; i++)
    {
      const double apart = fabs (g_array_index (turns, double, i) - turn_deg);

      if (MIN (apart, 360.0 - apart) < SAME_TURN_DEG)
        return;
    }
  g_array_append_val (turns, turn_deg);
}

static GArray *
flush_turns (OddPolygon *polygon,
             gboolean    mirror)
{
  GArray *turns = g_array_new (FALSE, FALSE, sizeof (double));
  gsize n = 0;
  const OddPoint *ring = odd_polygon_get_ring (polygon, &n);

  for (gsize i = 0; i < n; i++)
    {
      const OddPoint d = odd_point_sub (ring[(i + 1) % n], ring[i]);
      double turn_deg;

      if (hypot (d.x, d.y) < FLUSH_EDGE_MM)
        continue;
      turn_deg = -atan2 (d.y, mirror ? -d.x : d.x) * 180.0 / G_PI;
      if (fabs (turn_deg - 90.0 * round (turn_deg / 90.0)) < 1e-9)
        turn_deg = 90.0 * round (turn_deg / 90.0);
      for (guint quarter = 0; quarter < 4; quarter++)
        add_turn (turns, turn_deg + 90.0 * quarter);
    }

  return turns;
}

/* --- one candidate --- */

/* Puts the channel's lower left corner where the slot's cut shape has its own. */
static OddPlacement
placement_of (const OddSlot    *slot,
              double            turn_deg,
              gboolean          mirror,
              const OddChannel *channel)
{
  const double dy = -slot->base_allowance_mm - channel->y;
  const double dx = slot->cut_left_mm - channel->x + slot->shear * dy;
  const OddPlacement in_slot = { turn_deg, mirror, { dx, dy } };

  return odd_placement_compose (&slot->frame, &in_slot);
}

static double
finished_width (const OddSlot *slot)
{
  return slot->cut_width_mm - slot->left_allowance_mm - slot->right_allowance_mm;
}

/* A bare region that is low itself may be filled all the same. */
static gboolean
is_too_low (const OddSlot   *slot,
            const OddSearch *search,
            double           height_mm)
{
  return height_mm < search->min_height_mm - ODD_TOLERANCE_MM && !odd_slot_is_whole (slot, height_mm);
}

static gboolean
fit (OddSlabs        *slabs,
     const OddSlot   *slot,
     const OddSearch *search,
     OddFind         *find)
{
  OddChannel channel;

  if (!odd_slabs_tallest (slabs, slot->shear, slot->cut_width_mm, &channel))
    return FALSE;
  find->height_mm = odd_slot_height (slot, channel.height, search->min_height_mm);
  if (is_too_low (slot, search, find->height_mm))
    return FALSE;
  find->worth_mm2 = find->height_mm * finished_width (slot) - slot->panel_trimmed_mm2;
  find->placement = placement_of (slot, find->turn_deg, find->mirror, &channel);

  return TRUE;
}

gboolean
odd_search_refit (const OddHand   *hand,
                  const OddSlot   *slot,
                  const OddSearch *search,
                  OddFind         *find)
{
  g_autoptr(OddSlabs) slabs = NULL;

  OddPolygon *piece = hand->pieces->pdata[g_array_index (hand->of_piece, guint, find->piece)];

  if (find->piece >= hand->n_plain || piece == hand->search->pdata[find->piece])
    return TRUE;

  slabs = odd_slabs_new (piece, find->turn_deg, find->mirror);

  return fit (slabs, slot, search, find);
}

/* --- all candidates --- */

static guint
class_of (const OddHand   *hand,
          const OddSlot   *slot,
          const OddSearch *search,
          const OddFind   *find)
{
  const double turned = remainder (slot->frame.turn_deg + find->turn_deg - search->held_turn_deg, 360.0);
  const guint clear = find->piece >= hand->n_plain ? 4 : 0;

  if (slot->tilt_deg != 0.0)
    return 2 + clear;
  if (find->as_held)
    return 3 + clear;

  return (isfinite (turned) && fabs (turned) > 45.0 + 1e-9 ? 1 : 0) + clear;
}

static void
bound_turn (const OddHand   *hand,
            OddSlot *const  *slots,
            guint            n_slots,
            const OddSearch *search,
            OddSlabs        *slabs,
            const OddFind   *template,
            GArray          *tries)
{
  odd_slabs_set (slabs, hand->search->pdata[template->piece], template->turn_deg, template->mirror);
  for (guint i = 0; i < n_slots; i++)
    {
      Try try = { *template, 0, 0.0 };
      double height_mm;

      try.find.slot = i;
      height_mm = odd_slot_height (slots[i], odd_slabs_bound (slabs, slots[i]->cut_width_mm), search->min_height_mm);
      if (is_too_low (slots[i], search, height_mm))
        continue;
      try.class = class_of (hand, slots[i], search, &try.find);
      try.bound_mm2 = height_mm * finished_width (slots[i]) - slots[i]->panel_trimmed_mm2;
      g_array_append_val (tries, try);
    }
}

void
odd_search_foreach_turn (const OddHand   *hand,
                         double           frame_turn_deg,
                         const OddSearch *search,
                         OddTurnFunc      func,
                         gpointer         data)
{
  for (guint piece = 0; piece < hand->search->len; piece++)
    for (guint mirror = 0; mirror <= (search->mirror && hand->may_mirror ? 1 : 0); mirror++)
      {
        OddFind template = { .piece = piece, .mirror = mirror };
        g_autoptr(GArray) turns = NULL;

        if (!isnan (search->held_turn_deg))
          {
            template.turn_deg = fmod (search->held_turn_deg - frame_turn_deg + 720.0, 360.0);
            template.as_held = TRUE;
            func (&template, data);
            template.as_held = FALSE;
          }
        if (search->only_held)
          continue;
        turns = flush_turns (hand->search->pdata[piece], mirror);
        for (guint i = 0; i < turns->len; i++)
          {
            template.turn_deg = g_array_index (turns, double, i);
            func (&template, data);
          }
      }
}

typedef struct
{
  const OddHand *hand;
  OddSlot *const *slots;
  guint n_slots;
  const OddSearch *search;
  OddSlabs *slabs;
  GArray *tries;
} Bounding;

static void
bound_template (const OddFind *template,
                gpointer       data)
{
  Bounding *b = data;

  /* A held scrap keeps its angle to the panel, not to a tilted seam. */
  if (!template->as_held)
    {
      bound_turn (b->hand, b->slots, b->n_slots, b->search, b->slabs, template, b->tries);
      return;
    }
  for (guint i = 0; i < b->n_slots; i++)
    {
      OddFind held = *template;
      const guint before = b->tries->len;

      held.turn_deg -= b->slots[i]->frame.turn_deg - b->slots[0]->frame.turn_deg;
      bound_turn (b->hand, b->slots + i, 1, b->search, b->slabs, &held, b->tries);
      for (guint k = before; k < b->tries->len; k++)
        g_array_index (b->tries, Try, k).find.slot = i;
    }
}

/* The tries of one turn: they share its slabs. */
typedef struct
{
  double bound_mm2;         /* the highest of them */
  guint first, n;
} Turn;

static int
compare_turns (gconstpointer a,
               gconstpointer b)
{
  const Turn *p = a;
  const Turn *q = b;

  if (p->bound_mm2 != q->bound_mm2)
    return p->bound_mm2 > q->bound_mm2 ? -1 : 1;

  return p->first < q->first ? -1 : 1;
}

static gboolean
same_turn (const OddFind *a,
           const OddFind *b)
{
  return a->piece == b->piece && a->mirror == b->mirror && a->turn_deg == b->turn_deg;
}

/* From the highest bound down. */
static GArray *
turns_by_bound (const GArray *tries)
{
  GArray *turns = g_array_sized_new (FALSE, FALSE, sizeof (Turn), tries->len);

  for (guint i = 0; i < tries->len; i++)
    {
      const Try *try = &g_array_index (tries, Try, i);
      const Turn turn = { try->bound_mm2, i, 1 };
      Turn *last = turns->len > 0 ? &g_array_index (turns, Turn, turns->len - 1) : NULL;

      if (last == NULL || !same_turn (&g_array_index (tries, Try, last->first).find, &try->find))
        {
          g_array_append_val (turns, turn);
          continue;
        }
      last->n++;
      last->bound_mm2 = MAX (last->bound_mm2, try->bound_mm2);
    }
  g_array_sort (turns, compare_turns);

  return turns;
}

static int
compare_finds (gconstpointer a,
               gconstpointer b)
{
  const OddFind *p = a;
  const OddFind *q = b;

  if (p->worth_mm2 != q->worth_mm2)
    return p->worth_mm2 > q->worth_mm2 ? -1 : 1;
  if (p->slot != q->slot)
    return p->slot < q->slot ? -1 : 1;
  if (p->piece != q->piece)
    return p->piece < q->piece ? -1 : 1;

  return (p->turn_deg > q->turn_deg) - (p->turn_deg < q->turn_deg);
}

/* Keeps the @keep best of a row; returns the worth that the next must beat. */
static double
keep_best (GArray        *best,
           guint          keep,
           const OddFind *find)
{
  guint at = best->len;

  while (at > 0 && g_array_index (best, OddFind, at - 1).worth_mm2 < find->worth_mm2)
    at--;
  if (at < keep)
    g_array_insert_vals (best, at, find, 1);
  if (best->len > keep)
    g_array_set_size (best, keep);

  return best->len == keep ? g_array_index (best, OddFind, keep - 1).worth_mm2 : -INFINITY;
}

static void
try_turn (const OddHand   *hand,
          OddSlot *const  *slots,
          const OddSearch *search,
          OddSlabs        *slabs,
          const Turn      *turn,
          GArray          *tries,
          GArray         **best,
          double          *to_beat)
{
  gboolean set = FALSE;

  for (guint i = turn->first; i < turn->first + turn->n; i++)
    {
      Try *try = &g_array_index (tries, Try, i);

      if (try->bound_mm2 <= to_beat[try->class])
        continue;
      if (!set)
        odd_slabs_set (slabs, hand->search->pdata[try->find.piece], try->find.turn_deg, try->find.mirror);
      set = TRUE;
      if (fit (slabs, slots[try->find.slot], search, &try->find))
        to_beat[try->class] = keep_best (best[try->class], search->keep, &try->find);
    }
}

GArray *
odd_search_whole (const OddHand   *hand,
                  OddSlot *const  *slots,
                  guint            n_slots,
                  const OddSearch *search)
{
  g_autoptr(GArray) tries = g_array_new (FALSE, FALSE, sizeof (Try));
  g_autoptr(GArray) turns = NULL;
  GArray *best[N_CLASSES];
  double to_beat[N_CLASSES];
  GArray *finds = g_array_new (FALSE, FALSE, sizeof (OddFind));
  g_autoptr(OddSlabs) slabs = NULL;

  if (n_slots == 0 || hand->search->len == 0)
    return finds;

  for (guint i = 0; i < N_CLASSES; i++)
    {
      best[i] = g_array_new (FALSE, FALSE, sizeof (OddFind));
      to_beat[i] = -INFINITY;
    }
  slabs = odd_slabs_new (hand->search->pdata[0], 0.0, FALSE);
  odd_search_foreach_turn (hand, slots[0]->frame.turn_deg, search, bound_template,
                           &(Bounding) { hand, slots, n_slots, search, slabs, tries });
  turns = turns_by_bound (tries);
  for (guint i = 0; i < turns->len; i++)
    try_turn (hand, slots, search, slabs, &g_array_index (turns, Turn, i), tries, best, to_beat);
  for (guint i = 0; i < N_CLASSES; i++)
    {
      g_array_append_vals (finds, best[i]->data, best[i]->len);
      g_array_unref (best[i]);
    }
  g_array_sort (finds, compare_finds);

  return finds;
}

/* --- rows --- */

typedef struct
{
  const OddHand *hand;
  OddSlot *slot;
  const OddSearch *search;
  gboolean at_end;
  OddSlabs *slabs;
  GArray *best;
  double to_beat;
} Rows;

static void
try_row_width (Rows          *rows,
               const OddFind *template,
               double         width_mm,
               OddFind       *best)
{
  g_autoptr(OddSlot) row = odd_slot_new_row (rows->slot, width_mm, rows->at_end);
  OddFind find = *template;

  find.row_width_mm = width_mm;
  if (odd_slot_height (row, odd_slabs_bound (rows->slabs, row->cut_width_mm), 0.0) * width_mm <= best->worth_mm2)
    return;
  if (fit (rows->slabs, row, rows->search, &find) && find.worth_mm2 > best->worth_mm2)
    *best = find;
}

static void
row_of_turn (const OddFind *template,
             gpointer       data)
{
  Rows *rows = data;
  /* measured along the base, where the sides may slant */
  const double least_mm = rows->search->min_height_mm * sqrt (1.0 + rows->slot->shear * rows->slot->shear);
  const double taken_mm = rows->slot->cut_width_mm - finished_width (rows->slot);
  double widest_mm = finished_width (rows->slot) - least_mm;
  OddFind best = { .worth_mm2 = MAX (rows->to_beat, 0.0) };

  odd_slabs_set (rows->slabs, rows->hand->search->pdata[template->piece], template->turn_deg, template->mirror);
  widest_mm = MIN (widest_mm, odd_slabs_get_width (rows->slabs) - taken_mm);
  if (widest_mm < least_mm || widest_mm * odd_slabs_get_height (rows->slabs) <= best.worth_mm2)
    return;

  for (guint i = 0; i < N_ROW_WIDTHS; i++)
    try_row_width (rows, template, widest_mm + (least_mm - widest_mm) * i / (N_ROW_WIDTHS - 1), &best);
  if (best.height_mm > 0.0)
    rows->to_beat = keep_best (rows->best, rows->search->keep, &best);
}

GArray *
odd_search_rows (const OddHand   *hand,
                 OddSlot         *slot,
                 const OddSearch *search,
                 gboolean         at_end)
{
  Rows rows = { hand, slot, search, at_end, NULL, g_array_new (FALSE, FALSE, sizeof (OddFind)), 0.0 };
  g_autoptr(OddSlabs) slabs = NULL;

  if (hand->search->len == 0)
    return rows.best;

  rows.slabs = slabs = odd_slabs_new (hand->search->pdata[0], 0.0, FALSE);
  odd_search_foreach_turn (hand, slot->frame.turn_deg, search, row_of_turn, &rows);

  return rows.best;
}

/* --- what is missing --- */

typedef struct
{
  const OddHand *hand;
  const OddSlot *slot;
  OddSlabs *slabs;
  double cut_height_mm;
  double widest_mm;
} Widest;

static void
widen (const OddFind *template,
       gpointer       data)
{
  Widest *w = data;
  OddChannel channel;
  double low, high;

  odd_slabs_set (w->slabs, w->hand->search->pdata[template->piece], template->turn_deg, template->mirror);
  low = w->widest_mm;
  high = odd_slabs_get_width (w->slabs);
  if (high <= low || odd_slabs_bound (w->slabs, low) < w->cut_height_mm)
    return;
  while (high - low > 0.05)
    {
      const double width_mm = (low + high) / 2.0;

      if (odd_slabs_bound (w->slabs, width_mm) >= w->cut_height_mm
          && odd_slabs_tallest (w->slabs, w->slot->shear, width_mm, &channel) && channel.height >= w->cut_height_mm)
        low = width_mm;
      else
        high = width_mm;
    }
  w->widest_mm = low;
}

double
odd_search_shortage (const OddHand   *hand,
                     const OddSlot   *slot,
                     const OddSearch *search)
{
  g_autoptr(OddSlabs) slabs = NULL;
  const double height_mm = slot->base_allowance_mm + slot->far_allowance_mm + search->min_height_mm;
  Widest widest = { hand, slot, NULL, height_mm, 0.0 };

  if (hand->search->len == 0)
    return slot->cut_width_mm;

  widest.slabs = slabs = odd_slabs_new (hand->search->pdata[0], 0.0, FALSE);
  odd_search_foreach_turn (hand, slot->frame.turn_deg, search, widen, &widest);

  return MAX (0.0, slot->cut_width_mm - widest.widest_mm);
}
