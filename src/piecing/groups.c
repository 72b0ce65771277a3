#include "config.h"

#include "piecing/groups.h"

#include <glib/gi18n.h>

/* What a fabric's scraps say about it. */
typedef struct { gboolean has_unwashed, has_washed; } Washing;

static guint
find_fabric (const OddGroups *self,
             OddFabric       *fabric)
{
  for (guint i = 0; i < self->n; i++)
    if (self->fabrics[i] == fabric)
      return i;
  return G_MAXUINT;
}

/* --- one pair --- */

/* Along against along, across against across: which way a piece is turned is hers to choose, and a fabric turned against itself is no misfit. */
static double
shrink_difference (const OddFabric *a,
                   const OddFabric *b,
                   const Washing   *wa,
                   const Washing   *wb)
{
  const double along = (wa->has_unwashed ? a->shrink_along : 0.0) - (wb->has_unwashed ? b->shrink_along : 0.0);
  const double across = (wa->has_unwashed ? a->shrink_across : 0.0) - (wb->has_unwashed ? b->shrink_across : 0.0);

  return MAX (fabs (along), fabs (across));
}

static gboolean
is_of_unknown_shrinkage (const OddFabric *fabric,
                         const Washing   *washing)
{
  return washing->has_unwashed && fabric->shrink_along == 0.0 && fabric->shrink_across == 0.0;
}

static gboolean
bleeds_on (const OddFabric *dark,
           const OddFabric *light,
           double           light_from)
{
  return dark->bleeds == ODD_BLEED_YES && light->bleeds != ODD_BLEED_YES && odd_fabric_get_lightness (light) >= light_from;
}

static gboolean
asks_other_care (const OddFabric *a,
                 const OddFabric *b)
{
  g_autofree char *of_a = NULL;
  g_autofree char *of_b = NULL;

  if (a->care == NULL || b->care == NULL)
    return FALSE;
  of_a = g_utf8_casefold (a->care, -1);
  of_b = g_utf8_casefold (b->care, -1);
  return strcmp (g_strstrip (of_a), g_strstrip (of_b)) != 0;
}

static OddPairing
pair_fabrics (const OddSettings *limits,
              const OddFabric   *a,
              const OddFabric   *b,
              const Washing     *wa,
              const Washing     *wb)
{
  OddPairing pair = { 0 };

  if (a->gsm > 0.0 && b->gsm > 0.0)
    pair.mass_ratio = MAX (a->gsm, b->gsm) / MIN (a->gsm, b->gsm);
  pair.shrink_mm = shrink_difference (a, b, wa, wb) * limits->column_width_mm;
  if (pair.mass_ratio > limits->mass_ratio + ODD_TOLERANCE_MM)
    pair.misfits |= ODD_MISFIT_MASS;
  if (pair.shrink_mm > limits->shrink_gap_mm + ODD_TOLERANCE_MM)
    pair.misfits |= ODD_MISFIT_SHRINKAGE;
  if ((is_of_unknown_shrinkage (a, wa) && wb->has_washed && !wb->has_unwashed) || (is_of_unknown_shrinkage (b, wb) && wa->has_washed && !wa->has_unwashed))
    pair.misfits |= ODD_MISFIT_WASHED;
  if (a->make != b->make && a->make != ODD_MAKE_UNKNOWN && b->make != ODD_MAKE_UNKNOWN)
    pair.misfits |= ODD_MISFIT_MAKE;
  if (bleeds_on (a, b, limits->light_from) || bleeds_on (b, a, limits->light_from))
    pair.misfits |= ODD_MISFIT_BLEEDING;
  if (asks_other_care (a, b))
    pair.misfits |= ODD_MISFIT_CARE;
  return pair;
}

/* --- where they are laid side by side --- */

/* The part of a seam's line along which the region borders on it. */
static gboolean
along_seam (const OddPatch *patch,
            int             label,
            OddPoint        from,
            OddPoint        direction,
            double         *s,
            double         *t)
{
  for (guint i = 0; i < patch->region->n; i++)
    if (patch->region->labels[i] == label)
      {
        const OddSegment edge = odd_convex_edge (patch->region, i);
        const double a = odd_point_dot (direction, odd_point_sub (edge.from, from)), b = odd_point_dot (direction, odd_point_sub (edge.to, from));

        *s = MIN (a, b);
        *t = MAX (a, b);
        return TRUE;
      }
  return FALSE;
}

static void
add_contact (OddGroups      *self,
             const OddPatch *first,
             const OddPatch *second,
             double          mm)
{
  const guint a = find_fabric (self, first->fabric), b = find_fabric (self, second->fabric);

  if (a == G_MAXUINT || b == G_MAXUINT || mm <= 0.0)
    return;
  self->pairs[a * self->n + b].contact_mm += mm;
  if (a != b)
    self->pairs[b * self->n + a].contact_mm += mm;
}

