/* Which fabrics can live in one cloth: each limit by hand, groups, and where they touch. */
#include "config.h"

#include "piecing/groups.h"
#include "tub.h"

#include <string.h>

typedef struct
{
  const char *name;
  double gsm, shrink;
  OddMake make;
  OddBleed bleeds;
  double lightness;
  const char *care;
  gboolean washed;
  double side_mm;               /* of its one scrap, square */
} Cloth;

static OddJob *
job_of (const Cloth *cloths,
        guint        n)
{
  OddJob *job = odd_job_new ();

  for (guint i = 0; i < n; i++)
    {
      const double side = cloths[i].side_mm;
      g_autoptr(OddPolygon) outline = odd_polygon_new_box ((OddBox) { 0, 0, side, side });
      OddFabric fabric;
      OddScrap scrap;
      OddJob *next;
      OddId id;

      odd_fabric_init_values (&fabric);
      fabric.name = (char *) cloths[i].name;
      fabric.gsm = cloths[i].gsm;
      fabric.shrink_along = cloths[i].shrink;
      fabric.make = cloths[i].make;
      fabric.bleeds = cloths[i].bleeds;
      fabric.lightness = cloths[i].lightness;
      fabric.care = (char *) cloths[i].care;
      next = odd_job_put_fabric (job, &fabric, &id, NULL);
      g_assert_nonnull (next);
      odd_job_unref (job);
      job = next;
      odd_scrap_init_values (&scrap);
      scrap.outline = outline;
      scrap.washed = cloths[i].washed;
      scrap.fabric_id = id;
      next = odd_job_put_scrap (job, &scrap, NULL, NULL);
      g_assert_nonnull (next);
      odd_job_unref (job);
      job = next;
    }

  return job;
}

static void
assert_says (const OddGroups *groups,
             const char      *word)
{
  g_autofree char *one = odd_groups_dup_reason (groups, 0, 1);
  g_autofree char *other = odd_groups_dup_reason (groups, 1, 0);

  g_assert_nonnull (one);
  g_assert_nonnull (other);
  if (strstr (one, word) == NULL || strstr (other, word) == NULL)
    g_error ("“%s” does not say “%s”", one, word);
}

static void
assert_pair (Cloth       a,
             Cloth       b,
             guint       misfits,
             const char *word)
{
  const Cloth both[2] = { a, b };
  g_autoptr(OddJob) job = job_of (both, 2);
  g_autoptr(OddGroups) groups = odd_groups_new (job);

  g_assert_cmpuint (groups->n, ==, 2);
  g_assert_cmphex (odd_groups_pair (groups, 0, 1)->misfits, ==, misfits);
  g_assert_cmphex (odd_groups_pair (groups, 1, 0)->misfits, ==, misfits);
  g_assert_cmpuint (groups->n_groups, ==, misfits == 0 ? 1 : 2);
  if (misfits != 0)
    assert_says (groups, word);
  else
    g_assert_null (odd_groups_dup_reason (groups, 0, 1));
}

static const Cloth LAWN = { "Lawn", 80.0, 0.0, ODD_MAKE_WOVEN, ODD_BLEED_NO, 90.0, NULL, TRUE, 100.0 };

/* Column width 240: a difference in shrinkage of 2 % is 4.8 mm, within the limit of 5; 2.5 % is 6 mm. */
static void
test_limits (void)
{
  Cloth other = LAWN;

  other.name = "Other";
  other.gsm = 160.0;
  assert_pair (LAWN, other, 0, NULL);
  other.gsm = 200.0;
  assert_pair (LAWN, other, ODD_MISFIT_MASS, "2.5 times");
  other = LAWN;
  other.name = "Other";
  other.gsm = 0.0;                                    /* unknown is no reason */
  assert_pair (LAWN, other, 0, NULL);
  other.washed = FALSE;
  other.shrink = 0.02;
  assert_pair (LAWN, other, 0, NULL);
  other.shrink = 0.025;
  assert_pair (LAWN, other, ODD_MISFIT_SHRINKAGE, "6.0 mm");
  other.washed = TRUE;                                /* what is washed has shrunk */
  assert_pair (LAWN, other, 0, NULL);
  other.washed = FALSE;
  other.shrink = 0.0;
  assert_pair (LAWN, other, ODD_MISFIT_WASHED, "Wash it first");
  other.washed = TRUE;
  other.make = ODD_MAKE_KNIT;
  assert_pair (LAWN, other, ODD_MISFIT_MAKE, "knit");
  other.make = ODD_MAKE_UNKNOWN;
  assert_pair (LAWN, other, 0, NULL);
  other.bleeds = ODD_BLEED_YES;
  assert_pair (LAWN, other, ODD_MISFIT_BLEEDING, "would stain “Lawn”");
  other = LAWN;
  other.name = "Other";
  other.care = "hand wash";
  assert_pair (LAWN, other, 0, NULL);
}

static void
test_care (void)
{
  Cloth one = LAWN, other = LAWN;

  one.care = "Machine wash 30 °C";
  other.care = " machine WASH 30 °C";
  assert_pair (one, other, 0, NULL);
  other.care = "Hand wash";
  assert_pair (one, other, ODD_MISFIT_CARE, "different care");
}

