#include "config.h"

#include "ui/tray.h"

#include <glib/gi18n.h>

#include "cloth/length.h"
#include "ui/length-entry.h"
#include "ui/glyph.h"
#include "ui/scrap-item.h"
#include "ui/toast.h"

#define STRIP_HEIGHT_PX 112

struct _OddTray
{
  GtkWidget parent_instance;
  OddDocument *document;
  OddSelection *selection;
  OddScrapModel *model;
  OddThumbnails *thumbnails;
  GtkSingleSelection *chosen;
  int unit;
  guint in_hand;
  char *manner;
  gboolean following; /* the list follows the selection, not the other way round */

  GtkWidget *head;
  GtkWidget *foot;
  GtkWidget *search;
  GtkWidget *filter_button;
  GtkDropDown *fabric_filter;
  OddLengthEntry *size_filter;
  GtkDropDown *lightness_filter;
  GtkDropDown *shown_filter;
  GtkLabel *count;
  GtkDropDown *sort;
  GtkStack *stack;
  GtkScrolledWindow *scroller;
  GtkGridView *grid;
  GtkWidget *scale_bar;
  GtkLabel *scale_label;
  GArray *fabric_ids; /* of the rows of the fabric filter; the first is 0 */
  gboolean filling;
};

G_DEFINE_FINAL_TYPE (OddTray, odd_tray, GTK_TYPE_WIDGET)

enum { PROP_0, PROP_DOCUMENT, PROP_SELECTION, PROP_UNIT, PROP_IN_HAND, PROP_MANNER, N_PROPS };
enum { TAKE, CARRIED, LET_GO, N_SIGNALS };
static GParamSpec *props[N_PROPS];
static guint signals[N_SIGNALS];

static gboolean
is_manner (OddTray    *self,
           const char *manner)
{
  return g_str_equal (self->manner, manner);
}

/* --- one scale for all --- */

/* The longest side of any scrap gets this much room. */
static double
room_px (OddTray *self)
{
  return is_manner (self, "page") ? 150.0 : is_manner (self, "strip") ? 64.0 : 100.0;
}

static double
longest_side_mm (OddTray *self)
{
  OddJob *job = odd_document_get_job (self->document);
  double longest = 0.0;

  for (guint i = 0; i < job->scraps->len; i++)
    {
      const OddBox box = odd_scrap_get_box (g_ptr_array_index (job->scraps, i));

      longest = MAX (longest, is_manner (self, "strip") ? box.height : MAX (box.width, box.height * 0.9));
    }
  return longest;
}

static void
choose_scale (OddTray *self)
{
  const double longest = longest_side_mm (self);
  const double wanted = longest > 0.0 ? room_px (self) / longest : 0.3;
  /* in steps, so that adding one scrap does not draw all anew */
  const double step = exp2 (floor (log2 (CLAMP (wanted, 0.05, is_manner (self, "page") ? 0.6 : 0.36)) * 8.0) / 8.0);
  const gboolean inches = self->unit == ODD_UNIT_INCH;
  const double bar_mm = inches ? 101.6 : 100.0;

  odd_thumbnails_set_scale (self->thumbnails, step, gtk_widget_get_scale_factor (GTK_WIDGET (self)));
  gtk_widget_set_size_request (self->scale_bar, ceil (bar_mm * step), -1);
  gtk_label_set_text (self->scale_label, inches ? _("4 in") : self->unit == ODD_UNIT_MM ? _("100 mm") : _("10 cm"));
}

/* --- the list --- */

static void
carried_cb (OddTray      *self,
            guint         scrap_id,
            double        x,
            double        y,
            gboolean      shift,
            OddScrapItem *item)
{
  gtk_widget_translate_coordinates (GTK_WIDGET (item), GTK_WIDGET (self), x, y, &x, &y);
  g_signal_emit (self, signals[CARRIED], 0, scrap_id, x, y, shift);
}

static void
let_go_cb (OddTray *self)
{
  g_signal_emit (self, signals[LET_GO], 0);
}

