#include "config.h"
#include "ui/tiles.h"
#include "ui/viewport.h"

typedef struct
{
  guint sheet;
  double level;                /* device px per mm; 0: the overview */
  int tx, ty;
} Key;

typedef struct                 /* how a sheet falls into device px at one level */
{
  double level;
  OddPoint origin_mm;
  int width, height;
} Raster;

typedef struct
{
  guint id;
  gpointer content;
  OddBox box_mm;
  double shown_level;          /* the last level at which all was there; 0: none yet */
} Sheet;

typedef struct _Job Job;

typedef struct
{
  Key key;
  GdkTexture *texture;         /* or NULL: not there yet */
  OddBox box_mm;               /* what the texture shows */
  gboolean stale;
  guint64 used, seen;          /* frames in which it was asked for, drawn */
  Job *job;                    /* or NULL */
  GList link;                  /* in the list of least recent use, while it has a texture */
} Tile;

struct _Job                    /* shared by the main thread and a worker */
{
  OddTiles *tiles;             /* not a reference: the pool is emptied before the object goes */
  Tile *tile;                  /* main thread only; valid while not dropped */
  gpointer content;
  OddBox box_mm;
  double level;
  int scale_factor, width, height;
  guint urgency;               /* lower first */
  guint64 sequence;
  gint dropped;                /* atomic */
  guchar *pixels;              /* set by the worker */
};

typedef struct { GSource source; } Bell;

struct _OddTiles
{
  GObject parent_instance;
  const OddTileContent *functions;
  GHashTable *sheets;          /* id -> Sheet */
  GHashTable *tiles;           /* Key -> Tile */
  GHashTable *pending;         /* set of Tile */
  GQueue recent;               /* Tile, least recently used first */
  gsize bytes, limit;
  guint64 frame, sequence;
  int scale_factor;
  GThreadPool *pool;
  GAsyncQueue *done;           /* Job */
  GSource *bell;               /* rung by workers */
  gint n_painted, n_dropped;   /* atomic */
};

