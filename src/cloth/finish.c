/* Why the finishes of data/finishes.json do what they do in this order:
 *
 * - Overlocked and zigzagged seams are neatened after sewing, both edges together: one walk to the machine, and a patch trimmed
 *   to its neighbour loses no neatened edge.
 * - Bound edges too are bound after sewing, each on its own, for the same reason; the seam is pressed open first so that the
 *   binding catches one ply.
 * - A felled seam is sewn right sides together like the others, so that every patch is marked on the same side; its fell lies
 *   inside the cloth, one line of stitching shows outside. The line holds the fell, so it comes before the last press: a seam
 *   may be crossed after its last press, and a fell that is not stitched would open.
 * - Topstitching beside an overlocked seam comes after the press; a seam that crosses it does not hinder it.
 * - A single pass has no distance of its own: it is sewn at the seam's allowance, which may be set apart from the finish.
 */
#include "config.h"

#include "cloth/finish.h"

#include "cloth/fabric.h"

#include <glib/gi18n.h>
#include <json-glib/json-glib.h>
#include <string.h>

#define ALLOWANCE_LIMIT_MM 200.0
#define PLIES_LIMIT 20

/* --- the value --- */

static gboolean
check_range (const OddFinish *values,
             const char      *what,
             double           mm,
             double           most_mm,
             GError         **error)
{
  if (mm >= 0.0 && mm <= most_mm)
    return TRUE;

  g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_RANGE,
               _("The %s of finish “%s” is %g mm; write a length from 0 to %g mm."), what, values->name, mm, most_mm);
  return FALSE;
}

static gboolean
check_names (const OddFinish *values,
             GError         **error)
{
  if (values->name == NULL || *values->name == '\0')
    {
      g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_NAME,
                   _("Finish number %u has no name; give it one."), values->id);
      return FALSE;
    }
  if (values->key == NULL || *values->key == '\0' || strpbrk (values->key, " \t\r\n\v\f") != NULL)
    {
      g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_NAME,
                   _("The key “%s” of finish “%s” must be one word without spaces; write it like “%s”."),
                   values->key != NULL ? values->key : "", values->name, "pressed-open");
      return FALSE;
    }
  return TRUE;
}

static gboolean
check_widths (const OddFinish *values,
              GError         **error)
{
  if (!check_range (values, _("allowance"), values->allowance_mm, ALLOWANCE_LIMIT_MM, error))
    return FALSE;
  if (values->allowance_mm == 0.0)
    {
      g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_RANGE,
                   _("The allowance of finish “%s” is 0 mm; a seam needs more than that."), values->name);
      return FALSE;
    }
  return check_range (values, _("least allowance"), values->min_allowance_mm, ALLOWANCE_LIMIT_MM, error) &&
         check_range (values, _("width kept"), values->width_kept_mm, values->allowance_mm, error);
}

static gboolean
check_plies (const OddFinish *values,
             GError         **error)
{
  for (guint i = 0; i < G_N_ELEMENTS (values->plies); i++)
    if (values->plies[i] > PLIES_LIMIT)
      {
        g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_RANGE,
                     _("Finish “%s” piles up %u layers on one side; write a number up to %u."),
                     values->name, values->plies[i], PLIES_LIMIT);
        return FALSE;
      }
  return TRUE;
}

/* ISO 4915: class 1 to 6, then two figures. */
static gboolean
is_stitch (const char *stitch)
{
  return strlen (stitch) == 3 && stitch[0] >= '1' && stitch[0] <= '6' &&
         g_ascii_isdigit (stitch[1]) && g_ascii_isdigit (stitch[2]);
}

