#include "config.h"

#include "geometry/inscribed.h"
#include "piecing/cut-plan.h"

#include <stdlib.h>

#define GRID_MM 4.0
#define MANY_PIECES 40             /* beyond, what they could give together is not worth counting out */
#define MAX_INTERVALS 16           /* of one strip; scraps are not combs */

typedef struct
{
  double y;
  double best_mm2;                 /* of all strips from here down */
  guint next;                      /* position to go on with */
  int template;                    /* of the strip that stands here; -1: none */
} Position;

typedef struct
{
  const OddTemplate *templates;
  guint n_templates;
  double finished_mm2[ODD_MAX_TEMPLATES];
  GArray *heights;                 /* double; room to work in */
  GArray *positions;               /* Position; the same */
} Planner;

static int
compare_heights (const void *a,
                 const void *b)
{
  const double x = *(const double *) a;
  const double y = *(const double *) b;

  return (x > y) - (x < y);
}

static double
least_length (const Planner *self)
{
  double least = self->templates[0].length_mm;

  for (guint i = 1; i < self->n_templates; i++)
    least = MIN (least, self->templates[i].length_mm);

  return least;
}

static void
add_height (Planner *self,
            OddBox   box,
            double   least,
            double   y)
{
  if (y >= box.y - ODD_TOLERANCE_MM && y + least <= box.y + box.height + ODD_TOLERANCE_MM)
    g_array_append_val (self->heights, y);
}

/* The grid divides the strip, so that a strip ends where another may start. */
static void
find_positions (Planner         *self,
                const OddStrips *strips)
{
  const OddBox box = odd_strips_get_box (strips);
  const double least = least_length (self);
  const double step = least / ceil (least / GRID_MM);
  guint n_levels;
  const double *levels = odd_strips_get_levels (strips, &n_levels);

  g_array_set_size (self->heights, 0);
  for (guint i = 0; box.y + i * step + least <= box.y + box.height + ODD_TOLERANCE_MM; i++)
    add_height (self, box, least, box.y + i * step);
  for (guint i = 0; i < n_levels; i++)
    for (guint t = 0; t < self->n_templates; t++)
      {
        const double length = self->templates[t].length_mm;

        for (double y = levels[i] + (t > 0 ? length : 0.0); y <= box.y + box.height; y += length)
          add_height (self, box, least, y);
        for (double y = levels[i] - length; y >= box.y - ODD_TOLERANCE_MM; y -= length)
          add_height (self, box, least, y);
      }
  if (self->heights->len > 0)
    qsort (self->heights->data, self->heights->len, sizeof (double), compare_heights);

  g_array_set_size (self->positions, 0);
  for (guint i = 0; i < self->heights->len; i++)
    {
      const Position position = { g_array_index (self->heights, double, i), 0.0, 0, -1 };
      const guint n = self->positions->len;

      if (n == 0 || position.y - g_array_index (self->positions, Position, n - 1).y > ODD_TOLERANCE_MM)
        g_array_append_val (self->positions, position);
    }
}

/* Cuts an interval of a strip as high as template @first: as many of it as go, the rest into those that still fit. @out: (nullable) */
static double
fill_interval (const Planner *self,
               guint          first,
               OddInterval    x,
               double         y,
               GArray        *out)
{
  double mm2 = 0.0;
  double from = x.from;

  for (guint step = 0; step < self->n_templates; step++)
    {
      const guint t = (first + step) % self->n_templates;
      const OddTemplate *template = &self->templates[t];
      const double room_mm = x.to - from + ODD_TOLERANCE_MM;
      const guint n = template->length_mm > self->templates[first].length_mm + ODD_TOLERANCE_MM || room_mm < template->width_mm
                          ? 0
                          : (guint) (room_mm / template->width_mm);

      if (n == 0)
        continue;
      for (guint i = 0; out != NULL && i < n; i++)
        {
          const OddPlanned planned = { t, { from + i * template->width_mm, y } };

          g_array_append_val (out, planned);
        }
      mm2 += n * self->finished_mm2[t];
      from += n * template->width_mm;
    }

  return mm2;
}

static double
fill_strip (const Planner   *self,
            const OddStrips *strips,
            guint            template,
            double           y,
            GArray          *out)
{
  OddInterval intervals[MAX_INTERVALS];
  const guint n = odd_strips_query (strips, y, y + self->templates[template].length_mm, intervals, MAX_INTERVALS);
  double mm2 = 0.0;

  for (guint i = 0; i < MIN (n, MAX_INTERVALS); i++)
    mm2 += fill_interval (self, template, intervals[i], y, out);

  return mm2;
}

