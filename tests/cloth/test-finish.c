#include "config.h"

#include "cloth/csv.h"
#include "cloth/fabric.h"
#include "cloth/finish.h"
#include "cloth/finish-texts.h"

#include <gio/gio.h>
#include <math.h>
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

static void
test_shipped_keys (void)
{
  const char *const keys[] = { "pressed-open", "overlocked", "overlocked-topstitched", "zigzagged", "french", "felled", "bound" };
  g_autoptr(GPtrArray) finishes = odd_finish_shipped ();

  g_assert_cmpuint (finishes->len, ==, G_N_ELEMENTS (keys));
  for (guint i = 0; i < finishes->len; i++)
    {
      OddFinish *finish = finishes->pdata[i];

      g_assert_cmpstr (finish->key, ==, keys[i]);
      g_assert_cmpuint (finish->id, ==, i + 1);
      g_assert_cmpfloat (finish->min_allowance_mm, <=, finish->allowance_mm);
      g_assert_cmpuint (strlen (finish->source), >, 10);
      g_assert_cmpuint (strlen (finish->note), >, 10);
    }
}

/* Distances of the sewing passes of a shipped finish, from raw edge to seam line. */
static double
sum_of_passes (const OddFinish *finish,
               double           passes[2])
{
  guint n = 0;
  double sum = 0;

  for (guint i = 0; i < finish->n_operations; i++)
    if (finish->operations[i].kind == ODD_OPERATION_SEW)
      {
        g_assert_cmpuint (n, <, 2);
        passes[n++] = finish->operations[i].at_mm;
        sum += finish->operations[i].at_mm;
      }
  g_assert_cmpuint (n, ==, 2);
  return sum;
}

static double
trimmed_to (const OddFinish *finish)
{
  for (guint i = 0; i < finish->n_operations; i++)
    if (finish->operations[i].kind == ODD_OPERATION_TRIM)
      return finish->operations[i].at_mm;
  return NAN;
}

/* Oklahoma Cooperative Extension, 4-H Construction Card No. 810: first pass 3/8 in, second 1/4 in, together 5/8 in.
 * Trim to 1/8 in: Utah State University Extension, Technique: French Seam. */
static void
test_french (void)
{
  g_autoptr(GPtrArray) finishes = odd_finish_shipped ();
  const OddFinish *french = shipped (finishes, "french");
  double passes[2];

  g_assert_cmpfloat_with_epsilon (sum_of_passes (french, passes), french->allowance_mm, 1e-9);
  g_assert_cmpfloat_with_epsilon (french->allowance_mm, 5.0 / 8.0 * 25.4, 1e-9);
  g_assert_cmpfloat_with_epsilon (passes[0], 3.0 / 8.0 * 25.4, 1e-9);
  g_assert_cmpfloat_with_epsilon (passes[1], 1.0 / 4.0 * 25.4, 1e-9);
  g_assert_cmpfloat_with_epsilon (trimmed_to (french), 25.4 / 8.0, 1e-9);
  /* the second pass must enclose what the trim has left, or raw threads show */
  g_assert_cmpfloat (trimmed_to (french), <, passes[1]);
  /* kept: all but what the trim takes off; derived */
  g_assert_cmpfloat_with_epsilon (french->width_kept_mm, french->allowance_mm - (passes[0] - trimmed_to (french)), 1e-9);
  g_assert_cmpint (french->operations[0].face, ==, ODD_FACE_WRONG_SIDES);
  g_assert_cmpint (french->operations[3].face, ==, ODD_FACE_RIGHT_SIDES);
}

/* The published French seams of data/figures/seam_allowances.csv, each of its own source (Oklahoma card 810; Utah State;
 * Conover 1922): the two passes are the allowance, and make a finish that is taken. */
