/* The cutting plan of each scrap that is used, several a page, with a line to tick for each patch. */
#include "config.h"

#include "paper/ticket-private.h"

#include <glib/gi18n.h>
#include "cloth/offcuts.h"
#include "cloth/piece.h"
#include "drawing/cutting-plan.h"

#define HEAD_MM 9.6             /* number of the scrap, cloth and place */
#define BOX_MM 3.0
#define FOOT_MM 5.0
#define SIDE_MM 9.0             /* shorter sides get no figure */
#define CRUMB_MM 100.0
#define SIDE_POINTS 6.0

typedef struct
{
  OddScrap *scrap;              /* lent by the job */
  double scale;
  double picture_mm;            /* height of the drawing on paper */
} Plan;

/* How many plans stand side by side, and what one of them may hold. */
static const struct { guint n_columns; double scale, height_mm; guint n_uses; } sizes[] = {
  { 3, 5.0, 66.0, 3 }, { 2, 8.0, 104.0, 8 }, { 1, 200.0, 150.0, G_MAXUINT },
};

/* --- uses --- */

/* What lies in a piece is sewn into it: nobody cuts it out of the scrap any more. */
static gboolean
is_of_panel (OddJob *job, const OddUse *use)
{
  return odd_job_get_panel (job, use->panel->id, NULL, NULL) != NULL;
}

static guint
count_uses (OddJob *job, OddScrap *scrap)
{
  guint n, n_here = 0;
  const OddUse *uses = odd_job_get_uses (job, scrap->id, &n);

  for (guint i = 0; i < n; i++)
    n_here += is_of_panel (job, &uses[i]);
  return n_here;
}

static char *
describe_use (OddTicket *ticket, const OddUse *use, const OddPatch *patch)
{
  g_autofree char *panel = odd_job_dup_panel_name (ticket->job, use->panel);
  g_autofree char *shape = odd_cut_shape_describe (patch->cut, ticket->unit);

  /* Translators: panel, number of the patch, its measures: "Squares 5:  12.0 × 12.0 cm" */
  return g_strdup_printf (_("%s %u:  %s"), panel, patch->number, shape);
}

/* Writes, or with a pen that only measures lays out. Returns the height. */
static double
write_uses (OddTicket *ticket, OddPen *pen, OddPoint at, double width_mm, OddScrap *scrap)
{
  guint n;
  const OddUse *uses = odd_job_get_uses (ticket->job, scrap->id, &n);
  double y = at.y;

  for (guint i = 0; i < n; i++)
    {
      g_autoptr(OddLayout) layout = odd_job_dup_layout (ticket->job, uses[i].panel->id);
      const OddPatch *patch = odd_layout_find_patch (layout, uses[i].leaf->id);
      g_autofree char *text = NULL;

      if (patch == NULL || !is_of_panel (ticket->job, &uses[i]))
        continue;
      text = describe_use (ticket, &uses[i], patch);
      if (pen->cr == NULL)
        y += odd_pen_measure (pen, width_mm - BOX_MM - 1.6, ODD_TYPE_SMALL, text) + 0.8;
      else
        {
          odd_pen_box (pen, odd_point (at.x, y + 0.2), BOX_MM, uses[i].leaf->cut == ODD_STATE_DONE, uses[i].leaf->cut == ODD_STATE_SKIPPED);
          y += odd_pen_write (pen, odd_point (at.x + BOX_MM + 1.6, y), width_mm - BOX_MM - 1.6, ODD_TYPE_SMALL, text) + 0.8;
        }
    }
  return y - at.y;
}

/* --- the drawing --- */

static OddBox
get_box (OddTicket *ticket, OddScrap *scrap, double scale)
{
  OddPaintOptions options;

  odd_ticket_init_paint (&options, scale);
  return odd_cutting_plan_get_box (ticket->job, scrap, &options);
}

/* Alike as far as it goes, so that scraps can be compared; crumbs are drawn larger, or their measures had no room. */
static double
get_first_scale (OddScrap *scrap)
{
  const OddBox box = odd_scrap_get_box (scrap);

  return MAX (box.width, box.height) <= CRUMB_MM ? 2.0 : 4.0;
}

