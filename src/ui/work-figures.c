#include "config.h"

#include "ui/work-figures.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "sewing/own-time.h"
#include "sewing/thread.h"
#include "ui/toast.h"

/* The figures that may be her own. */
static const struct { OddTimeFigureKind kind; double most; guint digits; } own_figures[] = {
  { ODD_TIME_SEWING_SPEED, 6000.0, 0 }, { ODD_TIME_STITCH, 6.0, 1 }, { ODD_TIME_OVERLOCKER_SPEED, 8000.0, 0 }, { ODD_TIME_HANDLING, 600.0, 0 },
  { ODD_TIME_PRESSING, 600.0, 0 }, { ODD_TIME_WALKING, 600.0, 0 },
};

typedef struct
{
  OddDocument *document;
  GtkWidget *spins[G_N_ELEMENTS (own_figures)];
  GtkWidget *resets[G_N_ELEMENTS (own_figures)];
  GtkWidget *from;
  OddPlan *plan;             /* or NULL */
  GtkLabel *times[ODD_N_STATIONS];           /* NULL: nothing to do there */
  GtkLabel *all;
  gboolean showing;
} Figures;

static double *
find_own (OddSpeeds         *speeds,
          OddTimeFigureKind  kind)
{
  switch (kind)
    {
    case ODD_TIME_SEWING_SPEED: return &speeds->sewing_per_min;
    case ODD_TIME_OVERLOCKER_SPEED: return &speeds->overlocker_per_min;
    case ODD_TIME_HANDLING: return &speeds->handling_s;
    case ODD_TIME_PRESSING: return &speeds->pressing_s_per_m;
    case ODD_TIME_WALKING: return &speeds->walk_s;
    default: return &speeds->stitch_mm;
    }
}

static void
show_range (GtkLabel *label,
            OddRange  range)
{
  g_autofree char *text = odd_range_dup_text (range);

  gtk_label_set_text (label, text);
}

/* By the speeds there are now. */
static void
show_times (Figures *self)
{
  OddWorkTime time;

  if (self->plan == NULL)
    return;
  time = odd_job_plan_time (odd_document_get_job (self->document), self->plan);
  for (guint s = 0; s < ODD_N_STATIONS; s++)
    if (self->times[s] != NULL)
      show_range (self->times[s], time.at[s]);
  show_range (self->all, time.all);
}

/* What is not hers yet begins in the middle of the usual range. */
static void
show (Figures *self)
{
  OddSpeeds *speeds = &odd_document_get_job (self->document)->settings.speeds;

  self->showing = TRUE;
  for (guint i = 0; i < G_N_ELEMENTS (own_figures); i++)
    {
      const OddTimeFigure figure = odd_time_get_figure (own_figures[i].kind, speeds);

      gtk_spin_button_set_value (GTK_SPIN_BUTTON (self->spins[i]), (figure.range.low + figure.range.high) / 2.0);
      gtk_widget_set_sensitive (self->resets[i], figure.own);
    }
  self->showing = FALSE;
  show_times (self);
}

static void
set_own (Figures *self,
         guint    at,
         double   value)
{
  OddJob *job = odd_document_get_job (self->document);
  OddSettings settings = job->settings;
  g_autoptr(GError) error = NULL;
  OddJob *after;

  *find_own (&settings.speeds, own_figures[at].kind) = value;
  after = odd_job_set_settings (job, &settings, &error);
  if (after != NULL)
    odd_document_apply (self->document, after, _("Change a speed"));
  else
    odd_toast (self->from, error->message, NULL, NULL);
  show (self);
}

static guint
find (GtkWidget *const *widgets,
      GtkWidget        *widget)
{
  guint at = 0;

  while (widgets[at] != widget)
    at++;
  return at;
}

static void
spin_cb (GtkWidget *spin,
         Figures   *self)
{
  if (!self->showing)
    set_own (self, find (self->spins, spin), gtk_spin_button_get_value (GTK_SPIN_BUTTON (spin)));
}

static void
reset_cb (GtkWidget *button,
          Figures   *self)
{
  set_own (self, find (self->resets, button), 0.0);
}

static GtkWidget *
add_row (AdwPreferencesGroup *group,
         const char          *title,
         const char          *subtitle)
{
  GtkWidget *row = adw_action_row_new ();

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  if (subtitle != NULL)
    adw_action_row_set_subtitle (ADW_ACTION_ROW (row), subtitle);
  adw_preferences_group_add (group, row);
  return row;
}

/* Takes @text. (transfer none) */
static GtkLabel *
add_value (GtkWidget *row,
           char      *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_widget_add_css_class (label, "tabular");
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), label);
  g_free (text);
  return GTK_LABEL (label);
}

