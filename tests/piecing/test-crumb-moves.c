/* Crumbs from inside: what moves, kept or undone, leave behind. */
#include "config.h"

#include "piecing/arrange.h"
#include "piecing/crumbs-private.h"
#include "bench/tub-of-fabrics.h"
#include "tub.h"

typedef struct
{
  OddJob *job;
  OddFields *fields;
  OddSources *sources;
  OddStock *stock;
  OddCrumbRules rules;
  float *contacts;
  double wanted[101];
} Setting;

/* Two panels that hang beside one another, in the second of them a part that is locked. */
static void
set_up (Setting *self,
        guint    seed,
        double   scale_mm)
{
  OddProposalOptions options;
  g_autoptr(OddProposal) first = NULL;
  g_autoptr(OddLayout) layout = NULL;

  self->job = tub_of_fabrics (160, seed);
  odd_proposal_options_init (&options, self->job, ODD_PIECE_CRUMBS);
  options.width_mm = 240.0;
  options.length_mm = 500.0;
  options.n_panels = 2;
  options.seed = seed;
  first = odd_propose (self->job, &options, NULL, NULL, NULL, NULL);
  layout = odd_job_dup_layout (first->job, g_array_index (first->panels, OddId, 1));
  odd_job_unref (self->job);
  self->job = odd_job_set_lock (first->job, layout->patches[layout->n_patches / 2].leaf->id, TRUE, NULL);
  self->fields = odd_fields_new (self->job, (const OddId *) first->panels->data, first->panels->len, NULL, 0, TRUE, NULL);
  g_assert_cmpuint (self->fields->kept->len, >, 0);
  self->sources = odd_sources_new_freed (self->job, self->fields->job, &options);
  self->stock = odd_stock_new (self->sources, self->job->settings.usable_square_mm, 1, NULL, NULL);
  self->contacts = odd_contact_costs (self->sources);
  for (guint i = 0; i < 101; i++)
    self->wanted[i] = 55.0;
  self->rules = (OddCrumbRules) { .smallest_mm = 30.0, .shortest_mm = 21.0, .scale_mm = scale_mm, .mix = 0.6, .tilt_deg = 18.0, .sharpest_cos = 0.788,
                                  .contacts = self->contacts, .wanted = self->wanted, .length_mm = 500.0 };
}

static void
setting_clear (Setting *self)
{
  g_free (self->contacts);
  odd_stock_free (self->stock);
  odd_sources_free (self->sources);
  odd_fields_free (self->fields);
  odd_job_unref (self->job);
}

/* The next that is found and meets the box. */
static guint
next_found (const OddCrumbs *crumbs,
            const GArray    *found,
            guint           *at,
            OddBox           box)
{
  while (*at < found->len)
    {
      const guint id = g_array_index (found, guint, (*at)++);
      const OddBox its = id >= ODD_KEPT_FROM ? g_array_index (crumbs->fields->kept, OddKept, id - ODD_KEPT_FROM).box : odd_crumbs_node (crumbs, id)->box;

      if (odd_box_meets (box, its))
        return id;
    }

  return G_MAXUINT;
}

/* Leaf by leaf, what the grid finds near is what a walk over everything finds, in its order. */
static void
assert_grid_is_walk (const OddCrumbs *crumbs)
{
  for (guint at = 0; at < crumbs->nodes->len; at++)
    {
      const OddBox box = odd_box_grow (odd_crumbs_node (crumbs, at)->box, 0.01);
      const GArray *found;
      guint next = 0;

      if (!odd_crumb_is_leaf (odd_crumbs_node (crumbs, at)))
        continue;
      found = odd_crumbs_find_near (crumbs, box);
      for (guint i = 0; i < crumbs->nodes->len; i++)
        if (odd_crumb_is_leaf (odd_crumbs_node (crumbs, i)) && odd_box_meets (box, odd_crumbs_node (crumbs, i)->box))
          g_assert_cmpuint (next_found (crumbs, found, &next, box), ==, i);
      for (guint i = 0; i < crumbs->fields->kept->len; i++)
        if (odd_box_meets (box, g_array_index (crumbs->fields->kept, OddKept, i).box))
          g_assert_cmpuint (next_found (crumbs, found, &next, box), ==, ODD_KEPT_FROM + i);
      g_assert_cmpuint (next_found (crumbs, found, &next, box), ==, G_MAXUINT);
    }
}

static void
test_grid (void)
{
  for (guint seed = 1; seed <= 3; seed++)
    {
      OddRandom random = { seed };
      Setting setting;
      OddCrumbs *crumbs, *copy;
      guint bare;

      set_up (&setting, seed, 30.0 * seed + 10.0);
      crumbs = odd_crumbs_new (setting.fields, setting.stock, &setting.rules);
      if (seed == 2)
        odd_crumbs_take_over (crumbs, NULL);
      else
        odd_crumbs_fill (crumbs, INFINITY, &random, NULL);
      g_assert_cmpuint (odd_crumbs_count_leaves (crumbs, &bare), >, 20);
      assert_grid_is_walk (crumbs);
      for (guint i = 0; i < 600; i++)
        {
          odd_crumbs_move (crumbs, i % 2 == 0 ? 5000.0 : 50.0, &random);
          if (i % 5 == 0)
            assert_grid_is_walk (crumbs);
        }
      copy = odd_crumbs_copy (crumbs);
      for (guint i = 0; i < 100; i++)
        odd_crumbs_move (copy, 1000.0, &random);
      assert_grid_is_walk (copy);
      for (guint i = 0; i < copy->nodes->len; i += 2)
        if (odd_crumb_is_leaf (odd_crumbs_node (copy, i)))
          odd_crumbs_node (copy, i)->scrap = ODD_NO_SCRAP;
      odd_crumbs_join_bare (copy);
      assert_grid_is_walk (copy);
      assert_grid_is_walk (crumbs);
      odd_crumbs_free (copy);
      odd_crumbs_free (crumbs);
      setting_clear (&setting);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/crumb-moves/grid", test_grid);

  return g_test_run ();
}
