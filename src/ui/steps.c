#include "config.h"

#include "ui/steps.h"

#include <glib/gi18n.h>

#include "ui/glyph.h"

struct _OddSteps
{
  GtkWidget parent_instance;
  OddFinish *finish;
  OddProgress *progress;
};

G_DEFINE_FINAL_TYPE (OddSteps, odd_steps, GTK_TYPE_WIDGET)

enum { TOGGLED, N_SIGNALS };
static guint signals[N_SIGNALS];

const char *
odd_operation_get_short_name (const OddOperation *operation)
{
  switch (operation->kind)
    {
    case ODD_OPERATION_NEATEN:
      return operation->station == ODD_STATION_OVERLOCKER ? _("Overlock") : _("Neaten");
    case ODD_OPERATION_TOPSTITCH: return _("Topstitch");
    default: return odd_operation_kind_get_name (operation->kind);
    }
}

const char *
odd_operation_get_symbol (const OddOperation *operation)
{
  switch (operation->kind)
    {
    case ODD_OPERATION_SEW: return "sew";
    case ODD_OPERATION_NEATEN: return operation->station == ODD_STATION_OVERLOCKER ? "overlock" : "zigzag";
    case ODD_OPERATION_TRIM: return "trim";
    case ODD_OPERATION_FOLD: return "fold";
    case ODD_OPERATION_PRESS: return "press";
    default: return "topstitch";
    }
}

/* One word under the circle; the tooltip tells the rest. */
static const char *
short_station (OddStation station)
{
  switch (station)
    {
    case ODD_STATION_SEWING_MACHINE: return _("machine");
    case ODD_STATION_OVERLOCKER: return _("overlocker");
    case ODD_STATION_IRON: return _("iron");
    default: return _("table");
    }
}

static guint
find_next (OddSteps *self)
{
  guint i = 0;

  while (i < self->finish->n_operations && odd_progress_get_state (self->progress, i) != ODD_STATE_OPEN)
    i++;
  return i;
}

static void
clicked_cb (GtkWidget *button,
            OddSteps  *self)
{
  const guint i = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "operation"));
  const gboolean was_open = odd_progress_get_state (self->progress, i) == ODD_STATE_OPEN;

  g_signal_emit (self, signals[TOGGLED], 0, i, was_open);
}

static GtkWidget *
make_circle (OddSteps *self,
             guint     i,
             gboolean  next)
{
  const OddOperation *operation = &self->finish->operations[i];
  const OddState state = odd_progress_get_state (self->progress, i);
  GtkWidget *button = gtk_button_new ();
  g_autofree char *tip = NULL;
  const char *reason = odd_progress_get_reason (self->progress, i);

  gtk_button_set_child (GTK_BUTTON (button), odd_glyph_new (state == ODD_STATE_DONE ? "check" : odd_operation_get_symbol (operation)));
  gtk_widget_set_halign (gtk_button_get_child (GTK_BUTTON (button)), GTK_ALIGN_CENTER);
  gtk_widget_set_halign (button, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (button, "step");
  if (state == ODD_STATE_DONE)
    gtk_widget_add_css_class (button, "done");
  else if (state == ODD_STATE_SKIPPED)
    gtk_widget_add_css_class (button, "skipped");
  else if (next)
    gtk_widget_add_css_class (button, "next");
  g_object_set_data (G_OBJECT (button), "operation", GUINT_TO_POINTER (i));
  g_signal_connect (button, "clicked", G_CALLBACK (clicked_cb), self);
  if (state == ODD_STATE_SKIPPED)
    tip = g_strdup_printf (_("%s: skipped, %s"), operation->text, reason != NULL ? reason : _("no reason given"));
  else
    tip = g_strdup_printf (state == ODD_STATE_DONE ? _("%s: done. Press to open it again.") : _("%s: open. Press to mark it done."),
                           operation->text);
  gtk_widget_set_tooltip_text (button, tip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, tip, -1);
  return button;
}

static GtkWidget *
make_label (const char *text,
            const char *css_class,
            gboolean    dim)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_widget_add_css_class (label, css_class);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  if (dim)
    gtk_widget_add_css_class (label, "dim-label");
  return label;
}

