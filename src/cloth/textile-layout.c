/* The textile joined: where each panel lies, the joining seams, and what the whole comes to. */
#include "config.h"

#include "cloth/layout.h"
#include "cloth/hang.h"

static void
lay_panels (OddTextileLayout *self,
            OddJob           *job,
            const OddHang    *hangs)
{
  double x = 0.0;

  self->panels = g_new0 (OddHungLayout, self->n_panels);
  for (guint i = 0; i < self->n_panels; i++)
    {
      const OddHung *hung = &self->textile->hung[i];
      OddHungLayout *at = &self->panels[i];

      at->panel_id = hung->panel->id;
      at->layout = odd_job_dup_layout (job, hung->panel->id);
      at->trim_top_mm = hangs[i].trimmed_mm[0];
      at->trim_bottom_mm = hangs[i].trimmed_mm[2];
      at->eased_mm = hangs[i].eased_mm;
      at->at = odd_point (x, 0.0);
      x += at->layout->box.width;
    }
  self->finished_width_mm = x;
}

/* Lengths in common; FALSE when the offsets leave nothing. Then the panels are shown by their offsets. */
static gboolean
lay_length (OddTextileLayout *self,
            const OddHang    *hangs)
{
  const double first_offset = self->textile->hung[0].offset_mm;
  double top = -G_MAXDOUBLE, bottom = G_MAXDOUBLE, allowance_top = 0.0, allowance_bottom = 0.0;

  for (guint i = 0; i < self->n_panels; i++)
    {
      const double at = self->textile->hung[i].offset_mm - first_offset + hangs[i].trimmed_mm[0];

      top = MAX (top, at);
      bottom = MIN (bottom, at + hangs[i].raw_mm[2] - hangs[i].raw_mm[0]);
      allowance_top = MAX (allowance_top, hangs[i].allowance_mm[0]);
      allowance_bottom = MAX (allowance_bottom, hangs[i].allowance_mm[2]);
    }
  self->raw_length_mm = MAX (bottom - top, 0.0);
  self->finished_length_mm = MAX (self->raw_length_mm - allowance_top - allowance_bottom, 0.0);
  if (self->finished_length_mm > ODD_TOLERANCE_MM)
    return TRUE;
  self->finished_length_mm = 0.0;
  for (guint i = 0; i < self->n_panels; i++)
    self->panels[i].at.y = self->textile->hung[i].offset_mm - first_offset;
  return FALSE;
}

static OddEnd
join_end (const OddSeam *join,
          guint          which)
{
  OddEnd end = { ODD_END_OPEN, -1, 0, 90.0 };

  if (join->end_cut[which] && !join->end_secured[which])
    end.kind = ODD_END_CUT;
  else if (join->end_secured[which])
    end.kind = ODD_END_BACK_STITCHED;
  return end;
}

static void
lay_joins (OddTextileLayout *self,
           OddJob           *job,
           const OddHang    *hangs)
{
  self->n_joins = self->n_panels > 0 ? self->n_panels - 1 : 0;
  self->joins = g_new0 (OddLaidJoin, self->n_joins);
  for (guint i = 0; i < self->n_joins; i++)
    {
      OddLaidJoin *laid = &self->joins[i];
      const OddHang *left = &hangs[i];
      const OddTreatment *const levels[] = { &self->textile->treatment, &self->textile->joins[i].treatment };
      const double x = self->panels[i + 1].at.x;
      const double top = MAX (self->panels[i].at.y, self->panels[i + 1].at.y);
      const double bottom = MAX (MIN (self->panels[i].at.y + self->panels[i].layout->box.height,
                                      self->panels[i + 1].at.y + self->panels[i + 1].layout->box.height), top);

      laid->join = &self->textile->joins[i];
      laid->finish = odd_finish_ref (odd_job_get_finish (job, left->finish_id[1]));
      laid->allowance_mm = left->allowance_mm[1];
      odd_job_resolve (job, levels, G_N_ELEMENTS (levels), NULL, &laid->planned_allowance_mm);
      laid->finished = (OddSegment) { odd_point (x, top), odd_point (x, bottom) };
      laid->raw = (OddSegment) { odd_point (x, top - left->allowance_mm[0]), odd_point (x, bottom + left->allowance_mm[2]) };
      laid->raw_length_mm = odd_segment_length (laid->raw);
      for (guint end = 0; end < 2; end++)
        laid->ends[end] = join_end (laid->join, end);
    }
}

static void
measure_against_target (OddTextileLayout *self)
{
  const double over_width = self->finished_width_mm - self->textile->target_width_mm;
  const double over_length = self->finished_length_mm - self->textile->target_length_mm;

  if (self->textile->target_width_mm > 0.0)
    {
      self->missing_width_mm = MAX (-over_width, 0.0);
      self->surplus_width_mm = MAX (over_width, 0.0);
    }
  if (self->textile->target_length_mm > 0.0)
    {
      self->missing_length_mm = MAX (-over_length, 0.0);
      self->surplus_length_mm = MAX (over_length, 0.0);
    }
}

OddTextileLayout *
odd_job_dup_textile_layout (OddJob *self,
                            OddId   textile_id)
{
  OddTextile *textile = odd_job_get_textile (self, textile_id);
  OddTextileLayout *layout;
  g_autofree OddHang *hangs = NULL;

  g_return_val_if_fail (textile != NULL, NULL);

  layout = g_atomic_rc_box_new0 (OddTextileLayout);
  layout->textile = odd_textile_ref (textile);
  layout->n_panels = textile->n_hung;
  if (textile->n_hung > 0)
    {
      hangs = odd_textile_hang (self, textile);
      lay_panels (layout, self, hangs);
      lay_length (layout, hangs);
      lay_joins (layout, self, hangs);
      layout->raw_width_mm = layout->finished_width_mm + hangs[0].allowance_mm[3] + hangs[textile->n_hung - 1].allowance_mm[1];
    }
  measure_against_target (layout);
  return layout;
}

OddTextileLayout *
odd_textile_layout_ref (OddTextileLayout *self)
{
  return g_atomic_rc_box_acquire (self);
}

static void
textile_layout_clear (gpointer data)
{
  OddTextileLayout *self = data;

  for (guint i = 0; i < self->n_panels; i++)
    odd_layout_unref (self->panels[i].layout);
  for (guint i = 0; i < self->n_joins; i++)
    odd_finish_unref (self->joins[i].finish);
  g_free (self->panels);
  g_free (self->joins);
  odd_textile_unref (self->textile);
}

void
odd_textile_layout_unref (OddTextileLayout *self)
{
  g_atomic_rc_box_release_full (self, textile_layout_clear);
}

guint
odd_textile_layout_panels_missing (const OddTextileLayout *self)
{
  if (self->n_panels == 0 || self->missing_width_mm <= 0.05)
    return 0;
  return (guint) ceil ((self->missing_width_mm - 0.05) * self->n_panels / self->finished_width_mm);
}
