#include "config.h"

#include "sewing/stage.h"

#include <string.h>

static OddFinish *
shipped (GPtrArray  *finishes,
         const char *key)
{
  for (guint i = 0; i < finishes->len; i++)
    if (g_str_equal (((OddFinish *) finishes->pdata[i])->key, key))
      return finishes->pdata[i];
  g_assert_not_reached ();
}

/* Takes a seam through its operations; after each the stage and what is next, as words. */
static char *
walk (const OddFinish *finish)
{
  const char *const works[] = { "sew", "finish", "press", "topstitch", "none" };
  g_autoptr(GString) text = g_string_new (NULL);
  OddSeam seam;

  odd_seam_init (&seam, 1, (OddHalfPlane) { { 0, 1 }, 0 });
  for (guint i = 0; i <= finish->n_operations; i++)
    {
      guint next = 99;
      const OddWork work = odd_seam_get_next (&seam, finish, &next);
      OddProgress *progress;

      g_assert_cmpuint (next, ==, i);
      g_string_append_printf (text, "%s%s:%s", i > 0 ? " " : "", odd_stage_get_nick (odd_seam_get_stage (&seam, finish)), works[work]);
      progress = odd_progress_with (seam.progress, i, ODD_STATE_DONE, NULL);
      odd_progress_unref (seam.progress);
      seam.progress = progress;
    }
  odd_seam_clear (&seam);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* By hand, from the operations of each finish. */
static void
test_walk (void)
{
  const struct { const char *key, *walk; } cases[] = {
    { "pressed-open", "planned:sew sewn:press done:none" },
    { "overlocked", "planned:sew sewn:finish finished:press done:none" },
    { "overlocked-topstitched", "planned:sew sewn:finish finished:press pressed:topstitch done:none" },
    { "zigzagged", "planned:sew sewn:finish sewn:finish finished:press done:none" },
    { "french", "planned:sew sewn:finish sewn:press sewn:finish finished:press done:none" },
    { "felled", "planned:sew sewn:finish sewn:finish sewn:press sewn:topstitch finished:press done:none" },
    { "bound", "planned:sew sewn:press sewn:finish finished:press done:none" },
  };
  g_autoptr(GPtrArray) finishes = odd_finish_shipped ();

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = walk (shipped (finishes, cases[i].key));

      g_test_message ("%s", cases[i].key);
      g_assert_cmpstr (text, ==, cases[i].walk);
    }
}

static void
test_neatened_before (void)
{
  OddOperation operations[] = {
    { ODD_OPERATION_NEATEN, ODD_STATION_OVERLOCKER, NULL, ODD_FACE_ONE_LAYER, TRUE, 0, (char *) "Overlock each edge" },
    { ODD_OPERATION_SEW, ODD_STATION_SEWING_MACHINE, NULL, ODD_FACE_RIGHT_SIDES, FALSE, 0, (char *) "Sew" },
    { ODD_OPERATION_PRESS, ODD_STATION_IRON, NULL, ODD_FACE_ONE_LAYER, FALSE, 0, (char *) "Press open" },
  };
  const OddFinish values = { .key = (char *) "own", .name = (char *) "Own", .allowance_mm = 10, .operations = operations, .n_operations = 3 };
  g_autoptr(OddFinish) finish = odd_finish_new (&values, NULL);
  g_autofree char *text = walk (finish);

  g_assert_cmpstr (text, ==, "planned:finish planned:sew finished:press done:none");
}

static void
test_skipped_counts_as_settled (void)
{
  const OddState states[] = { ODD_STATE_DONE, ODD_STATE_SKIPPED, ODD_STATE_DONE };
  g_autoptr(GPtrArray) finishes = odd_finish_shipped ();
  OddFinish *finish = shipped (finishes, "overlocked-topstitched");
  OddSeam seam;

  odd_seam_init (&seam, 1, (OddHalfPlane) { { 0, 1 }, 0 });
  seam.progress = odd_progress_new (states, NULL, 3);
  g_assert_true (odd_seam_is_sewn (&seam, finish));
  g_assert_true (odd_seam_is_ready_to_cross (&seam, finish));
  g_assert_cmpint (odd_seam_get_stage (&seam, finish), ==, ODD_STAGE_PRESSED);
  odd_seam_clear (&seam);
}

/* Overlocked, sewn only: the overlocker and the iron still wait; French with its trim done: iron, machine, iron. */
static void
test_count (void)
{
  const OddState sewn[] = { ODD_STATE_DONE, ODD_STATE_DONE };
  g_autoptr(GPtrArray) finishes = odd_finish_shipped ();
  OddWorkCount count = { 0 };
  OddSeam seam;

  odd_seam_init (&seam, 1, (OddHalfPlane) { { 0, 1 }, 0 });
  odd_work_count_add_seam (&count, &seam, shipped (finishes, "overlocked"), 100);
  seam.progress = odd_progress_new (sewn, NULL, 1);
  odd_work_count_add_seam (&count, &seam, shipped (finishes, "overlocked"), 200);
  odd_progress_unref (seam.progress);
  seam.progress = odd_progress_new (sewn, NULL, 2);
  odd_work_count_add_seam (&count, &seam, shipped (finishes, "french"), 400);
  odd_work_count_add_seam (&count, &seam, shipped (finishes, "pressed-open"), 800);

  g_assert_cmpuint (count.n_seams, ==, 4);
  g_assert_cmpuint (count.n_done, ==, 1);
  g_assert_cmpuint (count.n[ODD_WORK_SEW], ==, 1);
  g_assert_cmpuint (count.n[ODD_WORK_FINISH], ==, 1);
  g_assert_cmpuint (count.n[ODD_WORK_PRESS], ==, 1);
  g_assert_cmpuint (count.n[ODD_WORK_TOPSTITCH], ==, 0);
  g_assert_cmpfloat (count.run_mm[ODD_WORK_SEW], ==, 100);
  g_assert_cmpfloat (count.run_mm[ODD_WORK_FINISH], ==, 200);
  g_assert_cmpfloat (count.run_mm[ODD_WORK_PRESS], ==, 400);
  g_assert_cmpuint (count.operations_open[ODD_STATION_SEWING_MACHINE], ==, 2);
  g_assert_cmpuint (count.operations_open[ODD_STATION_OVERLOCKER], ==, 2);
  g_assert_cmpuint (count.operations_open[ODD_STATION_IRON], ==, 4);
  odd_seam_clear (&seam);
}

static void
test_words (void)
{
  g_assert_cmpstr (odd_stage_get_nick (ODD_STAGE_FINISHED), ==, "finished");
  g_assert_cmpstr (odd_stage_get_name (ODD_STAGE_DONE), ==, "every operation done");
  g_assert_cmpstr (odd_stage_get_name (ODD_STAGE_PLANNED), ==, "planned");
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/stage/walk", test_walk);
  g_test_add_func ("/stage/neatened-before", test_neatened_before);
  g_test_add_func ("/stage/skipped-counts-as-settled", test_skipped_counts_as_settled);
  g_test_add_func ("/stage/count", test_count);
  g_test_add_func ("/stage/words", test_words);
  return g_test_run ();
}
