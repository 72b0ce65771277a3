#include "config.h"

/* Piece by itself, how much of a fabric: rows by pointer and key, what contradicts itself, and what the worker makes of it. */
#include "cloth/edit.h"
#include "piecing/proposal.h"
#include "ui/length-entry.h"
#include "ui/propose-dialog.h"
#include "ui/proposer.h"
#include "ui/share-rows.h"

#include "widgets.h"

#define PATIENCE_S 20
#define N_FABRICS 3

typedef struct
{
  OddDocument *document;
  OddSelection *selection;
  GtkWidget *window, *dialog, *settings, *shares;
  OddId fabrics[N_FABRICS];
} Fixture;

static GtkWidget *
child_of (GtkWidget  *widget,
          const char *name)
{
  GObject *child = gtk_widget_get_template_child (widget, G_OBJECT_TYPE (widget), name);

  g_assert_nonnull (child);
  return GTK_WIDGET (child);
}

/* Eight scraps of each, each good for one square of 10 cm. Takes @job. */
static OddJob *
add_cloth (OddJob     *job,
           const char *name,
           OddId      *out_id)
{
  const OddPoint points[4] = { { 0, 0 }, { 105, 0 }, { 105, 105 }, { 0, 105 } };
  g_autoptr(OddPolygon) outline = odd_polygon_new (points, 4, NULL);
  OddFabric fabric;
  OddScrap scrap;
  OddJob *next;

  odd_fabric_init_values (&fabric);
  fabric.name = (char *) name;
  next = odd_job_put_fabric (job, &fabric, out_id, NULL);
  odd_job_unref (job);
  odd_scrap_init_values (&scrap);
  scrap.outline = outline;
  scrap.washed = TRUE;
  scrap.fabric_id = *out_id;
  for (guint i = 0; i < 8; i++)
    {
      job = next;
      next = odd_job_put_scrap (job, &scrap, NULL, NULL);
      g_assert_nonnull (next);
      odd_job_unref (job);
    }
  return next;
}

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  static const char *const NAMES[N_FABRICS] = { "Moss", "Rust", "Chalk" };
  OddJob *job = odd_job_new ();
  OddId textile_id;

  for (guint i = 0; i < N_FABRICS; i++)
    job = add_cloth (job, NAMES[i], &fixture->fabrics[i]);
  textile_id = ((OddTextile *) job->textiles->pdata[0])->id;
  fixture->document = odd_document_new (job);
  fixture->selection = odd_selection_new (fixture->document);
  fixture->window = gtk_window_new ();
  gtk_window_present (GTK_WINDOW (fixture->window));
  odd_propose_dialog_present (fixture->window, fixture->document, fixture->selection, textile_id, NULL, ODD_UNIT_CM, NULL);
  fixture->dialog = newest_window (fixture->window, NULL);
  g_assert_nonnull (fixture->dialog);
  g_object_add_weak_pointer (G_OBJECT (fixture->dialog), (gpointer *) &fixture->dialog);
  fixture->settings = child_of (fixture->dialog, "settings");
  fixture->shares = child_of (fixture->settings, "shares");
  odd_length_entry_set_value (ODD_LENGTH_ENTRY (child_of (fixture->settings, "width")), 240.0);
  odd_length_entry_set_value (ODD_LENGTH_ENTRY (child_of (fixture->settings, "length")), 320.0);
  g_signal_emit_by_name (child_of (fixture->dialog, "stop"), "clicked");
}

static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  const gint64 end = g_get_monotonic_time () + PATIENCE_S * G_USEC_PER_SEC;

  gtk_window_destroy (GTK_WINDOW (fixture->dialog));
  gtk_window_destroy (GTK_WINDOW (fixture->window));
  while (fixture->dialog != NULL && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_null (fixture->dialog);
  g_object_unref (fixture->selection);
  g_assert_finalize_object (fixture->document);
}

/* By the list behind the button, as Enter on a name does. */
static GtkWidget *
choose (Fixture    *fixture,
        const char *name)
{
  GtkListBox *fabrics = GTK_LIST_BOX (child_of (fixture->shares, "fabrics"));
  GtkListBox *list = GTK_LIST_BOX (child_of (fixture->shares, "list"));
  GtkListBoxRow *row, *last = NULL;

  for (int i = 0; (row = gtk_list_box_get_row_at_index (fabrics, i)) != NULL; i++)
    if (holds_text (GTK_WIDGET (row), name))
      last = row;
  g_assert_nonnull (last);
  g_signal_emit_by_name (last, "activate");
  for (int i = 0; (row = gtk_list_box_get_row_at_index (list, i)) != NULL; i++)
    last = row;
  g_assert_true (holds_text (GTK_WIDGET (last), name));
  return GTK_WIDGET (last);
}

static void
set_percent (GtkWidget  *row,
             const char *which,
             double      percent)
{
  gtk_spin_button_set_value (g_object_get_data (G_OBJECT (row), which), percent);
}

