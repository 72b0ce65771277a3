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

/* No estimate is good to the millimetre: down to a whole centimetre or half an inch. */
static double
round_down (double  mm,
            OddUnit unit)
{
  const double step_mm = unit == ODD_UNIT_INCH ? 12.7 : 10.0;

  return mm > step_mm ? floor (mm / step_mm) * step_mm : mm;
}

/* The reverse: what this tub gives at most. */
static void
add_largest (GString           *text,
             const OddEstimate *estimate,
             gboolean           counted,
             OddUnit            unit)
{
  const double longest_mm = counted ? estimate->longest_mm : round_down (estimate->longest_mm, unit);
  const double width_mm = counted ? estimate->largest_width_mm : round_down (estimate->largest_width_mm, unit);
  const double length_mm = counted ? estimate->largest_length_mm : round_down (estimate->largest_length_mm, unit);
  g_autofree char *width = odd_length_format (estimate->width_mm, unit);
  g_autofree char *longest = odd_length_format (longest_mm, unit);
  g_autofree char *largest = odd_length_format_pair (width_mm, length_mm, unit);

  if (longest_mm > 0.0)
    add_sentence (text, g_strdup_printf (counted ? _("At %s wide it gives up to %s of length.") : _("At %s wide it gives up to about %s of length."), width, longest));
  if (length_mm > 0.0)
    add_sentence (text, g_strdup_printf (counted ? _("The largest of about these proportions is %s.") : _("The largest of these proportions is about %s."), largest));
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
    add_sentence (text, g_strdup (wish->manner == ODD_PIECE_CRUMBS ? _("None of the scraps is wide enough for a patch and its allowances.")
                                                                   : _("None of the scraps takes a piece of this size.")));
  else
    {
      more = dup_more (estimate->more_mm2, gsm, unit);
      add_sentence (text, g_strdup_printf (_("For the %s about %s more of such scraps would do."), size, more));
    }
  add_largest (text, estimate, wish->manner == ODD_PIECE_SQUARES, unit);
  return g_strdup (text->str);
}

static char *
dup_size (const OddTemplate *size,
          OddUnit            unit)
{
  return size->width_mm == size->length_mm ? odd_length_format (size->width_mm, unit) : odd_length_format_pair (size->width_mm, size->length_mm, unit);
}

/* "8.0 cm, 6.0 × 9.0 cm" */
static char *
dup_sizes (const OddWish *wish,
           OddUnit        unit)
{
  GString *text = g_string_new (NULL);

  for (guint t = 0; t < wish->n_templates; t++)
    {
      g_autofree char *size = dup_size (&wish->templates[t], unit);

      g_string_append_printf (text, "%s%s", t > 0 ? ", " : "", size);
    }
  return g_string_free (text, FALSE);
}

static void
add_squares (GPtrArray         *words,
             const OddEstimate *estimate,
             const OddWish     *wish,
             OddUnit            unit)
{
  const char *how = _("Counted scrap by scrap, each cut in strips at its best turn");

  if (wish->n_templates == 1)
    odd_figure_list_add (words, odd_figure_dup_count (estimate->n_gives), ngettext ("square it gives", "squares it gives", estimate->n_gives), how);
  for (guint t = 0; wish->n_templates > 1 && t < wish->n_templates; t++)
    {
      g_autofree char *size = dup_size (&wish->templates[t], unit);
      g_autofree char *caption = g_strdup_printf (_("it gives cut %s; wanted: %u"), size, estimate->n_wanted[t]);

      odd_figure_list_add (words, odd_figure_dup_count (estimate->n_gives_of[t]), caption, how);
    }
}

static const char *
say_shows (OddPieceManner manner)
{
  switch (manner)
    {
    case ODD_PIECE_SQUARES: return _("Finished squares against the whole tub, odd corners and all");
    case ODD_PIECE_CRUMBS: return _("An estimate: what first proposals have shown of heaps they used up, within about an eighth");
    default: return _("An estimate: what a heap that is used up has shown, within about a tenth");
    }
}

static void
add_tub (GPtrArray         *words,
         const OddEstimate *estimate,
         const OddWish     *wish,
         OddUnit            unit)
{
  odd_figure_list_add (words, odd_area_format (estimate->heap_mm2, unit), _("of cloth in the tub"), NULL);
  if (wish->manner == ODD_PIECE_SQUARES)
    add_squares (words, estimate, wish, unit);
  odd_figure_list_add (words, odd_figure_dup_percent (estimate->gives_mm2 / estimate->heap_mm2), _("of it will show"), say_shows (wish->manner));
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
  const gboolean squares = wish->manner == ODD_PIECE_SQUARES;
  GPtrArray *words = odd_figure_list_new ();

  odd_figure_list_add (words, g_strdup_printf ("%u", estimate->n_panels), ngettext ("panel", "panels", estimate->n_panels), NULL);
  odd_figure_list_add (words, odd_length_format_pair (estimate->panel_width_mm, estimate->panel_length_mm, unit), _("each, finished"), NULL);
  odd_figure_list_add (words, odd_length_format_pair (estimate->cut_width_mm, estimate->cut_length_mm, unit), _("each, raw edge to raw edge"), NULL);
  odd_figure_list_add (words, g_strdup_printf (squares ? "%u" : _("about %u"), estimate->n_patches), ngettext ("patch", "patches", estimate->n_patches), NULL);
  odd_figure_list_add (words, odd_run_format (estimate->seams_mm, unit), squares && wish->n_templates == 1 ? _("of seams to sew") : _("of seams to sew, about"),
                       NULL);
  if (wish->manner == ODD_PIECE_CRUMBS)
    odd_figure_list_add (words, odd_length_format (round (estimate->patch_mm), unit), _("side of a mean patch, about"),
                         _("A patch that finds no scrap is parted, so patches come out smaller than the middle size where scraps are small"));
  add_tub (words, estimate, wish, unit);
  return words;
}

char *
odd_remedy_dup_label (const OddRemedy *remedy,
                      OddJob          *job,
                      OddUnit          unit)
{
  const OddWish *wish = &remedy->wish;
  const OddFinish *finish;
  g_autofree char *size = NULL;

  switch (remedy->kind)
    {
    case ODD_REMEDY_SIZE:
      size = dup_sizes (wish, unit);
      return g_strdup_printf (_("Cut %s instead: enough"), size);
    case ODD_REMEDY_ANOTHER_SIZE:
      size = dup_size (&wish->templates[wish->n_templates - 1], unit);
      return g_strdup_printf (_("Cut %s as well: enough"), size);
    case ODD_REMEDY_SCALE:
      size = odd_length_format (wish->scale_mm, unit);
      return g_strdup_printf (_("Patches of middle size %s instead: very likely enough"), size);
    default:
      finish = odd_job_get_finish (job, remedy->finish_id);
      size = odd_length_format (wish->allowance_mm, unit);
      return g_strdup_printf (_("“%s” at %s instead: enough"), finish != NULL ? finish->name : "", size);
    }
}
