#include "config.h"

#include <gdk-pixbuf/gdk-pixbuf.h>

#include "drawing/colour.h"
#include "drawing/print.h"
#include "drawing/swatch.h"

#define LARGEST_PICTURE_PX 2048          /* longer sides are scaled down when read: screens do not show more */
#define LARGEST_SOURCE_PX 30000          /* beyond this a picture is not read at all */
#define CACHE_BYTES (192 * 1024 * 1024)  /* about 130 prints; the ones not used for longest go first */

#define BEHIND_COLOUR 0xf3eee6           /* unprinted cloth, seen from the wrong side */

/* --- one swatch --- */

OddSwatch *
odd_swatch_ref (OddSwatch *self)
{
  return g_atomic_rc_box_acquire (self);
}

static void
swatch_clear (gpointer data)
{
  OddSwatch *self = data;

  for (guint i = 0; i < self->n_levels; i++)
    g_free (self->levels[i].pixels);
}

void
odd_swatch_unref (OddSwatch *self)
{
  g_atomic_rc_box_release_full (self, swatch_clear);
}

static guint32
mean_of_four (guint32 a, guint32 b, guint32 c, guint32 d)
{
  const guint32 odd = 0x00ff00ff, two = 0x00020002;
  const guint32 low = (((a & odd) + (b & odd) + (c & odd) + (d & odd) + two) >> 2) & odd;
  const guint32 high = ((((a >> 8) & odd) + ((b >> 8) & odd) + ((c >> 8) & odd) + ((d >> 8) & odd) + two) >> 2) & odd;

  return high << 8 | low;
}

static OddSwatchLevel
halve (const OddSwatchLevel *from)
{
  OddSwatchLevel to = { NULL, MAX (1u, from->width_px / 2), MAX (1u, from->height_px / 2) };

  to.pixels = g_new (guint32, (gsize) to.width_px * to.height_px);
  for (guint y = 0; y < to.height_px; y++)
    {
      const guint32 *row = from->pixels + (gsize) MIN (2 * y, from->height_px - 1) * from->width_px;
      const guint32 *next = from->pixels + (gsize) MIN (2 * y + 1, from->height_px - 1) * from->width_px;

      for (guint x = 0; x < to.width_px; x++)
        {
          const guint left = MIN (2 * x, from->width_px - 1), right = MIN (2 * x + 1, from->width_px - 1);

          to.pixels[(gsize) y * to.width_px + x] = mean_of_four (row[left], row[right], next[left], next[right]);
        }
    }
  return to;
}

static guint32
from_behind (guint32 pixel)
{
  const guint32 colour = pixel & 0xffffffu;
  const guint32 grey = ((colour >> 16) * 2 + ((colour >> 8) & 0xff) * 5 + (colour & 0xff)) / 8;
  const guint32 dull = odd_colour_mix (colour, grey << 16 | grey << 8 | grey, 0.35);

  return (pixel & 0xff000000u) | odd_colour_mix (dull, BEHIND_COLOUR, 0.42);
}

static void
swatch_finish (OddSwatch *self, gboolean wrong_side)
{
  const OddSwatchLevel *first = &self->levels[0], *last;

  if (wrong_side)
    for (gsize i = 0; i < (gsize) first->width_px * first->height_px; i++)
      first->pixels[i] = from_behind (first->pixels[i]);
  self->n_levels = 1;
  for (last = first; (last->width_px > 1 || last->height_px > 1) && self->n_levels < ODD_SWATCH_MAX_LEVELS; last++)
    self->levels[self->n_levels++] = halve (last);
  self->mean_colour = last->pixels[0] & 0xffffffu;
}

static OddSwatch *
swatch_new_print (const OddPrint *print, gboolean wrong_side)
{
  OddSwatch *self = g_atomic_rc_box_new0 (OddSwatch);
  const guint side_px = odd_print_tile_px (print);

  self->repeats = TRUE;
  self->unit_width = self->unit_height = odd_print_tile_mm (print);
  self->px_per_unit = side_px / self->unit_width;
  self->levels[0] = (OddSwatchLevel) { g_new (guint32, (gsize) side_px * side_px), side_px, side_px };
  odd_print_render (print, self->levels[0].pixels, side_px, TRUE);
  swatch_finish (self, wrong_side);
  return self;
}

typedef struct { int width, height; } PictureSize;

