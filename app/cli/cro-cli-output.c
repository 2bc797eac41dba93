#include "cro-cli.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

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
  g_autofree char *stand_in = NULL;
  gboolean done;
  int fd;

  if (strcmp (path, "-") != 0)
    return write (path, user_data, error);
  fd = g_file_open_tmp ("croustade-XXXXXX", &stand_in, error);
  if (fd < 0)
    return FALSE;
  close (fd);
  done = write (stand_in, user_data, error) && send_file (stand_in, error);
  g_unlink (stand_in);
  return done;
}
