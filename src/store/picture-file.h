/* Pictures of a job: PNG or JPEG bytes named after their SHA-256. Nothing here decodes them. */
#pragma once

#include "cloth/job.h"

G_BEGIN_DECLS

#define ODD_PICTURE_MAX_PIXELS 100000000u     /* 100 megapixels: 400 MB when decoded */

/* "<sha256>.png" or ".jpg"? */
gboolean odd_picture_name_is_good (const char *name);

/*
 * odd_picture_new_checked:
 * @bytes: a PNG or JPEG file
 * @shown_name: the file's name for messages
 *
 * Returns: (transfer full): the picture, named after its SHA-256; NULL with ODD_STORE_ERROR_BROKEN when it is neither PNG nor JPEG, or
 * has no pixels or more than ODD_PICTURE_MAX_PIXELS
 */
OddPicture *odd_picture_new_checked (GBytes *bytes, const char *shown_name, GError **error);

/* Are these the bytes this name stands for? FALSE with a reason (transfer none, translated) when not. */
gboolean odd_picture_bytes_are_good (const char *name, GBytes *bytes, const char **out_reason);

G_END_DECLS
