#include "config.h"

#include "paper/options.h"

#include <gio/gio.h>
#include <glib/gi18n.h>

static const struct { const char *nick, *name; } parts[ODD_N_TICKET_PARTS] = {
  [ODD_TICKET_PART_COVER] = { "cover", N_("Cover") },
  [ODD_TICKET_PART_PANELS] = { "panels", N_("Panels, both sides") },
  [ODD_TICKET_PART_SCRAPS] = { "scraps", N_("Cutting plans of the scraps") },
  [ODD_TICKET_PART_CUT_LIST] = { "cut-list", N_("Cut list") },
  [ODD_TICKET_PART_STOPS] = { "stops", N_("Stops, to tick off") },
  [ODD_TICKET_PART_FINISHING] = { "finishing", N_("Finishing") },
  [ODD_TICKET_PART_ENDS] = { "ends", N_("Ends to secure") },
  [ODD_TICKET_PART_TEMPLATES] = { "templates", N_("Templates in true size") },
  [ODD_TICKET_PART_STICKERS] = { "stickers", N_("Stickers for the scraps") },
};

#define ALL_PARTS ((1u << ODD_N_TICKET_PARTS) - 1)
#define USUAL_PARTS (ALL_PARTS & ~(1u << ODD_TICKET_PART_CUT_LIST) & ~(1u << ODD_TICKET_PART_STICKERS))

const char *
odd_ticket_part_get_nick (OddTicketPart part)
{
  g_return_val_if_fail (part < ODD_N_TICKET_PARTS, NULL);

  return parts[part].nick;
}

const char *
odd_ticket_part_get_name (OddTicketPart part)
{
  g_return_val_if_fail (part < ODD_N_TICKET_PARTS, NULL);

  return _(parts[part].name);
}

static const struct { const char *nick, *name; } choices[ODD_N_TEMPLATE_CHOICES] = {
  [ODD_TEMPLATES_SHARED] = { "shared", N_("Shapes that two patches share") },
  [ODD_TEMPLATES_RECTANGLES] = { "rectangles", N_("And each size of rectangle") },
  [ODD_TEMPLATES_ALL] = { "all", N_("Every cut shape") },
};

const char *
odd_template_choice_get_nick (OddTemplateChoice choice)
{
  g_return_val_if_fail (choice < ODD_N_TEMPLATE_CHOICES, NULL);

  return choices[choice].nick;
}

const char *
odd_template_choice_get_name (OddTemplateChoice choice)
{
  g_return_val_if_fail (choice < ODD_N_TEMPLATE_CHOICES, NULL);

  return _(choices[choice].name);
}

gboolean
odd_template_choice_from_nick (const char *nick, OddTemplateChoice *out)
{
  for (guint i = 0; i < ODD_N_TEMPLATE_CHOICES; i++)
    if (g_str_equal (nick, choices[i].nick))
      {
        *out = i;
        return TRUE;
      }
  return FALSE;
}

static const struct { const char *nick, *name; } sticker_sizes[ODD_N_STICKER_SIZES] = {
  [ODD_STICKERS_SMALL] = { "small", N_("Small, 60 to a sheet") },
  [ODD_STICKERS_MIDDLE] = { "middle", N_("Middle, 36 to a sheet") },
  [ODD_STICKERS_LARGE] = { "large", N_("Large, 18 to a sheet") },
};

const char *
odd_sticker_size_get_nick (OddStickerSize size)
{
  g_return_val_if_fail (size < ODD_N_STICKER_SIZES, NULL);

  return sticker_sizes[size].nick;
}

const char *
odd_sticker_size_get_name (OddStickerSize size)
{
  g_return_val_if_fail (size < ODD_N_STICKER_SIZES, NULL);

  return _(sticker_sizes[size].name);
}

gboolean
odd_sticker_size_from_nick (const char *nick, OddStickerSize *out)
{
  for (guint i = 0; i < ODD_N_STICKER_SIZES; i++)
    if (g_str_equal (nick, sticker_sizes[i].nick))
      {
        *out = i;
        return TRUE;
      }
  return FALSE;
}

void
odd_ticket_options_init (OddTicketOptions *self)
{
  *self = (OddTicketOptions) { .parts = USUAL_PARTS, .manner = ODD_MANNER_CHAIN, .templates = ODD_TEMPLATES_SHARED };
}

static guint
find_parts (const char *word)
{
  if (g_str_equal (word, "all"))
    return ALL_PARTS;
  if (g_str_equal (word, "usual"))
    return USUAL_PARTS;
  for (guint i = 0; i < ODD_N_TICKET_PARTS; i++)
    if (g_str_equal (word, parts[i].nick))
      return 1u << i;
  return 0;
}

static char *
dup_known_words (void)
{
  GString *known = g_string_new ("all, usual");

  for (guint i = 0; i < ODD_N_TICKET_PARTS; i++)
    g_string_append_printf (known, ", %s", parts[i].nick);
  return g_string_free (known, FALSE);
}

gboolean
odd_ticket_parts_from_text (const char *text, guint *out_parts, GError **error)
{
  g_auto(GStrv) words = g_strsplit (text, ",", -1);
  guint found = 0;

  for (guint i = 0; words[i] != NULL || i == 0; i++)
    {
      const char *word = words[i] != NULL ? g_strstrip (words[i]) : "";
      const guint one = find_parts (word);
      g_autofree char *known = one == 0 ? dup_known_words () : NULL;

      if (one == 0)
        {
          g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_ARGUMENT, _("There is no sheet “%s”. Say one or more of: %s."), word, known);
          return FALSE;
        }
      found |= one;
    }
  *out_parts = found;
  return TRUE;
}
