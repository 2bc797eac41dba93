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
