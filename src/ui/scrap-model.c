#include "config.h"

#include "ui/scrap-model.h"

#include <glib/gi18n.h>

#include "ui/cut-counter.h"

/* Bands of CIE L*: chosen so that natural linen is light and denim dark. Our choice. */
#define LIGHT_FROM 66.0
#define DARK_TO 40.0

struct _OddScrapModel
{
  GObject parent_instance;
  OddDocument *document;
  OddCutCounter *counter;          /* while it is what they are sorted by, else NULL */
  GListStore *rows;
  GtkFilterListModel *filtered;
  GtkSortListModel *sorted;
  GtkCustomFilter *filter;
  GtkCustomSorter *sorter;
  char *search;
  int sort;
  guint fabric;
  double smallest_mm;
  int lightness;
  int shown;
  guint in_hand;
  guint n_free;
};

enum
{
  PROP_0, PROP_DOCUMENT, PROP_SEARCH, PROP_SORT, PROP_FABRIC, PROP_SMALLEST, PROP_LIGHTNESS, PROP_SHOWN, PROP_IN_HAND, PROP_FILTERED,
  PROP_N_FREE, N_PROPS
};
static GParamSpec *props[N_PROPS];

static void list_model_init (GListModelInterface *iface);
G_DEFINE_FINAL_TYPE_WITH_CODE (OddScrapModel, odd_scrap_model, G_TYPE_OBJECT, G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, list_model_init))

static GType
get_item_type (GListModel *model)
{
  return ODD_TYPE_SCRAP_ROW;
}

static guint
get_n_items (GListModel *model)
{
  return g_list_model_get_n_items (G_LIST_MODEL (ODD_SCRAP_MODEL (model)->sorted));
}

static gpointer
get_item (GListModel *model,
          guint       position)
{
  return g_list_model_get_item (G_LIST_MODEL (ODD_SCRAP_MODEL (model)->sorted), position);
}

static void
list_model_init (GListModelInterface *iface)
{
  iface->get_item_type = get_item_type;
  iface->get_n_items = get_n_items;
  iface->get_item = get_item;
}

static gboolean
in_band (double lightness,
         int    band)
{
  switch (band)
    {
    case ODD_LIGHTNESS_LIGHT: return lightness >= LIGHT_FROM;
    case ODD_LIGHTNESS_MIDDLE: return lightness > DARK_TO && lightness < LIGHT_FROM;
    case ODD_LIGHTNESS_DARK: return lightness <= DARK_TO;
    default: return TRUE;
    }
}

static gboolean
is_shown (OddScrapModel *self,
          OddScrapRow   *row)
{
  const OddScrapState state = odd_scrap_row_get_state (row);

  switch (self->shown)
    {
    case ODD_SHOWN_FREE: return odd_scrap_row_is_free (row);
    case ODD_SHOWN_PLACED: return state == ODD_SCRAP_PLACED || state == ODD_SCRAP_SEWN;
    default: return TRUE;
    }
}

static gboolean
filter_cb (gpointer item,
           gpointer data)
{
  OddScrapModel *self = data;
  OddScrapRow *row = item;
  OddFabric *fabric = odd_scrap_row_get_fabric (row);
  const OddBox box = odd_scrap_row_get_box (row);

  if (self->in_hand != 0 && odd_scrap_row_get_scrap (row)->id == self->in_hand)
    return TRUE;
  return is_shown (self, row) && (self->fabric == 0 || (fabric != NULL && fabric->id == self->fabric)) &&
         MIN (box.width, box.height) >= self->smallest_mm && in_band (odd_scrap_row_get_lightness (row), self->lightness) &&
         (self->search == NULL || odd_scrap_row_matches (row, self->search));
}

static int
compare (double a,
         double b)
{
  return a < b ? -1 : a > b;
}

static int
compare_fabric (OddScrapRow *a,
                OddScrapRow *b)
{
  OddFabric *fa = odd_scrap_row_get_fabric (a), *fb = odd_scrap_row_get_fabric (b);

  if (fa == NULL || fb == NULL)
    return (fa == NULL) - (fb == NULL);
  return g_utf8_collate (fa->name, fb->name);
}

