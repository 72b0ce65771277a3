/* The first sheet of each textile: what it comes to, and what is left to do. */
#include "config.h"

#include "paper/ticket-private.h"

#include <glib/gi18n.h>
#include "sewing/thread.h"
#include "sewing/own-time.h"

#define FOOT_GAP_MM 7.0           /* above and below the rule over square and cautions */
#define FIGURES_MM 58.0           /* width of the column of figures */

static const char *const cautions[] = {
  N_("Close the cutter's guard after each cut, cut away from yourself, keep your hand off the ruler's edge, change a dull blade."),
  N_("Stop the machines to adjust them, unplug to clean them: lint burns. Hands clear of needle and knife; no pins under the foot."),
  N_("No hot iron on a fibre you do not know, and no burn test. Switch it off when you leave, mind the steam, air the room."),
  N_("Tie back hair and sleeves, wear glasses where a needle may break, count pins and needles."),
  N_("Found cloth may hide pins, staples, mould or an unknown finish: wear gloves, air or wash it first."),
  N_("Keep children and pets away. Sit well, change task, take breaks, wear a mask when cutting for long."),
  N_("Pieced cloth is not tested for burning; sheer, raised or fluffy cloth catches fire easily: mind nightwear."),
  N_("Small parts and cords on clothes for small children: see your local rules."),
};

/* --- figures --- */

static double
write_figure (OddPen *pen, OddPoint at, const char *label, const char *value)
{
  const double label_mm = 24.0;

  odd_pen_write (pen, at, label_mm, ODD_TYPE_BODY, label);
  odd_pen_write (pen, odd_point (at.x + label_mm, at.y), FIGURES_MM - label_mm, ODD_TYPE_STRONG, value);
  return 5.2;
}

static double
take_figure (OddPen *pen, OddPoint at, const char *label, char *value)
{
  const double height_mm = write_figure (pen, at, label, value);

  g_free (value);
  return height_mm;
}

static double
write_target (OddTicket *ticket, OddPen *pen, OddPoint at, const char *label, double target_mm, double missing_mm, double surplus_mm)
{
  g_autofree char *difference = odd_length_format (missing_mm > 0.0 ? missing_mm : surplus_mm, ticket->unit);
  double y = at.y;

  if (target_mm <= 0.0)
    return 0.0;
  y += take_figure (pen, odd_point (at.x, y), label, odd_length_format (target_mm, ticket->unit));
  y += write_figure (pen, odd_point (at.x, y), missing_mm > 0.0 ? _("Missing") : _("To spare"), difference);
  return y - at.y;
}

/* A mark as it is on the cloth, then how many seams wait for that. */
static double
write_count (OddPen *pen, OddPoint at, OddMark mark, guint n, const char *text)
{
  OddPaintOptions options;
  g_autoptr(OddMarks) marks = NULL;
  g_autofree char *line = g_strdup_printf (text, n);

  odd_ticket_init_paint (&options, 1.0);
  marks = odd_marks_new (&options);
  odd_marks_add_mark (marks, mark, (OddSegment) { odd_point (at.x, at.y + 2.4), odd_point (at.x + 16.0, at.y + 2.4) }, odd_point (0, -1));
  odd_marks_paint (marks, pen->cr);
  odd_pen_write (pen, odd_point (at.x + 24.0, at.y), FIGURES_MM - 24.0, n > 0 ? ODD_TYPE_STRONG : ODD_TYPE_BODY, line);
  return 6.0;
}

static double
write_counts (OddPen *pen, OddPoint at, const OddWorkCount *work)
{
  static const struct { OddMark mark; const char *text; } waits[] = {
    { ODD_MARK_PLANNED, N_("%u to sew") }, { ODD_MARK_SEWN, N_("%u to finish") }, { ODD_MARK_FINISHED, N_("%u to press") },
    { ODD_MARK_PRESSED, N_("%u to topstitch") },
  };
  double y = at.y;

  y += odd_pen_write (pen, odd_point (at.x, y), FIGURES_MM, ODD_TYPE_HEADING, _("Seams")) + 2.0;
  for (guint i = 0; i < G_N_ELEMENTS (waits); i++)
    y += write_count (pen, odd_point (at.x, y), waits[i].mark, work->n[i], _(waits[i].text));
  y += write_count (pen, odd_point (at.x, y), ODD_MARK_DONE, work->n_done, _("%u done"));
  if (work->n_raw_inside > 0)
    y += write_count (pen, odd_point (at.x, y), ODD_MARK_RAW_INSIDE, work->n_raw_inside, _("%u raw inside"));
  return y - at.y;
}

