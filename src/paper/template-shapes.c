#include "config.h"

#include "paper/template-shapes.h"

#include "paper/ticket-private.h"

#define SAME_MM 0.05
#define GRAIN_DEG 10.0

/* The same cut shape with one of the ways to share it out between cloth that is seen and allowances. */
typedef struct
{
  OddConvex *region;
  guint n;
} Region;

static void
region_clear (gpointer data)
{
  odd_convex_unref (((Region *) data)->region);
}

static void
template_free (gpointer data)
{
  OddTemplate *self = data;

  odd_convex_unref (self->cut);
  g_clear_pointer (&self->region, odd_convex_unref);
  g_array_unref (self->regions);
  g_free (self->letter);
  g_free (self->patches);
  g_free (self);
}

/* --- shapes --- */

static OddConvex *
move_to_origin (OddConvex *convex, OddBox box)
{
  return odd_convex_shift (convex, odd_point (-box.x, -box.y));
}

static OddConvex *
turn_half (OddConvex *convex, OddBox box)
{
  const OddPlacement half = { 180.0, FALSE, { box.width, box.height } };

  return odd_convex_place (convex, &half);
}

/* A shape is the same when its panel hangs the other way up. */
static gboolean
is_same (const OddTemplate *self, OddConvex *cut, gboolean *out_turned)
{
  const OddBox box = odd_convex_box (cut);
  g_autoptr(OddConvex) turned = turn_half (cut, box);

  *out_turned = !odd_convex_equal (self->cut, cut, SAME_MM);
  return !*out_turned || odd_convex_equal (self->cut, turned, SAME_MM);
}

static void
count_region (OddTemplate *self, OddConvex *region)
{
  const Region other = { region, 1 };

  for (guint i = 0; i < self->regions->len; i++)
    {
      Region *one = &g_array_index (self->regions, Region, i);

      if (!odd_convex_equal (one->region, region, SAME_MM))
        continue;
      one->n++;
      return;
    }
  odd_convex_ref (region);
  g_array_append_val (self->regions, other);
}

static void
choose_region (OddTemplate *self)
{
  const Region *most = &g_array_index (self->regions, Region, 0);

  for (guint i = 1; i < self->regions->len; i++)
    if (g_array_index (self->regions, Region, i).n > most->n)
      most = &g_array_index (self->regions, Region, i);
  self->region = odd_convex_ref (most->region);
  self->one_region = self->regions->len == 1;
}

/* --- grain --- */

static double
fold_angle (double deg)
{
  const double folded = fmod (deg, 180.0);

  return folded < 0.0 ? folded + 180.0 : folded;
}

static double
angle_between (double a, double b)
{
  const double apart = fold_angle (a - b);

  return MIN (apart, 180.0 - apart);
}

static double
get_grain (const OddPatch *patch)
{
  if (patch->scrap == NULL || patch->piece != NULL)
    return NAN;
  return fold_angle (odd_placement_apply_angle (&patch->placement, patch->scrap->grain_deg));
}

/* --- collecting --- */

static OddTemplate *
create_template (GPtrArray *templates, const OddPatch *patch, OddConvex *cut)
{
  OddTemplate *self = g_new0 (OddTemplate, 1);
  const double grain_deg = get_grain (patch);

  self->cut = odd_convex_ref (cut);
  self->regions = g_array_new (FALSE, FALSE, sizeof (Region));
  g_array_set_clear_func (self->regions, region_clear);
  self->patches = g_strdup ("");
  self->one_grain = !isnan (grain_deg);
  self->grain_deg = self->one_grain ? grain_deg : 90.0;
  g_ptr_array_add (templates, self);
  return self;
}

static OddTemplate *
find_template (GPtrArray *templates, const OddPatch *patch)
{
  const OddBox box = odd_convex_box (patch->cut);
  g_autoptr(OddConvex) cut = move_to_origin (patch->cut, box);
  g_autoptr(OddConvex) region = move_to_origin (patch->region, box);
  OddTemplate *new_one;

  for (guint i = 0; i < templates->len; i++)
    {
      OddTemplate *self = templates->pdata[i];
      g_autoptr(OddConvex) here = NULL;
      gboolean turned;

      if (!is_same (self, cut, &turned))
        continue;
      here = turned ? turn_half (region, box) : odd_convex_ref (region);
      count_region (self, here);
      self->one_grain = self->one_grain && !isnan (get_grain (patch)) && angle_between (get_grain (patch), self->grain_deg) <= GRAIN_DEG;
      return self;
    }
  new_one = create_template (templates, patch, cut);
  count_region (new_one, region);
  return new_one;
}

static void
append_run (GString *text, guint from, guint to)
{
  if (text->len > 0)
    g_string_append (text, ", ");
  if (to > from + 1)
    g_string_append_printf (text, "%u–%u", from, to);
  else if (to > from)
    g_string_append_printf (text, "%u, %u", from, to);
  else
    g_string_append_printf (text, "%u", from);
}

