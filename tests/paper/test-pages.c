/* Page by page, as a print dialogue asks for it. */
#include "config.h"

#include "cloth/trees.h"
#include "paper/ticket-private.h"

static OddBox
draw_page (OddTicket *ticket, guint page)
{
  cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, NULL);
  cairo_t *cr = cairo_create (surface);
  OddBox box;

  odd_ticket_draw_page (ticket, cr, page);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_recording_surface_ink_extents (surface, &box.x, &box.y, &box.width, &box.height);
  cairo_surface_destroy (surface);
  return box;
}

static void
test_empty (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  g_autoptr(OddTicket) ticket = odd_ticket_new (job, "Nothing yet", ODD_PAPER_A4, ODD_UNIT_CM, NULL);

  g_test_summary ("A job without panels has a cover and nothing else");
  g_assert_cmpuint (odd_ticket_get_n_pages (ticket), ==, 1);
  draw_page (ticket, 0);
}

static void
test_inside_margins (void)
{
  OddJob *job = odd_job_new ();
  static const double sizes[][2] = { { 210.0, 297.0 }, { 215.9, 279.4 }, { 190.0, 250.0 } };

  g_test_summary ("Whatever the paper and however long the panels, no page draws into the outer 8 mm");
  for (guint i = 0; i < 24; i++)
    take (&job, add_squares (job, first_textile (job)->id, 1 + i % 3, 20, 60.0, NULL));
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autoptr(OddTicket) ticket = odd_ticket_new_for_size (job, "Long columns", sizes[i][0], sizes[i][1], ODD_UNIT_INCH, NULL);

      g_assert_cmpuint (odd_ticket_get_n_pages (ticket), >, 8);
      for (guint page = 0; page < odd_ticket_get_n_pages (ticket); page++)
        {
          const OddBox box = draw_page (ticket, page);

          g_assert_cmpfloat (box.x, >=, 8.0);
          g_assert_cmpfloat (box.y, >=, 8.0);
          g_assert_cmpfloat (box.x + box.width, <=, sizes[i][0] - 8.0);
          g_assert_cmpfloat (box.y + box.height, <=, sizes[i][1] - 8.0);
        }
    }
  odd_job_unref (job);
}

static void
test_both_sides (void)
{
  static const struct { guint columns, rows, n_pages; } panels[] = { { 3, 10, 1 }, { 25, 25, 2 } };
  OddTicketOptions options;

  g_test_summary ("Both sides stand on one sheet; where patches are many, each side has its own");
  odd_ticket_options_init (&options);
  options.parts = 1u << ODD_TICKET_PART_PANELS;
  for (guint i = 0; i < G_N_ELEMENTS (panels); i++)
    {
      OddJob *job = odd_job_new ();
      g_autoptr(OddTicket) ticket = NULL;

      take (&job, add_squares (job, first_textile (job)->id, panels[i].columns, panels[i].rows, 60.0, NULL));
      ticket = odd_ticket_new (job, "Sides", ODD_PAPER_LETTER, ODD_UNIT_INCH, &options);
      g_assert_cmpuint (odd_ticket_get_n_pages (ticket), ==, panels[i].n_pages);
      for (guint page = 0; page < panels[i].n_pages; page++)
        g_assert_cmpfloat (draw_page (ticket, page).x, >=, 8.0);
      odd_job_unref (job);
    }
}

static void
test_papers (void)
{
  OddPaper paper = ODD_PAPER_A4;
  double width_mm, height_mm;

  g_test_summary ("A4 is 210 x 297 mm (ISO 216); Letter is 8 1/2 x 11 in");
  g_assert_true (odd_paper_from_nick ("letter", &paper));
  odd_paper_get_size (paper, &width_mm, &height_mm);
  g_assert_cmpfloat_with_epsilon (width_mm, 8.5 * 25.4, 1e-9);
  g_assert_cmpfloat_with_epsilon (height_mm, 11 * 25.4, 1e-9);
  g_assert_true (odd_paper_from_nick ("a4", &paper));
  odd_paper_get_size (paper, &width_mm, &height_mm);
  g_assert_cmpfloat (width_mm, ==, 210.0);
  g_assert_cmpfloat (height_mm, ==, 297.0);
  g_assert_false (odd_paper_from_nick ("a7", &paper));
  g_assert_cmpint (paper, ==, ODD_PAPER_A4);
}

/* The page as grey pixels, 3 to the mm. (transfer full) */
static GBytes *
draw_pixels (OddJob *job, const OddTicketOptions *options)
{
  g_autoptr(OddTicket) ticket = odd_ticket_new (job, "Order", ODD_PAPER_A4, ODD_UNIT_CM, options);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_A8, 630, 891);
  cairo_t *cr = cairo_create (surface);
  GBytes *pixels;

  cairo_scale (cr, 3, 3);
  odd_ticket_draw_page (ticket, cr, 0);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  pixels = g_bytes_new (cairo_image_surface_get_data (surface), (gsize) cairo_image_surface_get_stride (surface) * 891);
  cairo_surface_destroy (surface);
  return pixels;
}

