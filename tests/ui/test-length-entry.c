/* What is typed into an entry for a length, and what comes of it. */
#include "ui/length-entry.h"

typedef struct
{
  GtkWidget *entry;
  guint n_committed;
  double last_mm;
} Fixture;

static void
committed_cb (Fixture *self,
              double   mm)
{
  self->n_committed++;
  self->last_mm = mm;
}

static void
set_up (Fixture       *self,
        gconstpointer  data)
{
  self->entry = g_object_ref_sink (odd_length_entry_new ());
  odd_length_entry_set_value (ODD_LENGTH_ENTRY (self->entry), 12.7);
  g_signal_connect_swapped (self->entry, "committed", G_CALLBACK (committed_cb), self);
}

static void
tear_down (Fixture       *self,
           gconstpointer  data)
{
  g_assert_finalize_object (self->entry);
}

static void
type (Fixture    *self,
      const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (self->entry), text);
  g_signal_emit_by_name (self->entry, "activate");
}

static void
test_units (Fixture       *self,
            gconstpointer  data)
{
  g_test_summary ("Centimetres, millimetres, inches with fractions; 25.4 mm to the inch (ISO 31-1)");
  type (self, "30");
  g_assert_cmpfloat_with_epsilon (self->last_mm, 300.0, 1e-9);
  type (self, "305 mm");
  g_assert_cmpfloat_with_epsilon (self->last_mm, 305.0, 1e-9);
  type (self, "12 1/2 in");
  g_assert_cmpfloat_with_epsilon (self->last_mm, 317.5, 1e-9);
  g_assert_cmpuint (self->n_committed, ==, 3);
  g_object_set (self->entry, "unit", ODD_UNIT_INCH, NULL);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (self->entry)), ==, "12 1/2 in");
  type (self, "2");
  g_assert_cmpfloat_with_epsilon (self->last_mm, 50.8, 1e-9);
}

static void
test_nonsense (Fixture       *self,
               gconstpointer  data)
{
  g_test_summary ("A text that is no length changes nothing, is marked, and is explained");
  type (self, "wide");
  g_assert_cmpuint (self->n_committed, ==, 0);
  g_assert_cmpfloat (odd_length_entry_get_value (ODD_LENGTH_ENTRY (self->entry)), ==, 12.7);
  g_assert_nonnull (odd_length_entry_get_complaint (ODD_LENGTH_ENTRY (self->entry)));
  g_assert_true (gtk_widget_has_css_class (self->entry, "error"));
  gtk_test_accessible_assert_state (self->entry, GTK_ACCESSIBLE_STATE_INVALID, GTK_ACCESSIBLE_INVALID_TRUE);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (self->entry)), ==, "wide");
  type (self, "2 cm");
  g_assert_null (odd_length_entry_get_complaint (ODD_LENGTH_ENTRY (self->entry)));
  g_assert_false (gtk_widget_has_css_class (self->entry, "error"));
  g_assert_cmpuint (self->n_committed, ==, 1);
}

static void
test_untouched (Fixture       *self,
                gconstpointer  data)
{
  g_test_summary ("Enter on a rounded figure does not round the value");
  odd_length_entry_set_value (ODD_LENGTH_ENTRY (self->entry), 88.2537);
  g_signal_emit_by_name (self->entry, "activate");
  g_assert_cmpuint (self->n_committed, ==, 0);
  g_assert_cmpfloat (odd_length_entry_get_value (ODD_LENGTH_ENTRY (self->entry)), ==, 88.2537);
}

static void
test_negative_and_empty (Fixture       *self,
                         gconstpointer  data)
{
  g_test_summary ("Below nothing, and nothing, only where they make sense");
  type (self, "-2 cm");
  type (self, "");
  g_assert_cmpuint (self->n_committed, ==, 0);
  g_object_set (self->entry, "allow-negative", TRUE, "allow-empty", TRUE, NULL);
  type (self, "-2 cm");
  g_assert_cmpfloat_with_epsilon (self->last_mm, -20.0, 1e-9);
  type (self, "");
  g_assert_true (isnan (self->last_mm));
  g_assert_cmpuint (self->n_committed, ==, 2);
}

int
main (int   argc,
      char *argv[])
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add ("/length-entry/units", Fixture, NULL, set_up, test_units, tear_down);
  g_test_add ("/length-entry/nonsense", Fixture, NULL, set_up, test_nonsense, tear_down);
  g_test_add ("/length-entry/untouched", Fixture, NULL, set_up, test_untouched, tear_down);
  g_test_add ("/length-entry/negative-and-empty", Fixture, NULL, set_up, test_negative_and_empty, tear_down);
  return g_test_run ();
}
