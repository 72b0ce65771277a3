/* Pieced scraps in the job file: there and back, and each thing that may be wrong with one. */
#include "config.h"

#include <string.h>
#include "../cloth/pieces.h"
#include "sample.h"
#include "store/job-reader.h"
#include "store/job-writer.h"
#include "store/store-error.h"

static char *
text_of (OddJob *job)
{
  g_autoptr(GError) error = NULL;
  g_autoptr(GBytes) bytes = odd_job_write_json (job, &error);

  g_assert_no_error (error);
  return g_strndup (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
}

static OddJob *
read_text (const char *text)
{
  g_autoptr(GError) error = NULL;
  OddJob *job = odd_job_read_json (text, strlen (text), "tub.oddment", NULL, NULL, &error);

  g_assert_no_error (error);
  return job;
}

static void
test_round (void)
{
  OddId scrap_id = 0, ids[2];
  g_autoptr(OddJob) job = piece_scrap_job (2, 2, &scrap_id);
  g_autoptr(OddJob) read = NULL;
  g_autofree char *text = NULL, *again = NULL;
  OddScrap *was, *is;

  take (&job, odd_job_cut_piece (job, scrap_id, (OddHalfPlane) { { 0.6, 0.8 }, 150 }, ids, NULL));
  text = text_of (job);
  read = read_text (text);
  again = text_of (read);
  g_assert_cmpstr (text, ==, again);
  was = odd_job_get_scrap (job, ids[1]);
  is = odd_job_get_scrap (read, ids[1]);
  g_assert_cmpuint (is->piece->root->n_leaves, ==, was->piece->root->n_leaves);
  g_assert_cmpfloat (is->piece_at.shift.x, ==, was->piece_at.shift.x);
  g_assert_cmpfloat (is->piece->edges[0].treatment.allowance_mm, ==, was->piece->edges[0].treatment.allowance_mm);
  g_assert_cmpint (odd_job_get_scrap_state (read, scrap_id), ==, ODD_SCRAP_GONE);
}

static void
test_plain_says_nothing (void)
{
  g_autoptr(OddJob) job = sample_job ();
  g_autofree char *text = text_of (job);

  g_assert_null (strstr (text, "piece"));
}

/* In a list the piece may come before what it is sewn from. */
static void
test_any_order (void)
{
  OddId scrap_id = 0;
  g_autoptr(OddJob) job = piece_scrap_job (2, 2, &scrap_id);
  g_autoptr(OddJob) turned = NULL, read = NULL;
  g_autofree char *text = NULL;
  OddJob values = *job;

  values.scraps = g_ptr_array_new ();
  for (guint i = job->scraps->len; i-- > 0;)
    g_ptr_array_add (values.scraps, job->scraps->pdata[i]);
  turned = odd_job_new_take (&values, NULL);
  g_assert_nonnull (turned);
  text = text_of (turned);
  read = read_text (text);
  g_assert_nonnull (odd_job_get_scrap (read, scrap_id)->piece);
  g_clear_pointer (&turned, odd_job_unref);
  g_ptr_array_unref (values.scraps);
}

static void
refused (const char *text, const char *from, const char *to, const char *said)
{
  GString *bad = g_string_new (text);
  g_autoptr(GError) error = NULL;

  g_assert_cmpuint (g_string_replace (bad, from, to, 1), ==, 1);
  if (odd_job_read_json (bad->str, bad->len, "tub.oddment", NULL, NULL, &error) != NULL)
    g_error ("read, though it should not be: %s", said);
  if (strstr (error->message, "“tub.oddment”") == NULL || strstr (error->message, said) == NULL)
    g_error ("“%s” does not name the file and “%s”", error->message, said);
  g_assert_null (strchr (error->message, '\n'));
  g_string_free (bad, TRUE);
}

static void
test_bad (void)
{
  OddId scrap_id = 0;
  g_autoptr(OddJob) job = piece_scrap_job (2, 2, &scrap_id);
  g_autofree char *text = text_of (job);
  g_autofree char *itself = g_strdup_printf ("\"kind\": \"patch\", \"scrap\": %u", scrap_id);
  g_autofree char *first = g_strdup_printf ("\"kind\": \"patch\", \"scrap\": %u", ((OddScrap *) job->scraps->pdata[0])->id);
  g_autofree char *number = g_strdup_printf ("\"number\": 5");
  g_autofree char *with_fabric = g_strdup_printf ("\"number\": 5, \"fabric\": %u", ((OddFabric *) job->fabrics->pdata[0])->id);
  g_autofree char *leaf = g_strdup_printf ("\"scrap\": %u", ((OddScrap *) job->scraps->pdata[0])->id);

  refused (text, first, itself, "sewn into itself");
  refused (text, number, with_fabric, "Leave its own fabric out");
  refused (text, leaf, "\"scrap\": 9999", "no scrap has the id 9999");
  refused (text, "[-12.7, -12.7]", "[-22.7, -22.7]", "leaves the cloth of its piece");
  refused (text, "\"number\": 1,", "\"number\": 1, \"piece_at_mm\": [1, 1],", "a scrap without a piece");
  refused (text, "\"piece\": {", "\"piece_turn_deg\": 1e999, \"piece\": {", "too large");
  refused (text, "\"piece\": {", "\"piece\": 5, \"peace\": {", "an object");
  refused (text, "\"piece\": {", "\"piece\": { \"offset_mm\": 5,", "no offset");
}

static void
test_bare (void)
{
  OddId panel_id = 0;
  g_autoptr(OddJob) job = piece_job (2, 2, &panel_id);
  OddPanel *panel = odd_job_get_panel (job, panel_id, NULL, NULL);
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel_id);
  g_autoptr(OddNode) empty = odd_node_new_bare (layout->patches[0].leaf->id);
  g_autoptr(OddNode) root = odd_node_replace (panel->root, empty->id, empty);
  g_autoptr(OddPanel) piece = odd_panel_with_root (panel, root);
  g_autoptr(OddJob) without = odd_job_remove_panel (job, panel_id, NULL);
  g_autoptr(OddPolygon) outline = odd_polygon_new_box ((OddBox) { 0, 0, 200, 200 });
  g_autoptr(OddJob) bad = NULL;
  g_autofree char *text = NULL;
  OddScrap values;

  odd_scrap_init_values (&values);
  values.outline = outline;
  values.piece = piece;
  bad = odd_job_put_scrap (without, &values, NULL, NULL);
  text = text_of (bad);
  refused (text, "oddment-job", "oddment-job", "is bare");
}

