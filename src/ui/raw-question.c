#include "config.h"

#include "ui/raw-question.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "ui/deed.h"
#include "ui/seam-facts.h"
#include "ui/steps.h"
#include "ui/toast.h"

typedef struct
{
  GtkWidget *from;
  OddDocument *document;
  OddSelection *selection;
  OddId seam_id;
  OddId first_raw;
  int operation;            /* -1: the next */
} Question;

static void
question_free (Question *question)
{
  g_object_unref (question->from);
  g_object_unref (question->document);
  g_object_unref (question->selection);
  g_free (question);
}

static void
question_closure_free (gpointer  data,
                       GClosure *closure)
{
  question_free (data);
}

static char *
dup_label (OddJob *job,
           OddId   seam_id,
           int     operation)
{
  g_auto(OddSeamFacts) facts = { 0 };
  g_autofree char *title = NULL;
  guint i;

  if (!odd_seam_facts_init (&facts, job, seam_id))
    return g_strdup (_("Mark the seam"));
  title = odd_seam_facts_dup_title (&facts);
  i = operation >= 0 ? (guint) operation : facts.next_operation;
  if (i >= facts.finish->n_operations)
    return g_strdup (title);
  /* translators: an undo step: "Overlock: Seam 4 · 5" */
  return g_strdup_printf (_("%s: %s"), odd_operation_get_short_name (&facts.finish->operations[i]), title);
}

/* One act for each operation up to the last that is to be marked; they are one step of undo. (transfer full) */
static OddJob *
mark_up_to (Question  *question,
            GError   **error)
{
  g_autoptr(OddJob) job = odd_job_ref (odd_document_get_job (question->document));
  const OddAct act = { .kind = ODD_ACT_MARK, .seam_id = question->seam_id, .operation = ODD_ACT_NEXT, .anyway = question->first_raw != 0 };

  for (;;)
    {
      g_auto(OddSeamFacts) facts = { 0 };
      OddJob *next;

      if (!odd_seam_facts_init (&facts, job, question->seam_id) || facts.next_operation > (guint) question->operation)
        return g_steal_pointer (&job);
      next = odd_job_do_now (job, &act, error);
      if (next == NULL)
        return NULL;
      odd_job_unref (job);
      job = next;
    }
}

/* With raw ends enclosed or none to enclose. */
static void
mark (Question *question)
{
  OddJob *job = odd_document_get_job (question->document);
  g_autofree char *label = dup_label (job, question->seam_id, question->operation);
  const OddAct act = { .kind = ODD_ACT_MARK, .seam_id = question->seam_id, .operation = ODD_ACT_NEXT, .anyway = question->first_raw != 0 };
  g_autoptr(GError) error = NULL;

  if (question->operation < 0)
    odd_do (question->from, question->document, &act, label);
  else
    odd_apply (question->from, question->document, mark_up_to (question, &error), &error, label);
}

static void
answer_cb (Question   *question,
           const char *response)
{
  if (g_str_equal (response, "sew"))
    mark (question);
  else if (g_str_equal (response, "finish"))
    odd_selection_set (question->selection, ODD_SELECTED_SEAM, question->first_raw);
}

/* Would the marking join something? Only that encloses ends. */
static gboolean
sews (OddJob *job,
      OddId   seam_id,
      int     operation)
{
  g_auto(OddSeamFacts) facts = { 0 };
  guint first_sew;

  if (!odd_seam_facts_init (&facts, job, seam_id))
    return FALSE;
  first_sew = odd_finish_first_sew (facts.finish);
  if (odd_progress_get_state (facts.seam->progress, first_sew) == ODD_STATE_DONE)
    return FALSE;
  return operation < 0 ? facts.next_operation == first_sew : (guint) operation >= first_sew;
}

static void
ask (Question *question,
     guint     n_raw)
{
  GtkRoot *root = gtk_widget_get_root (question->from);
  GtkWidget *dialog = adw_message_dialog_new (GTK_IS_WINDOW (root) ? GTK_WINDOW (root) : NULL, _("Sew over raw ends?"), NULL);
  AdwMessageDialog *message = ADW_MESSAGE_DIALOG (dialog);
  static const char *const words[] = { N_("no"), N_("One"), N_("Two"), N_("Three"), N_("Four"), N_("Five"), N_("Six") };
  g_autofree char *number = n_raw < G_N_ELEMENTS (words) ? g_strdup (_(words[n_raw])) : g_strdup_printf ("%u", n_raw);

  adw_message_dialog_format_body (message, ngettext ("%s seam ending here is not finished and pressed. Sewn over now, its edges stay raw inside for good.",
                                                     "%s seams ending here are not finished and pressed. Sewn over now, their edges stay raw inside for good.",
                                                     n_raw), number);
  adw_message_dialog_add_responses (message, "cancel", _("_Cancel"), "finish", _("_Finish first"), "sew", _("_Sew anyway"), NULL);
  adw_message_dialog_set_response_appearance (message, "finish", ADW_RESPONSE_SUGGESTED);
  adw_message_dialog_set_response_appearance (message, "sew", ADW_RESPONSE_DESTRUCTIVE);
  adw_message_dialog_set_default_response (message, "finish");
  adw_message_dialog_set_close_response (message, "cancel");
  g_signal_connect_data (message, "response", G_CALLBACK (answer_cb), question, question_closure_free, G_CONNECT_SWAPPED);
  gtk_window_present (GTK_WINDOW (dialog));
}

void
odd_mark_up_to_asking (GtkWidget    *from,
                       OddDocument  *document,
                       OddSelection *selection,
                       OddId         seam_id,
                       guint         operation)
{
  OddJob *job = odd_document_get_job (document);
  Question *question = g_new0 (Question, 1);
  g_autoptr(GArray) raw = NULL;

  question->from = g_object_ref (from);
  question->document = g_object_ref (document);
  question->selection = g_object_ref (selection);
  question->seam_id = seam_id;
  question->operation = (int) operation;
  if (sews (job, seam_id, question->operation))
    raw = odd_job_would_enclose (job, seam_id);
  if (raw != NULL && raw->len > 0)
    {
      question->first_raw = g_array_index (raw, guint, 0);
      ask (question, raw->len);
      return;
    }
  mark (question);
  question_free (question);
}

void
odd_mark_next_asking (GtkWidget    *from,
                      OddDocument  *document,
                      OddSelection *selection,
                      OddId         seam_id)
{
  odd_mark_up_to_asking (from, document, selection, seam_id, (guint) -1);
}