enum { READY, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (OddTiles, odd_tiles, G_TYPE_OBJECT)

/* --- geometry --- */

static Raster
raster_at (const OddBox *box, double level, int scale_factor)
{
  const int pad = ODD_TILE_PAD_PX * scale_factor;

  return (Raster) {
    .level = level,
    .origin_mm = odd_point (box->x - pad / level, box->y - pad / level),
    .width = (int) ceil (box->width * level - 1e-6) + 2 * pad,
    .height = (int) ceil (box->height * level - 1e-6) + 2 * pad,
  };
}

static double
overview_level (const OddBox *box)
{
  return MIN (ODD_OVERVIEW_PX / MAX (MAX (box->width, box->height), 1.0), 2.0);
}

static OddBox
raster_part (const Raster *raster, int x, int y, int width, int height)
{
  return (OddBox) { raster->origin_mm.x + x / raster->level, raster->origin_mm.y + y / raster->level,
                    width / raster->level, height / raster->level };
}

/* --- jobs, in the workers --- */

static void
clear_job (gpointer data)
{
  Job *job = data;

  job->tiles->functions->unref (job->content);
  g_free (job->pixels);
}

static void
drop_job (Job *job)
{
  g_atomic_int_set (&job->dropped, TRUE);
  g_atomic_rc_box_release_full (job, clear_job);
}

static void
paint_pixels (Job *job)
{
  const int stride = job->width * 4;
  cairo_surface_t *surface;
  cairo_t *cr;

  job->pixels = g_malloc0_n (job->height, stride);
  surface = cairo_image_surface_create_for_data (job->pixels, CAIRO_FORMAT_ARGB32, job->width, job->height, stride);
  cr = cairo_create (surface);
  cairo_scale (cr, job->level, job->level);
  cairo_translate (cr, -job->box_mm.x, -job->box_mm.y);
  job->tiles->functions->paint (cr, job->content, job->level, job->scale_factor, job->box_mm);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  cairo_surface_destroy (surface);
}

static void
work (gpointer data, gpointer user_data)
{
  Job *job = data;
  OddTiles *self = user_data;

  if (g_atomic_int_get (&job->dropped))
    g_atomic_int_inc (&self->n_dropped);
  else
    {
      paint_pixels (job);
      g_atomic_int_inc (&self->n_painted);
    }
  g_async_queue_push (self->done, job);
  g_source_set_ready_time (self->bell, 0);
}

static int
compare_jobs (gconstpointer a, gconstpointer b, gpointer data)
{
  const Job *one = a, *other = b;

  if (one->urgency != other->urgency)
    return one->urgency < other->urgency ? -1 : 1;
  return one->sequence < other->sequence ? -1 : one->sequence > other->sequence;
}

/* --- the cache --- */

static guint
hash_key (gconstpointer data)
{
  const Key *key = data;
  guint64 bits;

  memcpy (&bits, &key->level, sizeof bits);
  return key->sheet * 2654435761u ^ (guint) (bits ^ (bits >> 32)) ^ (guint) key->tx * 73856093u ^ (guint) key->ty * 19349663u;
}

static gboolean
equal_key (gconstpointer a, gconstpointer b)
{
  const Key *one = a, *other = b;

  return one->sheet == other->sheet && one->level == other->level && one->tx == other->tx && one->ty == other->ty;
}

static gsize
texture_bytes (GdkTexture *texture)
{
  return (gsize) gdk_texture_get_width (texture) * gdk_texture_get_height (texture) * 4;
}

static void
set_texture (OddTiles *self, Tile *tile, GdkTexture *texture)
{
  if (tile->texture != NULL)
    {
      self->bytes -= texture_bytes (tile->texture);
      g_queue_unlink (&self->recent, &tile->link);
      g_object_unref (tile->texture);
    }
  tile->texture = texture;
  if (texture != NULL)
    {
      self->bytes += texture_bytes (texture);
      g_queue_push_tail_link (&self->recent, &tile->link);
    }
}

static void
cancel_tile (OddTiles *self, Tile *tile)
{
  if (tile->job == NULL)
    return;
  drop_job (g_steal_pointer (&tile->job));
  g_hash_table_remove (self->pending, tile);
}

static void
remove_tile (OddTiles *self, Tile *tile)
{
  cancel_tile (self, tile);
  set_texture (self, tile, NULL);
  g_hash_table_remove (self->tiles, &tile->key);
}

static void
touch (OddTiles *self, Tile *tile)
{
  tile->used = self->frame;
  if (tile->texture == NULL)
    return;
  g_queue_unlink (&self->recent, &tile->link);
  g_queue_push_tail_link (&self->recent, &tile->link);
}

static void
evict (OddTiles *self)
{
  GList *l = self->recent.head;

  while (self->bytes > self->limit && l != NULL)
    {
      Tile *tile = l->data;

      l = l->next;
      if (tile->used + 1 >= self->frame && self->frame > 0)
        break;                             /* the frame that is on screen */
      if (tile->key.level > 0)
        remove_tile (self, tile);
    }
}

static void
take_in (OddTiles *self, Job *job)
{
  Tile *tile = job->tile;
  g_autoptr(GBytes) bytes = g_bytes_new_take (g_steal_pointer (&job->pixels), (gsize) job->width * job->height * 4);

  set_texture (self, tile, gdk_memory_texture_new (job->width, job->height, GDK_MEMORY_DEFAULT, bytes, (gsize) job->width * 4));
  tile->box_mm = job->box_mm;
  tile->stale = FALSE;
  g_hash_table_remove (self->pending, tile);
  g_atomic_rc_box_release_full (g_steal_pointer (&tile->job), clear_job);
}

static gboolean
collect_cb (gpointer data)
{
  OddTiles *self = data;
  gboolean seen = FALSE;
  Job *job;

  g_source_set_ready_time (self->bell, -1);
  while ((job = g_async_queue_try_pop (self->done)) != NULL)
    {
      if (!g_atomic_int_get (&job->dropped))
        {
          seen = seen || job->tile->seen + 1 >= self->frame;
          take_in (self, job);
        }
      g_atomic_rc_box_release_full (job, clear_job);
    }
  evict (self);
  if (seen)
    g_signal_emit (self, signals[READY], 0);
  return G_SOURCE_CONTINUE;
}

static gboolean
dispatch_bell (GSource *source, GSourceFunc callback, gpointer data)
{
  return callback (data);
}

static GSourceFuncs bell_functions = { .dispatch = dispatch_bell };

static void
ask_for (OddTiles *self, Sheet *sheet, Tile *tile, const Raster *raster, guint urgency)
{
  const int x = tile->key.tx * ODD_TILE_PX, y = tile->key.ty * ODD_TILE_PX;
  const gboolean whole = tile->key.level == 0;
  Job *job;

  if (tile->job != NULL)
    return;
  job = g_atomic_rc_box_new0 (Job);
  job->tiles = self;
  job->tile = tile;
  job->content = self->functions->ref (sheet->content);
  job->width = whole ? raster->width : MIN (ODD_TILE_PX, raster->width - x);
  job->height = whole ? raster->height : MIN (ODD_TILE_PX, raster->height - y);
  job->box_mm = raster_part (raster, x, y, job->width, job->height);
  job->level = raster->level;
  job->scale_factor = self->scale_factor;
  job->urgency = urgency;
  job->sequence = self->sequence++;
  tile->job = job;
  g_hash_table_add (self->pending, tile);
  g_thread_pool_push (self->pool, g_atomic_rc_box_acquire (job), NULL);
}

static Tile *
find_tile (OddTiles *self, guint sheet, double level, int tx, int ty)
{
  const Key key = { sheet, level, tx, ty };

  return g_hash_table_lookup (self->tiles, &key);
}

/* The tile, which is asked for when it is not there or stale. */
static Tile *
want_tile (OddTiles *self, Sheet *sheet, const Raster *raster, double level, int tx, int ty, guint urgency)
{
  Tile *tile = find_tile (self, sheet->id, level, tx, ty);

  if (tile == NULL)
    {
      tile = g_new0 (Tile, 1);
      tile->key = (Key) { sheet->id, level, tx, ty };
      tile->link.data = tile;
      g_hash_table_insert (self->tiles, &tile->key, tile);
    }
  touch (self, tile);
  if (tile->texture == NULL || tile->stale)
    ask_for (self, sheet, tile, raster, urgency);
  return tile;
}

static void
remove_tiles_of (OddTiles *self, guint sheet, gboolean all)
{
  g_autoptr(GList) tiles = g_hash_table_get_values (self->tiles);

  for (GList *l = tiles; l != NULL; l = l->next)
    {
      Tile *tile = l->data;

      if (all || tile->key.sheet == sheet)
        remove_tile (self, tile);
    }
}

/* --- sheets --- */

static void
free_sheet (OddTiles *self, Sheet *sheet)
{
  self->functions->unref (sheet->content);
  g_free (sheet);
}

static gboolean
meets_any (OddBox box, const OddBox *damage, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      if (odd_box_meets (box, damage[i]))
        return TRUE;
    }
  return FALSE;
}

