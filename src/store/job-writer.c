#include "config.h"

#include "store/job-writer.h"

#include <string.h>
#include "store/job-reader.h"
#include "store/measure-json.h"
#include "store/record-file.h"
#include "store/value-writer.h"
#include "store/zip.h"

/* --- trees --- */

static void
print_progress (OddPrinter *printer, const OddProgress *progress)
{
  const guint n = odd_progress_get_n (progress);

  if (n == 0)
    {
      odd_printer_absent (printer, "progress");
      return;
    }
  odd_printer_begin_array (printer, "progress", n, FALSE);
  for (guint i = 0; i < n; i++)
    {
      const char *reason = odd_progress_get_reason (progress, i);

      if (odd_progress_get_state (progress, i) != ODD_STATE_SKIPPED || !reason)
        odd_printer_string (printer, NULL, odd_state_get_nick (odd_progress_get_state (progress, i)));
      else
        {
          odd_printer_begin_object (printer, NULL, NULL);
          odd_printer_string (printer, "skipped", reason);
          odd_printer_end_object (printer);
        }
    }
  odd_printer_end_array (printer);
}

static void
print_flags (OddPrinter *printer, const char *member, const gboolean flags[2])
{
  if (!flags[0] && !flags[1])
    return;
  odd_printer_begin_array (printer, member, 2, FALSE);
  odd_printer_bool (printer, NULL, flags[0]);
  odd_printer_bool (printer, NULL, flags[1]);
  odd_printer_end_array (printer);
}

static void
print_seam (OddPrinter *printer, const OddSeam *seam, gboolean with_line)
{
  odd_printer_begin_object (printer, NULL, seam->unknown_json);
  odd_printer_uint (printer, "id", seam->id);
  if (with_line)
    {
      odd_printer_point (printer, "normal", seam->line.normal);
      odd_printer_double (printer, "at_mm", seam->line.offset_mm);
    }
  odd_print_treatment (printer, &seam->treatment);
  if (seam->pressed_to != ODD_PRESSED_BY_RULE)
    odd_printer_string (printer, "pressed", odd_pressed_get_nick (seam->pressed_to));
  print_progress (printer, seam->progress);
  print_flags (printer, "secured", seam->end_secured);
  print_flags (printer, "cut", seam->end_cut);
  if (seam->sewn_mm > 0.0)
    odd_printer_double (printer, "sewn_mm", seam->sewn_mm);
  if (seam->squared)
    odd_printer_bool (printer, "squared", TRUE);
  odd_printer_end_object (printer);
}

static void
print_seams (OddPrinter *printer, const char *member, const OddSeam *seams, guint n, gboolean with_line)
{
  odd_printer_begin_array (printer, member, n, FALSE);
  for (guint i = 0; i < n; i++)
    print_seam (printer, &seams[i], with_line);
  odd_printer_end_array (printer);
}

static void
print_strip_members (OddPrinter *printer, const OddNode *strip)
{
  odd_printer_begin_array (printer, "parts", strip->n_parts, FALSE);
  for (guint i = 0; i < strip->n_parts; i++)
    odd_printer_uint (printer, NULL, strip->parts[i]->id);
  odd_printer_end_array (printer);
  odd_print_treatment (printer, &strip->treatment);
  odd_print_measure (printer, strip->measure);
  print_seams (printer, "seams", strip->seams, strip->n_parts - 1, TRUE);
}

static void
print_patch_members (OddPrinter *printer, const OddNode *patch)
{
  odd_printer_uint (printer, "scrap", patch->scrap_id);
  odd_printer_double (printer, "turn_deg", patch->placement.turn_deg);
  if (patch->placement.mirror)
    odd_printer_bool (printer, "mirror", TRUE);
  odd_printer_point (printer, "shift_mm", patch->placement.shift);
  if (patch->cut != ODD_STATE_OPEN)
    odd_printer_string (printer, "cut", odd_state_get_nick (patch->cut));
  if (patch->stayed != ODD_STATE_OPEN)
    odd_printer_string (printer, "stayed", odd_state_get_nick (patch->stayed));
}

static const char *
get_kind_word (const OddNode *node)
{
  if (node->kind == ODD_NODE_STRIP)
    return "strip";
  return node->scrap_id != 0 ? "patch" : "bare";
}

static gboolean
print_node (OddNode *node, gpointer data)
{
  OddPrinter *printer = data;

  odd_printer_begin_object (printer, NULL, node->unknown_json);
  odd_printer_uint (printer, "id", node->id);
  odd_printer_string (printer, "kind", get_kind_word (node));
  if (node->locked)
    odd_printer_bool (printer, "locked", TRUE);
  if (node->kind == ODD_NODE_STRIP)
    print_strip_members (printer, node);
  else if (node->scrap_id != 0)
    print_patch_members (printer, node);
  odd_printer_end_object (printer);
  return TRUE;
}

