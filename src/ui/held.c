#include "config.h"
#include "ui/held.h"

#include <glib/gi18n.h>

/* The place shown stays until another scores better by this share of its own score. */
#define CLEARLY_BETTER 0.15

struct _OddHeld
{
  GObject parent_instance;
  OddDocument *document;
  OddId scrap_id;
  gboolean has_target;
  OddTarget target;
  double turn_deg;
  OddPoint held_at_mm;
  gboolean keep_angle;
  GPtrArray *places;             /* (element-type OddPlace) or NULL */
  guint index;
  gboolean chosen;               /* by key: stays whatever scores better */
  char *refusal;
  guint serial;
};

enum { CHANGED, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (OddHeld, odd_held, G_TYPE_OBJECT)

static void
tell (OddHeld *self)
{
  self->serial++;
  g_signal_emit (self, signals[CHANGED], 0);
}

static void
forget_places (OddHeld *self)
{
  g_clear_pointer (&self->places, g_ptr_array_unref);
  g_clear_pointer (&self->refusal, g_free);
  self->index = 0;
}

static gboolean
is_alike (const OddPlace *a, const OddPlace *b)
{
  const double turn = fabs (remainder (a->placement.turn_deg - b->placement.turn_deg, 360));

  return a->kind == b->kind && turn < 0.5 && fabs (a->tilt_deg - b->tilt_deg) < 0.5 && a->placement.mirror == b->placement.mirror;
}

/* Which of the new places is shown: the one like @before, unless the best is clearly better. */
static guint
choose (OddHeld *self, const OddPlace *before)
{
  const OddPlace *best = g_ptr_array_index (self->places, 0);

  for (guint i = 0; before != NULL && i < self->places->len; i++)
    {
      const OddPlace *place = g_ptr_array_index (self->places, i);

      if (!is_alike (place, before))
        continue;
      return self->chosen || best->score > place->score - CLEARLY_BETTER * fabs (place->score) ? i : 0;
    }
  self->chosen = FALSE;
  return 0;
}

static void
find_places (OddHeld *self, gboolean same_target)
{
  g_autoptr(GPtrArray) before = g_steal_pointer (&self->places);
  const OddPlace *shown = before != NULL && self->index < before->len && same_target ? g_ptr_array_index (before, self->index) : NULL;
  OddSnapOptions options;

  forget_places (self);
  if (!same_target)
    self->chosen = FALSE;
  if (self->scrap_id != 0 && self->has_target)
    {
      odd_snap_options_init (&options);
      options.held_turn_deg = self->turn_deg;
      options.held_at = self->held_at_mm;
      options.keep_angle = self->keep_angle;
      self->places = odd_snap_places (odd_document_get_job (self->document), &self->target, self->scrap_id, &options, &self->refusal);
      if (self->places->len > 0)
        {
          g_clear_pointer (&self->refusal, g_free);
          self->index = choose (self, shown);
        }
    }
  tell (self);
}

/* An edit, or undo, may take away what was aimed at. */
static gboolean
target_stands (OddHeld *self, OddJob *job)
{
  switch (self->target.kind)
    {
    case ODD_TARGET_EDGE:
      return odd_job_get_panel (job, self->target.panel_id, NULL, NULL) != NULL;
    case ODD_TARGET_BARE:
      return odd_job_find_panel_of (job, self->target.leaf_id, NULL, NULL) != NULL;
    case ODD_TARGET_NEW_PANEL:
    default:
      return self->target.textile_id == 0 || odd_job_get_textile (job, self->target.textile_id) != NULL;
    }
}

static void
document_changed_cb (OddHeld *self, OddJob *before, OddJob *after)
{
  OddScrap *scrap = self->scrap_id != 0 ? odd_job_get_scrap (after, self->scrap_id) : NULL;

  if (self->scrap_id == 0)
    return;
  if (scrap == NULL || scrap->gone || scrap->cut_out)
    {
      odd_held_put_back (self);
      return;
    }
  self->has_target = self->has_target && target_stands (self, after);
  find_places (self, TRUE);
}

static void
odd_held_dispose (GObject *object)
{
  OddHeld *self = ODD_HELD (object);

  forget_places (self);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (odd_held_parent_class)->dispose (object);
}

static void
odd_held_class_init (OddHeldClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = odd_held_dispose;
  signals[CHANGED] = g_signal_new ("changed", ODD_TYPE_HELD, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
odd_held_init (OddHeld *self)
{
  self->held_at_mm = odd_point (NAN, NAN);
}

OddHeld *
odd_held_new (OddDocument *document)
{
  OddHeld *self = g_object_new (ODD_TYPE_HELD, NULL);

  self->document = g_object_ref (document);
  g_signal_connect_object (document, "changed", G_CALLBACK (document_changed_cb), self, G_CONNECT_SWAPPED);
  return self;
}

gboolean
odd_held_take (OddHeld *self, OddId scrap_id)
{
  OddScrap *scrap;

  g_return_val_if_fail (ODD_IS_HELD (self), FALSE);

  scrap = odd_job_get_scrap (odd_document_get_job (self->document), scrap_id);
  if (scrap == NULL || scrap->gone)
    return FALSE;
  self->scrap_id = scrap_id;
  self->has_target = FALSE;
  self->turn_deg = 0;
  self->held_at_mm = odd_point (NAN, NAN);
  self->keep_angle = FALSE;
  find_places (self, FALSE);
  return TRUE;
}

void
odd_held_put_back (OddHeld *self)
{
  g_return_if_fail (ODD_IS_HELD (self));

  if (self->scrap_id == 0)
    return;
  self->scrap_id = 0;
  self->has_target = FALSE;
  forget_places (self);
  tell (self);
}

OddId
odd_held_get_scrap_id (OddHeld *self)
{
  return self->scrap_id;
}

static gboolean
same_target (OddHeld *self, const OddTarget *target)
{
  return self->has_target == (target != NULL) && (target == NULL || memcmp (&self->target, target, sizeof *target) == 0);
}

void
odd_held_set_target (OddHeld *self, const OddTarget *target)
{
  OddTarget copy;

  g_return_if_fail (ODD_IS_HELD (self));

  if (same_target (self, target))
    return;
  memset (&copy, 0, sizeof copy);          /* compared byte by byte */
  if (target != NULL)
    {
      copy.kind = target->kind;
      copy.panel_id = target->panel_id;
      copy.edge = target->edge;
      copy.leaf_id = target->leaf_id;
      copy.textile_id = target->textile_id;
      copy.index = target->index;
    }
  self->has_target = target != NULL;
  self->target = copy;
  self->held_at_mm = odd_point (NAN, NAN);
  find_places (self, FALSE);
}

const OddTarget *
odd_held_get_target (OddHeld *self)
{
  return self->scrap_id != 0 && self->has_target ? &self->target : NULL;
}

void
odd_held_hold (OddHeld *self, OddPoint at_mm, gboolean keep_angle)
{
  g_return_if_fail (ODD_IS_HELD (self));

  if (at_mm.x == self->held_at_mm.x && at_mm.y == self->held_at_mm.y && keep_angle == self->keep_angle)
    return;
  self->held_at_mm = at_mm;
  self->keep_angle = keep_angle;
  find_places (self, TRUE);
}

void
odd_held_turn (OddHeld *self, double by_deg)
{
  g_return_if_fail (ODD_IS_HELD (self));

  if (self->scrap_id == 0)
    return;
  self->turn_deg = remainder (self->turn_deg + by_deg, 360);
  self->chosen = FALSE;
  find_places (self, FALSE);               /* the turn was asked for: the best near it is shown */
}

double
odd_held_get_turn (OddHeld *self)
{
  return self->turn_deg;
}

void
odd_held_step (OddHeld *self, int step)
{
  g_return_if_fail (ODD_IS_HELD (self));

  if (odd_held_get_n_places (self) < 2)
    return;
  self->index = (guint) ((((int) self->index + step) % (int) self->places->len + (int) self->places->len) % (int) self->places->len);
  self->chosen = TRUE;
  tell (self);
}

gboolean
odd_held_nudge (OddHeld *self, double along_mm, double across_mm)
{
  OddPlace *nudged;

  g_return_val_if_fail (ODD_IS_HELD (self), FALSE);

  if (odd_held_get_n_places (self) == 0)
    return FALSE;
  nudged = odd_place_copy (g_ptr_array_index (self->places, self->index));
  if (!odd_place_nudge (odd_document_get_job (self->document), nudged, along_mm, across_mm))
    {
      odd_place_free (nudged);
      return FALSE;
    }
  odd_place_free (g_ptr_array_index (self->places, self->index));
  g_ptr_array_index (self->places, self->index) = nudged;
  self->chosen = TRUE;
  tell (self);
  return TRUE;
}

const OddPlace *
odd_held_get_place (OddHeld *self)
{
  return odd_held_get_n_places (self) > 0 ? g_ptr_array_index (self->places, self->index) : NULL;
}

guint
odd_held_get_n_places (OddHeld *self)
{
  return self->places != NULL ? self->places->len : 0;
}

guint
odd_held_get_index (OddHeld *self)
{
  return self->index;
}

guint
odd_held_get_serial (OddHeld *self)
{
  return self->serial;
}

const char *
odd_held_get_refusal (OddHeld *self)
{
  return self->refusal;
}

const char *
odd_place_class_get_name (OddPlaceClass kind)
{
  switch (kind)
    {
    case ODD_PLACE_FLUSH:
      return _("Flush edge");
    case ODD_PLACE_TURNED:
      return _("Turned");
    case ODD_PLACE_TILTED:
      return _("Tilted");
    case ODD_PLACE_ROW:
      return _("Starts a row");
    case ODD_PLACE_AS_HELD:
    default:
      return _("As held");
    }
}

/* "7 × 9 cm", in whole centimetres: what a toast has room for. */
static char *
dup_offcut_size (const OddPlace *place)
{
  return g_strdup_printf (_("%.0f × %.0f cm"), place->offcut_width_mm / 10, place->offcut_length_mm / 10);
}

static char *
dup_outcome (const OddPlace *place, guint number)
{
  g_autofree char *size = NULL;

  if (place->n_offcuts > 0)
    {
      size = dup_offcut_size (place);
      if (place->n_offcuts == 1)
        return g_strdup_printf (_("Trimmed. One offcut of %s came back"), size);
      return g_strdup_printf (ngettext ("Trimmed. %u offcut came back, the largest %s",
                                        "Trimmed. %u offcuts came back, the largest %s", place->n_offcuts), place->n_offcuts, size);
    }
  if (place->trimmed_mm2 > 0)
    return g_strdup_printf (_("Scrap %u sewn on and trimmed"), number);
  return g_strdup_printf (_("Scrap %u sewn on"), number);
}

static char *
dup_step_name (const OddPlace *place, guint number)
{
  switch (place->target.kind)
    {
    case ODD_TARGET_BARE:
      return g_strdup_printf (_("Fill in scrap %u"), number);
    case ODD_TARGET_NEW_PANEL:
      return g_strdup_printf (place->target.textile_id == 0 ? _("Start a loose piece with scrap %u") : _("Start a panel with scrap %u"), number);
    case ODD_TARGET_EDGE:
    default:
      return g_strdup_printf (_("Sew on scrap %u"), number);
    }
}

gboolean
odd_held_sew_on (OddHeld *self, OddId *out_leaf_id, char **out_text, GError **error)
{
  const OddPlace *place = odd_held_get_place (self);
  OddJob *job = odd_document_get_job (self->document);
  OddScrap *scrap = self->scrap_id != 0 ? odd_job_get_scrap (job, self->scrap_id) : NULL;
  g_autoptr(OddJob) after = NULL;
  g_autofree char *label = NULL;
  g_autofree char *text = NULL;

  if (place == NULL || scrap == NULL)
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM,
                           self->refusal != NULL ? self->refusal : _("There is no place for it here. Hold it to an open edge."));
      return FALSE;
    }
  after = odd_job_apply_place (job, place, out_leaf_id, error);
  if (after == NULL)
    return FALSE;
  label = dup_step_name (place, scrap->number);
  text = dup_outcome (place, scrap->number);
  odd_held_put_back (self);
  odd_document_apply (self->document, g_steal_pointer (&after), label);
  if (out_text != NULL)
    *out_text = g_steal_pointer (&text);
  return TRUE;
}
