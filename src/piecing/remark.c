/* What is said of neighbours of one fabric: why they could not be parted, where that is certain, and what would help. */
#include "config.h"

#include "cloth/offcuts.h"
#include "piecing/contact-reason.h"
#include "piecing/propose-private.h"

#include <glib/gi18n.h>

#define MOST_NAMES 3u              /* more of them is told as "others" */

/* What decides whether a shape can never lie in a piece: less of any of these. */
typedef struct { double area_mm2, width_mm, length_mm; guint fabric; } Extent;

typedef struct
{
  OddJob *before;
  OddNeighbours *neighbours;
  OddSources *sources;
  GHashTable *fabric_of;           /* scrap id -> fabric + 1 */
  GArray *extents;                 /* Extent of the pieces there were to draw from */
  guint *places;                   /* by laid patch: its number among the new ones, or G_MAXUINT */
  GArray *fresh;                   /* guint: the new ones in laid */
  GArray *pairs;                   /* OddPair of the new ones */
  guint *fabrics;
  guint8 *beside, *could;
  guint *most;
} Remark;

/* --- what there is --- */

static double
longest_way (const OddConvex *shape)
{
  double mm = 0.0;

  for (guint i = 0; i < shape->n; i++)
    for (guint k = i + 1; k < shape->n; k++)
      mm = MAX (mm, odd_point_distance (shape->points[i], shape->points[k]));

  return mm;
}

static Extent
extent_of (const OddConvex *shape,
           double           area_mm2,
           guint            fabric)
{
  return (Extent) { area_mm2, odd_convex_min_width (shape), longest_way (shape), fabric };
}

/* Cloth where a zone may lie in an allowance counts: patches could be laid so. */
static void
measure_cloth (Remark *self)
{
  for (guint i = 0; i < self->sources->scraps->len; i++)
    {
      const OddSourceScrap *source = &g_array_index (self->sources->scraps, OddSourceScrap, i);
      g_autoptr(GPtrArray) cloth = odd_scrap_dup_cloth (self->before, odd_job_get_scrap (self->before, source->id));

      g_hash_table_insert (self->fabric_of, GUINT_TO_POINTER (source->id), GUINT_TO_POINTER (source->fabric + 1));
      for (guint k = 0; k < cloth->len; k++)
        {
          g_autoptr(OddConvex) hull = odd_polygon_convex_hull (cloth->pdata[k]);
          const Extent extent = extent_of (hull, odd_polygon_get_area (cloth->pdata[k]), source->fabric);

          g_array_append_val (self->extents, extent);
        }
    }
}

static gboolean
may_lie_in (const Extent *shape,
            const Extent *piece)
{
  return shape->area_mm2 <= piece->area_mm2 + 1.0 && shape->width_mm <= piece->width_mm + 0.01 && shape->length_mm <= piece->length_mm + 0.01;
}

static const OddLaidPatch *
laid (const Remark *self,
      guint         i)
{
  return &g_array_index (self->neighbours->laid, OddLaidPatch, i);
}

static const OddLaidPatch *
place (const Remark *self,
       guint         i)
{
  return laid (self, g_array_index (self->fresh, guint, i));
}

static void
measure_places (Remark *self)
{
  const guint n = self->fresh->len;
  const guint n_fabrics = self->sources->fabrics->len;
  double least_mm2 = INFINITY;

  self->could = g_new0 (guint8, n * n_fabrics + 1);
  self->most = g_new0 (guint, n_fabrics + 1);
  for (guint i = 0; i < n; i++)
    {
      const OddConvex *cut = place (self, i)->patch->cut;
      const Extent shape = extent_of (cut, odd_convex_area (cut), 0);

      least_mm2 = MIN (least_mm2, shape.area_mm2);
      for (guint k = 0; k < self->extents->len; k++)
        if (may_lie_in (&shape, &g_array_index (self->extents, Extent, k)))
          self->could[i * n_fabrics + g_array_index (self->extents, Extent, k).fabric] = TRUE;
    }
  for (guint k = 0; k < self->extents->len; k++)
    {
      const Extent *extent = &g_array_index (self->extents, Extent, k);

      self->most[extent->fabric] += (guint) MIN ((extent->area_mm2 + 1.0) / least_mm2, (double) n);
    }
}

/* --- what came of it --- */

/* G_MAXUINT: of a scrap that was not to be drawn from. */
static guint
drawn_fabric_of (const Remark   *self,
                 const OddPatch *patch)
{
  return GPOINTER_TO_UINT (g_hash_table_lookup (self->fabric_of, GUINT_TO_POINTER (patch->scrap->id))) - 1u;
}

