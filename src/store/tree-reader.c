/* The nodes of a panel are a flat list; strips name their parts by id, so that a deep tree is no deep JSON. Building the tree
 * from the root must meet every node exactly once:
 *
 *   WAITING ──named by a strip (or the root)──▶ CLAIMED ──its own parts are being built──▶ OPEN ──▶ DONE
 *
 * A part that is OPEN when it is named closes a cycle, one that is CLAIMED or DONE is used twice, and one that is WAITING in the
 * end hangs nowhere.
 */
#include "config.h"

#include "store/measure-json.h"
#include "store/tree-reader.h"

#include <glib/gi18n.h>

#define MAX_OFFSET_MM (3.0 * ODD_JSON_MAX_MM)   /* of lines and shifts: sums of coordinates within 10 m */
#define UNIT_TOLERANCE 1e-9

typedef enum { WAITING, CLAIMED, OPEN, DONE } NodeState;

typedef struct
{
  OddCursor *panel;
  OddIdBook *book;
  JsonArray *nodes;
  NodeState *states;          /* one a node */
  GHashTable *indices;        /* id -> index + 1 */
} Tree;

static OddNode *build_node (Tree *tree, guint index, guint depth, OddId finish_id);

/* --- what was done to a seam or an edge --- */

typedef struct
{
  GArray *states;             /* (element-type OddState) */
  GPtrArray *reasons;         /* (element-type utf8) borrowed, elements may be NULL */
} Steps;

static void
add_step (Steps *steps, OddState state, const char *reason)
{
  g_array_append_val (steps->states, state);
  g_ptr_array_add (steps->reasons, (char *) reason);
}

/* "open", "done", or {"skipped": why} */
static void
read_step (OddCursor *cursor, JsonArray *array, guint i, Steps *steps)
{
  OddState state = ODD_STATE_OPEN;
  OddCursor child;
  const char *word;

  if (JSON_NODE_HOLDS_OBJECT (json_array_get_element (array, i)))
    {
      if (!odd_cursor_enter_element (cursor, "progress", array, i, &child))
        return;
      odd_cursor_require (&child, "skipped");
      add_step (steps, ODD_STATE_SKIPPED, odd_cursor_string (&child, "skipped", NULL));
      odd_cursor_leave (&child);
      return;
    }
  word = odd_cursor_element_string (cursor, "progress", array, i);
  if (!odd_state_from_nick (word, &state))
    odd_cursor_fail_element (cursor, "progress", i, _("“%s” is not known here; write one of: %s"), word, "open, done, skipped");
  add_step (steps, state, NULL);
}

/* (transfer full); NULL: nothing was done. @finish_id: the finish that holds here */
static OddProgress *
read_progress (OddCursor *cursor, OddIdBook *book, OddId finish_id)
{
  JsonArray *array = odd_cursor_get_array (cursor, "progress");
  const OddFinish *finish = g_hash_table_lookup (book->finishes, GUINT_TO_POINTER (finish_id));
  g_autoptr(GArray) states = g_array_new (FALSE, FALSE, sizeof (OddState));
  g_autoptr(GPtrArray) reasons = g_ptr_array_new ();
  Steps steps = { states, reasons };
  guint n;

  if (!array || !finish)
    return NULL;
  n = json_array_get_length (array);
  if (n > finish->n_operations)
    odd_cursor_fail (cursor, "progress", _("%u operations are told of, but the finish “%s” has only %u; take the others out"),
                     n, finish->name, finish->n_operations);
  for (guint i = 0; i < n && !odd_reading_failed (cursor->reading); i++)
    read_step (cursor, array, i, &steps);
  if (odd_reading_failed (cursor->reading) || n == 0)
    return NULL;
  return odd_progress_new ((const OddState *) states->data, (char *const *) reasons->pdata, n);
}

/* --- seams --- */

