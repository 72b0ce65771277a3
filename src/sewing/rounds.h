/* How many rounds a strip needs: seams of one round wait for none of one another, because no part lies in two of them. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/*
 * odd_rounds_fewest:
 * @heights: (array length=n): rounds that each part needs before it can be sewn on, 0 for a patch
 * @joined: (array) (nullable): n - 1; %TRUE where the seam after part i is sewn already; %NULL: none
 * @n: parts, at least 1
 * @out_rounds: (array) (nullable): n - 1; the round of each seam, counted from 1
 *
 * The fewest rounds over all orders in which the seams can be sewn (alphabetic minimax tree): each part takes 2^height places, begun at a
 * multiple of them; the last place used tells the rounds. Parts joined already count as one, with the rounds they take at least; so a plan
 * that is followed stays as it is.
 *
 * Returns: rounds of the whole strip, its parts' included
 */
guint odd_rounds_fewest (const guint *heights, const gboolean *joined, guint n, guint *out_rounds);

/* The same strip sewn from its first part on, one seam after the other. */
guint odd_rounds_in_turn (const guint *heights, guint n, guint *out_rounds);

G_END_DECLS
