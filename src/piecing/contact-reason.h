/* Why neighbours are of one fabric: what can be proven of a layout, whatever cloth is put where. */
#pragma once

#include "piecing/neighbours.h"

G_BEGIN_DECLS

typedef struct
{
  guint n;                    /* places that are filled anew */
  const guint *fabrics;       /* (array length=n): what came to lie there */
  const OddPair *pairs;       /* (array length=n_pairs): places that touch */
  guint n_pairs;
  guint n_fabrics;
  const guint8 *beside;       /* n x n_fabrics: a patch of it that stays touches the place */
  const guint8 *could;        /* n x n_fabrics: FALSE only where none of that cloth can fill the place */
  const guint *most;          /* (array length=n_fabrics): more places than so many it can never fill */
} OddContacts;

typedef enum
{
  ODD_CONTACT_NOT_PROVEN,     /* nothing says that it cannot be had */
  ODD_CONTACT_PLACE,          /* all that could fill @places[0] lies beside it in patches that stay */
  ODD_CONTACT_PAIR,           /* @places touch, and nothing but @fabric could fill either */
  ODD_CONTACT_SUPPLY,         /* the other cloth fills so few places that @fabric has to fill @n_must, and no more than @n_apart lie apart */
  ODD_CONTACT_COUNT           /* with @n_of patches of @fabric, and no more than @n_apart apart, some touch; less of it might part them */
} OddContactKind;

typedef struct
{
  OddContactKind kind;
  guint fabric;               /* not proven: the one that touches itself most often */
  guint places[2];
  guint n_of, n_must, n_apart;
} OddContactReason;

/*
 * odd_contact_reason_find:
 *
 * No more places lie apart than there are sets in a cover by places that touch each other, all of a set (cliques): of each set at most one can
 * be taken. The cover is found greedily, so the bound may be too high, never too low, and what is said here is certain.
 */
OddContactReason odd_contact_reason_find (const OddContacts *self);

G_END_DECLS
