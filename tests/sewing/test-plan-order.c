/* The order of work in its details: which settings come when, that no order within the same stops changes them less often, and that what is pinned waits for nothing
 * it need not wait for. What waits for what is told here anew, from the ends and parts of the layout. */
#include "config.h"

#include "sewing/plan.h"
#include "tests/grid.h"
#include "tests/sewing/random-trees.h"

#define PITCH 94.6

/* --- cloth: dark and pale --- */

static OddId
add_scrap (OddJob    **job,
           const char *name,
           double      lightness)
{
  g_autoptr(OddConvex) box = odd_convex_new_rectangle ((OddBox) { 0, 0, 200, 200 }, (int[4]) { 0, 1, 2, 3 });
  g_autoptr(OddPolygon) outline = odd_polygon_new_from_convex (box);
  OddFabric fabric;
  OddScrap scrap;
  OddId id = 0;
  GError *error = NULL;

  odd_fabric_init_values (&fabric);
  fabric.name = (char *) name;
  fabric.lightness = lightness;
  grid_take (job, odd_job_put_fabric (*job, &fabric, &id, &error), error);
  odd_scrap_init_values (&scrap);
  scrap.outline = outline;
  scrap.fabric_id = id;
  grid_take (job, odd_job_put_scrap (*job, &scrap, &id, &error), error);
  return id;
}

/* Whether it fits does not matter for the order. */
static void
lay (OddJob **job,
     OddId    leaf,
     OddId    scrap)
{
  const OddPlacement at = ODD_PLACEMENT_IDENTITY;
  GError *error = NULL;

  grid_take (job, odd_job_place_scrap (*job, leaf, scrap, &at, &error), error);
}

static void
use_finish (OddJob    **job,
            OddId       seam,
            const char *key)
{
  const OddTreatment treatment = { odd_job_get_finish_by_key (*job, key)->id, NAN };
  GError *error = NULL;

  grid_take (job, odd_job_set_treatment (*job, ODD_LEVEL_SEAM, seam, 0, &treatment, FALSE, &error), error);
}

/* --- by hand --- */

/*
 * Two rows of two squares; row 1 pale, zigzagged; row 2 dark, overlocked; the rows' seam overlocked and topstitched, with middle thread, as dark and pale lie along it.
 *
 * a (row 1): sew, trim, zigzag, press; b (row 2): sew, overlock, press; then c: sew, overlock, press, topstitch.
 * a alone is machine, table, machine, iron; b's overlocker comes between its sewing and the iron: five stops; c four more: nine. The overlocker could also stand before
 * the table; ours does as much as it can of the longer chain first.
 * Machine: stop 1 dark and pale; stop 3 pale zigzag; stop 6 middle; stop 9 the same, topstitch. Dark first, so pale is in when the zigzag comes: thread, stitch,
 * both, stitch: 1 + 1 + 2 + 1. Overlocker: dark, then middle: 1. Six in all. In the order of the rows it would be 1 + 2 + 2 + 1 + 1, seven.
 */