static void
add_seam_contacts (OddGroups       *self,
                   const OddLayout *layout,
                   guint            index)
{
  const OddLaidSeam *seam = &layout->seams[index];
  const double length = odd_segment_length (seam->finished);
  OddPoint direction;

  if (length <= ODD_TOLERANCE_MM)
    return;
  direction = odd_point_scale (odd_point_sub (seam->finished.to, seam->finished.from), 1.0 / length);
  for (guint i = 0; i < seam->n_first; i++)
    for (guint k = 0; k < seam->n_second; k++)
      {
        const OddPatch *first = &layout->patches[seam->first_patch + i], *second = &layout->patches[seam->second_patch + k];
        double s0, t0, s1, t1;

        if (first->fabric != NULL && second->fabric != NULL && along_seam (first, (int) index, seam->finished.from, direction, &s0, &t0)
            && along_seam (second, (int) index, seam->finished.from, direction, &s1, &t1))
          add_contact (self, first, second, MIN (t0, t1) - MAX (s0, s1));
      }
}

static void
add_panel_contacts (OddGroups *self,
                    OddPanel  *panel)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (self->job, panel->id);

  for (guint i = 0; i < layout->n_seams; i++)
    add_seam_contacts (self, layout, i);
}

static void
add_contacts (OddGroups *self)
{
  for (guint i = 0; i < self->job->loose_panels->len; i++)
    add_panel_contacts (self, self->job->loose_panels->pdata[i]);
  for (guint t = 0; t < self->job->textiles->len; t++)
    {
      const OddTextile *textile = self->job->textiles->pdata[t];

      for (guint i = 0; i < textile->n_hung; i++)
        add_panel_contacts (self, textile->hung[i].panel);
    }
}

/* --- groups --- */

static void
count_scraps (OddGroups *self,
              Washing   *washing)
{
  for (guint i = 0; i < self->job->scraps->len; i++)
    {
      OddScrap *scrap = self->job->scraps->pdata[i];
      const OddScrapState state = odd_job_get_scrap_state (self->job, scrap->id);
      const guint at = find_fabric (self, odd_job_get_scrap_fabric (self->job, scrap));

      if (at == G_MAXUINT || state == ODD_SCRAP_GONE)
        continue;
      washing[at].has_washed |= scrap->washed;
      washing[at].has_unwashed |= !scrap->washed;
      if (state != ODD_SCRAP_FREE)
        continue;
      self->n_free[at]++;
      self->free_mm2[at] += odd_polygon_get_area (scrap->outline);
    }
}

static gboolean
mixes_with_group (const OddGroups *self,
                  guint            fabric,
                  guint            group)
{
  for (guint i = 0; i < self->n; i++)
    if (self->group[i] == group && odd_groups_pair (self, fabric, i)->misfits != 0)
      return FALSE;
  return TRUE;
}

/* Of those without a group the one with most free cloth; the first of equals. */
static guint
next_fabric (const OddGroups *self)
{
  guint best = G_MAXUINT;

  for (guint i = 0; i < self->n; i++)
    if (self->group[i] == G_MAXUINT && (best == G_MAXUINT || self->free_mm2[i] > self->free_mm2[best]))
      best = i;
  return best;
}

static void
form_groups (OddGroups *self)
{
  for (guint i = 0; i < self->n; i++)
    self->group[i] = G_MAXUINT;
  for (guint done = 0; done < self->n; done++)
    {
      const guint fabric = next_fabric (self);
      guint group = 0;

      while (group < self->n_groups && !mixes_with_group (self, fabric, group))
        group++;
      self->group[fabric] = group;
      self->n_groups = MAX (self->n_groups, group + 1);
    }
}

static void
sort_groups (OddGroups *self)
{
  g_autofree double *area = g_new0 (double, self->n_groups + 1);
  g_autofree guint *place = g_new0 (guint, self->n_groups + 1);

  for (guint i = 0; i < self->n; i++)
    area[self->group[i]] += self->free_mm2[i];
  for (guint g = 0; g < self->n_groups; g++)
    for (guint h = 0; h < self->n_groups; h++)
      place[g] += area[h] > area[g] || (area[h] == area[g] && h < g);
  for (guint i = 0; i < self->n; i++)
    self->group[i] = place[self->group[i]];
}

