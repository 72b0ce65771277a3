#include "config.h"

#include "ui/keeper.h"

#include <glib/gi18n.h>

#include "store/autosave.h"
#include "store/load.h"
#include "store/save.h"

/* A copy is made when the maker rests, and at the latest after a minute of steady work. */
#define REST_S 3
#define LATEST_US (60 * G_USEC_PER_SEC)
/* Other programs write in several steps; wait until they are through. */
#define SETTLE_MS 600

struct _OddKeeper
{
  GObject parent_instance;
  OddDocument *document;
  char *autosave_id;
  OddJob *copied;             /* what the last copy holds */
  gint64 unsaved_since;       /* monotonic; 0: nothing new since the last copy */
  guint autosave_timer;
  gboolean autosaving;
  guint busy;
  GFileMonitor *monitor;
  guint settle_timer;
  char *fingerprint;          /* of the file as last read or saved */
};

G_DEFINE_FINAL_TYPE (OddKeeper, odd_keeper, G_TYPE_OBJECT)

enum { PROP_0, PROP_BUSY, N_PROPS };
enum { CHANGED_OUTSIDE, N_SIGNALS };
static GParamSpec *props[N_PROPS];
static guint signals[N_SIGNALS];

typedef struct
{
  OddKeeper *self;
  GFile *file;
  OddJob *job;
  char *original_path;
  char *autosave_id;
  OddKeeperDone done;
  gpointer data;
} Call;

static Call *
call_new (OddKeeper     *self,
          GFile         *file,
          OddKeeperDone  done,
          gpointer       data)
{
  Call *call = g_new0 (Call, 1);

  call->self = g_object_ref (self);
  call->file = file != NULL ? g_object_ref (file) : NULL;
  call->done = done;
  call->data = data;
  self->busy++;
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_BUSY]);
  return call;
}

static void
call_finish (Call       *call,
             gboolean    ok,
             const char *message)
{
  call->self->busy--;
  g_object_notify_by_pspec (G_OBJECT (call->self), props[PROP_BUSY]);
  if (call->done != NULL)
    call->done (call->self, ok, message, call->data);
  g_clear_object (&call->file);
  g_clear_pointer (&call->job, odd_job_unref);
  g_free (call->original_path);
  g_free (call->autosave_id);
  g_object_unref (call->self);
  g_free (call);
}

/* --- the file on disk --- */

static char *
take_fingerprint (OddKeeper *self)
{
  GFile *file = odd_document_get_file (self->document);
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;

  return path != NULL ? odd_store_fingerprint (path) : NULL;
}

static gboolean
settled_cb (gpointer data)
{
  OddKeeper *self = data;
  g_autofree char *now = NULL;

  self->settle_timer = 0;
  if (self->busy > 0)
    return G_SOURCE_REMOVE;
  now = take_fingerprint (self);
  /* gone is not changed: the maker's own copy is in the window */
  if (now != NULL && g_strcmp0 (now, self->fingerprint) != 0)
    g_signal_emit (self, signals[CHANGED_OUTSIDE], 0);
  return G_SOURCE_REMOVE;
}

static void
file_changed_cb (OddKeeper *self)
{
  g_clear_handle_id (&self->settle_timer, g_source_remove);
  self->settle_timer = g_timeout_add (SETTLE_MS, settled_cb, self);
}

static void
watch (OddKeeper *self)
{
  GFile *file = odd_document_get_file (self->document);

  if (self->monitor != NULL)
    g_file_monitor_cancel (self->monitor);
  g_clear_object (&self->monitor);
  g_free (self->fingerprint);
  self->fingerprint = take_fingerprint (self);
  if (file == NULL)
    return;
  self->monitor = g_file_monitor_file (file, G_FILE_MONITOR_WATCH_MOVES, NULL, NULL);
  if (self->monitor != NULL)
    g_signal_connect_object (self->monitor, "changed", G_CALLBACK (file_changed_cb), self, G_CONNECT_SWAPPED);
}

void
odd_keeper_keep_mine (OddKeeper *self)
{
  g_return_if_fail (ODD_IS_KEEPER (self));

  g_free (self->fingerprint);
  self->fingerprint = take_fingerprint (self);
}

gboolean
odd_keeper_is_changed_outside (OddKeeper *self)
{
  g_autofree char *now = NULL;

  g_return_val_if_fail (ODD_IS_KEEPER (self), FALSE);

  now = take_fingerprint (self);
  return now != NULL && g_strcmp0 (now, self->fingerprint) != 0;
}

