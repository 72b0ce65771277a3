#include "config.h"

#include "ui/unfinished-layer.h"

#define LINE_PX 4.0
#define CASING_PX 8.0
#define VEIL 0.66f

static const GdkRGBA casing = { 1.0f, 0.992f, 0.973f, 0.95f };
static const GdkRGBA ink = { 0.09f, 0.09f, 0.09f, 1.0f };
static const GdkRGBA warning = { 0.64f, 0.06f, 0.13f, 1.0f };

/* What it wants is told by the line's dashes: dots for edges to be made fast, short dashes for the iron, long ones for topstitching, whole when raw inside. */
static const struct { double dash[2]; int n; } styles[ODD_N_UNFINISHED_KINDS] = {
  [ODD_UNFINISHED_FINISH] = { { 2.5, 4.0 }, 2 },
  [ODD_UNFINISHED_PRESS] = { { 7.0, 4.0 }, 2 },
  [ODD_UNFINISHED_TOPSTITCH] = { { 16.0, 4.0 }, 2 },
  [ODD_UNFINISHED_RAW_INSIDE] = { { 0.0, 0.0 }, 0 },
};

static void
dim_cloth (const OddScene *scene,
           GtkSnapshot    *snapshot)
{
  GdkRGBA veil = scene->table_colour;

  veil.alpha = VEIL;
  for (guint i = 0; i < scene->table->n_items; i++)
    {
      const OddBox box = odd_table_get_raw_px (scene->table, scene->viewport, i);

      gtk_snapshot_append_color (snapshot, &veil, &GRAPHENE_RECT_INIT ((float) box.x, (float) box.y, (float) box.width, (float) box.height));
    }
}

/* Both ends in px; NULL when not on the table. */
static GArray *
dup_line (const OddScene          *scene,
          const OddUnfinishedSeam *seam)
{
  const int item = odd_table_find_panel (scene->table, seam->panel_id);
  const OddPoint ends[2] = { seam->line.from, seam->line.to };
  GArray *line;

  if (seam->panel_id == 0)
    return odd_table_get_outline_px (scene->table, scene->viewport, ODD_SELECTED_SEAM, seam->seam_id);
  if (item < 0)
    return NULL;
  line = g_array_new (FALSE, FALSE, sizeof (OddPoint));
  for (guint i = 0; i < 2; i++)
    {
      const OddPoint px = odd_table_to_px (scene->table, scene->viewport, (guint) item, odd_point_add (ends[i], scene->table->items[item].hung_at_mm));

      g_array_append_val (line, px);
    }
  return line;
}

static void
show_seam (const OddScene          *scene,
           GtkSnapshot             *snapshot,
           const OddUnfinishedSeam *seam)
{
  g_autoptr(GArray) line = dup_line (scene, seam);

  if (line == NULL)
    return;
  odd_snapshot_path (snapshot, line, FALSE, &casing, CASING_PX * scene->text_scale, NULL, 0);
  odd_snapshot_path (snapshot, line, FALSE, seam->kind == ODD_UNFINISHED_RAW_INSIDE ? &warning : &ink, LINE_PX * scene->text_scale,
                     styles[seam->kind].dash, styles[seam->kind].n);
}

void
odd_snapshot_unfinished (const OddScene    *scene,
                         GtkSnapshot       *snapshot,
                         OddUnfinishedKind  kind)
{
  g_auto(OddUnfinished) unfinished = { 0 };

  if (kind == ODD_UNFINISHED_NOTHING)
    return;
  odd_unfinished_init (&unfinished, scene->table->job, kind);
  dim_cloth (scene, snapshot);
  for (guint i = 0; i < unfinished.seams->len; i++)
    show_seam (scene, snapshot, &g_array_index (unfinished.seams, OddUnfinishedSeam, i));
}
