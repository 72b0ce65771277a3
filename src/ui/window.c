#include "config.h"

#include "ui/window-private.h"

#include <glib/gi18n.h>

#include "ui/gives-bar.h"
#include "ui/toast.h"

G_DEFINE_FINAL_TYPE (OddWindow, odd_window, ADW_TYPE_APPLICATION_WINDOW)

enum { PROP_0, PROP_DOCUMENT, PROP_SELECTION, PROP_UNIT, PROP_TEXTILE_ID, PROP_STAGE, PROP_IN_HAND, N_PROPS };
static GParamSpec *props[N_PROPS];

/* --- what follows the document --- */

/* The textile on the table: the one that is there, else the job's first. */
static void
choose_textile (OddWindow *self)
{
  OddJob *job = odd_document_get_job (self->document);
  guint id = self->textile_id;

  if (odd_job_get_textile (job, id) == NULL)
    id = job->textiles->len > 0 ? ((OddTextile *) g_ptr_array_index (job->textiles, 0))->id : 0;
  if (id == self->textile_id)
    return;
  self->textile_id = id;
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_TEXTILE_ID]);
}

static void
show_title (OddWindow *self)
{
  const char *title = odd_document_get_title (self->document);
  const gboolean modified = odd_document_get_modified (self->document);
  g_autofree char *marked = g_strdup_printf (modified ? "%s •" : "%s", title);
  g_autofree char *whole = g_strdup_printf (_("%s - Oddment"), title);

  gtk_label_set_text (self->job_title, marked);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->job_title), modified ? _("Not saved yet") : NULL);
  adw_window_title_set_title (self->window_title, marked);
  gtk_window_set_title (GTK_WINDOW (self), whole);
}

static void
show_undo (OddWindow *self)
{
  const char *undo = odd_document_get_undo_label (self->document);
  const char *redo = odd_document_get_redo_label (self->document);
  g_autofree char *undo_tip = undo != NULL ? g_strdup_printf (_("Undo: %s"), undo) : g_strdup (_("Undo"));
  g_autofree char *redo_tip = redo != NULL ? g_strdup_printf (_("Redo: %s"), redo) : g_strdup (_("Redo"));

  gtk_widget_set_tooltip_text (self->undo_button, undo_tip);
  gtk_widget_set_tooltip_text (self->redo_button, redo_tip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->undo_button), GTK_ACCESSIBLE_PROPERTY_LABEL, undo_tip, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->redo_button), GTK_ACCESSIBLE_PROPERTY_LABEL, redo_tip, -1);
}

static void
document_state_cb (OddWindow *self)
{
  show_title (self);
  show_undo (self);
  odd_window_update_actions (self);
}

static gboolean
fresh_idle_cb (gpointer data)
{
  ((OddWindow *) data)->fresh_idle = 0;
  return G_SOURCE_REMOVE;
}

static void
document_changed_cb (OddWindow *self)
{
  if (self->fresh_idle == 0)
    self->fresh_idle = g_idle_add (fresh_idle_cb, self);
  choose_textile (self);
  document_state_cb (self);
}

/* Selecting a textile lays it on the table; in a narrow window the pane of what was tapped slides in. */
static void
selection_changed_cb (OddWindow *self)
{
  const OddSelected kind = odd_selection_get_kind (self->selection);

  if (kind == ODD_SELECTED_TEXTILE)
    g_object_set (self, "textile-id", odd_selection_get_id (self->selection), NULL);
  if (kind == ODD_SELECTED_SEAM && self->in_hand == 0 && odd_window_is_narrow (self))
    adw_flap_set_reveal_flap (self->right_flap, TRUE);
  odd_window_update_actions (self);
}

/* --- the canvas --- */

static void
in_hand_cb (OddWindow *self)
{
  g_object_get (self->canvas, "in-hand", &self->in_hand, NULL);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_IN_HAND]);
}

static void
zoom_cb (OddWindow *self)
{
  double zoom = 0.0;
  const double whole = odd_canvas_get_true_zoom (self->canvas, NULL);

  g_object_get (self->canvas, "zoom", &zoom, NULL);
  g_object_set (self->status, "zoom", whole > 0.0 ? 100.0 * zoom / whole : 100.0, NULL);
}