static double
choose_scale (OddTicket *ticket, OddScrap *scrap, double width_mm, double height_mm)
{
  double scale = get_first_scale (scrap);
  OddBox box = get_box (ticket, scrap, scale);

  /* Marks keep their size on paper whatever the scale, so one look at the box does not settle it. */
  while ((box.width > width_mm * scale || box.height > height_mm * scale) && scale < 200.0)
    {
      scale = odd_ticket_choose_scale (box, width_mm, height_mm) > scale ? odd_ticket_choose_scale (box, width_mm, height_mm) : scale + 1.0;
      box = get_box (ticket, scrap, scale);
    }
  return scale;
}

/* Lengths of the sides of what is no rectangle: its box tells nothing. */
static void
write_sides (OddTicket *ticket, OddPen *pen, const OddConvex *cut, OddPoint origin, double scale)
{
  for (guint i = 0; i < cut->n; i++)
    {
      const OddPoint a = cut->points[i], b = cut->points[(i + 1) % cut->n];
      const double length_mm = odd_point_distance (a, b);
      const OddHalfPlane edge = odd_half_plane_from_edge (a, b);
      const OddPoint middle = odd_point_sub (odd_point_scale (odd_point_lerp (a, b, 0.5), 1.0 / scale), odd_point_scale (edge.normal, 2.6));
      g_autofree char *text = odd_length_format_bare (length_mm, ticket->unit);

      if (length_mm / scale >= SIDE_MM)
        odd_pen_write_measure (pen, odd_point_add (origin, middle), SIDE_POINTS, text);
    }
}

static void
draw_dot (OddPen *pen, OddPoint at)
{
  cairo_new_path (pen->cr);
  cairo_arc (pen->cr, at.x, at.y, 0.8, 0.0, 2.0 * G_PI);
  cairo_set_source_rgb (pen->cr, 0.0, 0.0, 0.0);
  cairo_fill (pen->cr);
}

static void
write_shapes (OddTicket *ticket, OddPen *pen, OddScrap *scrap, OddPoint origin, double scale)
{
  guint n;
  const OddUse *uses = odd_job_get_uses (ticket->job, scrap->id, &n);

  for (guint i = 0; i < n; i++)
    {
      g_autoptr(OddLayout) layout = odd_job_dup_layout (ticket->job, uses[i].panel->id);
      const OddPatch *patch = odd_layout_find_patch (layout, uses[i].leaf->id);
      g_autoptr(OddConvex) cut = odd_use_dup_cut (ticket->job, &uses[i]);

      if (patch == NULL || cut == NULL || odd_cut_shape_is_rectangle (cut))
        continue;
      write_sides (ticket, pen, cut, origin, scale);
      draw_dot (pen, odd_point_add (origin, odd_point_scale (odd_placement_undo (&patch->placement, patch->cut->points[0]), 1.0 / scale)));
    }
}

static void
draw_picture (OddTicket *ticket, OddPen *pen, const Plan *plan, OddPoint at)
{
  const OddBox box = get_box (ticket, plan->scrap, plan->scale);
  const OddPoint origin = odd_point (at.x - box.x / plan->scale, at.y - box.y / plan->scale);
  OddPaintOptions options;

  odd_ticket_init_paint (&options, plan->scale);
  cairo_save (pen->cr);
  cairo_translate (pen->cr, origin.x, origin.y);
  cairo_scale (pen->cr, 1.0 / plan->scale, 1.0 / plan->scale);
  odd_paint_cutting_plan (pen->cr, ticket->swatches, ticket->job, plan->scrap, ticket->unit, &options);
  cairo_restore (pen->cr);
  write_shapes (ticket, pen, plan->scrap, origin, plan->scale);
}

/* --- words --- */

static char *
describe_scrap (OddTicket *ticket, OddScrap *scrap)
{
  OddFabric *fabric = odd_job_get_scrap_fabric (ticket->job, scrap);
  g_autofree char *cloth = odd_job_dup_scrap_cloth_name (ticket->job, scrap);
  GString *text = g_string_new (cloth);

  if (scrap->place != NULL && scrap->place[0] != '\0')
    g_string_append_printf (text, " · %s", scrap->place);
  if (!scrap->washed && fabric != NULL && fabric->shrink_along + fabric->shrink_across > 0.0)
    g_string_append_printf (text, " · %s", _("as it will be after its first wash"));
  return g_string_free (text, FALSE);
}

