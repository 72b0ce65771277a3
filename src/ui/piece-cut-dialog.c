#include "config.h"

#include "ui/piece-cut-dialog.h"

#include "ui/deed.h"
#include "ui/form-grid.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "cloth/piece.h"
#include "drawing/painter.h"
#include "sewing/act.h"
#include "sewing/piece-ends.h"
#include "ui/length-entry.h"
#include "ui/thumbnails.h"
#include "ui/toast.h"

#define PICTURE_WIDTH_PX 300.0
#define PICTURE_HEIGHT_PX 210.0
#define SMALLEST_DRAG_PX 8.0

/* --- the line --- */

static double
to_radians (double degrees)
{
  return degrees * G_PI / 180.0;
}

OddHalfPlane
odd_cut_line_to_half_plane (const OddCutLine *self,
                            OddBox            box)
{
  const double tilt = to_radians (self->tilt_deg);
  const OddPoint through = self->upright ? odd_point (box.x + self->distance_mm, box.y + box.height / 2)
                                         : odd_point (box.x + box.width / 2, box.y + self->distance_mm);
  const OddPoint normal = self->upright ? odd_point (cos (tilt), sin (tilt)) : odd_point (-sin (tilt), cos (tilt));

  return (OddHalfPlane) { normal, odd_point_dot (normal, through) };
}

gboolean
odd_cut_line_through (OddCutLine *self,
                      OddBox      box,
                      OddPoint    a,
                      OddPoint    b)
{
  const OddPoint way = odd_point_sub (b, a);
  const gboolean upright = fabs (way.y) > fabs (way.x);

  if (odd_point_distance (a, b) < ODD_TOLERANCE_MM)
    return FALSE;
  self->upright = upright;
  if (upright)
    {
      self->tilt_deg = atan (-way.x / way.y) * 180.0 / G_PI;
      self->distance_mm = a.x + (box.y + box.height / 2 - a.y) * way.x / way.y - box.x;
    }
  else
    {
      self->tilt_deg = atan (way.y / way.x) * 180.0 / G_PI;
      self->distance_mm = a.y + (box.x + box.width / 2 - a.x) * way.y / way.x - box.y;
    }
  return TRUE;
}

/* --- the dialog --- */

typedef struct
{
  GtkWidget *from;
  GtkWidget *dialog;
  OddDocument *document;
  OddSelection *selection;
  OddId scrap_id;
  int unit;
  OddCutLine line;
  OddPoint pressed;             /* where a drag began, scrap's frame */
  gboolean filling;             /* the entries follow the line, not the line the entries */
  GtkDropDown *way;
  OddLengthEntry *distance;
  GtkSpinButton *tilt;
  GtkWidget *picture;
  GtkLabel *outcome;
  double px_per_mm;
} Cut;

static void
cut_free (Cut *cut)
{
  g_object_unref (cut->from);
  g_object_unref (cut->document);
  g_object_unref (cut->selection);
  g_free (cut);
}

static OddScrap *
get_scrap (Cut *cut)
{
  return odd_job_get_scrap (odd_document_get_job (cut->document), cut->scrap_id);
}

static char *
dup_size (OddJob *job,
          OddId   scrap_id,
          OddUnit unit)
{
  const OddBox box = odd_scrap_get_box (odd_job_get_scrap (job, scrap_id));

  return odd_length_format_pair (box.width, box.height, unit);
}

/* "22.5 × 16.3 cm and 22.5 × 6.3 cm; 2 seam ends are cut" */
static char *
dup_outcome (OddJob      *job,
             const OddId  ids[2],
             OddUnit      unit)
{
  g_autofree char *first = dup_size (job, ids[0], unit);
  g_autofree char *second = dup_size (job, ids[1], unit);
  guint n = 0;

  for (guint i = 0; i < 2; i++)
    {
      g_autoptr(GArray) ends = odd_job_dup_piece_ends (job, odd_job_get_scrap (job, ids[i]));

      n += ends->len;
    }
  if (n == 0)
    return g_strdup_printf (_("%s and %s"), first, second);
  return g_strdup_printf (ngettext ("%s and %s; %u seam end to secure", "%s and %s; %u seam ends to secure", n), first, second, n);
}

