/* Fewest stops.
 *
 * Nothing is lost by doing at a stop all that can be done there. So a plan is no more than a sequence of stations; with one, each operation falls to the first stop
 * at its station that what it waits for allows, in one pass over the seams.
 *
 * The sequence is searched for over classes: seams with the same operations left that wait for the same classes go the same way whatever the
 * sequence is. A grid has two classes, whatever its size. From a state of the classes at least as many stops remain as the longest chain of operations changes
 * stations; a search that deepens by one stop at a time (never past that bound) finds the least number. Where the finishes are so mixed that there are more than
 * CLASSES_AT_MOST classes the rest is left out of the search, and where STATES_AT_MOST states do not settle it, it goes on by the bound alone; both only cost stops,
 * as the pass over the seams adds what is missing.
 */
#include "config.h"

#include "sewing/plan-graph.h"

#include <string.h>

#define CLASSES_AT_MOST 64
#define OPERATIONS_AT_MOST 16      /* of one class */
#define STATES_AT_MOST 20000
#define UNCLASSED G_MAXUINT8

typedef struct
{
  guint8 stations[OPERATIONS_AT_MOST];
  guint8 n;
  guint8 sewn;                     /* so many of them sew it */
  guint64 after_all;               /* classes that must be through */
  guint64 after_sewn;              /* classes that must be sewn */
  guint64 above;                   /* all classes that are sewn, or through, when this one may begin */
  guint64 through;                 /* those of them that are through */
  guint8 tails[OPERATIONS_AT_MOST + 1];   /* stops from this operation on, to the very end */
} Class;

typedef struct
{
  Class classes[CLASSES_AT_MOST];
  guint n;
  guint states;                    /* looked at so far */
  GArray *stations;                /* guint8: found so far */
} Search;

typedef struct { guint8 at[CLASSES_AT_MOST]; } State;

/* --- classes --- */

/* What is waited for by way of another class need not be said. */
static void
reduce (const Search *self,
        Class        *class)
{
  const guint64 waits = class->after_all | class->after_sewn;

  for (guint i = 0; i < self->n; i++)
    if ((waits >> i) & 1)
      {
        class->above |= self->classes[i].above;
        class->through |= self->classes[i].through;
      }
  class->after_all &= ~class->through;
  class->after_sewn &= ~(class->above | class->through | class->after_all);
  class->above |= waits;
  class->through |= class->after_all;
}

static gboolean
class_equal (const Class *a,
             const Class *b)
{
  return a->n == b->n && a->sewn == b->sewn && a->after_all == b->after_all && a->after_sewn == b->after_sewn &&
         memcmp (a->stations, b->stations, a->n) == 0;
}

static guint8
classify (Search *self,
          Class  *class)
{
  reduce (self, class);
  for (guint i = 0; i < self->n; i++)
    if (class_equal (&self->classes[i], class))
      return i;
  if (self->n == CLASSES_AT_MOST)
    return UNCLASSED;
  self->classes[self->n] = *class;
  return self->n++;
}

static Class
class_of (const OddGraph    *graph,
          const OddSeamWork *work,
          guint              from,
          guint              limit)
{
  Class class = { 0 };

  for (guint i = from; i < limit && class.n < OPERATIONS_AT_MOST; i++)
    if (odd_graph_plans (graph, work, i))
      {
        class.stations[class.n++] = work->finish->operations[i].station;
        if (i <= work->first_sew)
          class.sewn = class.n;
      }
  return class;
}

/* Stops that the longest chain from each operation takes, its own counted. */
static void
measure_tails (Search *self)
{
  for (guint c = self->n; c-- > 0; )
    {
      Class *class = &self->classes[c];

      for (guint k = class->n; k-- > 0; )
        {
          guint8 tail = k + 1 < class->n ? class->tails[k + 1] + (class->stations[k + 1] != class->stations[k]) : 1;

          for (guint d = c + 1; d < self->n; d++)
            {
              const Class *next = &self->classes[d];
              const gboolean follows = (k + 1 == class->n && ((next->after_all >> c) & 1)) ||
                                       (k + 1 == class->sewn && ((next->after_sewn >> c) & 1));

              if (follows && next->n > 0)
                tail = MAX (tail, next->tails[0] + (next->stations[0] != class->stations[k]));
            }
          class->tails[k] = tail;
        }
    }
}

