#include "config.h"

#include "ui/treatment-rows.h"

#include <glib/gi18n.h>

#include "ui/finish-dialog.h"
#include "ui/length-entry.h"

struct _OddTreatmentRows
{
  AdwBin parent_instance;
  OddPane *pane;           /* not ours: it holds us */
  GArray *scopes;          /* OddScope */
  OddId of;                /* of the first scope: whose rows these are */
  gboolean keep_choice;
  gboolean showing;
  GPtrArray *finishes;     /* what the rows of the list were made of */

  GtkListBox *list;
  AdwComboRow *reach;
  GtkWidget *overrule;
  AdwComboRow *finish;
  AdwActionRow *allowance_row;
  OddLengthEntry *allowance;
  GtkWidget *inherit;
  AdwActionRow *keep_row;
  GtkToggleButton *keep_size;
  GtkToggleButton *keep_cut;
};

static void buildable_init (GtkBuildableIface *iface);
G_DEFINE_FINAL_TYPE_WITH_CODE (OddTreatmentRows, odd_treatment_rows, ADW_TYPE_BIN, G_IMPLEMENT_INTERFACE (GTK_TYPE_BUILDABLE, buildable_init))

static GtkBuildableIface *parent_buildable;

enum { PROP_0, PROP_KEEP_CHOICE, N_PROPS };
static GParamSpec *props[N_PROPS];

static const OddScope *
get_scope (OddTreatmentRows *self)
{
  const guint at = adw_combo_row_get_selected (self->reach);

  return &g_array_index (self->scopes, OddScope, at < self->scopes->len ? at : 0);
}

static void
set_treatment (OddTreatmentRows *self,
               OddTreatment      treatment,
               const char       *label)
{
  const OddScope *scope = get_scope (self);
  g_autoptr(GError) error = NULL;
  const gboolean keep_cut = !gtk_toggle_button_get_active (self->keep_size);

  odd_pane_apply (self->pane, odd_job_set_treatment (odd_pane_get_job (self->pane), scope->level, scope->id, 0, &treatment, keep_cut, &error),
                  &error, label);
}

/* The first row hands the choice to the level above; the job has none. */
static gboolean
may_inherit (OddTreatmentRows *self)
{
  return get_scope (self)->level != ODD_LEVEL_JOB;
}

static void
finish_cb (OddTreatmentRows *self)
{
  const guint row = adw_combo_row_get_selected (self->finish);
  const guint skip = may_inherit (self) ? 1 : 0;
  OddTreatment treatment = { 0, NAN };

  if (self->showing || self->pane == NULL || row == GTK_INVALID_LIST_POSITION)
    return;
  if (row >= skip)
    treatment.finish_id = ((OddFinish *) g_ptr_array_index (self->finishes, row - skip))->id;
  if (!may_inherit (self))
    treatment.allowance_mm = ((OddFinish *) g_ptr_array_index (self->finishes, row))->allowance_mm;
  if (treatment.finish_id != get_scope (self)->own.finish_id)
    set_treatment (self, treatment, _("Change the finish"));
}

static void
allowance_cb (OddTreatmentRows *self,
              double            mm)
{
  OddTreatment treatment;

  if (self->pane == NULL)
    return;
  treatment = get_scope (self)->own;
  treatment.allowance_mm = mm;
  set_treatment (self, treatment, _("Change the allowance"));
}

static void
inherit_cb (OddTreatmentRows *self)
{
  OddTreatment treatment = get_scope (self)->own;

  treatment.allowance_mm = NAN;
  set_treatment (self, treatment, _("Take the allowance of the finish"));
}

static void
fill_finishes (OddTreatmentRows *self,
               OddJob           *job)
{
  const OddScope *scope = get_scope (self);
  g_autoptr(GtkStringList) names = gtk_string_list_new (NULL);
  guint selected = 0;

  if (may_inherit (self))
    gtk_string_list_append (names, scope->finish->name);
  for (guint i = 0; i < job->finishes->len; i++)
    {
      OddFinish *finish = g_ptr_array_index (job->finishes, i);

      gtk_string_list_append (names, finish->name);
      if (finish->id == scope->own.finish_id)
        selected = i + (may_inherit (self) ? 1 : 0);
    }
  g_clear_pointer (&self->finishes, g_ptr_array_unref);
  self->finishes = g_ptr_array_ref (job->finishes);
  adw_combo_row_set_model (self->finish, G_LIST_MODEL (names));
  adw_combo_row_set_selected (self->finish, selected);
}