/* --- what is left, all in all --- */

#define HOUR_S 3600.0

/* "25 to 40 min", "3 to 5.5 h": no finer than the figures behind it. */
static char *
describe_time (OddRange seconds)
{
  if (seconds.high < 2.0 * HOUR_S)
    return g_strdup_printf (_("%.0f to %.0f min"), floor (seconds.low / 300.0) * 5.0, MAX (ceil (seconds.high / 300.0) * 5.0, 5.0));
  return g_strdup_printf (_("%.2g to %.2g h"), MAX (floor (seconds.low / HOUR_S * 2.0) / 2.0, 0.5), ceil (seconds.high / HOUR_S * 2.0) / 2.0);
}

static double
sum_thread (const GPtrArray *uses, OddStation station)
{
  double sum_mm = 0.0;

  for (guint i = 0; i < uses->len; i++)
    {
      const OddThreadUse *use = uses->pdata[i];

      if (use->figure != NULL && use->station == station)
        sum_mm += use->thread_mm;
    }
  return sum_mm;
}

/* "145 m, 1 spool" of sewing thread, "420 m, 1 cone" of overlocker thread. */
static char *
describe_thread (const OddTicket *ticket, double thread_mm, gboolean spools)
{
  const guint n = odd_thread_count_spools (thread_mm, spools ? ODD_SPOOL_M : ODD_CONE_M);
  g_autofree char *length = odd_run_format (thread_mm, ticket->unit);

  return spools ? g_strdup_printf (ngettext ("%s, %u spool", "%s, %u spools", n), length, n)
                : g_strdup_printf (ngettext ("%s, %u cone", "%s, %u cones", n), length, n);
}

static char *
describe_untold (const OddTicket *ticket, double stitched_mm)
{
  g_autofree char *length = odd_run_format (stitched_mm, ticket->unit);

  return g_strdup_printf (_("%s of stitching"), length);
}

static double
write_work (OddTicket *ticket, OddPen *pen, OddPoint at, OddId textile_id)
{
  g_autoptr(OddPlan) plan = odd_plan_new (ticket->job, textile_id, ticket->options.manner, ticket->options.pins, ticket->options.n_pins, NULL);
  g_autoptr(GPtrArray) uses = odd_plan_thread (plan, ODD_THREAD_WASTE);
  const OddWorkTime time = odd_job_plan_time (ticket->job, plan);
  const double sewing_mm = sum_thread (uses, ODD_STATION_SEWING_MACHINE), overlocker_mm = sum_thread (uses, ODD_STATION_OVERLOCKER);
  const double untold_mm = odd_thread_sum_untold (uses);
  double y = at.y;

  if (plan->n_tasks == 0)
    return 0.0;
  y += odd_pen_write (pen, odd_point (at.x, y), FIGURES_MM, ODD_TYPE_HEADING, _("Work that is left")) + 2.0;
  y += take_figure (pen, odd_point (at.x, y), _("Rounds"), g_strdup_printf (_("%u of %u"), plan->n_rounds_left, plan->n_rounds));
  y += take_figure (pen, odd_point (at.x, y), _("Stops"), g_strdup_printf ("%u", plan->n_walks));
  y += take_figure (pen, odd_point (at.x, y), _("Time"), describe_time (time.all));
  if (sewing_mm > 0.0)
    y += take_figure (pen, odd_point (at.x, y), _("Sewing thread"), describe_thread (ticket, sewing_mm, TRUE));
  if (overlocker_mm > 0.0)
    y += take_figure (pen, odd_point (at.x, y), _("Overlocker"), describe_thread (ticket, overlocker_mm, FALSE));
  if (untold_mm > 0.0)
    y += take_figure (pen, odd_point (at.x, y), _("No thread figure"), describe_untold (ticket, untold_mm));
  return y + 6.0 - at.y;
}

