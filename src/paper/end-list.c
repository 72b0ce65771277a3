/* Seam ends to secure: a small drawing with their places, numbered, and a box for each. */
#include "config.h"

#include "paper/ticket-private.h"

#include <glib/gi18n.h>
#include "cloth/piece.h"
#include "sewing/ends.h"
#include "sewing/piece-ends.h"

#define TOP_MM (ODD_HEAD_MM + 9.0)
#define DRAWING_MM 66.0
#define ENTRY_MM 9.4
#define MOST_COLUMNS 2
#define DISC_MM 2.1

typedef struct
{
  OddPoint at;                  /* of the drawing, mm */
  char *seam;                   /* "Seam 3 to 5, left end" */
  const char *what;             /* lent: what is to be done */
  gboolean secured;
} End;

/* One drawing and what is to be secured on it. */
typedef struct
{
  gatomicrefcount ref_count;
  char *title;
  GPtrArray *outlines;          /* (element-type OddPolygon) */
  GArray *lines;                /* (element-type OddSegment) */
  GArray *ends;                 /* (element-type End) */
} Chart;

typedef struct
{
  Chart *chart;
  guint first, n;
} Share;                        /* of a chart's ends: those on one page */

static void
end_clear (gpointer data)
{
  g_free (((End *) data)->seam);
}

static Chart *
chart_new (char *title)
{
  Chart *self = g_new0 (Chart, 1);

  g_atomic_ref_count_init (&self->ref_count);
  self->title = title;
  self->outlines = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);
  self->lines = g_array_new (FALSE, FALSE, sizeof (OddSegment));
  self->ends = g_array_new (FALSE, FALSE, sizeof (End));
  g_array_set_clear_func (self->ends, end_clear);
  return self;
}

static void
chart_unref (Chart *self)
{
  if (!g_atomic_ref_count_dec (&self->ref_count))
    return;
  g_free (self->title);
  g_ptr_array_unref (self->outlines);
  g_array_unref (self->lines);
  g_array_unref (self->ends);
  g_free (self);
}

static void
share_free (gpointer data)
{
  chart_unref (((Share *) data)->chart);
  g_free (data);
}

/* --- drawing --- */

static OddBox
get_box (const Chart *chart)
{
  OddBox box = ODD_BOX_EMPTY;

  for (guint i = 0; i < chart->outlines->len; i++)
    box = odd_box_union (box, odd_polygon_get_box (chart->outlines->pdata[i]));
  return box;
}

static void
trace (cairo_t *cr, OddPolygon *polygon)
{
  gsize n;
  const OddPoint *ring = odd_polygon_get_ring (polygon, &n);

  cairo_new_path (cr);
  for (gsize i = 0; i < n; i++)
    cairo_line_to (cr, ring[i].x, ring[i].y);
  cairo_close_path (cr);
}

static void
draw_cloth (OddPen *pen, const Chart *chart, double scale)
{
  cairo_save (pen->cr);
  cairo_scale (pen->cr, 1.0 / scale, 1.0 / scale);
  for (guint i = 0; i < chart->outlines->len; i++)
    {
      trace (pen->cr, chart->outlines->pdata[i]);
      cairo_set_source_rgb (pen->cr, 0.0, 0.0, 0.0);
      cairo_set_line_width (pen->cr, 0.35 * scale);
      cairo_stroke (pen->cr);
    }
  for (guint i = 0; i < chart->lines->len; i++)
    {
      const OddSegment line = g_array_index (chart->lines, OddSegment, i);

      odd_pen_line (pen, line.from, line.to, 0.15 * scale);
    }
  cairo_restore (pen->cr);
}

/* A white disc with the end's number; filled with black where it is secured already. */
static void
draw_number (OddPen *pen, OddPoint at, guint number, gboolean secured)
{
  g_autofree char *text = g_strdup_printf ("%u", number);
  const double half_mm = MAX (DISC_MM, odd_pen_get_width (pen, 6.5, TRUE, text) / 2 + 0.7);

  cairo_new_path (pen->cr);
  cairo_arc (pen->cr, at.x - half_mm + DISC_MM, at.y, DISC_MM, G_PI_2, 3.0 * G_PI_2);
  cairo_arc (pen->cr, at.x + half_mm - DISC_MM, at.y, DISC_MM, -G_PI_2, G_PI_2);
  cairo_close_path (pen->cr);
  cairo_set_source_rgb (pen->cr, 1.0, 1.0, 1.0);
  cairo_fill_preserve (pen->cr);
  cairo_set_source_rgb (pen->cr, 0.0, 0.0, 0.0);
  cairo_set_line_width (pen->cr, secured ? 0.15 : 0.4);
  cairo_stroke (pen->cr);
  odd_pen_write_centred (pen, at, 6.5, !secured, FALSE, text);
}