/* Among those to draw from, for what stays; G_MAXUINT: none of them. */
static guint
fabric_of (const Remark   *self,
           const OddPatch *patch)
{
  const guint drawn = drawn_fabric_of (self, patch);

  if (drawn != G_MAXUINT)
    return drawn;
  for (guint i = 0; patch->fabric != NULL && i < self->sources->fabrics->len; i++)
    if (g_array_index (self->sources->fabrics, OddSourceFabric, i).id == patch->fabric->id)
      return i;

  return G_MAXUINT;
}

/* FALSE: what was to be drawn from is not all that there was, and nothing is certain. */
static gboolean
list_places (Remark *self)
{
  self->places = g_new (guint, self->neighbours->laid->len + 1);
  self->fabrics = g_new (guint, self->neighbours->laid->len + 1);
  for (guint i = 0; i < self->neighbours->laid->len; i++)
    {
      self->places[i] = laid (self, i)->was_there ? G_MAXUINT : self->fresh->len;
      if (laid (self, i)->was_there)
        continue;
      self->fabrics[self->fresh->len] = drawn_fabric_of (self, laid (self, i)->patch);
      if (self->fabrics[self->fresh->len] == G_MAXUINT)
        return FALSE;
      g_array_append_val (self->fresh, i);
    }

  return self->fresh->len > 0;
}

static void
note_beside (Remark *self,
             guint   fresh,
             guint   kept)
{
  const guint fabric = fabric_of (self, laid (self, kept)->patch);

  if (fabric != G_MAXUINT)
    self->beside[self->places[fresh] * self->sources->fabrics->len + fabric] = TRUE;
}

static void
list_pairs (Remark *self)
{
  self->beside = g_new0 (guint8, self->fresh->len * self->sources->fabrics->len + 1);
  for (guint i = 0; i < self->neighbours->pairs->len; i++)
    {
      const OddPair pair = g_array_index (self->neighbours->pairs, OddPair, i);
      const OddPair own = { self->places[pair.a], self->places[pair.b] };

      if (own.a != G_MAXUINT && own.b != G_MAXUINT)
        g_array_append_val (self->pairs, own);
      else if (own.a != G_MAXUINT)
        note_beside (self, pair.a, pair.b);
      else if (own.b != G_MAXUINT)
        note_beside (self, pair.b, pair.a);
    }
}

/* --- words --- */

/* Cloth that nobody named goes by its scrap. */
static char *
dup_name (const Remark *self,
          guint         fabric)
{
  const OddFabric *named = odd_job_get_fabric (self->before, g_array_index (self->sources->fabrics, OddSourceFabric, fabric).id);

  if (named != NULL)
    return g_strdup_printf (_("“%s”"), named->name);
  for (guint i = 0; i < self->sources->scraps->len; i++)
    if (g_array_index (self->sources->scraps, OddSourceScrap, i).fabric == fabric)
      return g_strdup_printf (_("the cloth of scrap %u"),
                              odd_job_get_scrap (self->before, g_array_index (self->sources->scraps, OddSourceScrap, i).id)->number);

  return g_strdup (_("cloth without a name"));
}

static char *
dup_names_for (const Remark *self,
               guint         i)
{
  const guint n_fabrics = self->sources->fabrics->len;
  GString *names = g_string_new (NULL);
  guint n = 0;

  for (guint f = 0; f < n_fabrics; f++)
    if (self->could[i * n_fabrics + f] && n++ < MOST_NAMES)
      {
        g_autofree char *name = dup_name (self, f);

        g_string_append_printf (names, "%s%s", n > 1 ? ", " : "", name);
      }
  if (n > MOST_NAMES)
    g_string_append_printf (names, ngettext (" and %u other", " and %u others", n - MOST_NAMES), n - MOST_NAMES);

  return g_string_free (names, FALSE);
}

static OddBox
box_of (const Remark *self,
        guint         i)
{
  return place (self, i)->box;
}

static char *
dup_place_words (const Remark           *self,
                 const OddContactReason *reason)
{
  const OddBox box = box_of (self, reason->places[0]);
  g_autofree char *names = dup_names_for (self, reason->places[0]);

  return g_strdup_printf (_("All the cloth that could fill the place of %.0f × %.0f mm lies beside it in patches that stay (%s), so they must touch; "
                            "add a large enough scrap of another, or let a neighbour change too."), box.width, box.height, names);
}

static char *
dup_pair_words (const Remark           *self,
                const OddContactReason *reason)
{
  const OddBox a = box_of (self, reason->places[0]);
  const OddBox b = box_of (self, reason->places[1]);
  g_autofree char *name = dup_name (self, reason->fabric);

  return g_strdup_printf (_("Two that touch, %.0f × %.0f and %.0f × %.0f mm, are too large for all cloth but %s; allow smaller patches, or add larger "
                            "scraps of other cloth."), a.width, a.height, b.width, b.height, name);
}

