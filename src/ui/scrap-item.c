#include "config.h"

#include "ui/scrap-item.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cloth/length.h"
#include "ui/gives-words.h"

struct _OddScrapItem
{
  GtkWidget parent_instance;
  OddScrapPicture *picture;
  GtkLabel *size;
  GtkLabel *about;
  GtkLabel *whereabouts;
  OddScrapRow *row;
  OddCutCounter *counter;      /* or NULL */
  guint in_hand;
  int unit;
  gboolean details;
  guint carried;               /* scrap that the mouse drags, or 0 */
};

G_DEFINE_FINAL_TYPE (OddScrapItem, odd_scrap_item, GTK_TYPE_WIDGET)

enum { PROP_0, PROP_IN_HAND, PROP_UNIT, PROP_DETAILS, N_PROPS };
static GParamSpec *props[N_PROPS];
enum { CARRIED, LET_GO, N_SIGNALS };
static guint signals[N_SIGNALS];

static gboolean
is_in_hand (OddScrapItem *self)
{
  return self->row != NULL && self->in_hand != 0 && odd_scrap_row_get_scrap (self->row)->id == self->in_hand;
}

static char *
dup_about (OddScrapItem *self)
{
  return g_strdup_printf (_("No. %u, %s"), odd_scrap_row_get_scrap (self->row)->number, odd_scrap_row_get_cloth (self->row));
}

static char *
dup_whereabouts (OddScrapItem *self)
{
  OddScrap *scrap = odd_scrap_row_get_scrap (self->row);
  g_autofree char *state = odd_scrap_row_dup_state (self->row, self->unit);

  if (scrap->place == NULL || *scrap->place == '\0')
    return g_steal_pointer (&state);
  /* translators: where a scrap is kept, and whether it is free: "Blue tub, free" */
  return g_strdup_printf (_("%s, %s"), scrap->place, state);
}

/* "21 × 20 cm, gives 4" */
static char *
dup_size (OddScrapItem *self)
{
  OddGives *gives = self->counter != NULL ? odd_cut_counter_get_gives (self->counter) : NULL;
  const OddScrapGives *scrap = gives != NULL ? odd_gives_find (gives, odd_scrap_row_get_scrap (self->row)->id) : NULL;
  g_autofree char *size = odd_scrap_row_dup_size (self->row, self->unit);
  g_autofree char *count = scrap != NULL ? odd_gives_dup_short (gives, scrap) : NULL;

  return count != NULL ? g_strdup_printf (_("%s, %s"), size, count) : g_steal_pointer (&size);
}

static char *
dup_name (OddScrapItem *self)
{
  g_autofree char *about = dup_about (self);
  g_autofree char *size = dup_size (self);
  g_autofree char *whereabouts = dup_whereabouts (self);

  return g_strdup_printf (_("%s, %s, %s"), about, size, whereabouts);
}

/* Made when it is asked for: to set one costs two round trips to the display, for each of a hundred items. */
static gboolean
query_tooltip_cb (OddScrapItem *self,
                  int           x,
                  int           y,
                  gboolean      by_key,
                  GtkTooltip   *tooltip)
{
  g_autofree char *name = self->row != NULL ? dup_name (self) : NULL;

  gtk_tooltip_set_text (tooltip, name);
  return name != NULL;
}

static void
describe (OddScrapItem *self)
{
  const gboolean in_hand = is_in_hand (self);
  g_autofree char *size = NULL;
  g_autofree char *about = NULL;
  g_autofree char *whereabouts = NULL;
  g_autofree char *name = NULL;

  if (self->row == NULL)
    return;
  size = dup_size (self);
  about = dup_about (self);
  whereabouts = dup_whereabouts (self);
  gtk_label_set_text (self->size, in_hand ? _("in hand") : size);
  gtk_label_set_text (self->about, about);
  gtk_label_set_text (self->whereabouts, whereabouts);
  if (in_hand)
    gtk_widget_add_css_class (GTK_WIDGET (self->size), "in-hand-label");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->size), "in-hand-label");
  odd_scrap_picture_set_in_hand (self->picture, in_hand);
  name = dup_name (self);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