/* [at from, at to] */
static void
read_flags (OddCursor *cursor, const char *member, gboolean flags[2])
{
  JsonArray *array = odd_cursor_get_array (cursor, member);

  if (!array)
    return;
  if (json_array_get_length (array) != 2)
    odd_cursor_fail (cursor, member, _("true or false is expected here twice, for both ends of the seam"));
  else
    for (guint i = 0; i < 2; i++)
      flags[i] = odd_cursor_element_bool (cursor, member, array, i);
}

static void
read_line (OddCursor *cursor, OddHalfPlane *line)
{
  odd_cursor_require (cursor, "normal");
  odd_cursor_require (cursor, "at_mm");
  line->normal = odd_cursor_pair (cursor, "normal", odd_point (1, 0), 2.0);
  line->offset_mm = odd_cursor_double (cursor, "at_mm", 0, -MAX_OFFSET_MM, MAX_OFFSET_MM);
  if (fabs (hypot (line->normal.x, line->normal.y) - 1.0) > UNIT_TOLERANCE)
    odd_cursor_fail (cursor, "normal", _("the normal of a seam must have length 1; divide it by its length, %.12g"),
                     hypot (line->normal.x, line->normal.y));
}

static void
read_pressed (OddCursor *cursor, OddPressed *out)
{
  const char *word = odd_cursor_string (cursor, "pressed", NULL);

  if (word && !odd_pressed_from_nick (word, out))
    odd_cursor_fail (cursor, "pressed", _("“%s” is not known here; write one of: %s"), word, "by-rule, to-first, to-second, open");
}

/* @seam is to be cleared whatever happens. */
static void
read_seam (OddCursor *cursor, OddIdBook *book, gboolean with_line, OddId finish_id, OddSeam *seam)
{
  odd_seam_init (seam, odd_id_book_claim (book, cursor, ODD_ID_SEAM), (OddHalfPlane) { { 1, 0 }, 0 });
  if (with_line)
    read_line (cursor, &seam->line);
  seam->treatment = odd_read_treatment (cursor, book);
  if (seam->treatment.finish_id != 0)
    finish_id = seam->treatment.finish_id;
  read_pressed (cursor, &seam->pressed_to);
  seam->progress = read_progress (cursor, book, finish_id);
  read_flags (cursor, "secured", seam->end_secured);
  read_flags (cursor, "cut", seam->end_cut);
  if (odd_cursor_has (cursor, "sewn_mm"))
    seam->sewn_mm = odd_cursor_double (cursor, "sewn_mm", 0, 0.1, 100);
  seam->squared = odd_cursor_bool (cursor, "squared", FALSE);
  seam->unknown_json = odd_cursor_leave_with_unknown (cursor);
}

/* (element-type OddSeam): @n of them, or the reading failed */
static GArray *
read_seams (OddCursor *cursor, const char *member, guint n, OddIdBook *book, gboolean with_line, OddId finish_id)
{
  GArray *seams = g_array_new (FALSE, TRUE, sizeof (OddSeam));
  JsonArray *array = odd_cursor_get_array (cursor, member);
  const guint n_there = array ? json_array_get_length (array) : 0;
  OddCursor child;

  g_array_set_clear_func (seams, (GDestroyNotify) odd_seam_clear);
  if (n_there != n)
    odd_cursor_fail (cursor, member, _("there must be one seam less than parts: %u, not %u"), n, n_there);
  for (guint i = 0; array && i < n_there; i++)
    if (odd_cursor_enter_element (cursor, member, array, i, &child))
      {
        OddSeam seam;

        read_seam (&child, book, with_line, finish_id, &seam);
        g_array_append_val (seams, seam);
      }
  return seams;
}

/* --- the tree --- */

