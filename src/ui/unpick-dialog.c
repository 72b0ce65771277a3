#include "config.h"

#include "ui/unpick-dialog.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "sewing/unpick.h"
#include "ui/deed.h"
#include "ui/form-grid.h"
#include "ui/length-entry.h"
#include "ui/seam-facts.h"
#include "ui/toast.h"

#define NAMED_AT_MOST 6

typedef struct
{
  GtkWidget *from;
  OddDocument *document;
  OddId seam_id;
  GtkDropDown *why;
  GtkEditable *words;
  OddLengthEntry *lost;
  GtkLabel *complaint;
  AdwMessageDialog *dialog;
} Request;

static const char *const reasons[] = { N_("Wrong allowance"), N_("Stain or fault in the cloth"), N_("Wrong sides together"), N_("Puckered or crooked"), N_("Another reason") };

static void
request_free (gpointer  data,
              GClosure *closure)
{
  Request *request = data;

  g_object_unref (request->from);
  g_object_unref (request->document);
  g_free (request);
}

static char *
dup_title (OddJob *job,
           OddId   seam_id)
{
  g_auto(OddSeamFacts) facts = { 0 };

  return odd_seam_facts_init (&facts, job, seam_id) ? odd_seam_facts_dup_title (&facts) : g_strdup ("");
}

/* Her own words go before what was picked; without them the picked ones do. */
static char *
dup_reason (Request *request)
{
  const guint at = gtk_drop_down_get_selected (request->why);
  g_autofree char *words = g_strstrip (g_strdup (gtk_editable_get_text (request->words)));
  const char *picked = at + 1 < G_N_ELEMENTS (reasons) ? _(reasons[at]) : NULL;

  if (picked == NULL)
    return *words != '\0' ? g_steal_pointer (&words) : NULL;
  return *words != '\0' ? g_strdup_printf ("%s: %s", picked, words) : g_strdup (picked);
}

static void
answer_cb (Request    *request,
           const char *response)
{
  g_autofree char *reason = NULL;
  g_autofree char *title = NULL;
  g_autofree char *label = NULL;
  double lost_mm = 0.0;
  OddAct act = { .kind = ODD_ACT_UNPICK, .seam_id = request->seam_id, .figures = &lost_mm, .n_figures = 1 };

  if (!g_str_equal (response, "unpick") || !odd_length_entry_peek (request->lost, &lost_mm, NULL))
    return;
  reason = dup_reason (request);
  title = dup_title (odd_document_get_job (request->document), request->seam_id);
  label = g_strdup_printf (_("Unpick %s"), title);
  act.reason = reason;
  odd_do (request->from, request->document, &act, label);
}

/* --- what it says --- */

