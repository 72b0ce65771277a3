/* A panel on a sheet of its own, from both sides: patch numbers large, and the measures of its sides. Where the patches would be too small for that, each
 * side has a sheet. */
#include "config.h"

#include "paper/ticket-private.h"

#include <glib/gi18n.h>

#define MEASURE_MM 16.0           /* beside the drawing, for the measures of a side */
#define WORDS_MM 58.0
#define SIZE_POINTS 6.0
#define LEAST_PATCH_MM 4.5        /* on paper: below, a number has no room */
#define LEAST_MEASURE_MM 3.4      /* nearer ticks get no figure */

/* --- measures along the sides --- */

static int
compare_doubles (gconstpointer a, gconstpointer b)
{
  const double x = *(const double *) a, y = *(const double *) b;

  return (x > y) - (x < y);
}

/* Where seams end on the left (or right) side of the finished panel, and its two corners there. */
static GArray *
find_ends (const OddLayout *layout, double side_x)
{
  GArray *at = g_array_new (FALSE, FALSE, sizeof (double));
  const double top = 0.0;

  g_array_append_val (at, top);
  for (guint i = 0; i < layout->n_seams; i++)
    {
      const OddSegment s = layout->seams[i].finished;

      if (fabs (s.from.x - side_x) < 0.01)
        g_array_append_val (at, s.from.y);
      if (fabs (s.to.x - side_x) < 0.01)
        g_array_append_val (at, s.to.y);
    }
  g_array_append_val (at, layout->box.height);
  g_array_sort (at, compare_doubles);
  return at;
}

static void
draw_measures (OddTicket *ticket, OddPen *pen, const GArray *at, double x, double top, double scale)
{
  for (guint i = 0; i < at->len; i++)
    {
      const double y = top + g_array_index (at, double, i) / scale;

      odd_pen_line (pen, odd_point (x - 1.2, y), odd_point (x + 1.2, y), ODD_LINE_MM);
      if (i + 1 < at->len && g_array_index (at, double, i + 1) / scale - (y - top) >= LEAST_MEASURE_MM)
        {
          const double gap_mm = g_array_index (at, double, i + 1) - g_array_index (at, double, i);
          g_autofree char *text = odd_length_format_bare (gap_mm, ticket->unit);

          odd_pen_write_measure (pen, odd_point (x, y + gap_mm / scale / 2), 7.0, text);
        }
    }
}

static void
draw_side (OddTicket *ticket, OddPen *pen, const OddLayout *layout, double side_x, double x, double top, double scale)
{
  g_autoptr(GArray) at = find_ends (layout, side_x);

  odd_pen_line (pen, odd_point (x, top), odd_point (x, top + layout->box.height / scale), ODD_LINE_MM);
  draw_measures (ticket, pen, at, x, top, scale);
}

static void
draw_width (OddTicket *ticket, OddPen *pen, double x, double y, double length_mm, double scale)
{
  g_autofree char *text = odd_length_format (length_mm, ticket->unit);
  const double end = x + length_mm / scale;

  odd_pen_line (pen, odd_point (x, y), odd_point (end, y), ODD_LINE_MM);
  odd_pen_line (pen, odd_point (x, y - 1.2), odd_point (x, y + 1.2), ODD_LINE_MM);
  odd_pen_line (pen, odd_point (end, y - 1.2), odd_point (end, y + 1.2), ODD_LINE_MM);
  odd_pen_write_measure (pen, odd_point ((x + end) / 2, y), 7.0, text);
}

/* --- numbers --- */

static char *
describe_size (OddTicket *ticket, const OddConvex *region, double scale, OddPen *pen)
{
  const OddBox box = odd_convex_box (region);
  const gboolean rectangle = region->n == 4 && fabs (box.width * box.height - odd_convex_area (region)) < 1.0;
  g_autofree char *width = odd_length_format_bare (box.width, ticket->unit);
  g_autofree char *length = odd_length_format_bare (box.height, ticket->unit);
  g_autofree char *size = g_strdup_printf ("%s × %s", width, length);
  const gboolean has_room = box.height / scale > 9.0 && odd_pen_get_width (pen, SIZE_POINTS, FALSE, size) + 1.0 < box.width / scale;

  return rectangle && has_room ? g_steal_pointer (&size) : NULL;
}

