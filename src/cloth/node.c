#include "config.h"

#include "cloth/node.h"

#include <string.h>

/* --- progress --- */

struct _OddProgress
{
  gatomicrefcount refs;
  guint n;
  char **reasons;       /* n, elements may be NULL */
  guint8 states[];
};

OddProgress *
odd_progress_new (const OddState *states,
                  char *const    *reasons,
                  guint           n)
{
  OddProgress *self = g_malloc0 (sizeof *self + n);

  g_atomic_ref_count_init (&self->refs);
  self->n = n;
  self->reasons = g_new0 (char *, n + 1);
  for (guint i = 0; i < n; i++)
    {
      self->states[i] = states[i];
      self->reasons[i] = reasons != NULL ? g_strdup (reasons[i]) : NULL;
    }
  return self;
}

OddProgress *
odd_progress_ref (OddProgress *self)
{
  if (self != NULL)
    g_atomic_ref_count_inc (&self->refs);
  return self;
}

void
odd_progress_unref (OddProgress *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->refs))
    return;
  for (guint i = 0; i < self->n; i++)
    g_free (self->reasons[i]);
  g_free (self->reasons);
  g_free (self);
}

guint
odd_progress_get_n (const OddProgress *self)
{
  return self != NULL ? self->n : 0;
}

OddState
odd_progress_get_state (const OddProgress *self,
                        guint              operation)
{
  return self != NULL && operation < self->n ? self->states[operation] : ODD_STATE_OPEN;
}

const char *
odd_progress_get_reason (const OddProgress *self,
                         guint              operation)
{
  return self != NULL && operation < self->n ? self->reasons[operation] : NULL;
}

OddProgress *
odd_progress_with (OddProgress *self,
                   guint        operation,
                   OddState     state,
                   const char  *reason)
{
  const guint n = MAX (odd_progress_get_n (self), operation + 1);
  g_autofree OddState *states = g_new0 (OddState, n);
  g_autofree char **reasons = g_new0 (char *, n);
  guint last = 0;

  for (guint i = 0; i < n; i++)
    {
      states[i] = i == operation ? state : odd_progress_get_state (self, i);
      reasons[i] = (char *) (i == operation ? reason : odd_progress_get_reason (self, i));
      if (states[i] != ODD_STATE_OPEN)
        last = i + 1;
    }
  /* Trailing open states say nothing; without them equal progress is equal bytes in the file. */
  return last > 0 ? odd_progress_new (states, reasons, last) : NULL;
}

/* --- seam --- */

void
odd_seam_init (OddSeam      *seam,
               OddId         id,
               OddHalfPlane  line)
{
  memset (seam, 0, sizeof *seam);
  seam->id = id;
  seam->line = line;
  seam->treatment = ODD_TREATMENT_INHERIT;
}

void
odd_seam_copy (OddSeam       *to,
               const OddSeam *from)
{
  *to = *from;
  to->progress = odd_progress_ref (from->progress);
  to->unknown_json = g_strdup (from->unknown_json);
}

void
odd_seam_clear (OddSeam *seam)
{
  g_clear_pointer (&seam->progress, odd_progress_unref);
  g_clear_pointer (&seam->unknown_json, g_free);
}

gboolean
odd_seam_is_touched (const OddSeam *seam)
{
  for (guint i = 0; i < odd_progress_get_n (seam->progress); i++)
    if (odd_progress_get_state (seam->progress, i) != ODD_STATE_OPEN)
      return TRUE;
  return FALSE;
}

/* --- nodes --- */

static OddNode *
node_alloc (OddNodeKind kind,
            OddId       id)
{
  OddNode *self = g_atomic_rc_box_new0 (OddNode);

  self->kind = kind;
  self->id = id;
  self->treatment = ODD_TREATMENT_INHERIT;
  return self;
}

OddNode *
odd_node_new_bare (OddId id)
{
  OddNode *self = node_alloc (ODD_NODE_LEAF, id);

  self->n_leaves = 1;
  self->placement = ODD_PLACEMENT_IDENTITY;
  return self;
}

