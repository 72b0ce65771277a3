#include "config.h"

#include "sewing/plan.h"
#include "sewing/plan-graph.h"
#include "sewing/stage.h"

#include <glib/gi18n.h>
#include <string.h>

#define SETTINGS_AT_MOST 32        /* bits of a set */

static const char *const manner_nicks[] = { "chain", "walks" };
static const char *const manner_names[] = { N_("Chain piecing"), N_("Few walks") };
static const char *const shade_names[] = { N_("pale thread"), N_("middle thread"), N_("dark thread") };
static const char *const key_words[] = { "seam", "cut", "end" };

const char *
odd_manner_get_nick (OddManner manner)
{
  g_return_val_if_fail ((guint) manner < ODD_N_MANNERS, manner_nicks[0]);

  return manner_nicks[manner];
}

gboolean
odd_manner_from_nick (const char *nick,
                      OddManner  *out)
{
  for (guint i = 0; i < ODD_N_MANNERS; i++)
    if (g_strcmp0 (nick, manner_nicks[i]) == 0)
      {
        *out = i;
        return TRUE;
      }
  return FALSE;
}

const char *
odd_manner_get_name (OddManner manner)
{
  g_return_val_if_fail ((guint) manner < ODD_N_MANNERS, "");

  return _(manner_names[manner]);
}

const char *
odd_shade_get_name (OddShade shade)
{
  g_return_val_if_fail ((guint) shade < G_N_ELEMENTS (shade_names), "");

  return _(shade_names[shade]);
}

/* --- keys --- */

gboolean
odd_task_key_equal (const OddTaskKey *a,
                    const OddTaskKey *b)
{
  return a->kind == b->kind && a->id == b->id && a->index == b->index;
}

char *
odd_task_key_dup_text (const OddTaskKey *key)
{
  g_return_val_if_fail (key != NULL && (guint) key->kind < G_N_ELEMENTS (key_words), NULL);

  if (key->kind == ODD_TASK_CUT)
    return g_strdup_printf ("%s-%u", key_words[key->kind], key->id);
  return g_strdup_printf ("%s-%u-%u", key_words[key->kind], key->id, key->index);
}

gboolean
odd_task_key_from_text (const char *text,
                        OddTaskKey *out)
{
  g_auto(GStrv) words = text != NULL ? g_strsplit (text, "-", -1) : NULL;
  guint64 numbers[2] = { 0, 0 };

  for (guint kind = 0; words != NULL && kind < G_N_ELEMENTS (key_words); kind++)
    {
      const guint n = kind == ODD_TASK_CUT ? 1 : 2;
      gboolean right = g_strcmp0 (words[0], key_words[kind]) == 0 && g_strv_length (words) == n + 1;

      for (guint i = 0; right && i < n; i++)
        right = g_ascii_string_to_unsigned (words[i + 1], 10, 0, G_MAXUINT32, &numbers[i], NULL);
      if (!right)
        continue;
      *out = (OddTaskKey) { kind, numbers[0], numbers[1] };
      return TRUE;
    }
  return FALSE;
}

/* --- phases --- */

/* Seams fall to phases by their round; in the manner of few walks there is one phase. @needed: operations of each work, up to and not with. */
static void
add_phases (OddWalk     *walk,
            OddManner    manner,
            const guint *needed)
{
  OddGraph *graph = walk->graph;
  const guint n_phases = manner == ODD_MANNER_CHAIN ? graph->n_rounds[manner] + 1 : 1;
  g_autofree guint *begin = g_new0 (guint, n_phases + 2);
  g_autofree guint *works = g_new (guint, graph->n_works + 1);
  g_autofree guint *limits = g_new (guint, graph->n_works + 1);

  for (guint i = 0; i < graph->n_works; i++)
    if (needed[i] > walk->done[i])
      begin[(manner == ODD_MANNER_CHAIN ? graph->works[i].round[manner] : 0) + 2]++;
  for (guint p = 2; p < n_phases + 2; p++)
    begin[p] += begin[p - 1];
  for (guint i = graph->n_works; i-- > 0; )
    if (needed[i] > walk->done[i])
      {
        const guint at = begin[(manner == ODD_MANNER_CHAIN ? graph->works[i].round[manner] : 0) + 1]++;

        works[at] = i;
        limits[at] = needed[i];
      }
  for (guint p = 0; p < n_phases; p++)
    if (begin[p + 1] > begin[p])
      odd_walk_add (walk, works + begin[p], limits + begin[p], begin[p + 1] - begin[p]);
}

