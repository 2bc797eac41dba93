#include "cro-whole-file.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

struct _CroWholeFile
{
  char *path;
  char *folder;
  char *unfinished;     /* NULL once it is in its place */
};

/* Who asked knows the path. */
static gboolean
fail (GError **error)
{
  int code = errno;

  g_set_error_literal (error, G_FILE_ERROR, (int) g_file_error_from_errno (code),
                       g_strerror (code));
  return FALSE;
}

/* The file that a symbolic link leads to is replaced, and not the link. */
static char *
follow (const char *path)
{
  char *real = realpath (path, NULL);
  char *copy = g_strdup (real != NULL ? real : path);

  free (real);
  return copy;
}

static gboolean
may_replace (const char   *path,
             mode_t       *mode,
             GError      **error)
{
  struct stat there;

  *mode = 0;
  if (stat (path, &there) != 0)
    return errno == ENOENT || fail (error);
  if (S_ISDIR (there.st_mode))
    errno = EISDIR;
  else if (!S_ISREG (there.st_mode))
    errno = EINVAL;
  else if (access (path, W_OK) == 0)
    {
      *mode = there.st_mode & 07777;
      return TRUE;
    }
  return fail (error);
}

CroWholeFile *
cro_whole_file_new (const char   *path,
                    GError      **error)
{
  g_autoptr (CroWholeFile) self = g_new0 (CroWholeFile, 1);
  g_autofree char *template = NULL;
  mode_t mode;
  int file;

  self->path = follow (path);
  if (!may_replace (self->path, &mode, error))
    return NULL;
  self->folder = g_path_get_dirname (self->path);
  template = g_build_filename (self->folder, ".unfinished.XXXXXX", NULL);
  file = g_mkstemp_full (template, O_WRONLY | O_CLOEXEC, 0666);
  if (file < 0)
    {
      fail (error);
      return NULL;
    }
  self->unfinished = g_steal_pointer (&template);
  if (mode != 0)
    fchmod (file, mode);
  close (file);
  return g_steal_pointer (&self);
}

const char *
cro_whole_file_get_path (CroWholeFile *self)
{
  return self->unfinished;
}

static gboolean
sync_path (const char *path,
           int         flags,
           GError    **error)
{
  int file = g_open (path, flags | O_CLOEXEC, 0);
  gboolean done;

  if (file < 0)
    return fail (error);
  done = fsync (file) == 0 || fail (error);
  close (file);
  return done;
}

gboolean
cro_whole_file_finish (CroWholeFile  *self,
                       GError       **error)
{
  if (!sync_path (self->unfinished, O_RDONLY, error))
    return FALSE;
  if (g_rename (self->unfinished, self->path) != 0)
    return fail (error);
  g_clear_pointer (&self->unfinished, g_free);
  /* It has its place; that a folder cannot be synced (some network shares) undoes nothing. */
  sync_path (self->folder, O_RDONLY | O_DIRECTORY, NULL);
  return TRUE;
}

void
cro_whole_file_free (CroWholeFile *self)
{
  if (self->unfinished != NULL)
    g_unlink (self->unfinished);
  g_free (self->unfinished);
  g_free (self->folder);
  g_free (self->path);
  g_free (self);
}
