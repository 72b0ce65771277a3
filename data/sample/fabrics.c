/* Indigo, brick, mustard, natural, sage, pale blue and rose: colours that stand side by side without quarrelling, light and dark
 * in equal parts. All cloth is invented. */
#include "config.h"

#include "maker.h"

typedef struct
{
  const char *name;
  OddPrint print;
  const char *fibres[2];
  double percent;             /* of the first fibre */
  double gsm, thickness_mm, shrink_along, shrink_across;
  gboolean one_way, reversible;
  OddBleed bleeds;
} Cloth;

static const Cloth cloths[] = {
  { "Indigo plain weave", { ODD_PRINT_FLECK, { 0x2f4a7d, 0x294273 }, 40 }, { "cotton" }, 100, 165, 0.38, 0.03, 0.02, FALSE, TRUE, ODD_BLEED_YES },
  { "Indigo star trellis", { ODD_PRINT_LATTICE, { 0x2b4272, 0x8ea5cb, 0xdfe6f1 }, 38 }, { "cotton" }, 100, 140, 0.30, 0.03, 0.02, FALSE, FALSE, ODD_BLEED_YES },
  { "Indigo rings", { ODD_PRINT_RING, { 0x344f86, 0xc3d0e6, 0xf2efe6 }, 26 }, { "cotton" }, 100, 135, 0.30, 0.02, 0.02, FALSE, FALSE, ODD_BLEED_NO },
  { "Night garden", { ODD_PRINT_FLOWER, { 0x1f2740, 0xb5483a, 0xefe3cf, 0x6f8a68 }, 30 }, { "cotton" }, 100, 130, 0.28, 0.03, 0.03, TRUE, FALSE, ODD_BLEED_NO },
  { "Brick sailcloth", { ODD_PRINT_PLAIN, { 0xa8452f }, 20 }, { "cotton", "flax (or linen)" }, 70, 210, 0.48, 0.04, 0.03, FALSE, TRUE, ODD_BLEED_UNKNOWN },
  { "Brick kite", { ODD_PRINT_DIAMOND, { 0x8c2f26, 0xe8d9bb, 0x2d3d63, 0xd29a3a }, 46 }, { "cotton" }, 100, 150, 0.34, 0.03, 0.02, FALSE, FALSE, ODD_BLEED_NO },
  { "Mustard plain weave", { ODD_PRINT_FLECK, { 0xd49a33, 0xc98e28 }, 36 }, { "flax (or linen)" }, 100, 185, 0.42, 0.05, 0.04, FALSE, TRUE, ODD_BLEED_NO },
  { "Mustard deckchair", { ODD_PRINT_STRIPE, { 0xf1e6cd, 0xd3952c, 0xb8741f }, 34 }, { "cotton" }, 100, 175, 0.40, 0.03, 0.02, FALSE, TRUE, ODD_BLEED_NO },
  { "Mustard seed", { ODD_PRINT_DOT, { 0xf5ecd6, 0xcf952f }, 13 }, { "cotton" }, 100, 120, 0.26, 0.02, 0.02, FALSE, FALSE, ODD_BLEED_NO },
  { "Natural linen", { ODD_PRINT_FLECK, { 0xd8c9a9, 0xcab995 }, 44 }, { "flax (or linen)" }, 100, 190, 0.45, 0.05, 0.04, FALSE, TRUE, ODD_BLEED_NO },
  { "Sage gingham", { ODD_PRINT_CHECK, { 0xf0eee0, 0x8aa27d }, 15 }, { "cotton" }, 100, 125, 0.27, 0.02, 0.02, FALSE, TRUE, ODD_BLEED_NO },
  { "Moss plaid", { ODD_PRINT_PLAID, { 0x76866a, 0x4d5f4d, 0xb0583f, 0xe9dfc6 }, 68 }, { "cotton", "wool" }, 80, 195, 0.52, 0.04, 0.04, FALSE, TRUE, ODD_BLEED_UNKNOWN },
  { "Pale blue shirting", { ODD_PRINT_FLECK, { 0xa3bddb, 0x96b1d2 }, 30 }, { "cotton" }, 100, 115, 0.25, 0.02, 0.01, FALSE, TRUE, ODD_BLEED_NO },
  { "Harbour stripe", { ODD_PRINT_STRIPE, { 0xefe9da, 0x32507f, 0x32507f }, 42 }, { "cotton", "flax (or linen)" }, 55, 170, 0.39, 0.03, 0.03, FALSE, TRUE, ODD_BLEED_NO },
  { "Cream orchard", { ODD_PRINT_FLOWER, { 0xf6ecd9, 0xc0503c, 0x7d9270, 0xd9a24a }, 34 }, { "cotton" }, 100, 125, 0.27, 0.03, 0.02, TRUE, FALSE, ODD_BLEED_NO },
  { "Rose gingham", { ODD_PRINT_CHECK, { 0xf8eee6, 0xc9666a }, 17 }, { "cotton" }, 100, 120, 0.26, 0.02, 0.02, FALSE, TRUE, ODD_BLEED_NO },
  { "Rose lawn", { ODD_PRINT_PLAIN, { 0xdfaaa0 }, 20 }, { "cotton" }, 100, 85, 0.18, 0.02, 0.02, FALSE, TRUE, ODD_BLEED_NO },
  { "Cream windowpane", { ODD_PRINT_WINDOWPANE, { 0xf4ecda, 0xa9603f, 0xa9603f }, 27 }, { "flax (or linen)", "cotton" }, 60, 160, 0.36, 0.04, 0.03, FALSE, TRUE, ODD_BLEED_NO },
  { "Willow leaf", { ODD_PRINT_LEAF, { 0x5f7a62, 0xd9dfc2, 0x37503f, 0xd9a24a }, 36 }, { "cotton" }, 100, 130, 0.28, 0.03, 0.02, TRUE, FALSE, ODD_BLEED_NO },
};

static void
add_cloth (Maker *maker, const Cloth *cloth, OddId *out_id)
{
  OddFibre fibres[2] = { { (char *) cloth->fibres[0], cloth->percent }, { (char *) cloth->fibres[1], 100.0 - cloth->percent } };
  OddFabric values;

  odd_fabric_init_values (&values);
  values.name = (char *) cloth->name;
  values.fibres = fibres;
  values.n_fibres = cloth->fibres[1] != NULL ? 2 : 1;
  values.gsm = cloth->gsm;
  values.thickness_mm = cloth->thickness_mm;
  values.make = ODD_MAKE_WOVEN;
  values.one_way = cloth->one_way;
  values.reversible = cloth->reversible;
  values.bleeds = cloth->bleeds;
  values.shrink_along = cloth->shrink_along;
  values.shrink_across = cloth->shrink_across;
  values.print = cloth->print;
  sample_step (maker, odd_job_put_fabric (maker->job, &values, out_id, &maker->error));
}

void
sample_add_fabrics (Maker *maker)
{
  maker->n_fabrics = G_N_ELEMENTS (cloths);
  maker->fabrics = g_new0 (OddId, maker->n_fabrics);
  for (guint i = 0; i < maker->n_fabrics; i++)
    add_cloth (maker, &cloths[i], &maker->fabrics[i]);
}
