#include "config.h"

#include "ui/proposal-words.h"

#include <glib/gi18n.h>
#include "sewing/own-time.h"

void
odd_figure_list_add_yield (GPtrArray *words,
                           double     net_yield,
                           double     own_bound,
                           double     fit)
{
  odd_figure_list_add (words, odd_figure_dup_percent (net_yield), _("of the cloth used shows"),
                       _("Finished patches against the scraps cut into, less the offcuts that stay usable"));
  odd_figure_list_add (words, odd_figure_dup_percent (own_bound), _("would show if nothing were trimmed"),
                       _("What the seam allowances alone leave of patches of these sizes. Larger patches or smaller allowances raise it"));
  odd_figure_list_add (words, odd_figure_dup_percent (fit), _("fit: the one against the other"),
                       _("How well the scraps were used, whatever the size of the patches"));
}

static void
add_look (GPtrArray                *words,
          const OddFigures         *figures,
          const OddProposalOptions *options)
{
  g_autofree char *spread = g_strdup_printf ("± %.1f", figures->lightness_spread);

  odd_figure_list_add (words, odd_figure_dup_count (figures->n_contacts), ngettext ("pair of neighbours of one fabric", "pairs of neighbours of one fabric", figures->n_contacts), NULL);
  if (options->manner != ODD_PIECE_SQUARES)
    odd_figure_list_add (words, odd_figure_dup_count (figures->n_lined_up), ngettext ("pair of seams in line", "pairs of seams in line", figures->n_lined_up),
                         _("Seams of neighbouring rows that end within 15 mm of each other"));
  odd_figure_list_add (words, g_steal_pointer (&spread), _("unevenness of light and dark"),
                       _("How far the lightness about each patch strays from what was wanted, on a scale from 0 to 100"));
}

static void
add_work (GPtrArray          *words,
          const OddFigures   *figures,
          const OddPanelWork *work,
          OddUnit             unit)
{
  g_autofree char *area = odd_area_format (figures->offcuts_mm2, unit);
  g_autofree char *back = g_strdup_printf (ngettext ("offcut back to the tub, %s", "offcuts back to the tub, %s", figures->n_offcuts), area);

  odd_figure_list_add (words, odd_run_format (figures->seams_mm, unit), _("of seams to sew"), NULL);
  odd_figure_list_add (words, g_strdup_printf ("%u", work->n_rounds), ngettext ("round of sewing, at least", "rounds of sewing, at least", work->n_rounds),
                       _("Seams of one round wait for none of one another: they can be sewn, finished and pressed together"));
  odd_figure_list_add (words, odd_range_dup_text (work->time_s), _("of work, cutting out included"),
                       _("By your own times where you took them, else by the usual figures: Order of work, Time and thread"));
  odd_figure_list_add (words, g_strdup_printf ("%u", figures->n_scraps_used), ngettext ("scrap cut into", "scraps cut into", figures->n_scraps_used), NULL);
  odd_figure_list_add (words, odd_figure_dup_count (figures->n_offcuts), figures->n_offcuts > 0 ? back : _("offcuts back to the tub"), NULL);
}

GPtrArray *
odd_proposal_dup_figures (const OddProposal        *proposal,
                          const OddPanelWork       *work,
                          const OddProposalOptions *options,
                          OddUnit                   unit)
{
  GPtrArray *words = odd_figure_list_new ();
  const OddFigures *figures = &proposal->figures;

  odd_figure_list_add (words, g_strdup_printf ("%u", figures->n_patches), ngettext ("patch", "patches", figures->n_patches), NULL);
  if (figures->n_bare > 0)
    odd_figure_list_add (words, g_strdup_printf ("%u", figures->n_bare), ngettext ("place left bare", "places left bare", figures->n_bare), NULL);
  odd_figure_list_add (words, odd_length_format (figures->smallest_side_mm, unit), _("the narrowest patch"), NULL);
  odd_figure_list_add_yield (words, figures->net_yield, figures->own_bound, figures->fit);
  add_look (words, figures, options);
  add_work (words, figures, work, unit);
  return words;
}

char *
odd_proposal_dup_caption (const OddProposal *proposal)
{
  const OddFigures *figures = &proposal->figures;

  if (figures->n_bare > 0)
    return g_strdup_printf (ngettext ("%u patch, %u bare", "%u patches, %u bare", figures->n_patches), figures->n_patches, figures->n_bare);
  return g_strdup_printf (ngettext ("%u patch, fit %.0f %%", "%u patches, fit %.0f %%", figures->n_patches), figures->n_patches, 100.0 * figures->fit);
}
