#include "config.h"

#include "store/measure-json.h"

#include <glib/gi18n.h>

#define MOST_MM (10.0 * ODD_JSON_MAX_MM)      /* textiles are as wide as their panels together */

static void
print_figures (OddPrinter *printer, const char *member, const double *mm, guint n)
{
  odd_printer_begin_array (printer, member, n, FALSE);
  for (guint i = 0; i < n; i++)
    if (isnan (mm[i]))
      odd_printer_null (printer, NULL);
    else
      odd_printer_double (printer, NULL, mm[i]);
  odd_printer_end_array (printer);
}

void
odd_print_measure (OddPrinter *printer, const OddMeasure *measure)
{
  if (!measure)
    {
      odd_printer_absent (printer, "measure");
      return;
    }
  odd_printer_begin_object (printer, "measure", NULL);
  print_figures (printer, "lengths_mm", measure->lengths_mm, 3);
  print_figures (printer, "widths_mm", measure->widths_mm, 3);
  print_figures (printer, "diagonals_mm", measure->diagonals_mm, 2);
  if (measure->seam_to_seam)
    odd_printer_bool (printer, "seam_to_seam", TRUE);
  odd_printer_point (printer, "planned_raw_mm", odd_point (measure->planned_width_mm, measure->planned_length_mm));
  if (measure->off_width_mm != 0.0 || measure->off_length_mm != 0.0)
    odd_printer_point (printer, "taken_off_mm", odd_point (measure->off_width_mm, measure->off_length_mm));
  odd_printer_end_object (printer);
}

static double
read_figure (OddCursor *cursor, const char *member, JsonArray *array, guint i)
{
  JsonNode *node = json_array_get_element (array, i);
  double mm;

  if (JSON_NODE_HOLDS_NULL (node))
    return NAN;
  if (!JSON_NODE_HOLDS_VALUE (node) || (json_node_get_value_type (node) != G_TYPE_DOUBLE && json_node_get_value_type (node) != G_TYPE_INT64))
    {
      odd_cursor_fail_element (cursor, member, i, _("a measure in mm is expected here, or null where nothing was measured"));
      return NAN;
    }
  mm = json_node_get_double (node);
  if (!(mm > 0.0 && mm <= MOST_MM))
    odd_cursor_fail_element (cursor, member, i, _("a measure of %g mm cannot be; write null where nothing was measured"), mm);
  return mm;
}

static void
read_figures (OddCursor *cursor, const char *member, double *mm, guint n)
{
  JsonArray *array = odd_cursor_get_array (cursor, member);

  if (!array)
    return;
  if (json_array_get_length (array) != n)
    odd_cursor_fail (cursor, member, _("%u measures are expected here, null where nothing was measured"), n);
  else
    for (guint i = 0; i < n && !odd_reading_failed (cursor->reading); i++)
      mm[i] = read_figure (cursor, member, array, i);
}

OddMeasure *
odd_read_measure (OddCursor *cursor)
{
  OddMeasure values;
  OddCursor own;
  OddPoint planned, off;

  odd_measure_init (&values);
  if (!odd_cursor_enter (cursor, "measure", &own))
    return NULL;
  read_figures (&own, "lengths_mm", values.lengths_mm, 3);
  read_figures (&own, "widths_mm", values.widths_mm, 3);
  read_figures (&own, "diagonals_mm", values.diagonals_mm, 2);
  values.seam_to_seam = odd_cursor_bool (&own, "seam_to_seam", FALSE);
  planned = odd_cursor_pair (&own, "planned_raw_mm", odd_point (0, 0), MOST_MM);
  off = odd_cursor_pair (&own, "taken_off_mm", odd_point (0, 0), MOST_MM);
  if (planned.x < 0 || planned.y < 0)
    odd_cursor_fail (&own, "planned_raw_mm", _("a planned size cannot be negative; write 0 where it is not known"));
  if (off.x < 0 || off.y < 0)
    odd_cursor_fail (&own, "taken_off_mm", _("what was taken off cannot be negative; write 0 for nothing"));
  if (odd_measure_is_empty (&values))
    odd_cursor_fail (&own, NULL, _("this measure holds no figure; add one or take the measure out"));
  values.planned_width_mm = planned.x;
  values.planned_length_mm = planned.y;
  values.off_width_mm = off.x;
  values.off_length_mm = off.y;
  odd_cursor_leave (&own);
  return odd_reading_failed (cursor->reading) ? NULL : odd_measure_new (&values);
}
