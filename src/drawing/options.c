#include "config.h"

#include "drawing/painter.h"

static const char *const show_nicks[ODD_N_SHOWS] = { "patches", "seams", "lightness", "wrong-side" };

gboolean
odd_show_from_nick (const char *nick, OddShow *out)
{
  g_return_val_if_fail (nick != NULL && out != NULL, FALSE);

  for (guint i = 0; i < ODD_N_SHOWS; i++)
    if (g_str_equal (nick, show_nicks[i]))
      {
        *out = (OddShow) i;
        return TRUE;
      }
  return FALSE;
}

const char *
odd_show_get_nick (OddShow show)
{
  g_return_val_if_fail ((guint) show < ODD_N_SHOWS, show_nicks[0]);

  return show_nicks[show];
}

void
odd_paint_options_init (OddPaintOptions *options)
{
  g_return_if_fail (options != NULL);

  *options = (OddPaintOptions) { 0 };
  options->show = ODD_SHOW_PATCHES;
  options->px_per_mm = 1.0;
  options->mark_px = 1.0;
  options->ink_colour = 0x000000;
  options->table_colour = 0xf1eee9;
  options->most_detail = ODD_DETAIL_WORDS;
  options->clip_mm = ODD_BOX_EMPTY;
}

double
odd_paint_overhang_mm (const OddPaintOptions *options)
{
  const double shadow_mm = 6.0, signs_px = 12.0;

  g_return_val_if_fail (options != NULL, shadow_mm);

  return MAX (shadow_mm, signs_px * options->mark_px / options->px_per_mm);
}
