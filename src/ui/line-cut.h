/* The line along which a patch or a bare place is to be cut in two: drawn by the pointer, or proposed and moved by keys. */
#pragma once

#include "ui/scene.h"

G_BEGIN_DECLS

typedef struct _OddLineCut OddLineCut;

OddLineCut *odd_line_cut_new (OddScene *scene);
void odd_line_cut_free (OddLineCut *self);

/* Proposes a line across the middle of the patch, square to its longer side; FALSE: not on the table. */
gboolean odd_line_cut_begin (OddLineCut *self, OddId leaf_id);
OddId odd_line_cut_get_leaf (OddLineCut *self);                /* 0: none is being cut */
void odd_line_cut_end (OddLineCut *self);
/* By the pointer: from here to there; FALSE: too short for a line. */
void odd_line_cut_draw_from (OddLineCut *self, OddPoint px);
gboolean odd_line_cut_draw_to (OddLineCut *self, OddPoint px);
void odd_line_cut_nudge (OddLineCut *self, int dx, int dy, double by_mm);
void odd_line_cut_tilt (OddLineCut *self, double by_deg);      /* round its middle */
/* Cuts, and ends. FALSE: refused, and told; the line stays. */
gboolean odd_line_cut_do (OddLineCut *self);
void odd_line_cut_snapshot (OddLineCut *self, GtkSnapshot *snapshot);

G_END_DECLS
