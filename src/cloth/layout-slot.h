/* Where a panel or textile keeps the last layouts made of it: as it hangs, and apart. A layout never holds the value that holds the slot, so
 * no ring of references comes about; see layout.c. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  GMutex lock;
  gpointer layout;
  gpointer apart;              /* panels only */
  GDestroyNotify unref;
} OddLayoutSlot;

static inline OddLayoutSlot *
odd_layout_slot_new (void)
{
  OddLayoutSlot *self = g_new0 (OddLayoutSlot, 1);

  g_mutex_init (&self->lock);
  return self;
}

static inline void
odd_layout_slot_free (OddLayoutSlot *self)
{
  if (self->layout != NULL)
    self->unref (self->layout);
  if (self->apart != NULL)
    self->unref (self->apart);
  g_mutex_clear (&self->lock);
  g_free (self);
}

G_END_DECLS
