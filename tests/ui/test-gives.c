#include "config.h"

/* How many squares a scrap gives: counted while it is typed, in the bar, in the pane and below each picture; one size for all who ask. */
#include <adwaita.h>

#include "cloth/edit.h"
#include "ui/cut-counter.h"
#include "ui/gives-bar.h"
#include "ui/length-entry.h"
#include "ui/propose-dialog.h"
#include "ui/scrap-item.h"
#include "ui/scrap-pane.h"
#include "ui/template-rows.h"
#include "widgets.h"

#define PATIENCE_S 20

typedef struct
{
  OddDocument *document;
  OddSelection *selection;
  GtkWidget *window;
  GtkWidget *bar;
  GtkWidget *tray;
  GtkWidget *pane;
} Fixture;

static void
add_box (GPtrArray *scraps,
         guint      number,
         double     width_mm,
         double     height_mm)
{
  const OddPoint points[4] = { { 0, 0 }, { width_mm, 0 }, { width_mm, height_mm }, { 0, height_mm } };
  g_autoptr(OddPolygon) outline = odd_polygon_new (points, 4, NULL);
  OddScrap values;

  odd_scrap_init_values (&values);
  values.number = number;
  values.outline = outline;
  values.washed = TRUE;
  g_ptr_array_add (scraps, odd_scrap_new (&values, NULL));
}

/* Scrap 1: 205 x 105, scrap 2: 160 x 160, scrap 3: 60 x 60. */
static OddJob *
make_job (void)
{
  g_autoptr(OddJob) empty = odd_job_new ();
  g_autoptr(GPtrArray) scraps = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_scrap_unref);

  add_box (scraps, 1, 205.0, 105.0);
  add_box (scraps, 2, 160.0, 160.0);
  add_box (scraps, 3, 60.0, 60.0);
  return odd_job_put_scraps (empty, scraps, NULL);
}

static OddId
scrap_id (Fixture *fixture,
          guint    i)
{
  return ((OddScrap *) odd_document_get_job (fixture->document)->scraps->pdata[i])->id;
}

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  g_autoptr(OddJob) job = make_job ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *sides = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  fixture->document = odd_document_new (job);
  fixture->selection = odd_selection_new (fixture->document);
  fixture->window = gtk_window_new ();
  fixture->tray = odd_tray_new ("page");
  fixture->bar = odd_gives_bar_new ();
  fixture->pane = g_object_new (ODD_TYPE_SCRAP_PANE, "document", fixture->document, "selection", fixture->selection, "active", TRUE, NULL);
  g_object_set (fixture->tray, "document", fixture->document, "selection", fixture->selection, "hexpand", TRUE, NULL);
  g_object_set (fixture->bar, "document", fixture->document, "tray", fixture->tray, NULL);
  gtk_box_append (GTK_BOX (box), fixture->bar);
  gtk_box_append (GTK_BOX (box), fixture->tray);
  gtk_box_append (GTK_BOX (sides), box);
  gtk_box_append (GTK_BOX (sides), fixture->pane);
  gtk_window_set_child (GTK_WINDOW (fixture->window), sides);
  gtk_window_set_default_size (GTK_WINDOW (fixture->window), 1000, 600);
  odd_selection_set (fixture->selection, ODD_SELECTED_SCRAP, scrap_id (fixture, 0));
  gtk_window_present (GTK_WINDOW (fixture->window));
}

/* The last worker may still hold its counter for a moment, never the document. */
static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  gtk_window_destroy (GTK_WINDOW (fixture->window));
  while (g_main_context_iteration (NULL, FALSE))
    ;
  g_object_unref (fixture->selection);
  g_assert_finalize_object (fixture->document);
}

