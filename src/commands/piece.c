#include "config.h"

#include "commands/command-private.h"

#include <glib/gi18n.h>
#include <string.h>
#include "cloth/length.h"
#include "cloth/shape.h"
#include "piecing/proposal.h"
#include "sewing/panel-work.h"
#include "store/save.h"

/* As typed. */
typedef struct
{
  char *manner, *width, *length, *allowance, *finish, *smallest, *spread, *seed, *scale, *out, *shape, *margin;
  char **templates;
  char **shares, **least;
  gboolean remains, count;
  int panels, threads;
  gint64 moves;
  double seconds, liveliness, tilt;
} Words;

static void
words_clear (Words *words)
{
  char **texts[] = { &words->manner, &words->width, &words->length, &words->allowance, &words->finish, &words->smallest,
                     &words->spread, &words->seed, &words->scale, &words->out, &words->shape, &words->margin };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    g_clear_pointer (texts[i], g_free);
  g_clear_pointer (&words->templates, g_strfreev);
  g_clear_pointer (&words->shares, g_strfreev);
  g_clear_pointer (&words->least, g_strfreev);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Words, words_clear)

/* Untouched without a text. */
static gboolean
read_length (const char *option, const char *text, double *mm)
{
  g_autoptr(GError) error = NULL;

  if (text == NULL || odd_length_parse (text, ODD_UNIT_MM, FALSE, TRUE, mm, &error))
    return TRUE;
  odd_command_fail (_("piece: %s: %s"), option, error->message);
  return FALSE;
}

static gboolean
is_given (const char *option, const char *text)
{
  if (text != NULL)
    return TRUE;
  odd_command_fail (_("piece: %s is missing. “oddment piece --help” tells the options."), option);
  return FALSE;
}

static gboolean
read_manner (const Words *words, OddPieceManner *out)
{
  if (g_str_equal (words->manner, "squares"))
    *out = ODD_PIECE_SQUARES;
  else if (g_str_equal (words->manner, "columns"))
    *out = ODD_PIECE_COLUMNS;
  else if (g_str_equal (words->manner, "crumbs"))
    *out = ODD_PIECE_CRUMBS;
  else
    {
      odd_command_fail (_("piece: “%s” is no manner that can be pieced. Say --manner squares, columns or crumbs."), words->manner);
      return FALSE;
    }
  if (*out == ODD_PIECE_CRUMBS || isnan (words->tilt))
    return TRUE;
  odd_command_fail (_("piece: --tilt does not go with --manner %s, whose seams are all square. Leave it out."), words->manner);
  return FALSE;
}

/* "100" or "80x120"; the sides may have units. */
static gboolean
read_template (const char *text, OddTemplate *out)
{
  g_auto(GStrv) sides = g_strsplit (text, "x", 2);
  double width_mm = 0.0, length_mm;

  if (!read_length ("--template", sides[0] != NULL ? sides[0] : "", &width_mm))
    return FALSE;
  length_mm = width_mm;
  if (sides[0] != NULL && !read_length ("--template", sides[1], &length_mm))
    return FALSE;
  *out = (OddTemplate) { width_mm, length_mm };
  return TRUE;
}

static gboolean
read_templates (const Words *words, OddProposalOptions *options)
{
  const guint n = words->templates != NULL ? g_strv_length (words->templates) : 0;

  if (n == 0)
    return TRUE;
  if (options->manner != ODD_PIECE_SQUARES)
    {
      odd_command_fail (_("piece: --template goes with --manner squares only. Leave it out."));
      return FALSE;
    }
  if (n > ODD_MAX_TEMPLATES)
    {
      odd_command_fail (_("piece: --template is given %u times; it may be given %u times."), n, ODD_MAX_TEMPLATES);
      return FALSE;
    }
  for (guint i = 0; i < n; i++)
    if (!read_template (words->templates[i], &options->templates[i]))
      return FALSE;
  options->n_templates = n;
  return TRUE;
}

