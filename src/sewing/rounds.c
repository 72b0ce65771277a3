/* The rule of places: pos = 0; for each part pos = roundup (pos, 2^h) + 2^h. Two neighbours are sewn in the round L of the smallest block of 2^L places, begun at
 * a multiple of it, that holds both their beginnings; L is one more than the highest binary digit in which these differ. Positions are kept as
 * binary digits, as a tall tower of crumbs needs more of them than a word has.
 */
#include "config.h"

#include "sewing/rounds.h"

typedef struct
{
  guint8 *digits;
  guint n;
} Position;

/* Adds 2^@h; the highest digit that changes. */
static guint
add (Position *self,
     guint     h)
{
  while (self->digits[h] != 0)
    self->digits[h++] = 0;
  self->digits[h] = 1;
  return h;
}

/* On to a multiple of 2^@h; the highest digit that changes, 0 when none does. */
static guint
round_up (Position *self,
          guint     h)
{
  gboolean any = FALSE;

  for (guint i = 0; i < h; i++)
    {
      any = any || self->digits[i] != 0;
      self->digits[i] = 0;
    }
  return any ? add (self, h) : 0;
}

static guint
highest (const guint *heights,
         guint        n)
{
  guint most = 0;

  for (guint i = 0; i < n; i++)
    most = MAX (most, heights[i]);
  return most;
}

/* @rounds: n - 1 */
static guint
align (const guint *heights,
       guint        n,
       guint       *rounds)
{
  const guint n_digits = highest (heights, n) + g_bit_storage (n) + 2;
  g_autofree guint8 *digits = g_new0 (guint8, n_digits);
  Position position = { digits, n_digits };
  guint changed = add (&position, heights[0]);

  for (guint i = 1; i < n; i++)
    {
      const guint rounded = round_up (&position, heights[i]);

      rounds[i - 1] = MAX (changed, rounded) + 1;
      changed = add (&position, heights[i]);
    }
  return n == 1 ? heights[0] : highest (rounds, n - 1);
}

guint
odd_rounds_fewest (const guint    *heights,
                   const gboolean *joined,
                   guint           n,
                   guint          *out_rounds)
{
  g_autofree guint *own = NULL;
  g_autofree guint *blocks = NULL;
  g_autofree guint *between = NULL;
  guint n_blocks = 0, block = 0, height;

  g_return_val_if_fail (heights != NULL && n > 0, 0);

  if (out_rounds == NULL)
    out_rounds = own = g_new (guint, n);
  if (joined == NULL)
    return align (heights, n, out_rounds);

  blocks = g_new (guint, n);
  between = g_new (guint, n);
  for (guint first = 0; first < n; n_blocks++)
    {
      guint last = first;

      while (last + 1 < n && joined[last])
        last++;
      blocks[n_blocks] = align (heights + first, last - first + 1, out_rounds + first);
      first = last + 1;
    }
  height = align (blocks, n_blocks, between);
  for (guint i = 0; i + 1 < n; i++)
    if (!joined[i])
      out_rounds[i] = between[block++];
  return height;
}

guint
odd_rounds_in_turn (const guint *heights,
                    guint        n,
                    guint       *out_rounds)
{
  guint height;

  g_return_val_if_fail (heights != NULL && n > 0, 0);

  height = heights[0];
  for (guint i = 1; i < n; i++)
    {
      height = MAX (height, heights[i]) + 1;
      if (out_rounds != NULL)
        out_rounds[i - 1] = height;
    }
  return height;
}
