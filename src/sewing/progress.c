#include "config.h"

#include "sewing/progress.h"
#include "sewing/found.h"
#include "sewing/stage.h"

#include <glib/gi18n.h>

#define NAMED_AT_MOST 3            /* seams that a message names; the rest is counted */

/* --- counting --- */

static void
count_textile (OddWorkCount *count,
               OddJob       *job,
               OddTextile   *textile)
{
  g_autoptr(OddTextileLayout) layout = odd_job_dup_textile_layout (job, textile->id);

  for (guint i = 0; i < layout->n_panels; i++)
    odd_work_count_add_layout (count, layout->panels[i].layout, layout);
  for (guint i = 0; i < layout->n_joins; i++)
    odd_work_count_add_seam (count, layout->joins[i].join, layout->joins[i].finish, layout->joins[i].raw_length_mm);
}

static void
count_loose (OddWorkCount *count,
             OddJob       *job,
             OddPanel     *panel)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel->id);

  odd_work_count_add_layout (count, layout, NULL);
}

OddWorkCount
odd_job_count_work (OddJob *job,
                    OddId   textile_id)
{
  OddWorkCount count = { 0 };

  g_return_val_if_fail (job != NULL, count);

  for (guint i = 0; i < job->textiles->len; i++)
    {
      OddTextile *textile = job->textiles->pdata[i];

      if (textile_id == 0 || textile->id == textile_id)
        count_textile (&count, job, textile);
    }
  for (guint i = 0; textile_id == 0 && i < job->loose_panels->len; i++)
    count_loose (&count, job, job->loose_panels->pdata[i]);
  return count;
}

/* --- raw inside --- */

gboolean
odd_job_seam_is_raw_inside (OddJob *job,
                            OddId   seam_id)
{
  g_auto(OddFound) found = { 0 };
  g_autofree gboolean *raw_inside = NULL;

  g_return_val_if_fail (job != NULL, FALSE);

  if (!odd_found_init (&found, job, seam_id, NULL) || found.layout == NULL)
    return FALSE;
  raw_inside = odd_layout_raw_inside (found.layout, found.textile);
  return raw_inside[found.index];
}

static gboolean
end_is_on (const OddLayout *layout,
           const OddEnd    *end,
           OddId            seam_id)
{
  if (end->label >= 0)
    return layout->seams[end->label].seam->id == seam_id;
  return layout->edges[-1 - end->label].join_id == seam_id;
}

/* The seams of a layout that end on a seam or join and are not ready to be crossed. */
static void
add_enclosed (GArray          *ids,
              const OddLayout *layout,
              OddId            seam_id)
{
  for (guint i = 0; i < layout->n_seams; i++)
    {
      const OddLaidSeam *laid = &layout->seams[i];

      if (!odd_seam_is_ready_to_cross (laid->seam, laid->finish) &&
          (end_is_on (layout, &laid->ends[0], seam_id) || end_is_on (layout, &laid->ends[1], seam_id)))
        {
          const guint id = laid->seam->id;

          g_array_append_val (ids, id);
        }
    }
}

static GArray *
find_enclosed (const OddFound *found)
{
  GArray *ids = g_array_new (FALSE, FALSE, sizeof (guint));

  if (found->layout != NULL)
    add_enclosed (ids, found->layout, found->seam->id);
  else
    /* join i lies between the panels i and i + 1 */
    for (guint i = found->index; i <= found->index + 1 && i < found->textile->n_panels; i++)
      add_enclosed (ids, found->textile->panels[i].layout, found->seam->id);
  return ids;
}

GArray *
odd_job_would_enclose (OddJob *job,
                       OddId   seam_id)
{
  g_auto(OddFound) found = { 0 };

  g_return_val_if_fail (job != NULL, NULL);

  if (!odd_found_init (&found, job, seam_id, NULL))
    return g_array_new (FALSE, FALSE, sizeof (guint));
  return find_enclosed (&found);
}

/* --- names --- */

/* "7, 8, 11–14": runs of three and more are drawn together. */
static void
append_numbers (GString *text,
                GArray  *numbers)
{
  guint i = 0;

  while (i < numbers->len)
    {
      const guint from = g_array_index (numbers, guint, i);
      guint run = 1;

      while (i + run < numbers->len && g_array_index (numbers, guint, i + run) == from + run)
        run++;
      if (run == 2)
        run = 1;
      g_string_append_printf (text, "%s%u", i > 0 ? ", " : "", from);
      if (run > 1)
        g_string_append_printf (text, "–%u", from + run - 1);
      i += run;
    }
}