static char *
dup_finish_keys (OddJob *job)
{
  g_autoptr(GString) text = g_string_new (NULL);

  for (guint i = 0; i < job->finishes->len; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? ", " : "", ((OddFinish *) job->finishes->pdata[i])->key);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* A finish brings its own allowance, unless one is given too. */
static gboolean
read_treatment (const Words *words, OddJob *job, OddProposalOptions *options)
{
  if (words->finish != NULL)
    {
      const OddFinish *finish = odd_job_get_finish_by_key (job, words->finish);

      if (finish == NULL)
        {
          g_autofree char *keys = dup_finish_keys (job);

          odd_command_fail (_("piece: There is no finish “%s”. The job has %s."), words->finish, keys);
          return FALSE;
        }
      options->treatment = (OddTreatment) { finish->id, NAN };
    }
  return read_length ("--allowance", words->allowance, &options->treatment.allowance_mm);
}

static gboolean
read_spread (const Words *words, OddProposalOptions *options)
{
  static const char *const NICKS[] = { "even", "light-top", "dark-top", NULL };

  if (words->spread == NULL)
    return TRUE;
  for (guint i = 0; NICKS[i] != NULL; i++)
    if (g_str_equal (NICKS[i], words->spread))
      {
        options->spread = (OddSpread) i;
        return TRUE;
      }
  odd_command_fail (_("piece: Light and dark cannot be spread “%s”. Say --spread even, light-top or dark-top."), words->spread);
  return FALSE;
}

static gboolean
read_counts (const Words *words, OddProposalOptions *options)
{
  g_autoptr(GError) error = NULL;

  if (words->seed != NULL && !g_ascii_string_to_unsigned (words->seed, 10, 0, G_MAXUINT64, &options->seed, &error))
    {
      odd_command_fail (_("piece: “%s” is no seed. Give a whole number from 0 on."), words->seed);
      return FALSE;
    }
  if (words->threads < 0 || words->threads > 1024 || words->moves < 0 || words->panels < 1)
    {
      odd_command_fail (_("piece: --panels must be at least 1, --threads 0 to 1024, and --moves not negative."));
      return FALSE;
    }
  options->n_panels = (guint) words->panels;
  options->n_threads = (guint) words->threads;
  options->moves = (guint64) words->moves;
  options->seconds = words->seconds;
  if (!isnan (words->liveliness))
    options->liveliness = words->liveliness;
  if (!isnan (words->tilt))
    options->tilt_deg = words->tilt;
  return TRUE;
}

/* "Blue linen=20": a fabric's name, and percent. */
static gboolean
read_share (const char *option, const char *text, OddJob *job, OddId *out_fabric_id, double *out_share)
{
  const char *sign = strrchr (text, '=');
  const gsize length = sign != NULL ? (gsize) (sign - text) : strlen (text);
  char *end = NULL;

  for (guint i = 0; i < job->fabrics->len; i++)
    {
      const OddFabric *fabric = job->fabrics->pdata[i];

      if (strlen (fabric->name) == length && strncmp (fabric->name, text, length) == 0)
        *out_fabric_id = fabric->id;
    }
  *out_share = sign != NULL ? g_ascii_strtod (sign + 1, &end) / 100.0 : -1.0;
  if (*out_fabric_id == 0)
    odd_command_fail (_("piece: There is no fabric for %s “%s”. Give a fabric's name, = and percent."), option, text);
  else if (end == NULL || end == sign + 1 || *end != '\0' || !(*out_share >= 0.0 && *out_share <= 1.0))
    odd_command_fail (_("piece: %s “%s” must end in = and 0 to 100 percent."), option, text);
  else
    return TRUE;
  return FALSE;
}

static OddShare *
find_share (GArray *shares, OddId fabric_id)
{
  const OddShare added = { fabric_id, 1.0, 0.0 };

  for (guint i = 0; i < shares->len; i++)
    if (g_array_index (shares, OddShare, i).fabric_id == fabric_id)
      return &g_array_index (shares, OddShare, i);
  g_array_append_val (shares, added);
  return &g_array_index (shares, OddShare, shares->len - 1);
}

static gboolean
read_shares (const Words *words, OddJob *job, GArray *shares, OddProposalOptions *options)
{
  double least = 0.0;

  for (guint pass = 0; pass < 2; pass++)
    for (char **text = pass == 0 ? words->shares : words->least; text != NULL && *text != NULL; text++)
      {
        OddId fabric_id = 0;
        double share;

        if (!read_share (pass == 0 ? "--at-most" : "--at-least", *text, job, &fabric_id, &share))
          return FALSE;
        *(pass == 0 ? &find_share (shares, fabric_id)->most : &find_share (shares, fabric_id)->least) = share;
      }
  for (guint i = 0; i < shares->len; i++)
    least += g_array_index (shares, OddShare, i).least;
  options->shares = (const OddShare *) shares->data;
  options->n_shares = shares->len;
  options->remains = words->remains;
  for (guint i = 0; i < shares->len; i++)
    if (g_array_index (shares, OddShare, i).least > g_array_index (shares, OddShare, i).most)
      {
        odd_command_fail (_("piece: --at-least of a fabric is more than its --at-most. Swap them."));
        return FALSE;
      }
  if (least <= 1.0)
    return TRUE;
  odd_command_fail (_("piece: --at-least comes to %.0f percent together; 100 is all there is."), 100.0 * least);
  return FALSE;
}

static gboolean
read_options (const Words *words, OddJob *job, OddProposalOptions *options)
{
  OddPieceManner manner;

  if (!read_manner (words, &manner))
    return FALSE;
  odd_proposal_options_init (options, job, manner);
  if (!read_counts (words, options) || !read_spread (words, options) || !read_templates (words, options) || !read_treatment (words, job, options)
      || !read_length ("--width", words->width, &options->width_mm) || !read_length ("--length", words->length, &options->length_mm)
      || !read_length ("--smallest", words->smallest, &options->smallest_mm) || !read_length ("--scale", words->scale, &options->scale_mm))
    return FALSE;
  options->row_least_mm = MAX (options->row_least_mm, options->smallest_mm);
  return TRUE;
}

static void
add_size (GString *text, const char *name, double width, double length, const char *format)
{
  char across[G_ASCII_DTOSTR_BUF_SIZE], down[G_ASCII_DTOSTR_BUF_SIZE];

  g_ascii_formatd (across, sizeof across, format, width);
  g_ascii_formatd (down, sizeof down, format, length);
  g_string_append_printf (text, "%s %s x %s", name, across, down);
}

/* The panels are alike in size: the first tells. */
static void
add_sizes (GString *text, const OddProposal *proposal, const OddProposalOptions *options)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (proposal->job, g_array_index (proposal->panels, OddId, 0));

  g_string_append_printf (text, "panels %u\n", proposal->panels->len);
  add_size (text, "finished", layout->alone_width_mm, layout->alone_length_mm, "%.1f");
  g_string_append (text, " mm\n");
  if (options->manner == ODD_PIECE_SQUARES && options->n_templates == 1 && options->into != ODD_INTO_BARE)
    {
      const double allowance_mm = layout->edges[0].allowance_mm;

      add_size (text, "grid", layout->alone_width_mm / (options->templates[0].width_mm - 2.0 * allowance_mm),
                layout->alone_length_mm / (options->templates[0].length_mm - 2.0 * allowance_mm), "%.0f");
      g_string_append_c (text, '\n');
    }
}

