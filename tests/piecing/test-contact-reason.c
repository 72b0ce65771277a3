/* Why neighbours are of one fabric: by hand, and never "it cannot be" where a search through all there is finds a way. */
#include "config.h"

#include "piecing/contact-reason.h"
#include "piecing/proposal.h"
#include "piecing/random.h"
#include "tub.h"

#include <string.h>

#define MOST_PLACES 12
#define MOST_FABRICS 3

/* --- cases --- */

typedef struct
{
  OddContacts contacts;
  OddPair pairs[MOST_PLACES * MOST_PLACES];
  guint fabrics[MOST_PLACES];
  guint8 beside[MOST_PLACES * MOST_FABRICS], could[MOST_PLACES * MOST_FABRICS];
  guint most[MOST_FABRICS];
} Case;

/* Everything goes everywhere, without end. */
static void
case_init (Case *self,
           guint n,
           guint n_fabrics)
{
  memset (self, 0, sizeof *self);
  memset (self->could, TRUE, sizeof self->could);
  for (guint f = 0; f < n_fabrics; f++)
    self->most[f] = n;
  self->contacts = (OddContacts) { n, self->fabrics, self->pairs, 0, n_fabrics, self->beside, self->could, self->most };
}

static void
add_pair (Case *self,
          guint a,
          guint b)
{
  self->pairs[self->contacts.n_pairs++] = (OddPair) { a, b };
}

static void
make_grid (Case *self,
           guint across,
           guint down,
           guint n_fabrics)
{
  case_init (self, across * down, n_fabrics);
  for (guint i = 0; i < across * down; i++)
    {
      if (i % across + 1 < across)
        add_pair (self, i, i + 1);
      if (i + across < across * down)
        add_pair (self, i, i + across);
    }
}

/* Six of nine squares: in three by three five lie apart, on one colour of a chequerboard. */
static void
test_count (void)
{
  Case grid;
  OddContactReason reason;

  make_grid (&grid, 3, 3, 2);
  for (guint i = 0; i < 3; i++)
    grid.fabrics[i] = 1;
  reason = odd_contact_reason_find (&grid.contacts);
  g_assert_cmpint (reason.kind, ==, ODD_CONTACT_COUNT);
  g_assert_cmpuint (reason.fabric, ==, 0);
  g_assert_cmpuint (reason.n_of, ==, 6);
  g_assert_cmpuint (reason.n_apart, ==, 5);

  /* and with five of them nothing is proven, though they were laid badly */
  grid.fabrics[3] = 1;
  reason = odd_contact_reason_find (&grid.contacts);
  g_assert_cmpint (reason.kind, ==, ODD_CONTACT_NOT_PROVEN);

  /* a bar with three below it, three times: nine of twelve lie apart, so three quarters of one fabric prove nothing */
  case_init (&grid, 12, 2);
  for (guint row = 0; row < 3; row++)
    for (guint k = 1; k < 4; k++)
      {
        add_pair (&grid, 4 * row, 4 * row + k);
        if (row > 0)
          add_pair (&grid, 4 * row - k, 4 * row);
      }
  grid.fabrics[0] = grid.fabrics[4] = 1;
  grid.fabrics[9] = 1;
  reason = odd_contact_reason_find (&grid.contacts);
  g_assert_cmpint (reason.kind, ==, ODD_CONTACT_NOT_PROVEN);
}

/* Four of six places are left to the one fabric, where three lie apart. */
static void
test_supply (void)
{
  Case grid;
  OddContactReason reason;

  make_grid (&grid, 2, 3, 2);
  grid.fabrics[0] = grid.fabrics[3] = 1;
  grid.most[1] = 2;
  reason = odd_contact_reason_find (&grid.contacts);
  g_assert_cmpint (reason.kind, ==, ODD_CONTACT_SUPPLY);
  g_assert_cmpuint (reason.n_must, ==, 4);
  g_assert_cmpuint (reason.n_apart, ==, 3);
  grid.most[1] = 3;
  reason = odd_contact_reason_find (&grid.contacts);
  g_assert_cmpint (reason.kind, ==, ODD_CONTACT_COUNT);
}

