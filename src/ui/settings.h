/* The maker's settings, found whether Oddment is installed or runs from its build folder. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/* (transfer full), or NULL where no schema can be found: then nothing is kept. */
GSettings *odd_settings_new (void);

G_END_DECLS
