#include "config.h"

#include "ui/work-ends.h"

#include <glib/gi18n.h>

#include "sewing/ends.h"
#include "sewing/found.h"
#include "sewing/piece-ends.h"
#include "ui/deed.h"

/* --- one end, as the list knows it --- */

#define ODD_TYPE_END_ITEM (odd_end_item_get_type ())
G_DECLARE_FINAL_TYPE (OddEndItem, odd_end_item, ODD, END_ITEM, GObject)

struct _OddEndItem
{
  GObject parent_instance;
  OddId seam_id;
  OddId scrap_id;             /* of the pieced scrap it lies in, else 0 */
  guint end;
  OddEndKind kind;
  gboolean sewn;
  char *piece_text;           /* in a pieced scrap; else it is looked up when it is shown */
};

G_DEFINE_FINAL_TYPE (OddEndItem, odd_end_item, G_TYPE_OBJECT)

static void
odd_end_item_finalize (GObject *object)
{
  g_free (ODD_END_ITEM (object)->piece_text);
  G_OBJECT_CLASS (odd_end_item_parent_class)->finalize (object);
}

static void
odd_end_item_class_init (OddEndItemClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = odd_end_item_finalize;
}

static void
odd_end_item_init (OddEndItem *self)
{
}

static OddEndItem *
item_new (const OddSeamEnd *end)
{
  OddEndItem *self = g_object_new (ODD_TYPE_END_ITEM, NULL);

  self->seam_id = end->seam_id;
  self->end = end->end;
  self->kind = end->kind;
  self->sewn = end->sewn;
  return self;
}

static OddEndItem *
item_new_in_piece (const OddPieceEnd *end)
{
  OddEndItem *self = g_object_new (ODD_TYPE_END_ITEM, NULL);

  self->seam_id = end->seam_id;
  self->scrap_id = end->scrap_id;
  self->end = end->end;
  self->kind = ODD_END_CUT;
  self->sewn = TRUE;
  self->piece_text = g_strdup (end->text);
  return self;
}

static gboolean
is_same (const OddEndItem *a,
         const OddEndItem *b)
{
  return a->seam_id == b->seam_id && a->scrap_id == b->scrap_id && a->end == b->end;
}

/* --- words --- */

/* As one sees the seam on the table. */
static const char *
side_text (OddSegment finished,
           guint      end)
{
  const OddPoint at = end == 0 ? finished.from : finished.to;
  const OddPoint other = end == 0 ? finished.to : finished.from;

  if (fabs (at.x - other.x) >= fabs (at.y - other.y))
    return at.x < other.x ? _("left end") : _("right end");
  return at.y < other.y ? _("upper end") : _("lower end");
}

static char *
dup_title (OddEndItem *item,
           OddJob     *job)
{
  g_auto(OddFound) found = { 0 };
  g_autofree char *name = NULL;

  if (item->scrap_id != 0)
    return g_strdup (item->piece_text);
  if (!odd_found_init (&found, job, item->seam_id, NULL))
    return g_strdup ("");
  name = odd_found_dup_name (&found, job);
  return g_strdup_printf ("%s, %s", name,
                          side_text (found.panel != NULL ? found.layout->seams[found.index].finished : found.textile->joins[found.index].finished, item->end));
}

static char *
dup_place (OddEndItem *item,
           OddJob     *job)
{
  g_auto(OddFound) found = { 0 };
  OddScrap *scrap = item->scrap_id != 0 ? odd_job_get_scrap (job, item->scrap_id) : NULL;

  if (scrap != NULL)
    return g_strdup_printf (_("Scrap %u, pieced"), scrap->number);
  if (!odd_found_init (&found, job, item->seam_id, NULL))
    return g_strdup ("");
  return found.panel != NULL ? odd_job_dup_panel_name (job, found.panel) : g_strdup (_("Join"));
}

static const char *
state_text (const OddEndItem *item)
{
  switch (item->kind)
    {
    case ODD_END_CAUGHT: return _("caught by another seam");
    case ODD_END_BACK_STITCHED: return _("secured");
    case ODD_END_CUT: return _("cut: stitch straight over it and back-stitch at the cut");
    case ODD_END_OPEN:
    default: return item->sewn ? _("open at the edge: back-stitch or baste it") : _("open at the edge: back-stitch as the seam is sewn");
    }
}

/* --- the window --- */

struct _OddWorkEnds
{
  AdwWindow parent_instance;
  OddDocument *document;
  OddSelection *selection;
  OddId textile_id;
  GListStore *items;
  GtkSingleSelection *choice;
  GPtrArray *ticks;           /* OddEndItem: ticked in this window, in that order */
  gboolean filling;

