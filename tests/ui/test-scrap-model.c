/* Searching, filtering and sorting scraps. */
#include "ui/scrap-model.h"

static OddJob *
add_fabric (OddJob     *job,
            const char *name,
            guint32     colour,
            OddId      *out_id)
{
  g_autoptr(OddJob) before = job;
  OddFabric values;

  odd_fabric_init_values (&values);
  values.name = (char *) name;
  for (guint i = 0; i < 4; i++)
    values.print.colours[i] = colour;
  return odd_job_put_fabric (job, &values, out_id, NULL);
}

static OddJob *
add_scrap (OddJob     *job,
           OddId       fabric_id,
           double      width_mm,
           double      length_mm,
           const char *place)
{
  g_autoptr(OddJob) before = job;
  g_autoptr(OddPolygon) outline = odd_polygon_new_box ((OddBox) { 0.0, 0.0, width_mm, length_mm });
  OddScrap values;

  odd_scrap_init_values (&values);
  values.outline = outline;
  values.fabric_id = fabric_id;
  values.place = (char *) place;
  return odd_job_put_scrap (job, &values, NULL, NULL);
}

/* Numbers 1 to 4: white 100 x 200, navy 300 x 250, white 50 x 50, unknown cloth 120 x 80. */
static OddDocument *
make_document (OddId *out_white)
{
  OddJob *job = odd_job_new ();
  OddId white, navy;
  OddDocument *document;

  job = add_fabric (job, "White lawn", 0xffffff, &white);
  job = add_fabric (job, "Navy denim", 0x101840, &navy);
  job = add_scrap (job, white, 100.0, 200.0, "red bag");
  job = add_scrap (job, navy, 300.0, 250.0, "blue tub");
  job = add_scrap (job, white, 50.0, 50.0, "blue tub");
  job = add_scrap (job, 0, 120.0, 80.0, NULL);
  document = odd_document_new (job);
  odd_job_unref (job);
  *out_white = white;
  return document;
}

/* "2 1 4 3" */
static char *
list (OddScrapModel *model)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (model)); i++)
    {
      g_autoptr(OddScrapRow) row = g_list_model_get_item (G_LIST_MODEL (model), i);

      g_string_append_printf (text, i > 0 ? " %u" : "%u", odd_scrap_row_get_scrap (row)->number);
    }
  return g_string_free (text, FALSE);
}

#define assert_list(model, wanted) \
  G_STMT_START { g_autofree char *listed = list (model); g_assert_cmpstr (listed, ==, wanted); } G_STMT_END

static void
test_sort (void)
{
  OddId white;
  g_autoptr(OddDocument) document = make_document (&white);
  OddScrapModel *model = odd_scrap_model_new (document);

  assert_list (model, "2 1 4 3");
  g_object_set (model, "sort", ODD_SORT_SMALLEST, NULL);
  assert_list (model, "3 4 1 2");
  g_object_set (model, "sort", ODD_SORT_NUMBER, NULL);
  assert_list (model, "1 2 3 4");
  g_object_set (model, "sort", ODD_SORT_LIGHTNESS, NULL);
  assert_list (model, "1 3 4 2");
  g_object_set (model, "sort", ODD_SORT_FABRIC, NULL);
  assert_list (model, "2 1 3 4");
  g_assert_finalize_object (model);
}

static void
test_filter (void)
{
  OddId white;
  g_autoptr(OddDocument) document = make_document (&white);
  OddScrapModel *model = odd_scrap_model_new (document);
  gboolean filtered;

  g_object_set (model, "sort", ODD_SORT_NUMBER, "fabric", white, NULL);
  assert_list (model, "1 3");
  g_object_set (model, "smallest", 60.0, NULL);
  assert_list (model, "1");
  g_object_get (model, "filtered", &filtered, NULL);
  g_assert_true (filtered);
  odd_scrap_model_clear_filter (model);
  g_object_get (model, "filtered", &filtered, NULL);
  g_assert_false (filtered);
  assert_list (model, "1 2 3 4");
  g_object_set (model, "lightness", ODD_LIGHTNESS_DARK, NULL);
  assert_list (model, "2");
  g_object_set (model, "lightness", ODD_LIGHTNESS_LIGHT, NULL);
  assert_list (model, "1 3");
  g_object_set (model, "lightness", ODD_LIGHTNESS_ANY, "search", "BLUE tub", NULL);
  assert_list (model, "2 3");
  g_object_set (model, "search", "tub lawn", NULL);
  assert_list (model, "3");
  g_object_set (model, "search", "velvet", NULL);
  assert_list (model, "");
  g_assert_cmpuint (odd_scrap_model_get_n_scraps (model), ==, 4);
  g_assert_finalize_object (model);
}