/* Pieces within pieces, one deeper than is allowed. */
static void
test_deep (void)
{
  OddId inner = 0;
  g_autoptr(OddJob) job = piece_scrap_job (2, 1, &inner);
  g_autoptr(GError) error = NULL;
  guint depth = 1;

  while (depth <= ODD_PIECE_MAX_DEPTH)
    {
      OddId panel_id = 0;
      g_autoptr(OddLayout) layout = NULL;
      OddJob *next;

      take (&job, add_squares (job, 0, 2, 1, 20.0, &panel_id));
      layout = odd_job_dup_layout (job, panel_id);
      take (&job, odd_job_place_scrap (job, layout->patches[0].leaf->id, inner, &ODD_PLACEMENT_IDENTITY, NULL));
      take (&job, odd_job_place_scrap (job, layout->patches[1].leaf->id, piece_add_scrap (&job, 0), &ODD_PLACEMENT_IDENTITY, NULL));
      piece_sew (&job, panel_id);
      next = odd_job_panel_to_scrap (job, panel_id, &inner, &error);
      if (next == NULL)
        break;
      take (&job, next);
      depth++;
    }
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_assert_nonnull (strstr (error->message, "12 deep"));
  g_assert_cmpuint (depth, ==, ODD_PIECE_MAX_DEPTH);
  g_assert_cmpuint (odd_job_get_piece_depth (job, odd_job_get_scrap (job, inner)), ==, ODD_PIECE_MAX_DEPTH);
  {
    g_autofree char *text = text_of (job);
    g_autoptr(OddJob) read = read_text (text);

    g_assert_nonnull (read);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/piece-file/round", test_round);
  g_test_add_func ("/piece-file/plain-says-nothing", test_plain_says_nothing);
  g_test_add_func ("/piece-file/any-order", test_any_order);
  g_test_add_func ("/piece-file/bad", test_bad);
  g_test_add_func ("/piece-file/bare", test_bare);
  g_test_add_func ("/piece-file/deep", test_deep);
  return g_test_run ();
}
