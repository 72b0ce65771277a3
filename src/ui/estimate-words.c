#include "config.h"

#include "ui/estimate-words.h"

#include <glib/gi18n.h>

char *
odd_estimate_dup_headline (const OddEstimate *estimate,
                           const OddWish     *wish,
                           OddUnit            unit)
{
  g_autofree char *area = odd_area_format (estimate->short_mm2, unit);

  if (estimate->short_mm2 <= 0.0)
    return g_strdup (wish->manner == ODD_PIECE_SQUARES ? _("Enough") : _("Very likely enough"));
  if (wish->manner == ODD_PIECE_SQUARES)
    return g_strdup_printf (ngettext ("%u square short", "%u squares short", estimate->n_short), estimate->n_short);
  return g_strdup_printf (_("About %s short"), area);
}

/* How much more cloth, by weight or by area. */
static char *
dup_more (double  mm2,
          double  gsm,
          OddUnit unit)
{
  if (gsm > 0.0)
    return g_strdup_printf (_("%.1f kg"), mm2 / 1e6 * gsm / 1000.0);
  return odd_area_format (mm2, unit);
}

static void
add_sentence (GString *text,
              char    *sentence)
{
  if (text->len > 0)
    g_string_append_c (text, ' ');
  g_string_append (text, sentence);
  g_free (sentence);
}

/* The reverse: what this tub gives at most. */
static void
add_largest (GString           *text,
             const OddEstimate *estimate,
             OddUnit            unit)
{
  g_autofree char *width = odd_length_format (estimate->width_mm, unit);
  g_autofree char *longest = odd_length_format (estimate->longest_mm, unit);
  g_autofree char *largest = odd_length_format_pair (estimate->largest_width_mm, estimate->largest_length_mm, unit);

  if (estimate->longest_mm > 0.0)
    add_sentence (text, g_strdup_printf (_("At %s wide it gives up to %s of length."), width, longest));
  if (estimate->largest_length_mm > 0.0)
    add_sentence (text, g_strdup_printf (_("The largest of about these proportions is %s."), largest));
}

char *
odd_estimate_dup_sentence (const OddEstimate *estimate,
                           const OddWish     *wish,
                           double             gsm,
                           OddUnit            unit)
{
  g_autoptr(GString) text = g_string_new (NULL);
  g_autofree char *size = odd_length_format_pair (estimate->width_mm, estimate->length_mm, unit);
  g_autofree char *more = NULL;

  if (estimate->short_mm2 <= 0.0)
    add_sentence (text, g_strdup_printf (_("The tub gives the %s."), size));
  else if (isinf (estimate->more_mm2))
    add_sentence (text, g_strdup (_("None of the scraps takes a piece of this size.")));
  else
    {
      more = dup_more (estimate->more_mm2, gsm, unit);
      add_sentence (text, g_strdup_printf (_("For the %s about %s more of such scraps would do."), size, more));
    }
  add_largest (text, estimate, unit);
  return g_strdup (text->str);
}

static void
add_tub (GPtrArray         *words,
         const OddEstimate *estimate,
         const OddWish     *wish,
         OddUnit            unit)
{
  odd_figure_list_add (words, odd_area_format (estimate->heap_mm2, unit), _("of cloth in the tub"), NULL);
  if (wish->manner == ODD_PIECE_SQUARES)
    odd_figure_list_add (words, odd_figure_dup_count (estimate->n_gives), ngettext ("square it gives", "squares it gives", estimate->n_gives),
                         _("Counted scrap by scrap, each cut in strips at its best turn"));
  odd_figure_list_add (words, odd_figure_dup_percent (estimate->gives_mm2 / estimate->heap_mm2), _("of it will show"),
                       wish->manner == ODD_PIECE_SQUARES ? _("Finished squares against the whole tub, odd corners and all")
                                                          : _("An estimate: what a heap that is used up has shown, within about a tenth"));
  odd_figure_list_add (words, odd_figure_dup_percent (estimate->heap_bound), _("of it could show at most"),
                       _("Cloth farther from the border of its scrap than the allowance: no patches of any shape can show more"));
  odd_figure_list_add (words, odd_figure_dup_percent (estimate->own_bound), _("of a cut patch shows"),
                       _("What the allowances leave of a patch of this size"));
}

GPtrArray *
odd_estimate_dup_figures (const OddEstimate *estimate,
                          const OddWish     *wish,
                          OddUnit            unit)
{
  const gboolean exact = wish->manner == ODD_PIECE_SQUARES;
  GPtrArray *words = odd_figure_list_new ();

  odd_figure_list_add (words, g_strdup_printf ("%u", estimate->n_panels), ngettext ("panel", "panels", estimate->n_panels), NULL);
  odd_figure_list_add (words, odd_length_format_pair (estimate->panel_width_mm, estimate->panel_length_mm, unit), _("each, finished"), NULL);
  odd_figure_list_add (words, odd_length_format_pair (estimate->cut_width_mm, estimate->cut_length_mm, unit), _("each, raw edge to raw edge"), NULL);
  odd_figure_list_add (words, g_strdup_printf (exact ? "%u" : _("about %u"), estimate->n_patches), ngettext ("patch", "patches", estimate->n_patches), NULL);
  odd_figure_list_add (words, odd_run_format (estimate->seams_mm, unit), exact ? _("of seams to sew") : _("of seams to sew, about"), NULL);
  add_tub (words, estimate, wish, unit);
  return words;
}

char *
odd_remedy_dup_label (const OddRemedy *remedy,
                      OddJob          *job,
                      OddUnit          unit)
{
  const OddFinish *finish = odd_job_get_finish (job, remedy->finish_id);
  g_autofree char *size = NULL;

  if (remedy->kind == ODD_REMEDY_SIZE)
    {
      size = remedy->wish.size.width_mm == remedy->wish.size.length_mm
               ? odd_length_format (remedy->wish.size.width_mm, unit)
               : odd_length_format_pair (remedy->wish.size.width_mm, remedy->wish.size.length_mm, unit);
      return g_strdup_printf (_("Cut %s instead: enough"), size);
    }
  size = odd_length_format (remedy->wish.allowance_mm, unit);
  return g_strdup_printf (_("“%s” at %s instead: enough"), finish != NULL ? finish->name : "", size);
}