static gboolean
count_node (OddNode *node, gpointer data)
{
  ++*(guint *) data;
  return TRUE;
}

static void
print_tree (OddPrinter *printer, OddNode *root)
{
  guint n = 0;

  odd_node_foreach (root, count_node, &n);
  odd_printer_uint (printer, "root", root->id);
  odd_printer_begin_array (printer, "nodes", n, TRUE);
  odd_node_foreach (root, print_node, printer);
  odd_printer_end_array (printer);
}

/* --- panels and textiles --- */

static void
print_edges (OddPrinter *printer, const OddPanel *panel)
{
  odd_printer_begin_array (printer, "edges", panel->outline->n, FALSE);
  for (guint i = 0; i < panel->outline->n; i++)
    {
      odd_printer_begin_object (printer, NULL, NULL);
      odd_print_treatment (printer, &panel->edges[i].treatment);
      print_progress (printer, panel->edges[i].progress);
      odd_printer_end_object (printer);
    }
  odd_printer_end_array (printer);
}

void
odd_print_panel (OddPrinter *printer, const char *member, const OddPanel *panel, const OddHung *hung)
{
  odd_printer_begin_object (printer, member, panel->unknown_json);
  odd_printer_uint (printer, "id", panel->id);
  odd_printer_string (printer, "name", panel->name);
  if (hung && hung->offset_mm != 0.0)
    odd_printer_double (printer, "offset_mm", hung->offset_mm);
  if (hung && hung->half_turn)
    odd_printer_bool (printer, "half_turn", TRUE);
  if (hung && hung->ease_mm > 0.0)
    odd_printer_double (printer, "ease_mm", hung->ease_mm);
  odd_print_treatment (printer, &panel->treatment);
  if (panel->locked)
    odd_printer_bool (printer, "locked", TRUE);
  odd_print_measure (printer, panel->measure);
  odd_printer_points (printer, "outline_mm", panel->outline->points, panel->outline->n);
  print_edges (printer, panel);
  print_tree (printer, panel->root);
  odd_printer_end_object (printer);
}

static void
print_textile (OddPrinter *printer, const OddTextile *textile)
{
  odd_printer_begin_object (printer, NULL, textile->unknown_json);
  odd_printer_uint (printer, "id", textile->id);
  odd_printer_string (printer, "name", textile->name);
  odd_print_treatment (printer, &textile->treatment);
  odd_printer_point (printer, "target_mm", odd_point (textile->target_width_mm, textile->target_length_mm));
  odd_print_measure (printer, textile->measure);
  odd_printer_begin_array (printer, "panels", textile->n_hung, TRUE);
  for (guint i = 0; i < textile->n_hung; i++)
    odd_print_panel (printer, NULL, textile->hung[i].panel, &textile->hung[i]);
  odd_printer_end_array (printer);
  print_seams (printer, "joins", textile->joins, textile->n_hung > 0 ? textile->n_hung - 1 : 0, FALSE);
  odd_printer_end_object (printer);
}

/* --- the job --- */

/* Left out where it is what a new job has. */
static void
print_setting (OddPrinter *printer, const char *member, double value, double first)
{
  if (value != first)
    odd_printer_double (printer, member, value);
}

static void
print_speed (OddPrinter *printer, const char *member, double value)
{
  if (value > 0.0)
    odd_printer_double (printer, member, value);
}

static void
print_speeds (OddPrinter *printer, const OddSpeeds *speeds)
{
  if (speeds->sewing_per_min <= 0.0 && speeds->overlocker_per_min <= 0.0 && speeds->handling_s <= 0.0 && speeds->pressing_s_per_m <= 0.0 &&
      speeds->stitch_mm <= 0.0 && speeds->walk_s <= 0.0)
    return;
  odd_printer_begin_object (printer, "speeds", NULL);
  print_speed (printer, "sewing_per_min", speeds->sewing_per_min);
  print_speed (printer, "overlocker_per_min", speeds->overlocker_per_min);
  print_speed (printer, "handling_s", speeds->handling_s);
  print_speed (printer, "pressing_s_per_m", speeds->pressing_s_per_m);
  print_speed (printer, "stitch_mm", speeds->stitch_mm);
  print_speed (printer, "walk_s", speeds->walk_s);
  odd_printer_end_object (printer);
}