static char *
dup_supply_words (const Remark           *self,
                  const OddContactReason *reason)
{
  const guint n = self->fresh->len;
  g_autofree char *name = dup_name (self, reason->fabric);

  if (reason->n_must == n)
    return g_strdup_printf (_("All that could be drawn from for these patches is %s, so they must touch; add scraps of other cloth."), name);

  return g_strdup_printf (_("The other cloth is enough for no more than %u of %u patches, which leaves %u to %s; as the seams lie no more than %u of it can "
                            "lie apart, so some must touch. Add other cloth."), n - reason->n_must, n, reason->n_must, name, reason->n_apart);
}

static char *
dup_count_words (const Remark           *self,
                 const OddContactReason *reason)
{
  g_autofree char *name = dup_name (self, reason->fabric);

  if (reason->n_apart == 0)
    return g_strdup_printf (_("All places that %s could fill lie beside patches of it that stay; propose again, or ask for less of it."), name);

  return g_strdup_printf (_("%u of %u patches are of %s, and as the seams lie no more than %u of it can lie apart, so some must touch; ask for less of it, or "
                            "add other cloth."), reason->n_of, self->fresh->len, name, reason->n_apart);
}

static guint
count_others (const Remark *self,
              guint         fabric)
{
  g_autofree guint8 *there = g_new0 (guint8, self->sources->fabrics->len + 1);
  guint n = 0;

  for (guint i = 0; i < self->fresh->len; i++)
    there[self->fabrics[i]] = TRUE;
  for (guint f = 0; f < self->sources->fabrics->len; f++)
    n += f != fabric && there[f];

  return n;
}

static char *
dup_open_words (const Remark           *self,
                const OddContactReason *reason)
{
  const guint n_others = count_others (self, reason->fabric);
  g_autofree char *name = dup_name (self, reason->fabric);

  return g_strdup_printf (ngettext ("No way without was found, though there may be one: %u of %u patches are of %s, the rest of %u other fabric. Propose "
                                    "again, ask for less of it, or add other cloth.",
                                    "No way without was found, though there may be one: %u of %u patches are of %s, the rest of %u other fabrics. Propose "
                                    "again, ask for less of it, or add other cloth.", n_others),
                          reason->n_of, self->fresh->len, name, n_others);
}

static char *
dup_words (const Remark           *self,
           const OddContactReason *reason)
{
  switch (reason->kind)
    {
    case ODD_CONTACT_PLACE: return dup_place_words (self, reason);
    case ODD_CONTACT_PAIR: return dup_pair_words (self, reason);
    case ODD_CONTACT_SUPPLY: return dup_supply_words (self, reason);
    case ODD_CONTACT_COUNT: return dup_count_words (self, reason);
    default: return dup_open_words (self, reason);
    }
}

static char *
dup_reason (Remark *self)
{
  OddContacts contacts;
  OddContactReason reason;

  measure_cloth (self);
  if (!list_places (self))
    return g_strdup (_("No way without was found, though there may be one. Propose again, or add other cloth."));
  list_pairs (self);
  measure_places (self);
  contacts = (OddContacts) {
    self->fresh->len, self->fabrics, (const OddPair *) self->pairs->data, self->pairs->len, self->sources->fabrics->len, self->beside, self->could, self->most,
  };
  reason = odd_contact_reason_find (&contacts);

  return dup_words (self, &reason);
}

char *
odd_proposing_dup_remark (const OddProposing *proposing,
                          OddJob             *before,
                          const OddProposal  *proposal)
{
  const guint n = proposal->figures.n_contacts;
  g_autofree char *reason = NULL;
  Remark self = { before };

  if (n == 0)
    return NULL;
  self.neighbours = odd_neighbours_new (before, proposal->job, (const OddId *) proposal->panels->data, proposal->panels->len);
  self.sources = odd_sources_new_freed (proposing->before != NULL ? proposing->before : before, before, proposing->options);
  self.fabric_of = g_hash_table_new (NULL, NULL);
  self.extents = g_array_new (FALSE, FALSE, sizeof (Extent));
  self.fresh = g_array_new (FALSE, FALSE, sizeof (guint));
  self.pairs = g_array_new (FALSE, FALSE, sizeof (OddPair));
  reason = dup_reason (&self);
  odd_neighbours_free (self.neighbours);
  odd_sources_free (self.sources);
  g_hash_table_unref (self.fabric_of);
  g_array_unref (self.extents);
  g_array_unref (self.fresh);
  g_array_unref (self.pairs);
  g_free (self.places);
  g_free (self.fabrics);
  g_free (self.beside);
  g_free (self.could);
  g_free (self.most);

  return g_strdup_printf (ngettext ("%u pair of neighbours is of one fabric. %s", "%u pairs of neighbours are of one fabric. %s", n), n, reason);
}
