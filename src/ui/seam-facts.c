#include "config.h"

#include "ui/seam-facts.h"

#include <glib/gi18n.h>

#include "cloth/length.h"

static guint
number_of_loose (OddJob   *job,
                 OddPanel *panel)
{
  guint i = 0;

  g_ptr_array_find (job->loose_panels, panel, &i);
  return i + 1;
}

static gboolean
init_seam (OddSeamFacts *self,
           OddJob       *job,
           OddId         seam_id,
           OddPanel     *panel,
           OddTextile   *textile,
           guint         index)
{
  self->layout = odd_job_dup_layout (job, panel->id);
  self->laid = odd_layout_find_seam (self->layout, seam_id);
  if (self->laid == NULL || self->laid->raw_length_mm <= 0.0)
    {
      /* trimmed away where it hangs, as what was sewn on last to the longest panel is: it still lies on the table */
      odd_layout_unref (self->layout);
      self->layout = odd_job_dup_layout_apart (job, panel->id);
      self->laid = odd_layout_find_seam (self->layout, seam_id);
    }
  if (self->laid == NULL)
    return FALSE;
  self->number = (guint) (self->laid - self->layout->seams) + 1;
  self->panel_number = textile != NULL ? index + 1 : number_of_loose (job, panel);
  self->seam = self->laid->seam;
  self->finish = self->laid->finish;
  self->allowance_mm = self->laid->allowance_mm;
  self->length_mm = odd_segment_length (self->laid->finished);
  self->ends = self->laid->ends;
  return TRUE;
}

static gboolean
init_join (OddSeamFacts *self,
           OddId         seam_id)
{
  for (guint i = 0; self->textile != NULL && i < self->textile->n_joins; i++)
    {
      const OddLaidJoin *join = &self->textile->joins[i];

      if (join->join->id != seam_id)
        continue;
      self->laid_join = join;
      self->number = i + 1;
      self->seam = join->join;
      self->finish = join->finish;
      self->allowance_mm = join->allowance_mm;
      self->length_mm = odd_segment_length (join->finished);
      self->ends = join->ends;
      return TRUE;
    }
  return FALSE;
}

gboolean
odd_seam_facts_init (OddSeamFacts *self,
                     OddJob       *job,
                     OddId         seam_id)
{
  OddTextile *textile = NULL;
  OddPanel *panel;
  guint index = 0;
  gboolean found;

  memset (self, 0, sizeof *self);
  panel = odd_job_find_panel_of (job, seam_id, &textile, &index);
  if (textile != NULL)
    self->textile = odd_job_dup_textile_layout (job, textile->id);
  if (panel != NULL)
    found = init_seam (self, job, seam_id, panel, textile, index);
  else
    found = init_join (self, seam_id);
  if (!found)
    {
      odd_seam_facts_clear (self);
      return FALSE;
    }
  self->next = odd_seam_get_next (self->seam, self->finish, &self->next_operation);
  return TRUE;
}

void
odd_seam_facts_clear (OddSeamFacts *self)
{
  g_clear_pointer (&self->layout, odd_layout_unref);
  g_clear_pointer (&self->textile, odd_textile_layout_unref);
  memset (self, 0, sizeof *self);
}

char *
odd_seam_facts_dup_title (const OddSeamFacts *self)
{
  if (self->laid_join != NULL)
    return g_strdup_printf (_("Join %u · %u"), self->number, self->number + 1);
  if (self->textile == NULL)
    return g_strdup_printf (_("Loose seam %u · %u"), self->panel_number, self->number);
  /* translators: number of the panel, number of the seam in it */
  return g_strdup_printf (_("Seam %u · %u"), self->panel_number, self->number);
}

static char *
dup_panel_name (const OddSeamFacts *self,
                OddJob             *job,
                guint               index)
{
  OddPanel *panel = odd_job_get_panel (job, self->textile->panels[index].panel_id, NULL, NULL);

  return odd_job_dup_panel_name (job, panel);
}

/* "7", "7 and 8", "7 to 12": a part's patches are numbered through. */
static char *
dup_numbers (guint first,
             guint n)
{
  if (n == 1)
    return g_strdup_printf (_("patch %u"), first + 1);
  if (n == 2)
    return g_strdup_printf (_("patches %u and %u"), first + 1, first + 2);
  return g_strdup_printf (_("patches %u to %u"), first + 1, first + n);
}

char *
odd_seam_facts_dup_side (const OddSeamFacts *self,
                         OddJob             *job,
                         guint               side)
{
  if (self->laid_join != NULL)
    return dup_panel_name (self, job, self->number - 1 + side);
  if (side == 0)
    return dup_numbers (self->laid->first_patch, self->laid->n_first);
  return dup_numbers (self->laid->second_patch, self->laid->n_second);
}

static char *
with_capital (const char *text)
{
  g_autofree char *head = g_utf8_strup (text, g_utf8_next_char (text) - text);

  return g_strconcat (head, g_utf8_next_char (text), NULL);
}

char *
odd_seam_facts_dup_subtitle (const OddSeamFacts *self,
                             OddJob             *job,
                             int                 unit)
{
  g_autofree char *first = odd_seam_facts_dup_side (self, job, 0);
  g_autofree char *second = odd_seam_facts_dup_side (self, job, 1);
  g_autofree char *length = odd_length_format (self->length_mm, unit);
  g_autofree char *capital = with_capital (first);
  g_autofree char *deep = odd_length_format (self->seam->sewn_mm, unit);

  /* translators: "Patches 7 and 8 to patch 9, 23.6 cm long; as measured, sewn 1.4 cm deep" */
  if (self->seam->sewn_mm > 0.0)
    return g_strdup_printf (_("%s to %s, %s long; as measured, sewn %s deep"), capital, second, length, deep);
  /* translators: "Patches 7 and 8 to patch 9, 23.6 cm long" */
  return g_strdup_printf (_("%s to %s, %s long"), capital, second, length);
}

gboolean
odd_seam_facts_is_level (const OddSeamFacts *self)
{
  const OddSegment line = self->laid != NULL ? self->laid->finished : self->laid_join->finished;

  return fabs (line.to.x - line.from.x) >= fabs (line.to.y - line.from.y);
}

guint
odd_seam_facts_get_end (const OddSeamFacts *self,
                        guint               place)
{
  const OddSegment line = self->laid != NULL ? self->laid->finished : self->laid_join->finished;
  const gboolean from_leads = odd_seam_facts_is_level (self) ? line.from.x <= line.to.x : line.from.y <= line.to.y;

  return from_leads ? place : 1 - place;
}