/* --- search --- */

static gboolean
may_go_on (const Search *self,
           const State  *state,
           guint         c)
{
  const Class *class = &self->classes[c];

  if (state->at[c] == class->n)
    return FALSE;
  for (guint i = 0; state->at[c] == 0 && i < c; i++)
    if ((((class->after_all >> i) & 1) && state->at[i] < self->classes[i].n) ||
        (((class->after_sewn >> i) & 1) && state->at[i] < self->classes[i].sewn))
      return FALSE;
  return TRUE;
}

/* All that can be done at a station. A class waits only for classes before it, so one pass does. */
static guint
work_off (const Search *self,
          State        *state,
          OddStation    station)
{
  guint n = 0;

  for (guint c = 0; c < self->n; c++)
    while (may_go_on (self, state, c) && self->classes[c].stations[state->at[c]] == station)
      {
        state->at[c]++;
        n++;
      }
  return n;
}

static guint
stops_left (const Search *self,
            const State  *state)
{
  guint most = 0;

  for (guint c = 0; c < self->n; c++)
    if (state->at[c] < self->classes[c].n)
      most = MAX (most, self->classes[c].tails[state->at[c]]);
  return most;
}

typedef struct { State state; OddStation station; guint left, n; } Step;

/* The stations where something can be done, the most promising first. */
static guint
look_ahead (Search      *self,
            const State *state,
            Step         steps[ODD_N_STATIONS])
{
  guint n = 0;

  for (guint s = 0; s < ODD_N_STATIONS; s++)
    {
      Step step = { *state, s, 0, 0 };
      guint at = n;

      step.n = work_off (self, &step.state, s);
      if (step.n == 0)
        continue;
      step.left = stops_left (self, &step.state);
      for (; at > 0 && (steps[at - 1].left > step.left || (steps[at - 1].left == step.left && steps[at - 1].n < step.n)); at--)
        steps[at] = steps[at - 1];
      steps[at] = step;
      n++;
    }
  return n;
}

static gboolean
deepen (Search      *self,
        const State *state,
        guint        stops)
{
  Step steps[ODD_N_STATIONS];
  guint n;

  if (stops_left (self, state) == 0)
    return TRUE;
  if (stops == 0 || self->states++ > STATES_AT_MOST)
    return FALSE;
  n = look_ahead (self, state, steps);
  for (guint i = 0; i < n; i++)
    {
      const guint8 station = steps[i].station;

      if (steps[i].left > stops - 1)
        continue;
      g_array_append_val (self->stations, station);
      if (deepen (self, &steps[i].state, stops - 1))
        return TRUE;
      g_array_set_size (self->stations, self->stations->len - 1);
    }
  return FALSE;
}

static void
go_on_by_bound (Search *self,
                State   state)
{
  Step steps[ODD_N_STATIONS];

  while (look_ahead (self, &state, steps) > 0)
    {
      const guint8 station = steps[0].station;

      g_array_append_val (self->stations, station);
      state = steps[0].state;
    }
}

/* Appends the stops that the classes need to @stations; what can be done at its last one is done there. */
static void
find_stations (Search *self,
               GArray *stations)
{
  State state = { { 0 } };

  self->stations = stations;
  measure_tails (self);
  if (stations->len > 0)
    work_off (self, &state, g_array_index (stations, guint8, stations->len - 1));
  for (guint stops = stops_left (self, &state); self->states <= STATES_AT_MOST; stops++)
    if (deepen (self, &state, stops))
      return;
  go_on_by_bound (self, state);
}

/* --- from the sequence to the seams --- */