static char *
dup_others (OddJob             *job,
            const OddUnpicking *plan)
{
  g_autoptr(GString) text = g_string_new (NULL);

  for (guint i = 0; i + 1 < plan->seams->len && i < NAMED_AT_MOST; i++)
    {
      g_autofree char *title = dup_title (job, g_array_index (plan->seams, OddId, i));

      g_string_append_printf (text, "%s%s", i > 0 ? ", " : "", title);
    }
  if (plan->seams->len > NAMED_AT_MOST + 1)
    g_string_append (text, ", …");
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static char *
dup_body (OddJob             *job,
          const OddUnpicking *plan,
          OddId               seam_id)
{
  const guint n_others = plan->seams->len - 1;
  g_autofree char *others = dup_others (job, plan);
  g_autoptr(GString) text = g_string_new (NULL);

  if (n_others > 0)
    g_string_append_printf (text, ngettext ("Also %s, sewn across its end: open it first.",
                                            "Also %s, sewn across its ends: open these first, in this order.", n_others), others);
  else
    g_string_append (text, _("No other seam has to be opened for it."));
  g_string_append_c (text, '\n');
  /* Translators: metres of stitching to be unpicked */
  g_string_append_printf (text, _("%.2f m of stitching to take out."), plan->stitching_mm / 1000.0);
  if (odd_job_seam_is_trimmed (job, seam_id))
    {
      g_string_append_c (text, '\n');
      g_string_append (text, _("Its edges were cut back while it was finished: what is gone there counts as lost."));
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* A length that cannot be lost is refused where it is typed: once the dialog has closed, all that was chosen is gone. */
static void
lost_changed_cb (Request *request)
{
  OddJob *job = odd_document_get_job (request->document);
  double lost_mm = 0.0;
  g_autoptr(GError) error = NULL;
  g_autoptr(OddJob) after = odd_length_entry_peek (request->lost, &lost_mm, &error) ? odd_job_unpick (job, request->seam_id, lost_mm, &error) : NULL;

  odd_complain (request->complaint, after != NULL ? NULL : error->message);
  adw_message_dialog_set_response_enabled (request->dialog, "unpick", after != NULL);
}

static GtkWidget *
make_grid (Request *request,
           int      unit)
{
  GtkWidget *grid = odd_form_grid_new ();
  GtkStringList *names = gtk_string_list_new (NULL);
  GtkWidget *words = gtk_entry_new ();
  GtkWidget *lost = odd_length_entry_new ();

  for (guint i = 0; i < G_N_ELEMENTS (reasons); i++)
    gtk_string_list_append (names, _(reasons[i]));
  request->why = GTK_DROP_DOWN (gtk_drop_down_new (G_LIST_MODEL (names), NULL));
  request->words = GTK_EDITABLE (words);
  request->lost = ODD_LENGTH_ENTRY (lost);
  gtk_entry_set_placeholder_text (GTK_ENTRY (words), _("in your own words"));
  gtk_entry_set_activates_default (GTK_ENTRY (words), TRUE);
  g_object_set (lost, "unit", unit, NULL);
  odd_length_entry_set_value (request->lost, 0.0);
  gtk_entry_set_activates_default (GTK_ENTRY (lost), TRUE);
  gtk_widget_set_tooltip_text (lost, _("Cloth frayed or cut away along each of the two edges: the allowance stays, the patches become so much smaller"));
  g_signal_connect_swapped (lost, "changed", G_CALLBACK (lost_changed_cb), request);
  odd_form_grid_add (GTK_GRID (grid), _("_Why"), GTK_WIDGET (request->why));
  odd_form_grid_add (GTK_GRID (grid), _("_Note"), words);
  odd_form_grid_add (GTK_GRID (grid), _("_Lost at each edge"), lost);
  request->complaint = odd_form_grid_add_complaint (GTK_GRID (grid));
  return grid;
}

void
odd_unpick_dialog_present (GtkWidget   *from,
                           OddDocument *document,
                           OddId        seam_id,
                           int          unit)
{
  GtkRoot *root = gtk_widget_get_root (from);
  OddJob *job = odd_document_get_job (document);
  g_autoptr(GError) error = NULL;
  g_autoptr(OddUnpicking) plan = odd_job_plan_unpicking (job, seam_id, &error);
  g_autofree char *title = NULL;
  g_autofree char *heading = NULL;
  g_autofree char *body = NULL;
  GtkWidget *dialog;
  Request *request;

  if (plan == NULL)
    {
      odd_toast (from, error->message, NULL, NULL);
      return;
    }
  title = dup_title (job, seam_id);
  heading = g_strdup_printf (_("Unpick %s?"), title);
  body = dup_body (job, plan, seam_id);
  dialog = adw_message_dialog_new (GTK_WINDOW (root), heading, body);
  request = g_new0 (Request, 1);
  request->from = g_object_ref (from);
  request->document = g_object_ref (document);
  request->seam_id = seam_id;
  request->dialog = ADW_MESSAGE_DIALOG (dialog);
  adw_message_dialog_set_extra_child (ADW_MESSAGE_DIALOG (dialog), make_grid (request, unit));
  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "cancel", _("_Cancel"), "unpick", _("_Unpick"), NULL);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "unpick", ADW_RESPONSE_SUGGESTED);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "unpick");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  g_signal_connect_data (dialog, "response", G_CALLBACK (answer_cb), request, request_free, G_CONNECT_SWAPPED);
  gtk_window_set_focus (GTK_WINDOW (dialog), GTK_WIDGET (request->words));      /* so that Enter unpicks */
  gtk_window_present (GTK_WINDOW (dialog));
}