OddNode *
odd_node_new_patch (OddId               id,
                    OddId               scrap_id,
                    const OddPlacement *placement)
{
  OddNode *self = odd_node_new_bare (id);

  self->scrap_id = scrap_id;
  self->placement = *placement;
  return self;
}

static void
strip_fill (OddNode        *self,
            OddNode *const *parts,
            const OddSeam  *seams,
            guint           n_parts)
{
  self->n_parts = n_parts;
  self->parts = g_new (OddNode *, n_parts);
  self->seams = g_new (OddSeam, n_parts - 1);
  self->n_seams = n_parts - 1;
  for (guint i = 0; i < n_parts; i++)
    {
      self->parts[i] = odd_node_ref (parts[i]);
      self->n_leaves += parts[i]->n_leaves;
      self->n_seams += parts[i]->n_seams;
      if (i + 1 < n_parts)
        odd_seam_copy (&self->seams[i], &seams[i]);
    }
}

OddNode *
odd_node_new_strip (OddId           id,
                    OddNode *const *parts,
                    const OddSeam  *seams,
                    guint           n_parts)
{
  OddNode *self;

  g_return_val_if_fail (n_parts >= 2, NULL);

  self = node_alloc (ODD_NODE_STRIP, id);
  strip_fill (self, parts, seams, n_parts);
  return self;
}

OddNode *
odd_node_ref (OddNode *self)
{
  return g_atomic_rc_box_acquire (self);
}

static void
node_clear (gpointer data)
{
  OddNode *self = data;

  for (guint i = 0; i < self->n_parts; i++)
    {
      odd_node_unref (self->parts[i]);
      if (i + 1 < self->n_parts)
        odd_seam_clear (&self->seams[i]);
    }
  g_free (self->parts);
  g_free (self->seams);
  g_free (self->unknown_json);
  odd_measure_unref (self->measure);
}

void
odd_node_unref (OddNode *self)
{
  g_atomic_rc_box_release_full (self, node_clear);
}

/* A copy whose own members may still be set: it is not shared yet. */
static OddNode *
node_copy (OddNode *self)
{
  OddNode *copy = node_alloc (self->kind, self->id);

  copy->locked = self->locked;
  copy->unknown_json = g_strdup (self->unknown_json);
  copy->treatment = self->treatment;
  copy->measure = odd_measure_ref (self->measure);
  copy->scrap_id = self->scrap_id;
  copy->placement = self->placement;
  copy->cut = self->cut;
  copy->stayed = self->stayed;
  if (self->kind == ODD_NODE_STRIP)
    strip_fill (copy, self->parts, self->seams, self->n_parts);
  else
    copy->n_leaves = 1;
  return copy;
}

OddNode *
odd_node_with_parts (OddNode        *strip,
                     OddNode *const *parts,
                     const OddSeam  *seams,
                     guint           n_parts)
{
  OddNode *copy;

  g_return_val_if_fail (n_parts >= 2, NULL);

  copy = odd_node_new_strip (strip->id, parts, seams, n_parts);
  copy->locked = strip->locked;
  copy->unknown_json = g_strdup (strip->unknown_json);
  copy->treatment = strip->treatment;
  copy->measure = odd_measure_ref (strip->measure);
  return copy;
}

OddNode *
odd_node_with_treatment (OddNode            *strip,
                         const OddTreatment *treatment)
{
  OddNode *copy = node_copy (strip);

  copy->treatment = *treatment;
  return copy;
}

OddNode *
odd_node_with_measure (OddNode    *strip,
                       OddMeasure *measure)
{
  OddNode *copy = node_copy (strip);

  odd_measure_unref (copy->measure);
  copy->measure = odd_measure_ref (measure);
  return copy;
}

OddNode *
odd_node_with_lock (OddNode  *self,
                    gboolean  locked)
{
  OddNode *copy = node_copy (self);

  copy->locked = locked;
  return copy;
}

