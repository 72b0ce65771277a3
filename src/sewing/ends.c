#include "config.h"

#include "sewing/ends.h"

#include "sewing/stage.h"

gboolean
odd_end_wants_securing (OddEndKind kind)
{
  return kind == ODD_END_OPEN || kind == ODD_END_CUT;
}

static void
add_ends (GArray          *ends,
          OddId            panel_id,
          const OddSeam   *seam,
          const OddFinish *finish,
          OddSegment       finished,
          const OddEnd     two[2])
{
  for (guint e = 0; e < 2; e++)
    {
      const OddSeamEnd end = { seam->id, panel_id, e, two[e].kind, odd_seam_is_sewn (seam, finish), e == 0 ? finished.from : finished.to };

      g_array_append_val (ends, end);
    }
}

static void
add_panel (GArray *ends,
           OddJob *job,
           OddId   panel_id)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel_id);

  for (guint i = 0; i < layout->n_seams; i++)
    {
      const OddLaidSeam *laid = &layout->seams[i];

      /* What a trim took has no ends. */
      if (laid->raw_length_mm > 0.0)
        add_ends (ends, panel_id, laid->seam, laid->finish, laid->finished, laid->ends);
    }
}

static void
add_textile (GArray     *ends,
             OddJob     *job,
             OddTextile *textile)
{
  g_autoptr(OddTextileLayout) laid = odd_job_dup_textile_layout (job, textile->id);

  for (guint i = 0; i < laid->n_panels; i++)
    add_panel (ends, job, laid->panels[i].panel_id);
  for (guint i = 0; i < laid->n_joins; i++)
    add_ends (ends, 0, laid->joins[i].join, laid->joins[i].finish, laid->joins[i].finished, laid->joins[i].ends);
}

GArray *
odd_job_dup_ends (OddJob *job,
                  OddId   textile_id)
{
  GArray *ends = g_array_new (FALSE, FALSE, sizeof (OddSeamEnd));

  g_return_val_if_fail (job != NULL, ends);

  for (guint i = 0; i < job->textiles->len; i++)
    if (textile_id == 0 || ((OddTextile *) job->textiles->pdata[i])->id == textile_id)
      add_textile (ends, job, job->textiles->pdata[i]);
  for (guint i = 0; textile_id == 0 && i < job->loose_panels->len; i++)
    add_panel (ends, job, ((OddPanel *) job->loose_panels->pdata[i])->id);
  return ends;
}

guint
odd_job_count_ends_to_secure (OddJob *job,
                              OddId   textile_id)
{
  g_autoptr(GArray) ends = odd_job_dup_ends (job, textile_id);
  guint n = 0;

  for (guint i = 0; i < ends->len; i++)
    n += odd_end_wants_securing (g_array_index (ends, OddSeamEnd, i).kind);
  return n;
}