/* Tries the cut, tells what comes of it or why it cannot be. */
static void
show (Cut *cut)
{
  OddJob *job = odd_document_get_job (cut->document);
  OddScrap *scrap = get_scrap (cut);
  g_autoptr(GError) error = NULL;
  g_autoptr(OddJob) after = NULL;
  g_autofree char *text = NULL;
  OddId ids[2];

  if (scrap != NULL)
    after = odd_job_cut_piece (job, cut->scrap_id, odd_cut_line_to_half_plane (&cut->line, odd_scrap_get_box (scrap)), ids, &error);
  if (after != NULL)
    text = dup_outcome (after, ids, cut->unit);
  gtk_label_set_text (cut->outcome, text != NULL ? text : error != NULL ? error->message : "");
  adw_message_dialog_set_response_enabled (ADW_MESSAGE_DIALOG (cut->dialog), "cut", after != NULL);
  gtk_widget_queue_draw (cut->picture);
}

static void
fill (Cut *cut)
{
  cut->filling = TRUE;
  gtk_drop_down_set_selected (cut->way, cut->line.upright);
  odd_length_entry_set_value (cut->distance, cut->line.distance_mm);
  gtk_spin_button_set_value (cut->tilt, cut->line.tilt_deg);
  cut->filling = FALSE;
  show (cut);
}

static void
typed_cb (Cut *cut)
{
  g_autoptr(GError) error = NULL;

  if (cut->filling)
    return;
  cut->line.upright = gtk_drop_down_get_selected (cut->way) == 1;
  cut->line.tilt_deg = gtk_spin_button_get_value (cut->tilt);
  if (odd_length_parse (gtk_editable_get_text (GTK_EDITABLE (cut->distance)), cut->unit, TRUE, TRUE, &cut->line.distance_mm, &error))
    {
      show (cut);
      return;
    }
  gtk_label_set_text (cut->outcome, error->message);
  adw_message_dialog_set_response_enabled (ADW_MESSAGE_DIALOG (cut->dialog), "cut", FALSE);
}

static void
way_cb (Cut *cut)
{
  OddScrap *scrap = get_scrap (cut);
  OddBox box;

  if (cut->filling || scrap == NULL)
    return;
  box = odd_scrap_get_box (scrap);
  cut->line.upright = gtk_drop_down_get_selected (cut->way) == 1;
  cut->line.distance_mm = 0.4 * (cut->line.upright ? box.width : box.height);
  fill (cut);
}

/* --- its picture --- */

static OddPoint
get_origin (Cut *cut)
{
  const OddBox box = odd_scrap_get_box (get_scrap (cut));

  return odd_point ((gtk_widget_get_width (cut->picture) - box.width * cut->px_per_mm) / 2.0 - box.x * cut->px_per_mm,
                    (gtk_widget_get_height (cut->picture) - box.height * cut->px_per_mm) / 2.0 - box.y * cut->px_per_mm);
}

static OddPoint
to_scrap (Cut   *cut,
          double x,
          double y)
{
  return odd_point_scale (odd_point_sub (odd_point (x, y), get_origin (cut)), 1.0 / cut->px_per_mm);
}

/* Claimed, for else the press would carry the dialog about. */
static void
drag_begin_cb (Cut        *cut,
               double      x,
               double      y,
               GtkGesture *drag)
{
  if (get_scrap (cut) == NULL)
    return;
  gtk_gesture_set_state (drag, GTK_EVENT_SEQUENCE_CLAIMED);
  cut->pressed = to_scrap (cut, x, y);
}

/* A short drag carries the line along as it lies, a longer one draws it. */
static void
drag_update_cb (Cut   *cut,
                double dx,
                double dy)
{
  OddScrap *scrap = get_scrap (cut);
  const OddPoint to = odd_point_add (cut->pressed, odd_point_scale (odd_point (dx, dy), 1.0 / cut->px_per_mm));
  OddBox box;

  if (scrap == NULL)
    return;
  box = odd_scrap_get_box (scrap);
  if (hypot (dx, dy) >= SMALLEST_DRAG_PX)
    odd_cut_line_through (&cut->line, box, cut->pressed, to);
  else
    {
      const double tilt = to_radians (cut->line.tilt_deg);
      const OddPoint way = cut->line.upright ? odd_point (-sin (tilt), cos (tilt)) : odd_point (cos (tilt), sin (tilt));

      odd_cut_line_through (&cut->line, box, to, odd_point_add (to, way));
    }
  fill (cut);
}