static gboolean
touches (const OddPatch *patch,
         int             label)
{
  for (guint i = 0; i < patch->region->n; i++)
    if (patch->region->labels[i] == label)
      return TRUE;
  return FALSE;
}

char *
odd_layout_dup_side (const OddLayout *layout,
                     guint            seam,
                     guint            side)
{
  const OddLaidSeam *laid;
  g_autoptr(GArray) numbers = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr(GString) text = g_string_new (NULL);
  guint first, n;

  g_return_val_if_fail (layout != NULL && seam < layout->n_seams && side < 2, NULL);

  laid = &layout->seams[seam];
  first = side == 0 ? laid->first_patch : laid->second_patch;
  n = side == 0 ? laid->n_first : laid->n_second;
  for (guint i = first; i < first + n; i++)
    if (touches (&layout->patches[i], (int) seam))
      g_array_append_val (numbers, layout->patches[i].number);
  append_numbers (text, numbers);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

char *
odd_job_dup_seam_name (OddJob *job,
                       OddId   seam_id)
{
  g_auto(OddFound) found = { 0 };

  g_return_val_if_fail (job != NULL, NULL);

  return odd_found_init (&found, job, seam_id, NULL) ? odd_found_dup_name (&found, job) : g_strdup ("");
}

/* "3 to 4; 5 to 6; …" (transfer full) */
static char *
dup_names (OddJob *job,
           GArray *ids)
{
  g_autoptr(GString) text = g_string_new (NULL);

  for (guint i = 0; i < ids->len && i < NAMED_AT_MOST; i++)
    {
      g_autofree char *name = odd_job_dup_seam_name (job, g_array_index (ids, guint, i));

      g_string_append_printf (text, "%s%s", i > 0 ? "; " : "", name);
    }
  if (ids->len > NAMED_AT_MOST)
    g_string_append (text, "; …");
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* --- marking --- */

static OddJob *
set_state (OddJob          *job,
           const OddFound  *found,
           guint            operation,
           OddState         state,
           const char      *reason,
           GError         **error)
{
  g_autoptr(OddProgress) progress = odd_progress_with (found->seam->progress, operation, state, reason);

  return odd_job_set_progress (job, found->seam->id, progress, error);
}

static gboolean
refuse_when_done (OddJob          *job,
                  const OddFound  *found,
                  OddWork          work,
                  GError         **error)
{
  g_autofree char *name = NULL;

  if (work != ODD_WORK_NONE)
    return FALSE;
  name = odd_found_dup_name (found, job);
  g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
               _("All %u operations of the seam %s are done; choose another seam."), found->finish->n_operations, name);
  return TRUE;
}

static gboolean
refuse_when_enclosing (OddJob          *job,
                       const OddFound  *found,
                       GError         **error)
{
  g_autoptr(GArray) enclosed = find_enclosed (found);
  g_autofree char *name = NULL;
  g_autofree char *names = NULL;

  if (enclosed->len == 0)
    return FALSE;
  name = odd_found_dup_name (found, job);
  names = dup_names (job, enclosed);
  g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
               ngettext ("The seam %s would lock in %u seam that is still raw (%s); finish and press it first.",
                         "The seam %s would lock in %u seams that are still raw (%s); finish and press them first.", enclosed->len),
               name, enclosed->len, names);
  return TRUE;
}