static void
write_patch (OddTicket *ticket, OddPen *pen, const OddLayout *layout, const OddPatch *patch, const OddPaintOptions *options, double scale)
{
  const gboolean wrong_side = options->show == ODD_SHOW_WRONG_SIDE;
  const OddBox box = odd_convex_box (patch->region);
  const OddPoint centre = odd_convex_centroid (patch->region);
  const OddPoint at = odd_point ((wrong_side ? layout->box.width - centre.x : centre.x) / scale, centre.y / scale);
  const double points = CLAMP (MIN (box.width, box.height) / scale * 1.05, 5.5, 13.0);
  g_autofree char *number = g_strdup_printf ("%u", patch->number);
  g_autofree char *size = wrong_side ? NULL : describe_size (ticket, patch->region, scale, pen);

  odd_pen_write_centred (pen, odd_point (at.x, at.y - (size != NULL ? 1.4 : 0.0)), points, TRUE, TRUE, number);
  if (size != NULL)
    odd_pen_write_centred (pen, odd_point (at.x, at.y + 2.6), SIZE_POINTS, FALSE, TRUE, size);
}

static void
draw_panel (OddTicket *ticket, OddPen *pen, OddPoint at, const OddLayout *layout, OddTextileLayout *textile, OddShow show, double scale)
{
  OddPaintOptions options;

  odd_ticket_init_paint (&options, scale);
  options.show = show;
  options.most_detail = ODD_DETAIL_SIGNS;         /* the numbers are written here, larger than on a screen */
  cairo_save (pen->cr);
  cairo_translate (pen->cr, at.x, at.y);
  cairo_scale (pen->cr, 1.0 / scale, 1.0 / scale);
  odd_paint_panel (pen->cr, ticket->swatches, ticket->job, layout, textile, &options);
  cairo_restore (pen->cr);
  cairo_save (pen->cr);
  cairo_translate (pen->cr, at.x, at.y);
  for (guint i = 0; i < layout->n_patches; i++)
    write_patch (ticket, pen, layout, &layout->patches[i], &options, scale);
  cairo_restore (pen->cr);
}

/* --- words --- */

static double
write_pair (OddPen *pen, OddPoint at, const char *label, char *value)
{
  odd_pen_write (pen, at, 24.0, ODD_TYPE_BODY, label);
  odd_pen_write (pen, odd_point (at.x + 24.0, at.y), WORDS_MM - 24.0, ODD_TYPE_STRONG, value);
  g_free (value);
  return 5.2;
}

static double
write_allowance (OddTicket *ticket, OddPen *pen, OddPoint at, const OddLayout *layout)
{
  double least = G_MAXDOUBLE, most = 0.0;
  g_autofree char *from = NULL, *to = NULL;

  for (guint i = 0; i < layout->n_seams; i++)
    {
      least = MIN (least, layout->seams[i].allowance_mm);
      most = MAX (most, layout->seams[i].allowance_mm);
    }
  if (layout->n_seams == 0)
    return 0.0;
  from = odd_length_format (least, ticket->unit);
  to = odd_length_format (most, ticket->unit);
  return write_pair (pen, at, _("Allowances"), most - least < 0.05 ? g_strdup (from) : g_strdup_printf (_("%s to %s"), from, to));
}

static double
write_words (OddTicket *ticket, OddPen *pen, OddPoint at, const OddLayout *layout)
{
  const OddWorkCount work = odd_layout_count_work (layout);
  double y = at.y;

  y += write_pair (pen, odd_point (at.x, y), _("Finished"), odd_length_format_pair (layout->box.width, layout->box.height, ticket->unit));
  y += write_pair (pen, odd_point (at.x, y), _("Raw"), odd_length_format_pair (layout->raw_box.width, layout->raw_box.height, ticket->unit));
  if (fabs (layout->alone_width_mm - layout->box.width) > 0.05 || fabs (layout->alone_length_mm - layout->box.height) > 0.05)
    y += write_pair (pen, odd_point (at.x, y), _("Alone"), odd_length_format_pair (layout->alone_width_mm, layout->alone_length_mm, ticket->unit));
  y += write_allowance (ticket, pen, odd_point (at.x, y), layout);
  y += write_pair (pen, odd_point (at.x, y), _("Patches"), g_strdup_printf ("%u", layout->n_patches));
  y += write_pair (pen, odd_point (at.x, y), _("Seams done"), g_strdup_printf (_("%u of %u"), work.n_done, work.n_seams));
  y += 4.0;
  y += odd_pen_write (pen, odd_point (at.x, y), WORDS_MM, ODD_TYPE_SMALL,
                      _("Measures are finished, from seam to seam. The outer line is the raw edge. Cut shapes with their allowances are in the cutting plans."));
  return y;
}