static void
setup_cb (OddTray     *self,
          GtkListItem *item)
{
  GtkWidget *child = odd_scrap_item_new (is_manner (self, "page"));

  g_object_bind_property (self, "in-hand", child, "in-hand", G_BINDING_SYNC_CREATE);
  g_object_bind_property (self, "unit", child, "unit", G_BINDING_SYNC_CREATE);
  if (is_manner (self, "page"))
    odd_scrap_item_set_counter (ODD_SCRAP_ITEM (child), odd_cut_counter_get (self->document));
  g_signal_connect_object (child, "carried", G_CALLBACK (carried_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (child, "let-go", G_CALLBACK (let_go_cb), self, G_CONNECT_SWAPPED);
  gtk_list_item_set_child (item, child);
}

static void
bind_cb (OddTray     *self,
         GtkListItem *item)
{
  odd_scrap_item_bind (ODD_SCRAP_ITEM (gtk_list_item_get_child (item)), self->thumbnails, odd_document_get_job (self->document),
                       gtk_list_item_get_item (item));
}

static void
unbind_cb (OddTray     *self,
           GtkListItem *item)
{
  odd_scrap_item_unbind (ODD_SCRAP_ITEM (gtk_list_item_get_child (item)));
}

static void
activate_cb (OddTray *self,
             guint    position)
{
  g_autoptr(OddScrapRow) row = g_list_model_get_item (G_LIST_MODEL (self->model), position);

  if (row == NULL)
    return;
  if (odd_scrap_row_is_free (row))
    g_signal_emit (self, signals[TAKE], 0, odd_scrap_row_get_scrap (row)->id);
  else
    odd_toast (GTK_WIDGET (self), odd_scrap_row_get_scrap (row)->cut_out ? _("This scrap is cut out. Take one of its offcuts.")
                                  : _("Nothing usable is left of this scrap. Take its patch out first."), NULL, NULL);
}

static void
chosen_cb (OddTray *self)
{
  OddScrapRow *row;

  if (self->following || self->selection == NULL)
    return;
  row = gtk_single_selection_get_selected_item (self->chosen);
  if (row != NULL)
    odd_selection_set (self->selection, ODD_SELECTED_SCRAP, odd_scrap_row_get_scrap (row)->id);
}

static void
follow_selection (OddTray *self)
{
  guint position = GTK_INVALID_LIST_POSITION;

  if (self->selection == NULL || self->model == NULL)
    return;
  if (odd_selection_get_kind (self->selection) == ODD_SELECTED_SCRAP)
    position = odd_scrap_model_find (self->model, odd_selection_get_id (self->selection));
  self->following = TRUE;
  gtk_single_selection_set_selected (self->chosen, position);
  self->following = FALSE;
}

static void
selection_changed_cb (OddTray *self)
{
  follow_selection (self);
}

/* --- count and what is shown when nothing is --- */

static void
show_page (OddTray *self)
{
  const guint n_shown = g_list_model_get_n_items (G_LIST_MODEL (self->model));
  const guint n_all = odd_scrap_model_get_n_scraps (self->model);
  g_autofree char *text = NULL;
  int shown;

  g_object_get (self->model, "shown", &shown, NULL);
  if (shown == ODD_SHOWN_FREE)
    text = g_strdup_printf (ngettext ("%u free", "%u free", n_shown), n_shown);
  else if (shown == ODD_SHOWN_PLACED)
    text = g_strdup_printf (ngettext ("%u placed", "%u placed", n_shown), n_shown);
  else
    text = g_strdup_printf (ngettext ("%u scrap", "%u scraps", n_shown), n_shown);
  gtk_label_set_text (self->count, text);
  gtk_stack_set_visible_child_name (self->stack, n_shown > 0 ? "scraps" : n_all == 0 ? "empty" : "no-hits");
}

static void
items_changed_cb (OddTray *self)
{
  show_page (self);
  follow_selection (self);
}

/* --- filter --- */

static void
fill_fabrics (OddTray *self)
{
  OddJob *job = odd_document_get_job (self->document);
  g_autoptr(GtkStringList) names = gtk_string_list_new (NULL);
  const guint before = gtk_drop_down_get_selected (self->fabric_filter);
  const guint kept = before < self->fabric_ids->len ? g_array_index (self->fabric_ids, guint, before) : 0;
  guint none = 0, selected = 0;

  self->filling = TRUE;
  g_array_set_size (self->fabric_ids, 0);
  g_array_append_val (self->fabric_ids, none);
  gtk_string_list_append (names, _("Any fabric"));
  for (guint i = 0; i < job->fabrics->len; i++)
    {
      OddFabric *fabric = g_ptr_array_index (job->fabrics, i);

      if (fabric->id == kept)
        selected = self->fabric_ids->len;
      g_array_append_val (self->fabric_ids, fabric->id);
      gtk_string_list_append (names, fabric->name);
    }
  gtk_drop_down_set_model (self->fabric_filter, G_LIST_MODEL (names));
  gtk_drop_down_set_selected (self->fabric_filter, selected);
  self->filling = FALSE;
}

static void
fabric_filter_cb (OddTray *self)
{
  const guint i = gtk_drop_down_get_selected (self->fabric_filter);

  if (!self->filling && self->model != NULL && i < self->fabric_ids->len)
    g_object_set (self->model, "fabric", g_array_index (self->fabric_ids, guint, i), NULL);
}

static void
size_filter_cb (OddTray *self,
                double   mm)
{
  g_object_set (self->model, "smallest", isnan (mm) ? 0.0 : mm, NULL);
}

static void
lightness_filter_cb (OddTray *self)
{
  if (self->model != NULL)
    g_object_set (self->model, "lightness", (int) gtk_drop_down_get_selected (self->lightness_filter), NULL);
}

static void
shown_filter_cb (OddTray *self)
{
  if (self->model == NULL)
    return;
  g_object_set (self->model, "shown", (int) gtk_drop_down_get_selected (self->shown_filter), NULL);
  show_page (self);
}

static void
sort_cb (OddTray *self)
{
  if (self->model != NULL)
    g_object_set (self->model, "sort", (int) gtk_drop_down_get_selected (self->sort), NULL);
}

static void
search_cb (OddTray *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->search));

  if (self->model != NULL)
    g_object_set (self->model, "search", *text != '\0' ? text : NULL, NULL);
}

