#include "config.h"

#include "commands/command-private.h"

#include <glib/gi18n.h>
#include "drawing/painter.h"

/* By the name it is shown under. 0 after odd_command_fail(). */
static OddId
find_textile (OddJob *job, const char *name)
{
  for (guint i = 0; i < job->textiles->len; i++)
    {
      OddTextile *textile = job->textiles->pdata[i];
      g_autofree char *shown = odd_job_dup_textile_name (job, textile);

      if (g_str_equal (shown, name))
        return textile->id;
    }
  odd_command_fail (_("picture: The job has no textile called “%s”. “oddment report” tells their names."), name);
  return 0;
}

int
odd_command_picture (GStrv words)
{
  g_autofree char *name = NULL, *show_word = NULL;
  const GOptionEntry entries[] = {
    { "textile", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING, &name, N_("Which textile; else the first"), N_("NAME") },
    { "show", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING, &show_word, N_("What is drawn: patches, seams, lightness or wrong-side"), N_("WHAT") },
    { NULL }
  };
  OddShow show = ODD_SHOW_PATCHES;
  OddId textile_id = 0;
  int status;
  g_auto(GStrv) files = odd_command_parse (words, entries, _("FILE OUT.png|OUT.svg"), _("Draws a textile."), &status);
  g_autoptr(OddJob) job = NULL;
  g_autoptr(GError) error = NULL;

  if (files == NULL)
    return status;
  if (show_word != NULL && !odd_show_from_nick (show_word, &show))
    return odd_command_fail (_("picture: “%s” cannot be shown. Say --show patches, seams, lightness or wrong-side."), show_word);
  job = odd_command_load (files[0]);
  if (job == NULL)
    return ODD_EXIT_BAD;
  if (name != NULL && (textile_id = find_textile (job, name)) == 0)
    return ODD_EXIT_BAD;
  if (!odd_job_write_picture (job, textile_id, show, files[1], &error))
    return odd_command_fail ("%s", error->message);
  return ODD_EXIT_DONE;
}