/* As many as there is room for; each has a sheet of its own anyhow. */
static void
write_panel_sizes (OddTicket *ticket, OddPen *pen, OddPoint at, double bottom_mm, const OddTextileLayout *laid)
{
  double y = at.y;

  y += odd_pen_write (pen, odd_point (at.x, y), FIGURES_MM, ODD_TYPE_HEADING, _("Panels")) + 2.0;
  for (guint i = 0; i < laid->n_panels; i++)
    {
      const OddLayout *layout = laid->panels[i].layout;
      g_autofree char *name = odd_job_dup_panel_name (ticket->job, laid->textile->hung[i].panel);

      if (y + 10.4 > bottom_mm && i + 1 < laid->n_panels)
        {
          take_figure (pen, odd_point (at.x, y), "…", g_strdup_printf (_("%u more"), laid->n_panels - i));
          break;
        }
      y += take_figure (pen, odd_point (at.x, y), name, odd_length_format_pair (layout->box.width, layout->box.height, ticket->unit));
    }
}

static void
write_figures (OddTicket *ticket, OddPen *pen, OddPoint at, double bottom_mm, const OddTextileLayout *laid)
{
  const OddWorkCount work = odd_job_count_work (ticket->job, laid->textile->id);
  const OddTextile *textile = laid->textile;
  double y = at.y;

  y += odd_pen_write (pen, odd_point (at.x, y), FIGURES_MM, ODD_TYPE_HEADING, _("Size")) + 2.0;
  y += take_figure (pen, odd_point (at.x, y), _("Finished"), odd_length_format_pair (laid->finished_width_mm, laid->finished_length_mm, ticket->unit));
  y += take_figure (pen, odd_point (at.x, y), _("Raw"), odd_length_format_pair (laid->raw_width_mm, laid->raw_length_mm, ticket->unit));
  y += write_target (ticket, pen, odd_point (at.x, y), _("Wanted width"), textile->target_width_mm, laid->missing_width_mm, laid->surplus_width_mm);
  y += write_target (ticket, pen, odd_point (at.x, y), _("Wanted length"), textile->target_length_mm, laid->missing_length_mm, laid->surplus_length_mm);
  y += 6.0;
  y += write_counts (pen, odd_point (at.x, y), &work) + 6.0;
  y += write_work (ticket, pen, odd_point (at.x, y), textile->id);
  write_panel_sizes (ticket, pen, odd_point (at.x, y), bottom_mm, laid);
}

/* --- picture --- */

static void
draw_textile (OddTicket *ticket, OddPen *pen, OddBox space, OddTextileLayout *laid)
{
  const OddBox raw = { 0.0, 0.0, laid->raw_width_mm, laid->raw_length_mm };
  const double scale = odd_ticket_choose_scale (raw, space.width, space.height - 6.0);
  const double side_mm = laid->panels[0].layout->raw_box.x, top_mm = laid->panels[0].layout->raw_box.y;
  g_autofree char *caption = g_strdup_printf (_("Scale 1 : %g, seen from the right side"), scale);
  OddPaintOptions options;

  odd_ticket_init_paint (&options, scale);
  cairo_save (pen->cr);
  cairo_translate (pen->cr, space.x, space.y);
  cairo_scale (pen->cr, 1.0 / scale, 1.0 / scale);
  cairo_translate (pen->cr, -side_mm, -top_mm);
  odd_paint_textile (pen->cr, ticket->swatches, ticket->job, laid, &options);
  cairo_restore (pen->cr);
  odd_pen_write (pen, odd_point (space.x, space.y + raw.height / scale + 2.0), space.width, ODD_TYPE_SMALL, caption);
}

/* --- foot of the first sheet --- */

static double
measure_at (OddPen *pen, OddPoint at, double width_mm, OddType type, const char *text)
{
  return odd_pen_measure (pen, width_mm, type, text);
}

void
odd_ticket_draw_test_square (OddPen *pen, OddPoint at)
{
  const double inset = ODD_LINE_MM / 2;

  cairo_rectangle (pen->cr, at.x + inset, at.y + inset, ODD_TEST_SQUARE_MM - ODD_LINE_MM, ODD_TEST_SQUARE_MM - ODD_LINE_MM);
  cairo_set_source_rgb (pen->cr, 0.0, 0.0, 0.0);
  cairo_set_line_width (pen->cr, ODD_LINE_MM);
  cairo_set_line_join (pen->cr, CAIRO_LINE_JOIN_MITER);
  cairo_stroke (pen->cr);
  odd_pen_write_centred (pen, odd_point (at.x + ODD_TEST_SQUARE_MM / 2, at.y + ODD_TEST_SQUARE_MM / 2 - 9.0), 12.0, TRUE, FALSE, _("5 cm"));
  odd_pen_write (pen, odd_point (at.x + 6.0, at.y + ODD_TEST_SQUARE_MM / 2 - 4.0), ODD_TEST_SQUARE_MM - 12.0, (OddType) { 7.5, FALSE, PANGO_ALIGN_CENTER, FALSE },
                 _("Measure this square. If it is not 5 cm wide and high, print again in true size (100 %)."));
}