/* What a pinned task waits for, and itself. What a work waits for stands behind it. */
static void
add_pin (OddWalk          *walk,
         OddManner         manner,
         const OddTaskKey *pin)
{
  OddGraph *graph = walk->graph;
  const int at = pin->kind == ODD_TASK_OPERATION ? odd_graph_find (graph, pin->id) : -1;
  g_autofree guint *needed = NULL;

  if (at < 0 || pin->index >= graph->works[at].finish->n_operations || pin->index < walk->done[at])
    return;
  needed = g_new0 (guint, graph->n_works + 1);
  needed[at] = pin->index + 1;
  for (guint i = at + 1; i < graph->n_works; i++)
    {
      const OddSeamWork *work = &graph->works[i];

      for (guint w = 0; w < work->n_waits; w++)
        if (needed[work->waits[w].work] > walk->done[work->waits[w].work] &&
            walk->done[work->waits[w].work] <= graph->works[work->waits[w].work].first_sew)
          needed[i] = MAX (needed[i], work->waits[w].all ? work->finish->n_operations : work->first_sew + 1);
    }
  add_phases (walk, manner, needed);
}

static void
add_rest (OddWalk  *walk,
          OddManner manner)
{
  OddGraph *graph = walk->graph;
  g_autofree guint *needed = g_new0 (guint, graph->n_works + 1);

  for (guint i = 0; i < graph->n_works; i++)
    if (graph->works[i].seam != NULL)
      needed[i] = graph->works[i].finish->n_operations;
  add_phases (walk, manner, needed);
}

/* --- tasks --- */

typedef struct
{
  OddPlan *plan;
  OddGraph *graph;
  GArray *tasks;              /* OddTask */
  GArray *stops;              /* OddStop */
  GArray *settings;           /* OddMachineSetting */
} Writer;

static guint
find_setting (Writer                  *self,
              const OddMachineSetting *wanted)
{
  for (guint i = 0; i < self->settings->len; i++)
    {
      const OddMachineSetting *setting = &g_array_index (self->settings, OddMachineSetting, i);

      if (setting->station == wanted->station && setting->topstitch == wanted->topstitch && setting->shade == wanted->shade &&
          g_strcmp0 (setting->stitch, wanted->stitch) == 0)
        return i;
    }
  g_array_append_vals (self->settings, wanted, 1);
  return self->settings->len - 1;
}

static gboolean
has_setting (OddStation station)
{
  return station == ODD_STATION_SEWING_MACHINE || station == ODD_STATION_OVERLOCKER;
}

static OddWork
work_of (const OddSeamWork *work,
         guint              operation)
{
  switch (work->finish->operations[operation].kind)
    {
    case ODD_OPERATION_SEW:
      return operation == work->first_sew ? ODD_WORK_SEW : ODD_WORK_FINISH;
    case ODD_OPERATION_PRESS:
      return ODD_WORK_PRESS;
    case ODD_OPERATION_TOPSTITCH:
      return ODD_WORK_TOPSTITCH;
    case ODD_OPERATION_NEATEN:
    case ODD_OPERATION_TRIM:
    case ODD_OPERATION_FOLD:
    default:
      return ODD_WORK_FINISH;
    }
}

