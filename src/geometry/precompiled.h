/* What nearly every file reads, compiled once: most of the time a compiler takes for one of our files goes into these. No file may count on
 * them; the build that CI makes does without. */
#include <gio/gio.h>
#include <math.h>
#include <string.h>
