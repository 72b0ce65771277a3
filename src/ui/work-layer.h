/* The stop's seams on the canvas: a ring round each, with the number it has on the list, or a check where it is done. */
#pragma once

#include "ui/scene.h"

G_BEGIN_DECLS

typedef struct
{
  OddId id;                    /* seam, join or patch */
  guint number;
  gboolean done;
} OddWorkMark;

void odd_snapshot_work (const OddScene *scene, GtkSnapshot *snapshot, const OddWorkMark *marks, guint n_marks);

G_END_DECLS
