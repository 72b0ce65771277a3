#include "config.h"
#include "ui/place-card.h"

#include <glib/gi18n.h>

struct _OddPlaceCard
{
  GtkWidget parent_instance;
  GtkWidget *stack;
  GtkWidget *title, *count, *figures, *covers, *gain_name, *gain, *trimmed, *offcut, *warning;
  GtkWidget *hint_next, *hint_turn, *hint_shift, *hint_enter, *hint_edge;
  GtkWidget *strip_text, *next;
};

enum { NEXT, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (OddPlaceCard, odd_place_card, GTK_TYPE_WIDGET)

static void
next_cb (OddPlaceCard *self)
{
  g_signal_emit (self, signals[NEXT], 0);
}

static void
odd_place_card_dispose (GObject *object)
{
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (object));

  if (child != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (odd_place_card_parent_class)->dispose (object);
}

static void
odd_place_card_class_init (OddPlaceCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = odd_place_card_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/place-card.ui");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_STATUS);
  gtk_widget_class_bind_template_child (widget_class, OddPlaceCard, stack);
  gtk_widget_class_bind_template_child (widget_class, OddPlaceCard, title);
  gtk_widget_class_bind_template_child (widget_class, OddPlaceCard, count);
  gtk_widget_class_bind_template_child (widget_class, OddPlaceCard, figures);
  gtk_widget_class_bind_template_child (widget_class, OddPlaceCard, covers);
  gtk_widget_class_bind_template_child_full (widget_class, "gain-name", FALSE, G_STRUCT_OFFSET (OddPlaceCard, gain_name));
  gtk_widget_class_bind_template_child (widget_class, OddPlaceCard, gain);
  gtk_widget_class_bind_template_child (widget_class, OddPlaceCard, trimmed);
  gtk_widget_class_bind_template_child (widget_class, OddPlaceCard, offcut);
  gtk_widget_class_bind_template_child (widget_class, OddPlaceCard, warning);
  gtk_widget_class_bind_template_child_full (widget_class, "hint-next", FALSE, G_STRUCT_OFFSET (OddPlaceCard, hint_next));
  gtk_widget_class_bind_template_child_full (widget_class, "hint-turn", FALSE, G_STRUCT_OFFSET (OddPlaceCard, hint_turn));
  gtk_widget_class_bind_template_child_full (widget_class, "hint-shift", FALSE, G_STRUCT_OFFSET (OddPlaceCard, hint_shift));
  gtk_widget_class_bind_template_child_full (widget_class, "hint-enter", FALSE, G_STRUCT_OFFSET (OddPlaceCard, hint_enter));
  gtk_widget_class_bind_template_child_full (widget_class, "hint-edge", FALSE, G_STRUCT_OFFSET (OddPlaceCard, hint_edge));
  gtk_widget_class_bind_template_child_full (widget_class, "strip-text", FALSE, G_STRUCT_OFFSET (OddPlaceCard, strip_text));
  gtk_widget_class_bind_template_child (widget_class, OddPlaceCard, next);
  signals[NEXT] = g_signal_new ("next", ODD_TYPE_PLACE_CARD, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
odd_place_card_init (OddPlaceCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect_swapped (self->next, "clicked", G_CALLBACK (next_cb), self);
}

GtkWidget *
odd_place_card_new (void)
{
  return g_object_new (ODD_TYPE_PLACE_CARD, NULL);
}

void
odd_place_card_set_narrow (OddPlaceCard *self, gboolean narrow)
{
  g_return_if_fail (ODD_IS_PLACE_CARD (self));
  gtk_stack_set_visible_child_name (GTK_STACK (self->stack), narrow ? "strip" : "card");
}

static void
set_text (GtkWidget *label, const char *text)
{
  gtk_label_set_text (GTK_LABEL (label), text);
}

static char *
dup_covered (const OddPlace *place, OddUnit unit)
{
  g_autofree char *covers = odd_length_format (place->covers_mm, unit);
  g_autofree char *bare = odd_length_format_bare (place->covers_mm, unit);
  g_autofree char *whole = odd_length_format (place->edge_mm, unit);

  if (place->target.kind == ODD_TARGET_NEW_PANEL)
    return g_steal_pointer (&covers);
  return place->covers_all ? g_strdup_printf (_("all %s"), covers) : g_strdup_printf (_("%s of %s"), bare, whole);
}

static void
show_offcut (OddPlaceCard *self, const OddPlace *place, OddUnit unit)
{
  g_autofree char *size = NULL;
  g_autofree char *text = NULL;

  if (place->n_offcuts == 0)
    {
      set_text (self->offcut, _("no offcut"));
      gtk_widget_add_css_class (self->offcut, "dim-label");
      gtk_widget_remove_css_class (self->offcut, "figure");
      return;
    }
  size = odd_length_format_pair (place->offcut_width_mm, place->offcut_length_mm, unit);
  text = place->n_offcuts == 1 ? g_steal_pointer (&size) : g_strdup_printf (_("%u, up to %s"), place->n_offcuts, size);
  set_text (self->offcut, text);
  gtk_widget_remove_css_class (self->offcut, "dim-label");
  gtk_widget_add_css_class (self->offcut, "figure");
}

/* What a maker must know before she cuts: at most two sentences. */
static void
show_warning (OddPlaceCard *self, const OddPlace *place)
{
  g_autofree char *ends = NULL;
  g_autofree char *text = NULL;

  if (place->n_cut_ends > 0)
    ends = g_strdup_printf (ngettext ("Cuts %u seam end open", "Cuts %u seam ends open", place->n_cut_ends), place->n_cut_ends);
  text = g_strjoin ("\n", place->warning != NULL ? place->warning : ends, place->warning != NULL ? ends : NULL, NULL);
  gtk_widget_set_visible (self->warning, text[0] != '\0');
  set_text (self->warning, text);
}

static void
show_place (OddPlaceCard *self, const OddPlace *place, guint index, guint n, OddUnit unit)
{
  g_autofree char *covers = dup_covered (place, unit);
  g_autofree char *gain = odd_length_format (place->gain_mm, unit);
  g_autofree char *trimmed = odd_area_format (place->trimmed_mm2, unit);
  g_autofree char *count = g_strdup_printf (_("%u of %u"), index + 1, n);
  g_autofree char *title = g_markup_escape_text (odd_place_class_get_name (place->kind), -1);
  g_autofree char *strip = g_strdup_printf (_("<b>%s</b>   %s   grows <b>%s</b>"), title, covers, gain);

  set_text (self->title, place->target.kind != ODD_TARGET_NEW_PANEL ? odd_place_class_get_name (place->kind)
                         : place->target.textile_id == 0 ? _("New loose piece") : _("New panel"));
  set_text (self->count, count);
  set_text (self->covers, covers);
  set_text (self->gain_name, place->target.kind == ODD_TARGET_EDGE ? _("Panel grows") : place->target.kind == ODD_TARGET_BARE ? _("Fills") : _("Length"));
  set_text (self->gain, gain);
  set_text (self->trimmed, trimmed);
  show_offcut (self, place, unit);
  show_warning (self, place);
  gtk_label_set_markup (GTK_LABEL (self->strip_text), strip);
}

static void
show_refusal (OddPlaceCard *self, const char *refusal)
{
  const char *text = refusal != NULL ? refusal : _("Hold it to an open edge, or start a panel with it.");

  set_text (self->title, text);
  set_text (self->count, "");
  gtk_widget_hide (self->warning);
  gtk_label_set_text (GTK_LABEL (self->strip_text), text);
}

void
odd_place_card_show (OddPlaceCard *self, OddHeld *hand, OddUnit unit, gboolean by_key, gboolean keys)
{
  const OddPlace *place;

  g_return_if_fail (ODD_IS_PLACE_CARD (self) && ODD_IS_HELD (hand));

  place = odd_held_get_place (hand);
  gtk_widget_set_visible (self->figures, place != NULL);
  gtk_widget_set_visible (self->count, place != NULL);
  gtk_widget_set_visible (self->next, odd_held_get_n_places (hand) > 1);
  gtk_widget_set_visible (self->hint_next, keys && odd_held_get_n_places (hand) > 1);
  gtk_widget_set_visible (self->hint_turn, keys);
  gtk_widget_set_visible (self->hint_shift, !by_key);
  gtk_widget_set_visible (self->hint_enter, by_key && place != NULL);
  gtk_widget_set_visible (self->hint_edge, by_key);
  if (place != NULL)
    {
      gtk_widget_add_css_class (self->title, "place-title");
      show_place (self, place, odd_held_get_index (hand), odd_held_get_n_places (hand), unit);
    }
  else
    {
      gtk_widget_remove_css_class (self->title, "place-title");
      show_refusal (self, odd_held_get_refusal (hand));
    }
}