static double
finished_mm2 (OddScrapModel *self,
              OddScrapRow   *row)
{
  OddGives *gives = self->counter != NULL ? odd_cut_counter_get_gives (self->counter) : NULL;
  const OddScrapGives *scrap = gives != NULL ? odd_gives_find (gives, odd_scrap_row_get_scrap (row)->id) : NULL;

  return scrap != NULL ? odd_gives_get_finished_mm2 (gives, scrap) : 0.0;
}

static int
sort_cb (gconstpointer a,
         gconstpointer b,
         gpointer      data)
{
  OddScrapModel *self = data;
  OddScrapRow *ra = (gpointer) a, *rb = (gpointer) b;
  const double area_a = odd_scrap_row_get_area_mm2 (ra), area_b = odd_scrap_row_get_area_mm2 (rb);
  int by = 0;

  if (self->sort == ODD_SORT_LARGEST)
    by = compare (area_b, area_a);
  else if (self->sort == ODD_SORT_SMALLEST)
    by = compare (area_a, area_b);
  else if (self->sort == ODD_SORT_LIGHTNESS)
    by = compare (odd_scrap_row_get_lightness (rb), odd_scrap_row_get_lightness (ra));
  else if (self->sort == ODD_SORT_FABRIC)
    by = compare_fabric (ra, rb);
  else if (self->sort == ODD_SORT_GIVES)
    by = compare (finished_mm2 (self, rb), finished_mm2 (self, ra));
  return by != 0 ? by : compare (odd_scrap_row_get_scrap (ra)->number, odd_scrap_row_get_scrap (rb)->number);
}

static gboolean
is_at (GListModel  *list,
       guint        position,
       OddScrapRow *row)
{
  g_autoptr(OddScrapRow) there = g_list_model_get_item (list, position);

  return there == row;
}

/* The row for @scrap: the one at @position where that says the same, so that lists keep what they show. */
static OddScrapRow *
make_row (OddScrapModel *self,
          OddJob        *job,
          guint          position,
          OddScrap      *scrap)
{
  const OddScrapState state = odd_job_get_scrap_state (job, scrap->id);
  g_autoptr(OddScrapRow) old = g_list_model_get_item (G_LIST_MODEL (self->rows), position);

  self->n_free += state == ODD_SCRAP_FREE;
  if (old != NULL && odd_scrap_row_is_true (old, job, scrap, state))
    return g_steal_pointer (&old);
  return odd_scrap_row_new (job, scrap, state);
}

/* Rows that stay at both ends are left out of the change that is told. */
static void
fill (OddScrapModel *self)
{
  OddJob *job = odd_document_get_job (self->document);
  GListModel *list = G_LIST_MODEL (self->rows);
  const guint n = job->scraps->len, n_before = g_list_model_get_n_items (list);
  g_autoptr(GPtrArray) rows = g_ptr_array_new_with_free_func (g_object_unref);
  guint first = 0, kept = 0;

  self->n_free = 0;
  for (guint i = 0; i < n; i++)
    g_ptr_array_add (rows, make_row (self, job, i, g_ptr_array_index (job->scraps, i)));
  while (first < MIN (n, n_before) && is_at (list, first, g_ptr_array_index (rows, first)))
    first++;
  while (kept < MIN (n, n_before) - first && is_at (list, n_before - 1 - kept, g_ptr_array_index (rows, n - 1 - kept)))
    kept++;
  if (first + kept < MAX (n, n_before))
    g_list_store_splice (self->rows, first, n_before - first - kept, rows->pdata + first, n - first - kept);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_N_FREE]);
}

static void
changed_cb (OddScrapModel *self)
{
  fill (self);
}

static void
refilter (OddScrapModel *self)
{
  gtk_filter_changed (GTK_FILTER (self->filter), GTK_FILTER_CHANGE_DIFFERENT);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_FILTERED]);
}

static void
resort (OddScrapModel *self)
{
  gtk_sorter_changed (GTK_SORTER (self->sorter), GTK_SORTER_CHANGE_DIFFERENT);
}

static void
set_counting (OddScrapModel *self,
              gboolean       counting)
{
  if (counting == (self->counter != NULL))
    return;
  if (counting)
    {
      self->counter = g_object_ref (odd_cut_counter_get (self->document));
      g_signal_connect_object (self->counter, "counted", G_CALLBACK (resort), self, G_CONNECT_SWAPPED);
      odd_cut_counter_watch (self->counter);
      return;
    }
  g_signal_handlers_disconnect_by_func (self->counter, resort, self);
  odd_cut_counter_unwatch (self->counter);
  g_clear_object (&self->counter);
}