static void
spoil (OddTiles *self, guint sheet, const OddBox *damage, guint n_damage)
{
  g_autoptr(GList) tiles = g_hash_table_get_values (self->tiles);

  for (GList *l = tiles; l != NULL; l = l->next)
    {
      Tile *tile = l->data;
      const OddBox box = tile->job != NULL ? tile->job->box_mm : tile->box_mm;

      if (tile->key.sheet != sheet || (damage != NULL && !meets_any (box, damage, n_damage)))
        continue;
      cancel_tile (self, tile);
      tile->stale = TRUE;
    }
}

/* Tiles at the right and lower rim end where the sheet ends: with another extent they are other tiles. */
static gboolean
same_extent (OddBox a, OddBox b)
{
  return a.x == b.x && a.y == b.y && a.width == b.width && a.height == b.height;
}

void
odd_tiles_set_sheet (OddTiles *self, guint id, gpointer content, OddBox box_mm, const OddBox *damage_mm, guint n_damage)
{
  Sheet *sheet;

  g_return_if_fail (ODD_IS_TILES (self));
  g_return_if_fail (content != NULL && box_mm.width > 0 && box_mm.height > 0);

  sheet = g_hash_table_lookup (self->sheets, GUINT_TO_POINTER (id));
  if (sheet == NULL)
    {
      sheet = g_new0 (Sheet, 1);
      sheet->id = id;
      g_hash_table_insert (self->sheets, GUINT_TO_POINTER (id), sheet);
    }
  else
    {
      const gboolean whole = damage_mm == NULL || !same_extent (sheet->box_mm, box_mm);

      spoil (self, id, whole ? NULL : damage_mm, n_damage);
      self->functions->unref (sheet->content);
    }
  sheet->content = self->functions->ref (content);
  sheet->box_mm = box_mm;
}

