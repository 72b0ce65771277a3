/* The order of work, stop by stop, with a box to tick for each operation: done ones are ticked, those left out have a dash. */
#include "config.h"

#include "paper/ticket-private.h"

#include <glib/gi18n.h>

#define BOX_MM 3.4
#define TEXT_MM 5.4             /* where the words begin, behind the box */
#define ENTRY_GAP_MM 1.7

static const OddType text_type = { 8.5, FALSE, PANGO_ALIGN_LEFT, FALSE };
static const OddType detail_type = { 7.0, FALSE, PANGO_ALIGN_LEFT, FALSE };

/* --- what a line says --- */

/* Which edge of which part, seen from the right side. @normal: from the first part to the second. */
static char *
dup_edges (OddPoint normal, const char *first, const char *second)
{
  if (fabs (normal.x) > fabs (normal.y))
    return normal.x > 0.0 ? g_strdup_printf (_("Right edge of %s on left edge of %s"), first, second)
                          : g_strdup_printf (_("Left edge of %s on right edge of %s"), first, second);
  return normal.y > 0.0 ? g_strdup_printf (_("Lower edge of %s on upper edge of %s"), first, second)
                        : g_strdup_printf (_("Upper edge of %s on lower edge of %s"), first, second);
}

/* Edges to sew, the side to press to, or why it was left out; NULL where there is nothing to add. */
static char *
dup_detail (OddPlan *plan, guint task)
{
  const OddTaskKey *key = &plan->tasks[task].key;
  g_autofree char *first = NULL, *second = NULL;
  OddTaskFacts facts;

  odd_plan_get_facts (plan, task, &facts);
  if (key->kind != ODD_TASK_OPERATION)
    return NULL;
  if (plan->tasks[task].state == ODD_STATE_SKIPPED)
    {
      const char *reason = odd_progress_get_reason (facts.seam->progress, key->index);

      return reason != NULL && reason[0] != '\0' ? g_strdup_printf (_("Left out: %s"), reason) : g_strdup (_("Left out"));
    }
  first = odd_plan_dup_part (plan, task, 0);
  second = odd_plan_dup_part (plan, task, 1);
  if (facts.operation->kind == ODD_OPERATION_SEW)
    return dup_edges (facts.laid != NULL ? facts.laid->line.normal : odd_point (1.0, 0.0), first, second);
  return odd_plan_dup_pressing (plan, task);
}

/* --- lines --- */

static void
draw_task (OddTicket *ticket, OddPen *pen, const OddLine *line, OddBox box)
{
  OddPlan *plan = line->data;
  const OddState state = plan->tasks[line->index].state;
  g_autofree char *detail = dup_detail (plan, line->index);
  double y = box.y;

  odd_pen_box (pen, odd_point (box.x, y + 0.3), BOX_MM, state == ODD_STATE_DONE, state == ODD_STATE_SKIPPED);
  y += odd_pen_write (pen, odd_point (box.x + TEXT_MM, y), box.width - TEXT_MM, text_type, line->text);
  if (detail != NULL)
    odd_pen_write (pen, odd_point (box.x + TEXT_MM, y), box.width - TEXT_MM, detail_type, detail);
}

static OddLine *
create_task_line (OddTicket *ticket, OddPen *pen, OddPlan *plan, guint task)
{
  const double width_mm = odd_ticket_column_width (ticket, 2) - TEXT_MM;
  g_autofree char *detail = dup_detail (plan, task);
  g_autofree char *text = odd_plan_dup_text (plan, task, ticket->unit);
  double height_mm = odd_pen_measure (pen, width_mm, text_type, text) + ENTRY_GAP_MM;
  OddLine *line;

  if (detail != NULL)
    height_mm += odd_pen_measure (pen, width_mm, detail_type, detail);
  line = odd_line_new (height_mm, draw_task);
  line->text = g_steal_pointer (&text);
  line->data = odd_plan_ref (plan);
  line->free_data = (GDestroyNotify) odd_plan_unref;
  line->index = task;
  return line;
}

static void
draw_group (OddTicket *ticket, OddPen *pen, const OddLine *line, OddBox box)
{
  odd_pen_write (pen, odd_point (box.x, box.y + 0.6), box.width, (OddType) { 8.0, TRUE, PANGO_ALIGN_LEFT, TRUE }, line->text);
  odd_pen_line (pen, odd_point (box.x, box.y + 5.0), odd_point (box.x + box.width, box.y + 5.0), 0.1);
}

