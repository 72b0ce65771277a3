/* Levels that set their own finish or allowance, and how they are brought back to what lies around them. */
#include "trees.h"

static double
allowance_of (OddJob *job,
              OddId   panel_id,
              OddId   seam_id)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel_id);

  return odd_layout_find_seam (layout, seam_id)->allowance_mm;
}

typedef struct
{
  OddJob *job;
  OddId panel_id, other_id;
  OddId row, seam;         /* of the first panel: its first row, and a seam of that */
} Fixture;

/* Two panels of 3 x 2 squares in one textile: panel at 10 mm, its first row at 9, one seam of that row at 8, the other panel at 11. */
static void
set_up (Fixture       *self,
        gconstpointer  data)
{
  OddId textile_id;
  OddPanel *panel;

  self->job = odd_job_new ();
  textile_id = first_textile (self->job)->id;
  take (&self->job, add_squares (self->job, textile_id, 3, 2, 100.0, &self->panel_id));
  take (&self->job, add_squares (self->job, textile_id, 3, 2, 100.0, &self->other_id));
  panel = odd_job_get_panel (self->job, self->panel_id, NULL, NULL);
  self->row = panel->root->parts[0]->id;
  self->seam = panel->root->parts[0]->seams[0].id;
  set_allowance (&self->job, ODD_LEVEL_PANEL, self->panel_id, 10.0, TRUE);
  set_allowance (&self->job, ODD_LEVEL_PANEL, self->other_id, 11.0, TRUE);
  set_allowance (&self->job, ODD_LEVEL_STRIP, self->row, 9.0, TRUE);
  set_allowance (&self->job, ODD_LEVEL_SEAM, self->seam, 8.0, TRUE);
}

static void
tear_down (Fixture       *self,
           gconstpointer  data)
{
  odd_job_unref (self->job);
}

static void
test_count (Fixture       *self,
            gconstpointer  data)
{
  const OddId textile_id = first_textile (self->job)->id;

  g_assert_cmpuint (odd_job_count_own_treatments (self->job, ODD_LEVEL_SEAM, self->seam), ==, 0);
  g_assert_cmpuint (odd_job_count_own_treatments (self->job, ODD_LEVEL_STRIP, self->row), ==, 1);
  g_assert_cmpuint (odd_job_count_own_treatments (self->job, ODD_LEVEL_PANEL, self->panel_id), ==, 2);
  g_assert_cmpuint (odd_job_count_own_treatments (self->job, ODD_LEVEL_PANEL, self->other_id), ==, 0);
  g_assert_cmpuint (odd_job_count_own_treatments (self->job, ODD_LEVEL_TEXTILE, textile_id), ==, 4);
  g_assert_cmpuint (odd_job_count_own_treatments (self->job, ODD_LEVEL_JOB, 0), ==, 4);
}

static void
test_inherit (Fixture       *self,
              gconstpointer  data)
{
  g_autoptr(OddLayout) before = NULL;
  g_autoptr(OddLayout) after = NULL;

  take (&self->job, odd_job_inherit_below (self->job, ODD_LEVEL_STRIP, self->row, TRUE, NULL));
  g_assert_cmpfloat (allowance_of (self->job, self->panel_id, self->seam), ==, 9.0);
  before = odd_job_dup_layout (self->job, self->panel_id);
  take (&self->job, odd_job_inherit_below (self->job, ODD_LEVEL_PANEL, self->panel_id, TRUE, NULL));
  after = odd_job_dup_layout (self->job, self->panel_id);
  g_assert_cmpfloat (allowance_of (self->job, self->panel_id, self->seam), ==, 10.0);
  g_test_message ("the cut is kept while the two seams of the row take 1 mm more on both sides");
  g_assert_cmpfloat_with_epsilon (odd_convex_area (after->patches[1].cut), odd_convex_area (before->patches[1].cut), 1e-6);
  g_assert_cmpuint (odd_job_count_own_treatments (self->job, ODD_LEVEL_PANEL, self->panel_id), ==, 0);
  take (&self->job, odd_job_inherit_below (self->job, ODD_LEVEL_JOB, 0, TRUE, NULL));
  g_assert_cmpfloat (allowance_of (self->job, self->panel_id, self->seam), ==, self->job->treatment.allowance_mm);
  g_assert_cmpuint (odd_job_count_own_treatments (self->job, ODD_LEVEL_JOB, 0), ==, 0);
}

static void
test_none (Fixture       *self,
           gconstpointer  data)
{
  g_autoptr(OddJob) same = odd_job_inherit_below (self->job, ODD_LEVEL_PANEL, self->other_id, TRUE, NULL);
  g_autoptr(GError) error = NULL;

  g_assert_true (same == self->job);
  g_assert_null (odd_job_inherit_below (self->job, ODD_LEVEL_PANEL, 99999, TRUE, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND);
}

/* A seam that is sewn keeps what it was sewn with. */
static void
test_sewn (Fixture       *self,
           gconstpointer  data)
{
  const OddState done = ODD_STATE_DONE;
  g_autoptr(OddProgress) progress = odd_progress_new (&done, NULL, 1);

  take (&self->job, odd_job_set_progress (self->job, self->seam, progress, NULL));
  g_assert_cmpuint (odd_job_count_own_treatments (self->job, ODD_LEVEL_PANEL, self->panel_id), ==, 1);
  take (&self->job, odd_job_inherit_below (self->job, ODD_LEVEL_JOB, 0, TRUE, NULL));
  g_assert_cmpfloat (allowance_of (self->job, self->panel_id, self->seam), ==, 8.0);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/levels/count", Fixture, NULL, set_up, test_count, tear_down);
  g_test_add ("/levels/inherit", Fixture, NULL, set_up, test_inherit, tear_down);
  g_test_add ("/levels/none", Fixture, NULL, set_up, test_none, tear_down);
  g_test_add ("/levels/sewn", Fixture, NULL, set_up, test_sewn, tear_down);
  return g_test_run ();
}
