/* As geometry/precompiled.h, for the window. */
#include <adwaita.h>
#include <math.h>
#include <string.h>