static guint
count_rows (GtkWidget  *rows,
            const char *list)
{
  guint n = 0;

  while (gtk_list_box_get_row_at_index (GTK_LIST_BOX (child_of (rows, list)), (int) n) != NULL)
    n++;
  return n;
}

static gboolean
may_propose (Fixture *fixture)
{
  return gtk_widget_get_sensitive (child_of (fixture->dialog, "propose"));
}

/* Nothing but the button until she wants it; each fabric of the job once; what is taken off can be chosen again. */
static void
test_rows (Fixture       *fixture,
           gconstpointer  data)
{
  GtkWidget *row;

  g_assert_cmpuint (count_rows (fixture->shares, "list"), ==, 1);
  g_assert_cmpuint (count_rows (fixture->shares, "fabrics"), ==, N_FABRICS);
  row = choose (fixture, "Rust");
  choose (fixture, "Moss");
  g_assert_cmpuint (count_rows (fixture->shares, "list"), ==, 3);
  g_assert_cmpuint (count_rows (fixture->shares, "fabrics"), ==, 1);
  g_signal_emit_by_name (g_object_get_data (G_OBJECT (row), "remove"), "clicked");
  g_assert_cmpuint (count_rows (fixture->shares, "list"), ==, 2);
  g_assert_cmpuint (count_rows (fixture->shares, "fabrics"), ==, 2);
  choose (fixture, "Rust");
  choose (fixture, "Chalk");
  g_assert_false (gtk_widget_get_sensitive (child_of (fixture->shares, "add")));
}

/* One sentence beside the rows, and nothing to press, until it is mended. */
static void
test_contradiction (Fixture       *fixture,
                    gconstpointer  data)
{
  GtkLabel *complaint = GTK_LABEL (child_of (fixture->shares, "complaint"));
  GtkWidget *moss = choose (fixture, "Moss");
  GtkWidget *rust;

  g_assert_true (may_propose (fixture));
  set_percent (moss, "least", 60.0);
  set_percent (moss, "most", 40.0);
  g_assert_false (may_propose (fixture));
  g_assert_true (gtk_widget_get_visible (GTK_WIDGET (complaint)));
  g_assert_nonnull (strstr (gtk_label_get_text (complaint), "At least 60 % and at most 40 % of “Moss”"));
  set_percent (moss, "most", 60.0);
  g_assert_true (may_propose (fixture));
  rust = choose (fixture, "Rust");
  set_percent (rust, "least", 45.0);
  g_assert_false (may_propose (fixture));
  g_assert_nonnull (strstr (gtk_label_get_text (complaint), "105 %"));
  set_percent (rust, "least", 40.0);
  g_assert_true (may_propose (fixture));
  g_assert_false (gtk_widget_get_visible (GTK_WIDGET (complaint)));
  set_percent (rust, "least", 45.0);
  g_signal_emit_by_name (g_object_get_data (G_OBJECT (rust), "remove"), "clicked");
  g_assert_true (may_propose (fixture));
}

static guint
count_of (const OddProposal *proposal,
          OddId              fabric_id)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (proposal->job, g_array_index (proposal->panels, OddId, 0));
  guint n = 0;

  for (guint i = 0; i < layout->n_patches; i++)
    n += layout->patches[i].fabric != NULL && layout->patches[i].fabric->id == fabric_id;
  return n;
}

/* 3 x 4 squares: two thirds of Moss are eight, at most a twelfth of Rust is one, Chalk is the rest. */
static void
test_worker (Fixture       *fixture,
             gconstpointer  data)
{
  const gint64 end = g_get_monotonic_time () + PATIENCE_S * G_USEC_PER_SEC;
  GtkFlowBox *cards = GTK_FLOW_BOX (child_of (fixture->dialog, "cards"));
  GtkFlowBoxChild *card = NULL;
  const OddProposal *proposal;

  set_percent (choose (fixture, "Moss"), "least", 66.0);
  set_percent (choose (fixture, "Rust"), "most", 9.0);
  g_signal_emit_by_name (child_of (fixture->dialog, "propose"), "clicked");
  while ((card = gtk_flow_box_get_child_at_index (cards, 0)) == NULL && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_nonnull (card);
  proposal = odd_proposed_get_proposal (g_object_get_data (G_OBJECT (card), "proposed"));
  g_assert_cmpuint (proposal->figures.n_patches, ==, 12);
  g_assert_cmpuint (count_of (proposal, fixture->fabrics[0]), ==, 8);
  g_assert_cmpuint (count_of (proposal, fixture->fabrics[1]), ==, 1);
  g_assert_cmpuint (count_rows (fixture->shares, "list"), ==, 3);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();

  g_test_add ("/share-rows/rows", Fixture, NULL, set_up, test_rows, tear_down);
  g_test_add ("/share-rows/contradiction", Fixture, NULL, set_up, test_contradiction, tear_down);
  g_test_add ("/share-rows/worker", Fixture, NULL, set_up, test_worker, tear_down);

  return g_test_run ();
}
