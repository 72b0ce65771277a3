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

#define GAP_MM 40.0              /* between loose panels */

/* A textile, or loose panels side by side. */
typedef struct { OddTextileLayout *textile; GPtrArray *loose; } Shown;

static void
shown_clear (Shown *shown)
{
  g_clear_pointer (&shown->textile, odd_textile_layout_unref);
  g_clear_pointer (&shown->loose, g_ptr_array_unref);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Shown, shown_clear)

static double
loose_width_mm (const GPtrArray *loose)
{
  double width_mm = -GAP_MM;

  for (guint i = 0; i < loose->len; i++)
    width_mm += ((OddLayout *) loose->pdata[i])->raw_box.width + GAP_MM;
  return width_mm;
}

/* With room for raw edges and shadow, in its own frame. */
static OddBox
picture_box (const Shown *shown)
{
  OddTextileLayout *textile = shown->textile;
  OddBox box = ODD_BOX_EMPTY;

  if (textile == NULL)
    {
      double height_mm = 0.0;

      for (guint i = 0; i < shown->loose->len; i++)
        height_mm = MAX (height_mm, ((OddLayout *) shown->loose->pdata[i])->raw_box.height);
      return odd_box_grow ((OddBox) { 0.0, 0.0, loose_width_mm (shown->loose), height_mm }, MARGIN_MM);
    }

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
paint_loose (cairo_t *cr, OddSwatches *swatches, OddJob *job, const GPtrArray *loose, const OddPaintOptions *options)
{
  double x = options->show == ODD_SHOW_WRONG_SIDE ? loose_width_mm (loose) : 0.0;

  for (guint i = 0; i < loose->len; i++)
    {
      OddLayout *layout = loose->pdata[i];

      if (options->show == ODD_SHOW_WRONG_SIDE)
        x -= layout->raw_box.width;
      cairo_save (cr);
      cairo_translate (cr, x - layout->raw_box.x, -layout->raw_box.y);
      odd_paint_panel (cr, swatches, job, layout, NULL, options);
      cairo_restore (cr);
      x += options->show == ODD_SHOW_WRONG_SIDE ? -GAP_MM : layout->raw_box.width + GAP_MM;
    }
}

static void
paint_picture (cairo_t *cr, OddJob *job, const Shown *shown, OddBox box, double px_per_mm, OddPaintOptions *options)
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
  if (shown->textile != NULL)
    odd_paint_textile (cr, swatches, job, shown->textile, options);
  else
    paint_loose (cr, swatches, job, shown->loose, options);
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
draw_png (OddJob *job, const Shown *shown, OddBox box, OddPaintOptions *options, GByteArray *out)
{
  const double px_per_mm = LONGEST_PX / MAX (box.width, box.height);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) MAX (1.0, floor (box.width * px_per_mm + 0.5)), (int) MAX (1.0, floor (box.height * px_per_mm + 0.5)));
  cairo_t *cr = cairo_create (surface);
  cairo_status_t status;

  paint_picture (cr, job, shown, box, px_per_mm, options);
  status = cairo_status (cr);
  cairo_destroy (cr);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_write_to_png_stream (surface, append_cb, out);
  cairo_surface_destroy (surface);
  return status;
}

/* One user unit is 1 mm, so that a drawing program opens the picture in true size. */
static cairo_status_t
draw_svg (OddJob *job, const Shown *shown, OddBox box, OddPaintOptions *options, GByteArray *out)
{
  cairo_surface_t *surface = cairo_svg_surface_create_for_stream (append_cb, out, box.width, box.height);
  cairo_t *cr;
  cairo_status_t status;

  cairo_svg_surface_set_document_unit (surface, CAIRO_SVG_UNIT_MM);
  cr = cairo_create (surface);
  cairo_scale (cr, 1.0 / SVG_PX_PER_MM, 1.0 / SVG_PX_PER_MM);
  paint_picture (cr, job, shown, box, SVG_PX_PER_MM, options);
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

static GPtrArray *
dup_loose (OddJob *job)
{
  GPtrArray *loose = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_layout_unref);

  for (guint i = 0; i < job->loose_panels->len; i++)
    g_ptr_array_add (loose, odd_job_dup_layout (job, ((OddPanel *) job->loose_panels->pdata[i])->id));
  return loose;
}

gboolean
odd_job_write_picture (OddJob *job, OddId textile_id, OddShow show, const char *path, GError **error)
{
  g_auto(Shown) shown = { NULL, NULL };
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
  if (textile_id == 0 && (wanted == NULL || wanted->n_hung == 0) && job->loose_panels->len > 0)
    shown.loose = dup_loose (job);
  else if (wanted == NULL || wanted->n_hung == 0)
    {
      g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_NOT_FOUND, _("There is no textile with a panel to make a picture of; add a panel first."));
      return FALSE;
    }
  if (shown.loose == NULL)
    shown.textile = odd_job_dup_textile_layout (job, wanted->id);
  box = picture_box (&shown);
  if (show == ODD_SHOW_WRONG_SIDE)
    box = turned_over (box, shown.textile != NULL ? shown.textile->finished_width_mm : loose_width_mm (shown.loose));
  odd_paint_options_init (&options);
  options.show = show;
  status = svg ? draw_svg (job, &shown, box, &options, bytes) : draw_png (job, &shown, box, &options, bytes);
  return check_drawn (status, path, error) && write_bytes (bytes, path, error);
}