static void
odd_scrap_model_constructed (GObject *object)
{
  OddScrapModel *self = ODD_SCRAP_MODEL (object);

  G_OBJECT_CLASS (odd_scrap_model_parent_class)->constructed (object);
  g_signal_connect_object (self->document, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  fill (self);
}

static void
odd_scrap_model_dispose (GObject *object)
{
  OddScrapModel *self = ODD_SCRAP_MODEL (object);

  set_counting (self, FALSE);
  if (self->sorted != NULL)
    g_signal_handlers_disconnect_by_data (self->sorted, self);
  /* somebody may hold the list longer than us: the functions must not find us gone */
  if (self->filter != NULL)
    gtk_custom_filter_set_filter_func (self->filter, NULL, NULL, NULL);
  if (self->sorter != NULL)
    gtk_custom_sorter_set_sort_func (self->sorter, NULL, NULL, NULL);
  g_clear_object (&self->sorted);
  g_clear_object (&self->filtered);
  g_clear_object (&self->filter);
  g_clear_object (&self->sorter);
  g_clear_object (&self->rows);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (odd_scrap_model_parent_class)->dispose (object);
}

static void
odd_scrap_model_finalize (GObject *object)
{
  g_free (ODD_SCRAP_MODEL (object)->search);
  G_OBJECT_CLASS (odd_scrap_model_parent_class)->finalize (object);
}

static gboolean
is_filtered (OddScrapModel *self)
{
  return self->fabric != 0 || self->smallest_mm > 0.0 || self->lightness != ODD_LIGHTNESS_ANY || self->shown != ODD_SHOWN_FREE;
}

static void
odd_scrap_model_get_property (GObject    *object,
                              guint       prop_id,
                              GValue     *value,
                              GParamSpec *pspec)
{
  OddScrapModel *self = ODD_SCRAP_MODEL (object);

  switch (prop_id)
    {
    case PROP_DOCUMENT: g_value_set_object (value, self->document); break;
    case PROP_SEARCH: g_value_set_string (value, self->search); break;
    case PROP_SORT: g_value_set_int (value, self->sort); break;
    case PROP_FABRIC: g_value_set_uint (value, self->fabric); break;
    case PROP_SMALLEST: g_value_set_double (value, self->smallest_mm); break;
    case PROP_LIGHTNESS: g_value_set_int (value, self->lightness); break;
    case PROP_SHOWN: g_value_set_int (value, self->shown); break;
    case PROP_IN_HAND: g_value_set_uint (value, self->in_hand); break;
    case PROP_FILTERED: g_value_set_boolean (value, is_filtered (self)); break;
    case PROP_N_FREE: g_value_set_uint (value, self->n_free); break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
odd_scrap_model_set_property (GObject      *object,
                              guint         prop_id,
                              const GValue *value,
                              GParamSpec   *pspec)
{
  OddScrapModel *self = ODD_SCRAP_MODEL (object);

  switch (prop_id)
    {
    case PROP_DOCUMENT: self->document = g_value_dup_object (value); return;
    case PROP_SEARCH: g_free (self->search); self->search = g_value_dup_string (value); break;
    case PROP_SORT:
      self->sort = g_value_get_int (value);
      set_counting (self, self->sort == ODD_SORT_GIVES);
      resort (self);
      return;
    case PROP_FABRIC: self->fabric = g_value_get_uint (value); break;
    case PROP_SMALLEST: self->smallest_mm = g_value_get_double (value); break;
    case PROP_LIGHTNESS: self->lightness = g_value_get_int (value); break;
    case PROP_SHOWN: self->shown = g_value_get_int (value); break;
    case PROP_IN_HAND: self->in_hand = g_value_get_uint (value); break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec); return;
    }
  refilter (self);
}

static void
odd_scrap_model_class_init (OddScrapModelClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  const GParamFlags rw = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->constructed = odd_scrap_model_constructed;
  object_class->dispose = odd_scrap_model_dispose;
  object_class->finalize = odd_scrap_model_finalize;
  object_class->get_property = odd_scrap_model_get_property;
  object_class->set_property = odd_scrap_model_set_property;

  props[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, ODD_TYPE_DOCUMENT, rw | G_PARAM_CONSTRUCT_ONLY);
  props[PROP_SEARCH] = g_param_spec_string ("search", NULL, NULL, NULL, rw);
  props[PROP_SORT] = g_param_spec_int ("sort", NULL, NULL, 0, ODD_N_SCRAP_SORTS - 1, ODD_SORT_LARGEST, rw);
  props[PROP_FABRIC] = g_param_spec_uint ("fabric", NULL, NULL, 0, G_MAXUINT, 0, rw);
  props[PROP_SMALLEST] = g_param_spec_double ("smallest", NULL, NULL, 0.0, G_MAXDOUBLE, 0.0, rw);
  props[PROP_LIGHTNESS] = g_param_spec_int ("lightness", NULL, NULL, 0, ODD_LIGHTNESS_DARK, 0, rw);
  props[PROP_SHOWN] = g_param_spec_int ("shown", NULL, NULL, 0, ODD_SHOWN_ALL, 0, rw);
  props[PROP_IN_HAND] = g_param_spec_uint ("in-hand", NULL, NULL, 0, G_MAXUINT, 0, rw);
  props[PROP_FILTERED] = g_param_spec_boolean ("filtered", NULL, NULL, FALSE, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  props[PROP_N_FREE] = g_param_spec_uint ("n-free", NULL, NULL, 0, G_MAXUINT, 0, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
}

static void
items_changed_cb (OddScrapModel *self,
                  guint          position,
                  guint          removed,
                  guint          added)
{
  g_list_model_items_changed (G_LIST_MODEL (self), position, removed, added);
}

static void
odd_scrap_model_init (OddScrapModel *self)
{
  self->rows = g_list_store_new (ODD_TYPE_SCRAP_ROW);
  self->filter = gtk_custom_filter_new (filter_cb, self, NULL);
  self->sorter = gtk_custom_sorter_new (sort_cb, self, NULL);
  self->filtered = gtk_filter_list_model_new (g_object_ref (G_LIST_MODEL (self->rows)), g_object_ref (GTK_FILTER (self->filter)));
  self->sorted = gtk_sort_list_model_new (g_object_ref (G_LIST_MODEL (self->filtered)), g_object_ref (GTK_SORTER (self->sorter)));
  g_signal_connect_swapped (self->sorted, "items-changed", G_CALLBACK (items_changed_cb), self);
}

OddScrapModel *
odd_scrap_model_new (OddDocument *document)
{
  return g_object_new (ODD_TYPE_SCRAP_MODEL, "document", document, NULL);
}

void
odd_scrap_model_clear_filter (OddScrapModel *self)
{
  g_return_if_fail (ODD_IS_SCRAP_MODEL (self));

  g_object_set (self, "search", NULL, "fabric", 0, "smallest", 0.0, "lightness", ODD_LIGHTNESS_ANY, "shown", ODD_SHOWN_FREE, NULL);
}

guint
odd_scrap_model_get_n_free (OddScrapModel *self)
{
  g_return_val_if_fail (ODD_IS_SCRAP_MODEL (self), 0);

  return self->n_free;
}

guint
odd_scrap_model_get_n_scraps (OddScrapModel *self)
{
  g_return_val_if_fail (ODD_IS_SCRAP_MODEL (self), 0);

  return g_list_model_get_n_items (G_LIST_MODEL (self->rows));
}

guint
odd_scrap_model_find (OddScrapModel *self,
                      OddId          scrap_id)
{
  const guint n = get_n_items (G_LIST_MODEL (self));

  for (guint i = 0; i < n; i++)
    {
      g_autoptr(OddScrapRow) row = get_item (G_LIST_MODEL (self), i);

      if (odd_scrap_row_get_scrap (row)->id == scrap_id)
        return i;
    }
  return GTK_INVALID_LIST_POSITION;
}

const char *
odd_scrap_sort_get_name (OddScrapSort sort)
{
  switch (sort)
    {
    case ODD_SORT_LARGEST: return _("Largest first");
    case ODD_SORT_SMALLEST: return _("Smallest first");
    case ODD_SORT_NUMBER: return _("Number");
    case ODD_SORT_LIGHTNESS: return _("Lightness");
    case ODD_SORT_FABRIC: return _("Fabric");
    default: return _("Gives most");
    }
}