/* Names node @id as a part; its index, or -1 when the reading failed. */
static int
claim_node (Tree *tree, OddCursor *cursor, const char *member, OddId id)
{
  const guint found = GPOINTER_TO_UINT (g_hash_table_lookup (tree->indices, GUINT_TO_POINTER (id)));
  const NodeState state = found > 0 ? tree->states[found - 1] : WAITING;

  if (odd_reading_failed (cursor->reading))
    return -1;
  if (found == 0)
    odd_cursor_fail (cursor, member, _("the panel has no node with the id %u; add it or take the mention out"), id);
  else if (state == OPEN)
    odd_cursor_fail (cursor, member, _("node %u would be a part of itself; a tree has no cycles"), id);
  else if (state != WAITING)
    odd_cursor_fail (cursor, member, _("node %u is used twice; each node is part of one strip only"), id);
  if (odd_reading_failed (cursor->reading))
    return -1;
  tree->states[found - 1] = CLAIMED;
  return (int) found - 1;
}

/* (element-type int): indices of the parts */
static GArray *
read_parts (Tree *tree, OddCursor *cursor)
{
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (int));
  JsonArray *array;

  odd_cursor_require (cursor, "parts");
  array = odd_cursor_get_array (cursor, "parts");
  if (array && json_array_get_length (array) < 2)
    odd_cursor_fail (cursor, "parts", _("a strip has at least two parts"));
  for (guint i = 0; array && i < json_array_get_length (array) && !odd_reading_failed (cursor->reading); i++)
    {
      const OddId id = odd_cursor_element_uint (cursor, "parts", array, i, 1, G_MAXUINT32);
      const int index = claim_node (tree, cursor, "parts", id);

      if (index >= 0)
        g_array_append_val (parts, index);
    }
  return parts;
}

/* (transfer full), or NULL when the reading failed */
static OddNode *
build_strip (Tree *tree, OddId id, GArray *indices, GArray *seams, guint depth, OddId finish_id)
{
  g_autoptr(GPtrArray) parts = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_node_unref);

  for (guint i = 0; i < indices->len; i++)
    {
      OddNode *part = build_node (tree, (guint) g_array_index (indices, int, i), depth + 1, finish_id);

      if (!part)
        return NULL;
      g_ptr_array_add (parts, part);
    }
  return odd_node_new_strip (id, (OddNode *const *) parts->pdata, (const OddSeam *) seams->data, parts->len);
}

/* What every node may have beside what its kind asks for. */
typedef struct
{
  OddId id;
  gboolean locked;
  char *unknown;
} Common;

static OddNode *
take_common (OddNode *node, const Common *common)
{
  g_autoptr(OddNode) plain = node, locked = NULL;

  if (!plain || (!common->locked && !common->unknown))
    return g_steal_pointer (&plain);
  locked = odd_node_with_lock (plain, common->locked);
  return common->unknown ? odd_node_with_unknown (locked, common->unknown) : g_steal_pointer (&locked);
}

static OddNode *
read_strip (Tree *tree, OddCursor *cursor, Common *common, guint depth, OddId finish_id)
{
  g_autoptr(GArray) indices = read_parts (tree, cursor);
  const OddTreatment treatment = odd_read_treatment (cursor, tree->book);
  g_autoptr(OddMeasure) measure = odd_read_measure (cursor);
  g_autoptr(GArray) seams = NULL;
  g_autoptr(OddNode) plain = NULL, treated = NULL;

  if (treatment.finish_id != 0)
    finish_id = treatment.finish_id;
  seams = read_seams (cursor, "seams", indices->len > 0 ? indices->len - 1 : 0, tree->book, TRUE, finish_id);
  common->unknown = odd_cursor_leave_with_unknown (cursor);
  if (odd_reading_failed (cursor->reading))
    return NULL;
  plain = build_strip (tree, common->id, indices, seams, depth, finish_id);
  if (!plain)
    return NULL;
  treated = odd_node_with_treatment (plain, &treatment);
  return measure ? odd_node_with_measure (treated, measure) : g_steal_pointer (&treated);
}

static OddState
read_state (OddCursor *cursor, const char *member)
{
  const char *word = odd_cursor_string (cursor, member, NULL);
  OddState state = ODD_STATE_OPEN;

  if (word && !odd_state_from_nick (word, &state))
    odd_cursor_fail (cursor, member, _("“%s” is not known here; write one of: %s"), word, "open, done, skipped");
  return state;
}

