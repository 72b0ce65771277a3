#include "config.h"

#include "ui/finish-choice-dialog.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "sewing/finish-choice.h"
#include "ui/pane.h"
#include "ui/scopes.h"
#include "ui/toast.h"

#define LOOK_MS 80                 /* how often the bar follows the worker */
#define PARTS 1000.0               /* progress is handed over as a whole number */
#define NAMED_AT_MOST 8

#define ODD_TYPE_FINISH_CHOICE_DIALOG (odd_finish_choice_dialog_get_type ())
G_DECLARE_FINAL_TYPE (OddFinishChoiceDialog, odd_finish_choice_dialog, ODD, FINISH_CHOICE_DIALOG, AdwWindow)

struct _OddFinishChoiceDialog
{
  AdwWindow parent_instance;
  GtkWidget *from;
  OddDocument *document;
  OddUnit unit;
  GArray *scopes;            /* OddScope */
  GArray *pins;              /* OddTaskKey */
  gboolean filling;
  GCancellable *cancellable; /* of what runs, or NULL */
  guint look_id;
  GtkProgressBar *progress;
  AdwComboRow *reach;
  GtkToggleButton *keep_cut;
  GtkToggleButton *keep_size;
  AdwActionRow *within_row;
  GtkSwitch *within;
  GtkLabel *about;
  GtkLabel *complaint;
  GtkFlowBox *cards;
};

G_DEFINE_FINAL_TYPE (OddFinishChoiceDialog, odd_finish_choice_dialog, ADW_TYPE_WINDOW)

/* --- the worker --- */

typedef struct
{
  OddJob *job;
  GArray *pins;              /* OddTaskKey: those of the reach */
  OddFinishReach reach;
  OddChoiceFigures now;
  int done;                  /* atomic */
} Request;

static void
request_free (Request *request)
{
  odd_job_unref (request->job);
  g_array_unref (request->pins);
  g_free (request);
}

static void
progress_cb (double   done,
             gpointer data)
{
  g_atomic_int_set (&((Request *) data)->done, (int) (done * PARTS));
}

static void
compare_in_thread (GTask        *task,
                   gpointer      source,
                   gpointer      data,
                   GCancellable *cancellable)
{
  Request *request = data;
  GError *error = NULL;
  GPtrArray *choices = odd_job_compare_finishes (request->job, &request->reach, &request->now, progress_cb, request, cancellable, &error);

  if (choices != NULL)
    g_task_return_pointer (task, choices, (GDestroyNotify) g_ptr_array_unref);
  else
    g_task_return_error (task, error);
}

static void
stop (OddFinishChoiceDialog *self)
{
  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  g_clear_handle_id (&self->look_id, g_source_remove);
}

static gboolean
look_cb (gpointer data)
{
  GTask *task = data;
  OddFinishChoiceDialog *self = g_task_get_source_object (task);
  Request *request = g_task_get_task_data (task);

  gtk_progress_bar_set_fraction (self->progress, g_atomic_int_get (&request->done) / PARTS);
  return G_SOURCE_CONTINUE;
}

/* --- words --- */

static char *
dup_good_for (OddGoodFor good_for)
{
  if (good_for & ODD_GOOD_FOR_SHEER)
    return g_strdup (_("For sheer cloth and garments"));
  return g_strdup (good_for & ODD_GOOD_FOR_LINED ? _("For lined work") : _("For garments"));
}

static char *
dup_change (double      lost_mm,
            const char *less,
            const char *more,
            OddUnit     unit)
{
  g_autofree char *by = odd_length_format (fabs (lost_mm), unit);

  return g_strdup_printf (lost_mm > 0.0 ? less : more, by);
}

/* Cloth by the metre is bought in square metres, however little of it. */
static char *
dup_square_metres (double mm2,
                   int    unit)
{
  return unit == ODD_UNIT_INCH ? odd_area_format (mm2, unit) : g_strdup_printf (_("%.2f m²"), mm2 / 1e6);
}

/* Of several textiles or panels there is no one width: their cloth together. */
static char *
dup_area (const OddFinishChoice  *choice,
          const OddChoiceFigures *now,
          OddUnit                 unit)
{
  const double lost_mm2 = now->area_mm2 - choice->figures.area_mm2;
  g_autofree char *area = dup_square_metres (choice->figures.area_mm2, unit);
  g_autofree char *change = dup_square_metres (fabs (lost_mm2), unit);

  if (fabs (lost_mm2) < 1.0)
    return g_steal_pointer (&area);
  /* Translators: "1.20 m²", then on a line of its own "0.10 m² less" */
  return g_strdup_printf (lost_mm2 > 0.0 ? _("%s\n%s less") : _("%s\n%s more"), area, change);
}