/* Locked patches on both sides, of the two fabrics that are large enough. */
static void
test_place (void)
{
  Case row;
  OddContactReason reason;

  case_init (&row, 1, 3);
  row.beside[0] = row.beside[1] = TRUE;
  row.could[2] = FALSE;
  reason = odd_contact_reason_find (&row.contacts);
  g_assert_cmpint (reason.kind, ==, ODD_CONTACT_PLACE);
  /* a third could lie there: only what lies there now is one too many */
  row.could[2] = TRUE;
  reason = odd_contact_reason_find (&row.contacts);
  g_assert_cmpint (reason.kind, ==, ODD_CONTACT_COUNT);
  g_assert_cmpuint (reason.n_apart, ==, 0);
}

static void
test_pair (void)
{
  Case row;
  OddContactReason reason;

  case_init (&row, 3, 2);
  add_pair (&row, 0, 1);
  add_pair (&row, 1, 2);
  row.fabrics[0] = 1;
  row.could[1 * 2 + 1] = row.could[2 * 2 + 1] = FALSE;
  reason = odd_contact_reason_find (&row.contacts);
  g_assert_cmpint (reason.kind, ==, ODD_CONTACT_PAIR);
  g_assert_cmpuint (reason.fabric, ==, 0);
  g_assert_cmpuint (reason.places[0], ==, 1);
  g_assert_cmpuint (reason.places[1], ==, 2);
}

/* --- against all there is --- */

/* Rows of one to four cells, as columns have them; seams of neighbouring rows at random. */
static void
make_rows (Case      *self,
           OddRandom *random)
{
  guint starts[4] = { 0 }, n = 0, n_rows = 1 + odd_random_below (random, 3);
  double ends[4][4];
  Case empty;

  for (guint r = 0; r < n_rows; r++)
    {
      const guint cells = 1 + odd_random_below (random, 3);
      double x = 0.0;

      for (guint c = 0; c < cells; c++)
        ends[r][c] = x += odd_random_range (random, 1.0, 3.0);
      for (guint c = 0; c < cells; c++)
        ends[r][c] /= x;
      starts[r] = n;
      n += cells;
      starts[r + 1] = n;
    }
  case_init (&empty, n, MOST_FABRICS);
  *self = empty;
  case_init (self, n, MOST_FABRICS);
  for (guint r = 0; r < n_rows; r++)
    for (guint c = starts[r]; c < starts[r + 1]; c++)
      {
        const double from = c == starts[r] ? 0.0 : ends[r][c - starts[r] - 1];

        if (c + 1 < starts[r + 1])
          add_pair (self, c, c + 1);
        for (guint k = starts[r + 1]; r + 1 < n_rows && k < starts[r + 2]; k++)
          if ((k == starts[r + 1] ? 0.0 : ends[r + 1][k - starts[r + 1] - 1]) < ends[r][c - starts[r]] && ends[r + 1][k - starts[r + 1]] > from)
            add_pair (self, c, k);
      }
}

static gboolean
is_within (const Case  *self,
           const guint *fabrics)
{
  guint n_of[MOST_FABRICS] = { 0 };

  for (guint i = 0; i < self->contacts.n; i++)
    if (!self->could[i * MOST_FABRICS + fabrics[i]] || ++n_of[fabrics[i]] > self->most[fabrics[i]])
      return FALSE;
  return TRUE;
}

/* Of @fabric, or of any where it is G_MAXUINT. */
static gboolean
touches (const Case  *self,
         const guint *fabrics,
         guint        fabric)
{
  for (guint i = 0; i < self->contacts.n; i++)
    if ((fabric == G_MAXUINT || fabrics[i] == fabric) && self->beside[i * MOST_FABRICS + fabrics[i]])
      return TRUE;
  for (guint i = 0; i < self->contacts.n_pairs; i++)
    if (fabrics[self->pairs[i].a] == fabrics[self->pairs[i].b] && (fabric == G_MAXUINT || fabrics[self->pairs[i].a] == fabric))
      return TRUE;
  return FALSE;
}

