/* What is folded at which width, and what lies on the canvas at which stage. libadwaita 1.2 has no breakpoints. */
#include "config.h"

#include "ui/window-private.h"

#define RIGHT_FOLDS_BELOW 860
#define LEFT_FOLDS_BELOW 640
#define SWITCHER_NARROW_BELOW 900

gboolean
odd_window_is_narrow (OddWindow *self)
{
  return self->width > 0 && self->width < LEFT_FOLDS_BELOW;
}

static gboolean
is_stage (OddWindow  *self,
          const char *stage)
{
  return g_str_equal (self->stage, stage);
}

static void
fold_flap (AdwFlap *flap,
           gboolean folded,
           gboolean wanted)
{
  const gboolean was_folded = adw_flap_get_fold_policy (flap) == ADW_FLAP_FOLD_POLICY_ALWAYS;

  adw_flap_set_fold_policy (flap, folded ? ADW_FLAP_FOLD_POLICY_ALWAYS : ADW_FLAP_FOLD_POLICY_NEVER);
  if (!folded || !was_folded || !wanted)
    adw_flap_set_reveal_flap (flap, wanted && !folded);
}

static void
show_header (OddWindow *self,
             gboolean   narrow)
{
  gtk_stack_set_visible_child_name (self->title_stack, narrow ? "title" : "switcher");
  adw_view_switcher_set_policy (self->switcher, self->width < SWITCHER_NARROW_BELOW ? ADW_VIEW_SWITCHER_POLICY_NARROW : ADW_VIEW_SWITCHER_POLICY_WIDE);
  gtk_widget_set_visible (GTK_WIDGET (self->job_title), !narrow);
  gtk_widget_set_visible (self->print_button, !narrow);
  adw_view_switcher_bar_set_reveal (self->switcher_bar, narrow);
}

void
odd_window_fold (OddWindow *self)
{
  const gboolean narrow = odd_window_is_narrow (self);
  const gboolean right_folded = self->width > 0 && self->width < RIGHT_FOLDS_BELOW;

  fold_flap (self->right_flap, right_folded, TRUE);
  fold_flap (self->left_flap, narrow, is_stage (self, "piecing"));
  gtk_widget_set_visible (GTK_WIDGET (self->detail_button), right_folded);
  gtk_widget_set_visible (GTK_WIDGET (self->strip_tray), narrow && is_stage (self, "piecing"));
  g_object_set (self->status, "narrow", narrow, NULL);
  show_header (self, narrow);
}

void
odd_window_show_stage (OddWindow *self)
{
  gtk_stack_set_visible_child_name (self->center, is_stage (self, "scraps") ? "scraps" : "table");
  g_object_set (self->canvas, "joined", is_stage (self, "textile"), NULL);
  odd_window_fold (self);
}