static void
test_two_fabrics (void)
{
  OddId panel;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 2, 2, PITCH, PITCH, &panel);
  const OddId dark = add_scrap (&job, "Coal", 20.0), pale = add_scrap (&job, "Milk", 90.0);
  OddNode *root = odd_job_get_panel (job, panel, NULL, NULL)->root;
  const OddId a = root->parts[0]->seams[0].id, b = root->parts[1]->seams[0].id, c = root->seams[0].id;
  const OddId leaves[] = { root->parts[0]->parts[0]->id, root->parts[0]->parts[1]->id, root->parts[1]->parts[0]->id, root->parts[1]->parts[1]->id };
  const struct { OddId id; guint index; OddStation station; const char *stitch; gboolean topstitch; OddShade shade; } rows[] = {
    { b, 0, ODD_STATION_SEWING_MACHINE, "301", FALSE, ODD_SHADE_DARK },
    { a, 0, ODD_STATION_SEWING_MACHINE, "301", FALSE, ODD_SHADE_PALE },
    { a, 1, ODD_STATION_TABLE, NULL, FALSE, ODD_SHADE_MIDDLE },
    { a, 2, ODD_STATION_SEWING_MACHINE, "304", FALSE, ODD_SHADE_PALE },
    { b, 1, ODD_STATION_OVERLOCKER, "504", FALSE, ODD_SHADE_DARK },
    { a, 3, ODD_STATION_IRON, NULL, FALSE, ODD_SHADE_MIDDLE },
    { b, 2, ODD_STATION_IRON, NULL, FALSE, ODD_SHADE_MIDDLE },
    { c, 0, ODD_STATION_SEWING_MACHINE, "301", FALSE, ODD_SHADE_MIDDLE },
    { c, 1, ODD_STATION_OVERLOCKER, "504", FALSE, ODD_SHADE_MIDDLE },
    { c, 2, ODD_STATION_IRON, NULL, FALSE, ODD_SHADE_MIDDLE },
    { c, 3, ODD_STATION_SEWING_MACHINE, "301", TRUE, ODD_SHADE_MIDDLE },
  };
  g_autoptr(OddPlan) plan = NULL;

  for (guint i = 0; i < 4; i++)
    lay (&job, leaves[i], i < 2 ? pale : dark);
  use_finish (&job, a, "zigzagged");
  use_finish (&job, c, "overlocked-topstitched");
  plan = odd_plan_new (job, 0, ODD_MANNER_WALKS, NULL, 0, NULL);
  g_assert_cmpuint (plan->n_walks, ==, 9);
  g_assert_cmpuint (plan->n_tasks, ==, 4 + G_N_ELEMENTS (rows));      /* four to cut */
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const OddTask *task = &plan->tasks[4 + i];
      const OddMachineSetting *setting = &plan->settings[task->setting];

      g_assert_cmpuint (task->key.id, ==, rows[i].id);
      g_assert_cmpuint (task->key.index, ==, rows[i].index);
      g_assert_cmpint (task->station, ==, rows[i].station);
      g_assert_cmpstr (setting->stitch, ==, rows[i].stitch);
      g_assert_cmpint (setting->topstitch, ==, rows[i].topstitch);
      g_assert_cmpint (setting->shade, ==, rows[i].shade);
    }
  g_assert_cmpuint (plan->n_setting_changes, ==, 6);
}

/* --- what waits for what, told anew --- */

#define A_ROUND 1000

typedef struct
{
  const OddPlan *plan;
  guint first;                /* tasks before it are cut out, and wait for nothing */
  guint n;                    /* operations */
  guint8 *waits;              /* [a * n + b]: a comes after b */
  guint *batches;             /* rank in the stop of what is done there together: the round in a chain, and how many in turn wait for one another */
} Web;

static const OddTask *
task_at (const Web *web,
         guint      i)
{
  return &web->plan->tasks[web->first + i];
}

/* Does the seam lie in one of the two parts beside @other, with all its patches? */
static gboolean
lies_beside (const OddLaidSeam *laid,
             const OddLaidSeam *other)
{
  const guint first = laid->first_patch, last = laid->second_patch + laid->n_second;

  return laid != other && ((first >= other->first_patch && last <= other->first_patch + other->n_first) ||
                           (first >= other->second_patch && last <= other->second_patch + other->n_second));
}

static gboolean
waits_for (const Web *web,
           guint      a,
           guint      b)
{
  OddTaskFacts after, before;

  if (task_at (web, a)->key.id == task_at (web, b)->key.id)
    return task_at (web, a)->key.index > task_at (web, b)->key.index;
  if (task_at (web, a)->work != ODD_WORK_SEW)
    return FALSE;
  odd_plan_get_facts (web->plan, web->first + a, &after);
  odd_plan_get_facts (web->plan, web->first + b, &before);
  if (before.laid->ends[0].by == after.seam->id || before.laid->ends[1].by == after.seam->id)
    return TRUE;
  return task_at (web, b)->work == ODD_WORK_SEW && lies_beside (before.laid, after.laid);
}