static void
announced_cb (OddWindow  *self,
              const char *text)
{
  /* what was just sewn on can be taken back from where it is told */
  const gboolean edited = self->fresh_idle != 0 && odd_document_get_undo_label (self->document) != NULL;

  odd_toast (GTK_WIDGET (self->canvas), text, _("Undo"), edited ? "win.undo" : NULL);
}

static void
activated_cb (OddWindow *self)
{
  adw_flap_set_reveal_flap (self->right_flap, TRUE);
  gtk_widget_child_focus (GTK_WIDGET (self->detail), GTK_DIR_TAB_FORWARD);
}

static gboolean
focus_canvas_cb (gpointer data)
{
  g_autoptr(OddWindow) self = data;

  if (self->canvas != NULL)
    gtk_widget_grab_focus (GTK_WIDGET (self->canvas));
  return G_SOURCE_REMOVE;
}

/* The list that was pressed takes the focus once it is through with the press; the keys must go to what is in the hand. */
void
odd_window_take_scrap (OddWindow *self,
                       OddId      scrap_id)
{
  odd_window_set_stage (self, "piecing");
  odd_canvas_take_scrap (self->canvas, scrap_id, NULL);
  g_idle_add (focus_canvas_cb, g_object_ref (self));
}

static void
take_cb (OddWindow *self,
         guint      scrap_id)
{
  odd_window_take_scrap (self, scrap_id);
}

/* A mouse carries a scrap over from the tray. Only on the canvas is it in the hand; carried back it lies in the tub again. */
static void
carried_cb (OddWindow *self,
            guint      scrap_id,
            double     x,
            double     y,
            gboolean   shift,
            OddTray   *tray)
{
  GtkWidget *canvas = GTK_WIDGET (self->canvas);
  double at_x = 0.0, at_y = 0.0;

  if (self->carried && self->in_hand == 0 && self->carried_inside)
    self->called_off = TRUE;      /* by Escape: nothing more until the mouse lets go */
  self->carried = TRUE;
  if (self->called_off || !gtk_widget_translate_coordinates (GTK_WIDGET (tray), canvas, x, y, &at_x, &at_y))
    return;
  self->carried_inside = at_x >= 0.0 && at_y >= 0.0 && at_x < gtk_widget_get_width (canvas) && at_y < gtk_widget_get_height (canvas);
  if (self->carried_inside)
    odd_canvas_hold_scrap (self->canvas, scrap_id, at_x, at_y, shift);
  else if (self->in_hand == scrap_id)
    odd_canvas_put_back (self->canvas);
}

static void
let_go_cb (OddWindow *self)
{
  if (self->in_hand != 0 && !self->called_off)
    odd_canvas_drop_scrap (self->canvas);
  self->carried = self->carried_inside = self->called_off = FALSE;
}

