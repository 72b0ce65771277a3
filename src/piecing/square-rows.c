#include "config.h"

#include "piecing/square-rows.h"

guint
odd_square_rows_reach (double total_mm,
                       double each_mm)
{
  return (guint) MAX (1.0, ceil ((total_mm - ODD_REACHED_MM) / each_mm));
}

static guint
choose_template (const OddSquareGrid *grid,
                 const guint         *across,
                 const guint         *supply,
                 const gint64        *left)
{
  guint best = 0;
  double most = -INFINITY;

  for (guint t = 0; t < grid->n_templates; t++)
    {
      const double worth = supply[t] == 0 ? -INFINITY : (left[t] >= across[t] ? 1.0 : 0.0) + (double) left[t] / supply[t];

      if (worth > most)
        {
          most = worth;
          best = t;
        }
    }

  return best;
}

gboolean
odd_square_rows_plan (const OddSquareGrid *grid,
                      const guint         *supply,
                      OddSquareRowFunc     func,
                      gpointer             data)
{
  g_autofree double *lengths_mm = g_new0 (double, MAX (grid->n_panels, 1));
  guint across[ODD_MAX_TEMPLATES];
  gint64 left[ODD_MAX_TEMPLATES];
  gboolean added = TRUE;

  for (guint t = 0; t < grid->n_templates; t++)
    {
      across[t] = odd_square_rows_reach (grid->width_mm, grid->finished[t].width_mm);
      left[t] = supply[t];
    }
  while (added)
    {
      added = FALSE;
      for (guint i = 0; i < grid->n_panels; i++)
        {
          OddSquareRow row = { .panel = i };

          if (lengths_mm[i] >= grid->length_mm - ODD_REACHED_MM)
            continue;
          row.template = choose_template (grid, across, supply, left);
          row.across = across[row.template];
          row.filled = left[row.template] >= row.across;
          left[row.template] -= row.across;
          lengths_mm[i] += grid->finished[row.template].length_mm;
          added = TRUE;
          if (!func (&row, data))
            return FALSE;
        }
    }

  return TRUE;
}