/* Beside the right side, below the words. */
static double
choose_wrong_side_scale (const OddTicket *ticket, const OddLayout *layout)
{
  return odd_ticket_choose_scale (layout->raw_box, WORDS_MM, ticket->height_mm - ODD_MARGIN_MM - ODD_HEAD_MM - 86.0);
}

static gboolean
has_room_for_numbers (const OddLayout *layout, double scale)
{
  for (guint i = 0; i < layout->n_patches; i++)
    if (sqrt (odd_convex_area (layout->patches[i].region)) / scale < LEAST_PATCH_MM)
      return FALSE;
  return TRUE;
}

/* As it lies while it is sewn: face down. */
static void
draw_wrong_side (OddTicket *ticket, OddPen *pen, OddPoint at, const OddLayout *layout, OddTextileLayout *textile)
{
  const double scale = choose_wrong_side_scale (ticket, layout);
  const double right_mm = layout->raw_box.x + layout->raw_box.width - layout->box.width;
  g_autofree char *caption = g_strdup_printf (_("Wrong side, scale 1 : %g"), scale);

  odd_pen_write (pen, at, WORDS_MM, ODD_TYPE_STRONG, caption);
  draw_panel (ticket, pen, odd_point (at.x + right_mm / scale, at.y + 7.0 - layout->raw_box.y / scale), layout, textile, ODD_SHOW_WRONG_SIDE, scale);
}

/* One side on the whole width of a sheet. */
static void
draw_large_side (OddTicket *ticket, OddPen *pen, const OddLayout *layout, OddTextileLayout *textile, OddShow show)
{
  const double top_mm = ODD_HEAD_MM + 18.0, room_mm = ticket->width_mm - 2 * ODD_MARGIN_MM - MEASURE_MM;
  const double scale = odd_ticket_choose_scale (layout->raw_box, room_mm, ticket->height_mm - ODD_MARGIN_MM - top_mm - 8.0);
  const gboolean wrong_side = show == ODD_SHOW_WRONG_SIDE;
  const double left_mm = wrong_side ? layout->box.width - layout->raw_box.x - layout->raw_box.width : layout->raw_box.x;
  const OddPoint at = odd_point (ODD_MARGIN_MM + MEASURE_MM - left_mm / scale, top_mm - layout->raw_box.y / scale);
  g_autofree char *size = odd_length_format_pair (layout->box.width, layout->box.height, ticket->unit);
  g_autofree char *raw = odd_length_format_pair (layout->raw_box.width, layout->raw_box.height, ticket->unit);
  g_autofree char *caption = wrong_side
    ? g_strdup_printf (_("Scale 1 : %g, seen from the wrong side, measures in %s. Finished %s, raw %s, %u patches"), scale, odd_unit_get_symbol (ticket->unit), size, raw, layout->n_patches)
    : g_strdup_printf (_("Scale 1 : %g, seen from the right side, measures in %s. Finished %s, raw %s, %u patches"), scale, odd_unit_get_symbol (ticket->unit), size, raw, layout->n_patches);

  odd_pen_write (pen, odd_point (ODD_MARGIN_MM, ODD_HEAD_MM + 9.0), ticket->width_mm - 2 * ODD_MARGIN_MM, ODD_TYPE_SMALL, caption);
  draw_panel (ticket, pen, at, layout, textile, show, scale);
  draw_side (ticket, pen, layout, wrong_side ? layout->box.width : 0.0, ODD_MARGIN_MM + MEASURE_MM - 6.0, at.y, scale);
  draw_width (ticket, pen, at.x, at.y + (layout->raw_box.y + layout->raw_box.height) / scale + 4.0, layout->box.width, scale);
}

/* --- the page --- */

typedef struct
{
  OddId panel_id;
  OddPen *pen;
  gboolean large;               /* one side, as large as it goes */
  OddShow show;
} Search;