static gboolean
is_before (const OddPlaced *a,
           const OddPlaced *b)
{
  if (a->stop != b->stop)
    return a->stop < b->stop;
  return a->phase != b->phase ? a->phase < b->phase : a->level < b->level;
}

static void
start_not_before (OddPlaced       *start,
                  const OddPlaced *when)
{
  if (is_before (start, when))
    *start = *when;
}

/* The first stop at a station from @stop on; stations are added where the sequence ends too early. */
static guint
find_stop (OddWalk    *self,
           guint       stop,
           OddStation  station)
{
  const guint8 added = station;

  for (; stop < self->stations->len; stop++)
    if (g_array_index (self->stations, guint8, stop) == station)
      return stop;
  g_array_append_val (self->stations, added);
  return stop;
}

static void
place (OddWalk *self,
       guint    index,
       guint    limit)
{
  const OddSeamWork *work = &self->graph->works[index];
  OddPlaced when = self->start[index];

  for (guint i = self->done[index]; i < limit; i++)
    {
      if (odd_graph_plans (self->graph, work, i))
        {
          OddPlaced placed = { 0, self->phase, 0, index, i };

          placed.stop = find_stop (self, when.stop, work->finish->operations[i].station);
          placed.level = placed.stop == when.stop && when.phase == self->phase ? when.level : 0;
          g_array_append_val (self->placed, placed);
          when = placed;
          when.level++;
        }
      for (guint w = 0; w < work->n_waits; w++)
        if (i + 1 == (work->waits[w].all ? work->finish->n_operations : work->first_sew + 1))
          start_not_before (&self->start[work->waits[w].work], &when);
    }
  self->done[index] = limit;
  self->start[index] = when;
}

void
odd_walk_init (OddWalk  *self,
               OddGraph *graph)
{
  self->graph = graph;
  self->stations = g_array_new (FALSE, FALSE, sizeof (guint8));
  self->placed = g_array_new (FALSE, FALSE, sizeof (OddPlaced));
  self->phase = 0;
  self->done = g_new (guint, graph->n_works + 1);
  self->start = g_new0 (OddPlaced, graph->n_works + 1);
  for (guint i = 0; i < graph->n_works; i++)
    self->done[i] = graph->works[i].from;
}

void
odd_walk_clear (OddWalk *self)
{
  g_array_unref (self->stations);
  g_array_unref (self->placed);
  g_free (self->done);
  g_free (self->start);
}

static void
fill_classes (Search      *search,
              OddWalk     *walk,
              const guint *works,
              const guint *limits,
              guint        n)
{
  OddGraph *graph = walk->graph;
  g_autofree guint64 *after_all = g_new0 (guint64, graph->n_works + 1);
  g_autofree guint64 *after_sewn = g_new0 (guint64, graph->n_works + 1);

  for (guint i = 0; i < n; i++)
    {
      const OddSeamWork *work = &graph->works[works[i]];
      Class class = class_of (graph, work, walk->done[works[i]], limits[i]);
      guint8 c;

      class.after_all = after_all[works[i]];
      class.after_sewn = after_sewn[works[i]];
      c = class.n > 0 ? classify (search, &class) : UNCLASSED;
      for (guint w = 0; c != UNCLASSED && w < work->n_waits; w++)
        if (work->waits[w].all)
          after_all[work->waits[w].work] |= G_GUINT64_CONSTANT (1) << c;
        else if (class.sewn > 0)
          after_sewn[work->waits[w].work] |= G_GUINT64_CONSTANT (1) << c;
    }
}

void
odd_walk_add (OddWalk     *self,
              const guint *works,
              const guint *limits,
              guint        n)
{
  g_autofree Search *search = g_new0 (Search, 1);
  const guint current = self->stations->len > 0 ? self->stations->len - 1 : 0;
  const OddPlaced here = { current, self->phase, 0, 0, 0 };

  fill_classes (search, self, works, limits, n);
  find_stations (search, self->stations);
  for (guint i = 0; i < n; i++)
    {
      start_not_before (&self->start[works[i]], &here);
      place (self, works[i], limits[i]);
    }
  self->phase++;
}