static void
web_init (Web           *web,
          const OddPlan *plan)
{
  *web = (Web) { .plan = plan };
  while (web->first < plan->n_tasks && plan->tasks[web->first].key.kind == ODD_TASK_CUT)
    web->first++;
  web->n = plan->n_tasks - web->first;
  web->waits = g_new0 (guint8, web->n * web->n + 1);
  web->batches = g_new0 (guint, web->n + 1);
  for (guint a = 0; a < web->n; a++)
    for (guint b = 0; b < web->n; b++)
      web->waits[a * web->n + b] = waits_for (web, a, b);
  for (guint a = 0; a < web->n; a++)
    {
      web->batches[a] = plan->manner == ODD_MANNER_CHAIN ? task_at (web, a)->round * A_ROUND : 0;
      for (guint b = 0; b < a; b++)
        if (web->waits[a * web->n + b] && task_at (web, a)->stop == task_at (web, b)->stop)
          web->batches[a] = MAX (web->batches[a], web->batches[b] + 1);
    }
}

static void
web_clear (Web *web)
{
  g_free (web->waits);
  g_free (web->batches);
}

/* --- changes of setting --- */

static guint
count_between (const OddPlan *plan,
               guint          a,
               guint          b)
{
  const OddMachineSetting *one = &plan->settings[a], *other = &plan->settings[b];

  return (one->shade != other->shade) + (g_strcmp0 (one->stitch, other->stitch) != 0 || one->topstitch != other->topstitch);
}

/* Along an order of the web's tasks, at one station. */
static guint
count_along (const Web   *web,
             const guint *order,
             OddStation   station)
{
  int last = -1;
  guint n = 0;

  for (guint i = 0; i < web->n; i++)
    {
      const OddTask *task = task_at (web, order[i]);

      if (task->station != station)
        continue;
      n += last >= 0 ? count_between (web->plan, last, task->setting) : 0;
      last = task->setting;
    }
  return n;
}

static guint
count_machines (const Web   *web,
                const guint *order)
{
  return count_along (web, order, ODD_STATION_SEWING_MACHINE) + count_along (web, order, ODD_STATION_OVERLOCKER);
}

/* Without any thought of settings: by stop and batch, else as the layout has the seams. */
static int
compare_naive (gconstpointer a,
               gconstpointer b,
               gpointer      data)
{
  const Web *web = data;
  const guint one = *(const guint *) a, other = *(const guint *) b;
  const OddTask *x = task_at (web, one), *y = task_at (web, other);

  if (x->stop != y->stop)
    return x->stop < y->stop ? -1 : 1;
  if (web->batches[one] != web->batches[other])
    return web->batches[one] < web->batches[other] ? -1 : 1;
  return (x->at > y->at) - (x->at < y->at);
}

static guint *
dup_orders (Web  *web,
            guint **out_naive)
{
  guint *planned = g_new (guint, web->n + 1);

  for (guint i = 0; i < web->n; i++)
    planned[i] = i;
  *out_naive = g_memdup2 (planned, (web->n + 1) * sizeof (guint));
  g_qsort_with_data (*out_naive, web->n, sizeof (guint), compare_naive, web);
  return planned;
}

/*
 * The least over every order that keeps each task in its stop and respects the waits: a state is what is done of a stop and what is set last.
 * @by_batch: only those that do all of a batch before the next
 * G_MAXUINT where a stop has too many tasks to try.
 */
#define TRIED_AT_MOST 14
#define N_SET 40