static void
test_french_seams_published (void)
{
  g_autoptr(OddCsv) table = odd_csv_load_figures ("seam_allowances.csv");
  g_autoptr(GPtrArray) finishes = odd_finish_shipped ();
  guint n = 0;

  for (guint row = 0; row < table->rows->len; row++)
    {
      OddFinish values = *shipped (finishes, "french");
      g_autofree OddOperation *operations = g_memdup2 (values.operations, sizeof *operations * values.n_operations);
      g_autoptr(OddFinish) finish = NULL;
      g_autoptr(GError) error = NULL;
      double passes[2];

      if (!g_str_has_prefix (odd_csv_get (table, row, "seam"), "French"))
        continue;
      g_test_message ("%s: %s", odd_csv_get (table, row, "seam"), odd_csv_get (table, row, "source"));
      values.operations = operations;
      values.allowance_mm = odd_csv_get_number (table, row, "raw_edge_allowance_mm");
      values.width_kept_mm = MIN (values.width_kept_mm, values.allowance_mm);
      operations[0].at_mm = odd_csv_get_number (table, row, "pass1_mm");
      operations[3].at_mm = odd_csv_get_number (table, row, "pass2_mm");
      finish = odd_finish_new (&values, &error);
      g_assert_no_error (error);
      /* the table prints 5/8 in as 15.9 */
      g_assert_cmpfloat_with_epsilon (sum_of_passes (finish, passes), finish->allowance_mm, 0.03);
      n++;
    }
  g_assert_cmpuint (n, ==, 4);
}

/* Felled, zigzagged and bound against their rows of data/figures/seam_allowances.csv; sources stand there. */
static void
test_other_rows (void)
{
  g_autoptr(OddCsv) table = odd_csv_load_figures ("seam_allowances.csv");
  g_autoptr(GPtrArray) finishes = odd_finish_shipped ();
  const OddFinish *felled = shipped (finishes, "felled");
  const OddFinish *zigzagged = shipped (finishes, "zigzagged");
  const OddFinish *bound = shipped (finishes, "bound");
  const OddFinish *open = shipped (finishes, "pressed-open");
  int row = odd_csv_find (table, "seam", "flat-felled");

  g_assert_cmpfloat (felled->allowance_mm, ==, odd_csv_get_number (table, row, "raw_edge_allowance_mm"));
  g_assert_cmpfloat (felled->min_allowance_mm, ==, odd_csv_get_number (table, row, "min_allowance_mm"));
  g_assert_cmpfloat (trimmed_to (felled), ==, odd_csv_get_number (table, row, "trim_to_mm"));
  g_assert_cmpfloat_with_epsilon (felled->width_kept_mm, (felled->allowance_mm + trimmed_to (felled)) / 2, 1e-9);

  row = odd_csv_find (table, "seam", "plain then both edges zigzagged/overcast together");
  g_assert_cmpfloat (trimmed_to (zigzagged), ==, odd_csv_get_number (table, row, "trim_to_mm"));
  g_assert_cmpfloat (zigzagged->width_kept_mm, ==, trimmed_to (zigzagged));
  g_assert_cmpfloat (zigzagged->min_allowance_mm, ==, odd_csv_get_number (table, row, "min_allowance_mm"));

  row = odd_csv_find (table, "seam", "bound edges, pressed open");
  g_assert_cmpfloat (bound->allowance_mm, ==, odd_csv_get_number (table, row, "raw_edge_allowance_mm"));
  g_assert_cmpfloat (bound->min_allowance_mm, ==, odd_csv_get_number (table, row, "min_allowance_mm"));

  row = odd_csv_find (table, "seam", "scrap textile, half inch");
  g_assert_cmpfloat (open->allowance_mm, ==, odd_csv_get_number (table, row, "raw_edge_allowance_mm"));
}