/* Told the true size before anything is unpacked: large photographs are scaled down while read, absurd ones not read. */
static void
size_prepared_cb (GdkPixbufLoader *loader, int width, int height, gpointer data)
{
  PictureSize *size = data;
  const int longest = MAX (width, height);

  *size = (PictureSize) { width, height };
  if (longest > LARGEST_SOURCE_PX || width < 1 || height < 1)
    gdk_pixbuf_loader_set_size (loader, 0, 0);
  else if (longest > LARGEST_PICTURE_PX)
    gdk_pixbuf_loader_set_size (loader, MAX (1, (int) ((gint64) width * LARGEST_PICTURE_PX / longest)), MAX (1, (int) ((gint64) height * LARGEST_PICTURE_PX / longest)));
}

static GdkPixbuf *
read_picture (GBytes *bytes, PictureSize *size)
{
  g_autoptr(GdkPixbufLoader) loader = gdk_pixbuf_loader_new ();
  GdkPixbuf *pixbuf;

  g_signal_connect (loader, "size-prepared", G_CALLBACK (size_prepared_cb), size);
  if (!gdk_pixbuf_loader_write_bytes (loader, bytes, NULL))
    {
      gdk_pixbuf_loader_close (loader, NULL);
      return NULL;
    }
  if (!gdk_pixbuf_loader_close (loader, NULL))
    return NULL;
  pixbuf = gdk_pixbuf_loader_get_pixbuf (loader);
  return pixbuf != NULL ? g_object_ref (pixbuf) : NULL;
}

static guint32
premultiply (const guchar *p, gboolean has_alpha)
{
  const guint32 alpha = has_alpha ? p[3] : 255;

  return alpha << 24 | (p[0] * alpha + 127) / 255 << 16 | (p[1] * alpha + 127) / 255 << 8 | (p[2] * alpha + 127) / 255;
}

static OddSwatch *
swatch_new_picture (OddPicture *picture, gboolean wrong_side)
{
  PictureSize size = { 0, 0 };
  g_autoptr(GdkPixbuf) pixbuf = picture->bytes != NULL ? read_picture (picture->bytes, &size) : NULL;
  OddSwatch *self;
  guint width, height;
  gboolean has_alpha;

  if (pixbuf == NULL)
    return NULL;
  self = g_atomic_rc_box_new0 (OddSwatch);
  width = (guint) gdk_pixbuf_get_width (pixbuf);
  height = (guint) gdk_pixbuf_get_height (pixbuf);
  has_alpha = gdk_pixbuf_get_has_alpha (pixbuf);
  self->unit_width = size.width;
  self->unit_height = size.height;
  self->px_per_unit = width / self->unit_width;
  self->levels[0] = (OddSwatchLevel) { g_new (guint32, (gsize) width * height), width, height };
  for (guint y = 0; y < height; y++)
    for (guint x = 0; x < width; x++)
      self->levels[0].pixels[(gsize) y * width + x] = premultiply (gdk_pixbuf_read_pixels (pixbuf) + (gsize) y * gdk_pixbuf_get_rowstride (pixbuf) + x * (has_alpha ? 4 : 3), has_alpha);
  swatch_finish (self, wrong_side);
  return self;
}

static gsize
swatch_bytes (const OddSwatch *self)
{
  gsize bytes = 0;

  for (guint i = 0; i < self->n_levels; i++)
    bytes += (gsize) self->levels[i].width_px * self->levels[i].height_px * sizeof (guint32);
  return bytes;
}

guint
odd_swatch_choose_level (const OddSwatch *self, double px_per_unit)
{
  guint level = 0;
  double fineness = self->px_per_unit;

  /* a level up to a tenth too coarse is still sharp to the eye, one that is twice too fine shimmers */
  while (level + 1 < self->n_levels && 0.5 * fineness >= 0.9 * px_per_unit)
    {
      fineness *= 0.5;
      level++;
    }
  return level;
}

cairo_surface_t *
odd_swatch_wrap (OddSwatch *self, guint level)
{
  static const cairo_user_data_key_t key;
  const OddSwatchLevel *l = &self->levels[level];
  cairo_surface_t *surface = cairo_image_surface_create_for_data ((guchar *) l->pixels, CAIRO_FORMAT_ARGB32, (int) l->width_px, (int) l->height_px, 4 * (int) l->width_px);

  cairo_surface_set_user_data (surface, &key, odd_swatch_ref (self), (cairo_destroy_func_t) odd_swatch_unref);
  return surface;
}

/* --- all of them --- */

typedef struct
{
  OddSwatch *swatch;          /* NULL: broken, or still being made */
  gboolean ready;
  guint64 used;               /* when asked for last, by count */
} Entry;

struct _OddSwatches
{
  gatomicrefcount ref_count;
  GMutex mutex;
  GCond made;
  GHashTable *entries;        /* (element-type utf8 Entry) */
  guint64 count;
  gsize bytes;
};