static void
carry_from (OddWindow *self,
            OddTray   *tray)
{
  g_signal_connect_object (tray, "carried", G_CALLBACK (carried_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (tray, "let-go", G_CALLBACK (let_go_cb), self, G_CONNECT_SWAPPED);
}

static void
make_canvas (OddWindow *self)
{
  GtkWidget *canvas = odd_canvas_new ();

  self->canvas = ODD_CANVAS (canvas);
  gtk_overlay_set_child (self->table, canvas);
  g_object_bind_property (self, "document", canvas, "document", G_BINDING_SYNC_CREATE);
  g_object_bind_property (self, "selection", canvas, "selection", G_BINDING_SYNC_CREATE);
  g_object_bind_property (self, "textile-id", canvas, "textile-id", G_BINDING_SYNC_CREATE);
  g_object_bind_property (self, "unit", canvas, "unit", G_BINDING_SYNC_CREATE);
  g_signal_connect_object (canvas, "notify::in-hand", G_CALLBACK (in_hand_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (canvas, "notify::zoom", G_CALLBACK (zoom_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (canvas, "announced", G_CALLBACK (announced_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (canvas, "activated", G_CALLBACK (activated_cb), self, G_CONNECT_SWAPPED);
}

/* --- stages and panes --- */

void
odd_window_set_stage (OddWindow  *self,
                      const char *stage)
{
  g_return_if_fail (ODD_IS_WINDOW (self) && stage != NULL);

  adw_view_stack_set_visible_child_name (self->stages, stage);
}

/* The canvas rings what lies at the stop, as long as that is what she looks at. */
static void
work_marks_cb (OddWindow *self)
{
  GArray *marks = odd_work_pane_get_marks (self->work);
  const gboolean shown = g_str_equal (self->stage, "work");

  odd_canvas_set_work (self->canvas, (const OddWorkMark *) (gpointer) marks->data, shown ? marks->len : 0);
}

static void
stage_cb (OddWindow *self)
{
  const char *stage = adw_view_stack_get_visible_child_name (self->stages);

  if (self->canvas == NULL || stage == NULL || g_strcmp0 (self->stage, stage) == 0)
    return;
  g_free (self->stage);
  self->stage = g_strdup (stage);
  odd_window_show_stage (self);
  work_marks_cb (self);
  if (g_str_equal (stage, "textile") && odd_selection_get_kind (self->selection) != ODD_SELECTED_TEXTILE)
    odd_selection_set (self->selection, self->textile_id != 0 ? ODD_SELECTED_TEXTILE : ODD_SELECTED_NOTHING, self->textile_id);
  else if (!g_str_equal (stage, "textile") && odd_selection_get_kind (self->selection) == ODD_SELECTED_TEXTILE)
    odd_selection_set (self->selection, ODD_SELECTED_NOTHING, 0);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_STAGE]);
  odd_window_update_actions (self);
}

static void
detail_button_cb (OddWindow *self)
{
  adw_flap_set_reveal_flap (self->right_flap, gtk_toggle_button_get_active (self->detail_button));
}

static void
revealed_cb (OddWindow *self)
{
  gboolean revealed;

  if (self->detail_button == NULL)
    return;
  revealed = adw_flap_get_reveal_flap (self->right_flap);
  gtk_toggle_button_set_active (self->detail_button, revealed);
  gtk_button_set_icon_name (GTK_BUTTON (self->detail_button), revealed ? "go-previous-symbolic" : "sidebar-show-right-symbolic");
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->detail_button), revealed ? _("Back to the table") : _("What is selected"));
}

static gboolean
fold_idle_cb (gpointer data)
{
  OddWindow *self = data;

  self->fold_idle = 0;
  odd_window_fold (self);
  return G_SOURCE_REMOVE;
}

/* Folding changes sizes, which must not happen while sizes are being given out. Where the surface is smaller than all that is unfolded
 * needs, the surface decides: else the window could not become narrow at once. */
static void
odd_window_size_allocate (GtkWidget *widget,
                          int        width,
                          int        height,
                          int        baseline)
{
  OddWindow *self = ODD_WINDOW (widget);

  GdkSurface *surface = gtk_native_get_surface (GTK_NATIVE (widget));
  const int seen = surface != NULL ? MIN (width, gdk_surface_get_width (surface)) : width;

  GTK_WIDGET_CLASS (odd_window_parent_class)->size_allocate (widget, width, height, baseline);
  if (seen == self->width)
    return;
  self->width = seen;
  if (self->fold_idle == 0)
    self->fold_idle = g_idle_add_full (G_PRIORITY_HIGH_IDLE, fold_idle_cb, self, NULL);
}

/* --- the file changed outside --- */

static void
info_action_cb (OddWindow *self)
{
  gtk_revealer_set_reveal_child (self->info_revealer, FALSE);
  odd_window_reload (self);
}

static void
info_dismiss_cb (OddWindow *self)
{
  gtk_revealer_set_reveal_child (self->info_revealer, FALSE);
  odd_keeper_keep_mine (self->keeper);
}

static gboolean
drop_cb (OddWindow    *self,
         const GValue *value)
{
  GSList *files = g_value_get_boxed (value);

  if (files == NULL)
    return FALSE;
  odd_window_dropped_file (self, files->data);
  return TRUE;
}

/* --- life --- */

static void
remember_size (OddWindow *self)
{
  int width, height;

  if (self->settings == NULL)
    return;
  gtk_window_get_default_size (GTK_WINDOW (self), &width, &height);
  g_settings_set_boolean (self->settings, "window-maximized", gtk_window_is_maximized (GTK_WINDOW (self)));
  if (width >= 360 && height >= 294)
    {
      g_settings_set_int (self->settings, "window-width", width);
      g_settings_set_int (self->settings, "window-height", height);
    }
}

static gboolean
odd_window_close_request (GtkWindow *window)
{
  OddWindow *self = ODD_WINDOW (window);

  if (!self->closing && odd_window_ask_before_closing (self))
    return TRUE;
  remember_size (self);
  odd_keeper_forget (self->keeper);
  return GTK_WINDOW_CLASS (odd_window_parent_class)->close_request (window);
}

static void
unit_changed_cb (OddWindow *self)
{
  g_object_set (self, "unit", g_settings_get_enum (self->settings, "unit"), NULL);
}

static void
odd_window_dispose (GObject *object)
{
  OddWindow *self = ODD_WINDOW (object);

  g_clear_handle_id (&self->fold_idle, g_source_remove);
  g_clear_handle_id (&self->fresh_idle, g_source_remove);
  g_clear_object (&self->settings);
  g_clear_object (&self->keeper);
  self->detail_button = NULL;
  G_OBJECT_CLASS (odd_window_parent_class)->dispose (object);
  g_clear_object (&self->selection);
  g_clear_object (&self->document);
}

static void
odd_window_finalize (GObject *object)
{
  g_free (ODD_WINDOW (object)->stage);
  G_OBJECT_CLASS (odd_window_parent_class)->finalize (object);
}

static void
odd_window_get_property (GObject    *object,
                         guint       prop_id,
                         GValue     *value,
                         GParamSpec *pspec)
{
  OddWindow *self = ODD_WINDOW (object);

  switch (prop_id)
    {
    case PROP_DOCUMENT: g_value_set_object (value, self->document); break;
    case PROP_SELECTION: g_value_set_object (value, self->selection); break;
    case PROP_UNIT: g_value_set_int (value, self->unit); break;
    case PROP_TEXTILE_ID: g_value_set_uint (value, self->textile_id); break;
    case PROP_STAGE: g_value_set_string (value, self->stage); break;
    case PROP_IN_HAND: g_value_set_uint (value, self->in_hand); break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
odd_window_set_property (GObject      *object,
                         guint         prop_id,
                         const GValue *value,
                         GParamSpec   *pspec)
{
  OddWindow *self = ODD_WINDOW (object);

  switch (prop_id)
    {
    case PROP_UNIT: self->unit = g_value_get_int (value); break;
    case PROP_TEXTILE_ID:
      self->textile_id = g_value_get_uint (value);
      choose_textile (self);
      break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, OddWindow, toasts);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, undo_button);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, redo_button);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, job_title);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, print_button);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, detail_button);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, title_squeezer);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, switcher);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, slim_switcher);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, page_head);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, window_title);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, stages);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, switcher_bar);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, info_revealer);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, info_text);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, info_action);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, info_dismiss);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, left_flap);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, right_flap);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, tray);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, page_tray);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, strip_tray);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, center);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, table);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, detail);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, right_stack);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, work);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, status);
  gtk_widget_class_bind_template_child (widget_class, OddWindow, recent_menu);
}

