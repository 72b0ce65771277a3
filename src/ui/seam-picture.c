#include "config.h"

#include "ui/seam-picture.h"

#include "ui/thumbnails.h"

#define HEIGHT_PX 92
#define WIDTH_PX 276
/* How much of the cloth is seen: enough to know two patches by, near enough to see the stitches. */
#define SEEN_MM 190.0
#define SMALL_HEIGHT_PX 58
#define SMALL_WIDTH_PX 96

struct _OddSeamPicture
{
  GtkWidget parent_instance;
  GCancellable *cancellable;
  GdkTexture *texture;
  gboolean wrong_side;
  gboolean small;
};

enum { PROP_0, PROP_WRONG_SIDE, PROP_SMALL, N_PROPS };
static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (OddSeamPicture, odd_seam_picture, GTK_TYPE_WIDGET)

typedef struct
{
  OddJob *job;
  OddLayout *layout;           /* or NULL: the joined textile is drawn */
  OddTextileLayout *textile;
  OddPoint middle;             /* mm, of the frame drawn */
  double turn_deg;             /* so that an upright seam lies */
  double px_per_mm;
  gboolean numbers;
  gboolean wrong_side;
  int scale_factor;
} Request;

/* Seen from behind, x' = width - x, as the painter has it. */
static double
mirror_width (const Request *request)
{
  return request->layout != NULL ? request->layout->box.width : request->textile->finished_width_mm;
}

static void
request_free (Request *request)
{
  odd_job_unref (request->job);
  g_clear_pointer (&request->layout, odd_layout_unref);
  g_clear_pointer (&request->textile, odd_textile_layout_unref);
  g_free (request);
}

static void
badge (cairo_t  *cr,
       double    x,
       double    y,
       guint     number)
{
  g_autofree char *text = g_strdup_printf ("%u", number);
  cairo_text_extents_t extents;
  double half;

  cairo_select_font_face (cr, "Cantarell", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_BOLD);
  cairo_set_font_size (cr, 13.0);
  cairo_text_extents (cr, text, &extents);
  half = MAX (10.0, extents.x_advance / 2.0 + 5.0);
  cairo_new_path (cr);
  cairo_arc (cr, x - half + 10.0, y, 10.0, G_PI_2, 3.0 * G_PI_2);
  cairo_arc (cr, x + half - 10.0, y, 10.0, -G_PI_2, G_PI_2);
  cairo_close_path (cr);
  cairo_set_source_rgb (cr, 1.0, 0.992, 0.973);
  cairo_fill (cr);
  cairo_set_source_rgb (cr, 0.09, 0.07, 0.055);
  cairo_move_to (cr, x - extents.x_advance / 2.0, y + 4.6);
  cairo_show_text (cr, text);
}

/* Where a patch shows, in px of the picture. */
static gboolean
visible_box (cairo_t         *cr,
             const OddConvex *region,
             OddBox          *out)
{
  double x0 = WIDTH_PX, y0 = HEIGHT_PX, x1 = 0.0, y1 = 0.0;

  for (guint i = 0; i < region->n; i++)
    {
      double x = region->points[i].x, y = region->points[i].y;

      cairo_user_to_device (cr, &x, &y);
      x0 = MIN (x0, x);
      y0 = MIN (y0, y);
      x1 = MAX (x1, x);
      y1 = MAX (y1, y);
    }
  x0 = MAX (x0, 0.0);
  y0 = MAX (y0, 0.0);
  x1 = MIN (x1, WIDTH_PX);
  y1 = MIN (y1, HEIGHT_PX);
  *out = (OddBox) { x0, y0, x1 - x0, y1 - y0 };
  return out->width > 26.0 && out->height > 24.0;
}

static void
paint_numbers (cairo_t         *cr,
               const OddLayout *layout)
{
  g_autoptr(GArray) boxes = g_array_new (FALSE, FALSE, sizeof (OddBox));
  g_autoptr(GArray) numbers = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < layout->n_patches; i++)
    {
      OddBox box;

      if (visible_box (cr, layout->patches[i].region, &box))
        {
          g_array_append_val (boxes, box);
          g_array_append_val (numbers, layout->patches[i].number);
        }
    }
  cairo_identity_matrix (cr);
  for (guint i = 0; i < boxes->len; i++)
    {
      const OddBox box = g_array_index (boxes, OddBox, i);
      const gboolean at_right = box.x + box.width > WIDTH_PX - 1.0 && box.x > WIDTH_PX / 3.0;
      const gboolean above = box.y < 1.0;

      badge (cr, at_right ? box.x + box.width - 18.0 : box.x + 18.0, above ? box.y + 17.0 : box.y + box.height - 16.0,
             g_array_index (numbers, guint, i));
    }
}