/* "98.4 x 63.0 cm: 1.9 cm narrower, 0.4 cm shorter" */
static char *
dup_size (const OddFinishChoice  *choice,
          const OddChoiceFigures *now,
          OddUnit                 unit)
{
  g_autofree char *size = odd_length_format_pair (choice->figures.width_mm, choice->figures.length_mm, unit);
  g_autoptr(GString) text = g_string_new (size);

  if (now->width_mm <= 0.0 && now->area_mm2 > 0.0)
    return dup_area (choice, now, unit);
  if (fabs (choice->width_lost_mm) >= 0.05)
    {
      g_autofree char *change = dup_change (choice->width_lost_mm, _("%s narrower"), _("%s wider"), unit);

      g_string_append_printf (text, "\n%s", change);
    }
  if (fabs (choice->length_lost_mm) >= 0.05)
    {
      g_autofree char *change = dup_change (choice->length_lost_mm, _("%s shorter"), _("%s longer"), unit);

      g_string_append_printf (text, "\n%s", change);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* Stitches nobody has a figure for are told, or the sum would look whole. */
static char *
dup_thread (const OddChoiceFigures *figures,
            OddUnit                 unit)
{
  g_autofree char *thread = odd_run_format (figures->thread_mm, unit);
  g_autofree char *untold = odd_run_format (figures->untold_mm, unit);

  if (figures->untold_mm <= 0.0)
    return g_steal_pointer (&thread);
  /* Translators: a length of thread, then on a line of its own a length of stitching */
  return g_strdup_printf (_("%s\nand for %s of stitching no figure is known"), thread, untold);
}

static char *
dup_time (const OddRange *seconds)
{
  const double low = seconds->low / 60.0, high = seconds->high / 60.0;

  if (high >= 120.0)
    return g_strdup_printf (_("%.1f to %.1f h"), low / 60.0, high / 60.0);
  return g_strdup_printf (_("%.0f to %.0f min"), ceil (low), ceil (high));
}

static char *
dup_walks (const OddChoiceFigures *figures)
{
  g_autofree char *stops = g_strdup_printf (ngettext ("%u stop", "%u stops", figures->stops), figures->stops);
  g_autofree char *rounds = g_strdup_printf (ngettext ("%u round", "%u rounds", figures->rounds), figures->rounds);

  return g_strdup_printf ("%s, %s", stops, rounds);
}

static char *
dup_layers (const OddBulkSum *bulk)
{
  if (bulk->n == 0)
    return g_strdup (_("no crossing"));
  if (isnan (bulk->most_mm))
    return g_strdup_printf (_("up to %u"), bulk->most);
  return g_strdup_printf (_("up to %u, %.1f mm"), bulk->most, bulk->most_mm);
}

/* Of the cloth as it would be; what does not come from this finish is told to be elsewhere. */
static const char *
get_inside (const OddFinishChoice *choice)
{
  const gboolean elsewhere = choice->inside < odd_finish_get_edges (choice->finish);

  if (odd_edges_fit_to_be_seen (choice->inside))
    return _("fit to be seen");
  if (choice->inside == ODD_EDGES_RAW)
    return elsewhere ? _("raw edges at other seams") : _("raw edges");
  return elsewhere ? _("stitched edges at other seams") : _("stitched edges");
}

static char *
dup_broken (const OddFinishChoice *choice)
{
  g_autoptr(GString) text = g_string_new (NULL);
  const guint n = choice->misfits->len;

  if (n == 0)
    return g_strdup_printf (ngettext ("%u place would not be sound", "%u places would not be sound", choice->broken->len), choice->broken->len);
  g_string_append_printf (text, ngettext ("%u scrap would not fit any more: ", "%u scraps would not fit any more: ", n), n);
  for (guint i = 0; i < MIN (n, NAMED_AT_MOST); i++)
    g_string_append_printf (text, "%s%u", i > 0 ? ", " : "", g_array_index (choice->misfits, guint, i));
  if (n > NAMED_AT_MOST)
    g_string_append (text, " …");
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* --- cards --- */

static GtkWidget *
make_label (const char *text,
            const char *class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0.0);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 18);
  if (class != NULL)
    gtk_widget_add_css_class (label, class);
  return label;
}

/* Takes @value. */
static void
add_figure (GtkGrid    *grid,
            int         row,
            const char *title,
            char       *value)
{
  GtkWidget *name = make_label (title, "dim-label");
  GtkWidget *figure = make_label (value, "tabular");

  gtk_widget_set_valign (name, GTK_ALIGN_START);
  gtk_widget_set_hexpand (figure, TRUE);
  gtk_label_set_xalign (GTK_LABEL (figure), 1.0);
  gtk_label_set_justify (GTK_LABEL (figure), GTK_JUSTIFY_RIGHT);
  gtk_grid_attach (grid, name, 0, row, 1, 1);
  gtk_grid_attach (grid, figure, 1, row, 1, 1);
  g_free (value);
}

static GtkWidget *
make_figures (OddFinishChoiceDialog  *self,
              const OddFinishChoice  *choice,
              const OddChoiceFigures *now)
{
  GtkGrid *grid = GTK_GRID (gtk_grid_new ());
  const OddChoiceFigures *figures = &choice->figures;

  gtk_grid_set_column_spacing (grid, 9);
  gtk_grid_set_row_spacing (grid, 4);
  add_figure (grid, 0, _("Finished"), dup_size (choice, now, self->unit));
  add_figure (grid, 1, _("Thread"), dup_thread (figures, self->unit));
  add_figure (grid, 2, _("Time"), dup_time (&figures->time_s));
  add_figure (grid, 3, _("Walks"), dup_walks (figures));
  add_figure (grid, 4, _("Layers"), dup_layers (&figures->bulk));
  add_figure (grid, 5, _("Lining"), choice->lining_mm2 > 0.0 ? dup_square_metres (choice->lining_mm2, self->unit) : g_strdup (_("none")));
  add_figure (grid, 6, _("Wrong side"), g_strdup (get_inside (choice)));
  return GTK_WIDGET (grid);
}

static OddFinishReach read_reach (OddFinishChoiceDialog *self);
static void use_cb (OddFinishChoiceDialog *self, GtkButton *button);

static GtkWidget *
make_button (OddFinishChoiceDialog *self,
             const OddFinishChoice *choice)
{
  GtkWidget *button = gtk_button_new_with_label (_("Use this"));
  g_autofree char *name = g_strdup_printf (_("Use “%s”"), choice->finish->name);

  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_widget_set_sensitive (button, choice->job != NULL);
  g_object_set_data (G_OBJECT (button), "broken", GUINT_TO_POINTER (choice->job != NULL ? choice->broken->len : 0));
  g_object_set_data (G_OBJECT (button), "finish", GUINT_TO_POINTER (choice->finish->id));
  g_signal_connect_object (button, "clicked", G_CALLBACK (use_cb), self, G_CONNECT_SWAPPED);
  return button;
}

static GtkWidget *
make_head (const OddFinishChoice *choice)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *name = make_label (choice->finish->name, "heading");

  gtk_widget_set_hexpand (name, TRUE);
  gtk_box_append (GTK_BOX (head), name);
  if (choice->present)
    {
      GtkWidget *mark = gtk_image_new_from_icon_name ("object-select-symbolic");

      gtk_accessible_update_state (GTK_ACCESSIBLE (mark), GTK_ACCESSIBLE_STATE_HIDDEN, TRUE, -1);
      gtk_box_append (GTK_BOX (head), mark);
      gtk_box_append (GTK_BOX (head), make_label (_("now"), "in-hand-label"));
    }
  return head;
}