/* --- copies of unsaved work --- */

static void schedule (OddKeeper *self);

static void
autosaved_cb (GObject      *source,
              GAsyncResult *result,
              gpointer      data)
{
  g_autoptr(OddKeeper) self = data;
  g_autoptr(GError) error = NULL;

  self->autosaving = FALSE;
  /* the maker cannot mend it, and her own saving will say what is wrong with the disk */
  if (!odd_autosave_write_finish (result, &error))
    g_message ("%s", error->message);
  if (!odd_document_get_modified (self->document))
    odd_autosave_discard (self->autosave_id);
  else if (self->copied != odd_document_get_job (self->document))
    schedule (self);
}

void
odd_keeper_autosave_now (OddKeeper *self)
{
  OddJob *job;
  GFile *file;
  g_autofree char *path = NULL;

  g_return_if_fail (ODD_IS_KEEPER (self));

  g_clear_handle_id (&self->autosave_timer, g_source_remove);
  self->unsaved_since = 0;
  job = odd_document_get_job (self->document);
  if (self->autosaving || !odd_document_get_modified (self->document) || job == self->copied)
    return;
  g_clear_pointer (&self->copied, odd_job_unref);
  self->copied = odd_job_ref (job);
  self->autosaving = TRUE;
  file = odd_document_get_file (self->document);
  path = file != NULL ? g_file_get_path (file) : NULL;
  odd_autosave_write_async (self->autosave_id, job, path, g_get_real_time () / G_USEC_PER_SEC, autosaved_cb, g_object_ref (self));
}

static gboolean
autosave_timer_cb (gpointer data)
{
  OddKeeper *self = data;

  self->autosave_timer = 0;
  odd_keeper_autosave_now (self);
  return G_SOURCE_REMOVE;
}

static void
schedule (OddKeeper *self)
{
  const gint64 now = g_get_monotonic_time ();

  if (self->unsaved_since == 0)
    self->unsaved_since = now;
  if (self->autosave_timer != 0 && now - self->unsaved_since > LATEST_US)
    return; /* the timer that runs is the last one to wait for */
  g_clear_handle_id (&self->autosave_timer, g_source_remove);
  self->autosave_timer = g_timeout_add_seconds (REST_S, autosave_timer_cb, self);
}

static void
document_changed_cb (OddKeeper *self)
{
  if (odd_document_get_modified (self->document))
    schedule (self);
}

void
odd_keeper_forget (OddKeeper *self)
{
  g_return_if_fail (ODD_IS_KEEPER (self));

  g_clear_handle_id (&self->autosave_timer, g_source_remove);
  self->unsaved_since = 0;
  odd_autosave_discard (self->autosave_id);
}

/* --- open --- */

static char *
join_warnings (GPtrArray *warnings)
{
  if (warnings == NULL || warnings->len == 0)
    return NULL;
  if (warnings->len == 1)
    return g_strdup (g_ptr_array_index (warnings, 0));
  return g_strdup_printf ("%s (+%u)", (char *) g_ptr_array_index (warnings, 0), warnings->len - 1);
}

static void
opened_cb (GObject      *source,
           GAsyncResult *result,
           gpointer      data)
{
  Call *call = data;
  OddKeeper *self = call->self;
  OddStoreKind kind = ODD_STORE_JOB;
  g_autoptr(GPtrArray) warnings = NULL;
  g_autoptr(GError) error = NULL;
  g_autoptr(OddJob) job = odd_store_load_finish (result, &kind, &warnings, &error);
  g_autofree char *message = NULL;

  if (job == NULL)
    {
      call_finish (call, FALSE, error->message);
      return;
    }
  odd_keeper_forget (self);
  odd_document_reset (self->document, job, kind == ODD_STORE_JOB ? call->file : NULL);
  watch (self);
  message = join_warnings (warnings);
  call_finish (call, TRUE, message);
}

void
odd_keeper_open (OddKeeper     *self,
                 GFile         *file,
                 OddKeeperDone  done,
                 gpointer       data)
{
  g_autofree char *path = g_file_get_path (file);
  g_autofree char *uri = NULL;

  g_return_if_fail (ODD_IS_KEEPER (self) && G_IS_FILE (file));

  uri = g_file_get_uri (file);
  odd_store_load_async (path != NULL ? path : uri, NULL, opened_cb, call_new (self, file, done, data));
}