/* The next of all ways to fill the places; FALSE after the last. */
static gboolean
next (guint *fabrics,
      guint  n)
{
  for (guint i = 0; i < n; i++)
    {
      if (++fabrics[i] < MOST_FABRICS)
        return TRUE;
      fabrics[i] = 0;
    }
  return FALSE;
}

/* A way to fill the places that the reason says there is none of. */
static gboolean
is_refuted (const Case             *self,
            const OddContactReason *reason)
{
  guint fabrics[MOST_PLACES] = { 0 };

  do
    {
      guint n_of = 0;

      for (guint i = 0; i < self->contacts.n; i++)
        n_of += fabrics[i] == reason->fabric;
      if (!is_within (self, fabrics))
        continue;
      if (reason->kind == ODD_CONTACT_COUNT ? n_of == reason->n_of && !touches (self, fabrics, reason->fabric) : !touches (self, fabrics, G_MAXUINT))
        return TRUE;
    }
  while (next (fabrics, self->contacts.n));

  return FALSE;
}

static void
limit_cloth (Case      *self,
             OddRandom *random)
{
  const double share = odd_random_range (random, 0.4, 1.0);

  for (guint i = 0; i < self->contacts.n * MOST_FABRICS; i++)
    {
      self->could[i] = odd_random_unit (random) < share;
      self->beside[i] = odd_random_unit (random) < 0.1;
    }
  for (guint f = 0; f < MOST_FABRICS; f++)
    self->most[f] = 1 + odd_random_below (random, self->contacts.n + 1);
}

static void
test_exhaustive (void)
{
  OddRandom random = odd_random_stream (20, 0);
  guint said[ODD_CONTACT_COUNT + 1] = { 0 };

  for (guint round = 0; round < 30000; round++)
    {
      Case one;
      OddContactReason reason;

      make_rows (&one, &random);
      limit_cloth (&one, &random);
      for (guint i = 0; i < one.contacts.n; i++)
        one.fabrics[i] = odd_random_below (&random, MOST_FABRICS);
      if (!is_within (&one, one.fabrics) || !touches (&one, one.fabrics, G_MAXUINT))
        continue;
      reason = odd_contact_reason_find (&one.contacts);
      said[reason.kind]++;
      if (reason.kind != ODD_CONTACT_NOT_PROVEN && is_refuted (&one, &reason))
        g_error ("round %u: there is a way, though the reason is of kind %d", round, reason.kind);
    }
  for (guint k = 0; k <= ODD_CONTACT_COUNT; k++)
    {
      g_test_message ("kind %u: %u times", k, said[k]);
      g_assert_cmpuint (said[k], >, 10);
    }
}

/* --- from a tub --- */

static OddId
add_fabric (OddJob    **job,
            const char *name)
{
  OddFabric values;
  OddId id;
  OddJob *with;

  odd_fabric_init_values (&values);
  values.name = (char *) name;
  with = odd_job_put_fabric (*job, &values, &id, NULL);
  g_assert_nonnull (with);
  odd_job_unref (*job);
  *job = with;
  return id;
}

static void
add_scraps (OddJob **job,
            OddId    fabric_id,
            guint    n,
            double   side_mm)
{
  const OddPoint points[4] = { { 0, 0 }, { side_mm, 0 }, { side_mm, side_mm }, { 0, side_mm } };
  g_autoptr(OddPolygon) outline = odd_polygon_new (points, 4, NULL);
  OddScrap values;

  odd_scrap_init_values (&values);
  values.outline = outline;
  values.washed = TRUE;
  values.fabric_id = fabric_id;
  for (guint i = 0; i < n; i++)
    {
      OddJob *with = odd_job_put_scrap (*job, &values, NULL, NULL);

      g_assert_nonnull (with);
      odd_job_unref (*job);
      *job = with;
    }
}