static void
odd_window_class_init (OddWindowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  const GParamFlags ro = G_PARAM_READABLE | G_PARAM_STATIC_STRINGS;
  const GParamFlags rw = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->dispose = odd_window_dispose;
  object_class->finalize = odd_window_finalize;
  object_class->get_property = odd_window_get_property;
  object_class->set_property = odd_window_set_property;
  widget_class->size_allocate = odd_window_size_allocate;
  GTK_WINDOW_CLASS (klass)->close_request = odd_window_close_request;
  props[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, ODD_TYPE_DOCUMENT, ro);
  props[PROP_SELECTION] = g_param_spec_object ("selection", NULL, NULL, ODD_TYPE_SELECTION, ro);
  props[PROP_UNIT] = g_param_spec_int ("unit", NULL, NULL, ODD_UNIT_CM, ODD_UNIT_INCH, ODD_UNIT_CM, rw);
  props[PROP_TEXTILE_ID] = g_param_spec_uint ("textile-id", NULL, NULL, 0, G_MAXUINT, 0, rw);
  props[PROP_STAGE] = g_param_spec_string ("stage", NULL, NULL, NULL, ro);
  props[PROP_IN_HAND] = g_param_spec_uint ("in-hand", NULL, NULL, 0, G_MAXUINT, 0, ro);
  g_object_class_install_properties (object_class, N_PROPS, props);

  g_type_ensure (ODD_TYPE_TRAY);
  g_type_ensure (ODD_TYPE_GIVES_BAR);
  g_type_ensure (ODD_TYPE_DETAIL_PANE);
  g_type_ensure (ODD_TYPE_WORK_PANE);
  g_type_ensure (ODD_TYPE_STATUS_LINE);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/window.ui");
  bind_children (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, take_cb);
  gtk_widget_class_bind_template_callback (widget_class, stage_cb);
  gtk_widget_class_bind_template_callback (widget_class, detail_button_cb);
  gtk_widget_class_bind_template_callback (widget_class, revealed_cb);
  gtk_widget_class_bind_template_callback (widget_class, info_action_cb);
  gtk_widget_class_bind_template_callback (widget_class, info_dismiss_cb);
  odd_window_install_actions (widget_class);
  odd_window_install_file_actions (widget_class);
}

