/* What a task's line says. Made when asked for: a plan has thousands of tasks, a screen shows ten. */
#include "config.h"

#include "sewing/bulk.h"
#include "sewing/plan-graph.h"
#include "sewing/stage.h"

#include <glib/gi18n.h>

static const OddSheet *
get_sheet (const OddGraph *graph,
           OddId           panel_id)
{
  for (guint i = 0; i < graph->sheets->len; i++)
    if (g_array_index (graph->sheets, OddSheet, i).panel_id == panel_id)
      return &g_array_index (graph->sheets, OddSheet, i);
  return NULL;
}

/* How far from the raw edge, from the seam, or what is left. The one pass of a plain seam runs at the allowance. */
static double
get_distance (const OddTaskFacts *facts)
{
  if (facts->operation->at_mm > 0.0)
    return facts->operation->at_mm;
  return facts->operation->kind == ODD_OPERATION_SEW ? facts->allowance_mm : 0.0;
}

static void
get_seam_facts (const OddGraph    *graph,
                const OddSeamWork *work,
                OddTaskFacts      *out)
{
  out->textile = work->textile;
  out->seam = work->seam;
  out->finish = work->finish;
  out->pressed_to = work->seam->pressed_to;
  out->length_mm = odd_graph_get_length (graph, work);
  if (work->sheet < 0)
    {
      out->join = &work->textile->joins[work->index];
      out->allowance_mm = out->join->allowance_mm;
      return;
    }
  out->layout = g_array_index (graph->sheets, OddSheet, work->sheet).layout;
  out->laid = &out->layout->seams[work->index];
  out->allowance_mm = out->laid->allowance_mm;
}

void
odd_plan_get_facts (const OddPlan *self,
                    guint          task,
                    OddTaskFacts  *out)
{
  const OddTaskKey *key;
  const OddGraph *graph;

  g_return_if_fail (self != NULL && task < self->n_tasks && out != NULL);

  key = &self->tasks[task].key;
  graph = self->graph;
  *out = (OddTaskFacts) { .face = ODD_FACE_ONE_LAYER };
  if (key->kind == ODD_TASK_CUT)
    {
      const OddSheet *sheet = get_sheet (graph, self->tasks[task].panel_id);

      out->layout = sheet->layout;
      out->textile = sheet->textile;
      out->patch = odd_layout_find_patch (sheet->layout, key->id);
      return;
    }
  get_seam_facts (graph, &graph->works[self->tasks[task].at], out);
  if (key->kind == ODD_TASK_SECURE)
    return;
  out->operation = &out->finish->operations[key->index];
  out->face = out->operation->face;
  out->distance_mm = get_distance (out);
}

char *
odd_plan_dup_part (OddPlan *self,
                   guint    task,
                   guint    side)
{
  OddTaskFacts facts;

  g_return_val_if_fail (self != NULL && task < self->n_tasks && side < 2, NULL);

  odd_plan_get_facts (self, task, &facts);
  if (facts.patch != NULL)
    return g_strdup_printf ("%u", facts.patch->number);
  if (facts.join != NULL)
    {
      const guint place = facts.join - facts.textile->joins;

      return odd_job_dup_panel_name (((OddGraph *) self->graph)->job, facts.textile->textile->hung[place + side].panel);
    }
  return odd_layout_dup_side (facts.layout, facts.laid - facts.layout->seams, side);
}

char *
odd_plan_dup_name (OddPlan *self,
                   guint    task)
{
  g_autofree char *first = NULL;
  g_autofree char *second = NULL;

  g_return_val_if_fail (self != NULL && task < self->n_tasks, NULL);

  first = odd_plan_dup_part (self, task, 0);
  if (self->tasks[task].key.kind == ODD_TASK_CUT)
    return g_steal_pointer (&first);
  second = odd_plan_dup_part (self, task, 1);
  return g_strdup_printf (_("%s to %s"), first, second);
}

/* Allowances and passes are told in millimetres where lengths are in centimetres. */
static char *
format_small (double  mm,
              OddUnit unit)
{
  return odd_length_format (mm, unit == ODD_UNIT_CM ? ODD_UNIT_MM : unit);
}

static const char *
get_face_text (OddFace face)
{
  switch (face)
    {
    case ODD_FACE_RIGHT_SIDES:
      return _("right sides together");
    case ODD_FACE_WRONG_SIDES:
      return _("wrong sides together");
    case ODD_FACE_ONE_LAYER:
    default:
      return _("lying flat");
    }
}

static guint
count_passes (const OddFinish *finish,
              guint            up_to)
{
  guint n = 0;

  for (guint i = 0; i < up_to; i++)
    n += finish->operations[i].kind == ODD_OPERATION_SEW;
  return n;
}

/* As the cloth is seen from its right side. */
static const char *
get_end_text (gboolean level,
              gboolean leads)
{
  if (level)
    return leads ? _("left end") : _("right end");
  return leads ? _("upper end") : _("lower end");
}