/* Of hundreds of items few tell another count. */
static void
counted_cb (OddScrapItem *self)
{
  g_autofree char *size = self->row != NULL && !is_in_hand (self) ? dup_size (self) : NULL;

  if (size != NULL && strcmp (size, gtk_label_get_text (self->size)) != 0)
    describe (self);
}

static GdkContentProvider *
prepare_cb (OddScrapItem  *self,
            double         x,
            double         y,
            GtkDragSource *source)
{
  if (self->row == NULL || !odd_scrap_row_is_free (self->row))
    return NULL;
  return gdk_content_provider_new_typed (G_TYPE_UINT, odd_scrap_row_get_scrap (self->row)->id);
}

/* The scrap itself goes with the pointer. */
static void
drag_begin_cb (OddScrapItem  *self,
               GdkDrag       *drag,
               GtkDragSource *source)
{
  GdkTexture *texture = odd_scrap_picture_get_texture (self->picture);

  if (texture != NULL)
    gtk_drag_source_set_icon (source, GDK_PAINTABLE (texture), gdk_texture_get_width (texture) / 2, gdk_texture_get_height (texture) / 2);
}

/* With a mouse the scrap is dragged by a gesture: while the desktop drags, no key reaches the window, and Tab, R and Escape are wanted. */
static void
drag_update_cb (OddScrapItem   *self,
                double          offset_x,
                double          offset_y,
                GtkGestureDrag *drag)
{
  GdkEvent *event = gtk_event_controller_get_current_event (GTK_EVENT_CONTROLLER (drag));
  double x = 0.0, y = 0.0;

  if (event == NULL || gdk_event_get_event_type (event) == GDK_TOUCH_UPDATE || !gtk_gesture_drag_get_start_point (drag, &x, &y))
    return;
  if (self->carried == 0)
    {
      if (self->row == NULL || !odd_scrap_row_is_free (self->row) ||
          !gtk_drag_check_threshold (GTK_WIDGET (self), x, y, x + offset_x, y + offset_y))
        return;
      self->carried = odd_scrap_row_get_scrap (self->row)->id;
      gtk_gesture_set_state (GTK_GESTURE (drag), GTK_EVENT_SEQUENCE_CLAIMED);
      gtk_widget_set_cursor_from_name (GTK_WIDGET (gtk_widget_get_root (GTK_WIDGET (self))), "grabbing");
    }
  g_signal_emit (self, signals[CARRIED], 0, self->carried, x + offset_x, y + offset_y,
                 (gdk_event_get_modifier_state (event) & GDK_SHIFT_MASK) != 0);
}

static void
let_go (OddScrapItem *self)
{
  if (self->carried == 0)
    return;
  self->carried = 0;
  if (gtk_widget_get_root (GTK_WIDGET (self)) != NULL)
    gtk_widget_set_cursor (GTK_WIDGET (gtk_widget_get_root (GTK_WIDGET (self))), NULL);
  g_signal_emit (self, signals[LET_GO], 0);
}

static void
drag_end_cb (OddScrapItem *self)
{
  let_go (self);
}

static void
drag_cancel_cb (OddScrapItem *self)
{
  let_go (self);
}

void
odd_scrap_item_set_counter (OddScrapItem  *self,
                            OddCutCounter *counter)
{
  g_return_if_fail (ODD_IS_SCRAP_ITEM (self) && self->counter == NULL);

  self->counter = g_object_ref (counter);
  g_signal_connect_object (counter, "counted", G_CALLBACK (counted_cb), self, G_CONNECT_SWAPPED);
  describe (self);
}

void
odd_scrap_item_bind (OddScrapItem  *self,
                     OddThumbnails *thumbnails,
                     OddJob        *job,
                     OddScrapRow   *row)
{
  g_return_if_fail (ODD_IS_SCRAP_ITEM (self));

  g_set_object (&self->row, row);
  odd_scrap_picture_show (self->picture, thumbnails, job, odd_scrap_row_get_scrap (row));
  describe (self);
}

void
odd_scrap_item_unbind (OddScrapItem *self)
{
  g_return_if_fail (ODD_IS_SCRAP_ITEM (self));

  g_clear_object (&self->row);
  odd_scrap_picture_show (self->picture, NULL, NULL, NULL);
}