static void
paint (Request *request,
       cairo_t *cr)
{
  OddPaintOptions options;

  odd_paint_options_init (&options);
  options.px_per_mm = request->px_per_mm;
  options.mark_px = 1.0;
  cairo_translate (cr, WIDTH_PX / 2.0, HEIGHT_PX / 2.0);
  cairo_scale (cr, request->px_per_mm, request->px_per_mm);
  cairo_rotate (cr, request->turn_deg * G_PI / 180.0);
  options.show = request->wrong_side ? ODD_SHOW_WRONG_SIDE : ODD_SHOW_PATCHES;
  cairo_translate (cr, -request->middle.x, -request->middle.y);
  options.clip_mm = odd_box_grow ((OddBox) { request->middle.x, request->middle.y, 0.0, 0.0 }, WIDTH_PX / request->px_per_mm / 2.0);
  if (request->layout != NULL)
    odd_paint_panel (cr, odd_swatches_get_shared (), request->job, request->layout, request->textile, &options);
  else
    odd_paint_textile (cr, odd_swatches_get_shared (), request->job, request->textile, &options);
}

static void
draw_in_thread (GTask        *task,
                gpointer      source,
                gpointer      data,
                GCancellable *cancellable)
{
  Request *request = data;
  const int k = request->scale_factor;
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDTH_PX * k, HEIGHT_PX * k);
  cairo_t *cr;

  cairo_surface_set_device_scale (surface, k, k);
  cr = cairo_create (surface);
  paint (request, cr);
  if (request->layout != NULL && request->numbers)
    {
      if (request->wrong_side)
        {
          cairo_translate (cr, mirror_width (request), 0.0);
          cairo_scale (cr, -1.0, 1.0);
        }
      paint_numbers (cr, request->layout);
    }
  cairo_destroy (cr);
  g_task_return_pointer (task, odd_texture_new_for_surface (surface), g_object_unref);
}

static void
drawn_cb (GObject      *source,
          GAsyncResult *result,
          gpointer      data)
{
  OddSeamPicture *self = ODD_SEAM_PICTURE (source);
  g_autoptr(GdkTexture) texture = g_task_propagate_pointer (G_TASK (result), NULL);

  if (texture == NULL || g_task_get_cancellable (G_TASK (result)) != self->cancellable)
    return;
  g_set_object (&self->texture, texture);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
ask (OddSeamPicture *self,
     Request        *request)
{
  g_autoptr(GTask) task = NULL;

  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  self->cancellable = g_cancellable_new ();
  request->scale_factor = gtk_widget_get_scale_factor (GTK_WIDGET (self));
  request->wrong_side = self->wrong_side;
  if (request->wrong_side)
    request->middle.x = mirror_width (request) - request->middle.x;
  task = g_task_new (self, self->cancellable, drawn_cb, NULL);
  g_task_set_task_data (task, request, (GDestroyNotify) request_free);
  g_task_run_in_thread (task, draw_in_thread);
}

/* The turn by a quarter that lays the seam nearest to level. */
static double
level_turn (OddSegment segment)
{
  const double dx = segment.to.x - segment.from.x, dy = segment.to.y - segment.from.y;

  return fabs (dy) > fabs (dx) ? -90.0 : 0.0;
}

void
odd_seam_picture_show (OddSeamPicture   *self,
                       OddJob           *job,
                       OddLayout        *layout,
                       OddTextileLayout *textile,
                       OddId             id)
{
  Request *request = g_new0 (Request, 1);
  const OddLaidSeam *seam = odd_layout_find_seam (layout, id);
  const OddPatch *patch = odd_layout_find_patch (layout, id);
  double seen = SEEN_MM;

  g_return_if_fail (ODD_IS_SEAM_PICTURE (self));

  request->job = odd_job_ref (job);
  request->layout = odd_layout_ref (layout);
  request->textile = textile != NULL ? odd_textile_layout_ref (textile) : NULL;
  request->numbers = seam != NULL || patch != NULL;
  if (seam != NULL)
    {
      request->middle = odd_point_lerp (seam->finished.from, seam->finished.to, 0.5);
      request->turn_deg = level_turn (seam->finished);
      seen = CLAMP (odd_segment_length (seam->finished) * 1.02, 80.0, 260.0);
    }
  else if (patch != NULL)
    {
      const OddBox box = odd_convex_box (patch->region);

      request->middle = odd_convex_centroid (patch->region);
      seen = CLAMP (MAX (box.width * 1.5, box.height * 1.3 * WIDTH_PX / HEIGHT_PX), 80.0, 900.0);
    }
  else
    {
      request->middle = odd_point (layout->box.width / 2.0, layout->box.height / 2.0);
      request->turn_deg = layout->box.height > layout->box.width ? -90.0 : 0.0;
      seen = MAX (MAX (layout->raw_box.width, layout->raw_box.height),
                  MIN (layout->raw_box.width, layout->raw_box.height) * WIDTH_PX / HEIGHT_PX) * 1.04;
    }
  request->px_per_mm = WIDTH_PX / seen;
  ask (self, request);
}

void
odd_seam_picture_show_join (OddSeamPicture   *self,
                            OddJob           *job,
                            OddTextileLayout *textile,
                            guint             join)
{
  Request *request = g_new0 (Request, 1);

  g_return_if_fail (ODD_IS_SEAM_PICTURE (self) && join < textile->n_joins);

  request->job = odd_job_ref (job);
  request->textile = odd_textile_layout_ref (textile);
  request->middle = odd_point_lerp (textile->joins[join].finished.from, textile->joins[join].finished.to, 0.5);
  request->turn_deg = level_turn (textile->joins[join].finished);
  request->px_per_mm = WIDTH_PX / SEEN_MM;
  ask (self, request);
}

static void
odd_seam_picture_measure (GtkWidget      *widget,
                          GtkOrientation  orientation,
                          int             for_size,
                          int            *minimum,
                          int            *natural,
                          int            *minimum_baseline,
                          int            *natural_baseline)
{
  if (ODD_SEAM_PICTURE (widget)->small)
    *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? SMALL_WIDTH_PX : SMALL_HEIGHT_PX;
  else if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = 120;
      *natural = WIDTH_PX;
    }
  else
    *minimum = *natural = HEIGHT_PX;
}

