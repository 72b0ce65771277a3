#include "config.h"

#include "ui/remedy-dialog.h"

#include "ui/deed.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "cloth/length.h"
#include "sewing/act.h"
#include "sewing/remedies.h"
#include "ui/measure-dialog.h"
#include "ui/pane.h"
#include "ui/toast.h"

#define ODD_TYPE_REMEDY_DIALOG (odd_remedy_dialog_get_type ())
G_DECLARE_FINAL_TYPE (OddRemedyDialog, odd_remedy_dialog, ODD, REMEDY_DIALOG, AdwWindow)

typedef struct { GtkLabel *text; GtkLabel *price; GtkWidget *button; } Card;

struct _OddRemedyDialog
{
  AdwWindow parent_instance;
  OddDocument *document;
  GtkWidget *from;
  OddId textile_id;
  int unit;
  GtkLabel *about;
  GtkFlowBox *cards_box;
  GtkSpinButton *limit;
  Card cards[ODD_N_REMEDIES];
};

G_DEFINE_FINAL_TYPE (OddRemedyDialog, odd_remedy_dialog, ADW_TYPE_WINDOW)

static char *
dup_about (OddJob           *job,
           const OddUnequal *unequal,
           int               unit)
{
  g_autofree char *name = odd_job_dup_panel_name (job, odd_job_get_panel (job, g_array_index (unequal->short_panels, OddId, 0), NULL, NULL));
  g_autofree char *gap = odd_depth_format (unequal->gap_mm, unit);
  g_autofree char *wanted = odd_length_format (unequal->wanted_mm, unit);
  const guint more = unequal->short_panels->len - 1;

  if (more > 0)
    return g_strdup_printf (ngettext ("%s and %u more are %s shorter than the next longer, %s raw.", "%s and %u more are %s shorter than the next longer, %s raw.", more),
                            name, more, gap, wanted);
  return g_strdup_printf (_("%s is %s shorter than the next longer, %s raw."), name, gap, wanted);
}

static char *
dup_price (const OddRemedy *remedy,
           OddRemedyKind    kind,
           int              unit)
{
  g_autofree char *cloth = odd_area_format (remedy->cloth_mm2, unit);

  if (!remedy->possible)
    return g_strdup ("");
  if (remedy->cloth_mm2 <= 0.0)
    return g_strdup_printf (_("no cloth · about %.0f min"), ceil (remedy->minutes));
  return g_strdup_printf (kind == ODD_REMEDY_TRIM ? _("%s cut off · about %.0f min") : _("%s of cloth · about %.0f min"), cloth, ceil (remedy->minutes));
}

static void
show (OddRemedyDialog *self)
{
  OddJob *job = odd_document_get_job (self->document);
  g_autoptr(OddUnequal) unequal = odd_job_get_textile (job, self->textile_id) != NULL ? odd_job_find_unequal (job, self->textile_id, self->unit) : NULL;

  if (unequal == NULL)
    {
      gtk_window_close (GTK_WINDOW (self));
      return;
    }
  odd_label_take (self->about, dup_about (job, unequal, self->unit));
  for (guint i = 0; i < ODD_N_REMEDIES; i++)
    {
      const OddRemedy *remedy = &unequal->remedies[i];

      gtk_label_set_text (self->cards[i].text, remedy->text);
      odd_label_take (self->cards[i].price, dup_price (remedy, i, self->unit));
      gtk_widget_set_sensitive (self->cards[i].button, remedy->possible);
    }
}

/* Trimming is an act at the table and goes on record, the others are plans. */
static OddJob *
remedy (OddRemedyDialog  *self,
        OddRemedyKind     kind,
        GError          **error)
{
  OddJob *job = odd_document_get_job (self->document);
  const OddAct act = { .kind = ODD_ACT_CUT_LEVEL, .textile_id = self->textile_id, .clock_s = odd_now_s () };

  return kind == ODD_REMEDY_TRIM ? odd_job_do (job, &act, error) : odd_job_remedy (job, self->textile_id, kind, error);
}

static void
do_cb (OddRemedyDialog *self,
       GtkButton       *button)
{
  const OddRemedyKind kind = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "kind"));
  g_autoptr(GError) error = NULL;
  OddJob *job = remedy (self, kind, &error);

  if (job == NULL)
    {
      gtk_label_set_text (self->about, error->message);
      return;
    }
  /* Closes by itself when nothing is unequal any more: what was done is told in the window. */
  odd_document_apply (self->document, job, odd_remedy_kind_get_name (kind));
  odd_toast (self->from, kind == ODD_REMEDY_TRIM ? _("All panels are trimmed to the shortest.")
             : kind == ODD_REMEDY_EASE ? _("The difference is to be eased in; nothing is trimmed.")
             : kind == ODD_REMEDY_PATCH ? _("A bare patch lies at the end of the short panel. Lay a scrap on it.")
                                        : _("The seams still to sew have their new depth."), _("_Undo"), "win.undo");
  gtk_window_close (GTK_WINDOW (self));
}

