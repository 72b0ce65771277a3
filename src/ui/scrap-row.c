#include "config.h"

#include "ui/scrap-row.h"

#include <glib/gi18n.h>

#include "cloth/length.h"
#include "cloth/piece.h"

struct _OddScrapRow
{
  GObject parent_instance;
  OddScrap *scrap;
  OddFabric *fabric;
  OddLayout *piece;
  char *cloth;
  OddScrapState state;
  double area_mm2;
  double lightness;
  char *folded; /* what search looks in */
};

G_DEFINE_FINAL_TYPE (OddScrapRow, odd_scrap_row, G_TYPE_OBJECT)

static void
odd_scrap_row_finalize (GObject *object)
{
  OddScrapRow *self = ODD_SCRAP_ROW (object);

  g_clear_pointer (&self->scrap, odd_scrap_unref);
  g_clear_pointer (&self->fabric, odd_fabric_unref);
  g_clear_pointer (&self->piece, odd_layout_unref);
  g_free (self->cloth);
  g_free (self->folded);
  G_OBJECT_CLASS (odd_scrap_row_parent_class)->finalize (object);
}

static void
odd_scrap_row_class_init (OddScrapRowClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = odd_scrap_row_finalize;
}

static void
odd_scrap_row_init (OddScrapRow *self)
{
}

OddScrapRow *
odd_scrap_row_new (OddJob        *job,
                   OddScrap      *scrap,
                   OddScrapState  state)
{
  OddScrapRow *self = g_object_new (ODD_TYPE_SCRAP_ROW, NULL);
  OddFabric *fabric = odd_job_get_scrap_fabric (job, scrap);
  const double lightness = odd_job_get_scrap_lightness (job, scrap);
  g_autofree char *text = NULL;

  self->scrap = odd_scrap_ref (scrap);
  self->fabric = fabric != NULL ? odd_fabric_ref (fabric) : NULL;
  self->state = state;
  self->area_mm2 = odd_polygon_get_area (scrap->outline);
  /* cloth nobody has described counts as neither light nor dark */
  self->lightness = isnan (lightness) ? 50.0 : lightness;
  self->piece = odd_job_dup_piece_layout (job, scrap);
  self->cloth = odd_job_dup_scrap_cloth_name (job, scrap);
  text = g_strdup_printf ("%u %s %s %s", scrap->number, fabric != NULL || self->piece != NULL ? self->cloth : "",
                          scrap->place != NULL ? scrap->place : "", scrap->note != NULL ? scrap->note : "");
  self->folded = g_utf8_casefold (text, -1);
  return self;
}

OddScrap *odd_scrap_row_get_scrap (OddScrapRow *self) { return self->scrap; }
OddFabric *odd_scrap_row_get_fabric (OddScrapRow *self) { return self->fabric; }
OddScrapState odd_scrap_row_get_state (OddScrapRow *self) { return self->state; }
const char *odd_scrap_row_get_cloth (OddScrapRow *self) { return self->cloth; }
double odd_scrap_row_get_area_mm2 (OddScrapRow *self) { return self->area_mm2; }
OddBox odd_scrap_row_get_box (OddScrapRow *self) { return odd_scrap_get_box (self->scrap); }
double odd_scrap_row_get_lightness (OddScrapRow *self) { return self->lightness; }

gboolean
odd_scrap_row_is_true (OddScrapRow   *self,
                       OddJob        *job,
                       OddScrap      *scrap,
                       OddScrapState  state)
{
  g_autoptr(OddLayout) piece = odd_job_dup_piece_layout (job, scrap);

  return self->scrap == scrap && self->state == state && self->piece == piece && self->fabric == odd_job_get_scrap_fabric (job, scrap);
}

char *
odd_scrap_row_dup_size (OddScrapRow *self,
                        int          unit)
{
  const OddBox box = odd_scrap_row_get_box (self);
  const double k = unit == ODD_UNIT_INCH ? 25.4 : unit == ODD_UNIT_MM ? 1.0 : 10.0;

  /* translators: width, length and unit of a scrap: "21 × 20 cm" */
  return g_strdup_printf (_("%.0f × %.0f %s"), box.width / k, box.height / k, odd_unit_get_symbol (unit));
}

gboolean
odd_scrap_row_matches (OddScrapRow *self,
                       const char  *text)
{
  g_autofree char *folded = g_utf8_casefold (text, -1);
  g_auto(GStrv) words = g_strsplit_set (folded, " \t", -1);

  for (guint i = 0; words[i] != NULL; i++)
    if (strstr (self->folded, words[i]) == NULL)
      return FALSE;
  return TRUE;
}