static int
print_proposal (const OddProposal *proposal, const OddProposalOptions *options)
{
  g_autoptr(GString) text = g_string_new (NULL);
  g_autofree char *figures = odd_figures_dup_text (&proposal->figures);
  const OddPanelWork work = odd_job_measure_panel_work (proposal->job, (const OddId *) proposal->panels->data, proposal->panels->len);

  add_sizes (text, proposal, options);
  g_string_append (text, figures);
  g_string_append_printf (text, "rounds %u\nwork-time %.0f to %.0f min\n", work.n_rounds, floor (work.time_s.low / 60.0), ceil (work.time_s.high / 60.0));
  if (proposal->missing != NULL)
    g_string_append_printf (text, "%s\n", proposal->missing);
  if (proposal->remark != NULL)
    g_string_append_printf (text, "%s\n", proposal->remark);
  return odd_command_print (text->str, text->len);
}

/* Crumbs are made better before they are written. */
static OddProposal *
propose (OddJob *job, const OddProposalOptions *options, GError **error)
{
  OddProposal *first = odd_propose (job, options, NULL, NULL, NULL, error);
  OddProposal *better;

  if (first == NULL || options->manner != ODD_PIECE_CRUMBS)
    return first;
  better = odd_improve (first->job, (const OddId *) first->panels->data, first->panels->len, options, NULL, NULL, NULL, error);
  odd_proposal_free (first);
  return better;
}

