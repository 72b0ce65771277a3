#include "fixtures.h"

const OddPrint sample_prints[] = {
  { ODD_PRINT_PLAIN, { 0xa8492f }, 20.0 },
  { ODD_PRINT_FLOWER, { 0xf0e6d4, 0xb23b35, 0xe08a78, 0x5d7550 }, 38.0 },
  { ODD_PRINT_RING, { 0x2f4a80, 0xcfd6df, 0x8ea3c4 }, 20.0 },
  { ODD_PRINT_CHECK, { 0xeef0e2, 0x7d9470 }, 12.0 },
  { ODD_PRINT_FLOWER, { 0x23283f, 0xe39a8c, 0xe9dfca, 0x4f7264 }, 34.0 },
  { ODD_PRINT_PLAIN, { 0xc9913a }, 20.0 },
  { ODD_PRINT_LATTICE, { 0x283c66, 0xb9c3d3, 0xe2e4e6 }, 30.0 },
  { ODD_PRINT_PLAIN, { 0xd2c4a6 }, 20.0 },
  { ODD_PRINT_PLAIN, { 0x2d4373 }, 20.0 },
  { ODD_PRINT_STRIPE, { 0xe9dec8, 0x344a77, 0xa3a4ac }, 34.0 },
  { ODD_PRINT_FLECK, { 0xa3b9d3, 0xd8e2ec }, 20.0 },
  { ODD_PRINT_DIAMOND, { 0x7e2a26, 0xe5d0bb, 0x3f5180, 0xc79037 }, 38.0 },
  { ODD_PRINT_STRIPE, { 0xefe0bd, 0xcb9137, 0x9a6b3a }, 22.0 },
  { ODD_PRINT_DOT, { 0xeee2cd, 0xc78f2e }, 11.0 },
  { ODD_PRINT_CHECK, { 0xf1e9da, 0xb84c47 }, 14.0 },
  { ODD_PRINT_PLAID, { 0x8f9478, 0x4f6349, 0xe6dcb9, 0xb2543a }, 46.0 },
  { ODD_PRINT_LEAF, { 0xdfe3d6, 0x4d6b52, 0x8aa386, 0xb0563d }, 40.0 },
  { ODD_PRINT_FLECK, { 0x59606c, 0x9aa2ab }, 20.0 },
  { ODD_PRINT_WINDOWPANE, { 0xe9dfcd, 0x8b6446, 0xc9a27d }, 30.0 },
  { ODD_PRINT_PLAIN, { 0xdfaa9d }, 20.0 },
};
const guint n_sample_prints = G_N_ELEMENTS (sample_prints);
