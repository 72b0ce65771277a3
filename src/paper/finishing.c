/* What is left to do, by station; then every seam with its finish and a box for each of its operations. */
#include "config.h"

#include "paper/ticket-private.h"

#include <glib/gi18n.h>

#define ENTRY_MM 8.8
#define NAME_MM 44.0
#define LENGTH_MM 19.0
#define ALLOWANCE_MM 17.0
#define BOX_MM 3.4

typedef struct
{
  const OddSeam *seam;
  const OddFinish *finish;
  double raw_length_mm, allowance_mm;
} Row;

static Row
get_row (const OddLine *line)
{
  if (line->layout != NULL)
    {
      const OddLaidSeam *laid = &line->layout->seams[line->index];

      return (Row) { laid->seam, laid->finish, laid->raw_length_mm, laid->allowance_mm };
    }
  else
    {
      const OddLaidJoin *laid = &line->textile->joins[line->index];

      return (Row) { laid->join, laid->finish, laid->raw_length_mm, laid->allowance_mm };
    }
}

static void
draw_entry (OddTicket *ticket, OddPen *pen, const OddLine *line, OddBox box)
{
  const Row row = get_row (line);
  const OddType figure = { 8.5, FALSE, PANGO_ALIGN_RIGHT, TRUE };
  const double boxes_x = box.x + NAME_MM + LENGTH_MM + ALLOWANCE_MM + 5.0;
  const double step_mm = (box.x + box.width - boxes_x) / MAX (row.finish->n_operations, (guint) ((box.x + box.width - boxes_x) / 18.0));
  g_autofree char *name = odd_job_dup_seam_name (ticket->job, row.seam->id);
  g_autofree char *length = odd_length_format (row.raw_length_mm, ticket->unit);
  g_autofree char *allowance = odd_length_format (row.allowance_mm, ticket->unit);

  odd_pen_write (pen, odd_point (box.x, box.y + 0.7), NAME_MM, (OddType) { 8.5, TRUE, PANGO_ALIGN_LEFT, TRUE }, name);
  odd_pen_write (pen, odd_point (box.x, box.y + 4.7), NAME_MM, (OddType) { 7.0, FALSE, PANGO_ALIGN_LEFT, TRUE }, row.finish->name);
  odd_pen_write (pen, odd_point (box.x + NAME_MM, box.y + 1.6), LENGTH_MM, figure, length);
  odd_pen_write (pen, odd_point (box.x + NAME_MM + LENGTH_MM, box.y + 1.6), ALLOWANCE_MM, figure, allowance);
  for (guint i = 0; i < row.finish->n_operations; i++)
    {
      const OddState state = odd_progress_get_state (row.seam->progress, i);
      const double x = boxes_x + i * step_mm;

      odd_pen_box (pen, odd_point (x, box.y + 1.9), BOX_MM, state == ODD_STATE_DONE, state == ODD_STATE_SKIPPED);
      odd_pen_write (pen, odd_point (x + BOX_MM + 1.0, box.y + 2.1), step_mm - BOX_MM - 1.6, (OddType) { 7.0, FALSE, PANGO_ALIGN_LEFT, TRUE },
                     odd_operation_kind_get_name (row.finish->operations[i].kind));
    }
  odd_pen_line (pen, odd_point (box.x, box.y + ENTRY_MM), odd_point (box.x + box.width, box.y + ENTRY_MM), 0.1);
}

static void
draw_columns (OddTicket *ticket, OddPen *pen, const OddLine *line, OddBox box)
{
  const OddType left = { 7.0, FALSE, PANGO_ALIGN_LEFT, TRUE }, right = { 7.0, FALSE, PANGO_ALIGN_RIGHT, TRUE };

  odd_pen_write (pen, odd_point (box.x, box.y), NAME_MM, left, _("Seam, by its patches; finish"));
  odd_pen_write (pen, odd_point (box.x + NAME_MM, box.y), LENGTH_MM, right, _("Raw length"));
  odd_pen_write (pen, odd_point (box.x + NAME_MM + LENGTH_MM, box.y), ALLOWANCE_MM, right, _("Allowance"));
  odd_pen_line (pen, odd_point (box.x, box.y + box.height), odd_point (box.x + box.width, box.y + box.height), ODD_LINE_MM);
}