/* Two lights, two heavies and one between that mixes with all: it goes with the larger. The knit is alone. */
static void
test_groups (void)
{
  const Cloth cloths[] = {
    { "Light 1", 60.0, 0.0, ODD_MAKE_WOVEN, ODD_BLEED_NO, 90.0, NULL, TRUE, 100.0 },
    { "Heavy 1", 200.0, 0.0, ODD_MAKE_WOVEN, ODD_BLEED_NO, 90.0, NULL, TRUE, 300.0 },
    { "Between", 110.0, 0.0, ODD_MAKE_WOVEN, ODD_BLEED_NO, 90.0, NULL, TRUE, 50.0 },
    { "Heavy 2", 220.0, 0.0, ODD_MAKE_WOVEN, ODD_BLEED_NO, 90.0, NULL, TRUE, 200.0 },
    { "Knit", 110.0, 0.0, ODD_MAKE_KNIT, ODD_BLEED_NO, 90.0, NULL, TRUE, 90.0 },
    { "Light 2", 70.0, 0.0, ODD_MAKE_WOVEN, ODD_BLEED_NO, 90.0, NULL, TRUE, 100.0 },
  };
  g_autoptr(OddJob) job = job_of (cloths, G_N_ELEMENTS (cloths));
  g_autoptr(OddGroups) groups = odd_groups_new (job);
  g_autoptr(GArray) heavy = odd_groups_dup_scraps (groups, 0);

  g_assert_cmpuint (groups->n_groups, ==, 3);
  g_assert_cmpuint (groups->group[1], ==, 0);
  g_assert_cmpuint (groups->group[3], ==, 0);
  g_assert_cmpuint (groups->group[2], ==, 0);
  g_assert_cmpuint (groups->group[0], ==, 1);
  g_assert_cmpuint (groups->group[5], ==, 1);
  g_assert_cmpuint (groups->group[4], ==, 2);
  g_assert_cmpuint (heavy->len, ==, 3);
  for (guint a = 0; a < groups->n; a++)
    for (guint b = 0; b < groups->n; b++)
      if (groups->group[a] == groups->group[b])
        g_assert_cmpuint (odd_groups_pair (groups, a, b)->misfits, ==, 0);
}

/* A limit is a setting of the job. */
static void
test_settings (void)
{
  const Cloth cloths[] = { LAWN, { "Drill", 240.0, 0.0, ODD_MAKE_WOVEN, ODD_BLEED_NO, 40.0, NULL, TRUE, 100.0 } };
  g_autoptr(OddJob) job = job_of (cloths, 2);
  OddSettings settings = job->settings;
  g_autoptr(OddJob) wider = NULL;
  g_autoptr(OddGroups) groups = NULL;

  settings.mass_ratio = 3.0;
  wider = odd_job_set_settings (job, &settings, NULL);
  g_assert_nonnull (wider);
  groups = odd_groups_new (wider);
  g_assert_cmpuint (groups->n_groups, ==, 1);
  settings.mass_ratio = 0.5;
  g_assert_null (odd_job_set_settings (job, &settings, NULL));
}

/* Two patches of 100 side by side in a panel of 200 x 150: they touch along 150. */
static void
test_contact (void)
{
  Cloth cloths[2] = { LAWN, LAWN };
  g_autoptr(OddJob) job = NULL;
  g_autoptr(OddJob) filled = NULL;
  g_autoptr(OddGroups) groups = NULL;
  OddId panel, leaf, seam;

  cloths[1].name = "Red";
  cloths[1].bleeds = ODD_BLEED_YES;
  cloths[0].side_mm = cloths[1].side_mm = 400.0;
  job = job_of (cloths, 2);
  panel = tub_add_panel (&job, 200.0, 150.0);
  leaf = odd_job_get_panel (job, panel, NULL, NULL)->root->id;
  seam = job->next_id;
  {
    const OddPlacement at = { 0.0, FALSE, { -100.0, -100.0 } };
    g_autoptr(OddNode) left = odd_node_new_patch (leaf, ((OddScrap *) job->scraps->pdata[0])->id, &at);
    g_autoptr(OddNode) right = odd_node_new_patch (seam + 2, ((OddScrap *) job->scraps->pdata[1])->id, &at);
    OddNode *const parts[2] = { left, right };
    g_autoptr(OddNode) row = NULL;
    OddSeam line;

    odd_seam_init (&line, seam, (OddHalfPlane) { { 1, 0 }, 100 });
    row = odd_node_new_strip (seam + 1, parts, &line, 2);
    filled = odd_job_replace_leaf (job, leaf, row, seam + 3, NULL);
  }
  g_assert_nonnull (filled);
  groups = odd_groups_new (filled);
  g_assert_cmpfloat_with_epsilon (odd_groups_pair (groups, 0, 1)->contact_mm, 150.0, 1e-6);
  assert_says (groups, "side by side for 0.15 m");
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/groups/limits", test_limits);
  g_test_add_func ("/groups/care", test_care);
  g_test_add_func ("/groups/groups", test_groups);
  g_test_add_func ("/groups/settings", test_settings);
  g_test_add_func ("/groups/contact", test_contact);

  return g_test_run ();
}