void
odd_tiles_remove_sheet (OddTiles *self, guint id)
{
  Sheet *sheet;

  g_return_if_fail (ODD_IS_TILES (self));

  sheet = g_hash_table_lookup (self->sheets, GUINT_TO_POINTER (id));
  if (sheet == NULL)
    return;
  remove_tiles_of (self, id, FALSE);
  g_hash_table_remove (self->sheets, GUINT_TO_POINTER (id));
  free_sheet (self, sheet);
}

gpointer
odd_tiles_get_content (OddTiles *self, guint id)
{
  Sheet *sheet = g_hash_table_lookup (self->sheets, GUINT_TO_POINTER (id));

  return sheet != NULL ? sheet->content : NULL;
}

/* --- one frame --- */

typedef struct
{
  OddPoint at_px;
  double zoom;
  int scale_factor;
} View;

static graphene_rect_t
to_device_rect (const View *view, OddBox mm)
{
  const double x0 = odd_round_to_device (view->at_px.x + mm.x * view->zoom, view->scale_factor);
  const double y0 = odd_round_to_device (view->at_px.y + mm.y * view->zoom, view->scale_factor);
  const double x1 = odd_round_to_device (view->at_px.x + (mm.x + mm.width) * view->zoom, view->scale_factor);
  const double y1 = odd_round_to_device (view->at_px.y + (mm.y + mm.height) * view->zoom, view->scale_factor);

  return GRAPHENE_RECT_INIT (x0, y0, x1 - x0, y1 - y0);
}

static OddBox
intersect (OddBox a, OddBox b)
{
  const double x0 = MAX (a.x, b.x), y0 = MAX (a.y, b.y);
  const double x1 = MIN (a.x + a.width, b.x + b.width), y1 = MIN (a.y + a.height, b.y + b.height);

  return x1 > x0 && y1 > y0 ? (OddBox) { x0, y0, x1 - x0, y1 - y0 } : ODD_BOX_EMPTY;
}

static OddBox
visible_mm (const View *view, OddBox visible_px)
{
  return (OddBox) { (visible_px.x - view->at_px.x) / view->zoom, (visible_px.y - view->at_px.y) / view->zoom,
                    visible_px.width / view->zoom, visible_px.height / view->zoom };
}

typedef struct { int x0, y0, x1, y1; } Range;      /* of tiles; ends excluded */

static Range
range_of (const Raster *raster, OddBox seen)
{
  const double tile_mm = ODD_TILE_PX / raster->level;
  const int nx = (raster->width + ODD_TILE_PX - 1) / ODD_TILE_PX, ny = (raster->height + ODD_TILE_PX - 1) / ODD_TILE_PX;

  return (Range) {
    CLAMP ((int) floor ((seen.x - raster->origin_mm.x) / tile_mm), 0, nx),
    CLAMP ((int) floor ((seen.y - raster->origin_mm.y) / tile_mm), 0, ny),
    CLAMP ((int) ceil ((seen.x + seen.width - raster->origin_mm.x) / tile_mm), 0, nx),
    CLAMP ((int) ceil ((seen.y + seen.height - raster->origin_mm.y) / tile_mm), 0, ny),
  };
}

/* At its own level a tile is never scaled: its corner is counted in whole device px from the raster's. */
static graphene_rect_t
tile_rect (const View *view, const Raster *raster, const Tile *tile)
{
  const gboolean exact = fabs (raster->level - view->zoom * view->scale_factor) < 1e-9 * raster->level;
  double left, top;

  if (!exact || tile->stale)
    return to_device_rect (view, tile->box_mm);
  left = odd_round_to_device (view->at_px.x + raster->origin_mm.x * view->zoom, view->scale_factor);
  top = odd_round_to_device (view->at_px.y + raster->origin_mm.y * view->zoom, view->scale_factor);
  return GRAPHENE_RECT_INIT (left + (double) tile->key.tx * ODD_TILE_PX / view->scale_factor,
                             top + (double) tile->key.ty * ODD_TILE_PX / view->scale_factor,
                             (double) gdk_texture_get_width (tile->texture) / view->scale_factor,
                             (double) gdk_texture_get_height (tile->texture) / view->scale_factor);
}

static void
lay_tile (OddTiles *self, GtkSnapshot *snapshot, Tile *tile, const graphene_rect_t *rect)
{
  touch (self, tile);
  tile->seen = self->frame;
  gtk_snapshot_append_texture (snapshot, tile->texture, rect);
}