static void
finish_setup_cb (OddTreatmentRows *self,
                 GtkListItem      *item)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0.0);
  gtk_list_item_set_child (item, label);
}

/* Only the open list says which of its names is the inherited one: in the row there is no room for it. */
static void
finish_bind_cb (OddTreatmentRows *self,
                GtkListItem      *item)
{
  const char *name = gtk_string_object_get_string (gtk_list_item_get_item (item));
  const gboolean inherited = may_inherit (self) && gtk_list_item_get_position (item) == 0;

  odd_label_take (GTK_LABEL (gtk_list_item_get_child (item)),
                  inherited ? g_strdup_printf (_("%s (inherited)"), name) : g_strdup (name));
}

static char *
dup_origin (const OddScope *scope,
            OddUnit         unit)
{
  g_autofree char *usual = odd_length_format (scope->finish->allowance_mm, unit);

  if (!isnan (scope->own.allowance_mm) && scope->level != ODD_LEVEL_JOB)
    return g_strdup_printf (_("its own; the finish has %s"), usual);
  if (fabs (scope->finish->allowance_mm - scope->allowance_mm) < 1e-9)
    return g_strdup_printf (_("%s, from the finish"), usual);
  switch (scope->level)
    {
    case ODD_LEVEL_JOB: return g_strdup_printf (_("the finish has %s"), usual);
    case ODD_LEVEL_SEAM: return g_strdup (_("from the strip or panel"));
    case ODD_LEVEL_STRIP: return g_strdup (_("from the panel"));
    case ODD_LEVEL_PANEL: return g_strdup (_("from the textile"));
    default: return g_strdup (_("from the job"));
    }
}

static void
show_overrule (OddTreatmentRows *self,
               OddJob           *job)
{
  const OddScope *scope = get_scope (self);
  const guint n = odd_job_count_own_treatments (job, scope->level, scope->id);
  g_autofree char *text = NULL;

  gtk_widget_set_visible (self->overrule, n > 0);
  if (n == 0)
    return;
  text = g_strdup_printf (ngettext ("%u within has its own", "%u within have their own", n), n);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (self->overrule), text);
}

static void
show_scope (OddTreatmentRows *self)
{
  const OddScope *scope = get_scope (self);
  OddJob *job = odd_pane_get_job (self->pane);
  const OddUnit unit = odd_pane_get_unit (self->pane);
  g_autofree char *origin = dup_origin (scope, unit);

  self->showing = TRUE;
  fill_finishes (self, job);
  g_object_set (self->allowance, "unit", unit, NULL);
  odd_length_entry_set_value (self->allowance, scope->allowance_mm);
  adw_action_row_set_subtitle (self->allowance_row, origin);
  gtk_widget_set_visible (self->inherit, may_inherit (self));
  gtk_widget_set_sensitive (self->inherit, !isnan (scope->own.allowance_mm));
  gtk_widget_set_visible (GTK_WIDGET (self->keep_row), self->keep_choice || scope->level != g_array_index (self->scopes, OddScope, 0).level);
  show_overrule (self, job);
  self->showing = FALSE;
}

static void
fill_reach (OddTreatmentRows *self,
            guint             selected)
{
  g_autoptr(GtkStringList) names = gtk_string_list_new (NULL);

  for (guint i = 0; i < self->scopes->len; i++)
    gtk_string_list_append (names, g_array_index (self->scopes, OddScope, i).name);
  adw_combo_row_set_model (self->reach, G_LIST_MODEL (names));
  adw_combo_row_set_selected (self->reach, selected);
}

static void
reach_cb (OddTreatmentRows *self)
{
  if (!self->showing && self->pane != NULL)
    show_scope (self);
}

static void
overrule_cb (OddTreatmentRows *self)
{
  const OddScope *scope = get_scope (self);
  const gboolean keep_cut = !gtk_toggle_button_get_active (self->keep_size);
  g_autoptr(GError) error = NULL;

  odd_pane_apply (self->pane, odd_job_inherit_below (odd_pane_get_job (self->pane), scope->level, scope->id, keep_cut, &error), &error,
                  _("Let all within follow"));
}

static void
steps_cb (OddTreatmentRows *self)
{
  odd_finish_dialog_present (GTK_WIDGET (self), odd_pane_get_document (self->pane), get_scope (self)->finish->id, odd_pane_get_unit (self->pane));
}

