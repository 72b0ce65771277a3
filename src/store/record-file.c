#include "config.h"

#include "store/record-file.h"

#include <glib/gi18n.h>

#include "sewing/act.h"
#include "sewing/own-time.h"

#define MAX_CLOCK_S 1e11       /* beyond the year 5000 */
#define MAX_FIGURE 1e9

/* --- writing --- */

static void
print_uint (OddPrinter *printer, const char *member, guint value)
{
  if (value != 0)
    odd_printer_uint (printer, member, value);
}

static void
print_text (OddPrinter *printer, const char *member, const char *text)
{
  if (text)
    odd_printer_string (printer, member, text);
}

static void
print_figures (OddPrinter *printer, const OddAct *act)
{
  if (act->n_figures == 0)
    return;
  odd_printer_begin_array (printer, "figures", act->n_figures, FALSE);
  for (guint i = 0; i < act->n_figures; i++)
    odd_printer_double (printer, NULL, act->figures[i]);
  odd_printer_end_array (printer);
}

static void
print_ids (OddPrinter *printer, const OddAct *act)
{
  if (act->n_ids == 0)
    return;
  odd_printer_begin_array (printer, "ids", act->n_ids, FALSE);
  for (guint i = 0; i < act->n_ids; i++)
    odd_printer_uint (printer, NULL, act->ids[i]);
  odd_printer_end_array (printer);
}

static void
print_act (OddPrinter *printer, const OddAct *act)
{
  odd_printer_begin_object (printer, NULL, act->unknown_json);
  odd_printer_string (printer, "act", odd_act_kind_get_nick (act->kind));
  if (act->clock_s != 0)
    odd_printer_double (printer, "clock_s", (double) act->clock_s);
  print_text (printer, "name", act->name);
  print_text (printer, "step", act->step);
  print_uint (printer, "seam", act->seam_id);
  print_uint (printer, "node", act->node_id);
  print_uint (printer, "scrap", act->scrap_id);
  print_uint (printer, "panel", act->panel_id);
  print_uint (printer, "textile", act->textile_id);
  print_uint (printer, "end", act->end);
  print_uint (printer, "operation", act->operation);
  if (act->state != ODD_STATE_OPEN)
    odd_printer_string (printer, "state", odd_state_get_nick (act->state));
  if (act->anyway)
    odd_printer_bool (printer, "anyway", TRUE);
  print_figures (printer, act);
  print_ids (printer, act);
  print_text (printer, "reason", act->reason);
  odd_printer_end_object (printer);
}

void
odd_print_record (OddPrinter *printer, GPtrArray *record)
{
  if (record->len == 0)
    {
      odd_printer_absent (printer, "record");
      return;
    }
  odd_printer_begin_array (printer, "record", record->len, TRUE);
  for (guint i = 0; i < record->len; i++)
    print_act (printer, record->pdata[i]);
  odd_printer_end_array (printer);
}

/* --- reading --- */

static OddActKind
read_kind (OddCursor *cursor)
{
  const char *nick;
  OddActKind kind = 0;

  odd_cursor_require (cursor, "act");
  nick = odd_cursor_string (cursor, "act", "mark");
  if (!odd_act_kind_from_nick (nick, &kind))
    odd_cursor_fail (cursor, "act", _("“%s” is no act that this Oddment knows; a newer one may have written it"), nick);
  return kind;
}

static OddState
read_state (OddCursor *cursor)
{
  const char *nick = odd_cursor_string (cursor, "state", "open");
  OddState state = ODD_STATE_OPEN;

  if (!odd_state_from_nick (nick, &state))
    odd_cursor_fail (cursor, "state", _("“%s” is none of open, done, skipped"), nick);
  return state;
}

static void
read_figures (OddCursor *cursor, OddAct *act)
{
  JsonArray *array = odd_cursor_get_array (cursor, "figures");
  const guint n = array ? json_array_get_length (array) : 0;
  double *figures = g_new0 (double, n);

  for (guint i = 0; i < n; i++)
    figures[i] = odd_cursor_element_double (cursor, "figures", array, i, -MAX_FIGURE, MAX_FIGURE);
  act->figures = figures;
  act->n_figures = n;
}

static void
read_ids (OddCursor *cursor, OddId next_id, OddAct *act)
{
  JsonArray *array = odd_cursor_get_array (cursor, "ids");
  const guint n = array ? json_array_get_length (array) : 0;
  OddId *ids = g_new0 (OddId, n);

  for (guint i = 0; i < n; i++)
    ids[i] = odd_cursor_element_uint (cursor, "ids", array, i, 1, MAX (next_id, 2) - 1);
  act->ids = ids;
  act->n_ids = n;
}

static OddId
read_id (OddCursor *cursor, const char *member, OddId next_id)
{
  return odd_cursor_uint (cursor, member, 0, 1, MAX (next_id, 2) - 1);
}

static OddAct *
read_act (OddCursor *cursor, OddId next_id)
{
  OddAct values = { .kind = read_kind (cursor) };
  OddTiming timing;
  OddAct *act;

  values.clock_s = (gint64) odd_cursor_double (cursor, "clock_s", 0, 0, MAX_CLOCK_S);
  values.name = (char *) odd_cursor_string (cursor, "name", NULL);
  values.step = (char *) odd_cursor_string (cursor, "step", NULL);
  values.seam_id = read_id (cursor, "seam", next_id);
  values.node_id = read_id (cursor, "node", next_id);
  values.scrap_id = read_id (cursor, "scrap", next_id);
  values.panel_id = read_id (cursor, "panel", next_id);
  values.textile_id = read_id (cursor, "textile", next_id);
  values.end = odd_cursor_uint (cursor, "end", 0, 0, ODD_JSON_MAX_CORNERS);
  values.operation = odd_cursor_uint (cursor, "operation", 0, 0, G_MAXINT);
  values.state = read_state (cursor);
  values.anyway = odd_cursor_bool (cursor, "anyway", FALSE);
  values.reason = (char *) odd_cursor_string (cursor, "reason", NULL);
  read_figures (cursor, &values);
  read_ids (cursor, next_id, &values);
  if (values.kind == ODD_ACT_TIME && !odd_timing_from_act (&values, &timing))
    odd_cursor_fail (cursor, "figures", _("these are not the figures of a timing; leave the entry out"));
  values.unknown_json = odd_cursor_leave_with_unknown (cursor);
  act = odd_act_new (&values);
  g_free (values.figures);
  g_free (values.ids);
  g_free (values.unknown_json);
  return act;
}

GPtrArray *
odd_read_record (OddCursor *top, OddId next_id)
{
  GPtrArray *record = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_act_unref);
  JsonArray *array = odd_cursor_get_array (top, "record");
  OddCursor cursor;

  for (guint i = 0; array && i < json_array_get_length (array); i++)
    if (odd_cursor_enter_element (top, "record", array, i, &cursor))
      g_ptr_array_add (record, read_act (&cursor, next_id));
  return record;
}
