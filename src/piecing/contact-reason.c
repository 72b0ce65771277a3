#include "config.h"

#include "piecing/contact-reason.h"

#include <string.h>

/* --- which places touch --- */

typedef struct
{
  guint *starts;              /* n + 1, into neighbours */
  guint *neighbours;
} Graph;

static void
graph_init (Graph             *graph,
            const OddContacts *contacts)
{
  g_autofree guint *at = NULL;

  graph->starts = g_new0 (guint, contacts->n + 1);
  graph->neighbours = g_new (guint, 2 * contacts->n_pairs + 1);
  for (guint i = 0; i < contacts->n_pairs; i++)
    {
      graph->starts[contacts->pairs[i].a + 1]++;
      graph->starts[contacts->pairs[i].b + 1]++;
    }
  for (guint i = 0; i < contacts->n; i++)
    graph->starts[i + 1] += graph->starts[i];
  at = g_memdup2 (graph->starts, (contacts->n + 1) * sizeof (guint));
  for (guint i = 0; i < contacts->n_pairs; i++)
    {
      graph->neighbours[at[contacts->pairs[i].a]++] = contacts->pairs[i].b;
      graph->neighbours[at[contacts->pairs[i].b]++] = contacts->pairs[i].a;
    }
}

static void
graph_clear (Graph *graph)
{
  g_free (graph->starts);
  g_free (graph->neighbours);
}

static gboolean
touch (const Graph *graph,
       guint        a,
       guint        b)
{
  for (guint i = graph->starts[a]; i < graph->starts[a + 1]; i++)
    if (graph->neighbours[i] == b)
      return TRUE;

  return FALSE;
}

/* --- how many lie apart --- */

/* @set_of: by place; the largest set near @place all of which touches it; G_MAXUINT: none */
static guint
find_set (const Graph     *graph,
          const GPtrArray *sets,
          const guint     *set_of,
          guint            place)
{
  guint best = G_MAXUINT;

  for (guint i = graph->starts[place]; i < graph->starts[place + 1]; i++)
    {
      const guint set = set_of[graph->neighbours[i]];
      const GArray *members = set != G_MAXUINT ? sets->pdata[set] : NULL;
      gboolean all = members != NULL && (best == G_MAXUINT || members->len > ((GArray *) sets->pdata[best])->len);

      for (guint k = 0; all && k < members->len; k++)
        all = touch (graph, place, g_array_index (members, guint, k));
      if (all)
        best = set;
    }

  return best;
}

/* Sets of places that touch each other, taken one place after another. */
static guint
count_sets (const Graph  *graph,
            const guint  *order,
            const guint8 *is_open,
            guint         n)
{
  g_autoptr(GPtrArray) sets = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  g_autofree guint *set_of = g_new (guint, n + 1);

  for (guint i = 0; i < n; i++)
    set_of[i] = G_MAXUINT;
  for (guint i = 0; i < n; i++)
    {
      const guint place = order[i];
      guint set;

      if (!is_open[place])
        continue;
      set = find_set (graph, sets, set_of, place);
      if (set == G_MAXUINT)
        {
          set = sets->len;
          g_ptr_array_add (sets, g_array_new (FALSE, FALSE, sizeof (guint)));
        }
      g_array_append_val ((GArray *) sets->pdata[set], place);
      set_of[place] = set;
    }

  return sets->len;
}

static int
compare_crowding (gconstpointer a,
                  gconstpointer b,
                  gpointer      data)
{
  const Graph *graph = data;
  const guint i = *(const guint *) a;
  const guint k = *(const guint *) b;
  const guint n_i = graph->starts[i + 1] - graph->starts[i];
  const guint n_k = graph->starts[k + 1] - graph->starts[k];

  if (n_i != n_k)
    return n_i < n_k ? -1 : 1;

  return i < k ? -1 : i > k;
}

/* At most so many patches of the fabric can lie where none touches another, nor one that stays. */
static guint
bound_apart (const OddContacts *self,
             const Graph       *graph,
             guint              fabric)
{
  g_autofree guint *order = g_new (guint, self->n + 1);
  g_autofree guint8 *is_open = g_new (guint8, self->n + 1);
  guint bound;

  for (guint i = 0; i < self->n; i++)
    {
      order[i] = i;
      is_open[i] = self->could[i * self->n_fabrics + fabric] && !self->beside[i * self->n_fabrics + fabric];
    }
  bound = count_sets (graph, order, is_open, self->n);
  g_qsort_with_data (order, (int) self->n, sizeof (guint), compare_crowding, (gpointer) graph);

  return MIN (bound, count_sets (graph, order, is_open, self->n));
}

/* --- one place, two places --- */

static gboolean
is_hemmed_in (const OddContacts *self,
              guint              place)
{
  gboolean any = FALSE;

  for (guint f = 0; f < self->n_fabrics; f++)
    {
      any = any || self->could[place * self->n_fabrics + f];
      if (self->could[place * self->n_fabrics + f] && !self->beside[place * self->n_fabrics + f])
        return FALSE;
    }

  return any;
}

