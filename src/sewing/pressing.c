#include "config.h"

#include "sewing/bulk-private.h"

#include <glib/gi18n.h>

/* A sweep over all seams that still finds something to better is followed by another, so often. */
#define SWEEPS 12

const char *
odd_press_rule_get_name (OddPressRule rule)
{
  switch (rule)
    {
    case ODD_PRESS_DARKER: return _("Towards the darker cloth");
    case ODD_PRESS_ALTERNATE: return _("Alternately in rows");
    default: return _("Least bulk");
    }
}

/* --- sides by rule --- */

/* Rows that lie the same way are pressed the same way whichever part is called the first: even ones to the right or down. */
static OddPressed
press_alternately (const OddBulkLine *line)
{
  const gboolean second_is_on = fabs (line->normal.x) > fabs (line->normal.y) ? line->normal.x > 0.0 : line->normal.y > 0.0;

  return (line->row % 2 == 0) == second_is_on ? ODD_PRESSED_TO_SECOND : ODD_PRESSED_TO_FIRST;
}

static void
press_all (OddWeb       *web,
           OddPressRule  rule)
{
  for (guint i = 0; i < web->lines->len; i++)
    {
      OddBulkLine *line = odd_web_get_line (web, i);

      if (!line->free)
        continue;
      if (line->may_open)
        line->pressed = ODD_PRESSED_OPEN;
      else if (rule == ODD_PRESS_DARKER && line->darker >= 0)
        line->pressed = line->darker == 1 ? ODD_PRESSED_TO_SECOND : ODD_PRESSED_TO_FIRST;
      else
        line->pressed = press_alternately (line);
    }
}

static guint64
get_square (OddWeb *web,
            guint   cross)
{
  const guint plies = odd_web_count (web, &g_array_index (web->crosses, OddBulkCross, cross));

  return (guint64) plies * plies;
}

/* Of all crossings that a line has a part in. */
static guint64
get_cost (OddWeb *web,
          guint   line)
{
  const OddBulkLine *self = odd_web_get_line (web, line);
  guint64 cost = 0;

  for (guint i = 0; i < self->feet->len; i++)
    cost += get_square (web, g_array_index (self->feet, guint, i));
  for (guint e = 0; e < 2; e++)
    if (self->ends[e] >= 0)
      cost += get_square (web, self->ends[e]);
  return cost;
}

static gboolean
better_line (OddWeb *web,
             guint   line)
{
  OddBulkLine *self = odd_web_get_line (web, line);
  OddPressed best = self->pressed;
  guint64 cost = get_cost (web, line);
  const guint64 was = cost;

  for (guint k = 0; k < (self->may_open ? 3u : 2u); k++)
    {
      guint64 now;

      self->pressed = odd_bulk_sides[k];
      now = get_cost (web, line);
      if (now < cost)
        {
          cost = now;
          best = odd_bulk_sides[k];
        }
    }
  self->pressed = best;
  return cost < was;
}

/* FALSE when cancelled. */
static gboolean
better_all (OddWeb        *web,
            GCancellable  *cancellable,
            GError       **error)
{
  gboolean any = TRUE;

  for (guint sweep = 0; any && sweep < SWEEPS; sweep++)
    {
      any = FALSE;
      for (guint i = 0; i < web->lines->len; i++)
        if (odd_web_get_line (web, i)->free)
          any |= better_line (web, i);
      if (g_cancellable_set_error_if_cancelled (cancellable, error))
        return FALSE;
    }
  return TRUE;
}

static guint64
get_sum (OddWeb *web)
{
  guint64 sum = 0;

  for (guint i = 0; i < web->crosses->len; i++)
    sum += get_square (web, i);
  return sum;
}

static void
press_one_way (OddWeb     *web,
               OddPressed  way)
{
  for (guint i = 0; i < web->lines->len; i++)
    if (odd_web_get_line (web, i)->free)
      odd_web_get_line (web, i)->pressed = way;
}

/* From what is there, from each rule in turn, and from all one way: so the outcome is never more than any of these. */
static gboolean
press_least (OddWeb        *web,
             GCancellable  *cancellable,
             GError       **error)
{
  g_autofree OddPressed *best = g_new (OddPressed, web->lines->len + 1);
  guint64 least = G_MAXUINT64;

  for (guint start = 0; start < 5; start++)
    {
      if (start == 1 || start == 2)
        press_all (web, start == 1 ? ODD_PRESS_ALTERNATE : ODD_PRESS_DARKER);
      else if (start > 2)
        press_one_way (web, start == 3 ? ODD_PRESSED_TO_FIRST : ODD_PRESSED_TO_SECOND);
      if (!better_all (web, cancellable, error))
        return FALSE;
      if (get_sum (web) >= least)
        continue;
      least = get_sum (web);
      for (guint i = 0; i < web->lines->len; i++)
        best[i] = odd_web_get_line (web, i)->pressed;
    }
  for (guint i = 0; i < web->lines->len; i++)
    odd_web_get_line (web, i)->pressed = best[i];
  return TRUE;
}

static OddPressed
get_pressed (OddJob            *job,
             const OddBulkLine *line)
{
  OddTextile *textile = NULL;
  guint index = 0;
  OddPanel *panel = odd_job_find_panel_of (job, line->id, &textile, NULL);
  OddNode *strip = panel != NULL ? odd_node_find_seam (panel->root, line->id, &index) : NULL;

  if (strip != NULL)
    return strip->seams[index].pressed_to;
  for (guint i = 0; textile != NULL && i + 1 < textile->n_hung; i++)
    if (textile->joins[i].id == line->id)
      return textile->joins[i].pressed_to;
  return ODD_PRESSED_BY_RULE;
}

OddJob *
odd_job_press_by (OddJob        *job,
                  OddId          textile_id,
                  OddPressRule   rule,
                  gboolean       also_set,
                  GCancellable  *cancellable,
                  GError       **error)
{
  g_autoptr(OddWeb) web = NULL;
  g_autoptr(OddJob) after = NULL;

  g_return_val_if_fail (job != NULL, NULL);

  web = odd_web_new (job, textile_id, also_set);
  if (rule != ODD_PRESS_LEAST)
    press_all (web, rule);
  else if (!press_least (web, cancellable, error))
    return NULL;
  after = odd_job_ref (job);
  for (guint i = 0; i < web->lines->len; i++)
    {
      const OddBulkLine *line = odd_web_get_line (web, i);
      const OddPressed was = get_pressed (job, line);
      OddJob *next;

      if (!line->free || odd_pressed_resolve (was, line->finish) == line->pressed)
        continue;
      next = odd_job_set_pressed (after, line->id, line->pressed, error);
      if (next == NULL)
        return NULL;
      odd_job_unref (after);
      after = next;
    }
  return g_steal_pointer (&after);
}