static void
search_activate_cb (OddTray *self)
{
  if (g_list_model_get_n_items (G_LIST_MODEL (self->model)) > 0)
    gtk_widget_child_focus (GTK_WIDGET (self->scroller), GTK_DIR_TAB_FORWARD);
}

static void
clear_filter_cb (OddTray *self)
{
  gtk_editable_set_text (GTK_EDITABLE (self->search), "");
  gtk_drop_down_set_selected (self->fabric_filter, 0);
  gtk_drop_down_set_selected (self->lightness_filter, 0);
  gtk_drop_down_set_selected (self->shown_filter, 0);
  odd_length_entry_set_value (self->size_filter, NAN);
  odd_scrap_model_clear_filter (self->model);
  show_page (self);
}

static void
filtered_cb (OddTray *self)
{
  gboolean filtered;

  g_object_get (self->model, "filtered", &filtered, NULL);
  if (filtered)
    gtk_widget_add_css_class (self->filter_button, "accent");
  else
    gtk_widget_remove_css_class (self->filter_button, "accent");
}

/* --- life --- */

static gboolean
scroll_to_top_cb (gpointer data)
{
  g_autoptr(OddTray) self = data;

  if (self->scroller != NULL)
    {
      gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (self->scroller), 0.0);
      gtk_adjustment_set_value (gtk_scrolled_window_get_hadjustment (self->scroller), 0.0);
    }
  return G_SOURCE_REMOVE;
}

static void
document_changed_cb (OddTray *self,
                     OddJob  *before,
                     OddJob  *after)
{
  if (before == NULL || before->fabrics != after->fabrics)
    fill_fabrics (self);
  if (before == NULL || before->scraps != after->scraps)
    choose_scale (self);
  show_page (self);
  /* a job that was just opened is read from its top */
  if (odd_document_get_undo_label (self->document) == NULL && odd_document_get_redo_label (self->document) == NULL)
    g_idle_add (scroll_to_top_cb, g_object_ref (self));
}

