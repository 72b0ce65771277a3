#include "config.h"

#include "ui/fabric-swatch.h"

#include "drawing/palette.h"
#include "ui/thumbnails.h"

#define SHOWN_MM 60.0              /* of cloth across: a repeat of most prints */

static void
draw_cb (GtkDrawingArea *area,
         cairo_t        *cr,
         int             width,
         int             height,
         gpointer        data)
{
  const OddFabric *fabric = data;
  const double px_per_mm = width / SHOWN_MM;
  g_autoptr(OddPalette) palette = NULL;
  OddPaintOptions options;
  cairo_matrix_t identity;

  cairo_matrix_init_identity (&identity);
  odd_paint_options_init (&options);
  options.px_per_mm = px_per_mm * gtk_widget_get_scale_factor (GTK_WIDGET (area));
  palette = odd_palette_new (odd_swatches_get_shared (), &options);
  cairo_scale (cr, px_per_mm, px_per_mm);
  odd_palette_use_print (palette, cr, &fabric->print, &identity);
  cairo_paint (cr);
}

GtkWidget *
odd_fabric_swatch_new (OddFabric *fabric,
                       int        side_px)
{
  GtkWidget *area = g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role", GTK_ACCESSIBLE_ROLE_PRESENTATION, "valign", GTK_ALIGN_CENTER, NULL);

  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (area), side_px);
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (area), side_px);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (area), draw_cb, odd_fabric_ref (fabric), (GDestroyNotify) odd_fabric_unref);
  gtk_widget_add_css_class (area, "fabric-swatch");
  gtk_widget_set_overflow (area, GTK_OVERFLOW_HIDDEN);
  return area;
}
