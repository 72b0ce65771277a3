/* A line or two of words on the canvas, beside what is being done there. */
#pragma once

#include "ui/scene.h"

G_BEGIN_DECLS

/* On a card of its own, near @at_px but not under it, inside the canvas. @figure (nullable) is set bold before the words. */
void odd_snapshot_note (const OddScene *scene, GtkSnapshot *snapshot, OddPoint at_px, const char *figure, const char *words);
/* A padlock, its middle at @at_px. */
void odd_snapshot_padlock (const OddScene *scene, GtkSnapshot *snapshot, OddPoint at_px);
/* All that is locked: patches, the seams of locked strips, panels beside their titles. */
void odd_snapshot_locks (const OddScene *scene, GtkSnapshot *snapshot);

G_END_DECLS
