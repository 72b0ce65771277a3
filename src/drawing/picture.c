#include "config.h"

#include <cairo-svg.h>
#include <gio/gio.h>
#include <glib/gi18n.h>

#include "drawing/colour.h"
#include "drawing/painter.h"

#define LONGEST_PX 1600.0
#define LONGEST_MARK_PX 1000.0   /* marks as on a screen of this length: seen, and not in the way, when the picture fills a page */
#define MARGIN_MM 20.0
#define SVG_PX_PER_MM 2.0        /* swatches and marks as at this zoom; shapes stay sharp at any */

/* The textile with room for its raw edges and shadow, in its own frame. */
static OddBox
picture_box (OddTextileLayout *textile)
{
  OddBox box = ODD_BOX_EMPTY;

  for (guint i = 0; i < textile->n_panels; i++)
    {
      OddBox raw = textile->panels[i].layout->raw_box;

      raw.x += textile->panels[i].at.x;
      raw.y += textile->panels[i].at.y;
      box = odd_box_is_empty (box) ? raw : odd_box_union (box, raw);
    }
  return odd_box_grow (box, MARGIN_MM);
}

/* In the wrong-side view the picture is turned over, and its box with it. */
static OddBox
turned_over (OddBox box, double width_mm)
{
  box.x = width_mm - box.x - box.width;
  return box;
}

static void
paint_picture (cairo_t *cr, OddJob *job, OddTextileLayout *textile, OddBox box, double px_per_mm, OddPaintOptions *options)
{
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();

  options->px_per_mm = px_per_mm;
  options->mark_px = MAX (box.width, box.height) * px_per_mm / LONGEST_MARK_PX;
  /* a picture of cloth is looked at, the two others are worked from: names of scraps belong in neither */
  options->most_detail = ODD_DETAIL_SIGNS;
  options->numbers = options->show == ODD_SHOW_SEAMS || options->show == ODD_SHOW_WRONG_SIDE;
  odd_set_source_rgba (cr, options->table_colour, 1.0);
  cairo_paint (cr);
  cairo_scale (cr, px_per_mm, px_per_mm);
  cairo_translate (cr, -box.x, -box.y);
  odd_paint_textile (cr, swatches, job, textile, options);
}

static gboolean
check_drawn (cairo_status_t status, const char *path, GError **error)
{
  if (status == CAIRO_STATUS_SUCCESS)
    return TRUE;
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, _("The picture “%s” cannot be drawn: %s. Close other programs and try again."), path, cairo_status_to_string (status));
  return FALSE;
}

static cairo_status_t
append_cb (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

static cairo_status_t
draw_png (OddJob *job, OddTextileLayout *textile, OddBox box, OddPaintOptions *options, GByteArray *out)
{
  const double px_per_mm = LONGEST_PX / MAX (box.width, box.height);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) MAX (1.0, floor (box.width * px_per_mm + 0.5)), (int) MAX (1.0, floor (box.height * px_per_mm + 0.5)));
  cairo_t *cr = cairo_create (surface);
  cairo_status_t status;

  paint_picture (cr, job, textile, box, px_per_mm, options);
  status = cairo_status (cr);
  cairo_destroy (cr);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_write_to_png_stream (surface, append_cb, out);
  cairo_surface_destroy (surface);
  return status;
}

/* One user unit is 1 mm, so that a drawing program opens the picture in true size. */
static cairo_status_t
draw_svg (OddJob *job, OddTextileLayout *textile, OddBox box, OddPaintOptions *options, GByteArray *out)
{
  cairo_surface_t *surface = cairo_svg_surface_create_for_stream (append_cb, out, box.width, box.height);
  cairo_t *cr;
  cairo_status_t status;

  cairo_svg_surface_set_document_unit (surface, CAIRO_SVG_UNIT_MM);
  cr = cairo_create (surface);
  cairo_scale (cr, 1.0 / SVG_PX_PER_MM, 1.0 / SVG_PX_PER_MM);
  paint_picture (cr, job, textile, box, SVG_PX_PER_MM, options);
  status = cairo_status (cr);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  return status;
}

static gboolean
has_ending (const char *path, const char *ending)
{
  const gsize n = strlen (path), m = strlen (ending);

  return n > m && g_ascii_strcasecmp (path + n - m, ending) == 0;
}

static gboolean
write_bytes (GByteArray *bytes, const char *path, GError **error)
{
  g_autoptr(GError) reason = NULL;

  if (g_file_set_contents (path, (const char *) bytes->data, (gssize) bytes->len, &reason))
    return TRUE;
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, _("The picture “%s” cannot be written: %s. Choose another folder."), path, reason->message);
  return FALSE;
}

gboolean
odd_job_write_picture (OddJob *job, OddId textile_id, OddShow show, const char *path, GError **error)
{
  g_autoptr(OddTextileLayout) textile = NULL;
  g_autoptr(GByteArray) bytes = g_byte_array_new ();
  OddPaintOptions options;
  OddTextile *wanted;
  cairo_status_t status;
  gboolean svg;
  OddBox box;

  g_return_val_if_fail (job != NULL && path != NULL && show < ODD_N_SHOWS, FALSE);
  g_return_val_if_fail (error == NULL || *error == NULL, FALSE);

  svg = has_ending (path, ".svg");
  if (!svg && !has_ending (path, ".png"))
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_FILENAME, _("“%s” ends in neither .png nor .svg; give the picture one of these endings."), path);
      return FALSE;
    }
  wanted = textile_id != 0 ? odd_job_get_textile (job, textile_id) : job->textiles->len > 0 ? g_ptr_array_index (job->textiles, 0) : NULL;
  if (wanted == NULL || wanted->n_hung == 0)
    {
      g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_NOT_FOUND, _("There is no textile with a panel to make a picture of; add a panel first."));
      return FALSE;
    }
  textile = odd_job_dup_textile_layout (job, wanted->id);
  box = picture_box (textile);
  if (show == ODD_SHOW_WRONG_SIDE)
    box = turned_over (box, textile->finished_width_mm);
  odd_paint_options_init (&options);
  options.show = show;
  status = svg ? draw_svg (job, textile, box, &options, bytes) : draw_png (job, textile, box, &options, bytes);
  return check_drawn (status, path, error) && write_bytes (bytes, path, error);
}