/* Fills the width; a wider pane cuts off above and below rather than stretching the cloth. */
static void
odd_seam_picture_snapshot (GtkWidget   *widget,
                           GtkSnapshot *snapshot)
{
  OddSeamPicture *self = ODD_SEAM_PICTURE (widget);
  const double width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  const double k = MAX (width / WIDTH_PX, height / HEIGHT_PX);

  if (self->texture == NULL)
    return;
  gtk_snapshot_push_clip (snapshot, &GRAPHENE_RECT_INIT (0, 0, width, height));
  gtk_snapshot_append_texture (snapshot, self->texture,
                               &GRAPHENE_RECT_INIT ((width - WIDTH_PX * k) / 2.0, (height - HEIGHT_PX * k) / 2.0, WIDTH_PX * k, HEIGHT_PX * k));
  gtk_snapshot_pop (snapshot);
}

static void
odd_seam_picture_dispose (GObject *object)
{
  OddSeamPicture *self = ODD_SEAM_PICTURE (object);

  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  g_clear_object (&self->texture);
  G_OBJECT_CLASS (odd_seam_picture_parent_class)->dispose (object);
}

static void
odd_seam_picture_set_property (GObject      *object,
                               guint         prop_id,
                               const GValue *value,
                               GParamSpec   *pspec)
{
  OddSeamPicture *self = ODD_SEAM_PICTURE (object);

  switch (prop_id)
    {
    case PROP_WRONG_SIDE:
      self->wrong_side = g_value_get_boolean (value);
      break;
    case PROP_SMALL:
      self->small = g_value_get_boolean (value);
      gtk_widget_queue_resize (GTK_WIDGET (self));
      break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
odd_seam_picture_class_init (OddSeamPictureClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  const GParamFlags flags = G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS;

  G_OBJECT_CLASS (klass)->dispose = odd_seam_picture_dispose;
  G_OBJECT_CLASS (klass)->set_property = odd_seam_picture_set_property;
  props[PROP_WRONG_SIDE] = g_param_spec_boolean ("wrong-side", NULL, NULL, FALSE, flags);
  props[PROP_SMALL] = g_param_spec_boolean ("small", NULL, NULL, FALSE, flags);
  g_object_class_install_properties (G_OBJECT_CLASS (klass), N_PROPS, props);
  widget_class->measure = odd_seam_picture_measure;
  widget_class->snapshot = odd_seam_picture_snapshot;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
odd_seam_picture_init (OddSeamPicture *self)
{
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
}
