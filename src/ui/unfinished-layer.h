/* Only what still wants something: the cloth dimmed, the seams in question over it. */
#pragma once

#include "sewing/unfinished.h"
#include "ui/scene.h"

G_BEGIN_DECLS

void odd_snapshot_unfinished (const OddScene *scene, GtkSnapshot *snapshot, OddUnfinishedKind kind);

G_END_DECLS