static GtkWidget *
make_card (OddFinishChoiceDialog  *self,
           const OddFinishChoice  *choice,
           const OddChoiceFigures *now)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  const char *why = NULL;
  g_autofree char *good_for = dup_good_for (odd_finish_get_good_for (choice->finish, &why));
  GtkWidget *reason = make_label (why, "second"), *button = NULL;

  /* nothing would change */
  if (!choice->present || read_reach (self).all_within)
    button = make_button (self, choice);
  gtk_widget_add_css_class (box, "card");
  gtk_widget_add_css_class (box, "remedy");
  gtk_box_append (GTK_BOX (box), make_head (choice));
  gtk_box_append (GTK_BOX (box), make_label (good_for, NULL));
  gtk_box_append (GTK_BOX (box), reason);
  gtk_box_append (GTK_BOX (box), choice->job != NULL ? make_figures (self, choice, now) : make_label (choice->refusal, "error-sentence"));
  if (choice->job != NULL && choice->broken->len > 0)
    {
      g_autofree char *broken = dup_broken (choice);

      gtk_box_append (GTK_BOX (box), make_label (broken, "error-sentence"));
    }
  if (button != NULL)
    {
      gtk_widget_set_vexpand (button, TRUE);
      gtk_widget_set_valign (button, GTK_ALIGN_END);
      gtk_box_append (GTK_BOX (box), button);
    }
  return box;
}