static gboolean
check_operation (const OddFinish *values,
                 guint            index,
                 GError         **error)
{
  const OddOperation *operation = &values->operations[index];

  if ((guint) operation->kind >= ODD_N_OPERATION_KINDS || (guint) operation->station >= ODD_N_STATIONS ||
      (guint) operation->face > ODD_FACE_ONE_LAYER)
    {
      g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_RANGE,
                   _("Operation %u of finish “%s” is of a kind that is not known; choose one from the list."),
                   index + 1, values->name);
      return FALSE;
    }
  if (operation->text == NULL || *operation->text == '\0')
    {
      g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_NAME,
                   _("Operation %u of finish “%s” has no text; say what is to be done."), index + 1, values->name);
      return FALSE;
    }
  if (operation->stitch != NULL && !is_stitch (operation->stitch))
    {
      g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_NAME,
                   _("Operation %u of finish “%s” has the stitch “%s”; write a number of ISO 4915 like 301."),
                   index + 1, values->name, operation->stitch);
      return FALSE;
    }
  return check_range (values, _("distance"), operation->at_mm, ALLOWANCE_LIMIT_MM, error);
}

/* What is done to the edges before they are joined comes first, then at least one seam. */
static gboolean
check_order (const OddFinish *values,
             GError         **error)
{
  gboolean sewn = FALSE;

  for (guint i = 0; i < values->n_operations; i++)
    {
      sewn |= values->operations[i].kind == ODD_OPERATION_SEW;
      if (sewn && values->operations[i].before_joining)
        {
          g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_SHAPE,
                       _("Operation %u of finish “%s” is done before joining but stands behind the sewing; move it up."),
                       i + 1, values->name);
          return FALSE;
        }
    }
  if (!sewn)
    g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_SHAPE,
                 _("None of the %u operations of finish “%s” sews the seam; add one that does."),
                 values->n_operations, values->name);
  return sewn;
}

static gboolean
check_values (const OddFinish *values,
              GError         **error)
{
  if (!check_names (values, error) || !check_widths (values, error) || !check_plies (values, error))
    return FALSE;
  for (guint i = 0; i < values->n_operations; i++)
    if (!check_operation (values, i, error))
      return FALSE;
  return check_order (values, error);
}

