/* The texts of data/finishes.json, for the translators: xgettext does not read JSON. finish.c translates each text of the file
 * when it is read; tests/cloth/test-finish.c fails when a text is in one place only. */
#include "config.h"

#include "cloth/finish-texts.h"

#include <glib/gi18n.h>

const char *const odd_finish_texts[] = {
  /* names */
  N_("Pressed open"),
  N_("Overlocked"),
  N_("Overlocked and topstitched"),
  N_("Zigzagged"),
  /* Translators: the French seam */
  N_("French"),
  N_("Flat-felled"),
  N_("Bound"),
  /* what is done */
  N_("Sew, right sides together"),
  N_("Press the seam open"),
  N_("Overlock both edges together"),
  N_("Press the seam to one side"),
  N_("Topstitch beside the seam, through the allowance"),
  N_("Trim both edges together"),
  N_("Zigzag both edges together"),
  N_("First pass: sew, wrong sides together"),
  N_("Turn right sides together and press the fold on the stitching"),
  N_("Second pass: sew, right sides together, the raw edges inside"),
  N_("Trim one of the two edges"),
  N_("Fold 3 mm of the wide edge under, around the trimmed one"),
  N_("Press the fell flat"),
  N_("Stitch the fell down, close to its fold"),
  N_("Press the stitched fell"),
  N_("Bind each edge on its own"),
  N_("Press the bound seam open"),
  /* for whom */
  N_("For cloth that will be lined: the edges stay raw."),
  N_("For unlined cloth, where an overlocker is at hand."),
  N_("For cloth that is washed often: the allowance lies flat for good."),
  N_("For unlined cloth, where there is no overlocker."),
  N_("For fine and sheer cloth: no raw edge is left to see."),
  N_("For strong cloth and hard wear: both edges lie enclosed."),
  N_("For thick cloth that will not be lined."),
  NULL
};