/* What lies in the place of missing tiles: the overview, and over it the last level that was whole. */
static void
lay_substitute (OddTiles *self, GtkSnapshot *snapshot, Sheet *sheet, const View *view, double level, OddBox gap_mm)
{
  Tile *overview = find_tile (self, sheet->id, 0, 0, 0);
  graphene_rect_t rect = to_device_rect (view, gap_mm);

  gtk_snapshot_push_clip (snapshot, &rect);
  if (overview->texture != NULL)
    {
      rect = to_device_rect (view, overview->box_mm);
      lay_tile (self, snapshot, overview, &rect);
    }
  if (sheet->shown_level > 0 && sheet->shown_level != level)
    {
      const Raster raster = raster_at (&sheet->box_mm, sheet->shown_level, self->scale_factor);
      const Range range = range_of (&raster, gap_mm);

      for (int ty = range.y0; ty < range.y1; ty++)
        for (int tx = range.x0; tx < range.x1; tx++)
          {
            Tile *tile = find_tile (self, sheet->id, sheet->shown_level, tx, ty);

            if (tile == NULL || tile->texture == NULL)
              continue;
            rect = to_device_rect (view, tile->box_mm);
            lay_tile (self, snapshot, tile, &rect);
          }
    }
  gtk_snapshot_pop (snapshot);
}

static gboolean
lay_range (OddTiles *self, GtkSnapshot *snapshot, Sheet *sheet, const View *view, const Raster *raster, const Range *range, OddBox seen)
{
  OddBox gap = ODD_BOX_EMPTY;
  gboolean complete = TRUE;

  for (int ty = range->y0; ty < range->y1; ty++)
    for (int tx = range->x0; tx < range->x1; tx++)
      {
        Tile *tile = want_tile (self, sheet, raster, raster->level, tx, ty, 1);

        tile->seen = self->frame;
        complete = complete && tile->texture != NULL && !tile->stale;
        if (tile->texture == NULL)
          gap = odd_box_union (gap, raster_part (raster, tx * ODD_TILE_PX, ty * ODD_TILE_PX, ODD_TILE_PX, ODD_TILE_PX));
      }
  if (!odd_box_is_empty (gap))
    {
      gap = intersect (gap, seen);
      if (!odd_box_is_empty (gap))
        lay_substitute (self, snapshot, sheet, view, raster->level, gap);
    }
  for (int ty = range->y0; ty < range->y1; ty++)
    for (int tx = range->x0; tx < range->x1; tx++)
      {
        Tile *tile = find_tile (self, sheet->id, raster->level, tx, ty);

        if (tile->texture != NULL)
          {
            const graphene_rect_t rect = tile_rect (view, raster, tile);

            lay_tile (self, snapshot, tile, &rect);
          }
      }
  return complete;
}

/* One tile round what is seen, so that a pan finds cloth. */
static void
look_ahead (OddTiles *self, Sheet *sheet, const Raster *raster, const Range *range)
{
  const int nx = (raster->width + ODD_TILE_PX - 1) / ODD_TILE_PX, ny = (raster->height + ODD_TILE_PX - 1) / ODD_TILE_PX;

  for (int ty = MAX (range->y0 - 1, 0); ty < MIN (range->y1 + 1, ny); ty++)
    for (int tx = MAX (range->x0 - 1, 0); tx < MIN (range->x1 + 1, nx); tx++)
      {
        if (ty < range->y0 || ty >= range->y1 || tx < range->x0 || tx >= range->x1)
          want_tile (self, sheet, raster, raster->level, tx, ty, 2);
      }
}

gboolean
odd_tiles_snapshot (OddTiles *self, GtkSnapshot *snapshot, guint id, OddPoint at_px, double zoom, double level, int scale_factor, OddBox visible_px)
{
  const View view = { at_px, zoom, scale_factor };
  Sheet *sheet;
  Raster raster;
  Range range;
  OddBox seen;
  gboolean complete;

  g_return_val_if_fail (ODD_IS_TILES (self), FALSE);
  g_return_val_if_fail (zoom > 0 && level > 0 && scale_factor >= 1, FALSE);

  sheet = g_hash_table_lookup (self->sheets, GUINT_TO_POINTER (id));
  if (sheet == NULL)
    return TRUE;
  if (self->scale_factor != scale_factor)
    {
      remove_tiles_of (self, 0, TRUE);
      self->scale_factor = scale_factor;
    }
  raster = raster_at (&sheet->box_mm, overview_level (&sheet->box_mm), scale_factor);
  want_tile (self, sheet, &raster, 0, 0, 0, 0);

  raster = raster_at (&sheet->box_mm, level, scale_factor);
  seen = intersect (visible_mm (&view, visible_px), raster_part (&raster, 0, 0, raster.width, raster.height));
  if (odd_box_is_empty (seen))
    return TRUE;
  range = range_of (&raster, seen);
  complete = lay_range (self, snapshot, sheet, &view, &raster, &range, seen);
  if (complete)
    {
      sheet->shown_level = level;
      look_ahead (self, sheet, &raster, &range);
    }
  return complete;
}