OddGroups *
odd_groups_new (OddJob *job)
{
  OddGroups *self = g_new0 (OddGroups, 1);
  g_autofree Washing *washing = NULL;
  const guint most = job->fabrics->len;

  self->job = odd_job_ref (job);
  self->fabrics = g_new0 (OddFabric *, most + 1);
  for (guint i = 0; i < job->scraps->len; i++)
    {
      OddFabric *fabric = odd_job_get_scrap_fabric (job, job->scraps->pdata[i]);

      if (fabric != NULL && find_fabric (self, fabric) == G_MAXUINT)
        self->fabrics[self->n++] = fabric;
    }
  self->n_free = g_new0 (guint, self->n + 1);
  self->free_mm2 = g_new0 (double, self->n + 1);
  self->pairs = g_new0 (OddPairing, self->n * self->n + 1);
  self->group = g_new0 (guint, self->n + 1);
  washing = g_new0 (Washing, self->n + 1);
  count_scraps (self, washing);
  for (guint a = 0; a < self->n; a++)
    for (guint b = 0; b < self->n; b++)
      if (a != b)
        self->pairs[a * self->n + b] = pair_fabrics (&job->settings, self->fabrics[a], self->fabrics[b], &washing[a], &washing[b]);
  add_contacts (self);
  form_groups (self);
  sort_groups (self);
  return self;
}

void
odd_groups_free (OddGroups *self)
{
  odd_job_unref (self->job);
  g_free (self->fabrics);
  g_free (self->n_free);
  g_free (self->free_mm2);
  g_free (self->pairs);
  g_free (self->group);
  g_free (self);
}

GArray *
odd_groups_dup_scraps (const OddGroups *self,
                       guint            group)
{
  GArray *ids = g_array_new (FALSE, FALSE, sizeof (OddId));

  for (guint i = 0; i < self->job->scraps->len; i++)
    {
      OddScrap *scrap = self->job->scraps->pdata[i];
      const guint at = find_fabric (self, odd_job_get_scrap_fabric (self->job, scrap));

      if (at != G_MAXUINT && self->group[at] == group && odd_job_get_scrap_state (self->job, scrap->id) == ODD_SCRAP_FREE)
        g_array_append_val (ids, scrap->id);
    }
  return ids;
}

/* --- why --- */

static void
add_sentence (GString    *text,
              const char *format,
              ...) G_GNUC_PRINTF (2, 3);

static void
add_sentence (GString    *text,
              const char *format,
              ...)
{
  va_list args;

  if (text->len > 0)
    g_string_append_c (text, ' ');
  va_start (args, format);
  g_string_append_vprintf (text, format, args);
  va_end (args);
}

static void
add_bleeding (const OddGroups *self,
              guint            a,
              guint            b,
              GString         *text)
{
  const gboolean first = bleeds_on (self->fabrics[a], self->fabrics[b], self->job->settings.light_from);
  const double contact_mm = odd_groups_pair (self, a, b)->contact_mm;
  const char *dark = self->fabrics[first ? a : b]->name;
  const char *light = self->fabrics[first ? b : a]->name;

  add_sentence (text, _("“%s” bleeds and would stain “%s”."), dark, light);
  if (contact_mm > 0.0)
    add_sentence (text, _("They already lie side by side for %.2f m."), contact_mm / 1000.0);
}

char *
odd_groups_dup_reason (const OddGroups *self,
                       guint            a,
                       guint            b)
{
  const OddSettings *limits = &self->job->settings;
  const OddPairing *pair = odd_groups_pair (self, a, b);
  const OddFabric *heavy = self->fabrics[a]->gsm >= self->fabrics[b]->gsm ? self->fabrics[a] : self->fabrics[b];
  g_autoptr(GString) text = g_string_new (NULL);

  g_return_val_if_fail (a < self->n && b < self->n, NULL);

  if (pair->misfits == 0)
    return NULL;
  if (pair->misfits & ODD_MISFIT_MASS)
    add_sentence (text, _("“%s” is %.1f times as heavy as the other; the limit is %.1f."), heavy->name, pair->mass_ratio, limits->mass_ratio);
  if (pair->misfits & ODD_MISFIT_SHRINKAGE)
    add_sentence (text, _("Over a seam of %.0f mm the wash pulls them %.1f mm apart; the limit is %.1f mm. Wash them first."),
                  limits->column_width_mm, pair->shrink_mm, limits->shrink_gap_mm);
  if (pair->misfits & ODD_MISFIT_WASHED)
    add_sentence (text, _("One is washed, the other is not and nobody knows how it shrinks. Wash it first."));
  if (pair->misfits & ODD_MISFIT_MAKE)
    add_sentence (text, _("One is woven and one is knit."));
  if (pair->misfits & ODD_MISFIT_BLEEDING)
    add_bleeding (self, a, b, text);
  if (pair->misfits & ODD_MISFIT_CARE)
    add_sentence (text, _("They ask for different care: “%s” and “%s”."), self->fabrics[a]->care, self->fabrics[b]->care);
  return g_strdup (text->str);
}
