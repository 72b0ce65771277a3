#include "config.h"

#include "ui/text-entry.h"

struct _OddTextEntry
{
  GtkEntry parent_instance;
  OddId of;
  char *shown;
};

G_DEFINE_FINAL_TYPE (OddTextEntry, odd_text_entry, GTK_TYPE_ENTRY)

enum { COMMITTED, N_SIGNALS };
static guint signals[N_SIGNALS];

static gboolean
is_as_shown (OddTextEntry *self)
{
  return g_str_equal (self->shown, gtk_editable_get_text (GTK_EDITABLE (self)));
}

static void
set_shown (OddTextEntry *self,
           const char   *text)
{
  g_free (self->shown);
  self->shown = g_strdup (text);
}

static void
commit_cb (OddTextEntry *self)
{
  g_autofree char *text = g_strdup (gtk_editable_get_text (GTK_EDITABLE (self)));

  if (is_as_shown (self))
    return;
  set_shown (self, text);
  g_signal_emit (self, signals[COMMITTED], 0, self->of, text);
}

static gboolean
key_cb (OddTextEntry *self,
        guint         keyval)
{
  if (keyval != GDK_KEY_Escape || is_as_shown (self))
    return FALSE;
  gtk_editable_set_text (GTK_EDITABLE (self), self->shown);
  return TRUE;
}

typedef struct { OddTextEntry *entry; OddId of; char *text; } Late;

static gboolean
late_cb (gpointer data)
{
  Late *late = data;

  g_signal_emit (late->entry, signals[COMMITTED], 0, late->of, late->text);
  return G_SOURCE_REMOVE;
}

static void
late_free (gpointer data)
{
  Late *late = data;

  g_object_unref (late->entry);
  g_free (late->text);
  g_free (late);
}

/* Another thing is shown before this one was left. An edit while panes are being filled would call them again, so it comes after. */
static void
commit_late (OddTextEntry *self)
{
  Late *late = g_new (Late, 1);

  *late = (Late) { g_object_ref (self), self->of, g_strdup (gtk_editable_get_text (GTK_EDITABLE (self))) };
  g_idle_add_full (G_PRIORITY_HIGH_IDLE, late_cb, late, late_free);
}

static void
odd_text_entry_finalize (GObject *object)
{
  g_free (ODD_TEXT_ENTRY (object)->shown);
  G_OBJECT_CLASS (odd_text_entry_parent_class)->finalize (object);
}

static void
odd_text_entry_class_init (OddTextEntryClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = odd_text_entry_finalize;
  signals[COMMITTED] = g_signal_new ("committed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                     G_TYPE_NONE, 2, G_TYPE_UINT, G_TYPE_STRING);
}

static void
odd_text_entry_init (OddTextEntry *self)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkEventController *key = gtk_event_controller_key_new ();

  self->shown = g_strdup ("");
  g_signal_connect (self, "activate", G_CALLBACK (commit_cb), NULL);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (commit_cb), self);
  g_signal_connect_swapped (key, "key-pressed", G_CALLBACK (key_cb), self);
  gtk_event_controller_set_propagation_phase (key, GTK_PHASE_CAPTURE);
  gtk_widget_add_controller (GTK_WIDGET (self), focus);
  gtk_widget_add_controller (GTK_WIDGET (self), key);
}

void
odd_text_entry_show (OddTextEntry *self,
                     OddId         of,
                     const char   *text)
{
  g_autofree char *fresh = g_strdup (text != NULL ? text : "");
  gboolean typing;

  g_return_if_fail (ODD_IS_TEXT_ENTRY (self));

  typing = !is_as_shown (self);
  if (typing && of != self->of)
    commit_late (self);
  set_shown (self, fresh);
  if (!typing || of != self->of)
    gtk_editable_set_text (GTK_EDITABLE (self), fresh);
  self->of = of;
}
