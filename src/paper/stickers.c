/* A sheet of small stickers, one for each scrap that still lies in the tub: its number large, where it belongs, its cloth and a picture. */
#include "config.h"

#include "paper/ticket-private.h"

#include <glib/gi18n.h>
#include "cloth/piece.h"

#define TOP_MM (ODD_HEAD_MM + 4.0)
#define FOOT_MM 9.0
#define INSIDE_MM 2.0           /* from the line to cut along */

/* How many a sheet holds; sizes follow from the paper. Points of the number and of the words. */
static const struct { guint n_columns, n_rows; double number, words; } sizes[ODD_N_STICKER_SIZES] = {
  [ODD_STICKERS_SMALL] = { 5, 12, 14.0, 6.0 },
  [ODD_STICKERS_MIDDLE] = { 4, 9, 18.0, 7.0 },
  [ODD_STICKERS_LARGE] = { 3, 6, 26.0, 8.5 },
};

static OddBox
get_space (const OddTicket *ticket)
{
  return (OddBox) { ODD_MARGIN_MM, TOP_MM, ticket->width_mm - 2 * ODD_MARGIN_MM, ticket->height_mm - ODD_MARGIN_MM - FOOT_MM - TOP_MM };
}

static void
draw_thumbnail (OddTicket *ticket, OddPen *pen, OddScrap *scrap, OddBox space)
{
  g_autoptr(OddPolygon) outline = odd_scrap_dup_outline (scrap, odd_job_get_scrap_fabric (ticket->job, scrap));
  const OddBox box = odd_polygon_get_box (outline);
  const double scale = MAX (box.width / (space.width - 1.0), box.height / (space.height - 1.0));
  OddPaintOptions options;

  odd_ticket_init_paint (&options, scale);
  options.px_per_mm *= 1.6;                   /* marks as small as the picture */
  cairo_save (pen->cr);
  cairo_translate (pen->cr, space.x + (space.width - box.width / scale) / 2, space.y + (space.height - box.height / scale) / 2);
  cairo_scale (pen->cr, 1.0 / scale, 1.0 / scale);
  cairo_translate (pen->cr, -box.x, -box.y);
  odd_paint_scrap (pen->cr, ticket->swatches, ticket->job, scrap, FALSE, &options);
  cairo_restore (pen->cr);
}

static void
draw_sticker (OddTicket *ticket, OddPen *pen, OddScrap *scrap, OddBox box)
{
  const OddStickerSize size = ticket->options.stickers;
  const double picture_mm = MIN (box.height - 2 * INSIDE_MM, box.width * 0.42);
  const double x = box.x + INSIDE_MM + picture_mm + 1.6, width_mm = box.x + box.width - INSIDE_MM - x;
  const OddType number_type = { sizes[size].number, TRUE, PANGO_ALIGN_LEFT, TRUE }, words_type = { sizes[size].words, FALSE, PANGO_ALIGN_LEFT, TRUE };
  g_autofree char *number = g_strdup_printf ("%u", scrap->number);
  g_autofree char *cloth = odd_job_dup_scrap_cloth_name (ticket->job, scrap);
  double y = box.y + INSIDE_MM * 0.6;

  draw_thumbnail (ticket, pen, scrap, (OddBox) { box.x + INSIDE_MM, box.y + INSIDE_MM, picture_mm, box.height - 2 * INSIDE_MM });
  y += odd_pen_write (pen, odd_point (x, y), width_mm, number_type, number);
  if (scrap->place != NULL && scrap->place[0] != '\0')
    y += odd_pen_write (pen, odd_point (x, y), width_mm, words_type, scrap->place);
  odd_pen_write (pen, odd_point (x, y), width_mm, words_type, cloth);
}

/* Fine broken lines to cut along. */
static void
draw_grid (OddPen *pen, OddBox space, guint n_columns, guint n_rows)
{
  static const double dashes[] = { 1.0, 1.0 };

  cairo_set_dash (pen->cr, dashes, 2, 0.0);
  for (guint i = 0; i <= n_columns; i++)
    odd_pen_line (pen, odd_point (space.x + i * space.width / n_columns, space.y), odd_point (space.x + i * space.width / n_columns, space.y + space.height), 0.1);
  for (guint i = 0; i <= n_rows; i++)
    odd_pen_line (pen, odd_point (space.x, space.y + i * space.height / n_rows), odd_point (space.x + space.width, space.y + i * space.height / n_rows), 0.1);
  cairo_set_dash (pen->cr, NULL, 0, 0.0);
}

static void
draw_stickers (OddTicket *ticket, OddPen *pen, const OddPage *page)
{
  const OddBox space = get_space (ticket);
  const guint n_columns = sizes[ticket->options.stickers].n_columns, n_rows = sizes[ticket->options.stickers].n_rows;
  const double width_mm = space.width / n_columns, height_mm = space.height / n_rows;
  const GPtrArray *scraps = page->data;

  odd_pen_write (pen, odd_point (ODD_MARGIN_MM, ODD_HEAD_MM - 5.0), space.width, ODD_TYPE_HEADING, _("Stickers for the scraps"));
  draw_grid (pen, space, n_columns, n_rows);
  for (guint i = 0; i < scraps->len; i++)
    draw_sticker (ticket, pen, scraps->pdata[i], (OddBox) { space.x + i % n_columns * width_mm, space.y + i / n_columns * height_mm, width_mm, height_mm });
  odd_pen_write (pen, odd_point (ODD_MARGIN_MM, space.y + space.height + 1.6), space.width, ODD_TYPE_SMALL,
                 _("Labels: small parts and cords, such as buttons, beads and ties, on clothes for small children are a matter of local rules. This is a draft: check the "
                   "law before you sell."));
}

/* --- pages --- */

static gboolean
lies_in_tub (OddJob *job, OddScrap *scrap)
{
  const OddScrapState state = odd_job_get_scrap_state (job, scrap->id);

  return !scrap->cut_out && (state == ODD_SCRAP_FREE || state == ODD_SCRAP_PLACED);
}

static int
compare_numbers (gconstpointer a, gconstpointer b)
{
  const OddScrap *x = *(OddScrap *const *) a, *y = *(OddScrap *const *) b;

  return (x->number > y->number) - (x->number < y->number);
}

static void
add_page (OddTicket *ticket, GPtrArray *scraps, guint first, guint n)
{
  OddPage *page = odd_ticket_add_page (ticket, draw_stickers);
  GPtrArray *here = g_ptr_array_new ();

  for (guint i = 0; i < n; i++)
    g_ptr_array_add (here, scraps->pdata[first + i]);
  page->data = here;
  page->free_data = (GDestroyNotify) g_ptr_array_unref;
}

void
odd_ticket_add_stickers (OddTicket *self)
{
  const guint most = sizes[self->options.stickers].n_columns * sizes[self->options.stickers].n_rows;
  g_autoptr(GPtrArray) scraps = g_ptr_array_new ();

  for (guint i = 0; i < self->job->scraps->len; i++)
    if (lies_in_tub (self->job, self->job->scraps->pdata[i]))
      g_ptr_array_add (scraps, self->job->scraps->pdata[i]);
  g_ptr_array_sort (scraps, compare_numbers);
  for (guint first = 0; first < scraps->len; first += most)
    add_page (self, scraps, first, MIN (most, scraps->len - first));
}
