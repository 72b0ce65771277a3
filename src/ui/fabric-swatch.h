/* A small square of a fabric's print, beside its name. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/fabric.h"

G_BEGIN_DECLS

/* (transfer floating) A picture of @side_px logical px; who cannot see it loses nothing, the name stands beside it. */
GtkWidget *odd_fabric_swatch_new (OddFabric *fabric, int side_px);

G_END_DECLS