static OddNode *
with_states (OddNode *patch, OddState cut, OddState stayed)
{
  g_autoptr(OddNode) with_cut = cut == ODD_STATE_OPEN ? odd_node_ref (patch) : odd_node_with_cut (patch, cut);

  return stayed == ODD_STATE_OPEN ? g_steal_pointer (&with_cut) : odd_node_with_stayed (with_cut, stayed);
}

static OddNode *
read_patch (Tree *tree, OddCursor *cursor, Common *common)
{
  OddPlacement placement = ODD_PLACEMENT_IDENTITY;
  OddState cut, stayed;
  OddId scrap_id;
  g_autoptr(OddNode) patch = NULL;

  odd_cursor_require (cursor, "scrap");
  scrap_id = odd_id_book_look_up (tree->book, cursor, "scrap", ODD_ID_SCRAP);
  placement.turn_deg = odd_cursor_double (cursor, "turn_deg", 0, -1e9, 1e9);
  placement.mirror = odd_cursor_bool (cursor, "mirror", FALSE);
  placement.shift = odd_cursor_pair (cursor, "shift_mm", odd_point (0, 0), MAX_OFFSET_MM);
  cut = read_state (cursor, "cut");
  stayed = read_state (cursor, "stayed");
  common->unknown = odd_cursor_leave_with_unknown (cursor);
  if (odd_reading_failed (cursor->reading))
    return NULL;
  patch = odd_node_new_patch (common->id, scrap_id, &placement);
  return with_states (patch, cut, stayed);
}

/* Else a patch that was once bare would come back with what a bare node had kept as unknown. */
static const char *const strip_members[] = { "parts", "seams", "finish", "allowance_mm", "measure", NULL };
static const char *const patch_members[] = { "scrap", "turn_deg", "mirror", "shift_mm", "cut", "stayed", NULL };

static OddNode *
read_bare (OddCursor *cursor, Common *common)
{
  odd_cursor_refuse (cursor, strip_members, _("a bare node"));
  odd_cursor_refuse (cursor, patch_members, _("a bare node"));
  common->unknown = odd_cursor_leave_with_unknown (cursor);
  return odd_reading_failed (cursor->reading) ? NULL : odd_node_new_bare (common->id);
}

static OddNode *
read_node (Tree *tree, OddCursor *cursor, Common *common, guint depth, OddId finish_id)
{
  const char *kind;

  odd_cursor_require (cursor, "kind");
  kind = odd_cursor_string (cursor, "kind", "bare");
  common->id = odd_cursor_uint (cursor, "id", 0, 1, G_MAXUINT32);
  common->locked = odd_cursor_bool (cursor, "locked", FALSE);
  if (depth > ODD_TREE_MAX_DEPTH)
    odd_cursor_fail (cursor, NULL, _("strips lie more than %d deep in one another; the panel cannot be built"), ODD_TREE_MAX_DEPTH);
  if (g_str_equal (kind, "strip"))
    return odd_cursor_refuse (cursor, patch_members, _("a strip")), read_strip (tree, cursor, common, depth, finish_id);
  if (g_str_equal (kind, "patch"))
    return odd_cursor_refuse (cursor, strip_members, _("a patch")), read_patch (tree, cursor, common);
  if (!g_str_equal (kind, "bare"))
    odd_cursor_fail (cursor, "kind", _("“%s” is not known here; write one of: %s"), kind, "strip, patch, bare");
  return read_bare (cursor, common);
}

static OddNode *
build_node (Tree *tree, guint index, guint depth, OddId finish_id)
{
  g_autofree OddCursor *cursor = g_new (OddCursor, 1);     /* not on the stack, which is as deep as the tree */
  Common common = { 0 };
  OddNode *node;

  if (!odd_cursor_enter_element (tree->panel, "nodes", tree->nodes, index, cursor))
    return NULL;
  tree->states[index] = OPEN;
  node = take_common (read_node (tree, cursor, &common, depth, finish_id), &common);
  tree->states[index] = DONE;
  g_free (common.unknown);
  return node;
}