OddJob *
odd_job_mark_next (OddJob   *job,
                   OddId     seam_id,
                   gboolean  even_if_raw,
                   GError  **error)
{
  g_auto(OddFound) found = { 0 };
  guint next;
  OddWork work;

  g_return_val_if_fail (job != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  if (!odd_found_init (&found, job, seam_id, error))
    return NULL;
  work = odd_seam_get_next (found.seam, found.finish, &next);
  if (refuse_when_done (job, &found, work, error))
    return NULL;
  if (work == ODD_WORK_SEW && !even_if_raw && refuse_when_enclosing (job, &found, error))
    return NULL;
  return set_state (job, &found, next, ODD_STATE_DONE, NULL, error);
}

OddJob *
odd_job_unmark_last (OddJob  *job,
                     OddId    seam_id,
                     GError **error)
{
  g_auto(OddFound) found = { 0 };
  g_autofree char *name = NULL;

  g_return_val_if_fail (job != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  if (!odd_found_init (&found, job, seam_id, error))
    return NULL;
  for (guint i = odd_progress_get_n (found.seam->progress); i-- > 0; )
    if (odd_progress_get_state (found.seam->progress, i) != ODD_STATE_OPEN)
      return set_state (job, &found, i, ODD_STATE_OPEN, NULL, error);

  name = odd_found_dup_name (&found, job);
  g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
               _("None of the %u operations of the seam %s is marked; mark one before taking it back."),
               found.finish->n_operations, name);
  return NULL;
}

OddJob *
odd_job_skip_next (OddJob      *job,
                   OddId        seam_id,
                   const char  *reason,
                   GError     **error)
{
  g_auto(OddFound) found = { 0 };
  g_autofree char *name = NULL;
  guint next;
  OddWork work;

  g_return_val_if_fail (job != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  if (!odd_found_init (&found, job, seam_id, error))
    return NULL;
  work = odd_seam_get_next (found.seam, found.finish, &next);
  if (refuse_when_done (job, &found, work, error))
    return NULL;
  /* A seam that is not sewn joins nothing, and all that is derived from "sewn" would be wrong. */
  if (work == ODD_WORK_SEW)
    {
      name = odd_found_dup_name (&found, job);
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                   _("Operation %u of the seam %s joins its two sides and cannot be left out; take the seam off instead."), next + 1, name);
      return NULL;
    }
  return set_state (job, &found, next, ODD_STATE_SKIPPED, reason, error);
}

/* --- marking a whole panel --- */

/* A panel's seams while they are marked one after the other. */
typedef struct
{
  OddLayout *layout;
  GHashTable *index_of;            /* seam id -> index in layout->seams, plus 1 */
  guint *raw_ends;                 /* how many seams end on each that are not ready to be crossed */
  guint marked, left;
} Marking;

static void
marking_clear (Marking *self)
{
  g_clear_pointer (&self->layout, odd_layout_unref);
  g_clear_pointer (&self->index_of, g_hash_table_unref);
  g_clear_pointer (&self->raw_ends, g_free);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Marking, marking_clear)

/* Changes the count of raw ends on the seams that @laid ends on. */
static void
count_ends (Marking           *self,
            const OddLaidSeam *laid,
            int                by)
{
  for (guint i = 0; i < G_N_ELEMENTS (laid->ends); i++)
    if (laid->ends[i].label >= 0)
      self->raw_ends[laid->ends[i].label] += by;
}

static void
marking_init (Marking   *self,
              OddLayout *layout)
{
  self->layout = layout;
  self->index_of = g_hash_table_new (NULL, NULL);
  self->raw_ends = g_new0 (guint, layout->n_seams + 1);
  for (guint i = 0; i < layout->n_seams; i++)
    {
      const OddLaidSeam *laid = &layout->seams[i];

      g_hash_table_insert (self->index_of, GUINT_TO_POINTER (laid->seam->id), GUINT_TO_POINTER (i + 1));
      if (!odd_seam_is_ready_to_cross (laid->seam, laid->finish))
        count_ends (self, laid, 1);
    }
}

/* Takes the job on by one mark where the seam's next operation is this work. */
static gboolean
mark_laid (Marking  *self,
           OddJob  **job,
           guint     index,
           OddWork   work,
           GError  **error)
{
  const OddLaidSeam *laid = &self->layout->seams[index];
  g_autoptr(OddProgress) progress = NULL;
  OddSeam marked = *laid->seam;
  OddJob *next_job;
  guint next;

  if (odd_seam_get_next (laid->seam, laid->finish, &next) != work)
    return TRUE;
  if (work == ODD_WORK_SEW && self->raw_ends[index] > 0)
    {
      self->left++;
      return TRUE;
    }

  progress = odd_progress_with (laid->seam->progress, next, ODD_STATE_DONE, NULL);
  next_job = odd_job_set_progress (*job, laid->seam->id, progress, error);
  if (next_job == NULL)
    return FALSE;
  odd_job_unref (*job);
  *job = next_job;
  self->marked++;
  marked.progress = progress;
  if (!odd_seam_is_ready_to_cross (laid->seam, laid->finish) && odd_seam_is_ready_to_cross (&marked, laid->finish))
    count_ends (self, laid, -1);
  return TRUE;
}

/* A seam ends on seams of strips above its own, or on the outer edge: so the parts go first. */
static gboolean
mark_node (Marking  *self,
           OddJob  **job,
           OddNode  *node,
           OddWork   work,
           GError  **error)
{
  if (node->kind != ODD_NODE_STRIP)
    return TRUE;
  for (guint i = 0; i < node->n_parts; i++)
    if (!mark_node (self, job, node->parts[i], work, error))
      return FALSE;
  for (guint i = 0; i + 1 < node->n_parts; i++)
    {
      const guint place = GPOINTER_TO_UINT (g_hash_table_lookup (self->index_of, GUINT_TO_POINTER (node->seams[i].id)));

      /* A seam that was trimmed away has no place in the layout. */
      if (place > 0 && !mark_laid (self, job, place - 1, work, error))
        return FALSE;
    }
  return TRUE;
}

static void
set_nothing_marked (OddJob   *job,
                    OddPanel *panel,
                    guint     left,
                    GError  **error)
{
  g_autofree char *name = odd_job_dup_panel_name (job, panel);

  if (left == 0)
    g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                 _("%s has no seam among its %u that waits for this; choose another operation."), name, panel->root->n_seams);
  else
    g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                 ngettext ("%s: the %u seam left to sew would lock in raw seams; finish and press those first.",
                           "%s: the %u seams left to sew would lock in raw seams; finish and press those first.", left),
                 name, left);
}