/* "French: 1 First pass: sew, wrong sides together. 2 ..." */
static char *
describe_finish (const OddFinish *finish)
{
  g_autoptr(GString) text = g_string_new (finish->name);

  g_string_append_c (text, ':');
  for (guint i = 0; i < finish->n_operations; i++)
    g_string_append_printf (text, "  %u  %s.", i + 1, finish->operations[i].text);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
add_finish (OddTicket *ticket, GPtrArray *lines, GHashTable *told, const OddFinish *finish)
{
  g_autofree char *text = NULL;

  if (!g_hash_table_add (told, GUINT_TO_POINTER (finish->id)))
    return;
  text = describe_finish (finish);
  g_ptr_array_add (lines, odd_line_new_text (odd_ticket_column_width (ticket, 1), text));
}

/* --- what is left --- */

static const char *const stations[ODD_N_STATIONS] = {
  [ODD_STATION_SEWING_MACHINE] = N_("Sewing machine"),
  [ODD_STATION_OVERLOCKER] = N_("Overlocker"),
  [ODD_STATION_IRON] = N_("Iron"),
  [ODD_STATION_TABLE] = N_("Table"),
};

typedef struct { guint n; double length_mm; } Left;

static void
add_left (Left left[ODD_N_STATIONS], const OddSeam *seam, const OddFinish *finish, double length_mm)
{
  for (guint i = 0; i < finish->n_operations; i++)
    if (odd_progress_get_state (seam->progress, i) == ODD_STATE_OPEN)
      {
        left[finish->operations[i].station].n++;
        left[finish->operations[i].station].length_mm += length_mm;
      }
}

static void
add_left_of_panel (OddTicket *ticket, OddPanel *panel, OddLayout *layout, OddTextileLayout *textile, gpointer data)
{
  for (guint i = 0; i < layout->n_seams; i++)
    add_left (data, layout->seams[i].seam, layout->seams[i].finish, layout->seams[i].raw_length_mm);
}

static void
draw_left (OddTicket *ticket, OddPen *pen, const OddLine *line, OddBox box)
{
  const Left *left = line->data;
  const double width_mm = box.width / ODD_N_STATIONS;

  for (guint i = 0; i < ODD_N_STATIONS; i++)
    {
      g_autofree char *length = odd_run_format (left[i].length_mm, ticket->unit);
      g_autofree char *text = left[i].n == 0 ? g_strdup (_("nothing left")) : g_strdup_printf (_("%u left, %s of seam"), left[i].n, length);
      const double x = box.x + i * width_mm;

      odd_pen_write (pen, odd_point (x, box.y), width_mm - 2.0, (OddType) { 8.5, TRUE, PANGO_ALIGN_LEFT, TRUE }, _(stations[i]));
      odd_pen_write (pen, odd_point (x, box.y + 4.4), width_mm - 2.0, (OddType) { 8.5, FALSE, PANGO_ALIGN_LEFT, TRUE }, text);
    }
}

static OddLine *
create_left (OddTicket *ticket)
{
  OddLine *line = odd_line_new (10.0, draw_left);
  Left *left = g_new0 (Left, ODD_N_STATIONS);

  odd_ticket_foreach_panel (ticket, add_left_of_panel, left);
  for (guint t = 0; t < ticket->job->textiles->len; t++)
    {
      g_autoptr(OddTextileLayout) laid = odd_job_dup_textile_layout (ticket->job, ((OddTextile *) ticket->job->textiles->pdata[t])->id);

      for (guint i = 0; i < laid->n_joins; i++)
        add_left (left, laid->joins[i].join, laid->joins[i].finish, laid->joins[i].raw_length_mm);
    }
  line->data = left;
  line->free_data = g_free;
  line->with_next = TRUE;
  return line;
}

/* --- the list --- */

static void
add_columns (GPtrArray *lines)
{
  OddLine *line = odd_line_new (4.4, draw_columns);

  line->with_next = TRUE;
  g_ptr_array_add (lines, line);
}

static void
add_panel (OddTicket *ticket, OddPanel *panel, OddLayout *layout, OddTextileLayout *textile, gpointer data)
{
  GPtrArray *lines = data;
  g_autoptr(GHashTable) told = g_hash_table_new (NULL, NULL);
  g_autofree char *name = odd_job_dup_panel_name (ticket->job, panel);

  if (layout->n_seams == 0)
    return;
  g_ptr_array_add (lines, odd_line_new_heading (ticket, name));
  for (guint i = 0; i < layout->n_seams; i++)
    add_finish (ticket, lines, told, layout->seams[i].finish);
  add_columns (lines);
  for (guint i = 0; i < layout->n_seams; i++)
    {
      OddLine *line = odd_line_new (ENTRY_MM, draw_entry);

      line->layout = odd_layout_ref (layout);
      line->index = i;
      g_ptr_array_add (lines, line);
    }
}

static void
add_joins (OddTicket *ticket, GPtrArray *lines, OddTextile *textile)
{
  g_autoptr(OddTextileLayout) laid = odd_job_dup_textile_layout (ticket->job, textile->id);
  g_autoptr(GHashTable) told = g_hash_table_new (NULL, NULL);
  g_autofree char *name = odd_job_dup_textile_name (ticket->job, textile);
  g_autofree char *heading = g_strdup_printf (_("%s: joins"), name);

  if (laid->n_joins == 0)
    return;
  g_ptr_array_add (lines, odd_line_new_heading (ticket, heading));
  for (guint i = 0; i < laid->n_joins; i++)
    add_finish (ticket, lines, told, laid->joins[i].finish);
  add_columns (lines);
  for (guint i = 0; i < laid->n_joins; i++)
    {
      OddLine *line = odd_line_new (ENTRY_MM, draw_entry);

      line->textile = odd_textile_layout_ref (laid);
      line->index = i;
      g_ptr_array_add (lines, line);
    }
}

void
odd_ticket_add_finishing (OddTicket *self)
{
  GPtrArray *lines = g_ptr_array_new ();

  odd_ticket_foreach_panel (self, add_panel, lines);
  for (guint i = 0; i < self->job->textiles->len; i++)
    add_joins (self, lines, self->job->textiles->pdata[i]);
  if (lines->len == 0)
    {
      g_ptr_array_unref (lines);
      return;
    }
  g_ptr_array_insert (lines, 0, create_left (self));
  odd_ticket_flow (self, _("Finishing"), lines, 1);
}
