/* The grid of boxes against a walk over all of them. */
#include "config.h"

#include "geometry/box-grid.h"

#define N_BOXES 300

/* Some lie outside of what the grid was made for, some have no width, some are as large as all of it. */
static OddBox
random_box (void)
{
  const double most = g_test_rand_double () < 0.05 ? 1500.0 : 80.0;

  return (OddBox) { g_test_rand_double_range (-150.0, 1100.0), g_test_rand_double_range (-150.0, 500.0), g_test_rand_double_range (0.0, most),
                    g_test_rand_double () < 0.1 ? 0.0 : g_test_rand_double_range (0.0, most) };
}

/* What is found and meets, in the order found. */
static void
assert_finds (OddBoxGrid     *grid,
              const OddBox   *boxes,
              const gboolean *in,
              OddBox          box)
{
  g_autoptr(GArray) found = g_array_new (FALSE, FALSE, sizeof (guint));
  guint at = 0;

  odd_box_grid_find (grid, box, found);
  for (guint i = 0; i < N_BOXES; i++)
    if (in[i] && odd_box_meets (boxes[i], box))
      {
        while (at < found->len && g_array_index (found, guint, at) < i)
          at++;
        g_assert_cmpuint (at, <, found->len);
        g_assert_cmpuint (g_array_index (found, guint, at), ==, i);
      }
  for (guint i = 0; i < found->len; i++)
    {
      g_assert_true (in[g_array_index (found, guint, i)]);
      if (i > 0)
        g_assert_cmpuint (g_array_index (found, guint, i - 1), <, g_array_index (found, guint, i));
    }
}

static void
test_walk (void)
{
  for (guint run = 0; run < 20; run++)
    {
      g_autoptr(OddBoxGrid) grid = odd_box_grid_new ((OddBox) { 0.0, 0.0, 1000.0, 400.0 }, g_test_rand_double_range (0.1, 300.0));
      OddBox boxes[N_BOXES];
      gboolean in[N_BOXES] = { FALSE };

      for (guint i = 0; i < 2000; i++)
        {
          const guint at = (guint) g_test_rand_int_range (0, N_BOXES);

          if (in[at])
            odd_box_grid_remove (grid, at, boxes[at]);
          else
            odd_box_grid_add (grid, at, boxes[at] = random_box ());
          in[at] = !in[at];
          if (i % 10 == 0)
            assert_finds (grid, boxes, in, random_box ());
        }
    }
}

/* Boxes that touch and no more, at borders of cells. */
static void
test_touching (void)
{
  g_autoptr(OddBoxGrid) grid = odd_box_grid_new ((OddBox) { 0.1, 0.1, 100.0, 100.0 }, 10.0);
  OddBox boxes[N_BOXES];
  gboolean in[N_BOXES] = { FALSE };

  for (guint i = 0; i < 100; i++)
    {
      boxes[i] = (OddBox) { 0.1 + (i % 10) * 10.0, 0.1 + (i / 10) * 10.0, 10.0, 10.0 };
      odd_box_grid_add (grid, i, boxes[i]);
      in[i] = TRUE;
    }
  for (guint i = 0; i < 100; i++)
    assert_finds (grid, boxes, in, boxes[i]);
}

/* Only a few are looked at, however many there are. */
static void
test_few (void)
{
  g_autoptr(OddBoxGrid) grid = odd_box_grid_new ((OddBox) { 0.0, 0.0, 20000.0, 300.0 }, 50.0);
  g_autoptr(GArray) found = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < 2400; i++)
    odd_box_grid_add (grid, i, (OddBox) { (i / 6) * 50.0, (i % 6) * 50.0, 50.0, 50.0 });
  odd_box_grid_find (grid, (OddBox) { 10010.0, 110.0, 30.0, 30.0 }, found);
  g_assert_cmpuint (found->len, >=, 1);
  g_assert_cmpuint (found->len, <=, 9);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/box-grid/walk", test_walk);
  g_test_add_func ("/box-grid/touching", test_touching);
  g_test_add_func ("/box-grid/few", test_few);

  return g_test_run ();
}
