#define _GNU_SOURCE /* renameat2 */

#include "cro-unfinished.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#define PREFIX ".croustade-unfinished."
#define RANDOM "XXXXXX"

struct _CroUnfinished
{
  char *path;     /* NULL once it took its place */
  char *folder;
  int   file;     /* holds the lock */
};

static gboolean
fail (int      code,
      GError **error)
{
  g_set_error_literal (error, G_FILE_ERROR, (int) g_file_error_from_errno (code),
                       g_strerror (code));
  return FALSE;
}

/* --- What killed programs left ------------------------------------------------------------ */

/* What a database keeps beside its file goes first: without the file nobody would know it again. */
static void
remove_all (const char *path)
{
  static const char *const endings[] = { "-wal", "-shm", "-journal", "" };

  for (gsize i = 0; i < G_N_ELEMENTS (endings); i++)
    {
      g_autofree char *file = g_strconcat (path, endings[i], NULL);

      g_unlink (file);
    }
}

/* The lock is held while it is removed: its maker, if it is only just making it, finds it gone. */
static void
remove_if_dead (const char *path)
{
  int file = g_open (path, O_RDONLY | O_NONBLOCK | O_NOFOLLOW | O_CLOEXEC, 0);
  struct stat info;

  if (file < 0)
    return;
  if (fstat (file, &info) == 0 && S_ISREG (info.st_mode) && info.st_uid == geteuid ()
      && info.st_nlink == 1 && flock (file, LOCK_EX | LOCK_NB) == 0)
    remove_all (path);
  close (file);
}

static void
sweep (const char *folder)
{
  GDir *dir = g_dir_open (folder, 0, NULL);
  const char *name;

  if (dir == NULL)
    return;
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_prefix (name, PREFIX) && strlen (name) == strlen (PREFIX RANDOM))
      {
        g_autofree char *path = g_build_filename (folder, name, NULL);

        remove_if_dead (path);
      }
  g_dir_close (dir);
}

/* --- Making one --------------------------------------------------------------------------------- */

/* Where a file system has no locks, those of the sweep fail as well: nothing is removed there. */
static gboolean
lock (int file)
{
  struct stat info;

  while (flock (file, LOCK_EX) != 0 && errno == EINTR)
    ;
  return fstat (file, &info) == 0 && info.st_nlink > 0;
}

CroUnfinished *
cro_unfinished_new (const char  *folder,
                    GError     **error)
{
  char *path = NULL;
  int file = -1;

  sweep (folder);
  while (file < 0)
    {
      CroUnfinished *self;

      path = g_build_filename (folder, PREFIX RANDOM, NULL);
      file = g_mkstemp_full (path, O_RDWR | O_CLOEXEC, 0666);
      if (file < 0)
        {
          fail (errno, error);
          g_free (path);
          return NULL;
        }
      if (lock (file))
        {
          self = g_new0 (CroUnfinished, 1);
          self->path = path;
          self->folder = g_strdup (folder);
          self->file = file;
          return self;
        }
      close (file);
      file = -1;
      g_free (path);
    }
  return NULL;
}

void
cro_unfinished_free (CroUnfinished *self)
{
  if (self == NULL)
    return;
  if (self->path != NULL)
    remove_all (self->path);
  close (self->file);
  g_free (self->path);
  g_free (self->folder);
  g_free (self);
}

const char *
cro_unfinished_get_path (CroUnfinished *self)
{
  return self->path;
}

void
cro_unfinished_set_mode (CroUnfinished *self,
                         guint          mode)
{
  if (fchmod (self->file, (mode_t) mode) != 0)
    g_debug ("the mode cannot be kept: %s", g_strerror (errno));
}

/* --- Its place ---------------------------------------------------------------------------------- */

/* That a folder cannot be synced (some network shares) undoes nothing. */
static gboolean
placed (CroUnfinished *self)
{
  int folder = g_open (self->folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC, 0);

  if (folder >= 0)
    {
      if (fsync (folder) != 0)
        g_debug ("the folder cannot be synced: %s", g_strerror (errno));
      close (folder);
    }
  g_clear_pointer (&self->path, g_free);
  return TRUE;
}

gboolean
cro_unfinished_replace (CroUnfinished  *self,
                        const char     *path,
                        GError        **error)
{
  if (fsync (self->file) != 0 || g_rename (self->path, path) != 0)
    return fail (errno, error);
  return placed (self);
}

/* Some file systems know neither of the first two; there the moment between looking and renaming
 * has to do. */
static gboolean
rename_to_nothing (const char *from,
                   const char *to)
{
  struct stat there;

  if (renameat2 (AT_FDCWD, from, AT_FDCWD, to, RENAME_NOREPLACE) == 0)
    return TRUE;
  if (errno != EINVAL && errno != ENOSYS)
    return FALSE;
  if (link (from, to) == 0)
    {
      g_unlink (from);
      return TRUE;
    }
  if (errno == EEXIST)
    return FALSE;
  if (lstat (to, &there) == 0)
    {
      errno = EEXIST;
      return FALSE;
    }
  return g_rename (from, to) == 0;
}

gboolean
cro_unfinished_place (CroUnfinished  *self,
                      const char     *path,
                      GError        **error)
{
  if (fsync (self->file) != 0 || !rename_to_nothing (self->path, path))
    return fail (errno, error);
  return placed (self);
}
