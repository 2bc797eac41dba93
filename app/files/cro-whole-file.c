#include "cro-whole-file.h"

#include "cro-path.h"
#include "cro-plain-file.h"
#include "cro-unfinished.h"

#include <errno.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

G_DEFINE_QUARK (cro-whole-file-error-quark, cro_whole_file_error)

struct _CroWholeFile
{
  char          *path;
  CroUnfinished *unfinished;
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

static gboolean
begins_with (const char *path,
             const char *bytes,
             gsize       length)
{
  char begins[16];
  int file = cro_plain_file_open (path, NULL);
  gboolean does;

  if (file < 0)
    return FALSE;
  does = read (file, begins, length) == (gssize) length && memcmp (begins, bytes, length) == 0;
  close (file);
  return does;
}

gboolean
cro_whole_file_is_database (const char *path)
{
  static const char magic[] = "SQLite format 3";
  static const char *const endings[] = { "-wal", "-shm", "-journal" };

  for (guint i = 0; i < G_N_ELEMENTS (endings); i++)
    if (g_str_has_suffix (path, endings[i]))
      {
        g_autofree char *of = g_strndup (path, strlen (path) - strlen (endings[i]));

        if (begins_with (of, magic, sizeof magic))
          return TRUE;
      }
  return begins_with (path, magic, sizeof magic);
}

gboolean
cro_whole_file_is_program (const char *path)
{
  return begins_with (path, "\177ELF", 4) || begins_with (path, "#!", 2);
}

/* The file that a symbolic link leads to is replaced, and not the link. */
CroWholeFile *
cro_whole_file_new_database (const char   *path,
                             GError      **error)
{
  g_autoptr (CroWholeFile) self = g_new0 (CroWholeFile, 1);
  g_autofree char *folder = NULL;
  mode_t mode;

  self->path = cro_path_dup_real (path);
  if (self->path == NULL)
    {
      errno = ENOENT;
      fail (error);
      return NULL;
    }
  if (!may_replace (self->path, &mode, error))
    return NULL;
  folder = g_path_get_dirname (self->path);
  self->unfinished = cro_unfinished_new (folder, error);
  if (self->unfinished == NULL)
    return NULL;
  if (mode != 0)
    cro_unfinished_set_mode (self->unfinished, mode);
  return g_steal_pointer (&self);
}

CroWholeFile *
cro_whole_file_new (const char   *path,
                    GError      **error)
{
  if (cro_whole_file_is_database (path))
    g_set_error_literal (error, CRO_WHOLE_FILE_ERROR, CRO_WHOLE_FILE_ERROR_DATABASE,
                         "a database stands there");
  else if (cro_whole_file_is_program (path))
    g_set_error_literal (error, CRO_WHOLE_FILE_ERROR, CRO_WHOLE_FILE_ERROR_PROGRAM, "a program stands there");
  else
    return cro_whole_file_new_database (path, error);
  return NULL;
}

const char *
cro_whole_file_get_path (CroWholeFile *self)
{
  return cro_unfinished_get_path (self->unfinished);
}

gboolean
cro_whole_file_finish (CroWholeFile  *self,
                       GError       **error)
{
  return cro_unfinished_replace (self->unfinished, self->path, error);
}

void
cro_whole_file_free (CroWholeFile *self)
{
  cro_unfinished_free (self->unfinished);
  g_free (self->path);
  g_free (self);
}