/* Writes, or only measures. Returns the height. */
static double
write_cautions (OddPen *pen, OddPoint at, double width_mm, gboolean only_measure)
{
  double (*put) (OddPen *, OddPoint, double, OddType, const char *) = only_measure ? measure_at : odd_pen_write;
  double y = at.y;

  y += put (pen, odd_point (at.x, y), width_mm, ODD_TYPE_STRONG, _("Take care")) + 1.5;
  for (guint i = 0; i < G_N_ELEMENTS (cautions); i++)
    {
      put (pen, odd_point (at.x, y), 4.0, ODD_TYPE_SMALL, "–");
      y += put (pen, odd_point (at.x + 4.0, y), width_mm - 4.0, ODD_TYPE_SMALL, _(cautions[i])) + 1.0;
    }
  y += 1.5;
  y += put (pen, odd_point (at.x, y), width_mm, (OddType) { 7.5, TRUE, PANGO_ALIGN_LEFT, FALSE },
            _("Usual cautions only. Your local law, workplace rules and the makers' instructions come first."));
  return y - at.y;
}

/* Returns how high it is, rule and space above it included. */
static double
draw_foot (OddTicket *ticket, OddPen *pen)
{
  const double x = ODD_MARGIN_MM + ODD_TEST_SQUARE_MM + 10.0, width_mm = ticket->width_mm - ODD_MARGIN_MM - x;
  const double height_mm = MAX (ODD_TEST_SQUARE_MM, write_cautions (pen, odd_point (x, 0.0), width_mm, TRUE));
  const double y = ticket->height_mm - ODD_MARGIN_MM - height_mm;

  odd_pen_line (pen, odd_point (ODD_MARGIN_MM, y - FOOT_GAP_MM), odd_point (ticket->width_mm - ODD_MARGIN_MM, y - FOOT_GAP_MM), ODD_LINE_MM);
  odd_ticket_draw_test_square (pen, odd_point (ODD_MARGIN_MM, y));
  write_cautions (pen, odd_point (x, y), width_mm, FALSE);
  return height_mm + 2 * FOOT_GAP_MM;
}

/* --- the page --- */

static void
draw_cover (OddTicket *ticket, OddPen *pen, const OddPage *page)
{
  OddTextile *textile = odd_job_get_textile (ticket->job, page->textile_id);
  const double width_mm = ticket->width_mm - 2 * ODD_MARGIN_MM, figures_x = ticket->width_mm - ODD_MARGIN_MM - FIGURES_MM;
  const gboolean first = ticket->pages->pdata[0] == page;
  const double bottom_mm = ticket->height_mm - ODD_MARGIN_MM - (first ? draw_foot (ticket, pen) : 0.0);
  const double top_mm = ODD_HEAD_MM + 16.0;

  if (textile == NULL)
    {
      odd_pen_write (pen, odd_point (ODD_MARGIN_MM, ODD_HEAD_MM), width_mm, ODD_TYPE_TITLE, ticket->title);
      odd_pen_write (pen, odd_point (ODD_MARGIN_MM, top_mm), width_mm, ODD_TYPE_BODY, _("No panel hangs in a textile yet."));
    }
  else
    {
      g_autoptr(OddTextileLayout) laid = odd_job_dup_textile_layout (ticket->job, textile->id);
      g_autofree char *name = odd_job_dup_textile_name (ticket->job, textile);

      odd_pen_write (pen, odd_point (ODD_MARGIN_MM, ODD_HEAD_MM), width_mm, ODD_TYPE_TITLE, name);
      draw_textile (ticket, pen, (OddBox) { ODD_MARGIN_MM, top_mm, figures_x - ODD_MARGIN_MM - 10.0, bottom_mm - top_mm }, laid);
      write_figures (ticket, pen, odd_point (figures_x, top_mm), bottom_mm, laid);
    }
}

void
odd_ticket_add_covers (OddTicket *self)
{
  for (guint i = 0; i < self->job->textiles->len; i++)
    {
      const OddTextile *textile = self->job->textiles->pdata[i];

      if (textile->n_hung > 0)
        odd_ticket_add_page (self, draw_cover)->textile_id = textile->id;
    }
  if (self->pages->len == 0)
    odd_ticket_add_page (self, draw_cover);
}
