#include "cro-plain-file.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <sys/stat.h>
#include <unistd.h>

/* Opening a pipe waits for somebody to write into it, unless it is told not to. */
int
cro_plain_file_open (const char  *path,
                     GError     **error)
{
  int file = g_open (path, O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC, 0);
  int code = errno;
  struct stat info;

  if (file >= 0)
    {
      code = fstat (file, &info) != 0     ? errno
             : S_ISDIR (info.st_mode)     ? EISDIR
             : !S_ISREG (info.st_mode)    ? EINVAL
                                          : 0;
      if (code == 0)
        return file;
      close (file);
    }
  g_set_error_literal (error, G_FILE_ERROR, (int) g_file_error_from_errno (code),
                       g_strerror (code));
  return -1;
}

GBytes *
cro_plain_file_read (const char  *path,
                     gsize        most,
                     GError     **error)
{
  int file = cro_plain_file_open (path, error);
  GByteArray *taken;
  guint8 block[65536];
  gssize length = 0;
  int code;

  if (file < 0)
    return NULL;
  taken = g_byte_array_new ();
  while (taken->len < most
         && (length = read (file, block, MIN (sizeof block, most - taken->len))) > 0)
    g_byte_array_append (taken, block, (guint) length);
  code = errno;
  close (file);
  if (length >= 0)
    return g_byte_array_free_to_bytes (taken);
  g_byte_array_unref (taken);
  g_set_error_literal (error, G_FILE_ERROR, (int) g_file_error_from_errno (code),
                       g_strerror (code));
  return NULL;
}
