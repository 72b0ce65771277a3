/* In which order the machine settings of each batch are used. A batch may begin and end with any of its settings, so the least number of changes over
 * the whole walk is a shortest path over (batch, last setting); within a batch it runs over the sets of settings used so far (Held and Karp, 1962). Three threads and
 * four stitches are 12 settings. A batch of more begins from the cheapest end of the one before, goes on to the nearest setting each time, and is bettered by turning parts
 * of the way round as long as that saves a change.
 */
#include "config.h"

#include "sewing/plan-graph.h"

#define SETTINGS_AT_MOST 12        /* of one batch, for the exact way: 12 x 2^12 numbers */
#define NEVER (G_MAXUINT / 4)

static guint
count_changes (const OddMachineSetting *a,
               const OddMachineSetting *b)
{
  return (a->shade != b->shade) + (g_strcmp0 (a->stitch, b->stitch) != 0 || a->topstitch != b->topstitch);
}

/* One batch: settings by place, and the least changes from the very beginning by set and last place. */
typedef struct
{
  guint n;
  guint8 members[32];
  guint *cost;                     /* [set * n + last]; NULL: too many settings, order[] is used */
  guint8 *before;                  /* the place before, or n: the batch begins here */
  guint8 *came_from;               /* by first place: last place of the batch before */
  guint8 order[32];                /* places */
  guint end_cost;
} Batch;

static void
batch_init (Batch   *self,
            guint32  needed)
{
  for (guint s = 0; s < 32; s++)
    if ((needed >> s) & 1)
      self->members[self->n++] = s;
  self->came_from = g_new0 (guint8, self->n);
  if (self->n > SETTINGS_AT_MOST)
    return;
  self->cost = g_new (guint, self->n << self->n);
  self->before = g_new (guint8, self->n << self->n);
  for (guint i = 0; i < self->n << self->n; i++)
    self->cost[i] = NEVER;
}

static void
batch_clear (Batch *self)
{
  g_free (self->cost);
  g_free (self->before);
  g_free (self->came_from);
}

static guint
get_end_cost (const Batch *self,
              guint        last)
{
  if (self->cost == NULL)
    return last == self->order[self->n - 1] ? self->end_cost : NEVER;
  return self->cost[((1u << self->n) - 1) * self->n + last];
}

static guint
get_cheapest_end (const Batch *self)
{
  guint last = 0;

  for (guint p = 1; p < self->n; p++)
    if (get_end_cost (self, p) < get_end_cost (self, last))
      last = p;
  return last;
}

static void
begin (Batch                   *self,
       const Batch             *previous,
       const OddMachineSetting *settings)
{
  for (guint i = 0; i < self->n; i++)
    {
      guint *cost = &self->cost[(1u << i) * self->n + i];

      self->before[(1u << i) * self->n + i] = self->n;
      if (previous == NULL)
        *cost = 0;
      for (guint p = 0; previous != NULL && p < previous->n; p++)
        {
          const guint with = get_end_cost (previous, p) +
                             count_changes (&settings[previous->members[p]], &settings[self->members[i]]);

          if (with < *cost)
            {
              *cost = with;
              self->came_from[i] = p;
            }
        }
    }
}

static void
spread (Batch                   *self,
        const OddMachineSetting *settings)
{
  for (guint set = 1; set < 1u << self->n; set++)
    for (guint last = 0; last < self->n; last++)
      for (guint next = 0; next < self->n; next++)
        {
          const guint cost = self->cost[set * self->n + last];
          const guint to = (set | (1u << next)) * self->n + next;
          guint with;

          if (((set >> next) & 1) || cost >= NEVER)
            continue;
          with = cost + count_changes (&settings[self->members[last]], &settings[self->members[next]]);
          if (with < self->cost[to])
            {
              self->cost[to] = with;
              self->before[to] = last;
            }
        }
}

/* --- more settings than the exact way takes --- */

/* From the place at @at in the order to the next; @start: what is set before, or NULL. Nothing beyond the ends. */
static guint
count_step (const Batch             *self,
            const OddMachineSetting *start,
            const OddMachineSetting *settings,
            guint                    at)
{
  const OddMachineSetting *from = at > 0 ? &settings[self->members[self->order[at - 1]]] : start;

  return from != NULL && at < self->n ? count_changes (from, &settings[self->members[self->order[at]]]) : 0;
}

static void
turn_round (guint8 *order,
            guint   first,
            guint   last)
{
  for (; first < last; first++, last--)
    {
      const guint8 was = order[first];

      order[first] = order[last];
      order[last] = was;
    }
}

