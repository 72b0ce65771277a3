/* The program with windows. */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

#define ODD_TYPE_APPLICATION (odd_application_get_type ())
G_DECLARE_FINAL_TYPE (OddApplication, odd_application, ODD, APPLICATION, AdwApplication)

OddApplication *odd_application_new (void);

G_END_DECLS
