#include "config.h"

#include "ui/propose-dialog.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "ui/cut-counter.h"
#include "ui/proposal-words.h"
#include "ui/propose-settings.h"
#include "ui/proposer.h"
#include "ui/thumbnails.h"
#include "ui/toast.h"

#define BETTER_S 15.0              /* long enough to see it get better, short enough to wait for */
#define CARD_WIDTH_PX 150          /* a caption fits, and four stand side by side */
#define AT_ONCE 3                  /* enough to choose from, and two rows of them still fit a small screen */
#define BEGIN_MS 200               /* by then the window knows its width */
#define MOST_CARDS 12              /* earlier ones go first */

#define ODD_TYPE_PROPOSE_DIALOG (odd_propose_dialog_get_type ())
G_DECLARE_FINAL_TYPE (OddProposeDialog, odd_propose_dialog, ODD, PROPOSE_DIALOG, AdwWindow)

struct _OddProposeDialog
{
  AdwWindow parent_instance;
  OddDocument *document;
  OddSelection *selection;
  OddJob *job;                     /* what the proposals are made from */
  OddProposer *proposer;
  GtkWidget *from;
  OddUnit unit;
  guint64 next_seed;
  guint n_cards;
  AdwLeaflet *leaflet;
  GtkWidget *settings_page;
  GtkWidget *proposals_page;
  OddProposeSettings *settings;
  GtkWidget *back;
  GtkWidget *take;
  GtkLabel *says;
  GtkFlowBox *cards;
  GtkLabel *missing;
  GtkLabel *remark;
  GtkFlowBox *figures;
  GtkProgressBar *progress;
  GtkWidget *stop;
  GtkWidget *better;
  GtkButton *propose;
  GtkFlowBoxChild *bettered;       /* the card whose proposal is being made better; it may be gone from the list by then */
};

G_DEFINE_FINAL_TYPE (OddProposeDialog, odd_propose_dialog, ADW_TYPE_WINDOW)

/* --- cards --- */

static OddProposed *
get_proposed (GtkFlowBoxChild *card)
{
  return g_object_get_data (G_OBJECT (card), "proposed");
}

static GtkFlowBoxChild *
get_chosen (OddProposeDialog *self)
{
  GList *chosen = gtk_flow_box_get_selected_children (self->cards);
  GtkFlowBoxChild *card = chosen != NULL ? chosen->data : NULL;

  g_list_free (chosen);
  return card;
}

/* What the card shows, now or anew. */
static void
card_show (GtkFlowBoxChild *card,
           OddProposed     *proposed)
{
  g_autofree char *caption = odd_proposal_dup_caption (odd_proposed_get_proposal (proposed));
  GtkPicture *picture = g_object_get_data (G_OBJECT (card), "picture");
  GtkLabel *label = g_object_get_data (G_OBJECT (card), "label");

  gtk_picture_set_paintable (picture, GDK_PAINTABLE (odd_proposed_get_picture (proposed)));
  gtk_picture_set_alternative_text (picture, caption);
  gtk_label_set_text (label, caption);
  gtk_accessible_update_property (GTK_ACCESSIBLE (card), GTK_ACCESSIBLE_PROPERTY_LABEL, caption, -1);
  g_object_set_data_full (G_OBJECT (card), "proposed", g_object_ref (proposed), g_object_unref);
}

static GtkFlowBoxChild *
card_new (OddProposed *proposed)
{
  GtkWidget *card = gtk_flow_box_child_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *picture = gtk_picture_new ();
  GtkWidget *label = gtk_label_new (NULL);

  gtk_widget_set_size_request (picture, CARD_WIDTH_PX, ODD_PROPOSED_HEIGHT_PX);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_widget_add_css_class (label, "second");
  gtk_box_append (GTK_BOX (box), picture);
  gtk_box_append (GTK_BOX (box), label);
  gtk_flow_box_child_set_child (GTK_FLOW_BOX_CHILD (card), box);
  g_object_set_data (G_OBJECT (card), "picture", picture);
  g_object_set_data (G_OBJECT (card), "label", label);
  card_show (GTK_FLOW_BOX_CHILD (card), proposed);
  return GTK_FLOW_BOX_CHILD (card);
}

