#include "config.h"

#include "ui/scrap-row.h"

#include <glib/gi18n.h>

#include "cloth/length.h"
#include "cloth/offcuts.h"
#include "cloth/piece.h"

struct _OddScrapRow
{
  GObject parent_instance;
  OddScrap *scrap;
  OddFabric *fabric;
  OddLayout *piece;
  char *cloth;
  OddScrapState state;
  GPtrArray *cuts;             /* (element-type OddConvex) (nullable) cut shapes of the patches planned on it, scrap's frame */
  GPtrArray *left;             /* (element-type OddPolygon) (nullable) what of it still holds a usable square; NULL: nothing is taken yet */
  double usable_mm;            /* the square that counted as usable */
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
  g_clear_pointer (&self->cuts, g_ptr_array_unref);
  g_clear_pointer (&self->left, g_ptr_array_unref);
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

static GPtrArray *
dup_cuts (OddJob   *job,
          OddScrap *scrap)
{
  GPtrArray *cuts = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_convex_unref);
  guint n = 0;
  const OddUse *uses = odd_job_get_uses (job, scrap->id, &n);

  for (guint i = 0; i < n; i++)
    {
      OddConvex *cut = odd_use_dup_cut (job, &uses[i]);

      if (cut != NULL)
        g_ptr_array_add (cuts, cut);
    }
  return cuts;
}

static gboolean
same_cuts (GPtrArray *a,
           GPtrArray *b)
{
  gboolean same = a->len == b->len;

  for (guint i = 0; same && i < a->len; i++)
    same = odd_convex_equal (a->pdata[i], b->pdata[i], ODD_TOLERANCE_MM);
  return same;
}

gboolean
odd_scrap_row_is_true (OddScrapRow   *self,
                       OddJob        *job,
                       OddScrap      *scrap,
                       OddScrapState  state)
{
  g_autoptr(OddLayout) piece = odd_job_dup_piece_layout (job, scrap);
  g_autoptr(GPtrArray) cuts = NULL;

  if (self->scrap != scrap || self->state != state || self->piece != piece || self->fabric != odd_job_get_scrap_fabric (job, scrap))
    return FALSE;
  if (self->cuts == NULL)
    return state == ODD_SCRAP_FREE || state == ODD_SCRAP_GONE;
  cuts = dup_cuts (job, scrap);
  return self->usable_mm == job->settings.usable_square_mm && same_cuts (self->cuts, cuts);
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
  self->usable_mm = job->settings.usable_square_mm;
  self->area_mm2 = odd_polygon_get_area (scrap->outline);
  if (state == ODD_SCRAP_PLACED || state == ODD_SCRAP_SEWN)
    {
      self->cuts = dup_cuts (job, scrap);
      self->left = odd_scrap_remains (job, scrap->id);
      self->area_mm2 = self->left->len > 0 ? odd_polygon_get_area (self->left->pdata[0]) : 0.0;
    }
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
gboolean odd_scrap_row_is_free (OddScrapRow *self) { return self->state == ODD_SCRAP_FREE || (self->left != NULL && self->left->len > 0); }

OddBox
odd_scrap_row_get_box (OddScrapRow *self)
{
  return self->left != NULL && self->left->len > 0 ? odd_polygon_get_box (self->left->pdata[0]) : odd_scrap_get_box (self->scrap);
}

double odd_scrap_row_get_lightness (OddScrapRow *self) { return self->lightness; }

static char *
dup_size (OddBox box,
          int    unit)
{
  const double k = unit == ODD_UNIT_INCH ? 25.4 : unit == ODD_UNIT_MM ? 1.0 : 10.0;

  /* translators: width, length and unit of a scrap: "21 × 20 cm" */
  return g_strdup_printf (_("%.0f × %.0f %s"), box.width / k, box.height / k, odd_unit_get_symbol (unit));
}

char *
odd_scrap_row_dup_size (OddScrapRow *self,
                        int          unit)
{
  return dup_size (odd_scrap_get_box (self->scrap), unit);
}

/* translators: of what is placed or sewn already: "placed, 12 × 30 cm left" */
static const char *
left_words (OddScrapState state)
{
  return state == ODD_SCRAP_SEWN ? _("sewn, %s left") : _("placed, %s left");
}

char *
odd_scrap_row_dup_state (OddScrapRow *self,
                         int          unit)
{
  g_autofree char *left = self->left != NULL && self->left->len > 0 ? dup_size (odd_scrap_row_get_box (self), unit) : NULL;

  if (left != NULL)
    return g_strdup_printf (left_words (self->state), left);
  switch (self->state)
    {
    case ODD_SCRAP_PLACED: return g_strdup (self->scrap->cut_out ? _("cut out") : _("placed"));
    case ODD_SCRAP_SEWN: return g_strdup (_("sewn"));
    case ODD_SCRAP_GONE: return g_strdup (_("gone"));
    default: return g_strdup (self->scrap->parent_id != 0 ? _("offcut, free") : _("free"));
    }
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
