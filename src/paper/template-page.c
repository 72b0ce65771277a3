/* Templates in true size: those that fit the paper side by side, the others over several sheets whose marks are laid on one another.
 *
 *   sheet 1              sheet 2         A sheet shows a window of the template; neighbours overlap by OVERLAP_MM. In the middle of
 *   +--------------+                     the overlap runs the line where they meet, on both, with the same rings on it.
 *   |        +-----:--------+
 *   |        |  o  :     |  |
 *   +--------|-----+     |  |
 *            +-----------+--+
 */
#include "config.h"

#include "paper/template-shapes.h"
#include "paper/ticket-private.h"

#include <glib/gi18n.h>

#define TOP_MM (ODD_HEAD_MM + 6.0)
#define FOOT_MM (ODD_TEST_SQUARE_MM + 6.0)
#define BETWEEN_MM 8.0          /* two templates on one sheet */
#define OVERLAP_MM 12.0
#define RING_MM 2.5
#define MOST_ON_A_SHEET 6       /* so that the foot can tell about each */
#define MAP_MM 44.0
#define CUT_LINE_MM 0.3
#define SEAM_LINE_MM 0.2

typedef struct
{
  OddTemplate *template;        /* lent by the ticket */
  OddPoint at;                  /* of its frame on paper, mm */
} Placed;

typedef struct
{
  OddTemplate *template;
  guint column, row, n_columns, n_rows;
} Sheet;

static OddBox
get_space (const OddTicket *ticket)
{
  return (OddBox) { ODD_MARGIN_MM, TOP_MM, ticket->width_mm - 2 * ODD_MARGIN_MM, ticket->height_mm - ODD_MARGIN_MM - FOOT_MM - TOP_MM };
}

/* --- one template --- */

static void
trace (cairo_t *cr, const OddConvex *convex)
{
  cairo_new_path (cr);
  for (guint i = 0; i < convex->n; i++)
    cairo_line_to (cr, convex->points[i].x, convex->points[i].y);
  cairo_close_path (cr);
}

/* The line lies within the shape: its outer edge is the edge to cut. */
static void
draw_cut_line (cairo_t *cr, const OddConvex *cut)
{
  cairo_save (cr);
  trace (cr, cut);
  cairo_clip_preserve (cr);
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  cairo_set_line_width (cr, 2.0 * CUT_LINE_MM);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_MITER);
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
draw_seam_line (cairo_t *cr, const OddConvex *region)
{
  static const double dashes[] = { 3.0, 1.5 };

  trace (cr, region);
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  cairo_set_line_width (cr, SEAM_LINE_MM);
  cairo_set_dash (cr, dashes, 2, 0.0);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0.0);
}

/* Where two seams meet: a ring to prick a hole in, and the seam lines drawn out to the cut edge. */
static void
draw_corners (OddPen *pen, const OddConvex *cut, const OddConvex *region)
{
  for (guint i = 0; i < region->n; i++)
    {
      const OddSegment edge = odd_convex_edge (region, i);
      OddSegment chord;

      cairo_new_path (pen->cr);
      cairo_arc (pen->cr, edge.from.x, edge.from.y, 0.9, 0.0, 2.0 * G_PI);
      cairo_set_line_width (pen->cr, SEAM_LINE_MM);
      cairo_stroke (pen->cr);
      if (!odd_convex_chord (cut, odd_convex_edge_half_plane (region, i), &chord))
        continue;
      if (odd_point_distance (chord.from, edge.from) > odd_point_distance (chord.to, edge.from))
        chord = (OddSegment) { chord.to, chord.from };
      odd_pen_line (pen, chord.from, edge.from, 0.12);
      odd_pen_line (pen, edge.to, chord.to, 0.12);
    }
}