static void
wait_for (GtkWidget  *widget,
          const char *text)
{
  const gint64 end = g_get_monotonic_time () + PATIENCE_S * G_USEC_PER_SEC;

  while (!holds_text (widget, text) && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  if (!holds_text (widget, text))
    g_error ("nothing says “%s”", text);
}

static GtkEditable *
part (GtkWidget  *widget,
      const char *child,
      guint       entry)
{
  GtkWidget *found = child != NULL ? GTK_WIDGET (gtk_widget_get_template_child (widget, G_OBJECT_TYPE (widget), child)) : widget;

  found = gtk_widget_get_first_child (found);
  for (guint i = 0; i < entry; i++)
    do
      found = gtk_widget_get_next_sibling (found);
    while (!ODD_IS_LENGTH_ENTRY (found));
  return GTK_EDITABLE (found);
}

static OddCutCounter *
counter (Fixture *fixture)
{
  return odd_cut_counter_get (fixture->document);
}

/* By hand: 205 x 105 gives two of 100 and 160 x 160 one; cut 5 cm they are 8, 9 and 1; cut 16 cm there is one. Typed, not entered. */
static void
test_typing (Fixture       *fixture,
             gconstpointer  data)
{
  GtkEditable *size = part (fixture->bar, "size", 0);

  wait_for (fixture->bar, "3 squares from 2 scraps; 1 gives none");
  wait_for (fixture->pane, "Gives 2 squares");
  wait_for (fixture->pane, "8.0 cm when sewn");
  wait_for (fixture->tray, "16 × 16 cm, gives 1");
  wait_for (fixture->tray, "6 × 6 cm, gives 0");
  gtk_editable_set_text (size, "5");
  wait_for (fixture->bar, "18 squares from 3 scraps");
  wait_for (fixture->pane, "Gives 8 squares");
  wait_for (fixture->pane, "3.0 cm when sewn");
  wait_for (fixture->tray, "16 × 16 cm, gives 9");
  gtk_editable_set_text (size, "16");
  wait_for (fixture->bar, "1 square from 1 scrap; 2 give none");
  wait_for (fixture->pane, "Gives none");
  gtk_editable_set_text (size, "30");
  wait_for (fixture->bar, "None from 3 scraps");
}

/* By hand: 205 x 105 gives four rectangles of 5 x 10 cm; of squares cut 10 and 5 cm two, and no strip is left. 160 x 160 gives one of 10 and beside it one
 * of 5 in the same strip, three in the strip of 6 cm that is left. */
static void
test_two_sizes (Fixture       *fixture,
                gconstpointer  data)
{
  GtkEditable *width = part (fixture->bar, "size_0", 0), *length = part (fixture->bar, "size_0", 1);

  wait_for (fixture->pane, "Gives 2 squares");
  gtk_editable_set_text (width, "5");
  gtk_editable_set_text (length, "10");
  wait_for (fixture->pane, "Gives 4 rectangles");
  gtk_popover_popup (GTK_POPOVER (gtk_widget_get_template_child (fixture->bar, ODD_TYPE_GIVES_BAR, "popover")));
  wait_for (GTK_WIDGET (gtk_widget_get_template_child (fixture->bar, ODD_TYPE_GIVES_BAR, "figures")), "rectangles cut 5.0 × 10.0 cm");
  wait_for (GTK_WIDGET (gtk_widget_get_template_child (fixture->bar, ODD_TYPE_GIVES_BAR, "figures")), "of the cloth used shows");
  g_assert_cmpstr (gtk_editable_get_text (part (fixture->bar, "size", 1)), ==, "10.0 cm");
  gtk_editable_set_text (length, "");
  gtk_editable_set_text (width, "10");
  gtk_editable_set_text (part (fixture->bar, "size_1", 0), "5");
  wait_for (fixture->pane, "Gives 2 + 0 pieces");
  wait_for (fixture->pane, "2 cut 10.0 cm, 0 cut 5.0 cm");
  odd_selection_set (fixture->selection, ODD_SELECTED_SCRAP, scrap_id (fixture, 1));
  wait_for (fixture->pane, "Gives 1 + 4 pieces");
}

/* One sentence, everywhere; the counts come back with a size that is one. */
static void
test_bad_sizes (Fixture       *fixture,
                gconstpointer  data)
{
  GtkEditable *size = part (fixture->bar, "size", 0), *allowance = part (fixture->bar, "allowance", 0);

  wait_for (fixture->bar, "3 squares");
  gtk_editable_set_text (size, "10 apples");
  wait_for (fixture->bar, "10 apples");
  wait_for (fixture->pane, "Not yet clear");
  g_assert_null (odd_cut_counter_get_gives (counter (fixture)));
  gtk_editable_set_text (size, "0.5");
  wait_for (fixture->bar, "The template is 5.0 mm");
  gtk_editable_set_text (size, "");
  wait_for (fixture->bar, "Type the size that you cut.");
  gtk_editable_set_text (size, "10");
  wait_for (fixture->bar, "3 squares");
  gtk_editable_set_text (allowance, "4.8");
  wait_for (fixture->bar, "Two allowances of 48.0 mm");
  gtk_editable_set_text (allowance, "0");
  wait_for (fixture->bar, "a seam needs more than nothing");
  gtk_editable_set_text (allowance, "");
  wait_for (fixture->bar, "Type the allowance of the seams.");
  gtk_editable_set_text (allowance, "2");
  wait_for (fixture->bar, "3 squares");
  wait_for (fixture->pane, "6.0 cm when sewn");
}

/* The count follows the job, and what the tray does not show is not counted. */
static void
test_follows (Fixture       *fixture,
              gconstpointer  data)
{
  OddScrap values = *odd_job_get_scrap (odd_document_get_job (fixture->document), scrap_id (fixture, 1));
  OddScrapModel *model = odd_tray_get_model (ODD_TRAY (fixture->tray));

  wait_for (fixture->bar, "3 squares from 2 scraps");
  g_object_set (model, "smallest", 110.0, NULL);
  wait_for (fixture->bar, "1 square from 1 scrap");
  g_object_set (model, "smallest", 0.0, NULL);
  wait_for (fixture->bar, "3 squares from 2 scraps");
  values.gone = TRUE;
  odd_document_apply (fixture->document, odd_job_put_scrap (odd_document_get_job (fixture->document), &values, NULL, NULL), "Gone");
  wait_for (fixture->bar, "2 squares from 1 scrap; 1 gives none");
  odd_document_undo (fixture->document);
  wait_for (fixture->bar, "3 squares from 2 scraps");
}

/* The second scrap is the largest, the first gives most. */
static void
test_sort (Fixture       *fixture,
           gconstpointer  data)
{
  const gint64 end = g_get_monotonic_time () + PATIENCE_S * G_USEC_PER_SEC;
  OddScrapModel *model = odd_tray_get_model (ODD_TRAY (fixture->tray));

  wait_for (fixture->bar, "3 squares");
  g_assert_cmpuint (odd_scrap_model_find (model, scrap_id (fixture, 1)), ==, 0);
  g_object_set (model, "sort", ODD_SORT_GIVES, NULL);
  g_assert_cmpuint (odd_scrap_model_find (model, scrap_id (fixture, 0)), ==, 0);
  gtk_editable_set_text (part (fixture->bar, "size", 0), "16");
  while (odd_scrap_model_find (model, scrap_id (fixture, 1)) != 0 && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_cmpuint (odd_scrap_model_find (model, scrap_id (fixture, 1)), ==, 0);
}

static GtkEditable *
proposed_size (GtkWidget *dialog)
{
  GtkWidget *rows = find_type (dialog, ODD_TYPE_TEMPLATE_ROWS);

  return GTK_EDITABLE (gtk_widget_get_template_child (rows, ODD_TYPE_TEMPLATE_ROWS, "width_0"));
}

/* What was typed here is asked for there, and the other way round. */
static void
test_propose (Fixture       *fixture,
              gconstpointer  data)
{
  const gint64 end = g_get_monotonic_time () + PATIENCE_S * G_USEC_PER_SEC;
  OddId textile_id = ((OddTextile *) odd_document_get_job (fixture->document)->textiles->pdata[0])->id;
  GtkWidget *dialog;

  wait_for (fixture->bar, "3 squares");
  gtk_editable_set_text (part (fixture->bar, "size", 0), "7");
  gtk_editable_set_text (part (fixture->bar, "allowance", 0), "1.5");
  odd_propose_dialog_present (fixture->window, fixture->document, fixture->selection, textile_id, NULL, ODD_UNIT_CM, NULL);
  dialog = newest_window (fixture->window, NULL);
  g_assert_cmpstr (gtk_editable_get_text (proposed_size (dialog)), ==, "7.0 cm");
  gtk_editable_set_text (proposed_size (dialog), "8");
  g_signal_emit_by_name (gtk_widget_get_template_child (dialog, G_OBJECT_TYPE (dialog), "propose"), "clicked");
  g_assert_cmpfloat (odd_cut_counter_get_template (counter (fixture), 0).width_mm, ==, 80.0);
  g_assert_cmpfloat (odd_cut_counter_get_allowance (counter (fixture)), ==, 15.0);
  g_assert_cmpstr (gtk_editable_get_text (part (fixture->bar, "size", 0)), ==, "8.0 cm");
  g_object_add_weak_pointer (G_OBJECT (dialog), (gpointer *) &dialog);
  gtk_window_destroy (GTK_WINDOW (dialog));
  while (dialog != NULL && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
}

/* Nobody looks: nothing is counted; and a count that is called off is never told. */
static void
test_called_off (Fixture       *fixture,
                 gconstpointer  data)
{
  wait_for (fixture->bar, "3 squares");
  for (guint i = 0; i < 20; i++)
    odd_cut_counter_set_template (counter (fixture), 0, (OddTemplate) { 30.0 + i, NAN });
  odd_cut_counter_set_template (counter (fixture), 0, (OddTemplate) { 160.0, NAN });
  wait_for (fixture->bar, "1 square from 1 scrap");
  gtk_widget_set_visible (fixture->window, FALSE);
  while (g_main_context_iteration (NULL, FALSE))
    ;
  odd_cut_counter_set_template (counter (fixture), 0, (OddTemplate) { 50.0, NAN });
  for (guint i = 0; i < 50; i++)
    {
      g_main_context_iteration (NULL, FALSE);
      g_usleep (1000);
    }
  g_assert_cmpfloat (odd_cut_counter_get_gives (counter (fixture))->sizes.templates[0].width_mm, ==, 160.0);
  gtk_window_present (GTK_WINDOW (fixture->window));
  wait_for (fixture->bar, "18 squares");
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();

  g_test_add ("/gives/typing", Fixture, NULL, set_up, test_typing, tear_down);
  g_test_add ("/gives/two-sizes", Fixture, NULL, set_up, test_two_sizes, tear_down);
  g_test_add ("/gives/bad-sizes", Fixture, NULL, set_up, test_bad_sizes, tear_down);
  g_test_add ("/gives/follows", Fixture, NULL, set_up, test_follows, tear_down);
  g_test_add ("/gives/sort", Fixture, NULL, set_up, test_sort, tear_down);
  g_test_add ("/gives/propose", Fixture, NULL, set_up, test_propose, tear_down);
  g_test_add ("/gives/called-off", Fixture, NULL, set_up, test_called_off, tear_down);

  return g_test_run ();
}