static void
recovered_cb (GObject      *source,
              GAsyncResult *result,
              gpointer      data)
{
  Call *call = data;
  OddKeeper *self = call->self;
  g_autoptr(GError) error = NULL;
  g_autoptr(OddJob) job = odd_store_load_finish (result, NULL, NULL, &error);
  g_autoptr(OddJob) empty = NULL;
  g_autoptr(GFile) original = NULL;

  if (job == NULL)
    {
      call_finish (call, FALSE, error->message);
      return;
    }
  /* what is on disk is not this job: from an empty one to it is one step, so that it counts as unsaved */
  original = call->original_path != NULL ? g_file_new_for_path (call->original_path) : NULL;
  empty = odd_job_new ();
  odd_document_reset (self->document, empty, original);
  odd_document_apply (self->document, g_steal_pointer (&job), _("Recover unsaved work"));
  g_free (self->autosave_id);
  self->autosave_id = g_strdup (call->autosave_id);
  watch (self);
  call_finish (call, TRUE, NULL);
}

void
odd_keeper_recover (OddKeeper     *self,
                    const char    *autosave_path,
                    const char    *original_path,
                    const char    *autosave_id,
                    OddKeeperDone  done,
                    gpointer       data)
{
  Call *call;

  g_return_if_fail (ODD_IS_KEEPER (self));

  call = call_new (self, NULL, done, data);
  call->original_path = g_strdup (original_path);
  call->autosave_id = g_strdup (autosave_id);
  odd_store_load_async (autosave_path, NULL, recovered_cb, call);
}

/* --- save --- */

static void
saved_cb (GObject      *source,
          GAsyncResult *result,
          gpointer      data)
{
  Call *call = data;
  OddKeeper *self = call->self;
  g_autoptr(GError) error = NULL;

  if (!odd_store_save_finish (result, &error))
    {
      call_finish (call, FALSE, error->message);
      return;
    }
  odd_document_mark_saved (self->document, call->job, call->file);
  if (!odd_document_get_modified (self->document))
    odd_keeper_forget (self);
  watch (self);
  call_finish (call, TRUE, NULL);
}

void
odd_keeper_save (OddKeeper     *self,
                 GFile         *file,
                 OddKeeperDone  done,
                 gpointer       data)
{
  g_autofree char *path = g_file_get_path (file);
  g_autofree char *uri = NULL;
  Call *call;

  g_return_if_fail (ODD_IS_KEEPER (self) && G_IS_FILE (file));

  uri = g_file_get_uri (file);
  call = call_new (self, file, done, data);
  call->job = odd_job_ref (odd_document_get_job (self->document));
  odd_store_save_async (call->job, path != NULL ? path : uri, NULL, saved_cb, call);
}

/* --- life --- */

static void
odd_keeper_dispose (GObject *object)
{
  OddKeeper *self = ODD_KEEPER (object);

  g_clear_handle_id (&self->autosave_timer, g_source_remove);
  g_clear_handle_id (&self->settle_timer, g_source_remove);
  if (self->monitor != NULL)
    g_file_monitor_cancel (self->monitor);
  g_clear_object (&self->monitor);
  g_clear_pointer (&self->copied, odd_job_unref);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (odd_keeper_parent_class)->dispose (object);
}

static void
odd_keeper_finalize (GObject *object)
{
  OddKeeper *self = ODD_KEEPER (object);

  g_free (self->autosave_id);
  g_free (self->fingerprint);
  G_OBJECT_CLASS (odd_keeper_parent_class)->finalize (object);
}

static void
odd_keeper_get_property (GObject    *object,
                         guint       prop_id,
                         GValue     *value,
                         GParamSpec *pspec)
{
  if (prop_id == PROP_BUSY)
    g_value_set_boolean (value, ODD_KEEPER (object)->busy > 0);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
}

static void
odd_keeper_class_init (OddKeeperClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->dispose = odd_keeper_dispose;
  object_class->finalize = odd_keeper_finalize;
  object_class->get_property = odd_keeper_get_property;
  props[PROP_BUSY] = g_param_spec_boolean ("busy", NULL, NULL, FALSE, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  signals[CHANGED_OUTSIDE] = g_signal_new ("changed-outside", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
odd_keeper_init (OddKeeper *self)
{
  self->autosave_id = g_uuid_string_random ();
}

OddKeeper *
odd_keeper_new (OddDocument *document)
{
  OddKeeper *self = g_object_new (ODD_TYPE_KEEPER, NULL);

  self->document = g_object_ref (document);
  g_signal_connect_object (document, "changed", G_CALLBACK (document_changed_cb), self, G_CONNECT_SWAPPED);
  return self;
}
