#include "config.h"

#include "ui/thumbnails.h"

#include <math.h>

#include "cloth/offcuts.h"

struct _OddThumbnails
{
  GObject parent_instance;
  OddSwatches *swatches;
  double px_per_mm;
  int scale_factor;
  guint generation;   /* of the scale: what a worker brings of an older one is dropped */
  GHashTable *pictures; /* scrap id -> Picture */
};

typedef struct
{
  OddScrap *scrap;    /* what it shows, or will show */
  OddFabric *fabric;
  OddLayout *piece;   /* of a pieced scrap; another one when anything in it changed */
  guint taken;        /* hash of the cut shapes that lie on it */
  GdkTexture *texture; /* NULL while the worker draws */
} Picture;

G_DEFINE_FINAL_TYPE (OddThumbnails, odd_thumbnails, G_TYPE_OBJECT)

enum { READY, N_SIGNALS };
static guint signals[N_SIGNALS];

typedef struct
{
  OddJob *job;
  OddScrap *scrap;
  OddFabric *fabric;
  OddLayout *piece;
  guint taken;
  OddSwatches *swatches;
  double px_per_mm;
  int scale_factor;
  guint generation;
} Request;

static void
picture_free (Picture *picture)
{
  odd_scrap_unref (picture->scrap);
  g_clear_pointer (&picture->fabric, odd_fabric_unref);
  g_clear_pointer (&picture->piece, odd_layout_unref);
  g_clear_object (&picture->texture);
  g_free (picture);
}

static void
request_free (Request *request)
{
  odd_job_unref (request->job);
  odd_scrap_unref (request->scrap);
  g_clear_pointer (&request->fabric, odd_fabric_unref);
  g_clear_pointer (&request->piece, odd_layout_unref);
  odd_swatches_unref (request->swatches);
  g_free (request);
}

GdkTexture *
odd_texture_new_for_surface (cairo_surface_t *surface)
{
  g_autoptr(GBytes) bytes = NULL;
  const int height = cairo_image_surface_get_height (surface);
  const int stride = cairo_image_surface_get_stride (surface);

  cairo_surface_flush (surface);
  bytes = g_bytes_new_with_free_func (cairo_image_surface_get_data (surface), (gsize) height * stride,
                                      (GDestroyNotify) cairo_surface_destroy, surface);
  return gdk_memory_texture_new (cairo_image_surface_get_width (surface), height, GDK_MEMORY_DEFAULT, bytes, stride);
}

static void
draw_in_thread (GTask        *task,
                gpointer      source,
                gpointer      data,
                GCancellable *cancellable)
{
  Request *request = data;
  cairo_surface_t *surface = odd_scrap_render (request->job, request->swatches, request->scrap,
                                               request->px_per_mm * request->scale_factor, request->scale_factor);

  g_task_return_pointer (task, surface != NULL ? odd_texture_new_for_surface (surface) : NULL, g_object_unref);
}

static void
drawn_cb (GObject      *source,
          GAsyncResult *result,
          gpointer      data)
{
  OddThumbnails *self = ODD_THUMBNAILS (source);
  Request *request = g_task_get_task_data (G_TASK (result));
  g_autoptr(GdkTexture) texture = g_task_propagate_pointer (G_TASK (result), NULL);
  Picture *picture = g_hash_table_lookup (self->pictures, GUINT_TO_POINTER (request->scrap->id));

  if (texture == NULL || request->generation != self->generation || picture == NULL || picture->scrap != request->scrap ||
      picture->fabric != request->fabric || picture->piece != request->piece || picture->taken != request->taken)
    return;
  g_set_object (&picture->texture, texture);
  g_signal_emit (self, signals[READY], 0, request->scrap->id);
}

static void
ask (OddThumbnails *self,
     OddJob        *job,
     Picture       *picture)
{
  g_autoptr(GTask) task = g_task_new (self, NULL, drawn_cb, NULL);
  Request *request = g_new0 (Request, 1);

  request->job = odd_job_ref (job);
  request->scrap = odd_scrap_ref (picture->scrap);
  request->fabric = picture->fabric != NULL ? odd_fabric_ref (picture->fabric) : NULL;
  request->piece = picture->piece != NULL ? odd_layout_ref (picture->piece) : NULL;
  request->swatches = odd_swatches_ref (self->swatches);
  request->px_per_mm = self->px_per_mm;
  request->scale_factor = self->scale_factor;
  request->taken = picture->taken;
  request->generation = self->generation;
  g_task_set_task_data (task, request, (GDestroyNotify) request_free);
  g_task_run_in_thread (task, draw_in_thread);
}