/* Where the ends lean: how far apart the raw corners must stand for the seam lines to meet. NULL: square ends, or not the first pass. */
static char *
dup_meeting (const OddTaskFacts *facts,
             guint               pass,
             OddUnit             unit)
{
  const OddEnd *ends = facts->laid != NULL ? facts->laid->ends : facts->join->ends;
  const double apart_mm[2] = { odd_meeting_offset (facts->allowance_mm, ends[0].angle_deg), odd_meeting_offset (facts->allowance_mm, ends[1].angle_deg) };
  const OddSegment line = facts->laid != NULL ? facts->laid->finished : facts->join->finished;
  const gboolean level = fabs (line.to.x - line.from.x) >= fabs (line.to.y - line.from.y);
  const gboolean from_leads = level ? line.from.x <= line.to.x : line.from.y <= line.to.y;
  const gboolean leans[2] = { apart_mm[0] >= ODD_MEETING_LEAST_MM, apart_mm[1] >= ODD_MEETING_LEAST_MM };
  g_autofree char *first = format_small (apart_mm[0], unit);
  g_autofree char *second = format_small (apart_mm[1], unit);

  if (pass > 1 || !(leans[0] || leans[1]))
    return NULL;
  if (leans[0] != leans[1])
    /* Translators: a length, "left end" ... as the cloth is seen from its right side */
    return g_strdup_printf (_("raw corners %s apart at the %s"), leans[0] ? first : second, get_end_text (level, leans[0] == from_leads));
  if (g_str_equal (first, second))
    return g_strdup_printf (_("raw corners %s apart at both ends"), first);
  return g_strdup_printf (_("raw corners %s apart at the %s, %s at the %s"), from_leads ? first : second, get_end_text (level, TRUE),
                          from_leads ? second : first, get_end_text (level, FALSE));
}

static char *
dup_sewing (const OddTaskFacts *facts,
            const OddTask      *task,
            const char         *name,
            OddUnit             unit)
{
  const guint pass = count_passes (facts->finish, task->key.index) + 1;
  g_autofree char *distance = format_small (facts->distance_mm, unit);
  g_autofree char *meeting = dup_meeting (facts, pass, unit);
  g_autofree char *line = NULL;

  if (count_passes (facts->finish, facts->finish->n_operations) == 1)
    /* Translators: two parts, which sides lie together, distance from the raw edge: "Sew 3 to 5, right sides together, 12.7 mm" */
    line = g_strdup_printf (_("Sew %s, %s, %s"), name, get_face_text (facts->face), distance);
  else
    /* Translators: number of the pass, two parts, which sides lie together, distance: "Pass 2: sew 3 to 5, right sides together, 6.4 mm" */
    line = g_strdup_printf (_("Pass %u: sew %s, %s, %s"), pass, name, get_face_text (facts->face), distance);
  if (meeting != NULL)
    {
      g_autofree char *plain = g_steal_pointer (&line);

      line = g_strdup_printf ("%s; %s", plain, meeting);
    }
  if (task->secure == 0)
    return g_steal_pointer (&line);
  /* Translators: follows "Sew 3 to 5, right sides together, 12.7 mm" */
  return g_strdup_printf (task->secure == 3 ? _("%s; back-stitch both ends") : _("%s; back-stitch at the outer edge"), line);
}

static char *
dup_operation (const OddTaskFacts *facts,
               const OddTask      *task,
               const char         *name,
               OddUnit             unit)
{
  g_autofree char *distance = NULL;

  if (facts->operation->kind == ODD_OPERATION_SEW)
    return dup_sewing (facts, task, name, unit);
  if (facts->distance_mm <= 0.0)
    /* Translators: an operation and the parts it concerns: "Overlock both edges together: 3 to 5" */
    return g_strdup_printf (_("%s: %s"), facts->operation->text, name);
  distance = format_small (facts->distance_mm, unit);
  if (facts->operation->kind == ODD_OPERATION_TRIM)
    /* Translators: "Trim both edges together: 3 to 5, down to 6.4 mm" */
    return g_strdup_printf (_("%s: %s, down to %s"), facts->operation->text, name, distance);
  /* Translators: "Topstitch beside the seam: 3 to 5, at 6.4 mm" */
  return g_strdup_printf (_("%s: %s, at %s"), facts->operation->text, name, distance);
}

static gboolean
is_last_press (const OddFinish *finish,
               guint            operation)
{
  if (finish->operations[operation].kind != ODD_OPERATION_PRESS)
    return FALSE;
  for (guint i = operation + 1; i < finish->n_operations; i++)
    if (finish->operations[i].kind == ODD_OPERATION_PRESS)
      return FALSE;
  return TRUE;
}

char *
odd_plan_dup_pressing (OddPlan *self,
                       guint    task)
{
  OddTaskFacts facts;
  OddPressed pressed;
  g_autofree char *part = NULL;

  g_return_val_if_fail (self != NULL && task < self->n_tasks, NULL);

  odd_plan_get_facts (self, task, &facts);
  if (facts.operation == NULL || !is_last_press (facts.finish, self->tasks[task].key.index))
    return NULL;
  pressed = odd_pressed_resolve (facts.pressed_to, facts.finish);
  if (pressed == ODD_PRESSED_OPEN)
    return facts.finish->may_open ? NULL : g_strdup (_("Allowances open"));
  part = odd_plan_dup_part (self, task, pressed == ODD_PRESSED_TO_SECOND ? 1 : 0);
  return g_strdup_printf (_("Allowances towards %s"), part);
}

char *
odd_plan_dup_text (OddPlan *self,
                   guint    task,
                   OddUnit  unit)
{
  g_autofree char *name = odd_plan_dup_name (self, task);
  OddTaskFacts facts;

  g_return_val_if_fail (self != NULL && task < self->n_tasks, NULL);

  odd_plan_get_facts (self, task, &facts);
  switch (self->tasks[task].key.kind)
    {
    case ODD_TASK_CUT:
      /* Translators: number of the patch, number of the scrap */
      return g_strdup_printf (_("Cut patch %s out of scrap %u"), name, facts.patch->scrap->number);
    case ODD_TASK_SECURE:
      /* Translators: two parts: "3 to 5" */
      return g_strdup_printf (_("Stitch and back-stitch the cut end of the seam %s"), name);
    case ODD_TASK_OPERATION:
    default:
      return dup_operation (&facts, &self->tasks[task], name, unit);
    }
}
