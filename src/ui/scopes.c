#include "config.h"

#include "ui/scopes.h"

#include <glib/gi18n.h>

static void
clear_scope (gpointer data)
{
  g_free (((OddScope *) data)->name);
}

static GArray *
new_scopes (void)
{
  GArray *scopes = g_array_new (FALSE, FALSE, sizeof (OddScope));

  g_array_set_clear_func (scopes, clear_scope);
  return scopes;
}

/* Takes @name. @chain: from the job inwards, this level last. */
static void
add (GArray                    *scopes,
     OddJob                    *job,
     OddLevel                   level,
     OddId                      id,
     const OddTreatment *const *chain,
     guint                      n_chain,
     char                      *name)
{
  OddScope scope = { .level = level, .id = id, .own = *chain[n_chain - 1], .name = name };

  odd_job_resolve (job, chain, n_chain, &scope.finish, &scope.allowance_mm);
  g_array_append_val (scopes, scope);
}

static void
add_job (GArray *scopes,
         OddJob *job)
{
  const OddTreatment *chain[] = { &job->treatment };

  add (scopes, job, ODD_LEVEL_JOB, 0, chain, 1, g_strdup (_("The whole job")));
}

static void
add_textile (GArray     *scopes,
             OddJob     *job,
             OddTextile *textile)
{
  const OddTreatment *chain[] = { &job->treatment, &textile->treatment };
  guint n = 0;

  for (guint i = 0; i < textile->n_hung; i++)
    n += textile->hung[i].panel->root->n_seams + (i > 0);
  add (scopes, job, ODD_LEVEL_TEXTILE, textile->id, chain, 2, g_strdup_printf (ngettext ("The textile, %u seam", "The textile, %u seams", n), n));
}

static void
add_panel (GArray     *scopes,
           OddJob     *job,
           OddPanel   *panel,
           OddTextile *textile)
{
  const OddTreatment *chain[] = { &job->treatment, textile != NULL ? &textile->treatment : NULL, &panel->treatment };
  const guint n = panel->root->n_seams;

  add (scopes, job, ODD_LEVEL_PANEL, panel->id, chain, 3, g_strdup_printf (ngettext ("The panel, %u seam", "The panel, %u seams", n), n));
}

/* Strips from the root down to the one that holds @seam_id; the last is that one. */
static GPtrArray *
strips_to (OddPanel *panel,
           OddId     seam_id)
{
  GPtrArray *strips = g_ptr_array_new ();
  OddNode *at = panel->root;

  while (at != NULL && at->kind == ODD_NODE_STRIP)
    {
      OddNode *next = NULL;

      g_ptr_array_add (strips, at);
      for (guint i = 0; i < at->n_parts && next == NULL; i++)
        if (odd_node_find_seam (at->parts[i], seam_id, NULL) != NULL)
          next = at->parts[i];
      at = next;
    }
  return strips;
}

/* A row of one seam alone is that seam. */
static void
add_row (GArray     *scopes,
         OddJob     *job,
         OddPanel   *panel,
         OddTextile *textile,
         OddId       seam_id)
{
  g_autoptr(GPtrArray) strips = strips_to (panel, seam_id);
  g_autoptr(GPtrArray) chain = g_ptr_array_new ();
  OddNode *row = strips->pdata[strips->len - 1];

  if (row->n_parts < 3)
    return;
  g_ptr_array_add (chain, &job->treatment);
  g_ptr_array_add (chain, textile != NULL ? &textile->treatment : NULL);
  g_ptr_array_add (chain, &panel->treatment);
  for (guint i = 0; i < strips->len; i++)
    g_ptr_array_add (chain, &((OddNode *) strips->pdata[i])->treatment);
  add (scopes, job, ODD_LEVEL_STRIP, row->id, (const OddTreatment *const *) chain->pdata, chain->len,
       g_strdup_printf (ngettext ("Its row, %u seam", "Its row, %u seams", row->n_parts - 1), row->n_parts - 1));
}

GArray *
odd_scopes_of_seam (OddJob             *job,
                    const OddSeamFacts *facts)
{
  GArray *scopes = new_scopes ();
  OddTextile *textile = NULL;
  OddPanel *panel = odd_job_find_panel_of (job, facts->seam->id, &textile, NULL);
  OddScope seam = { .level = ODD_LEVEL_SEAM, .id = facts->seam->id, .own = facts->seam->treatment, .finish = facts->finish,
                    .allowance_mm = facts->allowance_mm, .name = g_strdup (facts->laid_join != NULL ? _("This join") : _("This seam")) };

  g_array_append_val (scopes, seam);
  if (panel != NULL)
    {
      add_row (scopes, job, panel, textile, seam.id);
      add_panel (scopes, job, panel, textile);
    }
  if (textile != NULL)
    add_textile (scopes, job, textile);
  add_job (scopes, job);
  return scopes;
}

GArray *
odd_scopes_of_panel (OddJob     *job,
                     OddPanel   *panel,
                     OddTextile *textile)
{
  GArray *scopes = new_scopes ();

  add_panel (scopes, job, panel, textile);
  if (textile != NULL)
    add_textile (scopes, job, textile);
  add_job (scopes, job);
  return scopes;
}

GArray *
odd_scopes_of_textile (OddJob     *job,
                       OddTextile *textile)
{
  GArray *scopes = new_scopes ();

  add_textile (scopes, job, textile);
  add_job (scopes, job);
  return scopes;
}

GArray *
odd_scopes_of_job (OddJob *job)
{
  GArray *scopes = new_scopes ();

  add_job (scopes, job);
  return scopes;
}