static void
draw_both_sides (OddTicket *ticket, OddPen *pen, const OddLayout *layout, OddTextileLayout *textile)
{
  const double words_x = ticket->width_mm - ODD_MARGIN_MM - WORDS_MM, top_mm = ODD_HEAD_MM + 18.0;
  const double room_mm = words_x - ODD_MARGIN_MM - 2 * MEASURE_MM - 4.0;
  const double scale = odd_ticket_choose_scale (layout->raw_box, room_mm, ticket->height_mm - ODD_MARGIN_MM - top_mm - 8.0);
  const OddPoint at = odd_point (ODD_MARGIN_MM + MEASURE_MM - layout->raw_box.x / scale, top_mm - layout->raw_box.y / scale);
  const double left_x = at.x + layout->raw_box.x / scale - 6.0, right_x = at.x + (layout->raw_box.x + layout->raw_box.width) / scale + 6.0;
  const double foot_y = at.y + (layout->raw_box.y + layout->raw_box.height) / scale + 4.0;
  g_autofree char *caption = g_strdup_printf (_("Scale 1 : %g, seen from the right side, measures in %s"), scale, odd_unit_get_symbol (ticket->unit));
  double words_end;

  odd_pen_write (pen, odd_point (ODD_MARGIN_MM, ODD_HEAD_MM + 9.0), words_x - ODD_MARGIN_MM, ODD_TYPE_SMALL, caption);
  draw_panel (ticket, pen, at, layout, textile, ODD_SHOW_PATCHES, scale);
  draw_side (ticket, pen, layout, 0.0, left_x, at.y, scale);
  draw_side (ticket, pen, layout, layout->box.width, right_x, at.y, scale);
  draw_width (ticket, pen, at.x, foot_y, layout->box.width, scale);
  words_end = write_words (ticket, pen, odd_point (words_x, top_mm), layout);
  draw_wrong_side (ticket, pen, odd_point (words_x, words_end + 6.0), layout, textile);
}

static void
draw_found (OddTicket *ticket, OddPanel *panel, OddLayout *layout, OddTextileLayout *textile, gpointer data)
{
  const Search *search = data;
  g_autofree char *name = odd_job_dup_panel_name (ticket->job, panel);

  if (panel->id != search->panel_id)
    return;
  odd_pen_write (search->pen, odd_point (ODD_MARGIN_MM, ODD_HEAD_MM), ticket->width_mm - 2 * ODD_MARGIN_MM, (OddType) { 16.0, TRUE, PANGO_ALIGN_LEFT, TRUE }, name);
  if (search->large)
    draw_large_side (ticket, search->pen, layout, textile, search->show);
  else
    draw_both_sides (ticket, search->pen, layout, textile);
}

static void
draw_panel_page (OddTicket *ticket, OddPen *pen, const OddPage *page)
{
  Search search = { page->panel_id, pen, FALSE, ODD_SHOW_PATCHES };

  odd_ticket_foreach_panel (ticket, draw_found, &search);
}

static void
draw_right_side_page (OddTicket *ticket, OddPen *pen, const OddPage *page)
{
  Search search = { page->panel_id, pen, TRUE, ODD_SHOW_PATCHES };

  odd_ticket_foreach_panel (ticket, draw_found, &search);
}

static void
draw_wrong_side_page (OddTicket *ticket, OddPen *pen, const OddPage *page)
{
  Search search = { page->panel_id, pen, TRUE, ODD_SHOW_WRONG_SIDE };

  odd_ticket_foreach_panel (ticket, draw_found, &search);
}

static void
add_panel (OddTicket *ticket, OddPanel *panel, OddLayout *layout, OddTextileLayout *textile, gpointer data)
{
  if (has_room_for_numbers (layout, choose_wrong_side_scale (ticket, layout)))
    {
      odd_ticket_add_page (ticket, draw_panel_page)->panel_id = panel->id;
      return;
    }
  odd_ticket_add_page (ticket, draw_right_side_page)->panel_id = panel->id;
  odd_ticket_add_page (ticket, draw_wrong_side_page)->panel_id = panel->id;
}

void
odd_ticket_add_panels (OddTicket *self)
{
  odd_ticket_foreach_panel (self, add_panel, NULL);
}