static void
draw_plan (OddTicket *ticket, OddPen *pen, const OddLine *line, OddBox box)
{
  const Plan *plan = line->data;
  const OddType bold = { 9.5, TRUE, PANGO_ALIGN_LEFT, TRUE }, right = { 7.5, FALSE, PANGO_ALIGN_RIGHT, TRUE }, small = { 7.5, FALSE, PANGO_ALIGN_LEFT, TRUE };
  g_autofree char *number = g_strdup_printf (plan->scrap->piece != NULL ? _("Piece %u") : _("Scrap %u"), plan->scrap->number);
  g_autofree char *scale = g_strdup_printf (_("Scale 1 : %g"), plan->scale);
  g_autofree char *cloth = describe_scrap (ticket, plan->scrap);
  double y = box.y;

  odd_pen_write (pen, odd_point (box.x, y), box.width - 20.0, bold, number);
  odd_pen_write (pen, odd_point (box.x + box.width - 20.0, y + 0.6), 20.0, right, scale);
  odd_pen_write (pen, odd_point (box.x, y + 4.6), box.width, small, cloth);
  y += HEAD_MM;
  draw_picture (ticket, pen, plan, odd_point (box.x, y));
  y += plan->picture_mm;
  y += write_uses (ticket, pen, odd_point (box.x, y), box.width, plan->scrap);
  odd_pen_line (pen, odd_point (box.x, y + 1.4), odd_point (box.x + box.width, y + 1.4), 0.1);
}

/* --- pages --- */

static OddLine *
create_line (OddTicket *ticket, OddPen *pen, OddScrap *scrap, guint size)
{
  const double width_mm = odd_ticket_column_width (ticket, sizes[size].n_columns);
  const double scale = choose_scale (ticket, scrap, width_mm, sizes[size].height_mm);
  Plan *plan;
  OddLine *line;

  if (scale > sizes[size].scale)
    return NULL;
  plan = g_new (Plan, 1);
  *plan = (Plan) { scrap, scale, get_box (ticket, scrap, scale).height / scale + 1.0 };
  line = odd_line_new (HEAD_MM + plan->picture_mm + write_uses (ticket, pen, odd_point (0.0, 0.0), width_mm, scrap) + FOOT_MM, draw_plan);
  line->data = plan;
  line->free_data = g_free;
  return line;
}

static int
compare_numbers (gconstpointer a, gconstpointer b)
{
  const OddScrap *x = *(OddScrap *const *) a, *y = *(OddScrap *const *) b;

  return (x->number > y->number) - (x->number < y->number);
}

static GPtrArray *
collect_used (OddJob *job)
{
  GPtrArray *used = g_ptr_array_new ();

  for (guint i = 0; i < job->scraps->len; i++)
    if (count_uses (job, job->scraps->pdata[i]) > 0)
      g_ptr_array_add (used, job->scraps->pdata[i]);
  g_ptr_array_sort (used, compare_numbers);
  return used;
}

static OddLine *
create_fitting_line (OddTicket *ticket, OddPen *pen, OddScrap *scrap, guint *out_size)
{
  const guint n_uses = count_uses (ticket->job, scrap);

  for (guint size = 0; size < G_N_ELEMENTS (sizes); size++)
    {
      OddLine *line = n_uses <= sizes[size].n_uses ? create_line (ticket, pen, scrap, size) : NULL;

      if (line != NULL)
        {
          *out_size = size;
          return line;
        }
    }
  g_return_val_if_reached (NULL);
}

void
odd_ticket_add_scraps (OddTicket *self)
{
  g_autoptr(GPtrArray) used = collect_used (self->job);
  GPtrArray *lines[G_N_ELEMENTS (sizes)];
  g_auto(OddPen) pen = { NULL, NULL };

  odd_pen_init (&pen, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    lines[i] = g_ptr_array_new ();
  for (guint i = 0; i < used->len; i++)
    {
      guint size = 0;
      OddLine *line = create_fitting_line (self, &pen, used->pdata[i], &size);

      g_ptr_array_add (lines[size], line);
    }
  for (guint i = G_N_ELEMENTS (sizes); i-- > 0; )
    if (lines[i]->len > 0)
      odd_ticket_flow (self, _("Cutting plans of the scraps"), lines[i], sizes[i].n_columns);
    else
      g_ptr_array_unref (lines[i]);
}
