#include "config.h"

#include "commands/command-private.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <stdio.h>
#include <string.h>
#include "store/load.h"

typedef struct
{
  const char *name;
  int (*run) (GStrv words);
  const char *arguments;
  const char *summary;
} Command;

static const Command commands[] = {
  { "report", odd_command_report, N_("FILE [--json] [--pdf OUT.pdf]"), N_("sizes, patches, seams and what they still need") },
  { "picture", odd_command_picture, N_("FILE OUT.png|OUT.svg"), N_("draws a textile") },
  { "check", odd_command_check, N_("FILE"), N_("one line for each thing that is not sound") },
  { "piece", odd_command_piece, N_("FILE --manner HOW --width LEN --length LEN --out FILE"), N_("pieces panels from the free scraps") },
};

static const Command *
find_command (const char *word)
{
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++)
    if (g_str_equal (commands[i].name, word))
      return &commands[i];
  return NULL;
}

static gboolean
is_help (const char *word)
{
  return g_str_equal (word, "--help") || g_str_equal (word, "-h") || g_str_equal (word, "-?");
}

/* A word that could be a command: no option, no address, no path and no ending. */
static gboolean
looks_like_command (const char *word)
{
  return word[0] != '\0' && word[0] != '-' && strpbrk (word, "/.:") == NULL && !g_file_test (word, G_FILE_TEST_EXISTS);
}

gboolean
odd_command_is_meant (int argc, char **argv)
{
  if (argc < 2)
    return FALSE;
  return find_command (argv[1]) != NULL || is_help (argv[1]) || g_str_equal (argv[1], "--version") || looks_like_command (argv[1]);
}

int
odd_command_fail (const char *format, ...)
{
  g_autofree char *text = NULL;
  va_list args;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  g_strdelimit (text, "\n\r", ' ');
  g_printerr ("oddment: %s\n", text);
  return ODD_EXIT_BAD;
}

int
odd_command_print (const char *text, gsize length)
{
  if (fwrite (text, 1, length, stdout) != length || fflush (stdout) != 0)
    return odd_command_fail (_("The output could not be written: %s. Make room or choose another place."), g_strerror (errno));
  return ODD_EXIT_DONE;
}

/* For the eyes: in the character set of the terminal. */
static int
print_text (const char *text)
{
  g_autofree char *local = g_locale_from_utf8 (text, -1, NULL, NULL, NULL);
  const char *shown = local != NULL ? local : text;

  return odd_command_print (shown, strlen (shown));
}

static int
print_usage (void)
{
  g_autoptr(GString) text = g_string_new (_("Oddment: new cloth out of scraps\n\nUsage:\n"));

  g_string_append_printf (text, "  oddment %s\n      %s\n", _("[FILE]"), _("opens the window"));
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++)
    g_string_append_printf (text, "  oddment %s %s\n      %s\n", commands[i].name, _(commands[i].arguments), _(commands[i].summary));
  g_string_append_printf (text, "\n%s\n%s\n", _("FILE is a job or a scrap list. “oddment COMMAND --help” tells a command's options."),
                          _("Exit status: 0 done, 1 findings, 2 bad usage or bad input."));
  return print_text (text->str);
}

static guint
count_words (const char *text)
{
  g_auto(GStrv) words = g_strsplit (text, " ", -1);

  return g_strv_length (words);
}

GStrv
odd_command_parse (GStrv words, const GOptionEntry *entries, const char *arguments, const char *summary, int *out_status)
{
  gboolean help = FALSE;
  g_auto(GStrv) rest = NULL;
  const GOptionEntry common[] = {
    { "help", 'h', G_OPTION_FLAG_NONE, G_OPTION_ARG_NONE, &help, N_("Show this"), NULL },
    { G_OPTION_REMAINING, 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_FILENAME_ARRAY, &rest, NULL, NULL },
    { NULL }
  };
  g_autofree char *parameters = g_strdup_printf ("%s %s", words[0], arguments);
  g_autoptr(GOptionContext) context = g_option_context_new (arguments);
  g_auto(GStrv) left = g_strdupv (words);
  g_autoptr(GError) error = NULL;

  g_option_context_set_help_enabled (context, FALSE);
  g_option_context_set_translation_domain (context, GETTEXT_PACKAGE);
  g_option_context_set_summary (context, summary);
  if (entries != NULL)
    g_option_context_add_main_entries (context, entries, GETTEXT_PACKAGE);
  g_option_context_add_main_entries (context, common, GETTEXT_PACKAGE);
  if (!g_option_context_parse_strv (context, &left, &error))
    {
      *out_status = odd_command_fail (_("%s: %s. “oddment %s --help” tells the options."), words[0], error->message, words[0]);
      return NULL;
    }
  if (help)
    {
      g_autofree char *text = g_option_context_get_help (context, TRUE, NULL);

      *out_status = print_text (text);
      return NULL;
    }
  if (rest == NULL || g_strv_length (rest) != count_words (arguments))
    {
      *out_status = odd_command_fail (_("%s: the command wants %s. Usage: oddment %s [OPTION…]"), words[0], arguments, parameters);
      return NULL;
    }
  return g_steal_pointer (&rest);
}

OddJob *
odd_command_load (const char *path)
{
  g_autoptr(GError) error = NULL;
  OddJob *job = odd_store_load (path, NULL, &error);

  if (job == NULL)
    odd_command_fail ("%s", error->message);
  return job;
}

int
odd_command_main (int argc, char **argv)
{
  const Command *command = argc > 1 ? find_command (argv[1]) : NULL;
  g_auto(GStrv) words = NULL;

  if (argc < 2 || is_help (argv[1]))
    return print_usage ();
  if (g_str_equal (argv[1], "--version"))
    return print_text ("oddment " ODD_VERSION "\n");
  if (command == NULL)
    return odd_command_fail (_("“%s” is neither a command nor a file that is there. “oddment --help” lists the commands."), argv[1]);
  words = g_strdupv (argv + 1);
  return command->run (words);
}