/* The one fabric that could fill the place; G_MAXUINT: several could. */
static guint
only_fabric (const OddContacts *self,
             guint              place)
{
  guint only = G_MAXUINT;

  for (guint f = 0; f < self->n_fabrics; f++)
    if (self->could[place * self->n_fabrics + f])
      {
        if (only != G_MAXUINT)
          return G_MAXUINT;
        only = f;
      }

  return only;
}

static gboolean
find_place (const OddContacts *self,
            OddContactReason  *out)
{
  for (guint i = 0; i < self->n; i++)
    if (is_hemmed_in (self, i))
      {
        *out = (OddContactReason) { .kind = ODD_CONTACT_PLACE, .fabric = self->fabrics[i], .places = { i, i } };
        return TRUE;
      }

  return FALSE;
}

static gboolean
find_pair (const OddContacts *self,
           OddContactReason  *out)
{
  for (guint i = 0; i < self->n_pairs; i++)
    {
      const OddPair pair = self->pairs[i];
      const guint fabric = only_fabric (self, pair.a);

      if (fabric == G_MAXUINT || fabric != only_fabric (self, pair.b))
        continue;
      *out = (OddContactReason) { .kind = ODD_CONTACT_PAIR, .fabric = fabric, .places = { pair.a, pair.b } };
      return TRUE;
    }

  return FALSE;
}

/* --- how much of each --- */

/* Places that no other cloth can fill, however it is cut. */
static guint
count_must (const OddContacts *self,
            guint              fabric)
{
  guint others = 0;

  for (guint f = 0; f < self->n_fabrics && others < self->n; f++)
    {
      guint n_could = 0;

      for (guint i = 0; i < self->n; i++)
        n_could += self->could[i * self->n_fabrics + f] != 0;
      others += f != fabric ? MIN (self->most[f], n_could) : 0;
    }

  return self->n - MIN (others, self->n);
}

static void
count_touching (const OddContacts *self,
                guint             *n_touching,
                guint             *n_of)
{
  for (guint i = 0; i < self->n_pairs; i++)
    if (self->fabrics[self->pairs[i].a] == self->fabrics[self->pairs[i].b])
      n_touching[self->fabrics[self->pairs[i].a]]++;
  for (guint i = 0; i < self->n; i++)
    {
      n_touching[self->fabrics[i]] += self->beside[i * self->n_fabrics + self->fabrics[i]] != 0;
      n_of[self->fabrics[i]]++;
    }
}

/* Supply says more than count, and more beyond the bound more than less. */
static gboolean
is_stronger (const OddContactReason *a,
             const OddContactReason *b)
{
  if ((a->kind == ODD_CONTACT_SUPPLY) != (b->kind == ODD_CONTACT_SUPPLY))
    return a->kind == ODD_CONTACT_SUPPLY;
  if (b->kind == ODD_CONTACT_NOT_PROVEN)
    return a->kind != ODD_CONTACT_NOT_PROVEN;

  return a->kind != ODD_CONTACT_NOT_PROVEN && a->n_of - a->n_apart > b->n_of - b->n_apart;
}

static OddContactReason
judge (const OddContacts *self,
       const Graph       *graph,
       guint              fabric,
       guint              n_of)
{
  OddContactReason reason = { ODD_CONTACT_NOT_PROVEN, fabric, { 0, 0 }, n_of, count_must (self, fabric), bound_apart (self, graph, fabric) };

  if (reason.n_must > reason.n_apart)
    reason.kind = ODD_CONTACT_SUPPLY;
  else if (n_of > reason.n_apart)
    reason.kind = ODD_CONTACT_COUNT;

  return reason;
}

OddContactReason
odd_contact_reason_find (const OddContacts *self)
{
  OddContactReason found = { ODD_CONTACT_NOT_PROVEN };
  g_autofree guint *n_touching = g_new0 (guint, self->n_fabrics + 1);
  g_autofree guint *n_of = g_new0 (guint, self->n_fabrics + 1);
  guint most = 0;
  Graph graph;

  if (find_place (self, &found))
    return found;
  graph_init (&graph, self);
  count_touching (self, n_touching, n_of);
  for (guint f = 0; f < self->n_fabrics; f++)
    {
      OddContactReason reason;

      if (n_touching[f] == 0)
        continue;
      reason = judge (self, &graph, f, n_of[f]);
      if (is_stronger (&reason, &found) || (reason.kind == ODD_CONTACT_NOT_PROVEN && found.kind == ODD_CONTACT_NOT_PROVEN && n_touching[f] > most))
        found = reason;
      most = MAX (most, n_touching[f]);
    }
  graph_clear (&graph);
  if (found.kind != ODD_CONTACT_SUPPLY)
    find_pair (self, &found);

  return found;
}