/* Ids of all nodes before any is built: strips may name nodes that come later. */
static void
index_nodes (Tree *tree)
{
  OddCursor child;

  for (guint i = 0; i < json_array_get_length (tree->nodes); i++)
    if (odd_cursor_enter_element (tree->panel, "nodes", tree->nodes, i, &child))
      {
        const OddId id = odd_id_book_claim (tree->book, &child, ODD_ID_NODE);

        g_hash_table_insert (tree->indices, GUINT_TO_POINTER (id), GUINT_TO_POINTER (i + 1));
      }
}

static void
check_all_used (Tree *tree)
{
  for (guint i = 0; i < json_array_get_length (tree->nodes); i++)
    if (tree->states[i] == WAITING)
      odd_cursor_fail_element (tree->panel, "nodes", i, _("this node hangs nowhere; name it among the parts of a strip or take it out"));
}

/* "root" and "nodes"; (transfer full), or NULL when the reading failed */
static OddNode *
read_tree (OddCursor *cursor, OddIdBook *book, OddId finish_id)
{
  Tree tree = { .panel = cursor, .book = book };
  OddNode *root = NULL;
  int index;

  odd_cursor_require (cursor, "root");
  odd_cursor_require (cursor, "nodes");
  tree.nodes = odd_cursor_get_array (cursor, "nodes");
  if (!tree.nodes)
    return NULL;
  tree.states = g_new0 (NodeState, json_array_get_length (tree.nodes));
  tree.indices = g_hash_table_new (NULL, NULL);
  index_nodes (&tree);
  index = claim_node (&tree, cursor, "root", odd_cursor_uint (cursor, "root", 0, 1, G_MAXUINT32));
  if (index >= 0)
    root = build_node (&tree, (guint) index, 1, finish_id);
  check_all_used (&tree);
  g_free (tree.states);
  g_hash_table_unref (tree.indices);
  if (odd_reading_failed (cursor->reading))
    g_clear_pointer (&root, odd_node_unref);
  return root;
}

/* --- panels --- */

static void
edge_clear (OddEdge *edge)
{
  odd_progress_unref (edge->progress);
}

static OddEdge
read_edge (OddCursor *cursor, OddIdBook *book, OddId finish_id)
{
  OddEdge edge = { ODD_TREATMENT_INHERIT, NULL };

  edge.treatment.finish_id = odd_id_book_look_up (book, cursor, "finish", ODD_ID_FINISH);
  edge.treatment.allowance_mm = odd_cursor_double (cursor, "allowance_mm", NAN, 0, 200.0);   /* 0: cut to size */
  if (edge.treatment.finish_id != 0)
    finish_id = edge.treatment.finish_id;
  edge.progress = read_progress (cursor, book, finish_id);
  return edge;
}

/* (element-type OddEdge): @n of them, or the reading failed; not there: all inherited */
static GArray *
read_edges (OddCursor *cursor, guint n, OddIdBook *book, OddId finish_id)
{
  GArray *edges = g_array_new (FALSE, TRUE, sizeof (OddEdge));
  JsonArray *array = odd_cursor_get_array (cursor, "edges");
  OddCursor child;

  g_array_set_clear_func (edges, (GDestroyNotify) edge_clear);
  if (array && json_array_get_length (array) != n)
    odd_cursor_fail (cursor, "edges", _("the outline has %u edges, but %u are described"), n, json_array_get_length (array));
  for (guint i = 0; i < n && !odd_reading_failed (cursor->reading); i++)
    {
      OddEdge edge = { ODD_TREATMENT_INHERIT, NULL };

      if (array && odd_cursor_enter_element (cursor, "edges", array, i, &child))
        {
          edge = read_edge (&child, book, finish_id);
          odd_cursor_leave (&child);
        }
      g_array_append_val (edges, edge);
    }
  return edges;
}

