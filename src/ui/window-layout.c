/* What is folded at which width, and what lies on the canvas at which stage. libadwaita 1.2 has no breakpoints. */
#include "config.h"

#include "ui/window-private.h"

#define RIGHT_FOLDS_BELOW 860
#define LEFT_FOLDS_BELOW 640
/* Room that the four counts of the line below need. */
#define COUNTS_NEED 700
/* At the sewing table the list has more than half of the window. */
#define WORK_SHARE 0.56

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
  adw_squeezer_page_set_enabled (adw_squeezer_get_page (self->title_squeezer, self->switcher), !narrow);
  adw_squeezer_page_set_enabled (adw_squeezer_get_page (self->title_squeezer, self->slim_switcher), !narrow);
  gtk_widget_set_visible (GTK_WIDGET (self->job_title), !narrow);
  gtk_widget_set_visible (self->print_button, !narrow);
  adw_view_switcher_bar_set_reveal (self->switcher_bar, narrow);
}

static int
center_width (OddWindow *self)
{
  int width = self->width > 0 ? self->width : G_MAXINT;

  if (adw_flap_get_fold_policy (self->left_flap) == ADW_FLAP_FOLD_POLICY_NEVER && adw_flap_get_reveal_flap (self->left_flap))
    width -= 233;
  if (adw_flap_get_fold_policy (self->right_flap) == ADW_FLAP_FOLD_POLICY_NEVER && adw_flap_get_reveal_flap (self->right_flap))
    width -= is_stage (self, "work") ? (int) (self->width * WORK_SHARE) : 301;
  return width;
}

/* Where panes fold, the list is all there is. */
static void
show_work (OddWindow *self,
           gboolean   folded)
{
  const gboolean work = is_stage (self, "work");
  const int width = self->width > 0 ? self->width : 1280;

  gtk_stack_set_visible_child_name (self->right_stack, work ? "work" : "detail");
  g_object_set (self->work, "active", work, "narrow", folded && width < LEFT_FOLDS_BELOW, NULL);
  gtk_widget_set_size_request (GTK_WIDGET (self->right_stack), work ? (folded ? width : (int) (width * WORK_SHARE)) : 300, -1);
}

void
odd_window_fold (OddWindow *self)
{
  const gboolean narrow = odd_window_is_narrow (self);
  const gboolean right_folded = self->width > 0 && self->width < RIGHT_FOLDS_BELOW;

  show_work (self, right_folded);
  fold_flap (self->right_flap, right_folded, TRUE);
  fold_flap (self->left_flap, narrow, is_stage (self, "piecing"));
  gtk_widget_set_visible (GTK_WIDGET (self->detail_button), right_folded);
  gtk_widget_set_visible (GTK_WIDGET (self->strip_tray), narrow && is_stage (self, "piecing"));
  gtk_widget_set_visible (self->page_head, !narrow);
  g_object_set (self->status, "narrow", narrow || center_width (self) < COUNTS_NEED, NULL);
  show_header (self, narrow);
}

void
odd_window_show_stage (OddWindow *self)
{
  gtk_stack_set_visible_child_name (self->center, is_stage (self, "scraps") ? "scraps" : "table");
  g_object_set (self->canvas, "joined", is_stage (self, "textile"), NULL);
  odd_window_fold (self);
  /* another stage, another view: what slid over the last one goes */
  if (adw_flap_get_fold_policy (self->right_flap) == ADW_FLAP_FOLD_POLICY_ALWAYS)
    adw_flap_set_reveal_flap (self->right_flap, is_stage (self, "work"));
}
