/* What is asked of a proposal: manner, size, templates, seams, look. */
#pragma once

#include <adwaita.h>
#include "cloth/length.h"
#include "piecing/gives.h"
#include "ui/propose-places.h"

G_BEGIN_DECLS

#define ODD_TYPE_PROPOSE_SETTINGS (odd_propose_settings_get_type ())
G_DECLARE_FINAL_TYPE (OddProposeSettings, odd_propose_settings, ODD, PROPOSE_SETTINGS, AdwBin)

/* Signal: changed (), not while a length is being typed.
 * @kind, @id: what is selected: its bare places are offered to be filled
 * @shown: (nullable) (element-type OddId): scraps the tray shows; offered to draw from where they are not all */
void odd_propose_settings_start (OddProposeSettings *self, OddJob *job, OddId textile_id, OddUnit unit, GArray *shown, OddSelected kind, OddId id);
/* Scraps to draw from, manner, size, number, templates, size of patches, treatment and liveliness of @options in the place of what is offered first. */
void odd_propose_settings_offer (OddProposeSettings *self, const OddProposalOptions *options);
/* FALSE while what is asked for contradicts itself; it is told beside the rows that do. */
gboolean odd_propose_settings_can_be (OddProposeSettings *self);
/* The sizes that were asked for elsewhere, in the place of those that are offered first. */
void odd_propose_settings_offer_sizes (OddProposeSettings *self, const OddCutSizes *sizes);
/* FALSE while something typed is no length: @out_complaint (lent) says why, the entry is marked. Ids and shares in @options are lent. */
gboolean odd_propose_settings_read (OddProposeSettings *self, OddProposalOptions *options, const char **out_complaint);

G_END_DECLS
