/* Time on the clock, processor time of all threads, and the most memory ever held. */
#pragma once

#include <glib.h>
#include <sys/resource.h>

typedef struct { double wall_s, cpu_s; } Spent;

static inline Spent
spent_now (void)
{
  struct rusage usage;

  getrusage (RUSAGE_SELF, &usage);

  return (Spent) { g_get_monotonic_time () * 1e-6,
                   usage.ru_utime.tv_sec + usage.ru_stime.tv_sec + 1e-6 * (usage.ru_utime.tv_usec + usage.ru_stime.tv_usec) };
}

static inline Spent
spent_begin (void)
{
  return spent_now ();
}

/* From the beginning to now. */
static inline void
spent_end (Spent *self)
{
  const Spent now = spent_now ();

  *self = (Spent) { now.wall_s - self->wall_s, now.cpu_s - self->cpu_s };
}

/* Linux counts it in kB. */
static inline double
spent_peak_mb (void)
{
  struct rusage usage;

  getrusage (RUSAGE_SELF, &usage);

  return usage.ru_maxrss / 1024.0;
}