/* A loose bare panel round the outline of --shape, to be filled. Takes @job. NULL: told what is wrong. */
static OddJob *
add_shape (const Words *words, OddJob *job, OddProposalOptions *options, OddId *out_panel_id)
{
  g_autoptr(OddJob) without = job;
  g_autoptr(OddJob) list = odd_command_load (words->shape);
  g_autoptr(OddPolygon) outline = NULL;
  g_autoptr(OddConvex) shape = NULL;
  g_autoptr(GError) error = NULL;
  double margin_mm = 0.0;
  OddJob *with = NULL;

  if (list == NULL || !read_length ("--margin", words->margin, &margin_mm))
    return NULL;
  outline = odd_job_dup_only_outline (list, &error);
  shape = outline != NULL ? odd_shape_new_round (outline, margin_mm, &error) : NULL;
  if (shape != NULL)
    with = odd_job_add_shape (without, "", shape, &options->treatment, out_panel_id, &error);
  if (with == NULL)
    {
      odd_command_fail ("piece: %s", error->message);
      return NULL;
    }
  options->into = ODD_INTO_BARE;
  options->panel_ids = out_panel_id;
  options->n_panel_ids = 1;
  options->width_mm = odd_convex_box (shape).width;
  options->length_mm = odd_convex_box (shape).height;
  return with;
}

static gboolean
is_size_given (const Words *words)
{
  if (words->shape == NULL)
    return is_given ("--width", words->width) && is_given ("--length", words->length);
  if (words->width == NULL && words->length == NULL && words->panels == 1)
    return TRUE;
  odd_command_fail (_("piece: --shape has its own size and is one panel. Leave --width, --length and --panels out."));
  return FALSE;
}

static gboolean
is_count_sensible (const Words *words)
{
  if (words->out != NULL)
    odd_command_fail (_("piece: --count writes no file. Leave --out out."));
  else if (!g_str_equal (words->manner, "squares"))
    odd_command_fail (_("piece: --count goes with --manner squares only. Other manners cut no two pieces alike."));
  else
    return TRUE;
  return FALSE;
}