static OddConvex *
convex_from_points (const OddPoint *points, guint n, OddPoint by)
{
  g_autofree OddPoint *moved = g_new (OddPoint, n);
  g_autofree int *labels = g_new (int, n);
  g_autoptr(OddConvex) convex = NULL;

  for (guint i = 0; i < n; i++)
    {
      moved[i] = odd_point_add (points[i], by);
      labels[i] = (int) i;
    }
  convex = odd_convex_new (moved, labels, n);
  return convex && convex->n == n ? g_steal_pointer (&convex) : NULL;
}

/* Convex, clockwise on screen, every corner a corner, its box at 0, 0: also when a last bit is shifted away, as odd_panel_new() does. */
static gboolean
outline_is_good (OddConvex *convex)
{
  const OddBox box = convex ? odd_convex_box (convex) : ODD_BOX_EMPTY;
  g_autoptr(OddConvex) moved = NULL;

  if (!convex || fabs (box.x) > ODD_TOLERANCE_MM || fabs (box.y) > ODD_TOLERANCE_MM || MAX (box.width, box.height) > ODD_JSON_MAX_MM)
    return FALSE;
  moved = convex_from_points (convex->points, convex->n, odd_point (-box.x, -box.y));
  return moved != NULL;
}

static OddConvex *
read_outline (OddCursor *cursor)
{
  g_autoptr(GArray) points = NULL;
  g_autoptr(OddConvex) convex = NULL;

  odd_cursor_require (cursor, "outline_mm");
  points = odd_cursor_points (cursor, "outline_mm");
  if (!points)
    return NULL;
  if (odd_ring_area ((const OddPoint *) points->data, points->len) > 0)
    convex = convex_from_points ((const OddPoint *) points->data, points->len, odd_point (0, 0));
  if (outline_is_good (convex))
    return g_steal_pointer (&convex);
  odd_cursor_fail (cursor, "outline_mm",
                   _("the outline of a panel must be convex, clockwise on screen, without needless corners, its box at 0, 0; redraw it"));
  return NULL;
}

static OddPanel *
finish_panel (OddPanel *plain, const OddTreatment *treatment, gboolean locked, OddMeasure *measure, const char *unknown)
{
  g_autoptr(OddPanel) first = plain, treated = odd_panel_with_treatment (first, treatment), held = odd_panel_with_lock (treated, locked);
  g_autoptr(OddPanel) kept = odd_panel_with_measure (held, measure);

  return unknown ? odd_panel_with_unknown (kept, unknown) : g_steal_pointer (&kept);
}

static OddPanel *
build_panel (OddCursor *cursor, OddIdBook *book, OddId finish_id)
{
  const OddId id = odd_id_book_claim (book, cursor, ODD_ID_PANEL);
  const char *name = odd_cursor_string (cursor, "name", "");
  const OddTreatment treatment = odd_read_treatment (cursor, book);
  const gboolean locked = odd_cursor_bool (cursor, "locked", FALSE);
  g_autoptr(OddMeasure) measure = odd_read_measure (cursor);
  g_autoptr(OddConvex) outline = read_outline (cursor);
  g_autoptr(GArray) edges = NULL;
  g_autoptr(OddNode) root = NULL;
  g_autofree char *unknown = NULL;

  if (treatment.finish_id != 0)
    finish_id = treatment.finish_id;
  edges = read_edges (cursor, outline ? outline->n : 0, book, finish_id);
  root = read_tree (cursor, book, finish_id);
  unknown = odd_cursor_leave_with_unknown (cursor);
  if (odd_reading_failed (cursor->reading))
    return NULL;
  return finish_panel (odd_panel_new (id, name, outline, (const OddEdge *) edges->data, root), &treatment, locked, measure, unknown);
}