static void
print_head (OddPrinter *printer, const OddJob *job)
{
  const OddSettings first = ODD_SETTINGS_FIRST;

  odd_printer_string (printer, "format", ODD_JOB_FORMAT);
  odd_printer_begin_object (printer, "version", NULL);
  odd_printer_uint (printer, "major", ODD_JOB_MAJOR);
  odd_printer_uint (printer, "minor", ODD_JOB_MINOR);
  odd_printer_end_object (printer);
  odd_printer_uint (printer, "next_id", job->next_id);
  odd_print_treatment (printer, &job->treatment);
  odd_printer_begin_object (printer, "settings", NULL);
  odd_printer_double (printer, "usable_square_mm", job->settings.usable_square_mm);
  odd_printer_double (printer, "min_side_mm", job->settings.min_side_mm);
  odd_printer_double (printer, "column_width_mm", job->settings.column_width_mm);
  print_setting (printer, "fold_loss_mm", job->settings.fold_loss_mm, first.fold_loss_mm);
  print_setting (printer, "scatter_mm", job->settings.scatter_mm, first.scatter_mm);
  print_setting (printer, "bias_mm", job->settings.bias_mm, first.bias_mm);
  print_setting (printer, "ease_percent", job->settings.ease_percent, first.ease_percent);
  print_setting (printer, "mass_ratio", job->settings.mass_ratio, first.mass_ratio);
  print_setting (printer, "shrink_gap_mm", job->settings.shrink_gap_mm, first.shrink_gap_mm);
  print_setting (printer, "light_from", job->settings.light_from, first.light_from);
  print_setting (printer, "stay_from_deg", job->settings.stay_from_deg, first.stay_from_deg);
  print_setting (printer, "stay_from_mm", job->settings.stay_from_mm, first.stay_from_mm);
  print_speeds (printer, &job->settings.speeds);
  odd_printer_end_object (printer);
}

static void
print_values (OddPrinter *printer, const OddJob *job)
{
  odd_printer_begin_array (printer, "finishes", job->finishes->len, TRUE);
  for (guint i = 0; i < job->finishes->len; i++)
    odd_print_finish (printer, job->finishes->pdata[i]);
  odd_printer_end_array (printer);
  odd_printer_begin_array (printer, "fabrics", job->fabrics->len, TRUE);
  for (guint i = 0; i < job->fabrics->len; i++)
    odd_print_fabric (printer, job->fabrics->pdata[i], ((OddFabric *) job->fabrics->pdata[i])->id);
  odd_printer_end_array (printer);
  odd_printer_begin_array (printer, "scraps", job->scraps->len, TRUE);
  for (guint i = 0; i < job->scraps->len; i++)
    odd_print_scrap (printer, job->scraps->pdata[i], FALSE, NULL);
  odd_printer_end_array (printer);
}

static void
print_work (OddPrinter *printer, const OddJob *job)
{
  odd_printer_begin_array (printer, "loose_panels", job->loose_panels->len, TRUE);
  for (guint i = 0; i < job->loose_panels->len; i++)
    odd_print_panel (printer, NULL, job->loose_panels->pdata[i], NULL);
  odd_printer_end_array (printer);
  odd_printer_begin_array (printer, "textiles", job->textiles->len, TRUE);
  for (guint i = 0; i < job->textiles->len; i++)
    print_textile (printer, job->textiles->pdata[i]);
  odd_printer_end_array (printer);
}

GBytes *
odd_job_write_json (OddJob *self, GError **error)
{
  g_autoptr(OddPrinter) printer = odd_printer_new ();

  g_return_val_if_fail (self != NULL, NULL);

  odd_printer_begin_object (printer, NULL, self->unknown_json);
  print_head (printer, self);
  print_values (printer, self);
  print_work (printer, self);
  odd_print_record (printer, self->record);
  odd_printer_end_object (printer);
  return odd_printer_finish (printer, error);
}

static int
compare_pictures (gconstpointer a, gconstpointer b)
{
  return strcmp ((*(OddPicture *const *) a)->name, (*(OddPicture *const *) b)->name);
}

static void
add_pictures (GPtrArray *entries, GPtrArray *pictures)
{
  g_autoptr(GPtrArray) sorted = g_ptr_array_copy (pictures, NULL, NULL);

  g_ptr_array_set_free_func (sorted, NULL);
  g_ptr_array_sort (sorted, compare_pictures);
  for (guint i = 0; i < sorted->len; i++)
    {
      const OddPicture *picture = sorted->pdata[i];
      g_autofree char *name = g_strconcat (ODD_JOB_PICTURES, picture->name, NULL);

      if (picture->bytes)
        g_ptr_array_add (entries, odd_zip_entry_new (name, picture->bytes));
    }
}

GBytes *
odd_job_write_bytes (OddJob *self, GError **error)
{
  g_autoptr(GBytes) json = odd_job_write_json (self, error);
  g_autoptr(GPtrArray) entries = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_zip_entry_free);

  if (!json)
    return NULL;
  g_ptr_array_add (entries, odd_zip_entry_new (ODD_JOB_ENTRY, json));
  add_pictures (entries, self->pictures);
  return odd_zip_write (entries, error);
}