static int
piece (const char *path, const Words *words)
{
  g_autoptr(OddJob) job = NULL;
  g_autoptr(OddProposal) proposal = NULL;
  g_autoptr(GArray) shares = g_array_new (FALSE, FALSE, sizeof (OddShare));
  g_autoptr(GError) error = NULL;
  OddProposalOptions options;
  OddId panel_id = 0;

  if (!is_given ("--manner", words->manner) || (words->count ? !is_count_sensible (words) : !is_size_given (words) || !is_given ("--out", words->out)))
    return ODD_EXIT_BAD;
  job = odd_command_load (path);
  if (job == NULL || !read_options (words, job, &options) || !read_shares (words, job, shares, &options))
    return ODD_EXIT_BAD;
  if (words->count)
    return odd_command_count (job, &options);
  if (words->shape != NULL)
    {
      job = add_shape (words, g_steal_pointer (&job), &options, &panel_id);
      if (job == NULL)
        return ODD_EXIT_BAD;
    }
  proposal = propose (job, &options, &error);
  if (proposal == NULL || !odd_store_save (proposal->job, words->out, &error))
    return odd_command_fail ("%s", error->message);
  return print_proposal (proposal, &options);
}

int
odd_command_piece (GStrv arguments)
{
  g_auto(Words) words = { .panels = 1, .liveliness = NAN, .tilt = NAN };
  const GOptionEntry entries[] = {
    { "manner", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING, &words.manner, N_("How: squares, columns or crumbs"), N_("MANNER") },
    { "width", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING, &words.width, N_("Finished width of a panel alone"), N_("LEN") },
    { "length", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING, &words.length, N_("Finished length of a panel alone"), N_("LEN") },
    { "shape", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_FILENAME, &words.shape,
      N_("Instead of a size: one loose panel round the one outline of this scrap list"), N_("FILE") },
    { "margin", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING, &words.margin, N_("Finished cloth all round the shape; else none"), N_("LEN") },
    { "panels", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_INT, &words.panels, N_("How many panels; else one"), N_("N") },
    { "template", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING_ARRAY, &words.templates,
      N_("Squares: cut size, 100 or 80x120; up to three times"), N_("LEN") },
    { "allowance", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING, &words.allowance, N_("Of all seams and edges; else the finish's own"), N_("LEN") },
    { "finish", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING, &words.finish, N_("Of all seams and edges; else as the job has it"), N_("NAME") },
    { "tilt", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_DOUBLE, &words.tilt, N_("Crumbs: how far seams lean at most, 0 to 45; else 18"), N_("DEG") },
    { "scale", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING, &words.scale, N_("Crumbs: finished side of a middle patch; else by the tub"), N_("LEN") },
    { "smallest", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING, &words.smallest, N_("Columns, crumbs: no patch narrower than this"), N_("LEN") },
    { "liveliness", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_DOUBLE, &words.liveliness, N_("Columns, crumbs: 0 calm to 1, many sizes"), N_("SHARE") },
    { "spread", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING, &words.spread, N_("Of light and dark: even, light-top or dark-top"), N_("HOW") },
    { "at-most", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING_ARRAY, &words.shares, N_("About so much of a fabric and no more"),
      N_("FABRIC=PERCENT") },
    { "at-least", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING_ARRAY, &words.least, N_("About so much of a fabric, where the tub has it"),
      N_("FABRIC=PERCENT") },
    { "remains", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_NONE, &words.remains, N_("Draw from what is left of scraps in panels, too"), NULL },
    { "count", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_NONE, &words.count, N_("Squares: only print how many each scrap gives; no size, no --out"), NULL },
    { "moves", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_INT64, &words.moves, N_("How long to arrange or improve; else by the size of the cloth"), N_("N") },
    { "seconds", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_DOUBLE, &words.seconds, N_("How long to arrange or improve, by the clock"), N_("S") },
    { "seed", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING, &words.seed, N_("Another number gives another cloth; else 1"), N_("N") },
    { "threads", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_INT, &words.threads, N_("No matter for the result; else one a processor"), N_("N") },
    { "out", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_FILENAME, &words.out, N_("The job file to write"), N_("FILE") },
    { NULL }
  };
  int status;
  g_auto(GStrv) files = odd_command_parse (arguments, entries, _("FILE"), _("Pieces panels from the free scraps and prints the figures."), &status);

  return files != NULL ? piece (files[0], &words) : status;
}
