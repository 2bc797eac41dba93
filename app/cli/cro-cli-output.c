#include "cro-cli.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "cro-unfinished.h"

static gboolean
send_file (const char  *path,
           GError     **error)
{
  FILE *file = fopen (path, "rb");
  char bytes[1 << 14];
  gsize n;
  gboolean done = file != NULL;

  while (done && (n = fread (bytes, 1, sizeof bytes, file)) > 0)
    done = fwrite (bytes, 1, n, stdout) == n;
  done = done && !ferror (file) && fflush (stdout) == 0;
  if (!done)
    g_set_error_literal (error, G_FILE_ERROR, g_file_error_from_errno (errno), g_strerror (errno));
  if (file != NULL)
    fclose (file);
  return done;
}

gboolean
cro_cli_write_file (const char   *path,
                    CroCliWrite   write,
                    gpointer      user_data,
                    GError      **error)
{
  g_autoptr (CroUnfinished) file = NULL;

  if (strcmp (path, "-") != 0)
    return write (path, user_data, error);
  file = cro_unfinished_new (g_get_tmp_dir (), error);
  return file != NULL && write (cro_unfinished_get_path (file), user_data, error)
         && send_file (cro_unfinished_get_path (file), error);
}