static gboolean
may_follow (const Web   *web,
            const guint *members,
            guint        n,
            guint        done,
            guint        next,
            gboolean     by_batch)
{
  for (guint i = 0; i < n; i++)
    if (!((done >> i) & 1) && i != next &&
        (web->waits[members[next] * web->n + members[i]] || (by_batch && web->batches[members[i]] < web->batches[members[next]])))
      return FALSE;
  return TRUE;
}

/* @costs: by setting last set, before and after the stop; entry N_SET: nothing set yet */
static void
try_stop (const Web   *web,
          const guint *members,
          guint        n,
          gboolean     by_batch,
          guint        costs[N_SET + 1])
{
  g_autofree guint *best = g_new (guint, (1u << n) * (N_SET + 1));

  memset (best, 0xff, (1u << n) * (N_SET + 1) * sizeof (guint));
  memcpy (best, costs, (N_SET + 1) * sizeof (guint));
  for (guint done = 0; done + 1 < 1u << n; done++)
    for (guint next = 0; next < n; next++)
      {
        const guint setting = task_at (web, members[next])->setting;
        guint *to = &best[(done | 1u << next) * (N_SET + 1) + setting];

        if (((done >> next) & 1) || !may_follow (web, members, n, done, next, by_batch))
          continue;
        for (guint last = 0; last <= N_SET; last++)
          if (best[done * (N_SET + 1) + last] != G_MAXUINT)
            *to = MIN (*to, best[done * (N_SET + 1) + last] + (last < N_SET ? count_between (web->plan, last, setting) : 0));
      }
  memcpy (costs, best + ((1u << n) - 1) * (N_SET + 1), (N_SET + 1) * sizeof (guint));
}

static guint
try_station (const Web  *web,
             OddStation  station,
             gboolean    by_batch)
{
  guint costs[N_SET + 1], members[TRIED_AT_MOST], least = G_MAXUINT;

  memset (costs, 0xff, sizeof costs);
  costs[N_SET] = 0;
  for (guint s = 0; s < web->plan->n_stops; s++)
    {
      guint n = 0;

      for (guint i = 0; i < web->n; i++)
        if (task_at (web, i)->stop == s && task_at (web, i)->station == station)
          {
            if (n == TRIED_AT_MOST)
              return G_MAXUINT;
            members[n++] = i;
          }
      if (n > 0)
        try_stop (web, members, n, by_batch, costs);
    }
  for (guint last = 0; last <= N_SET; last++)
    least = MIN (least, costs[last]);
  return least;
}

static guint
try_machines (const Web *web,
              gboolean   by_batch)
{
  const guint sewing = try_station (web, ODD_STATION_SEWING_MACHINE, by_batch), overlocker = try_station (web, ODD_STATION_OVERLOCKER, by_batch);

  return sewing == G_MAXUINT || overlocker == G_MAXUINT ? G_MAXUINT : sewing + overlocker;
}

/* --- laws --- */

/* A panel of a random tree in dark, middle and pale cloth. */
static OddJob *
random_cloth (GRand  *rand,
              OddJob *empty,
              guint   patches)
{
  OddJob *job = random_trees_new (empty, rand, 1, patches);
  OddPanel *panel = ((OddTextile *) job->textiles->pdata[0])->hung[0].panel;
  const OddId scraps[] = { add_scrap (&job, "Coal", 20.0), add_scrap (&job, "Stone", 55.0), add_scrap (&job, "Milk", 90.0) };
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel->id);

  for (guint i = 0; i < layout->n_patches; i++)
    lay (&job, layout->patches[i].leaf->id, scraps[g_rand_int_range (rand, 0, 3)]);
  return job;
}

/*
 * Fewest stops come first, then the batches of a stop; of all orders that keep these, ours has the fewest changes, and never more than without any thought of
 * settings. Orders that mix batches within a stop may have fewer: a dark seam, the dark one across its end, then the pale ones, where ours does dark, pale, then what is across.
 * That is seldom, and counted here.
 */
