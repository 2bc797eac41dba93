#include "cro-recent.h"

#include <string.h>

/* Books offered; older ones are found by opening them. */
#define MOST 8

#define ENDING ".croustade"

void
cro_recent_note (const char *path)
{
  g_autofree char *uri = g_filename_to_uri (path, NULL, NULL);

  if (uri != NULL)
    gtk_recent_manager_add_item (gtk_recent_manager_get_default (), uri);
}

static int
newest_first (gconstpointer a,
              gconstpointer b)
{
  return g_date_time_compare (gtk_recent_info_get_modified ((GtkRecentInfo *) b),
                              gtk_recent_info_get_modified ((GtkRecentInfo *) a));
}

char **
cro_recent_dup (void)
{
  GList *items = gtk_recent_manager_get_items (gtk_recent_manager_get_default ());
  g_autoptr (GStrvBuilder) paths = g_strv_builder_new ();
  guint n = 0;

  items = g_list_sort (items, newest_first);
  for (GList *at = items; at != NULL && n < MOST; at = at->next)
    {
      g_autofree char *path = g_filename_from_uri (gtk_recent_info_get_uri (at->data), NULL, NULL);

      if (path == NULL || !g_str_has_suffix (path, ENDING) || !g_file_test (path, G_FILE_TEST_EXISTS))
        continue;
      g_strv_builder_add (paths, path);
      n++;
    }
  g_list_free_full (items, (GDestroyNotify) gtk_recent_info_unref);
  return g_strv_builder_end (paths);
}

char *
cro_recent_dup_name (const char *path)
{
  g_autofree char *file = g_path_get_basename (path);
  g_autofree char *folder = g_path_get_dirname (path);
  const char *home = g_get_home_dir ();
  gsize length = strlen (home);

  file[strlen (file) - (g_str_has_suffix (file, ENDING) ? strlen (ENDING) : 0)] = '\0';
  if (g_str_has_prefix (folder, home) && (folder[length] == '/' || folder[length] == '\0'))
    return g_strdup_printf ("%s  ·  ~%s", file, folder + length);
  return g_strdup_printf ("%s  ·  %s", file, folder);
}

void
cro_recent_watch (gpointer  object,
                  GCallback changed)
{
  g_signal_connect_object (gtk_recent_manager_get_default (), "changed", changed, object,
                           G_CONNECT_SWAPPED);
}