  GtkToggleButton *all;
  GtkLabel *counts;
  GtkStack *stack;
  GtkListView *list;
};

G_DEFINE_FINAL_TYPE (OddWorkEnds, odd_work_ends, ADW_TYPE_WINDOW)

static void
show_counts (OddWorkEnds *self,
             const guint  n[4],
             guint        n_in_pieces)
{
  g_autoptr(GString) text = g_string_new (NULL);

  g_string_append_printf (text, ngettext ("%u open at an edge", "%u open at an edge", n[ODD_END_OPEN]), n[ODD_END_OPEN]);
  g_string_append (text, ", ");
  g_string_append_printf (text, ngettext ("%u cut", "%u cut", n[ODD_END_CUT]), n[ODD_END_CUT]);
  if (n_in_pieces > 0)
    g_string_append_printf (text, ngettext (" (%u of it in a pieced scrap)", " (%u of them in pieced scraps)", n_in_pieces), n_in_pieces);
  g_string_append_printf (text, _(", %u caught, %u secured"), n[ODD_END_CAUGHT], n[ODD_END_BACK_STITCHED]);
  gtk_label_set_text (self->counts, text->str);
}

/* (transfer full) (element-type OddEndItem), counted by kind. */
static GPtrArray *
dup_items (OddWorkEnds *self,
           guint        n[4],
           guint       *n_in_pieces)
{
  OddJob *job = odd_document_get_job (self->document);
  g_autoptr(GArray) ends = odd_job_dup_ends (job, self->textile_id);
  const gboolean all = gtk_toggle_button_get_active (self->all);
  GPtrArray *items = g_ptr_array_new_with_free_func (g_object_unref);

  for (guint i = 0; i < ends->len; i++)
    {
      const OddSeamEnd *end = &g_array_index (ends, OddSeamEnd, i);

      n[end->kind]++;
      if (all || odd_end_wants_securing (end->kind))
        g_ptr_array_add (items, item_new (end));
    }
  for (guint i = 0; i < job->scraps->len; i++)
    {
      g_autoptr(GArray) cut = odd_job_dup_piece_ends (job, job->scraps->pdata[i]);

      for (guint k = 0; k < cut->len; k++)
        g_ptr_array_add (items, item_new_in_piece (&g_array_index (cut, OddPieceEnd, k)));
      *n_in_pieces += cut->len;
    }
  n[ODD_END_CUT] += *n_in_pieces;
  return items;
}

/* The chosen end stays chosen; where its row has gone, the next one moves up. */
static void
follow (OddWorkEnds *self)
{
  guint n[4] = { 0 }, n_in_pieces = 0;
  g_autoptr(GPtrArray) items = dup_items (self, n, &n_in_pieces);
  OddEndItem *chosen = gtk_single_selection_get_selected_item (self->choice);
  guint at = gtk_single_selection_get_selected (self->choice);

  for (guint i = 0; chosen != NULL && i < items->len; i++)
    if (is_same (chosen, items->pdata[i]))
      at = i;
  self->filling = TRUE;
  g_list_store_splice (self->items, 0, g_list_model_get_n_items (G_LIST_MODEL (self->items)), items->pdata, items->len);
  if (items->len > 0)
    gtk_single_selection_set_selected (self->choice, at == GTK_INVALID_LIST_POSITION ? 0 : MIN (at, items->len - 1));
  self->filling = FALSE;
  gtk_stack_set_visible_child_name (self->stack, items->len > 0 ? "list" : "empty");
  show_counts (self, n, n_in_pieces);
}

static void
show_on_table (OddWorkEnds *self,
               OddEndItem  *item)
{
  GtkWindow *parent = gtk_window_get_transient_for (GTK_WINDOW (self));

  odd_selection_set (self->selection, item->scrap_id != 0 ? ODD_SELECTED_SCRAP : ODD_SELECTED_SEAM, item->scrap_id != 0 ? item->scrap_id : item->seam_id);
  if (parent != NULL && item->scrap_id == 0)
    gtk_widget_activate_action (GTK_WIDGET (parent), "win.locate", NULL);
}

static void
chosen_cb (OddWorkEnds *self)
{
  OddEndItem *item = gtk_single_selection_get_selected_item (self->choice);

  if (!self->filling && item != NULL)
    show_on_table (self, item);
}

static void
activate_cb (OddWorkEnds *self,
             guint        at)
{
  g_autoptr(OddEndItem) item = g_list_model_get_item (G_LIST_MODEL (self->choice), at);

  if (item != NULL)
    show_on_table (self, item);
}