/* --- the chosen one's figures --- */

static void
say (GtkLabel   *label,
     const char *text)
{
  gtk_label_set_text (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL);
}

static void
show_chosen (OddProposeDialog *self)
{
  GtkFlowBoxChild *card = get_chosen (self);
  OddProposed *proposed = card != NULL ? get_proposed (card) : NULL;
  const OddProposal *proposal = proposed != NULL ? odd_proposed_get_proposal (proposed) : NULL;
  const OddProposalOptions *options = proposed != NULL ? odd_proposed_get_options (proposed) : NULL;
  g_autoptr(GPtrArray) figures = NULL;

  gtk_widget_set_sensitive (self->take, proposal != NULL && proposal->figures.n_patches > 0);
  gtk_widget_set_visible (self->better, options != NULL && options->manner == ODD_PIECE_CRUMBS);
  say (self->missing, proposal != NULL ? proposal->missing : NULL);
  say (self->remark, proposal != NULL ? proposal->remark : NULL);
  figures = proposal != NULL ? odd_proposal_dup_figures (proposal, odd_proposed_get_work (proposed), options, self->unit) : odd_figure_list_new ();
  odd_figure_list_show (figures, self->figures);
}

static void
selected_cb (OddProposeDialog *self)
{
  show_chosen (self);
}

/* --- running --- */

static void
show_running (OddProposeDialog *self)
{
  const gboolean running = odd_proposer_is_running (self->proposer);

  gtk_widget_set_visible (self->stop, running);
  gtk_widget_set_opacity (GTK_WIDGET (self->progress), running ? 1.0 : 0.0);
  gtk_widget_set_sensitive (GTK_WIDGET (self->propose), !running && odd_propose_settings_can_be (self->settings));
  gtk_widget_set_sensitive (self->better, !running);
}

static void
progress_cb (OddProposeDialog *self)
{
  double progress;

  g_object_get (self->proposer, "progress", &progress, NULL);
  gtk_progress_bar_set_fraction (self->progress, progress);
}

/* The new ones stand before the earlier ones, in the order they came. */
static void
proposed_cb (OddProposeDialog *self,
             OddProposed      *proposed)
{
  GtkFlowBoxChild *card = card_new (proposed);
  GtkFlowBoxChild *last;

  say (self->says, NULL);
  gtk_flow_box_insert (self->cards, GTK_WIDGET (card), self->n_cards);
  if (self->n_cards == 0)
    gtk_flow_box_select_child (self->cards, card);
  self->n_cards++;
  while ((last = gtk_flow_box_get_child_at_index (self->cards, MOST_CARDS)) != NULL)
    gtk_flow_box_remove (self->cards, GTK_WIDGET (last));
}

/* While she watches: the same card, its figures if it is the chosen one. */
static void
bettered_cb (OddProposeDialog *self,
             OddProposed      *proposed)
{
  if (gtk_widget_get_parent (GTK_WIDGET (self->bettered)) != GTK_WIDGET (self->cards))
    return;
  card_show (self->bettered, proposed);
  if (get_chosen (self) == self->bettered)
    show_chosen (self);
}

static void
better_cb (OddProposeDialog *self)
{
  GtkFlowBoxChild *card = get_chosen (self);

  if (card == NULL || odd_proposer_is_running (self->proposer))
    return;
  g_set_object (&self->bettered, card);
  say (self->says, NULL);
  odd_proposer_better (self->proposer, get_proposed (card), BETTER_S, gtk_widget_get_scale_factor (GTK_WIDGET (self)));
}

static void
failed_cb (OddProposeDialog *self,
           const char       *why)
{
  say (self->says, why);
}