static const OddEnd *
get_ends (const OddGraph    *graph,
          const OddSeamWork *work)
{
  if (work->sheet < 0)
    return work->textile->joins[work->index].ends;
  return g_array_index (graph->sheets, OddSheet, work->sheet).layout->seams[work->index].ends;
}

static guint
ends_to_back_stitch (const OddGraph    *graph,
                     const OddSeamWork *work)
{
  const OddEnd *ends = get_ends (graph, work);

  return (ends[0].by == 0 ? 1 : 0) | (ends[1].by == 0 ? 2 : 0);
}

static OddTask
make_task (Writer          *self,
           const OddPlaced *placed,
           OddManner        manner)
{
  const OddSeamWork *work = &self->graph->works[placed->work];
  const OddOperation *operation = &work->finish->operations[placed->operation];
  OddMachineSetting setting = { operation->station, NULL, FALSE, ODD_SHADE_MIDDLE };
  OddTask task = { { ODD_TASK_OPERATION, work->seam->id, placed->operation }, operation->station, .at = placed->work };

  if (has_setting (operation->station))
    setting = (OddMachineSetting) { operation->station, operation->stitch, operation->kind == ODD_OPERATION_TOPSTITCH, work->shade };
  task.setting = find_setting (self, &setting);
  task.work = work_of (work, placed->operation);
  task.state = odd_progress_get_state (work->seam->progress, placed->operation);
  task.panel_id = odd_graph_get_panel_id (self->graph, work);
  task.textile_id = odd_graph_get_textile_id (self->graph, work);
  task.round = work->round[manner];
  task.raw_inside = work->raw_inside;
  if (task.work == ODD_WORK_SEW)
    task.secure = ends_to_back_stitch (self->graph, work);
  return task;
}

/* By one member, a guint32 at @offset; what is equal in it keeps its order. */
static void
sort_by (GArray *placed,
         gsize   offset)
{
  const guint n = placed->len;
  g_autofree OddPlaced *was = g_memdup2 (placed->data, n * sizeof (OddPlaced));
  g_autofree guint *begin = NULL;
  guint most = 0;

  for (guint i = 0; i < n; i++)
    most = MAX (most, G_STRUCT_MEMBER (guint32, &was[i], offset));
  begin = g_new0 (guint, most + 2);
  for (guint i = 0; i < n; i++)
    begin[G_STRUCT_MEMBER (guint32, &was[i], offset) + 1]++;
  for (guint i = 1; i < most + 2; i++)
    begin[i] += begin[i - 1];
  for (guint i = 0; i < n; i++)
    g_array_index (placed, OddPlaced, begin[G_STRUCT_MEMBER (guint32, &was[i], offset)]++) = was[i];
}

/* By stop, phase and level; then by seam, as the layouts have them. */
static void
sort_placed (GArray *placed)
{
  sort_by (placed, G_STRUCT_OFFSET (OddPlaced, work));
  sort_by (placed, G_STRUCT_OFFSET (OddPlaced, level));
  sort_by (placed, G_STRUCT_OFFSET (OddPlaced, phase));
  sort_by (placed, G_STRUCT_OFFSET (OddPlaced, stop));
}

static gboolean
same_batch (const OddPlaced *a,
            const OddPlaced *b)
{
  return a->stop == b->stop && a->phase == b->phase && a->level == b->level;
}

/* --- settings: the tasks of a batch come by setting --- */

typedef struct { guint first, n; } Range;

static GArray *
find_batches (const GArray *placed)
{
  GArray *batches = g_array_new (FALSE, FALSE, sizeof (Range));

  for (guint i = 0; i < placed->len; i++)
    {
      const OddPlaced *one = &g_array_index (placed, OddPlaced, i);

      if (i == 0 || !same_batch (one, one - 1))
        g_array_append_val (batches, ((Range) { i, 0 }));
      g_array_index (batches, Range, batches->len - 1).n++;
    }
  return batches;
}