static void
set_document (OddTray     *self,
              OddDocument *document)
{
  if (document == NULL || document == self->document)
    return;
  g_return_if_fail (self->document == NULL);
  self->document = g_object_ref (document);
  choose_scale (self);
  self->model = odd_scrap_model_new (document);
  gtk_single_selection_set_model (self->chosen, G_LIST_MODEL (self->model));
  g_signal_connect_object (document, "changed", G_CALLBACK (document_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->model, "items-changed", G_CALLBACK (items_changed_cb), self, G_CONNECT_SWAPPED | G_CONNECT_AFTER);
  g_signal_connect_object (self->model, "notify::filtered", G_CALLBACK (filtered_cb), self, G_CONNECT_SWAPPED);
  g_object_bind_property (self, "in-hand", self->model, "in-hand", G_BINDING_SYNC_CREATE);
  fill_fabrics (self);
  show_page (self);
}

static void
set_selection (OddTray      *self,
               OddSelection *selection)
{
  if (selection == NULL || selection == self->selection)
    return;
  g_return_if_fail (self->selection == NULL);
  self->selection = g_object_ref (selection);
  g_signal_connect_object (selection, "changed", G_CALLBACK (selection_changed_cb), self, G_CONNECT_SWAPPED);
  follow_selection (self);
}

static void
scale_factor_cb (OddTray *self)
{
  if (self->document != NULL)
    choose_scale (self);
}

static void
odd_tray_constructed (GObject *object)
{
  OddTray *self = ODD_TRAY (object);
  const gboolean strip = is_manner (self, "strip"), page = is_manner (self, "page");

  G_OBJECT_CLASS (odd_tray_parent_class)->constructed (object);
  gtk_widget_set_visible (self->head, !strip);
  gtk_widget_set_visible (self->foot, !strip);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->grid), strip ? GTK_ORIENTATION_HORIZONTAL : GTK_ORIENTATION_VERTICAL);
  gtk_grid_view_set_min_columns (self->grid, strip ? 1 : 2);
  gtk_grid_view_set_max_columns (self->grid, strip ? 1 : page ? 14 : 2);
  if (strip)
    {
      gtk_scrolled_window_set_policy (self->scroller, GTK_POLICY_AUTOMATIC, GTK_POLICY_EXTERNAL);
      gtk_scrolled_window_set_min_content_height (self->scroller, STRIP_HEIGHT_PX);
      gtk_scrolled_window_set_max_content_height (self->scroller, STRIP_HEIGHT_PX);
      gtk_widget_set_vexpand (GTK_WIDGET (self->stack), FALSE);
      gtk_stack_set_vhomogeneous (self->stack, FALSE);
    }
}

static void
odd_tray_dispose (GObject *object)
{
  OddTray *self = ODD_TRAY (object);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  g_clear_object (&self->model);
  g_clear_object (&self->thumbnails);
  g_clear_object (&self->selection);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (odd_tray_parent_class)->dispose (object);
}

static void
odd_tray_finalize (GObject *object)
{
  OddTray *self = ODD_TRAY (object);

  g_free (self->manner);
  g_array_unref (self->fabric_ids);
  G_OBJECT_CLASS (odd_tray_parent_class)->finalize (object);
}