/* Squares cut 100 mm at 10 mm: @n_across x @n_down of them. */
static OddProposal *
propose_grid (OddJob         *job,
              guint           n_across,
              guint           n_down,
              const OddShare *share)
{
  OddProposalOptions options;
  OddProposal *proposal;
  g_autoptr(GError) error = NULL;

  odd_proposal_options_init (&options, job, ODD_PIECE_SQUARES);
  options.width_mm = 80.0 * n_across;
  options.length_mm = 80.0 * n_down;
  options.shares = share;
  options.n_shares = share != NULL;
  proposal = odd_propose (job, &options, NULL, NULL, NULL, &error);
  g_assert_no_error (error);
  return proposal;
}

static void
assert_says (const OddProposal *proposal,
             const char        *words)
{
  g_assert_nonnull (proposal->remark);
  if (strstr (proposal->remark, words) == NULL)
    g_error ("“%s” does not say “%s”", proposal->remark, words);
}

/* One fabric; one and too little of another; enough of both, but most of one wished for. */
static void
test_from_a_tub (void)
{
  OddJob *job = odd_job_new ();
  const OddId rust = add_fabric (&job, "Rust");
  const OddId moss = add_fabric (&job, "Moss");
  const OddShare much_rust = { rust, 1.0, 0.67 };
  OddProposal *proposal;

  add_scraps (&job, rust, 9, 105.0);
  proposal = propose_grid (job, 3, 3, NULL);
  assert_says (proposal, "All that could be drawn from for these patches is “Rust”");
  odd_proposal_free (proposal);

  add_scraps (&job, moss, 2, 105.0);
  proposal = propose_grid (job, 3, 3, NULL);
  assert_says (proposal, "no more than 2 of 9 patches, which leaves 7 to “Rust”; as the seams lie no more than 5 ");
  odd_proposal_free (proposal);

  add_scraps (&job, moss, 7, 105.0);
  proposal = propose_grid (job, 3, 3, NULL);
  g_assert_null (proposal->remark);
  odd_proposal_free (proposal);

  proposal = propose_grid (job, 3, 3, &much_rust);
  assert_says (proposal, "7 of 9 patches are of “Rust”, and as the seams lie no more than 5 of it can lie apart");
  odd_proposal_free (proposal);
  odd_job_unref (job);
}

/* Six squares locked in a ring of Rust; the middle is filled again from Rust, and from crumbs of Moss that are too small. */
static void
test_locked_around (void)
{
  OddJob *job = odd_job_new ();
  const OddId rust = add_fabric (&job, "Rust");
  OddProposal *first, *again;
  OddProposalOptions options;
  OddPanel *panel;
  OddId middle;
  OddJob *bare;
  g_autoptr(GError) error = NULL;

  add_scraps (&job, rust, 9, 105.0);
  add_scraps (&job, add_fabric (&job, "Moss"), 3, 60.0);
  first = propose_grid (job, 3, 3, NULL);
  panel = odd_job_get_panel (first->job, g_array_index (first->panels, OddId, 0), NULL, NULL);
  middle = panel->root->parts[1]->parts[1]->id;
  bare = odd_job_make_bare (first->job, middle, NULL);
  g_assert_nonnull (bare);
  odd_proposal_options_init (&options, bare, ODD_PIECE_CRUMBS);
  options.into = ODD_INTO_BARE;
  options.smallest_mm = 75.0;
  again = odd_propose (bare, &options, NULL, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (again->figures.n_contacts, ==, 4);
  assert_says (again, "All the cloth that could fill the place of 80 × 80 mm lies beside it in patches that stay (“Rust”)");
  odd_proposal_free (again);
  odd_proposal_free (first);
  odd_job_unref (bare);
  odd_job_unref (job);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/contact-reason/count", test_count);
  g_test_add_func ("/contact-reason/supply", test_supply);
  g_test_add_func ("/contact-reason/place", test_place);
  g_test_add_func ("/contact-reason/pair", test_pair);
  g_test_add_func ("/contact-reason/exhaustive", test_exhaustive);
  g_test_add_func ("/contact-reason/from-a-tub", test_from_a_tub);
  g_test_add_func ("/contact-reason/locked-around", test_locked_around);

  return g_test_run ();
}
