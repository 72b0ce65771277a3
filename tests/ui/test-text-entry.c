/* What is typed into an entry belongs to the thing it was typed for. */
#include "ui/text-entry.h"

typedef struct
{
  GtkWidget *entry;
  guint n_committed;
  guint of;
  char *text;
} Fixture;

static void
committed_cb (Fixture    *self,
              guint       of,
              const char *text)
{
  self->n_committed++;
  self->of = of;
  g_free (self->text);
  self->text = g_strdup (text);
}

static void
set_up (Fixture       *self,
        gconstpointer  data)
{
  self->entry = g_object_ref_sink (g_object_new (ODD_TYPE_TEXT_ENTRY, NULL));
  g_signal_connect_swapped (self->entry, "committed", G_CALLBACK (committed_cb), self);
  odd_text_entry_show (ODD_TEXT_ENTRY (self->entry), 7, "tub 2");
}

static void
tear_down (Fixture       *self,
           gconstpointer  data)
{
  g_assert_finalize_object (self->entry);
  g_free (self->text);
}

static void
type (Fixture    *self,
      const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (self->entry), text);
}

static void
test_enter (Fixture       *self,
            gconstpointer  data)
{
  g_signal_emit_by_name (self->entry, "activate");
  g_assert_cmpuint (self->n_committed, ==, 0);
  type (self, "bag 5");
  g_signal_emit_by_name (self->entry, "activate");
  g_signal_emit_by_name (self->entry, "activate");
  g_assert_cmpuint (self->n_committed, ==, 1);
  g_assert_cmpuint (self->of, ==, 7);
  g_assert_cmpstr (self->text, ==, "bag 5");
}

static void
test_leave (Fixture       *self,
            gconstpointer  data)
{
  GtkWidget *window = gtk_window_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *button = gtk_button_new ();

  gtk_box_append (GTK_BOX (box), self->entry);
  gtk_box_append (GTK_BOX (box), button);
  gtk_window_set_child (GTK_WINDOW (window), box);
  gtk_window_present (GTK_WINDOW (window));
  gtk_widget_grab_focus (self->entry);
  type (self, "bag 6");
  gtk_widget_grab_focus (button);
  g_assert_cmpuint (self->n_committed, ==, 1);
  g_assert_cmpstr (self->text, ==, "bag 6");
  gtk_box_remove (GTK_BOX (box), self->entry);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* Another scrap is chosen while the entry still holds what was typed: it goes to the first, and late, after all panes are filled. */
static void
test_other (Fixture       *self,
            gconstpointer  data)
{
  type (self, "bag 6");
  odd_text_entry_show (ODD_TEXT_ENTRY (self->entry), 8, "tub 3");
  g_assert_cmpuint (self->n_committed, ==, 0);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (self->entry)), ==, "tub 3");
  while (g_main_context_iteration (NULL, FALSE))
    ;
  g_assert_cmpuint (self->n_committed, ==, 1);
  g_assert_cmpuint (self->of, ==, 7);
  g_assert_cmpstr (self->text, ==, "bag 6");
}

/* The job changes elsewhere while she types: her words stay. */
static void
test_same (Fixture       *self,
           gconstpointer  data)
{
  type (self, "bag 6");
  odd_text_entry_show (ODD_TEXT_ENTRY (self->entry), 7, "tub 2");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (self->entry)), ==, "bag 6");
  odd_text_entry_show (ODD_TEXT_ENTRY (self->entry), 7, NULL);
  g_signal_emit_by_name (self->entry, "activate");
  g_assert_cmpstr (self->text, ==, "bag 6");
  odd_text_entry_show (ODD_TEXT_ENTRY (self->entry), 7, "undone");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (self->entry)), ==, "undone");
}

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add ("/text-entry/enter", Fixture, NULL, set_up, test_enter, tear_down);
  g_test_add ("/text-entry/leave", Fixture, NULL, set_up, test_leave, tear_down);
  g_test_add ("/text-entry/other", Fixture, NULL, set_up, test_other, tear_down);
  g_test_add ("/text-entry/same", Fixture, NULL, set_up, test_same, tear_down);
  return g_test_run ();
}
