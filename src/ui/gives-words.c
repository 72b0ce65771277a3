#include "config.h"

#include "ui/gives-words.h"

#include <glib/gi18n.h>
#include <math.h>

#include "ui/proposal-words.h"

static gboolean
is_square (OddTemplate size)
{
  return fabs (size.width_mm - size.length_mm) <= ODD_TOLERANCE_MM;
}

static char *
dup_size (OddTemplate size,
          double      allowance_mm,
          OddUnit     unit)
{
  const double width_mm = size.width_mm - 2.0 * allowance_mm, length_mm = size.length_mm - 2.0 * allowance_mm;

  return is_square (size) ? odd_length_format (width_mm, unit) : odd_length_format_pair (width_mm, length_mm, unit);
}

/* "4 + 2" */
static char *
dup_counts (const OddGives *gives,
            const guint    *n)
{
  GString *text = g_string_new (NULL);

  for (guint t = 0; t < gives->sizes.n_templates; t++)
    g_string_append_printf (text, "%s%u", t > 0 ? " + " : "", n[t]);
  return g_string_free (text, FALSE);
}

char *
odd_gives_dup_short (const OddGives      *gives,
                     const OddScrapGives *scrap)
{
  g_autofree char *counts = dup_counts (gives, scrap->n);

  return scrap->pieces->len > 0 ? g_strdup_printf (_("gives %s"), counts) : g_strdup (_("gives 0"));
}

static char *
dup_pieces (const OddGives *gives,
            const guint    *n,
            guint           n_all)
{
  g_autofree char *counts = dup_counts (gives, n);

  if (gives->sizes.n_templates > 1)
    return g_strdup_printf (ngettext ("%s piece", "%s pieces", n_all), counts);
  if (is_square (gives->sizes.templates[0]))
    return g_strdup_printf (ngettext ("%s square", "%s squares", n_all), counts);
  return g_strdup_printf (ngettext ("%s rectangle", "%s rectangles", n_all), counts);
}

char *
odd_gives_dup_title (const OddGives      *gives,
                     const OddScrapGives *scrap)
{
  g_autofree char *pieces = scrap != NULL ? dup_pieces (gives, scrap->n, scrap->pieces->len) : NULL;

  if (scrap == NULL)
    return g_strdup (_("What is left gives none"));
  if (scrap->pieces->len == 0)
    return g_strdup (_("Gives none"));
  /* translators: "Gives 4 squares" */
  return g_strdup_printf (scrap->left ? _("What is left gives %s") : _("Gives %s"), pieces);
}

char *
odd_gives_dup_subtitle (const OddGives      *gives,
                        const OddScrapGives *scrap,
                        OddUnit              unit)
{
  const OddCutSizes *sizes = &gives->sizes;
  GString *text;

  if (sizes->n_templates == 1)
    {
      g_autofree char *size = dup_size (sizes->templates[0], sizes->allowance_mm, unit);

      return g_strdup_printf (_("%s when sewn"), size);
    }
  text = g_string_new (NULL);
  for (guint t = 0; t < sizes->n_templates; t++)
    {
      g_autofree char *size = dup_size (sizes->templates[t], 0.0, unit);

      g_string_append_printf (text, "%s", t > 0 ? ", " : "");
      g_string_append_printf (text, _("%u cut %s"), scrap != NULL ? scrap->n[t] : 0, size);
    }
  return g_string_free (text, FALSE);
}

char *
odd_gives_dup_sum (const OddGives    *gives,
                   const OddGivesSum *sum)
{
  const guint n_giving = sum->n_scraps - sum->n_none;
  g_autofree char *pieces = dup_pieces (gives, sum->n, sum->n_pieces);
  g_autofree char *from = g_strdup_printf (ngettext ("%s from %u scrap", "%s from %u scraps", n_giving), pieces, n_giving);

  if (sum->n_scraps == 0)
    return g_strdup (_("No scrap to cut from"));
  if (n_giving == 0)
    return g_strdup_printf (ngettext ("None from %u scrap", "None from %u scraps", sum->n_scraps), sum->n_scraps);
  if (sum->n_none == 0)
    return g_steal_pointer (&from);
  return g_strdup_printf (ngettext ("%s; %u gives none", "%s; %u give none", sum->n_none), from, sum->n_none);
}

/* Cloth whose weight nobody has told is left out, and then it says so. */
static char *
dup_none_title (const OddGivesSum *sum,
                OddUnit            unit)
{
  g_autofree char *area = odd_area_format (sum->none_mm2, unit);
  g_autofree char *weight = sum->none_grams < 1000.0 ? g_strdup_printf (_("%.0f g"), sum->none_grams)
                                                     : g_strdup_printf (_("%.1f kg"), sum->none_grams / 1000.0);

  if (sum->n_weighed == 0)
    return g_strdup_printf (ngettext ("scrap gives none: %s", "scraps give none: %s", sum->n_none), area);
  if (sum->n_weighed < sum->n_none)
    return g_strdup_printf (ngettext ("scrap gives none: %s, over %s", "scraps give none: %s, over %s", sum->n_none), area, weight);
  return g_strdup_printf (ngettext ("scrap gives none: %s, %s", "scraps give none: %s, %s", sum->n_none), area, weight);
}

static char *
dup_cut_title (OddTemplate size,
               guint       n,
               OddUnit     unit)
{
  g_autofree char *text = dup_size (size, 0.0, unit);

  return g_strdup_printf (is_square (size) ? ngettext ("square cut %s", "squares cut %s", n) : ngettext ("rectangle cut %s", "rectangles cut %s", n), text);
}

GPtrArray *
odd_gives_dup_figures (const OddGives    *gives,
                       const OddGivesSum *sum,
                       OddUnit            unit)
{
  GPtrArray *figures = odd_figure_list_new ();
  g_autofree char *none = dup_none_title (sum, unit);

  for (guint t = 0; t < gives->sizes.n_templates; t++)
    {
      g_autofree char *title = dup_cut_title (gives->sizes.templates[t], sum->n[t], unit);

      odd_figure_list_add (figures, odd_figure_dup_count (sum->n[t]), title, NULL);
    }
  if (sum->n_left > 0)
    {
      g_autofree char *title = g_strdup_printf (ngettext ("of them from what is left of %u scrap in a panel", "of them from what is left of %u scraps in panels",
                                                          sum->n_left), sum->n_left);

      odd_figure_list_add (figures, g_strdup_printf ("%u", sum->n_pieces_left), title, _("Panels pieced by themselves draw from free scraps alone"));
    }
  if (sum->n_none > 0)
    odd_figure_list_add (figures, g_strdup_printf ("%u", sum->n_none), none, _("By the weight of their fabrics, as far as it is known"));
  odd_figure_list_add (figures, odd_figure_dup_percent (sum->of_heap), _("of all these scraps would show"),
                       _("Finished squares against all cloth counted, that of scraps that give none too"));
  if (!isnan (sum->net_yield))
    odd_figure_list_add_yield (figures, sum->net_yield, sum->own_bound, sum->fit);
  return figures;
}