static void
draw_line (Cut     *cut,
           cairo_t *cr)
{
  const OddBox box = odd_scrap_get_box (get_scrap (cut));
  const OddHalfPlane line = odd_cut_line_to_half_plane (&cut->line, box);
  const OddPoint way = odd_point (-line.normal.y, line.normal.x);
  const OddPoint foot = odd_point_scale (line.normal, line.offset_mm);
  const double middle = odd_point_dot (way, odd_point_sub (odd_point (box.x + box.width / 2, box.y + box.height / 2), foot));
  const double reach = hypot (box.width, box.height) / 2 + 6.0 / cut->px_per_mm;
  const OddPoint from = odd_point_add (foot, odd_point_scale (way, middle - reach)), to = odd_point_add (foot, odd_point_scale (way, middle + reach));

  cairo_move_to (cr, from.x * cut->px_per_mm, from.y * cut->px_per_mm);
  cairo_line_to (cr, to.x * cut->px_per_mm, to.y * cut->px_per_mm);
  cairo_set_source_rgba (cr, 1.0, 0.992, 0.973, 0.9);
  cairo_set_line_width (cr, 4.0);
  cairo_stroke_preserve (cr);
  cairo_set_source_rgb (cr, 0.09, 0.07, 0.055);
  cairo_set_line_width (cr, 1.7);
  cairo_stroke (cr);
}

static void
draw_cb (GtkDrawingArea *area,
         cairo_t        *cr,
         int             width,
         int             height,
         gpointer        data)
{
  Cut *cut = data;
  OddJob *job = odd_document_get_job (cut->document);
  OddScrap *scrap = get_scrap (cut);
  const OddPoint origin = scrap != NULL ? get_origin (cut) : odd_point (0, 0);
  OddPaintOptions options;

  if (scrap == NULL)
    return;
  odd_paint_options_init (&options);
  options.px_per_mm = cut->px_per_mm;
  cairo_translate (cr, origin.x, origin.y);
  cairo_save (cr);
  cairo_scale (cr, cut->px_per_mm, cut->px_per_mm);
  odd_paint_scrap (cr, odd_swatches_get_shared (), job, scrap, FALSE, &options);
  cairo_restore (cr);
  draw_line (cut, cr);
}

static GtkWidget *
make_picture (Cut *cut)
{
  const OddBox box = odd_scrap_get_box (get_scrap (cut));
  GtkGesture *drag = gtk_gesture_drag_new ();

  cut->px_per_mm = MIN (PICTURE_WIDTH_PX / MAX (box.width, 1.0), PICTURE_HEIGHT_PX / MAX (box.height, 1.0));
  cut->picture = gtk_drawing_area_new ();
  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (cut->picture), PICTURE_WIDTH_PX + 16);
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (cut->picture), PICTURE_HEIGHT_PX + 16);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (cut->picture), draw_cb, cut, NULL);
  gtk_widget_set_cursor_from_name (cut->picture, "crosshair");
  gtk_accessible_update_property (GTK_ACCESSIBLE (cut->picture), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Picture of the scrap; drag across it to lay the line"), -1);
  gtk_widget_add_controller (cut->picture, GTK_EVENT_CONTROLLER (drag));
  g_signal_connect_swapped (drag, "drag-begin", G_CALLBACK (drag_begin_cb), cut);
  g_signal_connect_swapped (drag, "drag-update", G_CALLBACK (drag_update_cb), cut);
  return cut->picture;
}