/* Stable, so seams of one setting keep their order. */
static void
sort_batch (Writer       *self,
            Range         range,
            const guint8 *ranks)
{
  const guint n_settings = MIN (self->settings->len, SETTINGS_AT_MOST);
  OddTask *tasks = &g_array_index (self->tasks, OddTask, range.first);
  g_autofree OddTask *was = g_memdup2 (tasks, range.n * sizeof (OddTask));
  guint at = 0;

  for (guint rank = 0; rank < n_settings; rank++)
    for (guint s = 0; s < n_settings; s++)
      for (guint i = 0; ranks[s] == rank && i < range.n; i++)
        if (MIN (was[i].setting, SETTINGS_AT_MOST - 1) == s)
          tasks[at++] = was[i];
}

static gboolean
is_one_bit (guint32 set)
{
  return (set & (set - 1)) == 0;
}

static void
sort_by_settings (Writer       *self,
                  const GArray *batches,
                  OddStation    station)
{
  const guint n_settings = MIN (self->settings->len, SETTINGS_AT_MOST);
  g_autoptr(GArray) needed = g_array_new (FALSE, FALSE, sizeof (guint32));
  g_autoptr(GArray) ranges = g_array_new (FALSE, FALSE, sizeof (Range));
  g_autofree guint8 *ranks = NULL;

  for (guint b = 0; b < batches->len; b++)
    {
      const Range range = g_array_index (batches, Range, b);
      guint32 set = 0;

      if (g_array_index (self->tasks, OddTask, range.first).station != station)
        continue;
      for (guint i = 0; i < range.n; i++)
        set |= 1u << MIN (g_array_index (self->tasks, OddTask, range.first + i).setting, SETTINGS_AT_MOST - 1);
      g_array_append_val (needed, set);
      g_array_append_val (ranges, range);
    }
  ranks = g_malloc (needed->len * n_settings + 1);
  memset (ranks, G_MAXUINT8, needed->len * n_settings + 1);
  self->plan->n_setting_changes += odd_settings_order ((guint32 *) needed->data, needed->len, (OddMachineSetting *) self->settings->data,
                                                       n_settings, ranks);
  for (guint b = 0; b < ranges->len; b++)
    if (!is_one_bit (g_array_index (needed, guint32, b)))
      sort_batch (self, g_array_index (ranges, Range, b), ranks + b * n_settings);
}

/* --- stops --- */

static void
add_to_stop (Writer        *self,
             OddTask       *task,
             guint          at,
             double         length_mm,
             gboolean       may_share)
{
  OddStop *last = self->stops->len > 0 ? &g_array_index (self->stops, OddStop, self->stops->len - 1) : NULL;

  if (last == NULL || last->station != task->station || !may_share)
    {
      const OddStop stop = { .station = task->station, .number = ++self->plan->n_walks, .first = at,
                             .first_round = task->round, .last_round = task->round };

      g_array_append_val (self->stops, stop);
      last = &g_array_index (self->stops, OddStop, self->stops->len - 1);
    }
  task->stop = self->stops->len - 1;
  last->n++;
  last->length_mm += length_mm;
  last->first_round = MIN (last->first_round, task->round);
  last->last_round = MAX (last->last_round, task->round);
}

/* --- patches to cut, ends to secure --- */

static void
add_cutting (Writer         *self,
             const OddSheet *sheet)
{
  for (guint i = 0; i < sheet->layout->n_patches; i++)
    {
      const OddPatch *patch = &sheet->layout->patches[i];
      OddTask task = { { ODD_TASK_CUT, patch->leaf->id, 0 }, ODD_STATION_TABLE, .work = ODD_WORK_NONE, .state = patch->leaf->cut };
      const OddMachineSetting none = { ODD_STATION_TABLE, NULL, FALSE, ODD_SHADE_MIDDLE };

      if (patch->scrap == NULL || (!self->graph->from_start && (sheet->facts->sewn[i] || patch->leaf->cut != ODD_STATE_OPEN)))
        continue;
      task.panel_id = sheet->panel_id;
      task.textile_id = sheet->textile != NULL ? sheet->textile->textile->id : 0;
      task.setting = find_setting (self, &none);
      g_array_append_val (self->tasks, task);
    }
}