static void
test_ready_to_cross (void)
{
  g_autoptr(GPtrArray) finishes = odd_finish_shipped ();

  g_assert_cmpuint (odd_finish_ready_to_cross (shipped (finishes, "pressed-open")), ==, 1);
  g_assert_cmpuint (odd_finish_ready_to_cross (shipped (finishes, "overlocked")), ==, 2);
  /* topstitching may follow when the seam has been crossed */
  g_assert_cmpuint (odd_finish_ready_to_cross (shipped (finishes, "overlocked-topstitched")), ==, 2);
  /* both passes, not the press between them */
  g_assert_cmpuint (odd_finish_ready_to_cross (shipped (finishes, "french")), ==, 4);
  /* the fell is stitched down first */
  g_assert_cmpuint (odd_finish_ready_to_cross (shipped (finishes, "felled")), ==, 5);
  for (guint i = 0; i < finishes->len; i++)
    g_assert_cmpuint (odd_finish_first_sew (finishes->pdata[i]), ==, 0);
}

static OddOperation
operation (OddOperationKind kind,
           const char      *text)
{
  return (OddOperation) { .kind = kind, .station = ODD_STATION_SEWING_MACHINE, .text = (char *) text };
}

static OddFinish
own (OddOperation *operations,
     guint         n)
{
  return (OddFinish) { .key = (char *) "own", .name = (char *) "My own", .allowance_mm = 10, .min_allowance_mm = 5,
                       .width_kept_mm = 10, .operations = operations, .n_operations = n };
}