static void
test_placed (void)
{
  OddId white, panel_id = 0;
  g_autoptr(OddDocument) document = make_document (&white);
  OddScrapModel *model = odd_scrap_model_new (document);
  g_autoptr(OddScrapRow) before = NULL;
  g_autoptr(OddScrapRow) after = NULL;
  OddJob *job = odd_document_get_job (document);
  OddTextile *textile = g_ptr_array_index (job->textiles, 0);
  OddScrap *scrap = odd_job_get_scrap_by_number (job, 2);
  const OddPlacement placement = ODD_PLACEMENT_IDENTITY;
  g_autoptr(OddScrapRow) placed = NULL;
  g_autofree char *words = NULL;
  OddSettings settings;
  OddPanel *panel;

  g_test_summary ("A scrap that is placed stays among the free ones while a usable piece is left, and says so; else it leaves them. Undo brings it back, and rows of others stay the objects they are");
  g_object_set (model, "sort", ODD_SORT_NUMBER, NULL);
  before = g_list_model_get_item (G_LIST_MODEL (model), 0);
  odd_document_apply (document, odd_job_add_panel (job, textile->id, 0, "", 100.0, 100.0, &panel_id, NULL), "panel");
  job = odd_document_get_job (document);
  panel = odd_job_get_panel (job, panel_id, NULL, NULL);
  odd_document_apply (document, odd_job_place_scrap (job, panel->root->id, scrap->id, &placement, NULL), "place");
  assert_list (model, "1 2 3 4");
  placed = g_list_model_get_item (G_LIST_MODEL (model), 1);
  words = odd_scrap_row_dup_state (placed, ODD_UNIT_CM);
  g_assert_true (g_str_has_prefix (words, "placed, ") && g_str_has_suffix (words, " cm left"));
  settings = odd_document_get_job (document)->settings;
  settings.usable_square_mm = 1000.0;
  odd_document_apply (document, odd_job_set_settings (odd_document_get_job (document), &settings, NULL), "settings");
  assert_list (model, "1 3 4");
  g_assert_cmpuint (odd_scrap_model_get_n_free (model), ==, 3);
  g_object_set (model, "in-hand", scrap->id, NULL);
  assert_list (model, "1 2 3 4");
  g_object_set (model, "in-hand", 0, "shown", ODD_SHOWN_PLACED, NULL);
  assert_list (model, "2");
  g_object_set (model, "shown", ODD_SHOWN_FREE, NULL);
  after = g_list_model_get_item (G_LIST_MODEL (model), 0);
  g_assert_true (before == after);
  while (odd_document_undo (document))
    ;
  assert_list (model, "1 2 3 4");
  g_assert_finalize_object (model);
}

static void
test_size_words (void)
{
  OddId white;
  g_autoptr(OddDocument) document = make_document (&white);
  OddJob *job = odd_document_get_job (document);
  g_autoptr(OddScrapRow) row = odd_scrap_row_new (job, odd_job_get_scrap_by_number (job, 1), ODD_SCRAP_FREE);
  g_autofree char *cm = odd_scrap_row_dup_size (row, 0);
  g_autofree char *inches = odd_scrap_row_dup_size (row, 2);

  g_assert_cmpstr (cm, ==, "10 × 20 cm");
  g_assert_cmpstr (inches, ==, "4 × 8 in");
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scrap-model/sort", test_sort);
  g_test_add_func ("/scrap-model/filter", test_filter);
  g_test_add_func ("/scrap-model/placed", test_placed);
  g_test_add_func ("/scrap-model/size-words", test_size_words);
  return g_test_run ();
}