static gboolean
set_secured (OddWorkEnds *self,
             OddEndItem  *item,
             gboolean     secured)
{
  const OddAct act = { .kind = ODD_ACT_SECURE, .seam_id = item->seam_id, .scrap_id = item->scrap_id, .end = item->end,
                       .state = secured ? ODD_STATE_DONE : ODD_STATE_OPEN };

  return odd_do (GTK_WIDGET (self), self->document, &act, secured ? _("Back-stitch an end") : _("Undo a back-stitch"));
}

static gboolean
tick_item (OddWorkEnds *self,
           OddEndItem  *item)
{
  g_autoptr(OddEndItem) kept = g_object_ref (item);

  if (kept->kind == ODD_END_CAUGHT)
    return FALSE;
  if (kept->kind == ODD_END_BACK_STITCHED)
    return set_secured (self, kept, FALSE);
  if (!set_secured (self, kept, TRUE))
    return FALSE;
  g_ptr_array_add (self->ticks, g_object_ref (kept));
  return TRUE;
}

static void
untick_last (OddWorkEnds *self)
{
  g_autoptr(OddEndItem) item = NULL;

  if (self->ticks->len == 0)
    return;
  item = g_object_ref (self->ticks->pdata[self->ticks->len - 1]);
  g_ptr_array_set_size (self->ticks, self->ticks->len - 1);
  set_secured (self, item, FALSE);
}

static gboolean
key_cb (OddWorkEnds     *self,
        guint            keyval,
        guint            code,
        GdkModifierType  state)
{
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return FALSE;
  switch (keyval)
    {
    case GDK_KEY_space:
    case GDK_KEY_Page_Down:
      odd_work_ends_tick (self, gtk_single_selection_get_selected (self->choice));
      return TRUE;
    case GDK_KEY_BackSpace:
    case GDK_KEY_Page_Up:
      untick_last (self);
      return TRUE;
    default:
      return FALSE;
    }
}

/* --- rows --- */

static void
ticked_cb (GtkWidget   *button,
           GtkListItem *list_item)
{
  OddWorkEnds *self = ODD_WORK_ENDS (gtk_widget_get_root (button));

  tick_item (self, gtk_list_item_get_item (list_item));
}

static GtkWidget *
row_label (gboolean second)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0.0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  if (second)
    {
      gtk_widget_add_css_class (label, "second");
      gtk_widget_add_css_class (label, "dim-label");
    }
  return label;
}

static void
setup_cb (GtkSignalListItemFactory *factory,
          GtkListItem              *list_item)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *column = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *tick = gtk_button_new_from_icon_name ("object-select-symbolic");

  gtk_widget_set_margin_start (row, 12);
  gtk_widget_set_margin_end (row, 6);
  gtk_widget_set_margin_top (row, 4);
  gtk_widget_set_margin_bottom (row, 4);
  gtk_widget_set_hexpand (column, TRUE);
  gtk_box_append (GTK_BOX (column), row_label (FALSE));
  gtk_box_append (GTK_BOX (column), row_label (TRUE));
  gtk_widget_set_valign (tick, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (tick, "circular");
  gtk_widget_set_focusable (tick, FALSE);
  g_signal_connect (tick, "clicked", G_CALLBACK (ticked_cb), list_item);
  gtk_box_append (GTK_BOX (row), column);
  gtk_box_append (GTK_BOX (row), tick);
  gtk_list_item_set_child (list_item, row);
}

static void
bind_cb (OddWorkEnds *self,
         GtkListItem *list_item)
{
  OddEndItem *item = gtk_list_item_get_item (list_item);
  OddJob *job = odd_document_get_job (self->document);
  GtkWidget *column = gtk_widget_get_first_child (gtk_list_item_get_child (list_item));
  GtkWidget *tick = gtk_widget_get_next_sibling (column);
  GtkWidget *title = gtk_widget_get_first_child (column);
  const gboolean secured = item->kind == ODD_END_BACK_STITCHED;
  const char *hint = secured ? _("Take the tick off") : _("Secured");
  g_autofree char *name = dup_title (item, job);
  g_autofree char *place = dup_place (item, job);
  g_autofree char *state = g_strdup_printf ("%s; %s", place, state_text (item));

  gtk_label_set_text (GTK_LABEL (title), name);
  gtk_label_set_text (GTK_LABEL (gtk_widget_get_next_sibling (title)), state);
  gtk_widget_set_visible (tick, item->kind != ODD_END_CAUGHT);
  (secured ? gtk_widget_add_css_class : gtk_widget_remove_css_class) (tick, "suggested-action");
  gtk_widget_set_tooltip_text (tick, hint);
  gtk_accessible_update_property (GTK_ACCESSIBLE (tick), GTK_ACCESSIBLE_PROPERTY_LABEL, hint, -1);
}