static void
entry_free (gpointer data)
{
  Entry *entry = data;

  g_clear_pointer (&entry->swatch, odd_swatch_unref);
  g_free (entry);
}

OddSwatches *
odd_swatches_new (void)
{
  OddSwatches *self = g_new0 (OddSwatches, 1);

  g_atomic_ref_count_init (&self->ref_count);
  g_mutex_init (&self->mutex);
  g_cond_init (&self->made);
  self->entries = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, entry_free);
  return self;
}

OddSwatches *
odd_swatches_ref (OddSwatches *self)
{
  g_atomic_ref_count_inc (&self->ref_count);
  return self;
}

void
odd_swatches_unref (OddSwatches *self)
{
  if (!g_atomic_ref_count_dec (&self->ref_count))
    return;
  g_hash_table_unref (self->entries);
  g_mutex_clear (&self->mutex);
  g_cond_clear (&self->made);
  g_free (self);
}

/* Called locked. What painters still hold lives on until they let go. */
static void
drop_oldest (OddSwatches *self)
{
  while (self->bytes > CACHE_BYTES)
    {
      GHashTableIter iter;
      gpointer key, value, oldest_key = NULL;
      Entry *oldest = NULL;

      g_hash_table_iter_init (&iter, self->entries);
      while (g_hash_table_iter_next (&iter, &key, &value))
        {
          Entry *entry = value;

          if (entry->swatch != NULL && entry->used != self->count && (oldest == NULL || entry->used < oldest->used))
            {
              oldest = entry;
              oldest_key = key;
            }
        }
      if (oldest == NULL)
        return;
      self->bytes -= swatch_bytes (oldest->swatch);
      g_hash_table_remove (self->entries, oldest_key);
    }
}

/* Looks up, waiting while another thread makes it. Returns NULL and @out_make TRUE when the caller has to make it. */
static OddSwatch *
look_up (OddSwatches *self, const char *key, gboolean *out_make)
{
  OddSwatch *swatch = NULL;
  Entry *entry;

  g_mutex_lock (&self->mutex);
  while ((entry = g_hash_table_lookup (self->entries, key)) != NULL && !entry->ready)
    g_cond_wait (&self->made, &self->mutex);
  *out_make = entry == NULL;
  if (entry == NULL)
    {
      entry = g_new0 (Entry, 1);
      g_hash_table_insert (self->entries, g_strdup (key), entry);
    }
  entry->used = ++self->count;
  if (entry->swatch != NULL)
    swatch = odd_swatch_ref (entry->swatch);
  g_mutex_unlock (&self->mutex);
  return swatch;
}

static void
put (OddSwatches *self, const char *key, OddSwatch *swatch)
{
  Entry *entry;

  g_mutex_lock (&self->mutex);
  entry = g_hash_table_lookup (self->entries, key);
  entry->ready = TRUE;
  entry->used = ++self->count;
  if (swatch != NULL)
    {
      entry->swatch = odd_swatch_ref (swatch);
      self->bytes += swatch_bytes (swatch);
      drop_oldest (self);
    }
  g_cond_broadcast (&self->made);
  g_mutex_unlock (&self->mutex);
}

OddSwatch *
odd_swatches_dup_print (OddSwatches *self, const OddPrint *print, gboolean wrong_side)
{
  gboolean make;
  OddSwatch *swatch;
  g_autofree char *key = NULL;

  g_return_val_if_fail (self != NULL && print != NULL && print->repeat_mm > 0.0, NULL);

  key = g_strdup_printf ("%d %06x %06x %06x %06x %a %d", print->kind, print->colours[0], print->colours[1], print->colours[2], print->colours[3], print->repeat_mm, wrong_side);
  swatch = look_up (self, key, &make);
  if (make)
    {
      swatch = swatch_new_print (print, wrong_side);
      put (self, key, swatch);
    }
  return swatch;
}

OddSwatch *
odd_swatches_dup_picture (OddSwatches *self, OddPicture *picture, gboolean wrong_side)
{
  gboolean make;
  OddSwatch *swatch;
  g_autofree char *key = NULL;

  g_return_val_if_fail (self != NULL && picture != NULL, NULL);

  /* a name is the sum of the bytes; the same name without bytes is a picture that is missing */
  key = g_strdup_printf ("%s %d %d", picture->name, picture->bytes != NULL, wrong_side);
  swatch = look_up (self, key, &make);
  if (make)
    {
      swatch = swatch_new_picture (picture, wrong_side);
      put (self, key, swatch);
    }
  return swatch;
}