/* @out_hung: (nullable): how it hangs; NULL for a loose panel, which says nothing about that. */
OddPanel *
odd_read_panel (OddCursor *cursor, OddIdBook *book, OddId finish_id, OddHung *out_hung)
{
  const double offset_mm = odd_cursor_double (cursor, "offset_mm", 0, -ODD_JSON_MAX_MM, ODD_JSON_MAX_MM);
  const gboolean half_turn = odd_cursor_bool (cursor, "half_turn", FALSE);
  const double ease_mm = odd_cursor_double (cursor, "ease_mm", 0, 0, 1000);
  OddPanel *panel;

  if (!out_hung && (offset_mm != 0 || half_turn || ease_mm != 0))
    odd_cursor_fail (cursor, NULL, _("a loose panel has no offset, no half-turn and no ease; take them out or move it into a textile"));
  panel = build_panel (cursor, book, finish_id);
  if (panel && out_hung)
    *out_hung = (OddHung) { panel, offset_mm, half_turn, ease_mm };
  return panel;
}

/* --- textiles --- */

static void
hung_clear (OddHung *hung)
{
  odd_panel_unref (hung->panel);
}

/* (element-type OddHung) */
static GArray *
read_panels (OddCursor *cursor, OddIdBook *book, OddId finish_id)
{
  GArray *panels = g_array_new (FALSE, TRUE, sizeof (OddHung));
  JsonArray *array = odd_cursor_get_array (cursor, "panels");
  OddCursor child;

  g_array_set_clear_func (panels, (GDestroyNotify) hung_clear);
  for (guint i = 0; array && i < json_array_get_length (array); i++)
    if (odd_cursor_enter_element (cursor, "panels", array, i, &child))
      {
        OddHung hung;

        if (odd_read_panel (&child, book, finish_id, &hung))
          g_array_append_val (panels, hung);
      }
  return panels;
}

static OddTextile *
build_textile (OddTextile *plain, GArray *panels, GArray *joins, const OddTreatment *treatment, OddPoint target, OddMeasure *measure,
               const char *unknown)
{
  g_autoptr(OddTextile) first = plain;
  g_autoptr(OddTextile) hung = odd_textile_with_panels (first, (const OddHung *) panels->data, panels->len, (const OddSeam *) joins->data);
  g_autoptr(OddTextile) treated = odd_textile_with_treatment (hung, treatment);
  g_autoptr(OddTextile) aimed = odd_textile_with_target (treated, target.x, target.y);
  g_autoptr(OddTextile) measured = odd_textile_with_measure (aimed, measure);

  return unknown ? odd_textile_with_unknown (measured, unknown) : g_steal_pointer (&measured);
}

OddTextile *
odd_read_textile (OddCursor *cursor, OddIdBook *book, OddId finish_id)
{
  const OddId id = odd_id_book_claim (book, cursor, ODD_ID_TEXTILE);
  const char *name = odd_cursor_string (cursor, "name", "");
  const OddTreatment treatment = odd_read_treatment (cursor, book);
  const OddPoint target = odd_cursor_pair (cursor, "target_mm", odd_point (0, 0), ODD_JSON_MAX_MM);
  g_autoptr(OddMeasure) measure = odd_read_measure (cursor);
  g_autoptr(GArray) panels = NULL, joins = NULL;
  g_autofree char *unknown = NULL;

  if (target.x < 0 || target.y < 0)
    odd_cursor_fail (cursor, "target_mm", _("a target cannot be negative; write 0 where there is none"));
  if (treatment.finish_id != 0)
    finish_id = treatment.finish_id;
  panels = read_panels (cursor, book, finish_id);
  joins = read_seams (cursor, "joins", panels->len > 0 ? panels->len - 1 : 0, book, FALSE, finish_id);
  unknown = odd_cursor_leave_with_unknown (cursor);
  if (odd_reading_failed (cursor->reading))
    return NULL;
  return build_textile (odd_textile_new (id, name), panels, joins, &treatment, target, measure, unknown);
}
