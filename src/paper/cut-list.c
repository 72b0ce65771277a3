/* What is to be cut from which scrap. */
#include "config.h"

#include "paper/ticket-private.h"

#include <glib/gi18n.h>

#define ENTRY_MM 15.5
#define PICTURE_MM 17.0
#define NUMBER_MM 11.0
#define DOT_MM 0.7

gboolean
odd_cut_shape_is_rectangle (const OddConvex *cut)
{
  if (cut->n != 4)
    return FALSE;
  for (guint i = 0; i < 4; i++)
    {
      const OddPoint a = odd_point_sub (cut->points[(i + 1) % 4], cut->points[i]), b = odd_point_sub (cut->points[(i + 2) % 4], cut->points[(i + 1) % 4]);

      if (fabs (odd_point_dot (a, b)) > 0.001 * hypot (a.x, a.y) * hypot (b.x, b.y))
        return FALSE;
    }
  return TRUE;
}

static void
append_length (GString *text, double mm, OddUnit unit)
{
  g_autofree char *length = odd_length_format_bare (mm, unit);

  g_string_append_printf (text, "%s%s", text->len > 0 ? " · " : "", length);
}

/* Width is the side that lies more along x: a ring may begin with either. */
static char *
describe_rectangle (const OddConvex *cut, OddUnit unit)
{
  const OddPoint first = odd_point_sub (cut->points[1], cut->points[0]), second = odd_point_sub (cut->points[2], cut->points[1]);
  const double first_mm = hypot (first.x, first.y), second_mm = hypot (second.x, second.y);
  const gboolean first_is_width = fabs (first.x) * second_mm >= fabs (second.x) * first_mm;

  return odd_length_format_pair (first_is_width ? first_mm : second_mm, first_is_width ? second_mm : first_mm, unit);
}

char *
odd_cut_shape_describe (const OddConvex *cut, OddUnit unit)
{
  g_autoptr(GString) sides = g_string_new (NULL), across = g_string_new (NULL);

  if (odd_cut_shape_is_rectangle (cut))
    return describe_rectangle (cut, unit);
  for (guint i = 0; i < cut->n; i++)
    append_length (sides, odd_point_distance (cut->points[i], cut->points[(i + 1) % cut->n]), unit);
  for (guint i = 2; i + 1 < cut->n; i++)
    append_length (across, odd_point_distance (cut->points[0], cut->points[i]), unit);
  if (across->len == 0)
    return g_strdup_printf ("%s %s", sides->str, odd_unit_get_symbol (unit));
  return g_strdup_printf (_("%s %s\nfrom the dot %s"), sides->str, odd_unit_get_symbol (unit), across->str);
}

static void
draw_shape (OddPen *pen, const OddConvex *cut, OddBox space)
{
  const OddBox box = odd_convex_box (cut);
  const double scale = MAX (box.width / space.width, box.height / space.height);
  const OddPoint shift = odd_point (space.x + (space.width - box.width / scale) / 2 - box.x / scale, space.y + (space.height - box.height / scale) / 2 - box.y / scale);

  for (guint i = 0; i < cut->n; i++)
    cairo_line_to (pen->cr, shift.x + cut->points[i].x / scale, shift.y + cut->points[i].y / scale);
  cairo_close_path (pen->cr);
  cairo_set_source_rgb (pen->cr, 0.0, 0.0, 0.0);
  cairo_set_line_width (pen->cr, 0.3);
  cairo_stroke (pen->cr);
  if (odd_cut_shape_is_rectangle (cut))
    return;
  cairo_arc (pen->cr, shift.x + cut->points[0].x / scale, shift.y + cut->points[0].y / scale, DOT_MM, 0.0, 2.0 * G_PI);
  cairo_fill (pen->cr);
}

static char *
describe_scrap (const OddPatch *patch)
{
  if (patch->scrap == NULL)
    return g_strdup (_("Bare: no scrap yet"));
  if (patch->piece != NULL)
    return g_strdup_printf (_("Piece %u"), patch->scrap->number);
  if (patch->fabric == NULL)
    return g_strdup_printf (_("Scrap %u"), patch->scrap->number);
  return g_strdup_printf (_("Scrap %u, %s"), patch->scrap->number, patch->fabric->name);
}

static void
draw_entry (OddTicket *ticket, OddPen *pen, const OddLine *line, OddBox box)
{
  const OddPatch *patch = &line->layout->patches[line->index];
  const double words_x = box.x + NUMBER_MM + PICTURE_MM + 3.0, words_mm = box.width - NUMBER_MM - PICTURE_MM - 3.0;
  g_autofree char *number = g_strdup_printf ("%u", patch->number);
  g_autofree char *scrap = describe_scrap (patch);
  g_autofree char *shape = odd_cut_shape_describe (patch->cut, ticket->unit);
  double y = box.y + 1.0;

  odd_pen_box (pen, odd_point (box.x, box.y + 1.6), 3.2, patch->leaf->cut == ODD_STATE_DONE, patch->leaf->cut == ODD_STATE_SKIPPED);
  odd_pen_write (pen, odd_point (box.x + 4.6, y), NUMBER_MM - 4.6 + 1.0, (OddType) { 9.5, TRUE, PANGO_ALIGN_LEFT, FALSE }, number);
  draw_shape (pen, patch->cut, (OddBox) { box.x + NUMBER_MM, box.y + 1.4, PICTURE_MM, ENTRY_MM - 3.6 });
  y += odd_pen_write (pen, odd_point (words_x, y), words_mm, (OddType) { 8.0, TRUE, PANGO_ALIGN_LEFT, TRUE }, scrap) + 0.4;
  odd_pen_write (pen, odd_point (words_x, y), words_mm, ODD_TYPE_SMALL, shape);
  odd_pen_line (pen, odd_point (box.x, box.y + ENTRY_MM - 0.6), odd_point (box.x + box.width, box.y + ENTRY_MM - 0.6), 0.1);
}

static void
add_panel (OddTicket *ticket, OddPanel *panel, OddLayout *layout, OddTextileLayout *textile, gpointer data)
{
  GPtrArray *lines = data;
  g_autofree char *name = odd_job_dup_panel_name (ticket->job, panel);

  if (layout->n_patches > 0)
    g_ptr_array_add (lines, odd_line_new_heading (ticket, name));
  for (guint i = 0; i < layout->n_patches; i++)
    {
      OddLine *line = odd_line_new (ENTRY_MM, draw_entry);

      line->layout = odd_layout_ref (layout);
      line->index = i;
      g_ptr_array_add (lines, line);
    }
}

void
odd_ticket_add_cut_list (OddTicket *self)
{
  GPtrArray *lines = g_ptr_array_new ();

  odd_ticket_foreach_panel (self, add_panel, lines);
  if (lines->len == 0)
    {
      g_ptr_array_unref (lines);
      return;
    }
  g_ptr_array_insert (lines, 0, odd_line_new_text (odd_ticket_column_width (self, 2),
                                                   _("Cut shapes include the allowances. A rectangle is told by width × length; any other shape by its sides, clockwise "
                                                     "from the corner with the dot, and by how far the other corners lie from it. All are seen from the right side.")));
  odd_ticket_flow (self, _("Cut list"), lines, 2);
}
