#include "config.h"
#include "paths.h"

#include "ui/settings.h"

static GSettingsSchema *
look_up (void)
{
  GSettingsSchemaSource *source = g_settings_schema_source_get_default ();
  GSettingsSchema *schema = source != NULL ? g_settings_schema_source_lookup (source, ODD_APP_ID, TRUE) : NULL;
  g_autoptr(GSettingsSchemaSource) built = NULL;

  if (schema != NULL)
    return schema;
  built = g_settings_schema_source_new_from_directory (ODD_BUILDDIR "/data", NULL, TRUE, NULL);
  return built != NULL ? g_settings_schema_source_lookup (built, ODD_APP_ID, TRUE) : NULL;
}

GSettings *
odd_settings_new (void)
{
  g_autoptr(GSettingsSchema) schema = look_up ();

  return schema != NULL ? g_settings_new_full (schema, NULL, NULL) : NULL;
}
