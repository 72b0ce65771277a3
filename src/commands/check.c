#include "config.h"

#include "commands/command-private.h"

#include <glib/gi18n.h>
#include "cloth/layout.h"

int
odd_command_check (GStrv words)
{
  int status;
  g_auto(GStrv) files = odd_command_parse (words, NULL, _("FILE"), _("Prints one line for each thing that is not sound."), &status);
  g_autoptr(OddJob) job = NULL;
  g_autoptr(GPtrArray) findings = NULL;
  g_autoptr(GString) text = g_string_new (NULL);

  if (files == NULL)
    return status;
  job = odd_command_load (files[0]);
  if (job == NULL)
    return ODD_EXIT_BAD;
  findings = odd_job_check (job, NULL);
  for (guint i = 0; i < findings->len; i++)
    {
      const OddFinding *finding = findings->pdata[i];
      g_autofree char *line = g_strdelimit (g_strdup (finding->text), "\n\r", ' ');

      g_string_append_printf (text, "%s\n", line);
    }
  status = odd_command_print (text->str, text->len);
  if (status != ODD_EXIT_DONE)
    return status;
  return findings->len > 0 ? ODD_EXIT_FINDINGS : ODD_EXIT_DONE;
}
