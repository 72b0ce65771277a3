/* How the four panels are divided. All lengths are finished, panel alone. */
#include "config.h"

#include "maker.h"

#define PITCH_MM 94.6            /* a 120 mm square less two allowances of 12.7 */
#define N_ROWS 12
#define BRICKS_WIDTH_MM 250.0
#define COLUMN_WIDTH_MM 236.0
#define MOST_COLUMNS 3

/* A row: columns side by side, one of them perhaps of two patches, one above the other. */
typedef struct
{
  double length_mm;
  double right_mm[MOST_COLUMNS - 1];   /* where the columns end; 0: no further column */
  double across_mm[MOST_COLUMNS];      /* below the row's top; 0: one patch */
} RowPlan;

static const RowPlan brick_rows[] = {
  { 88, { 122 }, { 0 } }, { 92, { 122 }, { 0, 0 } }, { 121, { 94 }, { 0 } }, { 138, { 106, 164 }, { 0 } },
  { 166, { 144 }, { 84, 0 } }, { 129, { 116 }, { 78, 0 } }, { 152, { 104 }, { 0, 0 } }, { 112, { 108 }, { 0 } }, { 136, { 142 }, { 0, 72 } },
};
static const RowPlan started_rows[] = {
  { 114, { 130 }, { 0 } }, { 84, { 0 }, { 0 } }, { 132, { 82 }, { 0 } }, { 71, { 0 }, { 0 } }, { 108, { 114 }, { 0 } }, { 68, { 0 }, { 0 } },
};

/* A band of crumbs, between lines that run slantwise from side to side. */
typedef struct
{
  double left_mm, right_mm;            /* where its lower line meets the panel's sides */
  struct { double top_mm, bottom_mm; } columns[3];                    /* where they end, at the band's upper and lower height; 0: none */
  struct { double left_mm, right_mm; } across[4];                     /* below the panel's top, where it meets the column's sides; 0: one patch */
} BandPlan;

static const BandPlan crumb_bands[] = {
  { 98, 112, { { 74, 88 }, { 166, 152 } }, { { 0 }, { 48, 58 } } },
  { 210, 186, { { 110, 100 } }, { { 160, 140 }, { 0 } } },
  { 318, 330, { { 64, 76 }, { 128, 118 }, { 182, 190 } }, { { 0 } } },
  { 424, 410, { { 58, 66 }, { 112, 108 } }, { { 0 }, { 0 }, { 372, 362 } } },
  { 538, 560, { { 102, 110 } }, { { 470, 482 }, { 498, 482 } } },
  { 664, 642, { { 76, 66 }, { 162, 150 } }, { { 0 }, { 608, 596 }, { 0 } } },
  { 770, 786, { { 84, 80 }, { 140, 150 } }, { { 0 } } },
  { 884, 866, { { 92, 78 }, { 158, 166 } }, { { 832, 820 }, { 0 }, { 0 } } },
  { 1006, 1022, { { 120, 108 } }, { { 0 }, { 938, 952 } } },
  { 1130, 1130, { { 70, 84 }, { 152, 146 } }, { { 0 }, { 0 }, { 1078, 1070 } } },
};

/* --- building --- */

typedef struct { OddId next_id; } Ids;

static OddNode *
new_bare (Ids *ids)
{
  return odd_node_new_bare (ids->next_id++);
}

/* Takes the parts. The lines keep the part before them. */
static OddNode *
new_strip (Ids *ids, OddNode **parts, const OddHalfPlane *lines, guint n_parts)
{
  OddSeam seams[N_ROWS];
  OddNode *strip;

  if (n_parts == 1)
    return parts[0];
  for (guint i = 0; i + 1 < n_parts; i++)
    odd_seam_init (&seams[i], ids->next_id++, lines[i]);
  strip = odd_node_new_strip (ids->next_id++, parts, seams, n_parts);
  for (guint i = 0; i < n_parts; i++)
    odd_node_unref (parts[i]);
  for (guint i = 0; i + 1 < n_parts; i++)
    odd_seam_clear (&seams[i]);
  return strip;
}

/* Keeps what lies above it. */
static OddHalfPlane
across (OddPoint left, OddPoint right)
{
  return odd_half_plane_from_edge (right, left);
}

/* Keeps what lies to its left. */
static OddHalfPlane
upright (OddPoint top, OddPoint bottom)
{
  return odd_half_plane_from_edge (top, bottom);
}

static OddNode *
new_row (Ids *ids, const RowPlan *plan, double top_mm)
{
  OddNode *parts[MOST_COLUMNS];
  OddHalfPlane lines[MOST_COLUMNS];
  guint n = 0;

  do
    {
      const double cut_mm = top_mm + plan->across_mm[n];
      const OddHalfPlane cut = across (odd_point (0, cut_mm), odd_point (1, cut_mm));
      OddNode *halves[2] = { new_bare (ids), NULL };

      if (plan->across_mm[n] > 0.0)
        halves[1] = new_bare (ids);
      parts[n] = new_strip (ids, halves, &cut, halves[1] != NULL ? 2 : 1);
      if (n < MOST_COLUMNS - 1)
        lines[n] = upright (odd_point (plan->right_mm[n], 0), odd_point (plan->right_mm[n], 1));
      n++;
    }
  while (n < MOST_COLUMNS && plan->right_mm[n - 1] > 0.0);
  return new_strip (ids, parts, lines, n);
}