static void
draw_chart (OddPen *pen, const Share *share, OddBox space)
{
  const Chart *chart = share->chart;
  const OddBox box = get_box (chart);
  const double scale = odd_ticket_choose_scale (box, space.width - 2 * DISC_MM, space.height - 2 * DISC_MM - 5.0);
  g_autofree char *caption = g_strdup_printf (_("Scale 1 : %g, seen from the right side"), scale);

  cairo_save (pen->cr);
  cairo_translate (pen->cr, space.x + DISC_MM - box.x / scale, space.y + DISC_MM - box.y / scale);
  draw_cloth (pen, chart, scale);
  for (guint i = share->first; i < share->first + share->n; i++)
    {
      const End *end = &g_array_index (chart->ends, End, i);

      draw_number (pen, odd_point_scale (end->at, 1.0 / scale), i + 1, end->secured);
    }
  cairo_restore (pen->cr);
  odd_pen_write (pen, odd_point (space.x, space.y + box.height / scale + 2 * DISC_MM + 2.0), space.width, ODD_TYPE_SMALL, caption);
}

/* --- the list beside it --- */

static void
draw_entry (OddPen *pen, const End *end, guint number, OddPoint at, double width_mm)
{
  const OddType bold = { 8.5, TRUE, PANGO_ALIGN_LEFT, TRUE }, plain = { 8.5, FALSE, PANGO_ALIGN_LEFT, TRUE }, small = { 7.0, FALSE, PANGO_ALIGN_LEFT, TRUE };
  const double number_mm = 4.8, text_mm = 12.0;
  g_autofree char *text = g_strdup_printf ("%u", number);

  odd_pen_box (pen, odd_point (at.x, at.y + 0.3), 3.4, end->secured, FALSE);
  odd_pen_write (pen, odd_point (at.x + number_mm, at.y), text_mm - number_mm, bold, text);
  odd_pen_write (pen, odd_point (at.x + text_mm, at.y), width_mm - text_mm, plain, end->seam);
  odd_pen_write (pen, odd_point (at.x + text_mm, at.y + 3.8), width_mm - text_mm, small, end->secured ? _("Secured") : end->what);
}

static guint
get_entries_in_column (const OddTicket *ticket)
{
  return (guint) floor ((ticket->height_mm - ODD_MARGIN_MM - TOP_MM) / ENTRY_MM);
}

static char *
describe_count (const Chart *chart)
{
  guint n_open = 0;

  for (guint i = 0; i < chart->ends->len; i++)
    n_open += !g_array_index (chart->ends, End, i).secured;
  return g_strdup_printf (ngettext ("%u end to secure, %u secured", "%u ends to secure, %u secured", n_open), n_open, chart->ends->len - n_open);
}

static void
draw_share (OddTicket *ticket, OddPen *pen, const OddPage *page)
{
  const Share *share = page->data;
  const double x = ODD_MARGIN_MM + DRAWING_MM + ODD_GAP_MM;
  const guint n_rows = get_entries_in_column (ticket), n_columns = share->chart->ends->len > n_rows ? MOST_COLUMNS : 1;
  const double width_mm = (ticket->width_mm - ODD_MARGIN_MM - x - (n_columns - 1) * 4.0) / n_columns;
  g_autofree char *heading = g_strdup_printf (_("Ends to secure: %s"), share->chart->title);
  g_autofree char *count = describe_count (share->chart);

  odd_pen_write (pen, odd_point (ODD_MARGIN_MM, ODD_HEAD_MM - 4.0), ticket->width_mm - 2 * ODD_MARGIN_MM, ODD_TYPE_HEADING, heading);
  odd_pen_write (pen, odd_point (ODD_MARGIN_MM, ODD_HEAD_MM + 2.0), ticket->width_mm - 2 * ODD_MARGIN_MM, ODD_TYPE_SMALL, count);
  draw_chart (pen, share, (OddBox) { ODD_MARGIN_MM, TOP_MM, DRAWING_MM, ticket->height_mm - ODD_MARGIN_MM - TOP_MM });
  for (guint i = 0; i < share->n; i++)
    draw_entry (pen, &g_array_index (share->chart->ends, End, share->first + i), share->first + i + 1,
                odd_point (x + i / n_rows * (width_mm + 4.0), TOP_MM + i % n_rows * ENTRY_MM), width_mm);
}

/* --- what is to be secured --- */

static const char *
get_remedy (const OddSeamEnd *end)
{
  if (end->kind == ODD_END_CUT)
    return _("Cut: stitch and back-stitch there");
  return end->sewn ? _("At the edge: back-stitch or baste") : _("At the edge: back-stitch as you sew");
}

/* Which end of the seam it is, seen from the right side. */
static char *
dup_end_name (const char *seam, OddPoint outward)
{
  if (fabs (outward.x) > fabs (outward.y))
    return outward.x > 0.0 ? g_strdup_printf (_("%s, right end"), seam) : g_strdup_printf (_("%s, left end"), seam);
  return outward.y > 0.0 ? g_strdup_printf (_("%s, lower end"), seam) : g_strdup_printf (_("%s, upper end"), seam);
}

static void
add_end (Chart *chart, OddJob *job, const OddSeamEnd *from, OddSegment seam)
{
  const OddPoint outward = from->end == 0 ? odd_point_sub (seam.from, seam.to) : odd_point_sub (seam.to, seam.from);
  g_autofree char *name = odd_job_dup_seam_name (job, from->seam_id);
  const End end = { from->at, dup_end_name (name, outward), get_remedy (from), from->kind == ODD_END_BACK_STITCHED };

  g_array_append_val (chart->ends, end);
}