static void
add_figure (Figures             *self,
            AdwPreferencesGroup *group,
            guint                at)
{
  const OddTimeFigure usual = odd_time_get_figure (own_figures[at].kind, NULL);
  const guint digits = own_figures[at].digits;
  /* translators: low, high, unit, source: "usual 300 to 500 stitches a minute: common practice, no source" */
  g_autofree char *text = g_strdup_printf (_("usual %.*f to %.*f %s: %s"), digits, usual.range.low, digits, usual.range.high, usual.unit, usual.source);
  GtkWidget *row = add_row (group, usual.name, text);
  GtkWidget *spin = gtk_spin_button_new_with_range (1.0, own_figures[at].most, digits > 0 ? 0.1 : 1.0);
  GtkWidget *reset = gtk_button_new_from_icon_name ("edit-undo-symbolic");

  gtk_spin_button_set_digits (GTK_SPIN_BUTTON (spin), digits);
  gtk_widget_set_valign (spin, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (reset, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (reset, "flat");
  gtk_widget_set_tooltip_text (reset, _("The usual figure again"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (spin), GTK_ACCESSIBLE_PROPERTY_LABEL, usual.name, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (reset), GTK_ACCESSIBLE_PROPERTY_LABEL, _("The usual figure again"), -1);
  g_signal_connect (spin, "value-changed", G_CALLBACK (spin_cb), self);
  g_signal_connect (reset, "clicked", G_CALLBACK (reset_cb), self);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), spin);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), reset);
  self->spins[at] = spin;
  self->resets[at] = reset;
}

static AdwPreferencesGroup *
add_group (AdwPreferencesPage *page,
           const char         *title,
           const char         *description)
{
  AdwPreferencesGroup *group = ADW_PREFERENCES_GROUP (adw_preferences_group_new ());

  adw_preferences_group_set_title (group, title);
  adw_preferences_group_set_description (group, description);
  adw_preferences_page_add (page, group);
  return group;
}

static void
add_times (Figures            *self,
           AdwPreferencesPage *page)
{
  OddJob *job = odd_document_get_job (self->document);
  AdwPreferencesGroup *group = add_group (page, _("Time left"), _("Estimates. The range narrows as you time your work."));
  const OddWorkTime time = odd_job_plan_time (job, self->plan);
  OddOwnTime own[ODD_N_STATIONS];

  odd_job_fit_own_times (job, own);
  for (guint s = 0; s < ODD_N_STATIONS; s++)
    {
      g_autofree char *text = own[s].n > 0 ? g_strdup_printf (ngettext ("%u timing: you take %.2f times the usual", "%u timings: you take %.2f times the usual",
                                                                        own[s].n), own[s].n, own[s].ratio)
                                           : g_strdup (_("by the figures below"));

      if (time.at[s].high > 0.0 || own[s].n > 0)
        self->times[s] = add_value (add_row (group, odd_station_get_name (s), text), odd_range_dup_text (time.at[s]));
    }
  self->all = add_value (add_row (group, _("In all"), _("walks from station to station included")), odd_range_dup_text (time.all));
}

static void
add_threads (AdwPreferencesPage *page,
             OddPlan            *plan,
             OddUnit             unit)
{
  AdwPreferencesGroup *group = add_group (page, _("Thread left"), _("15 % for ends and trials included."));
  g_autoptr(GPtrArray) uses = odd_plan_thread (plan, ODD_THREAD_WASTE);

  for (guint i = 0; i < uses->len; i++)
    {
      const OddThreadUse *use = uses->pdata[i];
      const gboolean cones = use->station == ODD_STATION_OVERLOCKER;
      const guint n = odd_thread_count_spools (use->thread_mm, cones ? ODD_CONE_M : ODD_SPOOL_M);
      g_autofree char *title = g_strdup_printf (_("Stitch %s"), use->stitch);
      g_autofree char *length = odd_run_format (use->thread_mm, unit);

      if (use->figure == NULL)
        {
          g_autofree char *run = odd_run_format (use->seam_mm, unit);

          add_value (add_row (group, title, _("no figure is known for it")), g_strdup_printf (_("%s of stitching"), run));
        }
      else
        add_value (add_row (group, title, use->figure->source),
                   cones ? g_strdup_printf (ngettext ("%s, %u cone", "%s, %u cones", n), length, n)
                         : g_strdup_printf (ngettext ("%s, %u spool", "%s, %u spools", n), length, n));
    }
  gtk_widget_set_visible (GTK_WIDGET (group), uses->len > 0);
}

static void
figures_free (gpointer data)
{
  Figures *self = data;

  g_object_unref (self->document);
  g_clear_pointer (&self->plan, odd_plan_unref);
  g_free (self);
}

void
odd_work_figures_present (GtkWidget   *from,
                          OddDocument *document,
                          OddPlan     *plan,
                          OddUnit      unit)
{
  GtkWidget *window = g_object_new (ADW_TYPE_PREFERENCES_WINDOW, "transient-for", gtk_widget_get_root (from), "modal", TRUE, "search-enabled", FALSE,
                                    "default-width", 560, "default-height", 680, "width-request", 330, "title", _("Time and thread"), NULL);
  AdwPreferencesPage *page = ADW_PREFERENCES_PAGE (adw_preferences_page_new ());
  AdwPreferencesGroup *group;
  Figures *self = g_new0 (Figures, 1);

  self->document = g_object_ref (document);
  self->from = from;
  g_object_set_data_full (G_OBJECT (window), "figures", self, figures_free);
  if (plan != NULL)
    {
      self->plan = odd_plan_ref (plan);
      add_times (self, page);
      add_threads (page, plan, unit);
    }
  group = add_group (page, _("Your speeds"), _("Where you timed your work at a station, those times count instead."));
  for (guint i = 0; i < G_N_ELEMENTS (own_figures); i++)
    add_figure (self, group, i);
  show (self);
  adw_preferences_window_add (ADW_PREFERENCES_WINDOW (window), page);
  gtk_window_present (GTK_WINDOW (window));
}
