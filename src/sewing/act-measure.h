/* The acts of measuring, squaring up and cutting panels level; for the table in act.c. */
#pragma once

#include "sewing/act.h"

G_BEGIN_DECLS

#define ODD_N_MEASURE_FIGURES 9

/* What a measure is as the figures of an act: lengths, widths, diagonals (0: not measured), then 1 for seam to seam. */
void odd_measure_to_figures (const OddMeasure *measure, double figures[ODD_N_MEASURE_FIGURES]);
/* A draft about a strip, panel or textile. */
OddAct odd_act_about_part (OddJob *job, OddActKind kind, OddId part_id);

OddJob *odd_act_do_measure (OddJob *job, OddAct *act, GError **error);
char *odd_act_say_measure (const OddAct *act, OddUnit unit);
OddJob *odd_act_do_square_up (OddJob *job, OddAct *act, GError **error);
char *odd_act_say_square_up (const OddAct *act, OddUnit unit);
OddJob *odd_act_do_cut_level (OddJob *job, OddAct *act, GError **error);
char *odd_act_say_cut_level (const OddAct *act, OddUnit unit);

G_END_DECLS
