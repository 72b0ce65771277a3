#include "config.h"

#include "sewing/unfinished.h"

#include <glib/gi18n.h>

#include "cloth/length.h"
#include "sewing/stage.h"

static const char *const nicks[ODD_N_UNFINISHED_KINDS] = { "nothing", "all", "finish", "press", "topstitch", "raw-inside" };

const char *
odd_unfinished_kind_get_nick (OddUnfinishedKind kind)
{
  g_return_val_if_fail ((guint) kind < ODD_N_UNFINISHED_KINDS, nicks[0]);

  return nicks[kind];
}

gboolean
odd_unfinished_kind_from_nick (const char        *nick,
                               OddUnfinishedKind *out)
{
  g_return_val_if_fail (nick != NULL && out != NULL, FALSE);

  for (guint i = 0; i < ODD_N_UNFINISHED_KINDS; i++)
    if (g_str_equal (nick, nicks[i]))
      {
        *out = i;
        return TRUE;
      }
  return FALSE;
}

void
odd_unfinished_clear (OddUnfinished *self)
{
  g_clear_pointer (&self->seams, g_array_unref);
}

/* Nothing for what is not sewn yet, or done. */
static OddUnfinishedKind
find_kind (const OddSeam   *seam,
           const OddFinish *finish,
           gboolean         raw_inside)
{
  if (!odd_seam_is_sewn (seam, finish))
    return ODD_UNFINISHED_NOTHING;
  if (raw_inside)
    return ODD_UNFINISHED_RAW_INSIDE;
  switch (odd_seam_get_next (seam, finish, NULL))
    {
    case ODD_WORK_FINISH: return ODD_UNFINISHED_FINISH;
    case ODD_WORK_PRESS: return ODD_UNFINISHED_PRESS;
    case ODD_WORK_TOPSTITCH: return ODD_UNFINISHED_TOPSTITCH;
    case ODD_WORK_SEW:
    case ODD_WORK_NONE:
    default: return ODD_UNFINISHED_NOTHING;
    }
}

static void
add_seam (OddUnfinished     *self,
          OddUnfinishedKind  wanted,
          OddId              panel_id,
          const OddSeam     *seam,
          const OddFinish   *finish,
          OddSegment         line,
          double             run_mm,
          gboolean           raw_inside)
{
  const OddUnfinishedSeam found = { seam->id, panel_id, line, find_kind (seam, finish, raw_inside) };

  if (found.kind == ODD_UNFINISHED_NOTHING || !(wanted == ODD_UNFINISHED_ALL || wanted == found.kind))
    return;
  g_array_append_val (self->seams, found);
  self->run_mm += run_mm;
  for (guint i = 0; i < finish->n_operations; i++)
    if (odd_progress_get_state (seam->progress, i) == ODD_STATE_OPEN)
      {
        self->n_open[finish->operations[i].station]++;
        self->open_mm[finish->operations[i].station] += run_mm;
      }
}

/* @textile: (nullable) */
static void
add_panel (OddUnfinished     *self,
           OddUnfinishedKind  wanted,
           OddId              panel_id,
           const OddLayout   *layout,
           OddTextileLayout  *textile)
{
  g_autofree gboolean *raw_inside = odd_layout_raw_inside (layout, textile);

  for (guint i = 0; i < layout->n_seams; i++)
    if (layout->seams[i].raw_length_mm > 0.0)
      add_seam (self, wanted, panel_id, layout->seams[i].seam, layout->seams[i].finish, layout->seams[i].finished, layout->seams[i].raw_length_mm, raw_inside[i]);
}

void
odd_unfinished_init (OddUnfinished     *self,
                     OddJob            *job,
                     OddUnfinishedKind  kind)
{
  g_return_if_fail (self != NULL && job != NULL);

  *self = (OddUnfinished) { .kind = kind, .seams = g_array_new (FALSE, FALSE, sizeof (OddUnfinishedSeam)) };
  for (guint t = 0; t < job->textiles->len; t++)
    {
      g_autoptr(OddTextileLayout) layout = odd_job_dup_textile_layout (job, ((OddTextile *) job->textiles->pdata[t])->id);

      for (guint i = 0; i < layout->n_panels; i++)
        add_panel (self, kind, layout->panels[i].panel_id, layout->panels[i].layout, layout);
      for (guint i = 0; i < layout->n_joins; i++)
        add_seam (self, kind, 0, layout->joins[i].join, layout->joins[i].finish, layout->joins[i].finished, layout->joins[i].raw_length_mm, FALSE);
    }
  for (guint i = 0; i < job->loose_panels->len; i++)
    {
      OddPanel *panel = job->loose_panels->pdata[i];
      g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel->id);

      add_panel (self, kind, panel->id, layout, NULL);
    }
}

/* NULL where all are meant. */
static const char *
get_heading (OddUnfinishedKind kind)
{
  switch (kind)
    {
    case ODD_UNFINISHED_FINISH: return _("To be made fast:");
    case ODD_UNFINISHED_PRESS: return _("To be pressed:");
    case ODD_UNFINISHED_TOPSTITCH: return _("To be topstitched:");
    case ODD_UNFINISHED_RAW_INSIDE: return _("Raw inside:");
    case ODD_UNFINISHED_NOTHING:
    case ODD_UNFINISHED_ALL:
    default: return NULL;
    }
}

char *
odd_unfinished_dup_text (const OddUnfinished *self,
                         int                  unit)
{
  g_autoptr(GString) text = g_string_new (NULL);

  g_return_val_if_fail (self != NULL, NULL);

  if (get_heading (self->kind) != NULL)
    g_string_append_printf (text, "%s ", get_heading (self->kind));
  if (self->seams->len == 0)
    {
      g_string_append (text, self->kind == ODD_UNFINISHED_ALL ? _("No sewn seam wants that") : _("no seam"));
      return g_string_free (g_steal_pointer (&text), FALSE);
    }
  g_string_append_printf (text, ngettext ("%u seam", "%u seams", self->seams->len), self->seams->len);
  for (guint i = 0; i < ODD_N_STATIONS; i++)
    if (self->n_open[i] > 0)
      {
        g_autofree char *run = odd_run_format (self->open_mm[i], unit);

        g_string_append_printf (text, " · %s %u, %s", odd_station_get_name (i), self->n_open[i], run);
      }
  return g_string_free (g_steal_pointer (&text), FALSE);
}