static void
go_to_nearest (Batch                   *self,
               const OddMachineSetting *start,
               const OddMachineSetting *settings)
{
  for (guint i = 0; i < self->n; i++)
    self->order[i] = i;
  for (guint at = 0; at < self->n; at++)
    {
      const guint8 was = self->order[at];
      guint nearest = at, least = count_step (self, start, settings, at);

      for (guint k = at + 1; k < self->n; k++)
        {
          guint changes;

          self->order[at] = self->order[k];
          changes = count_step (self, start, settings, at);
          if (changes < least)
            {
              least = changes;
              nearest = k;
            }
        }
      self->order[at] = was;
      /* the others keep their order */
      for (guint k = nearest; k > at; k--)
        {
          const guint8 moved = self->order[k];

          self->order[k] = self->order[k - 1];
          self->order[k - 1] = moved;
        }
    }
}

/* TRUE when a part of the way was turned round for the better. */
static gboolean
better (Batch                   *self,
        const OddMachineSetting *start,
        const OddMachineSetting *settings)
{
  for (guint i = 0; i + 1 < self->n; i++)
    for (guint k = i + 1; k < self->n; k++)
      {
        const guint was = count_step (self, start, settings, i) + count_step (self, start, settings, k + 1);

        turn_round (self->order, i, k);
        if (count_step (self, start, settings, i) + count_step (self, start, settings, k + 1) < was)
          return TRUE;
        turn_round (self->order, i, k);
      }
  return FALSE;
}

static void
find_order (Batch                   *self,
            const Batch             *previous,
            const OddMachineSetting *settings)
{
  const guint end = previous != NULL ? get_cheapest_end (previous) : 0;
  const OddMachineSetting *start = previous != NULL ? &settings[previous->members[end]] : NULL;

  go_to_nearest (self, start, settings);
  while (better (self, start, settings));
  self->end_cost = previous != NULL ? get_end_cost (previous, end) : 0;
  for (guint at = 0; at < self->n; at++)
    self->end_cost += count_step (self, start, settings, at);
  self->came_from[self->order[0]] = end;
}

/* --- the whole way --- */

/* Ranks by the best way that ends at @last; where the batch before must end. */
static guint
trace (const Batch *self,
       guint        last,
       guint8      *ranks)
{
  guint set = (1u << self->n) - 1;

  if (self->cost == NULL)
    {
      for (guint i = 0; i < self->n; i++)
        ranks[self->members[self->order[i]]] = i;
      return self->came_from[self->order[0]];
    }
  for (guint rank = self->n; rank-- > 0; )
    {
      const guint before = self->before[set * self->n + last];

      ranks[self->members[last]] = rank;
      if (before == self->n)
        break;
      set &= ~(1u << last);
      last = before;
    }
  return self->came_from[last];
}

static guint
count_along (const guint32           *needed,
             guint                    n_batches,
             const OddMachineSetting *settings,
             guint                    n_settings,
             const guint8            *ranks)
{
  const OddMachineSetting *last = NULL;
  guint n = 0;

  for (guint b = 0; b < n_batches; b++)
    for (guint rank = 0; rank < n_settings; rank++)
      for (guint s = 0; s < n_settings; s++)
        if (((needed[b] >> s) & 1) && ranks[b * n_settings + s] == rank)
          {
            n += last != NULL ? count_changes (last, &settings[s]) : 0;
            last = &settings[s];
          }
  return n;
}

guint
odd_settings_order (const guint32           *needed,
                    guint                    n_batches,
                    const OddMachineSetting *settings,
                    guint                    n_settings,
                    guint8                  *out_ranks)
{
  g_autofree Batch *batches = g_new0 (Batch, n_batches + 1);
  guint last = 0;

  for (guint b = 0; b < n_batches; b++)
    {
      const Batch *previous = b > 0 ? &batches[b - 1] : NULL;

      batch_init (&batches[b], needed[b]);
      if (batches[b].cost == NULL)
        {
          find_order (&batches[b], previous, settings);
          continue;
        }
      begin (&batches[b], previous, settings);
      spread (&batches[b], settings);
    }
  last = n_batches > 0 ? get_cheapest_end (&batches[n_batches - 1]) : 0;
  for (guint b = n_batches; b-- > 0; )
    last = trace (&batches[b], last, &out_ranks[b * n_settings]);
  for (guint b = 0; b < n_batches; b++)
    batch_clear (&batches[b]);
  return count_along (needed, n_batches, settings, n_settings, out_ranks);
}
