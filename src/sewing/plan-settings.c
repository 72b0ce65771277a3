/* In which order the machine settings of each batch are used. A batch may begin and end with any of its settings, so the least number of changes over
 * the whole walk is a shortest path over (batch, last setting); within a batch it runs over the sets of settings used so far.
 */
#include "config.h"

#include "sewing/plan-graph.h"

#define SETTINGS_AT_MOST 8         /* of one batch; more are taken in their order */
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
  guint *cost;                     /* [set * n + last] */
  guint8 *before;                  /* the place before, or n: the batch begins here */
  guint8 *came_from;               /* by first place: last place of the batch before */
} Batch;

static void
batch_init (Batch   *self,
            guint32  needed)
{
  for (guint s = 0; s < 32; s++)
    if ((needed >> s) & 1)
      self->members[self->n++] = s;
  if (self->n > SETTINGS_AT_MOST)
    return;
  self->cost = g_new (guint, self->n << self->n);
  self->before = g_new (guint8, self->n << self->n);
  self->came_from = g_new0 (guint8, self->n);
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
    return last + 1 == self->n ? 0 : NEVER;
  return self->cost[((1u << self->n) - 1) * self->n + last];
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
        ranks[self->members[i]] = i;
      return 0;
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
      batch_init (&batches[b], needed[b]);
      if (batches[b].cost == NULL)
        continue;
      begin (&batches[b], b > 0 ? &batches[b - 1] : NULL, settings);
      spread (&batches[b], settings);
    }
  for (guint p = 1; n_batches > 0 && p < batches[n_batches - 1].n; p++)
    if (get_end_cost (&batches[n_batches - 1], p) < get_end_cost (&batches[n_batches - 1], last))
      last = p;
  for (guint b = n_batches; b-- > 0; )
    {
      if (batches[b].cost == NULL)
        last = batches[b].n - 1;
      last = trace (&batches[b], last, &out_ranks[b * n_settings]);
    }
  for (guint b = 0; b < n_batches; b++)
    batch_clear (&batches[b]);
  return count_along (needed, n_batches, settings, n_settings, out_ranks);
}