/* "1–12, 15" */
static char *
describe_numbers (const GArray *numbers)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0, from = 0; i < numbers->len; i++)
    {
      const guint number = g_array_index (numbers, guint, i);

      if (i + 1 < numbers->len && g_array_index (numbers, guint, i + 1) == number + 1)
        continue;
      append_run (text, g_array_index (numbers, guint, from), number);
      from = i + 1;
    }
  return g_string_free (text, FALSE);
}

static void
append_patches (OddTemplate *self, const char *panel, const GArray *numbers)
{
  g_autofree char *before = g_steal_pointer (&self->patches);
  g_autofree char *told = describe_numbers (numbers);

  self->patches = g_strdup_printf ("%s%s%s %s", before, before[0] != '\0' ? "; " : "", panel, told);
  self->n_patches += numbers->len;
}

static void
collect_panel (GPtrArray *templates, const OddLayout *layout, const char *panel)
{
  g_autofree OddTemplate **found = g_new (OddTemplate *, layout->n_patches);

  for (guint i = 0; i < layout->n_patches; i++)
    found[i] = find_template (templates, &layout->patches[i]);
  for (guint t = 0; t < templates->len; t++)
    {
      g_autoptr(GArray) numbers = g_array_new (FALSE, FALSE, sizeof (guint));

      for (guint i = 0; i < layout->n_patches; i++)
        if (found[i] == templates->pdata[t])
          g_array_append_val (numbers, layout->patches[i].number);
      if (numbers->len > 0)
        append_patches (templates->pdata[t], panel, numbers);
    }
}

static void
collect_all (OddJob *job, GPtrArray *templates)
{
  for (guint t = 0; t < job->textiles->len + 1; t++)
    {
      const OddTextile *textile = t < job->textiles->len ? job->textiles->pdata[t] : NULL;
      const guint n = textile != NULL ? textile->n_hung : job->loose_panels->len;

      for (guint i = 0; i < n; i++)
        {
          OddPanel *panel = textile != NULL ? textile->hung[i].panel : job->loose_panels->pdata[i];
          g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel->id);
          g_autofree char *name = odd_job_dup_panel_name (job, panel);

          collect_panel (templates, layout, name);
        }
    }
}

static gboolean
is_chosen (const OddTemplate *self, OddTemplateChoice choice)
{
  return choice == ODD_TEMPLATES_ALL || self->n_patches > 1 || (choice == ODD_TEMPLATES_RECTANGLES && odd_cut_shape_is_rectangle (self->cut));
}

/* A, B ... Z, AA, AB ... */
static char *
dup_letter (guint i)
{
  char letters[8];
  guint at = G_N_ELEMENTS (letters) - 1;

  letters[at] = '\0';
  for (guint rest = i + 1; rest > 0; rest = (rest - 1) / 26)
    letters[--at] = 'A' + (rest - 1) % 26;
  return g_strdup (&letters[at]);
}

GPtrArray *
odd_job_dup_templates (OddJob *job, OddTemplateChoice choice)
{
  GPtrArray *templates;

  g_return_val_if_fail (job != NULL, NULL);

  templates = g_ptr_array_new_with_free_func (template_free);
  collect_all (job, templates);
  for (guint i = templates->len; i-- > 0; )
    if (!is_chosen (templates->pdata[i], choice))
      g_ptr_array_remove_index (templates, i);
  for (guint i = 0; i < templates->len; i++)
    {
      OddTemplate *one = templates->pdata[i];

      one->letter = dup_letter (i);
      choose_region (one);
    }
  return templates;
}

/* --- asking --- */

double
odd_template_get_allowance (const OddTemplate *self, guint edge)
{
  g_return_val_if_fail (self != NULL && edge < self->cut->n, NAN);

  for (guint i = 0; i < self->region->n; i++)
    if (self->region->labels[i] == self->cut->labels[edge])
      return -odd_half_plane_distance (odd_convex_edge_half_plane (self->cut, edge), self->region->points[i]);
  return NAN;
}

void
odd_template_turn (OddTemplate *self)
{
  const OddBox box = odd_convex_box (self->cut);
  const OddPlacement quarter = { self->turned ? -90.0 : 90.0, FALSE, self->turned ? odd_point (0.0, box.width) : odd_point (box.height, 0.0) };
  g_autoptr(OddConvex) cut = g_steal_pointer (&self->cut);
  g_autoptr(OddConvex) region = g_steal_pointer (&self->region);

  self->cut = odd_convex_place (cut, &quarter);
  self->region = odd_convex_place (region, &quarter);
  self->grain_deg = fold_angle (self->grain_deg + 90.0);
  self->turned = !self->turned;
}
