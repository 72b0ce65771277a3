#include "config.h"

#include "store/picture-file.h"

#include <glib/gi18n.h>
#include <string.h>
#include "store/store-error.h"

typedef enum { KIND_NONE, KIND_PNG, KIND_JPEG } Kind;

static guint
read_be16 (const guint8 *p)
{
  return (guint) p[0] << 8 | p[1];
}

static guint
read_be32 (const guint8 *p)
{
  return read_be16 (p) << 16 | read_be16 (p + 2);
}

/* ISO/IEC 15948: signature, then the chunk IHDR with width and height. */
static gboolean
png_size (const guint8 *data, gsize length, guint *out_width, guint *out_height)
{
  if (length < 33 || memcmp (data, "\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR", 16) != 0)
    return FALSE;
  *out_width = read_be32 (data + 16);
  *out_height = read_be32 (data + 20);
  return TRUE;
}

/* C0 to CF but for C4, C8 and CC are frame headers. */
static gboolean
is_frame_marker (guint8 marker)
{
  return marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
}

/* ISO/IEC 10918-1: segments of marker and length up to the first frame header. */
static gboolean
jpeg_size (const guint8 *data, gsize length, guint *out_width, guint *out_height)
{
  gsize at = 2;

  if (length < 4 || memcmp (data, "\xff\xd8\xff", 3) != 0)
    return FALSE;
  while (at + 9 <= length && data[at] == 0xFF)
    {
      if (data[at + 1] == 0xFF)
        at++;                           /* fill byte */
      else if (is_frame_marker (data[at + 1]))
        {
          *out_height = read_be16 (data + at + 5);
          *out_width = read_be16 (data + at + 7);
          return TRUE;
        }
      else
        at += 2 + read_be16 (data + at + 2);
    }
  return FALSE;
}

static Kind
sniff (GBytes *bytes, const char **out_reason)
{
  gsize length;
  const guint8 *data = g_bytes_get_data (bytes, &length);
  guint width = 0, height = 0;
  Kind kind = KIND_NONE;

  if (png_size (data, length, &width, &height))
    kind = KIND_PNG;
  else if (jpeg_size (data, length, &width, &height))
    kind = KIND_JPEG;
  else
    return *out_reason = _("it is neither PNG nor JPEG"), KIND_NONE;
  if (width == 0 || height == 0)
    return *out_reason = _("it has no pixels"), KIND_NONE;
  if ((guint64) width * height > ODD_PICTURE_MAX_PIXELS)
    return *out_reason = _("it has more than 100 million pixels"), KIND_NONE;
  return kind;
}

gboolean
odd_picture_name_is_good (const char *name)
{
  if (strlen (name) != 68 || (strcmp (name + 64, ".png") != 0 && strcmp (name + 64, ".jpg") != 0))
    return FALSE;
  return strspn (name, "0123456789abcdef") == 64;
}

OddPicture *
odd_picture_new_checked (GBytes *bytes, const char *shown_name, GError **error)
{
  g_autofree char *sum = NULL, *name = NULL;
  const char *reason = NULL;
  const Kind kind = sniff (bytes, &reason);

  if (kind == KIND_NONE)
    {
      g_set_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_BROKEN,
                   _("The picture “%s” cannot be used: %s; choose another one or convert it."), shown_name, reason);
      return NULL;
    }
  sum = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, bytes);
  name = g_strconcat (sum, kind == KIND_PNG ? ".png" : ".jpg", NULL);
  return odd_picture_new (name, bytes);
}

gboolean
odd_picture_bytes_are_good (const char *name, GBytes *bytes, const char **out_reason)
{
  g_autofree char *sum = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, bytes);
  const Kind kind = sniff (bytes, out_reason);

  if (kind == KIND_NONE)
    return FALSE;
  if (strncmp (sum, name, 64) == 0 && g_str_has_suffix (name, kind == KIND_PNG ? ".png" : ".jpg"))
    return TRUE;
  *out_reason = _("it is not what its name says");
  return FALSE;
}