/* What is counted elsewhere is what was asked for here. An allowance that the finish brings is not typed. */
static void
keep_sizes (OddProposeDialog         *self,
            const OddProposalOptions *options)
{
  OddCutCounter *counter = odd_cut_counter_get (self->document);
  OddCutSizes sizes = { .n_templates = options->n_templates, .allowance_mm = options->treatment.allowance_mm };

  if (options->manner != ODD_PIECE_SQUARES)
    return;
  for (guint i = 0; i < options->n_templates; i++)
    sizes.templates[i] = options->templates[i];
  if (isnan (sizes.allowance_mm))
    sizes.allowance_mm = odd_cut_counter_get_allowance (counter);
  odd_cut_counter_set_sizes (counter, &sizes);
}

static void
propose_cb (OddProposeDialog *self)
{
  OddProposalOptions options;
  const char *complaint = NULL;

  if (self->proposer == NULL || odd_proposer_is_running (self->proposer) || !odd_propose_settings_can_be (self->settings))
    return;
  if (!odd_propose_settings_read (self->settings, &options, &complaint))
    {
      say (self->says, complaint);
      return;
    }
  keep_sizes (self, &options);
  options.seed = self->next_seed;
  self->next_seed += AT_ONCE;
  self->n_cards = 0;
  say (self->says, NULL);
  gtk_button_set_label (self->propose, _("_More of these"));
  adw_leaflet_set_visible_child (self->leaflet, self->proposals_page);
  odd_proposer_run (self->proposer, self->job, &options, AT_ONCE, gtk_widget_get_scale_factor (GTK_WIDGET (self)));
}

/* Other cloth is asked for: the same seeds again, so that what is compared differs by the settings alone. */
static void
changed_cb (OddProposeDialog *self)
{
  self->next_seed = 1;
  gtk_button_set_label (self->propose, _("_Propose"));
  show_running (self);
}

static void
stop_cb (OddProposeDialog *self)
{
  odd_proposer_cancel (self->proposer);
}

static char *
dup_label (const OddProposal        *proposal,
           const OddProposalOptions *options)
{
  switch (options->into)
    {
    case ODD_INTO_BARE: return g_strdup (_("Fill bare places"));
    case ODD_INTO_UNLOCKED: return g_strdup (_("Piece anew"));
    default: return g_strdup_printf (ngettext ("Piece %u panel", "Piece %u panels", proposal->panels->len), proposal->panels->len);
    }
}

static void
take_cb (OddProposeDialog *self)
{
  GtkFlowBoxChild *card = get_chosen (self);
  const OddProposal *proposal = card != NULL ? odd_proposed_get_proposal (get_proposed (card)) : NULL;
  g_autofree char *label = NULL;
  OddId first;

  if (proposal == NULL || proposal->figures.n_patches == 0)
    return;
  if (odd_document_get_job (self->document) != self->job)
    {
      say (self->says, _("The job has changed since. Propose again."));
      return;
    }
  label = dup_label (proposal, odd_proposed_get_options (get_proposed (card)));
  first = g_array_index (proposal->panels, OddId, 0);
  odd_document_apply (self->document, odd_job_ref (proposal->job), label);
  odd_selection_set (self->selection, ODD_SELECTED_PANEL, first);
  gtk_widget_activate_action (self->from, "win.stage", "s", "piecing");
  gtk_widget_activate_action (self->from, "win.fit", NULL);
  odd_toast (self->from, label, _("Undo"), "win.undo");
  gtk_window_close (GTK_WINDOW (self));
}

/* --- narrow --- */

static void
back_cb (OddProposeDialog *self)
{
  adw_leaflet_set_visible_child (self->leaflet, self->settings_page);
}

static void
folded_cb (OddProposeDialog *self)
{
  gtk_widget_set_visible (self->back, adw_leaflet_get_folded (self->leaflet) && adw_leaflet_get_visible_child (self->leaflet) == self->proposals_page);
}

/* --- life --- */