static OddNode *
new_column (Ids *ids, const RowPlan *plans, guint n_rows)
{
  OddNode *parts[N_ROWS];
  OddHalfPlane lines[N_ROWS];
  double top_mm = 0.0;

  for (guint i = 0; i < n_rows; i++)
    {
      parts[i] = new_row (ids, &plans[i], top_mm);
      top_mm += plans[i].length_mm;
      lines[i] = across (odd_point (0, top_mm), odd_point (1, top_mm));
    }
  return new_strip (ids, parts, lines, n_rows);
}

static OddNode *
new_band (Ids *ids, const BandPlan *plan, double top_mm, double bottom_mm)
{
  OddNode *parts[4];
  OddHalfPlane lines[4];
  guint n = 0;

  do
    {
      const double left_mm = n > 0 ? plan->columns[n - 1].top_mm : 0.0;
      const double right_mm = n < 3 && plan->columns[n].top_mm > 0.0 ? plan->columns[n].top_mm : COLUMN_WIDTH_MM;
      const OddHalfPlane cut = across (odd_point (left_mm, plan->across[n].left_mm), odd_point (right_mm, plan->across[n].right_mm));
      OddNode *halves[2] = { new_bare (ids), NULL };

      if (plan->across[n].left_mm > 0.0)
        halves[1] = new_bare (ids);
      parts[n] = new_strip (ids, halves, &cut, halves[1] != NULL ? 2 : 1);
      if (n < 3)
        lines[n] = upright (odd_point (plan->columns[n].top_mm, top_mm), odd_point (plan->columns[n].bottom_mm, bottom_mm));
      n++;
    }
  while (n < 4 && plan->columns[n - 1].top_mm > 0.0);
  return new_strip (ids, parts, lines, n);
}

static OddNode *
new_crumbs (Ids *ids)
{
  OddNode *parts[G_N_ELEMENTS (crumb_bands)];
  OddHalfPlane lines[G_N_ELEMENTS (crumb_bands)];
  double top_mm = 0.0;

  for (guint i = 0; i < G_N_ELEMENTS (crumb_bands); i++)
    {
      const BandPlan *plan = &crumb_bands[i];
      const double bottom_mm = (plan->left_mm + plan->right_mm) / 2;

      parts[i] = new_band (ids, plan, top_mm, bottom_mm);
      lines[i] = across (odd_point (0, plan->left_mm), odd_point (COLUMN_WIDTH_MM, plan->right_mm));
      top_mm = bottom_mm;
    }
  return new_strip (ids, parts, lines, G_N_ELEMENTS (crumb_bands));
}

static OddId
add_panel (Maker *maker, const char *name, const char *finish, double width_mm, double length_mm, OddNode *(*new_root) (Ids *ids))
{
  const OddTreatment treatment = { odd_job_get_finish_by_key (maker->job, finish)->id, 12.7 };
  g_autoptr(OddNode) root = NULL;
  OddId panel_id = 0;
  Ids ids;

  sample_step (maker, odd_job_add_panel (maker->job, 0, G_MAXUINT, name, width_mm, length_mm, &panel_id, &maker->error));
  sample_step (maker, odd_job_set_treatment (maker->job, ODD_LEVEL_PANEL, panel_id, 0, &treatment, FALSE, &maker->error));
  ids.next_id = maker->job->next_id;
  root = new_root (&ids);
  sample_step (maker, odd_job_replace_leaf (maker->job, odd_job_get_panel (maker->job, panel_id, NULL, NULL)->root->id, root, ids.next_id,
                                            &maker->error));
  return panel_id;
}

static OddNode *
new_squares (Ids *ids)
{
  RowPlan rows[N_ROWS];

  for (guint i = 0; i < N_ROWS; i++)
    rows[i] = (RowPlan) { PITCH_MM, { PITCH_MM, 2 * PITCH_MM }, { 0 } };
  return new_column (ids, rows, N_ROWS);
}

static OddNode *
new_bricks (Ids *ids)
{
  return new_column (ids, brick_rows, G_N_ELEMENTS (brick_rows));
}

static OddNode *
new_started (Ids *ids)
{
  return new_column (ids, started_rows, G_N_ELEMENTS (started_rows));
}

static double
total_length (const RowPlan *plans, guint n)
{
  double length_mm = 0.0;

  for (guint i = 0; i < n; i++)
    length_mm += plans[i].length_mm;
  return length_mm;
}

OddId
sample_add_squares (Maker *maker)
{
  return add_panel (maker, "Squares", "overlocked-topstitched", 3 * PITCH_MM, N_ROWS * PITCH_MM, new_squares);
}

OddId
sample_add_bricks (Maker *maker)
{
  return add_panel (maker, "Bricks", "overlocked", BRICKS_WIDTH_MM, total_length (brick_rows, G_N_ELEMENTS (brick_rows)), new_bricks);
}

OddId
sample_add_crumbs (Maker *maker)
{
  return add_panel (maker, "Crumbs", "pressed-open", COLUMN_WIDTH_MM, crumb_bands[G_N_ELEMENTS (crumb_bands) - 1].left_mm, new_crumbs);
}

OddId
sample_add_started (Maker *maker)
{
  return add_panel (maker, "On the table", "zigzagged", COLUMN_WIDTH_MM, total_length (started_rows, G_N_ELEMENTS (started_rows)), new_started);
}