/* "Squares · pale thread · stitch 301": what all tasks up to the next such line share. */
static OddLine *
create_group_line (OddTicket *ticket, const OddPlan *plan, const OddTask *task)
{
  const OddMachineSetting *setting = &plan->settings[task->setting];
  OddPanel *panel = task->panel_id != 0 ? odd_job_get_panel (ticket->job, task->panel_id, NULL, NULL) : NULL;
  g_autofree char *name = panel != NULL ? odd_job_dup_panel_name (ticket->job, panel)
                                        : odd_job_dup_textile_name (ticket->job, odd_job_get_textile (ticket->job, task->textile_id));
  GString *text = g_string_new (name);
  OddLine *line = odd_line_new (7.0, draw_group);

  if (task->station == ODD_STATION_SEWING_MACHINE || task->station == ODD_STATION_OVERLOCKER)
    {
      g_string_append_printf (text, " · %s", odd_shade_get_name (setting->shade));
      if (setting->stitch != NULL)
        {
          g_string_append (text, " · ");
          g_string_append_printf (text, _("stitch %s"), setting->stitch);
        }
    }
  line->text = g_string_free (text, FALSE);
  line->with_next = TRUE;
  return line;
}

static char *
dup_stop_title (const OddStop *stop)
{
  if (stop->number == 0)
    return g_strdup (_("Before the first stop: cutting out"));
  /* Translators: number of the stop, station: "Stop 3: overlocker" */
  return g_strdup_printf (_("Stop %u: %s"), stop->number, odd_station_get_name (stop->station));
}

static char *
dup_stop_summary (const OddTicket *ticket, const OddStop *stop)
{
  g_autofree char *length = odd_run_format (stop->length_mm, ticket->unit);
  g_autofree char *tasks = g_strdup_printf (ngettext ("%u operation", "%u operations", stop->n), stop->n);

  if (stop->number == 0)
    return g_strdup_printf (ngettext ("%u patch", "%u patches", stop->n), stop->n);
  if (stop->first_round == stop->last_round)
    return g_strdup_printf (_("Round %u, %s, %s of seam"), stop->first_round, tasks, length);
  return g_strdup_printf (_("Rounds %u to %u, %s, %s of seam"), stop->first_round, stop->last_round, tasks, length);
}

static void
add_tasks (OddTicket *ticket, OddPen *pen, OddPlan *plan, const OddStop *stop, GPtrArray *lines)
{
  const OddTask *before = NULL;

  for (guint i = stop->first; i < stop->first + stop->n; i++)
    {
      const OddTask *task = &plan->tasks[i];

      if (before == NULL || before->panel_id != task->panel_id || before->textile_id != task->textile_id || before->setting != task->setting)
        g_ptr_array_add (lines, create_group_line (ticket, plan, task));
      g_ptr_array_add (lines, create_task_line (ticket, pen, plan, i));
      before = task;
    }
}

static void
add_stop (OddTicket *ticket, OddPen *pen, OddPlan *plan, const OddStop *stop, GPtrArray *lines)
{
  const gboolean elsewhere = stop->number == 0 && (ticket->options.parts & (1u << ODD_TICKET_PART_SCRAPS));
  const double width_mm = odd_ticket_column_width (ticket, 2);
  g_autofree char *title = dup_stop_title (stop);
  g_autofree char *summary = dup_stop_summary (ticket, stop);
  OddLine *told;

  g_ptr_array_add (lines, odd_line_new_heading (ticket, title));
  g_ptr_array_add (lines, odd_line_new_text (width_mm, summary));
  if (!elsewhere)
    {
      add_tasks (ticket, pen, plan, stop, lines);
      return;
    }
  told = odd_line_new_text (width_mm, _("Each patch has its box on the cutting plan of its scrap."));
  told->with_next = FALSE;
  g_ptr_array_add (lines, told);
}

void
odd_ticket_add_stops (OddTicket *self)
{
  g_autoptr(OddPlan) plan = odd_plan_new_from_start (self->job, 0, self->options.manner, self->options.pins, self->options.n_pins);
  g_autofree char *heading = g_strdup_printf (_("Order of work · %s"), odd_manner_get_name (self->options.manner));
  g_auto(OddPen) pen = { NULL, NULL };
  GPtrArray *lines;

  if (plan->n_stops == 0)
    return;
  odd_pen_init (&pen, NULL);
  lines = g_ptr_array_new ();
  for (guint i = 0; i < plan->n_stops; i++)
    add_stop (self, &pen, plan, &plan->stops[i], lines);
  odd_ticket_flow (self, heading, lines, 2);
}