static GtkWidget *
make_link (const char *kind,
           gboolean    after)
{
  GtkWidget *link = odd_glyph_new (kind);

  if (after)
    gtk_widget_set_margin_start (link, 2);
  else
    gtk_widget_set_margin_end (link, 2);
  gtk_widget_set_hexpand (link, TRUE);
  gtk_widget_add_css_class (link, "step-link");
  if (g_str_equal (kind, "link-done"))
    gtk_widget_add_css_class (link, "done");
  return link;
}

/* The link after operation @i: broken while that is open. */
static const char *
link_after (OddSteps *self,
            int       i)
{
  if (i < 0 || (guint) i + 1 >= self->finish->n_operations)
    return "";
  return odd_progress_get_state (self->progress, i) == ODD_STATE_OPEN ? "link-open" : "link-done";
}

static GtkWidget *
make_column (OddSteps *self,
             guint     i,
             guint     next)
{
  const OddOperation *operation = &self->finish->operations[i];
  GtkWidget *column = gtk_grid_new ();
  GtkWidget *name = make_label (odd_operation_get_short_name (operation), "step-name", FALSE);

  if (i == next)
    gtk_widget_add_css_class (name, "next");
  gtk_widget_set_margin_top (name, 4);
  gtk_grid_attach (GTK_GRID (column), make_link (link_after (self, (int) i - 1), FALSE), 0, 0, 1, 1);
  gtk_grid_attach (GTK_GRID (column), make_circle (self, i, i == next), 1, 0, 1, 1);
  gtk_grid_attach (GTK_GRID (column), make_link (link_after (self, i), TRUE), 2, 0, 1, 1);
  gtk_grid_attach (GTK_GRID (column), name, 0, 1, 3, 1);
  gtk_grid_attach (GTK_GRID (column), make_label (short_station (operation->station), "second", TRUE), 0, 2, 3, 1);
  return column;
}

static void
fill (OddSteps *self)
{
  const guint next = find_next (self);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  gtk_box_set_homogeneous (GTK_BOX (row), TRUE);
  gtk_widget_set_hexpand (row, TRUE);
  for (guint i = 0; i < self->finish->n_operations; i++)
    gtk_box_append (GTK_BOX (row), make_column (self, i, next));
  gtk_widget_set_parent (row, GTK_WIDGET (self));
}

static void
clear (OddSteps *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
}

static void
focus_operation (OddSteps *self,
                 guint     operation)
{
  GtkWidget *row = gtk_widget_get_first_child (GTK_WIDGET (self));
  GtkWidget *column = gtk_widget_get_first_child (row);

  for (guint i = 0; i < operation && column != NULL; i++)
    column = gtk_widget_get_next_sibling (column);
  if (column != NULL)
    gtk_widget_child_focus (column, GTK_DIR_TAB_FORWARD);
}

/* Rebuilt at each change; whoever works by keyboard must not lose the place. */
void
odd_steps_show (OddSteps    *self,
                OddFinish   *finish,
                OddProgress *progress)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  int focused = -1;

  g_return_if_fail (ODD_IS_STEPS (self) && finish != NULL);

  if (focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (self)))
    focused = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (focus), "operation"));
  odd_finish_ref (finish);
  odd_progress_ref (progress);
  g_clear_pointer (&self->finish, odd_finish_unref);
  g_clear_pointer (&self->progress, odd_progress_unref);
  self->finish = finish;
  self->progress = progress;
  clear (self);
  fill (self);
  if (focused >= 0)
    focus_operation (self, focused);
}

static void
odd_steps_dispose (GObject *object)
{
  OddSteps *self = ODD_STEPS (object);

  clear (self);
  g_clear_pointer (&self->finish, odd_finish_unref);
  g_clear_pointer (&self->progress, odd_progress_unref);
  G_OBJECT_CLASS (odd_steps_parent_class)->dispose (object);
}

static void
odd_steps_class_init (OddStepsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = odd_steps_dispose;
  signals[TOGGLED] = g_signal_new ("toggled", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 2, G_TYPE_UINT, G_TYPE_BOOLEAN);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
odd_steps_init (OddSteps *self)
{
}

GtkWidget *
odd_steps_new (void)
{
  return g_object_new (ODD_TYPE_STEPS, NULL);
}