void
odd_tiles_end_frame (OddTiles *self)
{
  g_autoptr(GList) pending = NULL;

  g_return_if_fail (ODD_IS_TILES (self));

  pending = g_hash_table_get_keys (self->pending);
  for (GList *l = pending; l != NULL; l = l->next)
    {
      Tile *tile = l->data;

      if (tile->used == self->frame)
        continue;
      if (tile->texture == NULL)
        remove_tile (self, tile);
      else
        cancel_tile (self, tile);
    }
  self->frame++;
  evict (self);
}

/* --- the object --- */

static void
odd_tiles_finalize (GObject *object)
{
  OddTiles *self = ODD_TILES (object);
  GHashTableIter iter;
  gpointer sheet;
  Job *job;

  remove_tiles_of (self, 0, TRUE);         /* what waits is dropped, what runs is waited for */
  g_thread_pool_free (self->pool, FALSE, TRUE);
  while ((job = g_async_queue_try_pop (self->done)) != NULL)
    g_atomic_rc_box_release_full (job, clear_job);
  g_source_destroy (self->bell);
  g_source_unref (self->bell);
  g_hash_table_iter_init (&iter, self->sheets);
  while (g_hash_table_iter_next (&iter, NULL, &sheet))
    free_sheet (self, sheet);
  g_hash_table_unref (self->sheets);
  g_hash_table_unref (self->pending);
  g_hash_table_unref (self->tiles);
  g_async_queue_unref (self->done);
  G_OBJECT_CLASS (odd_tiles_parent_class)->finalize (object);
}

static void
odd_tiles_class_init (OddTilesClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = odd_tiles_finalize;
  signals[READY] = g_signal_new ("ready", ODD_TYPE_TILES, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
odd_tiles_init (OddTiles *self)
{
  self->sheets = g_hash_table_new (NULL, NULL);
  self->tiles = g_hash_table_new_full (hash_key, equal_key, NULL, g_free);
  self->pending = g_hash_table_new (NULL, NULL);
  g_queue_init (&self->recent);
  self->limit = 96 * 1024 * 1024;
  self->scale_factor = 1;
  self->done = g_async_queue_new ();
  self->bell = g_source_new (&bell_functions, sizeof (Bell));
  g_source_set_callback (self->bell, collect_cb, self, NULL);
  g_source_set_static_name (self->bell, "[oddment] tiles");
  g_source_attach (self->bell, NULL);
}

OddTiles *
odd_tiles_new (const OddTileContent *functions, guint n_threads)
{
  OddTiles *self = g_object_new (ODD_TYPE_TILES, NULL);

  self->functions = functions;
  self->pool = g_thread_pool_new (work, self, (int) n_threads, FALSE, NULL);
  g_thread_pool_set_sort_function (self->pool, compare_jobs, NULL);
  return self;
}

void
odd_tiles_set_limit (OddTiles *self, gsize bytes)
{
  g_return_if_fail (ODD_IS_TILES (self));
  self->limit = bytes;
  evict (self);
}

gsize
odd_tiles_get_bytes (OddTiles *self)
{
  return self->bytes;
}

guint
odd_tiles_get_n_tiles (OddTiles *self)
{
  return self->recent.length;
}

guint
odd_tiles_get_n_pending (OddTiles *self)
{
  return g_hash_table_size (self->pending);
}

guint
odd_tiles_get_n_painted (OddTiles *self)
{
  return (guint) g_atomic_int_get (&self->n_painted);
}

guint
odd_tiles_get_n_dropped (OddTiles *self)
{
  return (guint) g_atomic_int_get (&self->n_dropped);
}