/* From the last position back; returns the best from the first. */
static double
find_strips (Planner         *self,
             const OddStrips *strips)
{
  Position *positions = (Position *) self->positions->data;
  const guint n = self->positions->len;
  guint after[ODD_MAX_TEMPLATES] = { n, n, n };

  for (guint i = n; i-- > 0;)
    {
      positions[i].next = i + 1;
      positions[i].best_mm2 = i + 1 < n ? positions[i + 1].best_mm2 : 0.0;
      for (guint t = 0; t < self->n_templates; t++)
        {
          const double end = positions[i].y + self->templates[t].length_mm;
          double mm2;

          while (after[t] > i + 1 && positions[after[t] - 1].y >= end - ODD_TOLERANCE_MM)
            after[t]--;
          mm2 = fill_strip (self, strips, t, positions[i].y, NULL) + (after[t] < n ? positions[after[t]].best_mm2 : 0.0);
          if (mm2 > positions[i].best_mm2 + ODD_TOLERANCE_MM)
            {
              positions[i].best_mm2 = mm2;
              positions[i].template = (int) t;
              positions[i].next = after[t];
            }
        }
    }

  return n > 0 ? positions[0].best_mm2 : 0.0;
}

static void
take_strips (const Planner   *self,
             const OddStrips *strips,
             GArray          *out)
{
  g_array_set_size (out, 0);
  for (guint i = 0; i < self->positions->len;)
    {
      const Position *position = &g_array_index (self->positions, Position, i);

      if (position->template >= 0)
        fill_strip (self, strips, (guint) position->template, position->y, out);
      i = position->next;
    }
}

/* No plan is better: whole pieces of the templates from the given one on, by area alone. */
static double
bound (const Planner *self,
       guint          template,
       double         area_mm2)
{
  const double cut_mm2 = self->templates[template].width_mm * self->templates[template].length_mm;
  const double most = floor (area_mm2 / cut_mm2 + ODD_TOLERANCE_MM);
  double best_mm2 = 0.0;

  if (template + 1 == self->n_templates)
    return self->finished_mm2[template] * most;
  if (most > MANY_PIECES)
    return area_mm2;
  for (double n = 0.0; n <= most; n++)
    best_mm2 = MAX (best_mm2, n * self->finished_mm2[template] + bound (self, template + 1, MAX (area_mm2 - n * cut_mm2, 0.0)));

  return best_mm2;
}

OddCutPlan *
odd_cut_plan_new (OddPolygon        *cloth,
                  const double      *turns,
                  guint              n_turns,
                  const OddTemplate *templates,
                  guint              n_templates,
                  double             allowance_mm)
{
  Planner planner = { .templates = templates, .n_templates = n_templates };
  OddCutPlan *plan = g_new0 (OddCutPlan, 1);
  double most;

  g_return_val_if_fail (n_templates >= 1 && n_templates <= ODD_MAX_TEMPLATES, plan);

  plan->pieces = g_array_new (FALSE, FALSE, sizeof (OddPlanned));
  for (guint t = 0; t < n_templates; t++)
    planner.finished_mm2[t] = (templates[t].width_mm - 2.0 * allowance_mm) * (templates[t].length_mm - 2.0 * allowance_mm);
  most = bound (&planner, 0, odd_polygon_get_area (cloth));
  if (most <= 0.0)
    return plan;

  planner.heights = g_array_new (FALSE, FALSE, sizeof (double));
  planner.positions = g_array_new (FALSE, FALSE, sizeof (Position));
  for (guint i = 0; i < n_turns && plan->finished_mm2 < most - ODD_TOLERANCE_MM; i++)
    {
      const OddPlacement placement = { turns[i], FALSE, { 0.0, 0.0 } };
      g_autoptr(OddStrips) strips = odd_strips_new (cloth, &placement, 0.0);
      double mm2;

      find_positions (&planner, strips);
      mm2 = find_strips (&planner, strips);
      if (mm2 <= plan->finished_mm2 + ODD_TOLERANCE_MM)
        continue;
      plan->turn_deg = turns[i];
      plan->finished_mm2 = mm2;
      take_strips (&planner, strips, plan->pieces);
    }
  g_array_unref (planner.heights);
  g_array_unref (planner.positions);

  return plan;
}

void
odd_cut_plan_free (OddCutPlan *self)
{
  g_clear_pointer (&self->pieces, g_array_unref);
  g_free (self);
}
