/* Opening, saving, copies of unsaved work, and a file that changes outside. */
#include <glib/gstdio.h>

#include "store/autosave.h"
#include "store/save.h"
#include "ui/keeper.h"

typedef struct
{
  char *folder;
  GFile *file;
  OddDocument *document;
  OddKeeper *keeper;
  gboolean done, ok;
  guint n_outside;
} Fixture;

static void
done_cb (OddKeeper  *keeper,
         gboolean    ok,
         const char *message,
         gpointer    data)
{
  Fixture *self = data;

  self->done = TRUE;
  self->ok = ok;
}

static void
outside_cb (Fixture *self)
{
  self->n_outside++;
}

static gboolean
timed_out_cb (gpointer data)
{
  *(gboolean *) data = TRUE;
  return G_SOURCE_REMOVE;
}

/* Runs the loop until @what is set, at most @seconds. */
static void
wait_for (const gboolean *what,
          guint           seconds)
{
  gboolean timed_out = FALSE;
  const guint timer = g_timeout_add_seconds (seconds, timed_out_cb, &timed_out);

  while (!*what && !timed_out)
    g_main_context_iteration (NULL, TRUE);
  if (!timed_out)
    g_source_remove (timer);
}

static void
set_up (Fixture       *self,
        gconstpointer  data)
{
  g_autoptr(OddJob) job = odd_job_new ();
  g_autofree char *path = NULL;

  self->folder = g_dir_make_tmp ("oddment-keeper-XXXXXX", NULL);
  path = g_build_filename (self->folder, "coat.oddment", NULL);
  self->file = g_file_new_for_path (path);
  self->document = odd_document_new (job);
  self->keeper = odd_keeper_new (self->document);
  g_signal_connect_swapped (self->keeper, "changed-outside", G_CALLBACK (outside_cb), self);
}

static void
tear_down (Fixture       *self,
           gconstpointer  data)
{
  g_file_delete (self->file, NULL, NULL);
  g_object_unref (self->file);
  g_assert_finalize_object (self->keeper);
  g_assert_finalize_object (self->document);
  g_rmdir (self->folder);
  g_free (self->folder);
}

static void
edit (Fixture    *self,
      const char *name)
{
  OddJob *job = odd_document_get_job (self->document);
  OddTextile *textile = g_ptr_array_index (job->textiles, 0);

  odd_document_apply (self->document, odd_job_set_textile_name (job, textile->id, name, NULL), "name");
}

static void
save (Fixture *self)
{
  self->done = FALSE;
  odd_keeper_save (self->keeper, self->file, done_cb, self);
  wait_for (&self->done, 10);
  g_assert_true (self->done && self->ok);
}

static void
test_save_and_open (Fixture       *self,
                    gconstpointer  data)
{
  OddJob *job;

  edit (self, "Coat");
  g_assert_true (odd_document_get_modified (self->document));
  save (self);
  g_assert_false (odd_document_get_modified (self->document));
  g_assert_true (g_file_equal (odd_document_get_file (self->document), self->file));
  edit (self, "Skirt");
  self->done = FALSE;
  odd_keeper_open (self->keeper, self->file, done_cb, self);
  wait_for (&self->done, 10);
  g_assert_true (self->ok);
  job = odd_document_get_job (self->document);
  g_assert_cmpstr (((OddTextile *) g_ptr_array_index (job->textiles, 0))->name, ==, "Coat");
  g_assert_false (odd_document_get_modified (self->document));
}

static void
test_open_nothing (Fixture       *self,
                   gconstpointer  data)
{
  OddJob *before = odd_document_get_job (self->document);

  odd_keeper_open (self->keeper, self->file, done_cb, self);
  wait_for (&self->done, 10);
  g_assert_true (self->done);
  g_assert_false (self->ok);
  g_assert_true (odd_document_get_job (self->document) == before);
}

static guint
count_copies (void)
{
  g_autofree char *folder = odd_autosave_dup_folder ();
  g_autoptr(GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint n = 0;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    n += g_str_has_suffix (name, ".oddment");
  return n;
}

static void
test_autosave (Fixture       *self,
               gconstpointer  data)
{
  const guint before = count_copies ();
  gboolean never = FALSE;

  g_test_summary ("A copy comes when the maker rests, and goes when she saves");
  edit (self, "Coat");
  odd_keeper_autosave_now (self->keeper);
  for (guint i = 0; i < 20 && count_copies () == before; i++)
    {
      g_usleep (50000);
      while (g_main_context_iteration (NULL, FALSE))
        ;
    }
  g_assert_cmpuint (count_copies (), ==, before + 1);
  wait_for (&never, 1);
  save (self);
  g_assert_cmpuint (count_copies (), ==, before);
}

static void
test_changed_outside (Fixture       *self,
                      gconstpointer  data)
{
  g_autoptr(OddJob) other = odd_job_new ();
  g_autofree char *path = g_file_get_path (self->file);
  gboolean never = FALSE;

  save (self);
  wait_for (&never, 2);
  g_assert_cmpuint (self->n_outside, ==, 0);
  g_assert_false (odd_keeper_is_changed_outside (self->keeper));
  g_assert_true (odd_store_save (other, path, NULL));
  g_assert_true (odd_keeper_is_changed_outside (self->keeper));
  for (guint i = 0; i < 5 && self->n_outside == 0; i++)
    wait_for (&never, 1);
  g_assert_cmpuint (self->n_outside, >=, 1);
  odd_keeper_keep_mine (self->keeper);
  g_assert_false (odd_keeper_is_changed_outside (self->keeper));
}

int
main (int   argc,
      char *argv[])
{
  g_autofree char *state = g_dir_make_tmp ("oddment-state-XXXXXX", NULL);

  g_setenv ("XDG_STATE_HOME", state, TRUE);
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/keeper/save-and-open", Fixture, NULL, set_up, test_save_and_open, tear_down);
  g_test_add ("/keeper/open-nothing", Fixture, NULL, set_up, test_open_nothing, tear_down);
  g_test_add ("/keeper/autosave", Fixture, NULL, set_up, test_autosave, tear_down);
  g_test_add ("/keeper/changed-outside", Fixture, NULL, set_up, test_changed_outside, tear_down);
  return g_test_run ();
}