static void
test_fewest_changes (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (31);
  g_autoptr(OddJob) empty = odd_job_new ();
  guint n_tried = 0, n_over = 0, n_fewer = 0;

  for (guint i = 0; i < 800; i++)
    {
      g_autoptr(OddJob) job = random_cloth (rand, empty, 4 + i % 16);
      g_autoptr(OddPlan) plan = odd_plan_new (job, 0, i / 16 % ODD_N_MANNERS, NULL, 0, NULL);
      g_autofree guint *naive = NULL, *planned = NULL;
      guint least;
      Web web;

      web_init (&web, plan);
      planned = dup_orders (&web, &naive);
      g_assert_cmpuint (plan->n_settings, <=, N_SET);
      g_assert_cmpuint (plan->n_setting_changes, ==, count_machines (&web, planned));
      g_assert_cmpuint (plan->n_setting_changes, <=, count_machines (&web, naive));
      n_fewer += plan->n_setting_changes < count_machines (&web, naive);
      least = try_machines (&web, FALSE);
      if (least != G_MAXUINT)
        {
          g_assert_cmpuint (plan->n_setting_changes, ==, try_machines (&web, TRUE));
          g_assert_cmpuint (plan->n_setting_changes, >=, least);
          n_tried++;
          n_over += plan->n_setting_changes > least;
        }
      web_clear (&web);
    }
  g_test_message ("all orders of %u plans tried: %u could do with fewer changes; fewer than naive: %u of 800", n_tried, n_over, n_fewer);
  g_assert_cmpuint (n_tried, >, 400);
  g_assert_cmpuint (n_fewer, >, 200);
  g_assert_cmpuint (n_over * 10, <, n_tried);
}

/* --- pins --- */

/* Adds all that @task waits for, and what those wait for, and itself. */
static void
add_needed (const Web *web,
            guint      task,
            guint8    *needed)
{
  if (needed[task])
    return;
  needed[task] = 1;
  for (guint b = 0; b < web->n; b++)
    if (web->waits[task * web->n + b])
      add_needed (web, b, needed);
}

static guint
count_needed (const Web    *web,
              const guint8 *needed)
{
  guint n = 0;

  for (guint i = 0; i < web->n; i++)
    n += needed[i];
  return n;
}

/* Before a pinned task comes what it waits for, and nothing else; before a second one besides that all of the first. */
static void
test_pins (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (12);
  g_autoptr(OddJob) empty = odd_job_new ();

  for (guint i = 0; i < 600; i++)
    {
      g_autoptr(OddJob) job = random_cloth (rand, empty, 4 + i % 20);
      const OddManner manner = i % ODD_N_MANNERS;
      g_autoptr(OddPlan) freely = odd_plan_new (job, 0, manner, NULL, 0, NULL), pinned = NULL;
      g_autofree guint8 *needed = NULL;
      guint tasks[2];
      OddTaskKey keys[2];
      Web web;

      web_init (&web, freely);
      needed = g_new0 (guint8, web.n + 1);
      for (guint k = 0; k < 2; k++)
        {
          tasks[k] = g_rand_int_range (rand, 0, web.n);
          keys[k] = task_at (&web, tasks[k])->key;
        }
      pinned = odd_plan_new (job, 0, manner, keys, 2, NULL);
      g_assert_cmpuint (pinned->n_tasks, ==, freely->n_tasks);
      add_needed (&web, tasks[0], needed);
      g_assert_cmpint (odd_plan_find (pinned, &keys[0]), ==, web.first + count_needed (&web, needed) - 1);
      if (!needed[tasks[1]])
        {
          add_needed (&web, tasks[1], needed);
          g_assert_cmpint (odd_plan_find (pinned, &keys[1]), ==, web.first + count_needed (&web, needed) - 1);
        }
      web_clear (&web);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan-order/two-fabrics", test_two_fabrics);
  g_test_add_func ("/plan-order/fewest-changes", test_fewest_changes);
  g_test_add_func ("/plan-order/pins", test_pins);
  return g_test_run ();
}