OddJob *
odd_job_mark_panel (OddJob   *job,
                    OddId     panel_id,
                    OddWork   work,
                    guint    *out_marked,
                    guint    *out_left,
                    GError  **error)
{
  OddPanel *panel;
  g_autoptr(OddJob) after = NULL;
  g_auto(Marking) marking = { 0 };

  g_return_val_if_fail (job != NULL && work < ODD_WORK_NONE, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  panel = odd_job_get_panel (job, panel_id, NULL, NULL);
  if (panel == NULL)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND,
                   _("There is no panel with the number %u; choose one of the panels shown."), panel_id);
      return NULL;
    }
  marking_init (&marking, odd_job_dup_layout (job, panel_id));
  after = odd_job_ref (job);
  if (!mark_node (&marking, &after, marking.layout->root, work, error))
    return NULL;
  if (marking.marked == 0)
    {
      set_nothing_marked (job, panel, marking.left, error);
      return NULL;
    }
  if (out_marked != NULL)
    *out_marked = marking.marked;
  if (out_left != NULL)
    *out_left = marking.left;
  return g_steal_pointer (&after);
}

/* --- advice --- */

static char *
advise_planned (OddJob         *job,
                const OddFound *found)
{
  g_autoptr(GArray) enclosed = find_enclosed (found);
  g_autofree char *names = NULL;

  if (enclosed->len == 0)
    return NULL;
  names = dup_names (job, enclosed);
  return g_strdup_printf (ngettext ("Finish and press the seam %s first: this one would lock it in raw.",
                                    "Finish and press the seams %s first: this one would lock them in raw.", enclosed->len), names);
}

static gboolean
ends_on_seam (const OddFound *found)
{
  const OddEnd *ends;

  if (found->panel == NULL)
    return FALSE;
  ends = found->layout->seams[found->index].ends;
  return ends[0].by != 0 || ends[1].by != 0;
}

char *
odd_job_seam_advice (OddJob *job,
                     OddId   seam_id)
{
  g_auto(OddFound) found = { 0 };
  guint next;

  g_return_val_if_fail (job != NULL, NULL);

  if (!odd_found_init (&found, job, seam_id, NULL))
    return NULL;
  if (odd_job_seam_is_raw_inside (job, seam_id))
    return g_strdup (_("This seam was sewn over before it was finished and pressed: unpick the seam across its end to get at it."));
  if (!odd_seam_is_sewn (found.seam, found.finish))
    return advise_planned (job, &found);
  if (odd_seam_is_ready_to_cross (found.seam, found.finish))
    return NULL;
  odd_seam_get_next (found.seam, found.finish, &next);
  if (ends_on_seam (&found))
    /* Translators: %s is an operation, "Overlock both edges together" */
    return g_strdup_printf (_("%s before the seam across its end is sewn."), found.finish->operations[next].text);
  /* Translators: %s is an operation, "Overlock both edges together" */
  return g_strdup_printf (_("%s before the next scrap goes on, while both ends are still open."), found.finish->operations[next].text);
}