static void
limit_cb (OddRemedyDialog *self)
{
  OddJob *job = odd_document_get_job (self->document);
  OddSettings settings = job->settings;
  g_autoptr(GError) error = NULL;

  settings.ease_percent = gtk_spin_button_get_value (self->limit);
  if (settings.ease_percent == job->settings.ease_percent)
    return;
  odd_apply (self->from, self->document, odd_job_set_settings (job, &settings, &error), &error, _("Set the limit of ease"));
  show (self);
}

static GtkWidget *
make_label (const char *text,
            const char *class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0.0);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 20);
  if (class != NULL)
    gtk_widget_add_css_class (label, class);
  return label;
}

static GtkWidget *
make_card (OddRemedyDialog *self,
           OddRemedyKind    kind)
{
  Card *card = &self->cards[kind];
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  gtk_widget_add_css_class (box, "card");
  gtk_widget_add_css_class (box, "remedy");
  card->text = GTK_LABEL (make_label ("", NULL));
  card->price = GTK_LABEL (make_label ("", "tabular"));
  card->button = gtk_button_new_with_label (_("Do this"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (card->button), GTK_ACCESSIBLE_PROPERTY_LABEL, odd_remedy_kind_get_name (kind), -1);
  gtk_widget_set_vexpand (GTK_WIDGET (card->text), TRUE);
  gtk_widget_set_valign (GTK_WIDGET (card->text), GTK_ALIGN_START);
  g_object_set_data (G_OBJECT (card->button), "kind", GUINT_TO_POINTER (kind));
  g_signal_connect_object (card->button, "clicked", G_CALLBACK (do_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (box), make_label (odd_remedy_kind_get_name (kind), "heading"));
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (card->text));
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (card->price));
  gtk_box_append (GTK_BOX (box), card->button);
  return box;
}

static GtkWidget *
make_limit (OddRemedyDialog *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *label = gtk_label_new_with_mnemonic (_("Ease _up to"));
  GtkWidget *limit = gtk_spin_button_new_with_range (0.0, 10.0, 0.1);

  self->limit = GTK_SPIN_BUTTON (limit);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), limit);
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), limit);
  gtk_box_append (GTK_BOX (box), gtk_label_new (_("% of the length")));
  return box;
}

static void
odd_remedy_dialog_dispose (GObject *object)
{
  OddRemedyDialog *self = ODD_REMEDY_DIALOG (object);

  g_clear_object (&self->document);
  g_clear_object (&self->from);
  G_OBJECT_CLASS (odd_remedy_dialog_parent_class)->dispose (object);
}

static void
odd_remedy_dialog_class_init (OddRemedyDialogClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = odd_remedy_dialog_dispose;
  gtk_widget_class_add_binding_action (GTK_WIDGET_CLASS (klass), GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
odd_remedy_dialog_init (OddRemedyDialog *self)
{
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *header = adw_header_bar_new ();
  GtkWidget *scrolled = gtk_scrolled_window_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);

  self->about = GTK_LABEL (make_label ("", NULL));
  gtk_label_set_max_width_chars (self->about, -1);
  self->cards_box = GTK_FLOW_BOX (gtk_flow_box_new ());
  gtk_flow_box_set_selection_mode (self->cards_box, GTK_SELECTION_NONE);
  gtk_flow_box_set_min_children_per_line (self->cards_box, 1);
  gtk_flow_box_set_max_children_per_line (self->cards_box, 2);
  gtk_flow_box_set_homogeneous (self->cards_box, TRUE);
  gtk_widget_set_valign (GTK_WIDGET (self->cards_box), GTK_ALIGN_START);
  gtk_flow_box_set_row_spacing (self->cards_box, 6);
  gtk_flow_box_set_column_spacing (self->cards_box, 6);
  for (guint i = 0; i < ODD_N_REMEDIES; i++)
    {
      gtk_flow_box_append (self->cards_box, make_card (self, i));
      /* the buttons take the keyboard, not the cards */
      gtk_widget_set_focusable (GTK_WIDGET (gtk_flow_box_get_child_at_index (self->cards_box, i)), FALSE);
    }
  gtk_widget_add_css_class (box, "pane-box");
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->about));
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->cards_box));
  gtk_box_append (GTK_BOX (box), make_limit (self));
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), box);
  gtk_widget_set_vexpand (scrolled, TRUE);
  gtk_box_append (GTK_BOX (content), header);
  gtk_box_append (GTK_BOX (content), scrolled);
  adw_window_set_content (ADW_WINDOW (self), content);
}

void
odd_remedy_dialog_present (GtkWidget   *from,
                           OddDocument *document,
                           OddId        textile_id,
                           int          unit)
{
  OddRemedyDialog *self = g_object_new (ODD_TYPE_REMEDY_DIALOG, "transient-for", gtk_widget_get_root (from), "modal", TRUE,
                                        "title", _("Unequal panels"), "default-width", 720, NULL);

  self->document = g_object_ref (document);
  self->from = g_object_ref (from);
  self->textile_id = textile_id;
  self->unit = unit;
  gtk_spin_button_set_value (self->limit, odd_document_get_job (document)->settings.ease_percent);
  g_signal_connect_object (self->limit, "value-changed", G_CALLBACK (limit_cb), self, G_CONNECT_SWAPPED);
  show (self);
  gtk_window_present (GTK_WINDOW (self));
}