static void
compare_cb (OddTreatmentRows *self)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "win.compare-finishes", NULL);
}

void
odd_treatment_rows_show (OddTreatmentRows *self,
                         OddPane          *pane,
                         GArray           *scopes)
{
  const guint was = adw_combo_row_get_selected (self->reach);
  gboolean same;

  g_return_if_fail (ODD_IS_TREATMENT_ROWS (self) && scopes != NULL && scopes->len > 0);

  same = self->scopes != NULL && self->of == g_array_index (scopes, OddScope, 0).id && was < scopes->len;
  self->showing = TRUE;
  self->pane = pane;
  self->of = g_array_index (scopes, OddScope, 0).id;
  g_array_ref (scopes);
  g_clear_pointer (&self->scopes, g_array_unref);
  self->scopes = scopes;
  fill_reach (self, same ? was : 0);
  show_scope (self);
}

/* Further rows of the same list stand in the template of the pane. */
static void
add_child (GtkBuildable *buildable,
           GtkBuilder   *builder,
           GObject      *child,
           const char   *type)
{
  OddTreatmentRows *self = ODD_TREATMENT_ROWS (buildable);

  if (self->list != NULL && GTK_IS_LIST_BOX_ROW (child))
    gtk_list_box_append (self->list, GTK_WIDGET (child));
  else
    parent_buildable->add_child (buildable, builder, child, type);
}

static void
buildable_init (GtkBuildableIface *iface)
{
  parent_buildable = g_type_interface_peek_parent (iface);
  iface->add_child = add_child;
}

static void
odd_treatment_rows_finalize (GObject *object)
{
  OddTreatmentRows *self = ODD_TREATMENT_ROWS (object);

  g_clear_pointer (&self->finishes, g_ptr_array_unref);
  g_clear_pointer (&self->scopes, g_array_unref);
  G_OBJECT_CLASS (odd_treatment_rows_parent_class)->finalize (object);
}

static void
odd_treatment_rows_set_property (GObject      *object,
                                 guint         prop_id,
                                 const GValue *value,
                                 GParamSpec   *pspec)
{
  if (prop_id == PROP_KEEP_CHOICE)
    ODD_TREATMENT_ROWS (object)->keep_choice = g_value_get_boolean (value);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
}

static void
odd_treatment_rows_class_init (OddTreatmentRowsClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->finalize = odd_treatment_rows_finalize;
  object_class->set_property = odd_treatment_rows_set_property;
  props[PROP_KEEP_CHOICE] = g_param_spec_boolean ("keep-choice", NULL, NULL, FALSE,
                                                  G_PARAM_WRITABLE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  g_type_ensure (ODD_TYPE_LENGTH_ENTRY);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/treatment-rows.ui");
  gtk_widget_class_bind_template_child (widget_class, OddTreatmentRows, list);
  gtk_widget_class_bind_template_child (widget_class, OddTreatmentRows, reach);
  gtk_widget_class_bind_template_child (widget_class, OddTreatmentRows, overrule);
  gtk_widget_class_bind_template_child (widget_class, OddTreatmentRows, finish);
  gtk_widget_class_bind_template_child (widget_class, OddTreatmentRows, allowance_row);
  gtk_widget_class_bind_template_child (widget_class, OddTreatmentRows, allowance);
  gtk_widget_class_bind_template_child (widget_class, OddTreatmentRows, inherit);
  gtk_widget_class_bind_template_child (widget_class, OddTreatmentRows, keep_row);
  gtk_widget_class_bind_template_child (widget_class, OddTreatmentRows, keep_size);
  gtk_widget_class_bind_template_child (widget_class, OddTreatmentRows, keep_cut);
  gtk_widget_class_bind_template_callback (widget_class, reach_cb);
  gtk_widget_class_bind_template_callback (widget_class, overrule_cb);
  gtk_widget_class_bind_template_callback (widget_class, steps_cb);
  gtk_widget_class_bind_template_callback (widget_class, compare_cb);
  gtk_widget_class_bind_template_callback (widget_class, finish_cb);
  gtk_widget_class_bind_template_callback (widget_class, finish_setup_cb);
  gtk_widget_class_bind_template_callback (widget_class, finish_bind_cb);
  gtk_widget_class_bind_template_callback (widget_class, allowance_cb);
  gtk_widget_class_bind_template_callback (widget_class, inherit_cb);
}

static void
odd_treatment_rows_init (OddTreatmentRows *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