/* --- life --- */

static void
odd_work_ends_dispose (GObject *object)
{
  OddWorkEnds *self = ODD_WORK_ENDS (object);

  g_clear_object (&self->document);
  g_clear_object (&self->selection);
  g_clear_object (&self->items);
  g_clear_object (&self->choice);
  g_clear_pointer (&self->ticks, g_ptr_array_unref);
  G_OBJECT_CLASS (odd_work_ends_parent_class)->dispose (object);
}

static void
odd_work_ends_class_init (OddWorkEndsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = odd_work_ends_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/work-ends.ui");
  gtk_widget_class_bind_template_child (widget_class, OddWorkEnds, all);
  gtk_widget_class_bind_template_child (widget_class, OddWorkEnds, counts);
  gtk_widget_class_bind_template_child (widget_class, OddWorkEnds, stack);
  gtk_widget_class_bind_template_child (widget_class, OddWorkEnds, list);
  gtk_widget_class_bind_template_callback (widget_class, activate_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
odd_work_ends_init (OddWorkEnds *self)
{
  g_autoptr(GtkListItemFactory) factory = gtk_signal_list_item_factory_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_widget_init_template (GTK_WIDGET (self));
  self->items = g_list_store_new (ODD_TYPE_END_ITEM);
  self->choice = gtk_single_selection_new (G_LIST_MODEL (g_object_ref (self->items)));
  self->ticks = g_ptr_array_new_with_free_func (g_object_unref);
  g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), NULL);
  g_signal_connect_object (factory, "bind", G_CALLBACK (bind_cb), self, G_CONNECT_SWAPPED);
  gtk_list_view_set_factory (self->list, factory);
  gtk_list_view_set_model (self->list, GTK_SELECTION_MODEL (self->choice));
  g_signal_connect_object (self->choice, "notify::selected-item", G_CALLBACK (chosen_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->all, "toggled", G_CALLBACK (follow), self, G_CONNECT_SWAPPED);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_cb), self);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  gtk_widget_add_controller (GTK_WIDGET (self->list), keys);
}

static OddWorkEnds *
find_open (GtkWindow *parent)
{
  g_autoptr(GList) windows = gtk_window_list_toplevels ();

  for (GList *l = windows; l != NULL; l = l->next)
    if (ODD_IS_WORK_ENDS (l->data) && gtk_window_get_transient_for (l->data) == parent)
      return l->data;
  return NULL;
}

OddWorkEnds *
odd_work_ends_present (GtkWindow    *parent,
                       OddDocument  *document,
                       OddSelection *selection,
                       OddId         textile_id)
{
  OddWorkEnds *self = find_open (parent);

  g_return_val_if_fail (ODD_IS_DOCUMENT (document), NULL);

  if (self == NULL)
    {
      self = g_object_new (ODD_TYPE_WORK_ENDS, "transient-for", parent, "destroy-with-parent", TRUE, NULL);
      self->document = g_object_ref (document);
      self->selection = g_object_ref (selection);
      g_signal_connect_object (document, "changed", G_CALLBACK (follow), self, G_CONNECT_SWAPPED);
    }
  self->textile_id = textile_id;
  follow (self);
  gtk_window_present (GTK_WINDOW (self));
  gtk_widget_grab_focus (GTK_WIDGET (self->list));
  return self;
}

guint
odd_work_ends_get_n_shown (OddWorkEnds *self)
{
  g_return_val_if_fail (ODD_IS_WORK_ENDS (self), 0);

  return g_list_model_get_n_items (G_LIST_MODEL (self->items));
}

void
odd_work_ends_choose (OddWorkEnds *self,
                      guint        at)
{
  g_return_if_fail (ODD_IS_WORK_ENDS (self) && at < odd_work_ends_get_n_shown (self));

  gtk_single_selection_set_selected (self->choice, at);
  activate_cb (self, at);
}

gboolean
odd_work_ends_tick (OddWorkEnds *self,
                    guint        at)
{
  g_autoptr(OddEndItem) item = NULL;

  g_return_val_if_fail (ODD_IS_WORK_ENDS (self), FALSE);

  item = g_list_model_get_item (G_LIST_MODEL (self->items), at);
  return item != NULL && tick_item (self, item);
}