/* Tells one set of cut shapes from another, to a hundredth of a millimetre. */
static guint
hash_taken (OddJob   *job,
            OddScrap *scrap)
{
  guint n = 0, hash = scrap->cut_out;
  const OddUse *uses = odd_job_get_uses (job, scrap->id, &n);

  for (guint i = 0; i < n; i++)
    {
      g_autoptr(OddConvex) cut = odd_use_dup_cut (job, &uses[i]);

      for (guint k = 0; cut != NULL && k < cut->n; k++)
        hash = 31u * (31u * hash + (guint) (gint64) rint (cut->points[k].x * 100.0)) + (guint) (gint64) rint (cut->points[k].y * 100.0);
    }
  return hash;
}

GdkTexture *
odd_thumbnails_get (OddThumbnails *self,
                    OddJob        *job,
                    OddScrap      *scrap)
{
  OddFabric *fabric = odd_job_get_scrap_fabric (job, scrap);
  g_autoptr(OddLayout) piece = odd_job_dup_piece_layout (job, scrap);
  Picture *picture = g_hash_table_lookup (self->pictures, GUINT_TO_POINTER (scrap->id));
  const guint taken = hash_taken (job, scrap);

  g_return_val_if_fail (ODD_IS_THUMBNAILS (self), NULL);

  if (picture != NULL && picture->scrap == scrap && picture->fabric == fabric && picture->piece == piece && picture->taken == taken)
    return picture->texture;
  picture = g_new0 (Picture, 1);
  picture->scrap = odd_scrap_ref (scrap);
  picture->taken = taken;
  picture->fabric = fabric != NULL ? odd_fabric_ref (fabric) : NULL;
  picture->piece = g_steal_pointer (&piece);
  g_hash_table_replace (self->pictures, GUINT_TO_POINTER (scrap->id), picture);
  ask (self, job, picture);
  return NULL;
}

void
odd_thumbnails_set_scale (OddThumbnails *self,
                          double         px_per_mm,
                          int            scale_factor)
{
  g_return_if_fail (ODD_IS_THUMBNAILS (self) && px_per_mm > 0.0 && scale_factor > 0);

  if (self->px_per_mm == px_per_mm && self->scale_factor == scale_factor)
    return;
  self->px_per_mm = px_per_mm;
  self->scale_factor = scale_factor;
  self->generation++;
  g_hash_table_remove_all (self->pictures);
}

double
odd_thumbnails_get_px_per_mm (OddThumbnails *self)
{
  g_return_val_if_fail (ODD_IS_THUMBNAILS (self), 0.0);

  return self->px_per_mm;
}

static void
odd_thumbnails_finalize (GObject *object)
{
  OddThumbnails *self = ODD_THUMBNAILS (object);

  g_hash_table_unref (self->pictures);
  g_clear_pointer (&self->swatches, odd_swatches_unref);
  G_OBJECT_CLASS (odd_thumbnails_parent_class)->finalize (object);
}

static void
odd_thumbnails_class_init (OddThumbnailsClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = odd_thumbnails_finalize;
  signals[READY] = g_signal_new ("ready", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
}

static void
odd_thumbnails_init (OddThumbnails *self)
{
  self->pictures = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify) picture_free);
  self->px_per_mm = 0.3;
  self->scale_factor = 1;
}

OddThumbnails *
odd_thumbnails_new (OddSwatches *swatches)
{
  OddThumbnails *self = g_object_new (ODD_TYPE_THUMBNAILS, NULL);

  self->swatches = odd_swatches_ref (swatches);
  return self;
}

OddSwatches *
odd_swatches_get_shared (void)
{
  static OddSwatches *shared;

  if (g_once_init_enter (&shared))
    g_once_init_leave (&shared, odd_swatches_new ());
  return shared;
}