static void
odd_scrap_item_dispose (GObject *object)
{
  OddScrapItem *self = ODD_SCRAP_ITEM (object);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  g_clear_object (&self->row);
  g_clear_object (&self->counter);
  G_OBJECT_CLASS (odd_scrap_item_parent_class)->dispose (object);
}

static void
odd_scrap_item_get_property (GObject    *object,
                             guint       prop_id,
                             GValue     *value,
                             GParamSpec *pspec)
{
  OddScrapItem *self = ODD_SCRAP_ITEM (object);

  switch (prop_id)
    {
    case PROP_IN_HAND: g_value_set_uint (value, self->in_hand); break;
    case PROP_UNIT: g_value_set_int (value, self->unit); break;
    case PROP_DETAILS: g_value_set_boolean (value, self->details); break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
odd_scrap_item_set_property (GObject      *object,
                             guint         prop_id,
                             const GValue *value,
                             GParamSpec   *pspec)
{
  OddScrapItem *self = ODD_SCRAP_ITEM (object);

  switch (prop_id)
    {
    case PROP_IN_HAND: self->in_hand = g_value_get_uint (value); break;
    case PROP_UNIT: self->unit = g_value_get_int (value); break;
    case PROP_DETAILS: self->details = g_value_get_boolean (value); break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec); return;
    }
  gtk_widget_set_visible (GTK_WIDGET (self->about), self->details);
  gtk_widget_set_visible (GTK_WIDGET (self->whereabouts), self->details);
  describe (self);
}

static void
odd_scrap_item_class_init (OddScrapItemClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  const GParamFlags rw = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->dispose = odd_scrap_item_dispose;
  object_class->get_property = odd_scrap_item_get_property;
  object_class->set_property = odd_scrap_item_set_property;
  props[PROP_IN_HAND] = g_param_spec_uint ("in-hand", NULL, NULL, 0, G_MAXUINT, 0, rw);
  props[PROP_UNIT] = g_param_spec_int ("unit", NULL, NULL, ODD_UNIT_CM, ODD_UNIT_INCH, ODD_UNIT_CM, rw);
  props[PROP_DETAILS] = g_param_spec_boolean ("details", NULL, NULL, FALSE, rw);
  g_object_class_install_properties (object_class, N_PROPS, props);

  signals[CARRIED] = g_signal_new ("carried", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 4,
                                   G_TYPE_UINT, G_TYPE_DOUBLE, G_TYPE_DOUBLE, G_TYPE_BOOLEAN);
  signals[LET_GO] = g_signal_new ("let-go", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);

  g_type_ensure (ODD_TYPE_SCRAP_PICTURE);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/scrap-item.ui");
  gtk_widget_class_bind_template_child (widget_class, OddScrapItem, picture);
  gtk_widget_class_bind_template_child (widget_class, OddScrapItem, size);
  gtk_widget_class_bind_template_child (widget_class, OddScrapItem, about);
  gtk_widget_class_bind_template_child (widget_class, OddScrapItem, whereabouts);
  gtk_widget_class_bind_template_callback (widget_class, prepare_cb);
  gtk_widget_class_bind_template_callback (widget_class, drag_begin_cb);
  gtk_widget_class_bind_template_callback (widget_class, drag_update_cb);
  gtk_widget_class_bind_template_callback (widget_class, drag_end_cb);
  gtk_widget_class_bind_template_callback (widget_class, drag_cancel_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
}

static void
odd_scrap_item_init (OddScrapItem *self)
{
  gtk_widget_set_has_tooltip (GTK_WIDGET (self), TRUE);
  g_signal_connect (self, "query-tooltip", G_CALLBACK (query_tooltip_cb), NULL);
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_orientable_set_orientation (GTK_ORIENTABLE (gtk_widget_get_layout_manager (GTK_WIDGET (self))), GTK_ORIENTATION_VERTICAL);
}

GtkWidget *
odd_scrap_item_new (gboolean details)
{
  return g_object_new (ODD_TYPE_SCRAP_ITEM, "details", details, NULL);
}