static gboolean
get_one_allowance (const OddTemplate *template, double *out_mm)
{
  double first_mm = NAN;

  for (guint i = 0; i < template->cut->n; i++)
    {
      const double mm = odd_template_get_allowance (template, i);

      if (isnan (mm))
        continue;
      if (!isnan (first_mm) && fabs (mm - first_mm) > 0.05)
        return FALSE;
      first_mm = mm;
    }
  *out_mm = first_mm;
  return !isnan (first_mm);
}

static char *
format_small (double mm, OddUnit unit)
{
  return odd_length_format (mm, unit == ODD_UNIT_CM ? ODD_UNIT_MM : unit);
}

/* At each edge, where they are not all the same. */
static void
write_allowances (OddTicket *ticket, OddPen *pen, const OddTemplate *template)
{
  double one_mm;

  if (get_one_allowance (template, &one_mm))
    return;
  for (guint i = 0; i < template->cut->n; i++)
    {
      const OddSegment edge = odd_convex_edge (template->cut, i);
      const double mm = odd_template_get_allowance (template, i);
      const OddPoint in = odd_point_scale (odd_convex_edge_half_plane (template->cut, i).normal, -mm / 2);
      g_autofree char *text = isnan (mm) ? NULL : format_small (mm, ticket->unit);

      if (text != NULL && mm > 4.0 && odd_segment_length (edge) > 24.0)
        odd_pen_write_measure (pen, odd_point_add (odd_point_lerp (edge.from, edge.to, 0.5), in), 7.0, text);
    }
}

static void
draw_grain (OddPen *pen, const OddTemplate *template, OddPoint middle, double half_mm)
{
  cairo_t *cr = pen->cr;

  cairo_save (cr);
  cairo_translate (cr, middle.x, middle.y);
  cairo_rotate (cr, template->grain_deg * G_PI / 180.0);
  cairo_new_path (cr);
  cairo_move_to (cr, -half_mm, 0.0);
  cairo_line_to (cr, half_mm, 0.0);
  for (int side = -1; side <= 1; side += 2)
    {
      cairo_move_to (cr, side * (half_mm - 2.0), -1.2);
      cairo_line_to (cr, side * half_mm, 0.0);
      cairo_line_to (cr, side * (half_mm - 2.0), 1.2);
    }
  cairo_set_line_width (cr, 0.3);
  cairo_stroke (cr);
  cairo_restore (cr);
}

/* Letter, measures and grain, as much of them as there is room for. */
static void
write_middle (OddTicket *ticket, OddPen *pen, const OddTemplate *template)
{
  const OddBox box = odd_convex_box (template->region), cut = odd_convex_box (template->cut);
  const OddPoint middle = odd_convex_centroid (template->region);
  const double least_mm = MIN (box.width, box.height);
  g_autofree char *size = odd_length_format_pair (cut.width, cut.height, ticket->unit);

  odd_pen_write_centred (pen, odd_point (middle.x, middle.y - (least_mm > 24.0 ? 7.0 : 0.0)), CLAMP (least_mm * 0.6, 7.0, 22.0), TRUE, FALSE, template->letter);
  if (least_mm <= 24.0)
    return;
  if (box.width > 30.0)
    odd_pen_write_centred (pen, odd_point (middle.x, middle.y), 8.0, FALSE, FALSE, size);
  draw_grain (pen, template, odd_point (middle.x, middle.y + (least_mm > 44.0 ? 14.0 : 7.0)), least_mm > 44.0 ? 8.0 : 4.0);
}

static void
draw_template (OddTicket *ticket, OddPen *pen, const OddTemplate *template)
{
  draw_cut_line (pen->cr, template->cut);
  draw_seam_line (pen->cr, template->region);
  draw_corners (pen, template->cut, template->region);
  write_allowances (ticket, pen, template);
  write_middle (ticket, pen, template);
}

/* --- foot --- */

static char *
describe_allowance (const OddTicket *ticket, const OddTemplate *template)
{
  double mm;
  g_autofree char *text = NULL;

  if (!get_one_allowance (template, &mm))
    return g_strdup (_("allowances at the edges"));
  text = format_small (mm, ticket->unit);
  return g_strdup_printf (_("allowance %s"), text);
}

