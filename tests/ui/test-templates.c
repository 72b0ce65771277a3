/* Every template loads: each .ui file of the resources names its class, and one of that class is made. Warnings are fatal here. */
#include <adwaita.h>
#include <gmodule.h>
#include <string.h>

#include "ui/symbol.h"

#define FOLDER "/io/github/oddment/Oddment/ui"

/* odd_scrap_dialog_get_type for OddScrapDialog, as GtkBuilder finds types. */
static char *
dup_function_name (const char *class_name)
{
  GString *name = g_string_new (NULL);

  for (const char *c = class_name; *c != '\0'; c++)
    {
      if (g_ascii_isupper (*c) && c != class_name)
        g_string_append_c (name, '_');
      g_string_append_c (name, g_ascii_tolower (*c));
    }
  g_string_append (name, "_get_type");
  return g_string_free (name, FALSE);
}

static char *
dup_class (const char *text)
{
  const char *mark = "<template class=\"";
  const char *start = strstr (text, mark);

  if (start == NULL)
    return NULL;
  start += strlen (mark);
  return g_strndup (start, strchr (start, '"') - start);
}

static GType
find_type (const char *class_name)
{
  g_autofree char *function = dup_function_name (class_name);
  GModule *self = g_module_open (NULL, 0);
  GType (*get_type) (void) = NULL;

  g_assert_true (g_module_symbol (self, function, (gpointer *) &get_type));
  g_module_close (self);
  return get_type ();
}

static void
make (const char *class_name)
{
  GObject *object = g_object_new (find_type (class_name), NULL);

  g_assert_true (GTK_IS_WIDGET (object));
  if (GTK_IS_WINDOW (object))
    {
      gtk_window_destroy (GTK_WINDOW (object)); /* GTK itself holds windows */
      return;
    }
  g_object_ref_sink (object);
  g_object_unref (object);
}

static void
test_all (void)
{
  g_auto(GStrv) names = g_resources_enumerate_children (FOLDER, 0, NULL);
  guint n = 0;

  for (guint i = 0; names[i] != NULL; i++)
    {
      g_autofree char *path = g_build_path ("/", FOLDER, names[i], NULL);
      g_autoptr(GBytes) bytes = g_resources_lookup_data (path, 0, NULL);
      g_autofree char *text = g_strndup (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
      g_autofree char *class_name = dup_class (text);

      g_test_message ("%s", path);
      if (class_name != NULL)
        make (class_name);
      else
        {
          g_autoptr(GtkBuilder) builder = gtk_builder_new_from_resource (path);
          GSList *objects = gtk_builder_get_objects (builder);

          g_assert_nonnull (objects);
          for (GSList *l = objects; l != NULL; l = l->next)
            if (GTK_IS_WINDOW (l->data))
              gtk_window_destroy (l->data);
          g_slist_free (objects);
        }
      n++;
    }
  g_assert_cmpuint (n, >=, 15);
}

static void
test_symbols (void)
{
  static const char *const kinds[] = { "planned", "sewn", "finished", "pressed", "done", "raw-inside", "left-open", "right-caught", "to-first",
                                       "check", "sew", "overlock", "zigzag", "trim", "fold", "press", "topstitch", "scale" };

  g_test_summary ("Each drawing leaves ink, and stays inside its size");
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      double width, height;
      cairo_surface_t *surface;
      cairo_t *cr;
      guint ink = 0, outside = 0;

      odd_symbol_get_size (kinds[i], &width, &height);
      g_assert_cmpfloat (width * height, >, 0.0);
      surface = cairo_image_surface_create (CAIRO_FORMAT_A8, 64, 40);
      cr = cairo_create (surface);
      cairo_translate (cr, 12.0, 10.0);
      odd_symbol_paint (cr, kinds[i], width, height);
      cairo_destroy (cr);
      cairo_surface_flush (surface);
      for (int y = 0; y < 40; y++)
        for (int x = 0; x < 64; x++)
          {
            const guchar alpha = cairo_image_surface_get_data (surface)[y * cairo_image_surface_get_stride (surface) + x];

            ink += alpha > 64;
            outside += alpha > 64 && (x < 11 || y < 9 || x > 12 + width || y > 10 + height);
          }
      g_test_message ("%s", kinds[i]);
      g_assert_cmpuint (ink, >, 10);
      g_assert_cmpuint (outside, ==, 0);
      cairo_surface_destroy (surface);
    }
  g_assert_false (odd_symbol_exists ("kettle"));
}

int
main (int   argc,
      char *argv[])
{
  gtk_test_init (&argc, &argv, NULL);
  adw_init ();
  g_test_add_func ("/templates/all", test_all);
  g_test_add_func ("/templates/symbols", test_symbols);
  return g_test_run ();
}
