/* Law: over random edits, undo to the start and redo to the end give the same bytes on disk. */
#include "config.h"

#include "cloth/document.h"
#include "sewing/progress.h"
#include "store/job-reader.h"
#include "store/job-writer.h"
#include "../cloth/trees.h"

static GBytes *
bytes_of (OddDocument *document)
{
  g_autoptr(GError) error = NULL;
  GBytes *bytes = odd_job_write_bytes (odd_document_get_job (document), &error);

  g_assert_no_error (error);
  return bytes;
}

static OddPanel *
any_panel (OddJob *job)
{
  OddTextile *textile = first_textile (job);

  return textile->n_hung > 0 ? textile->hung[g_test_rand_int_range (0, textile->n_hung)].panel : NULL;
}

static OddJob *
add_scrap (OddJob *job)
{
  OddScrap values;
  const double w = g_test_rand_double_range (40, 300), h = g_test_rand_double_range (40, 300);
  const OddPoint corners[] = { { 0, 0 }, { w, g_test_rand_double_range (0, 20) }, { w, h }, { g_test_rand_double_range (0, 20), h } };
  g_autoptr(OddPolygon) outline = odd_polygon_new (corners, 4, NULL);

  odd_scrap_init_values (&values);
  values.outline = outline;
  return odd_job_put_scrap (job, &values, NULL, NULL);
}

static OddJob *
extend (OddJob *job, OddPanel *panel)
{
  const int edge = odd_panel_side_edge (panel, 2);
  const double tilt = g_test_rand_double_range (-0.1, 0.1);
  const OddPoint normal = { sin (tilt), cos (tilt) };
  g_autoptr(OddNode) leaf = odd_node_new_bare (job->next_id);
  OddExtension extension = { 0, { normal, odd_convex_support (panel->outline, normal) - 8.0 }, { { 0, 1 }, odd_convex_box (panel->outline).height + 70 },
                             leaf, job->next_id + 1 };

  if (edge < 0)
    return NULL;
  extension.edge = edge;
  return odd_job_extend_panel (job, panel->id, &extension, NULL);
}

/* One edit drawn by lot; NULL when the job refuses it. */
static OddJob *
random_edit (OddJob *job)
{
  OddPanel *panel = any_panel (job);
  g_autoptr(OddLayout) layout = panel != NULL ? odd_job_dup_layout (job, panel->id) : NULL;
  const int lot = g_test_rand_int_range (0, 12);
  const OddTreatment treatment = { 0, g_test_rand_double_range (4, 20) };

  if (lot == 0 || panel == NULL)
    return odd_job_add_panel (job, first_textile (job)->id, g_test_rand_int_range (0, 3), NULL, 240, 90, NULL, NULL);
  if (lot == 1)
    return add_scrap (job);
  if (lot == 2)
    return odd_job_take_off_last (job, panel->id, NULL);
  if (lot == 3)
    return odd_job_turn_panel (job, panel->id, NULL);
  if (lot == 4)
    return odd_job_move_panel (job, panel->id, first_textile (job)->id, g_test_rand_int_range (0, 4), NULL);
  if (lot == 5)
    return odd_job_set_treatment (job, ODD_LEVEL_PANEL, panel->id, 0, &treatment, g_test_rand_bit (), NULL);
  if (lot == 6 && layout->n_seams > 0)
    return odd_job_mark_next (job, layout->seams[g_test_rand_int_range (0, layout->n_seams)].seam->id, TRUE, NULL);
  if (lot == 7 && job->scraps->len > 0)
    {
      OddScrap *scrap = job->scraps->pdata[g_test_rand_int_range (0, job->scraps->len)];
      const OddPatch *patch = &layout->patches[g_test_rand_int_range (0, layout->n_patches)];
      const OddPlacement placement = { g_test_rand_double_range (0, 360), FALSE, { g_test_rand_double_range (-50, 50), 10 } };

      return odd_job_place_scrap (job, patch->leaf->id, scrap->id, &placement, NULL);
    }
  if (lot == 8)
    return odd_job_make_bare (job, layout->patches[0].leaf->id, NULL);
  return extend (job, panel);
}

static void
assert_reads_back (GBytes *bytes)
{
  g_autoptr(GError) error = NULL;
  g_autoptr(OddJob) job = odd_job_read_bytes (bytes, "law", NULL, &error);
  g_autoptr(GBytes) again = NULL;

  g_assert_no_error (error);
  again = odd_job_write_bytes (job, &error);
  g_assert_no_error (error);
  g_assert_true (g_bytes_equal (bytes, again));
}

static void
test_law (void)
{
  g_test_summary ("Random edits: undo to the start and redo to the end give the same bytes");
  for (guint round = 0; round < 12; round++)
    {
      g_autoptr(OddDocument) document = odd_document_new (NULL);
      g_autoptr(GBytes) start = bytes_of (document);
      g_autoptr(GBytes) end = NULL;
      g_autoptr(GBytes) undone = NULL;
      g_autoptr(GBytes) redone = NULL;
      guint n_done = 0;

      for (guint i = 0; i < 60; i++)
        {
          OddJob *next = random_edit (odd_document_get_job (document));

          if (next != NULL)
            {
              odd_document_apply (document, next, "Edit");
              n_done++;
            }
        }
      g_assert_cmpuint (n_done, >, 15);
      end = bytes_of (document);
      g_assert_false (g_bytes_equal (start, end));
      while (odd_document_undo (document))
        ;
      undone = bytes_of (document);
      g_assert_true (g_bytes_equal (start, undone));
      while (odd_document_redo (document))
        ;
      redone = bytes_of (document);
      g_assert_true (g_bytes_equal (end, redone));
      assert_reads_back (end);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/undo-law/random-edits", test_law);
  return g_test_run ();
}