static void
odd_propose_dialog_dispose (GObject *object)
{
  OddProposeDialog *self = ODD_PROPOSE_DIALOG (object);

  if (self->proposer != NULL)
    odd_proposer_cancel (self->proposer);
  g_clear_object (&self->proposer);
  g_clear_object (&self->document);
  g_clear_object (&self->selection);
  g_clear_object (&self->from);
  g_clear_object (&self->bettered);
  g_clear_pointer (&self->job, odd_job_unref);
  G_OBJECT_CLASS (odd_propose_dialog_parent_class)->dispose (object);
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, OddProposeDialog, name)

static void
odd_propose_dialog_class_init (OddProposeDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = odd_propose_dialog_dispose;
  g_type_ensure (ODD_TYPE_PROPOSE_SETTINGS);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/propose-dialog.ui");
  BIND (leaflet);
  BIND (settings_page);
  BIND (proposals_page);
  BIND (settings);
  BIND (back);
  BIND (take);
  BIND (says);
  BIND (cards);
  BIND (missing);
  BIND (remark);
  BIND (figures);
  BIND (progress);
  BIND (stop);
  BIND (better);
  BIND (propose);
  gtk_widget_class_bind_template_callback (widget_class, back_cb);
  gtk_widget_class_bind_template_callback (widget_class, folded_cb);
  gtk_widget_class_bind_template_callback (widget_class, changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, selected_cb);
  gtk_widget_class_bind_template_callback (widget_class, take_cb);
  gtk_widget_class_bind_template_callback (widget_class, stop_cb);
  gtk_widget_class_bind_template_callback (widget_class, better_cb);
  gtk_widget_class_bind_template_callback (widget_class, propose_cb);
}

static void
odd_propose_dialog_init (OddProposeDialog *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->proposer = odd_proposer_new (odd_swatches_get_shared ());
  self->next_seed = 1;
  g_signal_connect_object (self->proposer, "notify::running", G_CALLBACK (show_running), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->proposer, "notify::progress", G_CALLBACK (progress_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->proposer, "proposed", G_CALLBACK (proposed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->proposer, "bettered", G_CALLBACK (bettered_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->proposer, "failed", G_CALLBACK (failed_cb), self, G_CONNECT_SWAPPED);
  show_running (self);
}

/* What is offered first is shown at once, where there is room to see both; a narrow window begins with what is asked for. */
static gboolean
begin_cb (gpointer data)
{
  OddProposeDialog *self = data;

  if (self->proposer != NULL && !adw_leaflet_get_folded (self->leaflet))
    propose_cb (self);
  return G_SOURCE_REMOVE;
}

void
odd_propose_dialog_present (GtkWidget    *from,
                            OddDocument  *document,
                            OddSelection *selection,
                            OddId         textile_id,
                            GArray       *shown,
                            int           unit,
                            const OddProposalOptions *offer)
{
  GtkRoot *root = gtk_widget_get_root (from);
  OddProposeDialog *self = g_object_new (ODD_TYPE_PROPOSE_DIALOG, "transient-for", root, "modal", TRUE, NULL);
  OddCutSizes sizes;

  self->from = g_object_ref (from);
  self->document = g_object_ref (document);
  self->selection = g_object_ref (selection);
  self->job = odd_job_ref (odd_document_get_job (document));
  self->unit = (OddUnit) unit;
  odd_propose_settings_start (self->settings, self->job, textile_id, self->unit, shown, odd_selection_get_kind (selection), odd_selection_get_id (selection));
  sizes = odd_cut_counter_get_sizes (odd_cut_counter_get (document));
  if (offer != NULL)
    odd_propose_settings_offer (self->settings, offer);
  else if (sizes.n_templates > 0)
    odd_propose_settings_offer_sizes (self->settings, &sizes);
  say (self->says, _("Say what cloth is wanted and press Propose. Several come side by side; what stands is left as it is."));
  gtk_window_set_default_widget (GTK_WINDOW (self), GTK_WIDGET (self->propose));
  gtk_window_present (GTK_WINDOW (self));
  g_timeout_add_full (G_PRIORITY_DEFAULT, BEGIN_MS, begin_cb, g_object_ref (self), g_object_unref);
}
