/* Invented cloth that the tests and the contact sheet of the drawing room share. */
#pragma once

#include "cloth/fabric.h"

extern const OddPrint sample_prints[];
extern const guint n_sample_prints;
