#include "config.h"

#include <glib/gi18n.h>
#include <locale.h>

#include "commands/command.h"
#include "ui/application.h"

int
main (int   argc,
      char *argv[])
{
  g_autoptr(OddApplication) application = NULL;

  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, ODD_LOCALEDIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);

  if (odd_command_is_meant (argc, argv))
    return odd_command_main (argc, argv);
  application = odd_application_new ();
  return g_application_run (G_APPLICATION (application), argc, argv);
}