static void
add_cutting_stop (Writer *self)
{
  OddStop stop = { .station = ODD_STATION_TABLE };

  for (guint i = 0; i < self->graph->sheets->len; i++)
    add_cutting (self, &g_array_index (self->graph->sheets, OddSheet, i));
  stop.n = self->tasks->len;
  if (stop.n > 0)
    g_array_append_val (self->stops, stop);
}

/* The ends that trimming cut through. */
static void
add_securing (Writer *self,
              GArray *tasks)
{
  for (guint i = 0; i < self->graph->n_works; i++)
    {
      const OddSeamWork *work = &self->graph->works[i];
      const OddMachineSetting setting = { ODD_STATION_SEWING_MACHINE, "301", FALSE, work->shade };

      if (work->seam == NULL || !odd_seam_is_sewn (work->seam, work->finish))
        continue;
      for (guint e = 0; e < 2; e++)
        if (get_ends (self->graph, work)[e].kind == ODD_END_CUT)
          {
            OddTask task = { { ODD_TASK_SECURE, work->seam->id, e }, ODD_STATION_SEWING_MACHINE, .work = ODD_WORK_NONE, .at = i };

            task.panel_id = odd_graph_get_panel_id (self->graph, work);
            task.textile_id = odd_graph_get_textile_id (self->graph, work);
            task.setting = find_setting (self, &setting);
            g_array_append_val (tasks, task);
          }
    }
}

/* They go into the first stop at the sewing machine, before the cloth is handled any further. */
static void
insert_securing (Writer *self)
{
  g_autoptr(GArray) tasks = g_array_new (FALSE, FALSE, sizeof (OddTask));
  guint s = 0;

  add_securing (self, tasks);
  if (tasks->len == 0)
    return;
  while (s < self->stops->len && g_array_index (self->stops, OddStop, s).station != ODD_STATION_SEWING_MACHINE)
    s++;
  if (s == self->stops->len)
    {
      const OddStop stop = { .station = ODD_STATION_SEWING_MACHINE, .number = ++self->plan->n_walks, .first = self->tasks->len };

      g_array_append_val (self->stops, stop);
    }
  for (guint i = 0; i < tasks->len; i++)
    g_array_index (tasks, OddTask, i).stop = s;
  g_array_insert_vals (self->tasks, g_array_index (self->stops, OddStop, s).first, tasks->data, tasks->len);
  g_array_index (self->stops, OddStop, s).n += tasks->len;
  for (s++; s < self->stops->len; s++)
    g_array_index (self->stops, OddStop, s).first += tasks->len;
}

/* --- the whole --- */

static void
write_tasks (Writer       *self,
             const GArray *placed)
{
  g_autoptr(GArray) batches = find_batches (placed);
  g_autofree guint *works = g_new (guint, self->graph->n_works + 1);
  const guint before = self->tasks->len;

  for (guint i = 0; i < placed->len; i++)
    {
      OddTask task = make_task (self, &g_array_index (placed, OddPlaced, i), self->plan->manner);

      g_array_append_val (self->tasks, task);
    }
  for (guint b = 0; b < batches->len; b++)
    g_array_index (batches, Range, b).first += before;
  sort_by_settings (self, batches, ODD_STATION_SEWING_MACHINE);
  sort_by_settings (self, batches, ODD_STATION_OVERLOCKER);
  for (guint i = before; i < self->tasks->len; i++)
    {
      OddTask *task = &g_array_index (self->tasks, OddTask, i);
      const OddSeamWork *work = &self->graph->works[task->at];

      add_to_stop (self, task, i, odd_graph_get_length (self->graph, work), i > before);
      self->plan->n_left[task->station] += task->state == ODD_STATE_OPEN;
    }
}