/* "12.0 × 12.0 cm, allowance 12.7 mm. Cut 35: Squares 1–35" */
static char *
describe_template (const OddTicket *ticket, const OddTemplate *template)
{
  const OddBox box = odd_convex_box (template->cut);
  g_autofree char *size = odd_length_format_pair (template->turned ? box.height : box.width, template->turned ? box.width : box.height, ticket->unit);
  g_autofree char *allowance = describe_allowance (ticket, template);
  g_autoptr(GString) text = g_string_new (NULL);

  g_string_append_printf (text, "%s, %s", size, allowance);
  if (!template->one_region)
    g_string_append_printf (text, ", %s", _("as most of them have it, the others are cut the same"));
  if (!template->one_grain)
    g_string_append_printf (text, ", %s", _("the arrow is the panel's length, grains differ"));
  /* Translators: how many patches, and which */
  g_string_append_printf (text, _(". Cut %u: %s"), template->n_patches, template->patches);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static double
write_legend (OddTicket *ticket, OddPen *pen, OddPoint at, double width_mm, double most_mm, const OddTemplate *template)
{
  const double letter_mm = 9.0;
  g_autofree char *text = describe_template (ticket, template);
  double height_mm;

  odd_pen_write (pen, at, letter_mm, (OddType) { 8.5, TRUE, PANGO_ALIGN_LEFT, TRUE }, template->letter);
  height_mm = odd_pen_measure (pen, width_mm - letter_mm, ODD_TYPE_SMALL, text);
  cairo_save (pen->cr);
  cairo_rectangle (pen->cr, at.x, at.y, width_mm, most_mm);
  cairo_clip (pen->cr);
  odd_pen_write (pen, odd_point (at.x + letter_mm, at.y + 0.3), width_mm - letter_mm, ODD_TYPE_SMALL, text);
  cairo_restore (pen->cr);
  return MIN (height_mm + 1.2, most_mm);
}

/* Returns where what is told may begin. */
static OddPoint
draw_foot (OddTicket *ticket, OddPen *pen, double width_mm, const char *text)
{
  const double y = ticket->height_mm - ODD_MARGIN_MM - ODD_TEST_SQUARE_MM;
  const OddPoint at = odd_point (ODD_MARGIN_MM + ODD_TEST_SQUARE_MM + 8.0, y);

  odd_ticket_draw_test_square (pen, odd_point (ODD_MARGIN_MM, y));
  return odd_point (at.x, y + odd_pen_write (pen, at, width_mm, ODD_TYPE_SMALL, text) + 1.6);
}

/* --- a sheet of small ones --- */

static void
draw_together (OddTicket *ticket, OddPen *pen, const OddPage *page)
{
  const GArray *placed = page->data;
  const double width_mm = ticket->width_mm - 2 * ODD_MARGIN_MM - ODD_TEST_SQUARE_MM - 8.0;
  OddPoint at;

  odd_pen_write (pen, odd_point (ODD_MARGIN_MM, ODD_HEAD_MM - 4.0), ticket->width_mm - 2 * ODD_MARGIN_MM, ODD_TYPE_HEADING, page->heading);
  for (guint i = 0; i < placed->len; i++)
    {
      const Placed *one = &g_array_index (placed, Placed, i);

      cairo_save (pen->cr);
      cairo_translate (pen->cr, one->at.x, one->at.y);
      draw_template (ticket, pen, one->template);
      cairo_restore (pen->cr);
    }
  at = draw_foot (ticket, pen, width_mm, _("Cut on the outer edge of the whole line. The broken line is the seam; prick its corners. All are seen from the right side."));
  for (guint i = 0; i < placed->len; i++)
    at.y += write_legend (ticket, pen, at, width_mm, 40.0 / placed->len, g_array_index (placed, Placed, i).template);
}

/* --- a template over several sheets --- */

static OddPoint
get_step (const OddTicket *ticket)
{
  const OddBox space = get_space (ticket);

  return odd_point (space.width - OVERLAP_MM, space.height - OVERLAP_MM);
}

static void
draw_ring (OddPen *pen, OddPoint at, const char *label)
{
  odd_pen_line (pen, odd_point (at.x - RING_MM, at.y), odd_point (at.x + RING_MM, at.y), 0.2);
  odd_pen_line (pen, odd_point (at.x, at.y - RING_MM), odd_point (at.x, at.y + RING_MM), 0.2);
  cairo_new_path (pen->cr);
  cairo_arc (pen->cr, at.x, at.y, RING_MM, 0.0, 2.0 * G_PI);
  cairo_set_line_width (pen->cr, 0.25);
  cairo_stroke (pen->cr);
  odd_pen_write_centred (pen, odd_point (at.x + RING_MM + 1.4, at.y - RING_MM - 0.4), 7.0, TRUE, TRUE, label);
}

/* The line on which two sheets meet, template's frame, and a ring near each of its ends, lettered by the place of the meeting. */
static void
draw_meeting (OddPen *pen, OddPoint from, OddPoint to, guint first, guint second)
{
  static const double dashes[] = { 1.0, 1.4 };
  g_autofree char *label = g_strdup_printf ("%u/%u", first, second);

  cairo_set_dash (pen->cr, dashes, 2, 0.0);
  odd_pen_line (pen, from, to, 0.2);
  cairo_set_dash (pen->cr, NULL, 0, 0.0);
  draw_ring (pen, odd_point_lerp (from, to, 0.25), label);
  draw_ring (pen, odd_point_lerp (from, to, 0.75), label);
}

static OddBox
get_window (const OddTicket *ticket, const Sheet *sheet)
{
  const OddBox space = get_space (ticket), box = odd_convex_box (sheet->template->cut);
  const OddPoint step = get_step (ticket);
  const double x = sheet->column * step.x, y = sheet->row * step.y;

  return (OddBox) { x, y, MIN (space.width, box.width - x), MIN (space.height, box.height - y) };
}

/* Numbers sheets row by row. */
static guint
get_number (const Sheet *sheet, int right, int down)
{
  return (sheet->row + down) * sheet->n_columns + sheet->column + right + 1;
}

static void
draw_meetings (OddPen *pen, const Sheet *sheet, OddBox window, OddPoint step)
{
  for (int right = -1; right <= 0; right++)
    {
      const double x = (sheet->column + right + 1) * step.x + OVERLAP_MM / 2;

      if (sheet->column + right + 1 > 0 && sheet->column + right + 2 <= sheet->n_columns)
        draw_meeting (pen, odd_point (x, window.y), odd_point (x, window.y + window.height), get_number (sheet, right, 0), get_number (sheet, right + 1, 0));
    }
  for (int down = -1; down <= 0; down++)
    {
      const double y = (sheet->row + down + 1) * step.y + OVERLAP_MM / 2;

      if (sheet->row + down + 1 > 0 && sheet->row + down + 2 <= sheet->n_rows)
        draw_meeting (pen, odd_point (window.x, y), odd_point (window.x + window.width, y), get_number (sheet, 0, down), get_number (sheet, 0, down + 1));
    }
}

/* Which sheet lies where; this one is framed. */
static void
draw_map (OddTicket *ticket, OddPen *pen, const Sheet *sheet, OddBox space)
{
  const OddBox box = odd_convex_box (sheet->template->cut);
  const double scale = MAX (box.width / space.width, box.height / space.height);
  const OddPoint step = get_step (ticket);

  cairo_save (pen->cr);
  cairo_translate (pen->cr, space.x + (space.width - box.width / scale) / 2, space.y);
  cairo_save (pen->cr);
  cairo_scale (pen->cr, 1.0 / scale, 1.0 / scale);
  trace (pen->cr, sheet->template->cut);
  cairo_restore (pen->cr);
  cairo_set_line_width (pen->cr, 0.3);
  cairo_stroke (pen->cr);
  for (guint row = 0; row < sheet->n_rows; row++)
    for (guint column = 0; column < sheet->n_columns; column++)
      {
        const gboolean here = row == sheet->row && column == sheet->column;
        const double x0 = column > 0 ? column * step.x + OVERLAP_MM / 2 : 0.0, y0 = row > 0 ? row * step.y + OVERLAP_MM / 2 : 0.0;
        const double x1 = MIN (box.width, column + 1 < sheet->n_columns ? (column + 1) * step.x + OVERLAP_MM / 2 : box.width);
        const double y1 = MIN (box.height, row + 1 < sheet->n_rows ? (row + 1) * step.y + OVERLAP_MM / 2 : box.height);
        g_autofree char *number = g_strdup_printf ("%u", row * sheet->n_columns + column + 1);

        cairo_rectangle (pen->cr, x0 / scale, y0 / scale, (x1 - x0) / scale, (y1 - y0) / scale);
        cairo_set_line_width (pen->cr, here ? 0.8 : 0.1);
        cairo_stroke (pen->cr);
        odd_pen_write_centred (pen, odd_point ((x0 + x1) / 2 / scale, (y0 + y1) / 2 / scale), 7.0, here, FALSE, number);
      }
  cairo_restore (pen->cr);
}

static void
draw_sheet (OddTicket *ticket, OddPen *pen, const OddPage *page)
{
  const Sheet *sheet = page->data;
  const OddBox space = get_space (ticket), window = get_window (ticket, sheet);
  const double width_mm = space.width - ODD_TEST_SQUARE_MM - 8.0 - MAP_MM - 6.0;
  g_autofree char *heading = g_strdup_printf (_("Template %s, sheet %u of %u"), sheet->template->letter, get_number (sheet, 0, 0), sheet->n_columns * sheet->n_rows);
  OddPoint at;

  odd_pen_write (pen, odd_point (ODD_MARGIN_MM, ODD_HEAD_MM - 4.0), space.width, ODD_TYPE_HEADING, heading);
  cairo_save (pen->cr);
  cairo_rectangle (pen->cr, space.x, space.y, space.width, space.height);
  cairo_clip (pen->cr);
  cairo_translate (pen->cr, space.x - window.x, space.y - window.y);
  draw_template (ticket, pen, sheet->template);
  draw_meetings (pen, sheet, window, get_step (ticket));
  cairo_restore (pen->cr);
  at = draw_foot (ticket, pen, width_mm, _("Lay the sheets on one another so that rings with the same numbers meet, and stick them together. Then cut on the outer edge of the "
                                           "whole line. The broken line is the seam."));
  write_legend (ticket, pen, at, width_mm, 30.0, sheet->template);
  draw_map (ticket, pen, sheet, (OddBox) { space.x + space.width - MAP_MM, at.y - 14.0, MAP_MM, MAP_MM });
}

/* --- laying out --- */

static gboolean
fits (const OddTemplate *template, OddBox space)
{
  const OddBox box = odd_convex_box (template->cut);

  return box.width <= space.width && box.height <= space.height;
}

static guint
count_sheets (double length_mm, double space_mm)
{
  return length_mm <= space_mm ? 1 : (guint) ceil ((length_mm - OVERLAP_MM) / (space_mm - OVERLAP_MM) - 1e-9);
}

static guint
count_all_sheets (const OddTemplate *template, OddBox space)
{
  const OddBox box = odd_convex_box (template->cut);

  return count_sheets (box.width, space.width) * count_sheets (box.height, space.height);
}

/* Turned where that saves paper. */
static void
turn_to_save (OddTemplate *template, OddBox space)
{
  const guint n = count_all_sheets (template, space);

  odd_template_turn (template);
  if (count_all_sheets (template, space) >= n)
    odd_template_turn (template);
}

static gboolean
has_part_of (const OddTemplate *template, OddBox window)
{
  OddConvex *part = odd_convex_ref (template->cut);
  const OddHalfPlane sides[] = {
    { { 1.0, 0.0 }, window.x + window.width }, { { -1.0, 0.0 }, -window.x }, { { 0.0, 1.0 }, window.y + window.height }, { { 0.0, -1.0 }, -window.y },
  };

  for (guint i = 0; i < G_N_ELEMENTS (sides) && part != NULL; i++)
    {
      OddConvex *rest = odd_convex_clip (part, sides[i], 0);

      odd_convex_unref (part);
      part = rest;
    }
  if (part == NULL)
    return FALSE;
  odd_convex_unref (part);
  return TRUE;
}

static void
add_sheets (OddTicket *ticket, OddTemplate *template)
{
  const OddBox space = get_space (ticket), box = odd_convex_box (template->cut);
  Sheet sheet = { template, 0, 0, count_sheets (box.width, space.width), count_sheets (box.height, space.height) };

  for (sheet.row = 0; sheet.row < sheet.n_rows; sheet.row++)
    for (sheet.column = 0; sheet.column < sheet.n_columns; sheet.column++)
      if (has_part_of (template, get_window (ticket, &sheet)))
        {
          OddPage *page = odd_ticket_add_page (ticket, draw_sheet);

          page->data = g_memdup2 (&sheet, sizeof sheet);
          page->free_data = g_free;
        }
}

static int
compare_heights (gconstpointer a, gconstpointer b)
{
  const OddBox x = odd_convex_box ((*(OddTemplate *const *) a)->cut), y = odd_convex_box ((*(OddTemplate *const *) b)->cut);

  return (x.height < y.height) - (x.height > y.height);
}

static void
place (GArray *placed, OddTemplate *template, OddPoint at)
{
  const Placed one = { template, at };

  g_array_append_val (placed, one);
}

/* The highest first, in rows from left to right. g_ptr_array_sort() keeps the order of equals. */
static void
add_together (OddTicket *ticket, GPtrArray *small)
{
  const OddBox space = get_space (ticket);
  OddPoint at = odd_point (0.0, 0.0);
  double row_mm = 0.0;
  GArray *placed = NULL;

  g_ptr_array_sort (small, compare_heights);
  for (guint i = 0; i < small->len; i++)
    {
      OddTemplate *template = small->pdata[i];
      const OddBox box = odd_convex_box (template->cut);

      if (at.x > 0.0 && at.x + box.width > space.width)
        {
          at = odd_point (0.0, at.y + row_mm + BETWEEN_MM);
          row_mm = 0.0;
        }
      if (placed == NULL || at.y + box.height > space.height || placed->len == MOST_ON_A_SHEET)
        {
          OddPage *page = odd_ticket_add_page (ticket, draw_together);

          placed = g_array_new (FALSE, FALSE, sizeof (Placed));
          page->heading = g_strdup (_("Templates in true size"));
          page->data = placed;
          page->free_data = (GDestroyNotify) g_array_unref;
          at = odd_point (0.0, 0.0);
          row_mm = 0.0;
        }
      place (placed, template, odd_point (space.x + at.x, space.y + at.y));
      at.x += box.width + BETWEEN_MM;
      row_mm = MAX (row_mm, box.height);
    }
}

void
odd_ticket_add_templates (OddTicket *self)
{
  const OddBox space = get_space (self);
  g_autoptr(GPtrArray) small = g_ptr_array_new ();

  self->templates = odd_job_dup_templates (self->job, self->options.templates);
  for (guint i = 0; i < self->templates->len; i++)
    {
      OddTemplate *template = self->templates->pdata[i];

      turn_to_save (template, space);
      if (fits (template, space))
        g_ptr_array_add (small, template);
    }
  add_together (self, small);
  for (guint i = 0; i < self->templates->len; i++)
    if (!fits (self->templates->pdata[i], space))
      add_sheets (self, self->templates->pdata[i]);
}