OddFinish *
odd_finish_new (const OddFinish *values,
                GError         **error)
{
  OddFinish *self;

  g_return_val_if_fail (values != NULL, NULL);
  g_return_val_if_fail (values->n_operations == 0 || values->operations != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  if (!check_values (values, error))
    return NULL;

  self = g_atomic_rc_box_dup (sizeof *values, (OddFinish *) values);
  self->key = g_strdup (values->key);
  self->name = g_strdup (values->name);
  self->operations = g_memdup2 (values->operations, sizeof *values->operations * values->n_operations);
  for (guint i = 0; i < self->n_operations; i++)
    {
      self->operations[i].stitch = g_strdup (values->operations[i].stitch);
      self->operations[i].text = g_strdup (values->operations[i].text);
    }
  self->note = g_strdup (values->note);
  self->source = g_strdup (values->source);
  self->unknown_json = g_strdup (values->unknown_json);
  return self;
}

OddFinish *
odd_finish_ref (OddFinish *self)
{
  return g_atomic_rc_box_acquire (self);
}

static void
clear (gpointer data)
{
  OddFinish *self = data;

  for (guint i = 0; i < self->n_operations; i++)
    {
      g_free (self->operations[i].stitch);
      g_free (self->operations[i].text);
    }
  g_free (self->operations);
  g_free (self->key);
  g_free (self->name);
  g_free (self->note);
  g_free (self->source);
  g_free (self->unknown_json);
}

void
odd_finish_unref (OddFinish *self)
{
  g_atomic_rc_box_release_full (self, clear);
}

/* --- those that ship --- */

/* The strings are lent by @object and by the translations; odd_finish_new() copies them. */
static OddOperation
read_operation (JsonObject *object)
{
  OddOperation operation = { 0 };

  if (!odd_operation_kind_from_nick (json_object_get_string_member (object, "kind"), &operation.kind) ||
      !odd_station_from_nick (json_object_get_string_member (object, "station"), &operation.station) ||
      !odd_face_from_nick (json_object_get_string_member (object, "face"), &operation.face))
    g_error ("finishes.json: an operation has a word that is not known");
  operation.stitch = (char *) json_object_get_string_member_with_default (object, "stitch", NULL);
  operation.before_joining = json_object_get_boolean_member_with_default (object, "before_joining", FALSE);
  operation.at_mm = json_object_get_double_member_with_default (object, "at_mm", 0.0);
  operation.text = (char *) _(json_object_get_string_member (object, "text"));
  return operation;
}

static OddFinish *
read_finish (JsonObject *object,
             OddId       id)
{
  JsonArray *plies = json_object_get_array_member (object, "plies");
  JsonArray *list = json_object_get_array_member (object, "operations");
  const guint n = json_array_get_length (list);
  g_autofree OddOperation *operations = g_new (OddOperation, n);
  g_autoptr(GError) error = NULL;
  OddFinish *finish;
  const OddFinish values = {
    .id = id,
    .key = (char *) json_object_get_string_member (object, "key"),
    .name = (char *) _(json_object_get_string_member (object, "name")),
    .allowance_mm = json_object_get_double_member (object, "allowance_mm"),
    .min_allowance_mm = json_object_get_double_member (object, "min_allowance_mm"),
    .width_kept_mm = json_object_get_double_member (object, "width_kept_mm"),
    .plies = { json_array_get_int_element (plies, 0), json_array_get_int_element (plies, 1) },
    .may_open = json_object_get_boolean_member (object, "may_open"),
    .operations = operations,
    .n_operations = n,
    .note = (char *) _(json_object_get_string_member (object, "note")),
    .source = (char *) json_object_get_string_member (object, "source"),
  };

  for (guint i = 0; i < n; i++)
    operations[i] = read_operation (json_array_get_object_element (list, i));
  finish = odd_finish_new (&values, &error);
  if (finish == NULL)
    g_error ("finishes.json: %s", error->message);
  return finish;
}

GPtrArray *
odd_finish_shipped (void)
{
  g_autoptr(GPtrArray) finishes = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_finish_unref);
  g_autoptr(JsonParser) parser = json_parser_new_immutable ();
  g_autoptr(GBytes) bytes = NULL;
  g_autoptr(GError) error = NULL;
  JsonArray *list;

  bytes = g_resources_lookup_data ("/io/github/oddment/Oddment/finishes.json", G_RESOURCE_LOOKUP_FLAGS_NONE, &error);
  if (bytes == NULL || !json_parser_load_from_data (parser, g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes), &error))
    g_error ("finishes.json: %s", error->message);

  list = json_node_get_array (json_parser_get_root (parser));
  for (guint i = 0; i < json_array_get_length (list); i++)
    g_ptr_array_add (finishes, read_finish (json_array_get_object_element (list, i), i + 1));
  return g_steal_pointer (&finishes);
}

/* --- questions --- */

guint
odd_finish_first_sew (const OddFinish *self)
{
  guint i = 0;

  g_return_val_if_fail (self != NULL, 0);

  while (self->operations[i].kind != ODD_OPERATION_SEW)
    i++;
  return i;
}

guint
odd_finish_ready_to_cross (const OddFinish *self)
{
  guint made_fast = 0;

  g_return_val_if_fail (self != NULL, 0);

  for (guint i = self->n_operations; i-- > 0; )
    if (self->operations[i].kind == ODD_OPERATION_PRESS && i > odd_finish_first_sew (self))
      return i;
  for (guint i = 0; i < self->n_operations; i++)
    if (self->operations[i].kind == ODD_OPERATION_SEW || self->operations[i].kind == ODD_OPERATION_NEATEN)
      made_fast = i;
  return made_fast;
}

OddPressed
odd_pressed_resolve (OddPressed       pressed,
                     const OddFinish *finish)
{
  if (pressed != ODD_PRESSED_BY_RULE)
    return pressed;
  return finish != NULL && finish->may_open ? ODD_PRESSED_OPEN : ODD_PRESSED_TO_FIRST;
}