static GtkWidget *
make_entries (Cut *cut)
{
  const char *const ways[] = { _("From side to side"), _("Up and down"), NULL };
  GtkWidget *grid = odd_form_grid_new ();

  cut->way = GTK_DROP_DOWN (gtk_drop_down_new_from_strings (ways));
  cut->distance = ODD_LENGTH_ENTRY (odd_length_entry_new ());
  cut->tilt = GTK_SPIN_BUTTON (gtk_spin_button_new_with_range (-45.0, 45.0, 1.0));
  gtk_spin_button_set_digits (cut->tilt, 1);
  g_object_set (cut->distance, "unit", cut->unit, "allow-negative", TRUE, "activates-default", TRUE, NULL);
  odd_form_grid_add (GTK_GRID (grid), _("The _line runs"), GTK_WIDGET (cut->way));
  odd_form_grid_add (GTK_GRID (grid), _("_Distance from the top or left"), GTK_WIDGET (cut->distance));
  odd_form_grid_add (GTK_GRID (grid), _("_Tilt in degrees"), GTK_WIDGET (cut->tilt));
  g_signal_connect_swapped (cut->way, "notify::selected", G_CALLBACK (way_cb), cut);
  g_signal_connect_swapped (cut->distance, "changed", G_CALLBACK (typed_cb), cut);
  g_signal_connect_swapped (cut->tilt, "value-changed", G_CALLBACK (typed_cb), cut);
  return grid;
}

static GtkWidget *
make_content (Cut *cut)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *outcome = gtk_label_new (NULL);

  cut->outcome = GTK_LABEL (outcome);
  gtk_label_set_wrap (cut->outcome, TRUE);
  gtk_label_set_max_width_chars (cut->outcome, 36);
  gtk_label_set_lines (cut->outcome, 2);
  gtk_accessible_update_property (GTK_ACCESSIBLE (outcome), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, _("What comes of the cut"), -1);
  gtk_box_append (GTK_BOX (box), make_picture (cut));
  gtk_box_append (GTK_BOX (box), make_entries (cut));
  gtk_box_append (GTK_BOX (box), outcome);
  return box;
}

static void
answer_cb (Cut        *cut,
           const char *response)
{
  OddScrap *scrap = get_scrap (cut);
  g_autoptr(GError) error = NULL;
  OddHalfPlane line;
  GPtrArray *record;

  if (!g_str_equal (response, "cut") || scrap == NULL)
    return;
  line = odd_cut_line_to_half_plane (&cut->line, odd_scrap_get_box (scrap));
  if (!odd_apply (cut->from, cut->document,
                  odd_job_do (odd_document_get_job (cut->document),
                              &(OddAct) { .kind = ODD_ACT_CUT_PIECE, .scrap_id = cut->scrap_id, .clock_s = odd_now_s (),
                                          .figures = (double[]) { line.normal.x, line.normal.y, line.offset_mm }, .n_figures = 3 }, &error),
                  &error, _("Cut a pieced scrap across")))
    return;
  record = odd_document_get_job (cut->document)->record;
  odd_selection_set (cut->selection, ODD_SELECTED_SCRAP, ((OddAct *) record->pdata[record->len - 1])->ids[0]);
}

void
odd_piece_cut_dialog_present (GtkWidget    *from,
                              OddDocument  *document,
                              OddSelection *selection,
                              OddId         scrap_id,
                              int           unit)
{
  Cut *cut = g_new0 (Cut, 1);
  OddBox box;

  cut->from = g_object_ref (from);
  cut->document = g_object_ref (document);
  cut->selection = g_object_ref (selection);
  cut->scrap_id = scrap_id;
  cut->unit = unit;
  box = odd_scrap_get_box (get_scrap (cut));
  /* not in the middle: there most pieces have a seam */
  cut->line = (OddCutLine) { FALSE, 0.4 * box.height, 0.0 };
  cut->dialog = adw_message_dialog_new (GTK_WINDOW (gtk_widget_get_root (from)), _("Cut across"),
                                        _("Each half becomes a scrap of its own, to be turned and sewn on as you like."));
  adw_message_dialog_set_extra_child (ADW_MESSAGE_DIALOG (cut->dialog), make_content (cut));
  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (cut->dialog), "cancel", _("_Cancel"), "cut", _("C_ut"), NULL);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (cut->dialog), "cut", ADW_RESPONSE_SUGGESTED);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (cut->dialog), "cut");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (cut->dialog), "cancel");
  g_object_set_data_full (G_OBJECT (cut->dialog), "odd-cut", cut, (GDestroyNotify) cut_free);
  g_signal_connect_swapped (cut->dialog, "response", G_CALLBACK (answer_cb), cut);
  fill (cut);
  gtk_window_present (GTK_WINDOW (cut->dialog));
  gtk_widget_grab_focus (GTK_WIDGET (cut->distance));
}
