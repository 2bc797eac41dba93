#include "cro-free-path.h"

char *
cro_free_path_dup (const char *name,
                   const char *ending)
{
  const char *folder = g_get_user_special_dir (G_USER_DIRECTORY_DOCUMENTS);

  if (folder == NULL)
    folder = g_get_home_dir ();
  for (int n = 1;; n++)
    {
      g_autofree char *file = n == 1 ? g_strconcat (name, ending, NULL)
                                     : g_strdup_printf ("%s %d%s", name, n, ending);
      g_autofree char *path = g_build_filename (folder, file, NULL);

      if (!g_file_test (path, G_FILE_TEST_EXISTS))
        return g_steal_pointer (&path);
    }
}