static void
odd_tray_get_property (GObject    *object,
                       guint       prop_id,
                       GValue     *value,
                       GParamSpec *pspec)
{
  OddTray *self = ODD_TRAY (object);

  switch (prop_id)
    {
    case PROP_DOCUMENT: g_value_set_object (value, self->document); break;
    case PROP_SELECTION: g_value_set_object (value, self->selection); break;
    case PROP_UNIT: g_value_set_int (value, self->unit); break;
    case PROP_IN_HAND: g_value_set_uint (value, self->in_hand); break;
    case PROP_MANNER: g_value_set_string (value, self->manner); break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
odd_tray_set_property (GObject      *object,
                       guint         prop_id,
                       const GValue *value,
                       GParamSpec   *pspec)
{
  OddTray *self = ODD_TRAY (object);

  switch (prop_id)
    {
    case PROP_DOCUMENT: set_document (self, g_value_get_object (value)); break;
    case PROP_SELECTION: set_selection (self, g_value_get_object (value)); break;
    case PROP_UNIT:
      self->unit = g_value_get_int (value);
      if (self->document != NULL)
        choose_scale (self);
      break;
    case PROP_IN_HAND: self->in_hand = g_value_get_uint (value); break;
    case PROP_MANNER: self->manner = g_value_dup_string (value); break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
odd_tray_class_init (OddTrayClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  const GParamFlags rw = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->constructed = odd_tray_constructed;
  object_class->dispose = odd_tray_dispose;
  object_class->finalize = odd_tray_finalize;
  object_class->get_property = odd_tray_get_property;
  object_class->set_property = odd_tray_set_property;
  props[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, ODD_TYPE_DOCUMENT, rw);
  props[PROP_SELECTION] = g_param_spec_object ("selection", NULL, NULL, ODD_TYPE_SELECTION, rw);
  props[PROP_UNIT] = g_param_spec_int ("unit", NULL, NULL, ODD_UNIT_CM, ODD_UNIT_INCH, ODD_UNIT_CM, rw);
  props[PROP_IN_HAND] = g_param_spec_uint ("in-hand", NULL, NULL, 0, G_MAXUINT, 0, rw);
  props[PROP_MANNER] = g_param_spec_string ("manner", NULL, NULL, "pane", rw | G_PARAM_CONSTRUCT_ONLY);
  g_object_class_install_properties (object_class, N_PROPS, props);
  signals[TAKE] = g_signal_new ("take", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
  signals[CARRIED] = g_signal_new ("carried", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 4,
                                   G_TYPE_UINT, G_TYPE_DOUBLE, G_TYPE_DOUBLE, G_TYPE_BOOLEAN);
  signals[LET_GO] = g_signal_new ("let-go", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);

  g_type_ensure (ODD_TYPE_LENGTH_ENTRY);
  g_type_ensure (ODD_TYPE_GLYPH);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/tray.ui");
  gtk_widget_class_bind_template_child (widget_class, OddTray, chosen);
  gtk_widget_class_bind_template_child (widget_class, OddTray, head);
  gtk_widget_class_bind_template_child (widget_class, OddTray, foot);
  gtk_widget_class_bind_template_child (widget_class, OddTray, search);
  gtk_widget_class_bind_template_child (widget_class, OddTray, filter_button);
  gtk_widget_class_bind_template_child (widget_class, OddTray, fabric_filter);
  gtk_widget_class_bind_template_child (widget_class, OddTray, size_filter);
  gtk_widget_class_bind_template_child (widget_class, OddTray, lightness_filter);
  gtk_widget_class_bind_template_child (widget_class, OddTray, shown_filter);
  gtk_widget_class_bind_template_child (widget_class, OddTray, count);
  gtk_widget_class_bind_template_child (widget_class, OddTray, sort);
  gtk_widget_class_bind_template_child (widget_class, OddTray, stack);
  gtk_widget_class_bind_template_child (widget_class, OddTray, scroller);
  gtk_widget_class_bind_template_child (widget_class, OddTray, grid);
  gtk_widget_class_bind_template_child (widget_class, OddTray, scale_bar);
  gtk_widget_class_bind_template_child (widget_class, OddTray, scale_label);
  gtk_widget_class_bind_template_callback (widget_class, setup_cb);
  gtk_widget_class_bind_template_callback (widget_class, bind_cb);
  gtk_widget_class_bind_template_callback (widget_class, unbind_cb);
  gtk_widget_class_bind_template_callback (widget_class, activate_cb);
  gtk_widget_class_bind_template_callback (widget_class, chosen_cb);
  gtk_widget_class_bind_template_callback (widget_class, search_cb);
  gtk_widget_class_bind_template_callback (widget_class, search_activate_cb);
  gtk_widget_class_bind_template_callback (widget_class, fabric_filter_cb);
  gtk_widget_class_bind_template_callback (widget_class, size_filter_cb);
  gtk_widget_class_bind_template_callback (widget_class, lightness_filter_cb);
  gtk_widget_class_bind_template_callback (widget_class, shown_filter_cb);
  gtk_widget_class_bind_template_callback (widget_class, sort_cb);
  gtk_widget_class_bind_template_callback (widget_class, clear_filter_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
odd_tray_init (OddTray *self)
{
  const guint none = 0;

  self->fabric_ids = g_array_new (FALSE, FALSE, sizeof (guint));
  g_array_append_val (self->fabric_ids, none);
  self->thumbnails = odd_thumbnails_new (odd_swatches_get_shared ());
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect (self, "notify::scale-factor", G_CALLBACK (scale_factor_cb), NULL);
}

GtkWidget *
odd_tray_new (const char *manner)
{
  return g_object_new (ODD_TYPE_TRAY, "manner", manner, NULL);
}

OddScrapModel *
odd_tray_get_model (OddTray *self)
{
  g_return_val_if_fail (ODD_IS_TRAY (self), NULL);

  return self->model;
}

void
odd_tray_focus_search (OddTray *self)
{
  g_return_if_fail (ODD_IS_TRAY (self));

  gtk_widget_grab_focus (is_manner (self, "strip") ? GTK_WIDGET (self->grid) : self->search);
}