static void
odd_window_init (OddWindow *self)
{
  g_autoptr(OddJob) job = odd_job_new ();
  GtkDropTarget *target = gtk_drop_target_new (GDK_TYPE_FILE_LIST, GDK_ACTION_COPY);

  self->stage = g_strdup ("piecing");
  self->document = odd_document_new (job);
  self->selection = odd_selection_new (self->document);
  self->keeper = odd_keeper_new (self->document);
  choose_textile (self);
  gtk_widget_init_template (GTK_WIDGET (self));
  make_canvas (self);
  odd_window_add_looks (self);
  g_signal_connect_object (self->work, "marks-changed", G_CALLBACK (work_marks_cb), self, G_CONNECT_SWAPPED);
  carry_from (self, self->tray);
  carry_from (self, self->strip_tray);
  adw_view_stack_set_visible_child_name (self->stages, "piecing");
  odd_window_show_stage (self);
  g_signal_connect_swapped (target, "drop", G_CALLBACK (drop_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (target));
  g_signal_connect_object (self->document, "changed", G_CALLBACK (document_changed_cb), self, G_CONNECT_SWAPPED | G_CONNECT_AFTER);
  g_signal_connect_object (self->document, "notify", G_CALLBACK (document_state_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->selection, "changed", G_CALLBACK (selection_changed_cb), self, G_CONNECT_SWAPPED | G_CONNECT_AFTER);
  g_signal_connect_object (self->keeper, "changed-outside", G_CALLBACK (odd_window_changed_outside), self, G_CONNECT_SWAPPED);
  odd_window_fill_recent (self);
  document_changed_cb (self);
}

static void
restore (OddWindow *self)
{
  gtk_window_set_default_size (GTK_WINDOW (self), g_settings_get_int (self->settings, "window-width"),
                               g_settings_get_int (self->settings, "window-height"));
  if (g_settings_get_boolean (self->settings, "window-maximized"))
    gtk_window_maximize (GTK_WINDOW (self));
  g_signal_connect_object (self->settings, "changed::unit", G_CALLBACK (unit_changed_cb), self, G_CONNECT_SWAPPED);
  unit_changed_cb (self);
}

OddWindow *
odd_window_new (GtkApplication *application,
                GSettings      *settings)
{
  OddWindow *self = g_object_new (ODD_TYPE_WINDOW, "application", application, NULL);
  g_autoptr(GtkBuilder) builder = gtk_builder_new_from_resource ("/io/github/oddment/Oddment/ui/help-overlay.ui");

  gtk_application_window_set_help_overlay (GTK_APPLICATION_WINDOW (self), GTK_SHORTCUTS_WINDOW (gtk_builder_get_object (builder, "help_overlay")));
  gtk_window_set_default_size (GTK_WINDOW (self), 1280, 800);
  if (settings != NULL)
    {
      self->settings = g_object_ref (settings);
      restore (self);
    }
  return self;
}

OddDocument *odd_window_get_document (OddWindow *self) { return self->document; }
OddSelection *odd_window_get_selection (OddWindow *self) { return self->selection; }
OddKeeper *odd_window_get_keeper (OddWindow *self) { return self->keeper; }
OddCanvas *odd_window_get_canvas (OddWindow *self) { return self->canvas; }

gboolean
odd_window_is_unused (OddWindow *self)
{
  OddJob *job = odd_document_get_job (self->document);

  return odd_document_get_file (self->document) == NULL && !odd_document_get_modified (self->document) && job->scraps->len == 0;
}
