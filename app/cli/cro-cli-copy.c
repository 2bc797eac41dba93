/* A copy of a book, for what is tried and not done. */
#include "config.h"

#include "cro-cli.h"

#include <glib/gstdio.h>

void
cro_cli_copy_remove (char *copy)
{
  static const char *const endings[] = { "", "-wal", "-shm" };
  g_autofree char *folder = g_path_get_dirname (copy);

  for (guint i = 0; i < G_N_ELEMENTS (endings); i++)
    {
      g_autofree char *path = g_strconcat (copy, endings[i], NULL);

      g_remove (path);
    }
  g_rmdir (folder);
  g_free (copy);
}

char *
cro_cli_copy_new (CroStore  *of,
                  GError   **error)
{
  g_autofree char *folder = g_dir_make_tmp ("croustade-XXXXXX", error);
  char *copy = folder != NULL ? g_build_filename (folder, "copy.croustade", NULL) : NULL;

  if (copy == NULL || cro_store_backup (of, copy, error))
    return copy;
  cro_cli_copy_remove (copy);
  return NULL;
}
