#include "config.h"
#include "ui/soft.h"

#include <glib.h>

/* One box over a line of @n bytes that lie @step apart; beyond its ends there is nothing. */
static void
blur_line (guchar *line, guchar *scratch, int n, int step, int radius)
{
  guint sum = 0;

  for (int i = 0; i < MIN (radius, n); i++)
    sum += line[i * step];
  for (int i = 0; i < n; i++)
    {
      if (i + radius < n)
        sum += line[(i + radius) * step];
      scratch[i] = (guchar) (sum / (guint) (2 * radius + 1));
      if (i - radius >= 0)
        sum -= line[(i - radius) * step];
    }
  for (int i = 0; i < n; i++)
    line[i * step] = scratch[i];
}

void
odd_blur_a8 (cairo_surface_t *surface, int radius)
{
  const int width = cairo_image_surface_get_width (surface), height = cairo_image_surface_get_height (surface);
  const int stride = cairo_image_surface_get_stride (surface);
  guchar *data = cairo_image_surface_get_data (surface);
  g_autofree guchar *scratch = NULL;

  if (radius < 1 || width < 1 || height < 1)
    return;
  cairo_surface_flush (surface);
  scratch = g_malloc (MAX (width, height));
  for (int pass = 0; pass < 3; pass++)
    {
      for (int y = 0; y < height; y++)
        blur_line (data + y * stride, scratch, width, 1, radius);
      for (int x = 0; x < width; x++)
        blur_line (data + x, scratch, height, stride, radius);
    }
  cairo_surface_mark_dirty (surface);
}
