#include "config.h"

#include "ui/hint-pane.h"

#include <glib/gi18n.h>

#include "sewing/progress.h"
#include "ui/seam-facts.h"

/* More would not be read. */
#define MOST_ROWS 5

struct _OddHintPane
{
  OddPane parent_instance;
  GtkLabel *title;
  GtkLabel *text;
  GtkBox *buttons;
  GtkListBox *next_list;
};

G_DEFINE_FINAL_TYPE (OddHintPane, odd_hint_pane, ODD_TYPE_PANE)

static void
row_cb (OddHintPane *self,
        GtkWidget   *row)
{
  const OddSelected kind = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (row), "kind"));

  odd_pane_select (ODD_PANE (self), kind, GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (row), "id")));
  gtk_widget_activate_action (GTK_WIDGET (self), "win.locate", NULL);
}

static void
clear (OddHintPane *self)
{
  GtkWidget *child;
  GtkListBoxRow *row;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->buttons))) != NULL)
    gtk_box_remove (self->buttons, child);
  while ((row = gtk_list_box_get_row_at_index (self->next_list, 0)) != NULL)
    gtk_list_box_remove (self->next_list, GTK_WIDGET (row));
}

static void
say (OddHintPane *self,
     const char  *title,
     const char  *text)
{
  gtk_label_set_text (self->title, title);
  gtk_label_set_text (self->text, text);
}

static void
offer (OddHintPane *self,
       const char  *label,
       const char  *action)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (label);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_widget_add_css_class (button, "main");
  gtk_box_append (self->buttons, button);
}

static const char *
work_word (OddWork work)
{
  switch (work)
    {
    case ODD_WORK_SEW: return _("to sew");
    case ODD_WORK_FINISH: return _("to finish");
    case ODD_WORK_PRESS: return _("to press");
    default: return _("to topstitch");
    }
}

static void
add_row (OddHintPane *self,
         OddSelected  kind,
         OddId        id,
         const char  *title,
         const char  *subtitle,
         const char  *word)
{
  GtkWidget *row = adw_action_row_new ();

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), subtitle);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), gtk_label_new (word));
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), TRUE);
  g_object_set_data (G_OBJECT (row), "kind", GUINT_TO_POINTER (kind));
  g_object_set_data (G_OBJECT (row), "id", GUINT_TO_POINTER (id));
  gtk_list_box_append (self->next_list, row);
}

static guint
add_seam (OddHintPane *self,
          OddJob      *job,
          OddId        seam_id,
          guint        n_rows)
{
  g_auto(OddSeamFacts) facts = { 0 };
  g_autofree char *title = NULL;
  g_autofree char *about = NULL;

  if (n_rows >= MOST_ROWS || !odd_seam_facts_init (&facts, job, seam_id) || facts.next == ODD_WORK_NONE)
    return n_rows;
  title = odd_seam_facts_dup_title (&facts);
  about = odd_job_dup_seam_name (job, seam_id);
  add_row (self, ODD_SELECTED_SEAM, seam_id, title, about, work_word (facts.next));
  return n_rows + 1;
}

/* Begun seams first: they are what lies on the sewing table; then, as long as there is room, those to be sewn. */
static void
fill_next (OddHintPane      *self,
           OddJob           *job,
           OddTextileLayout *textile)
{
  guint n_rows = 0;

  for (guint planned = 0; planned < 2; planned++)
    for (guint p = 0; p < textile->n_panels; p++)
      {
        const OddLayout *layout = textile->panels[p].layout;

        for (guint i = 0; i < layout->n_seams && n_rows < MOST_ROWS; i++)
          {
            const OddLaidSeam *seam = &layout->seams[i];
            const OddStage stage = odd_seam_get_stage (seam->seam, seam->finish);

            if (stage != ODD_STAGE_DONE && (stage == ODD_STAGE_PLANNED) == (planned == 1))
              n_rows = add_seam (self, job, seam->seam->id, n_rows);
          }
      }
  gtk_widget_set_visible (GTK_WIDGET (self->next_list), n_rows > 0);
}

/* A textile without panels, and panels that could hang in it. */
static void
say_hang (OddHintPane *self,
          OddJob      *job)
{
  say (self, _("Hang a panel"), _("Your panels lie loose. Choose one and press “Hang in the textile”, or sew more scraps to it first."));
  for (guint i = 0; i < MIN (job->loose_panels->len, MOST_ROWS); i++)
    {
      OddPanel *panel = job->loose_panels->pdata[i];
      g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel->id);
      g_autofree char *name = odd_job_dup_panel_name (job, panel);
      g_autofree char *size = odd_length_format_pair (layout->box.width, layout->box.height, odd_pane_get_unit (ODD_PANE (self)));

      add_row (self, ODD_SELECTED_PANEL, panel->id, name, size, _("to hang"));
    }
  gtk_widget_set_visible (GTK_WIDGET (self->next_list), TRUE);
}

static void
odd_hint_pane_refresh (OddPane *pane)
{
  OddHintPane *self = ODD_HINT_PANE (pane);
  OddJob *job = odd_pane_get_job (pane);
  OddTextile *textile = odd_job_get_textile (job, odd_pane_get_textile_id (pane));
  g_autoptr(OddTextileLayout) layout = textile != NULL ? odd_job_dup_textile_layout (job, textile->id) : NULL;

  clear (self);
  gtk_widget_set_visible (GTK_WIDGET (self->next_list), FALSE);
  if (job->scraps->len == 0)
    {
      say (self, _("Begin with the tub"), _("Add your scraps by their two measures, or bring in a list of them."));
      offer (self, _("_Add scrap"), "win.add-scrap");
      offer (self, _("_Import scrap list"), "win.import");
      offer (self, _("_What can I make?"), "win.estimate");
    }
  else if (layout != NULL && layout->n_panels == 0 && job->loose_panels->len > 0)
    say_hang (self, job);
  else if (layout == NULL || layout->n_panels == 0)
    {
      say (self, _("Start a panel"), _("Drag a scrap on to the table, or press Enter on one in the tray. It becomes the first patch of a column."));
      offer (self, _("_What can I make?"), "win.estimate");
      offer (self, _("Piece by _itself…"), "win.propose");
      offer (self, _("Add a bare _panel…"), "win.add-panel");
    }
  else
    {
      const OddWorkCount count = odd_job_count_work (job, textile->id);

      if (count.n_seams > 0 && count.n_done == count.n_seams)
        say (self, _("Every seam is done"), _("Look at the whole under Textile, or sew on more scraps."));
      else
        say (self, _("What next?"), _("Drag a scrap to an open end to sew it on, or select a seam to see what it still wants."));
      offer (self, _("Piece by _itself…"), "win.propose");
      offer (self, _("Add a bare _panel…"), "win.add-panel");
      fill_next (self, job, layout);
    }
}

static void
odd_hint_pane_class_init (OddHintPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  ODD_PANE_CLASS (klass)->refresh = odd_hint_pane_refresh;
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/hint-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, OddHintPane, title);
  gtk_widget_class_bind_template_child (widget_class, OddHintPane, text);
  gtk_widget_class_bind_template_child (widget_class, OddHintPane, buttons);
  gtk_widget_class_bind_template_child (widget_class, OddHintPane, next_list);
  gtk_widget_class_bind_template_callback (widget_class, row_cb);
}

static void
odd_hint_pane_init (OddHintPane *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
