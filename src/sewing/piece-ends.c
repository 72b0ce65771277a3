#include "config.h"

#include "sewing/piece-ends.h"

#include <glib/gi18n.h>

static void
end_clear (OddPieceEnd *end)
{
  g_free (end->text);
}

/* "1 to 2" where the seam has one patch on either side, "1, 2 to 3" for more. */
static char *
dup_patches (const OddLayout *layout,
             guint            first,
             guint            n)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < n; i++)
    g_string_append_printf (text, i == 0 ? "%u" : ", %u", layout->patches[first + i].number);
  return g_string_free (text, FALSE);
}

static char *
dup_text (const OddLayout   *layout,
          const OddLaidSeam *seam)
{
  g_autofree char *first = dup_patches (layout, seam->first_patch, seam->n_first);
  g_autofree char *second = dup_patches (layout, seam->second_patch, seam->n_second);

  /* translators: the numbers of the patches on both sides of a seam */
  return g_strdup_printf (_("Between patches %s and %s"), first, second);
}

GArray *
odd_job_dup_piece_ends (OddJob   *job,
                        OddScrap *scrap)
{
  GArray *ends = g_array_new (FALSE, FALSE, sizeof (OddPieceEnd));
  g_autoptr(OddLayout) layout = scrap->gone ? NULL : odd_job_dup_piece_layout (job, scrap);

  g_array_set_clear_func (ends, (GDestroyNotify) end_clear);
  for (guint i = 0; layout != NULL && i < layout->n_seams; i++)
    for (guint k = 0; k < 2; k++)
      if (layout->seams[i].ends[k].kind == ODD_END_CUT)
        {
          const OddLaidSeam *seam = &layout->seams[i];
          const OddPieceEnd end = { scrap->id, seam->seam->id, k, odd_placement_apply (&scrap->piece_at, k == 0 ? seam->raw.from : seam->raw.to),
                                    dup_text (layout, seam) };

          g_array_append_val (ends, end);
        }
  return ends;
}

guint
odd_job_count_piece_ends (OddJob *job)
{
  guint n = 0;

  for (guint i = 0; i < job->scraps->len; i++)
    {
      g_autoptr(GArray) ends = odd_job_dup_piece_ends (job, job->scraps->pdata[i]);

      n += ends->len;
    }
  return n;
}
