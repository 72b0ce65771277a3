/* From crumbs to a panel's own tree, and back. */
#include "config.h"

#include "piecing/crumbs-private.h"

/* --- to a panel's own tree --- */

/* Parts from one side to the other, which nodes they are, and the lines between them. */
typedef struct { GPtrArray *parts; GArray *nodes; GArray *lines; } Strip;

typedef struct
{
  const OddCrumbs *self;
  const OddField *field;
  OddId *next_id;
} Building;

static Strip
strip_new (void)
{
  return (Strip) { g_ptr_array_new_with_free_func ((GDestroyNotify) odd_node_unref), g_array_new (FALSE, FALSE, sizeof (guint)),
                   g_array_new (FALSE, FALSE, sizeof (OddHalfPlane)) };
}

static void
strip_clear (Strip *strip)
{
  g_ptr_array_unref (strip->parts);
  g_array_unref (strip->nodes);
  g_array_unref (strip->lines);
}

/* Takes @part. */
static void
add_part (Strip   *strip,
          OddNode *part,
          guint    node)
{
  g_ptr_array_add (strip->parts, part);
  g_array_append_val (strip->nodes, node);
}

static OddNode *
strip_to_node (const Building *building,
               const Strip    *strip)
{
  g_autofree OddSeam *seams = NULL;
  OddId id;

  if (strip->parts->len == 1)
    return odd_node_ref (strip->parts->pdata[0]);
  id = (*building->next_id)++;
  seams = g_new0 (OddSeam, strip->parts->len - 1);
  for (guint i = 0; i + 1 < strip->parts->len; i++)
    odd_seam_init (&seams[i], (*building->next_id)++, g_array_index (strip->lines, OddHalfPlane, i));

  return odd_node_new_strip (id, (OddNode *const *) strip->parts->pdata, seams, strip->parts->len);
}

static gboolean
borders_on (const OddCrumbs *self,
            guint            node,
            int              label)
{
  const OddConvex *region = odd_crumbs_node (self, node)->region;

  for (guint i = 0; i < region->n; i++)
    if (region->labels[i] == label)
      return TRUE;

  return FALSE;
}

/* Does the line lie along one outermost part and no other? Then the seams between the parts run beside it. */
static gboolean
runs_beside (const OddCrumbs *self,
             const Strip     *strip,
             int              label,
             gboolean        *out_first)
{
  const guint last = strip->nodes->len - 1;
  guint n = 0;

  for (guint i = 0; i <= last; i++)
    n += borders_on (self, g_array_index (strip->nodes, guint, i), label);
  *out_first = borders_on (self, g_array_index (strip->nodes, guint, 0), label);

  return n == 1 && (*out_first || borders_on (self, g_array_index (strip->nodes, guint, last), label));
}

/* The kid's parts after those of @to, from its first to its last or the other way round. */
static void
append_parts (Strip       *to,
              const Strip *kid,
              gboolean     backwards)
{
  const guint n = kid->parts->len;

  for (guint i = 0; i < n; i++)
    {
      const guint at = backwards ? n - 1 - i : i;

      add_part (to, odd_node_ref (kid->parts->pdata[at]), g_array_index (kid->nodes, guint, at));
      if (i + 1 < n)
        {
          const OddHalfPlane line = g_array_index (kid->lines, OddHalfPlane, backwards ? at - 1 : at);
          const OddHalfPlane turned = backwards ? odd_half_plane_flip (line) : line;

          g_array_append_val (to->lines, turned);
        }
    }
}

static Strip build_parts (const Building *building, guint at);

/* A kid of the strip @at: its parts one by one where its seams run beside the strip's own line, else as one part. */
static void
append_kid (const Building *building,
            Strip          *to,
            guint           at,
            guint           which)
{
  const guint kid_node = odd_crumbs_node (building->self, at)->kids[which];
  Strip kid = build_parts (building, kid_node);
  gboolean first;

  if (runs_beside (building->self, &kid, at, &first))
    append_parts (to, &kid, kid.parts->len > 1 && first == (which == 0));
  else
    add_part (to, strip_to_node (building, &kid), kid_node);
  strip_clear (&kid);
}

static OddNode *
build_leaf (const Building *building,
            const OddCrumb *leaf)
{
  const OddId id = (*building->next_id)++;
  OddPlacement placement;

  if (leaf->scrap == ODD_NO_SCRAP)
    return odd_node_new_bare (id);
  placement = odd_placement_compose (&building->field->to_own, &leaf->placement);

  return odd_node_new_patch (id, odd_crumbs_scrap (building->self, leaf->scrap)->id, &placement);
}

static Strip
build_parts (const Building *building,
             guint           at)
{
  const OddCrumb *node = odd_crumbs_node (building->self, at);
  const OddHalfPlane line = odd_half_plane_place (node->line, &building->field->to_own);
  Strip strip = strip_new ();

  if (node->kids[0] < 0)
    {
      add_part (&strip, build_leaf (building, node), at);
      return strip;
    }
  append_kid (building, &strip, at, 0);
  g_array_append_val (strip.lines, line);
  append_kid (building, &strip, at, 1);

  return strip;
}

OddNode *
odd_crumbs_build (const OddCrumbs *self,
                  guint            field,
                  OddId           *next_id)
{
  const Building building = { self, self->fields->fields->pdata[field], next_id };
  Strip strip = build_parts (&building, g_array_index (self->roots, guint, field));
  OddNode *node = strip_to_node (&building, &strip);

  strip_clear (&strip);

  return node;
}

/* --- from a panel's own tree --- */

static void
take_leaf (OddCrumbs     *self,
           guint          at,
           const OddNode *leaf)
{
  const OddField *field = self->fields->fields->pdata[odd_crumbs_node (self, at)->field];
  const OddPlacement out = odd_placement_inverse (&field->to_own);
  const OddPlacement placement = odd_placement_compose (&out, &leaf->placement);

  for (guint i = 0; leaf->scrap_id != 0 && i < self->stock->sources->scraps->len; i++)
    if (odd_crumbs_scrap (self, i)->id == leaf->scrap_id)
      odd_crumbs_lay_as (self, at, i, &placement);
}

/* Parts @from .. of the strip, one after the other. */
static void
take_parts (OddCrumbs    *self,
            guint         at,
            OddNode      *node,
            guint         from,
            GCancellable *cancellable)
{
  const OddField *field = self->fields->fields->pdata[odd_crumbs_node (self, at)->field];
  const OddPlacement out = odd_placement_inverse (&field->to_own);

  if (g_cancellable_is_cancelled (cancellable))
    return;
  if (node->kind == ODD_NODE_LEAF)
    {
      take_leaf (self, at, node);
      return;
    }
  if (from + 1 == node->n_parts)
    {
      take_parts (self, at, node->parts[from], 0, cancellable);
      return;
    }
  if (!odd_crumbs_part (self, at, odd_half_plane_place (node->seams[from].line, &out)))
    return;
  take_parts (self, odd_crumbs_node (self, at)->kids[0], node->parts[from], 0, cancellable);
  take_parts (self, odd_crumbs_node (self, at)->kids[1], node, from + 1, cancellable);
}

gboolean
odd_crumbs_take_over (OddCrumbs    *self,
                      GCancellable *cancellable)
{
  for (guint i = 0; i < self->roots->len; i++)
    {
      const OddField *field = self->fields->fields->pdata[i];

      if (field->before != NULL)
        take_parts (self, g_array_index (self->roots, guint, i), field->before, 0, cancellable);
    }

  return !g_cancellable_is_cancelled (cancellable);
}
