/* How long an arrangement goes on: so many moves, or so many seconds. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

#define ODD_SCHEDULE_EVERY 1024    /* moves between two looks at the clock and the cancellable */

typedef struct
{
  guint64 moves;
  gint64 start_us, end_us;         /* end 0: counted in moves */
} OddSchedule;

/* @seconds 0: counted in moves, so that the same seed gives the same cloth on every computer. */
static inline OddSchedule
odd_schedule (guint64 moves,
              double  seconds)
{
  const gint64 now = g_get_monotonic_time ();

  return (OddSchedule) { moves, now, seconds > 0.0 ? now + (gint64) (seconds * 1e6) : 0 };
}

/* 0 .. 1; 1: over. */
static inline double
odd_schedule_done (const OddSchedule *self,
                   guint64            move)
{
  const double done = self->end_us == 0 ? (double) move / MAX (self->moves, 1)
                                        : (double) (g_get_monotonic_time () - self->start_us) / (self->end_us - self->start_us);

  return MIN (done, 1.0);
}

G_END_DECLS