static void
clear_cards (OddFinishChoiceDialog *self)
{
  GtkFlowBoxChild *child;

  while ((child = gtk_flow_box_get_child_at_index (self->cards, 0)) != NULL)
    gtk_flow_box_remove (self->cards, GTK_WIDGET (child));
}

static void
compared_cb (GObject      *source,
             GAsyncResult *result,
             gpointer      data)
{
  OddFinishChoiceDialog *self = ODD_FINISH_CHOICE_DIALOG (source);
  const Request *request = g_task_get_task_data (G_TASK (result));
  g_autoptr(GPtrArray) choices = g_task_propagate_pointer (G_TASK (result), NULL);

  if (self->cancellable == NULL || self->cancellable != g_task_get_cancellable (G_TASK (result)))
    return;
  g_clear_object (&self->cancellable);
  g_clear_handle_id (&self->look_id, g_source_remove);
  gtk_widget_set_visible (GTK_WIDGET (self->progress), FALSE);
  gtk_widget_set_sensitive (GTK_WIDGET (self->cards), TRUE);
  clear_cards (self);
  for (guint i = 0; choices != NULL && i < choices->len; i++)
    {
      gtk_flow_box_append (self->cards, make_card (self, choices->pdata[i], &request->now));
      /* the buttons take the keyboard, not the cards */
      gtk_widget_set_focusable (GTK_WIDGET (gtk_flow_box_get_child_at_index (self->cards, i)), FALSE);
    }
}

/* --- asking and taking --- */

static const OddScope *
get_scope (OddFinishChoiceDialog *self)
{
  const guint at = adw_combo_row_get_selected (self->reach);

  return &g_array_index (self->scopes, OddScope, at < self->scopes->len ? at : 0);
}

static OddFinishReach
read_reach (OddFinishChoiceDialog *self)
{
  const OddScope *scope = get_scope (self);

  return (OddFinishReach) {
    .level = scope->level,
    .id = scope->id,
    .keep_cut = gtk_toggle_button_get_active (self->keep_cut),
    .all_within = gtk_widget_get_visible (GTK_WIDGET (self->within_row)) && gtk_switch_get_active (self->within),
    .pins = (const OddTaskKey *) (gpointer) self->pins->data,
    .n_pins = self->pins->len,
  };
}

static void
show_within (OddFinishChoiceDialog *self)
{
  const OddScope *scope = get_scope (self);
  const guint n = scope->level == ODD_LEVEL_SEAM ? 0 : odd_job_count_own_treatments (odd_document_get_job (self->document), scope->level, scope->id);
  g_autofree char *text = g_strdup_printf (ngettext ("%u within has its own", "%u within have their own", n), n);

  gtk_widget_set_visible (GTK_WIDGET (self->within_row), n > 0);
  adw_action_row_set_subtitle (self->within_row, text);
}

static void
ask (OddFinishChoiceDialog *self)
{
  Request *request = g_new0 (Request, 1);
  g_autoptr(GTask) task = NULL;

  stop (self);
  show_within (self);
  request->job = odd_job_ref (odd_document_get_job (self->document));
  request->pins = g_array_ref (self->pins);
  request->reach = read_reach (self);
  self->cancellable = g_cancellable_new ();
  task = g_task_new (self, self->cancellable, compared_cb, NULL);
  g_task_set_task_data (task, request, (GDestroyNotify) request_free);
  gtk_progress_bar_set_fraction (self->progress, 0.0);
  gtk_widget_set_visible (GTK_WIDGET (self->progress), TRUE);
  /* what they say is no longer asked */
  gtk_widget_set_sensitive (GTK_WIDGET (self->cards), FALSE);
  gtk_widget_set_visible (GTK_WIDGET (self->complaint), FALSE);
  self->look_id = g_timeout_add_full (G_PRIORITY_DEFAULT, LOOK_MS, look_cb, g_object_ref (task), g_object_unref);
  g_task_run_in_thread (task, compare_in_thread);
}

static void
asked_cb (OddFinishChoiceDialog *self)
{
  if (!self->filling && self->document != NULL)
    ask (self);
}

/* What is not sound then can be looked at place by place; undo has its key. */
static void
tell (OddFinishChoiceDialog *self,
      const OddFinish       *finish,
      guint                  n_broken)
{
  g_autofree char *text = NULL;

  if (n_broken == 0)
    {
      text = g_strdup_printf (_("%s: finish “%s”"), get_scope (self)->name, finish->name);
      odd_toast (self->from, text, _("_Undo"), "win.undo");
      return;
    }
  text = g_strdup_printf (ngettext ("Finish “%2$s”: %1$u place is no longer sound", "Finish “%2$s”: %1$u places are no longer sound", n_broken),
                          n_broken, finish->name);
  odd_toast (self->from, text, _("_Show"), "win.next-finding");
}

