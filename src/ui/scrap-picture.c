#include "config.h"

#include "ui/scrap-picture.h"

struct _OddScrapPicture
{
  GtkWidget parent_instance;
  OddThumbnails *thumbnails;
  gulong ready_handler;
  OddJob *job;
  OddScrap *scrap;
  gboolean in_hand;
};

G_DEFINE_FINAL_TYPE (OddScrapPicture, odd_scrap_picture, GTK_TYPE_WIDGET)

static OddBox
get_box (OddScrapPicture *self)
{
  return self->scrap != NULL ? odd_scrap_get_box (self->scrap) : (OddBox) { 0.0, 0.0, 0.0, 0.0 };
}

static void
odd_scrap_picture_measure (GtkWidget      *widget,
                           GtkOrientation  orientation,
                           int             for_size,
                           int            *minimum,
                           int            *natural,
                           int            *minimum_baseline,
                           int            *natural_baseline)
{
  OddScrapPicture *self = ODD_SCRAP_PICTURE (widget);
  const OddBox box = get_box (self);
  const double scale = self->thumbnails != NULL ? odd_thumbnails_get_px_per_mm (self->thumbnails) : 0.0;

  *minimum = *natural = ceil (scale * (orientation == GTK_ORIENTATION_HORIZONTAL ? box.width : box.height)) + 2;
}

static void
outline_path (cairo_t         *cr,
              OddScrapPicture *self,
              double           scale)
{
  const OddBox box = get_box (self);
  gsize n;
  const OddPoint *ring = odd_polygon_get_ring (self->scrap->outline, &n);

  for (gsize i = 0; i < n; i++)
    cairo_line_to (cr, 1.0 + (ring[i].x - box.x) * scale, 1.0 + (ring[i].y - box.y) * scale);
  cairo_close_path (cr);
}

static void
snapshot_outline (OddScrapPicture *self,
                  GtkSnapshot     *snapshot,
                  int              width,
                  int              height,
                  gboolean         dashed)
{
  const double dash[] = { 3.5, 2.6 };
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (-1, -1, width + 2, height + 2));
  GdkRGBA colour;

  gtk_style_context_get_color (gtk_widget_get_style_context (GTK_WIDGET (self)), &colour);
  colour.alpha *= dashed ? 0.9 : 0.35;
  gdk_cairo_set_source_rgba (cr, &colour);
  cairo_set_line_width (cr, 1.2);
  if (dashed)
    cairo_set_dash (cr, dash, 2, 0.0);
  outline_path (cr, self, odd_thumbnails_get_px_per_mm (self->thumbnails));
  cairo_stroke (cr);
  cairo_destroy (cr);
}

static void
odd_scrap_picture_snapshot (GtkWidget   *widget,
                            GtkSnapshot *snapshot)
{
  OddScrapPicture *self = ODD_SCRAP_PICTURE (widget);
  const OddBox box = get_box (self);
  GdkTexture *texture;
  double scale, width, height;

  if (self->scrap == NULL || self->thumbnails == NULL)
    return;
  scale = odd_thumbnails_get_px_per_mm (self->thumbnails);
  width = box.width * scale + 2.0;
  height = box.height * scale + 2.0;
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT (floor ((gtk_widget_get_width (widget) - width) / 2.0),
                                                         floor ((gtk_widget_get_height (widget) - height) / 2.0)));
  texture = odd_thumbnails_get (self->thumbnails, self->job, self->scrap);
  if (self->in_hand || texture == NULL)
    snapshot_outline (self, snapshot, width, height, self->in_hand);
  else
    {
      const double k = gtk_widget_get_scale_factor (widget);
      const double tw = gdk_texture_get_width (texture) / k, th = gdk_texture_get_height (texture) / k;

      gtk_snapshot_append_texture (snapshot, texture, &GRAPHENE_RECT_INIT (floor ((width - tw) / 2.0), floor ((height - th) / 2.0), tw, th));
    }
  gtk_snapshot_restore (snapshot);
}

static void
ready_cb (OddScrapPicture *self,
          guint            scrap_id)
{
  if (self->scrap != NULL && self->scrap->id == scrap_id)
    gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
odd_scrap_picture_show (OddScrapPicture *self,
                        OddThumbnails   *thumbnails,
                        OddJob          *job,
                        OddScrap        *scrap)
{
  g_return_if_fail (ODD_IS_SCRAP_PICTURE (self));

  g_clear_signal_handler (&self->ready_handler, self->thumbnails);
  g_set_object (&self->thumbnails, thumbnails);
  if (job != NULL)
    odd_job_ref (job);
  if (scrap != NULL)
    odd_scrap_ref (scrap);
  g_clear_pointer (&self->job, odd_job_unref);
  g_clear_pointer (&self->scrap, odd_scrap_unref);
  self->job = job;
  self->scrap = scrap;
  if (thumbnails != NULL)
    self->ready_handler = g_signal_connect_swapped (thumbnails, "ready", G_CALLBACK (ready_cb), self);
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

void
odd_scrap_picture_set_in_hand (OddScrapPicture *self,
                               gboolean         in_hand)
{
  g_return_if_fail (ODD_IS_SCRAP_PICTURE (self));

  self->in_hand = in_hand;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

GdkTexture *
odd_scrap_picture_get_texture (OddScrapPicture *self)
{
  g_return_val_if_fail (ODD_IS_SCRAP_PICTURE (self), NULL);

  return self->scrap != NULL && self->thumbnails != NULL ? odd_thumbnails_get (self->thumbnails, self->job, self->scrap) : NULL;
}

static void
odd_scrap_picture_dispose (GObject *object)
{
  odd_scrap_picture_show (ODD_SCRAP_PICTURE (object), NULL, NULL, NULL);
  G_OBJECT_CLASS (odd_scrap_picture_parent_class)->dispose (object);
}

static void
odd_scrap_picture_class_init (OddScrapPictureClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = odd_scrap_picture_dispose;
  widget_class->measure = odd_scrap_picture_measure;
  widget_class->snapshot = odd_scrap_picture_snapshot;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
odd_scrap_picture_init (OddScrapPicture *self)
{
}