static void
test_neatened_before (void)
{
  OddOperation operations[] = {
    operation (ODD_OPERATION_NEATEN, "Overlock each edge"), operation (ODD_OPERATION_PRESS, "Press each edge"),
    operation (ODD_OPERATION_SEW, "Sew"), operation (ODD_OPERATION_TOPSTITCH, "Topstitch") };
  const OddFinish values = own (operations, G_N_ELEMENTS (operations));
  g_autoptr(OddFinish) self = NULL;
  g_autoptr(GError) error = NULL;

  operations[0].before_joining = operations[1].before_joining = TRUE;
  self = odd_finish_new (&values, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (odd_finish_first_sew (self), ==, 2);
  /* never pressed as a seam: fast once it is sewn */
  g_assert_cmpuint (odd_finish_ready_to_cross (self), ==, 2);
}

static void
test_copied_deeply (void)
{
  char text[] = "Sew", stitch[] = "401", name[] = "My own";
  OddOperation operations[] = { operation (ODD_OPERATION_SEW, text) };
  OddFinish values = own (operations, 1);
  g_autoptr(OddFinish) self = NULL;

  operations[0].stitch = stitch;
  values.name = name;
  self = odd_finish_new (&values, NULL);
  text[0] = stitch[0] = name[0] = 'x';
  operations[0].at_mm = 99;
  g_assert_cmpstr (self->operations[0].text, ==, "Sew");
  g_assert_cmpstr (self->operations[0].stitch, ==, "401");
  g_assert_cmpstr (self->name, ==, "My own");
  g_assert_cmpfloat (self->operations[0].at_mm, ==, 0);
}

static void
assert_refused (const OddFinish *values,
                int              code,
                const char      *says)
{
  g_autoptr(GError) error = NULL;

  g_assert_null (odd_finish_new (values, &error));
  g_assert_error (error, ODD_VALUE_ERROR, code);
  g_test_message ("%s", error->message);
  g_assert_nonnull (strstr (error->message, says));
}

#define assert_member_refused(member, value, code, says)                                \
  G_STMT_START                                                                          \
    {                                                                                   \
      OddOperation operations_[] = { operation (ODD_OPERATION_SEW, "Sew"), operation (ODD_OPERATION_PRESS, "Press") }; \
      OddFinish values_ = own (operations_, 2);                                         \
      values_.member = (value);                                                         \
      assert_refused (&values_, (code), (says));                                        \
    }                                                                                   \
  G_STMT_END

static void
test_refused (void)
{
  assert_member_refused (name, NULL, ODD_VALUE_ERROR_NAME, "name");
  assert_member_refused (key, (char *) "two words", ODD_VALUE_ERROR_NAME, "two words");
  assert_member_refused (key, (char *) "", ODD_VALUE_ERROR_NAME, "My own");
  assert_member_refused (allowance_mm, 0, ODD_VALUE_ERROR_RANGE, "0 mm");
  assert_member_refused (allowance_mm, -1, ODD_VALUE_ERROR_RANGE, "-1 mm");
  assert_member_refused (allowance_mm, NAN, ODD_VALUE_ERROR_RANGE, "My own");
  assert_member_refused (allowance_mm, 201, ODD_VALUE_ERROR_RANGE, "201 mm");
  assert_member_refused (min_allowance_mm, -2, ODD_VALUE_ERROR_RANGE, "-2 mm");
  assert_member_refused (width_kept_mm, 10.5, ODD_VALUE_ERROR_RANGE, "10.5 mm");
  assert_member_refused (plies[1], 21, ODD_VALUE_ERROR_RANGE, "21");
  assert_member_refused (n_operations, 0, ODD_VALUE_ERROR_SHAPE, "None of the 0");
  assert_member_refused (operations[0].kind, ODD_OPERATION_TRIM, ODD_VALUE_ERROR_SHAPE, "None of the 2");
  assert_member_refused (operations[1].before_joining, TRUE, ODD_VALUE_ERROR_SHAPE, "Operation 2");
  assert_member_refused (operations[1].text, NULL, ODD_VALUE_ERROR_NAME, "Operation 2");
  assert_member_refused (operations[0].stitch, (char *) "30", ODD_VALUE_ERROR_NAME, "“30”");
  assert_member_refused (operations[0].stitch, (char *) "901", ODD_VALUE_ERROR_NAME, "901");
  assert_member_refused (operations[0].at_mm, INFINITY, ODD_VALUE_ERROR_RANGE, "inf");
  assert_member_refused (operations[1].station, (OddStation) 9, ODD_VALUE_ERROR_RANGE, "Operation 2");
}

static void
add_text (GHashTable *texts,
          const char *text)
{
  g_hash_table_add (texts, g_strdup (text));
}

/* Without a translation the texts of a finish are those of the file. */
static void
test_every_text_can_be_translated (void)
{
  g_autoptr(GHashTable) wanted = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr(GHashTable) listed = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr(GPtrArray) finishes = odd_finish_shipped ();
  GHashTableIter iter;
  gpointer text;

  for (guint i = 0; i < finishes->len; i++)
    {
      const OddFinish *finish = finishes->pdata[i];

      add_text (wanted, finish->name);
      add_text (wanted, finish->note);
      for (guint k = 0; k < finish->n_operations; k++)
        add_text (wanted, finish->operations[k].text);
    }
  for (guint i = 0; odd_finish_texts[i] != NULL; i++)
    add_text (listed, odd_finish_texts[i]);

  g_hash_table_iter_init (&iter, wanted);
  while (g_hash_table_iter_next (&iter, &text, NULL))
    if (!g_hash_table_contains (listed, text))
      g_error ("finish-texts.c lacks “%s”", (char *) text);
  g_assert_cmpuint (g_hash_table_size (listed), ==, g_hash_table_size (wanted));
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/finish/shipped-keys", test_shipped_keys);
  g_test_add_func ("/finish/french", test_french);
  g_test_add_func ("/finish/french-seams-published", test_french_seams_published);
  g_test_add_func ("/finish/other-rows", test_other_rows);
  g_test_add_func ("/finish/ready-to-cross", test_ready_to_cross);
  g_test_add_func ("/finish/neatened-before", test_neatened_before);
  g_test_add_func ("/finish/copied-deeply", test_copied_deeply);
  g_test_add_func ("/finish/refused", test_refused);
  g_test_add_func ("/finish/every-text-can-be-translated", test_every_text_can_be_translated);
  return g_test_run ();
}