OddNode *
odd_node_with_patch (OddNode            *leaf,
                     OddId               scrap_id,
                     const OddPlacement *placement)
{
  OddNode *copy = node_copy (leaf);

  copy->scrap_id = scrap_id;
  copy->placement = scrap_id != 0 ? *placement : ODD_PLACEMENT_IDENTITY;
  copy->stayed = ODD_STATE_OPEN;
  return copy;
}

OddNode *
odd_node_with_cut (OddNode  *leaf,
                   OddState  cut)
{
  OddNode *copy = node_copy (leaf);

  copy->cut = cut;
  return copy;
}

OddNode *
odd_node_with_stayed (OddNode  *leaf,
                      OddState  stayed)
{
  OddNode *copy = node_copy (leaf);

  copy->stayed = stayed;
  return copy;
}

OddNode *
odd_node_with_unknown (OddNode    *self,
                       const char *unknown_json)
{
  OddNode *copy = node_copy (self);

  g_free (copy->unknown_json);
  copy->unknown_json = g_strdup (unknown_json);
  return copy;
}

OddNode *
odd_node_place (OddNode            *self,
                const OddPlacement *by)
{
  OddNode *copy = node_copy (self);

  g_return_val_if_fail (!by->mirror, copy);

  if (copy->kind == ODD_NODE_LEAF)
    {
      if (copy->scrap_id != 0)
        copy->placement = odd_placement_compose (by, &self->placement);
      return copy;
    }
  for (guint i = 0; i < copy->n_parts; i++)
    {
      odd_node_unref (copy->parts[i]);
      copy->parts[i] = odd_node_place (self->parts[i], by);
      if (i + 1 < copy->n_parts)
        copy->seams[i].line = odd_half_plane_place (self->seams[i].line, by);
    }
  return copy;
}

OddNode *
odd_node_find (OddNode *self,
               OddId    id)
{
  if (self->id == id)
    return self;
  for (guint i = 0; i < self->n_parts; i++)
    {
      OddNode *found = odd_node_find (self->parts[i], id);

      if (found != NULL)
        return found;
    }
  return NULL;
}

OddNode *
odd_node_find_seam (OddNode *self,
                    OddId    seam_id,
                    guint   *out_index)
{
  for (guint i = 0; i + 1 < self->n_parts; i++)
    if (self->seams[i].id == seam_id)
      {
        if (out_index != NULL)
          *out_index = i;
        return self;
      }
  for (guint i = 0; i < self->n_parts; i++)
    {
      OddNode *found = odd_node_find_seam (self->parts[i], seam_id, out_index);

      if (found != NULL)
        return found;
    }
  return NULL;
}

OddNode *
odd_node_replace (OddNode *self,
                  OddId    id,
                  OddNode *with)
{
  if (self->id == id)
    return odd_node_ref (with);
  for (guint i = 0; i < self->n_parts; i++)
    {
      g_autoptr(OddNode) part = odd_node_replace (self->parts[i], id, with);

      if (part != NULL)
        {
          OddNode *copy = node_copy (self);

          copy->n_leaves += part->n_leaves - self->parts[i]->n_leaves;
          copy->n_seams += part->n_seams - self->parts[i]->n_seams;
          odd_node_unref (copy->parts[i]);
          copy->parts[i] = g_steal_pointer (&part);
          return copy;
        }
    }
  return NULL;
}

OddNode *
odd_node_replace_seam (OddNode       *self,
                       const OddSeam *seam)
{
  guint index = 0;
  OddNode *strip = odd_node_find_seam (self, seam->id, &index);
  g_autoptr(OddNode) changed = NULL;

  if (strip == NULL)
    return NULL;
  changed = node_copy (strip);
  odd_seam_clear (&changed->seams[index]);
  odd_seam_copy (&changed->seams[index], seam);
  return odd_node_replace (self, strip->id, changed);
}

gboolean
odd_node_foreach (OddNode     *self,
                  OddNodeFunc  func,
                  gpointer     data)
{
  if (!func (self, data))
    return FALSE;
  for (guint i = 0; i < self->n_parts; i++)
    if (!odd_node_foreach (self->parts[i], func, data))
      return FALSE;
  return TRUE;
}