static gboolean
is_listed (const OddSeamEnd *end)
{
  return odd_end_wants_securing (end->kind) || end->kind == ODD_END_BACK_STITCHED;
}

static Chart *
create_panel_chart (OddJob *job, OddPanel *panel, const GArray *ends)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel->id);
  Chart *chart = chart_new (odd_job_dup_panel_name (job, panel));

  g_ptr_array_add (chart->outlines, odd_polygon_new_from_convex (layout->outline));
  for (guint i = 0; i < layout->n_seams; i++)
    if (layout->seams[i].raw_length_mm > 0.0)
      g_array_append_val (chart->lines, layout->seams[i].finished);
  for (guint i = 0; i < ends->len; i++)
    {
      const OddSeamEnd *end = &g_array_index (ends, OddSeamEnd, i);

      if (end->panel_id == panel->id && is_listed (end))
        add_end (chart, job, end, odd_layout_find_seam (layout, end->seam_id)->finished);
    }
  return chart;
}

static const OddLaidJoin *
find_join (const OddTextileLayout *laid, OddId id)
{
  for (guint i = 0; i < laid->n_joins; i++)
    if (laid->joins[i].join->id == id)
      return &laid->joins[i];
  return NULL;
}

static Chart *
create_join_chart (OddJob *job, OddTextile *textile, const GArray *ends)
{
  g_autoptr(OddTextileLayout) laid = odd_job_dup_textile_layout (job, textile->id);
  g_autofree char *name = odd_job_dup_textile_name (job, textile);
  Chart *chart = chart_new (g_strdup_printf (_("%s: joins"), name));

  for (guint i = 0; i < laid->n_panels; i++)
    {
      g_autoptr(OddConvex) outline = odd_convex_shift (laid->panels[i].layout->outline, laid->panels[i].at);

      g_ptr_array_add (chart->outlines, odd_polygon_new_from_convex (outline));
    }
  for (guint i = 0; i < ends->len; i++)
    {
      const OddSeamEnd *end = &g_array_index (ends, OddSeamEnd, i);
      const OddLaidJoin *join = end->panel_id == 0 && is_listed (end) ? find_join (laid, end->seam_id) : NULL;

      if (join != NULL)
        add_end (chart, job, end, join->finished);
    }
  return chart;
}

/* The text of a piece's end is made for it; the chart keeps it as the seam's name. */
static Chart *
create_piece_chart (OddJob *job, OddScrap *scrap)
{
  g_autoptr(GArray) ends = odd_job_dup_piece_ends (job, scrap);
  g_autoptr(OddLayout) layout = odd_job_dup_piece_layout (job, scrap);
  Chart *chart = chart_new (g_strdup_printf (_("Piece %u"), scrap->number));

  g_ptr_array_add (chart->outlines, odd_polygon_ref (scrap->outline));
  for (guint i = 0; i < layout->n_seams; i++)
    {
      const OddSegment in_piece = layout->seams[i].finished;
      const OddSegment here = { odd_placement_apply (&scrap->piece_at, in_piece.from), odd_placement_apply (&scrap->piece_at, in_piece.to) };

      g_array_append_val (chart->lines, here);
    }
  for (guint i = 0; i < ends->len; i++)
    {
      const OddPieceEnd *from = &g_array_index (ends, OddPieceEnd, i);
      const End end = { from->at, g_strdup (from->text), _("Cut: stitch and back-stitch there"), FALSE };

      g_array_append_val (chart->ends, end);
    }
  return chart;
}

/* --- pages --- */

/* Takes the chart; one without ends has no page. */
static void
add_chart (OddTicket *ticket, Chart *chart)
{
  const guint most = MOST_COLUMNS * get_entries_in_column (ticket);

  for (guint first = 0; first < chart->ends->len; first += most)
    {
      OddPage *page = odd_ticket_add_page (ticket, draw_share);
      Share *share = g_new (Share, 1);

      g_atomic_ref_count_inc (&chart->ref_count);
      *share = (Share) { chart, first, MIN (most, chart->ends->len - first) };
      page->data = share;
      page->free_data = share_free;
    }
  chart_unref (chart);
}

static void
add_panel (OddTicket *ticket, OddPanel *panel, OddLayout *layout, OddTextileLayout *textile, gpointer data)
{
  add_chart (ticket, create_panel_chart (ticket->job, panel, data));
}

void
odd_ticket_add_ends (OddTicket *self)
{
  g_autoptr(GArray) ends = odd_job_dup_ends (self->job, 0);

  odd_ticket_foreach_panel (self, add_panel, ends);
  for (guint i = 0; i < self->job->textiles->len; i++)
    add_chart (self, create_join_chart (self->job, self->job->textiles->pdata[i], ends));
  for (guint i = 0; i < self->job->scraps->len; i++)
    {
      OddScrap *scrap = self->job->scraps->pdata[i];

      if (scrap->piece != NULL && !scrap->gone)
        add_chart (self, create_piece_chart (self->job, scrap));
    }
}
