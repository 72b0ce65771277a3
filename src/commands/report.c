#include "config.h"

#include "commands/command-private.h"

#include <glib/gi18n.h>
#include <string.h>
#include "commands/report-json.h"
#include "commands/report-text.h"
#include "paper/ticket.h"

static gboolean
parse_unit (const char *word, OddUnit *out)
{
  static const OddUnit units[] = { ODD_UNIT_CM, ODD_UNIT_MM, ODD_UNIT_INCH };

  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    if (g_str_equal (word, odd_unit_get_symbol (units[i])))
      {
        *out = units[i];
        return TRUE;
      }
  return FALSE;
}

static char *
dup_title (const char *path)
{
  g_autofree char *shown = g_filename_display_basename (path);
  char *ending = strrchr (shown, '.');

  if (ending != NULL && ending != shown)
    *ending = '\0';
  return g_steal_pointer (&shown);
}

static int
print_json (OddJob *job)
{
  g_autoptr(GError) error = NULL;
  g_autoptr(GBytes) text = odd_report_json (job, &error);
  gsize length;
  const char *data;

  if (text == NULL)
    return odd_command_fail ("%s", error->message);
  data = g_bytes_get_data (text, &length);
  return odd_command_print (data, length);
}

static int
print_people (OddJob *job, const char *title, const char *path, OddUnit unit)
{
  g_autofree char *file = g_filename_display_name (path);
  g_autofree char *text = odd_report_text (job, title, file, unit);
  g_autofree char *local = g_locale_from_utf8 (text, -1, NULL, NULL, NULL);
  const char *shown = local != NULL ? local : text;

  return odd_command_print (shown, strlen (shown));
}

static int
write_pdf (OddJob *job, const char *title, OddPaper paper, OddUnit unit, const OddTicketOptions *options, const char *pdf)
{
  g_autoptr(OddTicket) ticket = odd_ticket_new (job, title, paper, unit, options);
  g_autoptr(GError) error = NULL;

  if (!odd_ticket_write_pdf (ticket, pdf, &error))
    return odd_command_fail ("%s", error->message);
  return ODD_EXIT_DONE;
}

static gboolean
parse_ticket (const char *sheets, const char *manner, const char *templates, const char *stickers, OddTicketOptions *out)
{
  g_autoptr(GError) error = NULL;

  odd_ticket_options_init (out);
  if (sheets != NULL && !odd_ticket_parts_from_text (sheets, &out->parts, &error))
    odd_command_fail ("report: %s", error->message);
  else if (manner != NULL && !odd_manner_from_nick (manner, &out->manner))
    odd_command_fail (_("report: There is no manner “%s”. Say --manner chain or walks."), manner);
  else if (templates != NULL && !odd_template_choice_from_nick (templates, &out->templates))
    odd_command_fail (_("report: There is no choice of templates “%s”. Say --templates shared, rectangles or all."), templates);
  else if (stickers != NULL && !odd_sticker_size_from_nick (stickers, &out->stickers))
    odd_command_fail (_("report: There are no stickers “%s”. Say --stickers small, middle or large."), stickers);
  else
    return TRUE;
  return FALSE;
}

int
odd_command_report (GStrv words)
{
  gboolean json = FALSE;
  g_autofree char *pdf = NULL, *paper_word = NULL, *unit_word = NULL, *sheets = NULL, *manner = NULL, *templates = NULL, *stickers = NULL;
  const GOptionEntry entries[] = {
    { "json", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_NONE, &json, N_("Print the report for programs, in millimetres"), NULL },
    { "pdf", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_FILENAME, &pdf, N_("Write the work ticket too"), N_("OUT.pdf") },
    { "paper", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING, &paper_word, N_("Paper of the ticket: a4 or letter"), N_("SIZE") },
    { "sheets", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING, &sheets, N_("Sheets of the ticket, with commas between: all, usual, or some"), N_("SHEETS") },
    { "manner", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING, &manner, N_("Order of its stops: chain or walks"), N_("MANNER") },
    { "templates", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING, &templates, N_("Its templates: shared, rectangles or all"), N_("CHOICE") },
    { "stickers", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING, &stickers, N_("Size of its stickers: small, middle or large"), N_("SIZE") },
    { "unit", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING, &unit_word, N_("Unit to read in: cm, mm or in"), N_("UNIT") },
    { NULL }
  };
  OddUnit unit = ODD_UNIT_CM;
  OddPaper paper = ODD_PAPER_A4;
  OddTicketOptions options;
  int status;
  g_auto(GStrv) files = odd_command_parse (words, entries, _("FILE"), _("Tells sizes, patches, seams and what they still need."), &status);
  g_autoptr(OddJob) job = NULL;
  g_autofree char *title = NULL;

  if (files == NULL)
    return status;
  if (unit_word != NULL && !parse_unit (unit_word, &unit))
    return odd_command_fail (_("report: There is no unit “%s”. Say --unit cm, mm or in."), unit_word);
  if (paper_word != NULL && !odd_paper_from_nick (paper_word, &paper))
    return odd_command_fail (_("report: There is no paper “%s”. Say --paper a4 or letter."), paper_word);
  if (!parse_ticket (sheets, manner, templates, stickers, &options))
    return ODD_EXIT_BAD;
  job = odd_command_load (files[0]);
  if (job == NULL)
    return ODD_EXIT_BAD;
  title = dup_title (files[0]);
  status = pdf != NULL ? write_pdf (job, title, paper, unit, &options, pdf) : ODD_EXIT_DONE;
  if (status != ODD_EXIT_DONE)
    return status;
  return json ? print_json (job) : print_people (job, title, files[0], unit);
}