/* As the cards say; worked out again on the job as it is now. */
static void
use_cb (OddFinishChoiceDialog *self,
        GtkButton             *button)
{
  OddJob *job = odd_document_get_job (self->document);
  OddFinish *finish = odd_job_get_finish (job, GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "finish")));
  const OddFinishReach reach = read_reach (self);
  g_autoptr(GError) error = NULL;
  OddJob *after = odd_job_choose_finish (job, &reach, finish->id, &error);

  if (after == NULL)
    {
      gtk_label_set_text (self->complaint, error->message);
      gtk_widget_set_visible (GTK_WIDGET (self->complaint), TRUE);
      return;
    }
  odd_document_apply (self->document, after, _("Change the finish"));
  tell (self, finish, GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "broken")));
  gtk_window_close (GTK_WINDOW (self));
}

static void
fill_reach (OddFinishChoiceDialog *self)
{
  g_autoptr(GtkStringList) names = gtk_string_list_new (NULL);

  for (guint i = 0; i < self->scopes->len; i++)
    gtk_string_list_append (names, g_array_index (self->scopes, OddScope, i).name);
  self->filling = TRUE;
  adw_combo_row_set_model (self->reach, G_LIST_MODEL (names));
  adw_combo_row_set_selected (self->reach, 0);
  self->filling = FALSE;
}

static void
odd_finish_choice_dialog_dispose (GObject *object)
{
  OddFinishChoiceDialog *self = ODD_FINISH_CHOICE_DIALOG (object);

  stop (self);
  g_clear_object (&self->document);
  g_clear_object (&self->from);
  g_clear_pointer (&self->scopes, g_array_unref);
  g_clear_pointer (&self->pins, g_array_unref);
  G_OBJECT_CLASS (odd_finish_choice_dialog_parent_class)->dispose (object);
}

/* What still runs holds a reference: it is called off as the window goes. */
static gboolean
odd_finish_choice_dialog_close_request (GtkWindow *window)
{
  stop (ODD_FINISH_CHOICE_DIALOG (window));
  return GTK_WINDOW_CLASS (odd_finish_choice_dialog_parent_class)->close_request (window);
}

static void
odd_finish_choice_dialog_class_init (OddFinishChoiceDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = odd_finish_choice_dialog_dispose;
  GTK_WINDOW_CLASS (klass)->close_request = odd_finish_choice_dialog_close_request;
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/finish-choice-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, OddFinishChoiceDialog, progress);
  gtk_widget_class_bind_template_child (widget_class, OddFinishChoiceDialog, reach);
  gtk_widget_class_bind_template_child (widget_class, OddFinishChoiceDialog, keep_cut);
  gtk_widget_class_bind_template_child (widget_class, OddFinishChoiceDialog, keep_size);
  gtk_widget_class_bind_template_child (widget_class, OddFinishChoiceDialog, within_row);
  gtk_widget_class_bind_template_child (widget_class, OddFinishChoiceDialog, within);
  gtk_widget_class_bind_template_child (widget_class, OddFinishChoiceDialog, about);
  gtk_widget_class_bind_template_child (widget_class, OddFinishChoiceDialog, complaint);
  gtk_widget_class_bind_template_child (widget_class, OddFinishChoiceDialog, cards);
  gtk_widget_class_bind_template_callback (widget_class, asked_cb);
}

static void
odd_finish_choice_dialog_init (OddFinishChoiceDialog *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
odd_finish_choice_dialog_present (GtkWidget   *from,
                                  OddDocument *document,
                                  GArray      *scopes,
                                  GArray      *pins,
                                  int          unit)
{
  GtkRoot *root = gtk_widget_get_root (from);
  OddFinishChoiceDialog *self;

  g_return_if_fail (scopes != NULL && scopes->len > 0);

  self = g_object_new (ODD_TYPE_FINISH_CHOICE_DIALOG, "transient-for", root, "modal", TRUE, NULL);
  self->from = g_object_ref (from);
  self->document = g_object_ref (document);
  self->unit = unit;
  self->scopes = g_array_ref (scopes);
  self->pins = pins != NULL ? g_array_copy (pins) : g_array_new (FALSE, FALSE, sizeof (OddTaskKey));
  fill_reach (self);
  ask (self);
  gtk_window_present (GTK_WINDOW (self));
}