/* The sewing tasks as they stand on the pages, from top to bottom, column by column. (transfer full) (element-type utf8) */
static GPtrArray *
dup_written (OddJob *job, const OddTicketOptions *options)
{
  g_autoptr(OddTicket) ticket = odd_ticket_new (job, "Order", ODD_PAPER_A4, ODD_UNIT_CM, options);
  GPtrArray *written = g_ptr_array_new_with_free_func (g_free);

  for (guint p = 0; p < ticket->pages->len; p++)
    {
      const OddPage *page = ticket->pages->pdata[p];
      OddBox before = { 0, 0, 0, 0 };

      for (guint i = 0; i < page->lines->len; i++)
        {
          const OddLine *line = page->lines->pdata[i];

          g_assert_true (line->box.x > before.x || (line->box.x == before.x && line->box.y > before.y));
          before = line->box;
          if (line->text != NULL && g_str_has_prefix (line->text, "Sew "))
            g_ptr_array_add (written, g_strdup (line->text));
        }
    }
  return written;
}

static void
test_pins (void)
{
  OddJob *job = odd_job_new ();
  g_autoptr(OddPlan) plan = NULL;
  g_autoptr(GBytes) plain = NULL;
  g_autoptr(GBytes) same = NULL;
  g_autoptr(GBytes) other = NULL;
  OddTicketOptions options;
  g_autofree char *text = NULL;
  g_autoptr(GPtrArray) written = NULL;
  OddTaskKey pin = { ODD_TASK_CUT, 0, 0 };

  g_test_summary ("The stops on paper follow what she wants first: the seam that is sewn last, pinned, stands first and gives another page; what comes first anyway, the same");
  take (&job, add_squares (job, first_textile (job)->id, 1, 3, 60.0, NULL));
  plan = odd_plan_new_from_start (job, 0, ODD_MANNER_CHAIN, NULL, 0);
  odd_ticket_options_init (&options);
  options.parts = 1u << ODD_TICKET_PART_STOPS;
  plain = draw_pixels (job, &options);
  options.n_pins = 1;
  options.pins = &pin;
  pin = plan->tasks[0].key;
  same = draw_pixels (job, &options);
  g_assert_true (g_bytes_equal (plain, same));
  for (guint i = 0; i < plan->n_tasks; i++)
    if (plan->tasks[i].work == ODD_WORK_SEW)
      {
        pin = plan->tasks[i].key;
        g_clear_pointer (&text, g_free);
        text = odd_plan_dup_text (plan, i, ODD_UNIT_CM);
      }
  other = draw_pixels (job, &options);
  g_assert_false (g_bytes_equal (plain, other));
  written = dup_written (job, &options);
  g_assert_cmpuint (written->len, ==, 2);
  g_assert_cmpstr (written->pdata[0], ==, text);
  odd_job_unref (job);
}

/* A column of 41 squares: 40 seams, none waits for another. Wanted from the last to the first, that is how they are printed. */
static void
test_many_pins (void)
{
  OddJob *job = odd_job_new ();
  g_autoptr(OddPlan) plan = NULL;
  g_autoptr(GArray) pins = g_array_new (FALSE, FALSE, sizeof (OddTaskKey));
  g_autoptr(GPtrArray) wanted = g_ptr_array_new_with_free_func (g_free), written = NULL;
  OddTicketOptions options;

  take (&job, add_squares (job, first_textile (job)->id, 1, 41, 60.0, NULL));
  plan = odd_plan_new_from_start (job, 0, ODD_MANNER_WALKS, NULL, 0);
  for (guint i = plan->n_tasks; i-- > 0; )
    if (plan->tasks[i].work == ODD_WORK_SEW)
      {
        g_array_append_val (pins, plan->tasks[i].key);
        g_ptr_array_add (wanted, odd_plan_dup_text (plan, i, ODD_UNIT_CM));
      }
  g_assert_cmpuint (pins->len, ==, 40);
  odd_ticket_options_init (&options);
  options.parts = 1u << ODD_TICKET_PART_STOPS;
  options.manner = ODD_MANNER_WALKS;
  options.pins = (const OddTaskKey *) (gpointer) pins->data;
  options.n_pins = pins->len;
  written = dup_written (job, &options);
  g_assert_cmpuint (written->len, ==, 40);
  for (guint i = 0; i < written->len; i++)
    g_assert_cmpstr (written->pdata[i], ==, wanted->pdata[i]);
  odd_job_unref (job);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ticket/empty", test_empty);
  g_test_add_func ("/ticket/inside-margins", test_inside_margins);
  g_test_add_func ("/ticket/both-sides", test_both_sides);
  g_test_add_func ("/ticket/pins", test_pins);
  g_test_add_func ("/ticket/many-pins", test_many_pins);
  g_test_add_func ("/ticket/papers", test_papers);
  return g_test_run ();
}