static void
count_rounds (OddPlan        *self,
              const OddGraph *graph)
{
  g_autofree guint8 *open = g_new0 (guint8, graph->n_rounds[self->manner] + 2);

  self->n_rounds = graph->n_rounds[self->manner];
  for (guint i = 0; i < self->n_tasks; i++)
    if (self->tasks[i].key.kind == ODD_TASK_OPERATION && self->tasks[i].state == ODD_STATE_OPEN)
      open[self->tasks[i].round] = 1;
  for (guint i = 0; i <= self->n_rounds; i++)
    self->n_rounds_left += open[i];
}

static OddPlan *
plan_new (OddGraph         *graph,
          OddManner         manner,
          const OddTaskKey *pins,
          guint             n_pins)
{
  OddPlan *self = g_atomic_rc_box_new0 (OddPlan);
  Writer writer = { self, graph };
  OddWalk walk;

  self->manner = manner;
  self->graph = graph;
  odd_walk_init (&walk, graph);
  for (guint i = 0; i < n_pins; i++)
    add_pin (&walk, manner, &pins[i]);
  add_rest (&walk, manner);
  sort_placed (walk.placed);

  writer.tasks = g_array_sized_new (FALSE, FALSE, sizeof (OddTask), walk.placed->len);
  writer.stops = g_array_new (FALSE, FALSE, sizeof (OddStop));
  writer.settings = g_array_new (FALSE, FALSE, sizeof (OddMachineSetting));
  add_cutting_stop (&writer);
  write_tasks (&writer, walk.placed);
  insert_securing (&writer);
  odd_walk_clear (&walk);

  self->n_tasks = writer.tasks->len;
  self->tasks = (OddTask *) g_array_free (writer.tasks, FALSE);
  self->n_stops = writer.stops->len;
  self->stops = (OddStop *) g_array_free (writer.stops, FALSE);
  self->n_settings = writer.settings->len;
  self->settings = (OddMachineSetting *) g_array_free (writer.settings, FALSE);
  count_rounds (self, graph);
  return self;
}

OddPlan *
odd_plan_new (OddJob           *job,
              OddId             textile_id,
              OddManner         manner,
              const OddTaskKey *pins,
              guint             n_pins,
              OddPlan          *previous)
{
  g_return_val_if_fail (job != NULL && (guint) manner < ODD_N_MANNERS, NULL);
  g_return_val_if_fail (n_pins == 0 || pins != NULL, NULL);

  return plan_new (odd_graph_new (job, textile_id, FALSE, previous != NULL ? previous->graph : NULL), manner, pins, n_pins);
}

OddPlan *
odd_plan_new_from_start (OddJob           *job,
                         OddId             textile_id,
                         OddManner         manner,
                         const OddTaskKey *pins,
                         guint             n_pins)
{
  g_return_val_if_fail (job != NULL && (guint) manner < ODD_N_MANNERS, NULL);
  g_return_val_if_fail (n_pins == 0 || pins != NULL, NULL);

  return plan_new (odd_graph_new (job, textile_id, TRUE, NULL), manner, pins, n_pins);
}

OddPlan *
odd_plan_ref (OddPlan *self)
{
  return g_atomic_rc_box_acquire (self);
}

static void
clear (gpointer data)
{
  OddPlan *self = data;

  g_free (self->tasks);
  g_free (self->stops);
  g_free (self->settings);
  odd_graph_free (self->graph);
}

void
odd_plan_unref (OddPlan *self)
{
  g_atomic_rc_box_release_full (self, clear);
}

int
odd_plan_find (const OddPlan    *self,
               const OddTaskKey *key)
{
  g_return_val_if_fail (self != NULL && key != NULL, -1);

  for (guint i = 0; i < self->n_tasks; i++)
    if (odd_task_key_equal (&self->tasks[i].key, key))
      return i;
  return -1;
}
