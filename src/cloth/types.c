#include "config.h"

#include "cloth/types.h"

#include <glib/gi18n.h>

static const char *const station_nicks[] = { "sewing-machine", "overlocker", "iron", "table" };
static const char *const station_names[] = { N_("sewing machine"), N_("overlocker"), N_("iron"), N_("table") };
static const char *const kind_nicks[] = { "sew", "neaten", "trim", "fold", "press", "topstitch" };
static const char *const kind_names[] = { N_("Sew"), N_("Neaten"), N_("Trim"), N_("Fold"), N_("Press"), N_("Topstitch") };
static const char *const state_nicks[] = { "open", "done", "skipped" };
static const char *const face_nicks[] = { "right-sides", "wrong-sides", "one-layer" };
static const char *const pressed_nicks[] = { "by-rule", "to-first", "to-second", "open" };

G_STATIC_ASSERT (G_N_ELEMENTS (station_nicks) == ODD_N_STATIONS);
G_STATIC_ASSERT (G_N_ELEMENTS (station_names) == ODD_N_STATIONS);
G_STATIC_ASSERT (G_N_ELEMENTS (kind_nicks) == ODD_N_OPERATION_KINDS);
G_STATIC_ASSERT (G_N_ELEMENTS (kind_names) == ODD_N_OPERATION_KINDS);

/* Index of @nick among @nicks, -1 when it is not there. */
static int
find_nick (const char        *nick,
           const char *const *nicks,
           guint              n)
{
  for (guint i = 0; nick != NULL && i < n; i++)
    if (g_str_equal (nick, nicks[i]))
      return (int) i;
  return -1;
}

/* One pair of functions an enum: a word for a value, and the way back. */
#define DEFINE_NICKS(Type, name, nicks)                                       \
  const char *                                                                \
  odd_##name##_get_nick (Type value)                                          \
  {                                                                           \
    g_return_val_if_fail ((guint) value < G_N_ELEMENTS (nicks), nicks[0]);    \
    return nicks[value];                                                      \
  }                                                                           \
                                                                              \
  gboolean                                                                    \
  odd_##name##_from_nick (const char *nick,                                   \
                          Type       *out)                                    \
  {                                                                           \
    const int found = find_nick (nick, nicks, G_N_ELEMENTS (nicks));          \
                                                                              \
    g_return_val_if_fail (out != NULL, FALSE);                                \
    if (found < 0)                                                            \
      return FALSE;                                                           \
    *out = (Type) found;                                                      \
    return TRUE;                                                              \
  }

DEFINE_NICKS (OddStation, station, station_nicks)
DEFINE_NICKS (OddOperationKind, operation_kind, kind_nicks)
DEFINE_NICKS (OddState, state, state_nicks)
DEFINE_NICKS (OddFace, face, face_nicks)
DEFINE_NICKS (OddPressed, pressed, pressed_nicks)

const char *
odd_station_get_name (OddStation station)
{
  g_return_val_if_fail ((guint) station < ODD_N_STATIONS, "");

  return _(station_names[station]);
}

const char *
odd_operation_kind_get_name (OddOperationKind kind)
{
  g_return_val_if_fail ((guint) kind < ODD_N_OPERATION_KINDS, "");

  return _(kind_names[kind]);
}

gboolean
odd_treatment_equal (const OddTreatment *a,
                     const OddTreatment *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, FALSE);

  return a->finish_id == b->finish_id &&
         (a->allowance_mm == b->allowance_mm || (isnan (a->allowance_mm) && isnan (b->allowance_mm)));
}
