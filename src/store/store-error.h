/* What can go wrong with files. Every message is one sentence that names the file, the place in it and a remedy. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define ODD_STORE_ERROR (odd_store_error_quark ())
GQuark odd_store_error_quark (void);
typedef enum
{
  ODD_STORE_ERROR_READ,       /* cannot be got at: not there, a folder, no right to read, empty */
  ODD_STORE_ERROR_BROKEN,     /* what it holds is not what the format says */
  ODD_STORE_ERROR_VERSION,    /* written by a newer Oddment */
  ODD_STORE_ERROR_WRITE       /* could not be saved; what was there before is untouched */
} OddStoreError;

G_END_DECLS
