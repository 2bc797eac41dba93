#include "cro-dump-folder.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#define MARK ".unfinished"
#define PREFIX ".dump-"
#define PICTURES "pictures"

struct _CroDumpFolder
{
  char *folder;
  char *work;     /* the hidden folder; NULL once it has its name, or is gone */
  int   lock;     /* held while the hidden folder is ours */
  gboolean is_there;
  CroLoadGoOn go_on;
  gpointer user_data;
};

static gboolean
fail (const char  *path,
      GError     **error)
{
  int code = errno;

  g_set_error (error, G_FILE_ERROR, g_file_error_from_errno (code), "%s: %s", path,
               g_strerror (code));
  return FALSE;
}

static gboolean
sync_folder (const char *path)
{
  int file = open (path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  gboolean done = file >= 0 && fsync (file) == 0;

  if (file >= 0)
    close (file);
  return done;
}

/* --- The hidden folder ------------------------------------------------------------------------ */

static void
remove_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      g_unlink (path);
    }
  g_rmdir (folder);
}

/* Only files are in it, and a folder of pictures; what is not ours is not followed. */
static void
remove_work (const char *work)
{
  g_autofree char *pictures = g_build_filename (work, PICTURES, NULL);

  if (!g_file_test (pictures, G_FILE_TEST_IS_SYMLINK))
    remove_files (pictures);
  remove_files (work);
}

/* Who is alive holds a lock on its hidden folder. */
static int
lock_work (const char *work)
{
  int lock = open (work, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);

  if (lock >= 0 && flock (lock, LOCK_EX | LOCK_NB) != 0)
    {
      close (lock);
      return -1;
    }
  return lock;
}

/* Those of the same name, and any other that a dump has marked as its own. */
static void
remove_left_over (const char *place,
                  const char *prefix)
{
  g_autoptr (GDir) dir = g_dir_open (place, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *work = NULL;
      int lock;

      if (!g_str_has_prefix (name, PREFIX))
        continue;
      work = g_build_filename (place, name, NULL);
      if (!g_str_has_prefix (name, prefix) && !cro_dump_folder_is_unfinished (work))
        continue;
      lock = lock_work (work);
      if (lock < 0)
        continue;
      remove_work (work);
      close (lock);
    }
}

static gboolean
mark (const char  *folder,
      GError     **error)
{
  g_autofree char *path = g_build_filename (folder, MARK, NULL);
  int file = open (path, O_WRONLY | O_CREAT | O_CLOEXEC, 0666);

  if (file < 0)
    return fail (path, error);
  close (file);
  sync_folder (folder);
  return TRUE;
}

static void
unmark (const char *folder)
{
  g_autofree char *path = g_build_filename (folder, MARK, NULL);

  g_unlink (path);
  sync_folder (folder);
}

/* Beside a folder that is not there its name is in that of the hidden one, as others may stand
 * there too. */
static gboolean
make_work (CroDumpFolder  *self,
           GError        **error)
{
  g_autofree char *canonical = g_canonicalize_filename (self->folder, NULL);
  g_autofree char *above = g_path_get_dirname (canonical);
  g_autofree char *name = g_path_get_basename (canonical);
  g_autofree char *prefix = self->is_there ? g_strdup (PREFIX)
                                           : g_strconcat (PREFIX, name, "-", NULL);
  g_autofree char *hidden = g_strconcat (prefix, "XXXXXX", NULL);
  const char *place = self->is_there ? self->folder : above;
  g_autofree char *work = g_build_filename (place, hidden, NULL);

  if (!self->is_there && g_mkdir_with_parents (above, 0777) != 0)
    return fail (self->folder, error);
  remove_left_over (place, prefix);
  if (g_mkdtemp_full (work, 0777) == NULL)
    return fail (self->folder, error);
  self->work = g_steal_pointer (&work);
  self->lock = lock_work (self->work);
  return mark (self->work, error);
}

static gboolean
is_table (const char *name)
{
  for (guint i = 0; i < CRO_N_TABLES; i++)
    {
      g_autofree char *file = g_strconcat (cro_table_get ((CroTableId) i)->name, ".csv", NULL);

      if (strcmp (name, file) == 0)
        return TRUE;
    }
  return FALSE;
}

/* What is no table in a folder of tables stays there; a home or the root of a disk is no such folder.
 * Books may stand beside the tables that they were loaded from. */
static gboolean
is_of_others (const char *name)
{
  return name[0] != '.' && strstr (name, ".croustade") == NULL;
}

/* A link or a folder that has the name of a table is nobody's table. */
static gboolean
is_plain (const char *folder,
          const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  GStatBuf info;

  return g_lstat (path, &info) == 0 && S_ISREG (info.st_mode);
}

/* Whether tables may be written into a folder that is there. */
static gboolean
check_place (const char         *folder,
             CroDumpFolderKind   kind,
             GError            **error)
{
  g_autoptr (GDir) dir = g_file_test (folder, G_FILE_TEST_IS_DIR) ? g_dir_open (folder, 0, NULL)
                                                                  : NULL;
  gboolean has_tables = FALSE, has_others = FALSE, is_empty = TRUE;
  const char *name;

  if (dir == NULL)
    {
      errno = g_file_test (folder, G_FILE_TEST_IS_DIR) ? EACCES : ENOTDIR;
      return fail (folder, error);
    }
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      is_empty &= name[0] == '.';
      if (!is_table (name))
        has_others |= is_of_others (name);
      else if (is_plain (folder, name))
        has_tables = TRUE;
      else
        {
          g_set_error_literal (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_NOT_A_TABLE, name);
          return FALSE;
        }
    }
  if (kind == CRO_DUMP_FOLDER_EMPTY && !is_empty)
    {
      g_set_error_literal (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_HOLDS, "no empty folder");
      return FALSE;
    }
  if (has_tables || !has_others)
    return TRUE;
  g_set_error_literal (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_OTHERS, "no folder of tables");
  return FALSE;
}

CroDumpFolder *
cro_dump_folder_new (const char         *folder,
                     CroDumpFolderKind   kind,
                     CroLoadGoOn         go_on,
                     gpointer            user_data,
                     GError            **error)
{
  g_autoptr (CroDumpFolder) self = g_new0 (CroDumpFolder, 1);

  self->folder = g_strdup (folder);
  self->go_on = go_on;
  self->user_data = user_data;
  self->lock = -1;
  self->is_there = g_file_test (folder, G_FILE_TEST_EXISTS);
  if (self->is_there && !check_place (folder, kind, error))
    return NULL;
  return make_work (self, error) ? g_steal_pointer (&self) : NULL;
}

void
cro_dump_folder_free (CroDumpFolder *self)
{
  if (self->work != NULL)
    remove_work (self->work);
  if (self->lock >= 0)
    close (self->lock);
  g_free (self->work);
  g_free (self->folder);
  g_free (self);
}

/* --- Its tables ------------------------------------------------------------------------------- */

static gboolean
goes_on (CroDumpFolder  *self,
         CroTableId      id,
         GError        **error)
{
  if (self->go_on == NULL || self->go_on (self->user_data, (double) id / CRO_N_TABLES))
    return TRUE;
  g_set_error_literal (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_CANCELLED, "cancelled");
  return FALSE;
}

static gboolean
write_rows (CroDumpFolder   *self,
            CroTableId       id,
            const CroField  *fields,
            guint            n,
            GError         **error)
{
  g_autoptr (CroTableWriter) writer = cro_table_writer_new (self->work, id, error);

  if (writer == NULL)
    return FALSE;
  for (guint i = 0; i < n; i++)
    if (!cro_table_writer_row (writer, fields + (gsize) i * cro_table_get (id)->n_columns, error))
      return FALSE;
  return cro_table_writer_finish (writer, error);
}

/* A table that few books have rows of is no file where a book has none, unless an older one would stay. */
static gboolean
is_left_out (CroDumpFolder *self,
             CroTableId     id,
             guint          n)
{
  g_autofree char *file = g_strconcat (cro_table_get (id)->name, ".csv", NULL);
  g_autofree char *path = g_build_filename (self->folder, file, NULL);

  return n == 0 && cro_table_get (id)->is_seldom && !g_file_test (path, G_FILE_TEST_EXISTS);
}

/* Where the hidden folder is tells nobody anything. */
gboolean
cro_dump_folder_write (CroDumpFolder   *self,
                       CroTableId       id,
                       const CroField  *fields,
                       guint            n,
                       GError         **error)
{
  GError *failed = NULL;
  gsize length = strlen (self->work);

  if (!goes_on (self, id, error))
    return FALSE;
  if (is_left_out (self, id, n) || write_rows (self, id, fields, n, &failed))
    return TRUE;
  g_set_error_literal (error, failed->domain, failed->code,
                       failed->message
                           + (g_str_has_prefix (failed->message, self->work) ? length + 1 : 0));
  g_error_free (failed);
  return FALSE;
}

static gboolean
write_picture (const char  *folder,
               const char  *name,
               GBytes      *data,
               GError     **error)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  gsize length;
  const char *bytes = g_bytes_get_data (data, &length);

  if (g_mkdir (folder, 0777) != 0 && errno != EEXIST)
    return fail (PICTURES, error);
  return g_file_set_contents_full (path, bytes, (gssize) length, G_FILE_SET_CONTENTS_NONE, 0666, NULL)
         || fail (name, error);
}

gboolean
cro_dump_folder_picture (CroDumpFolder  *self,
                         const char     *name,
                         GBytes         *data,
                         GError        **error)
{
  g_autofree char *folder = g_build_filename (self->work, PICTURES, NULL);

  return goes_on (self, CRO_N_TABLES, error) && write_picture (folder, name, data, error);
}

/* --- Its place -------------------------------------------------------------------------------- */

static gboolean
move_files (const char  *from_folder,
            const char  *to_folder,
            GError     **error)
{
  g_autoptr (GDir) dir = g_dir_open (from_folder, 0, error);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *from = g_build_filename (from_folder, name, NULL);
      g_autofree char *to = g_build_filename (to_folder, name, NULL);

      if (strcmp (name, MARK) != 0 && strcmp (name, PICTURES) != 0 && g_rename (from, to) != 0)
        return fail (to, error);
    }
  return dir != NULL;
}

/* Pictures that lie there already stay: people may have their own among them. They come first, so that
 * no table names one that is not there yet. */
static gboolean
move_up (CroDumpFolder  *self,
         GError        **error)
{
  g_autofree char *from = g_build_filename (self->work, PICTURES, NULL);
  g_autofree char *to = g_build_filename (self->folder, PICTURES, NULL);

  if (g_file_test (from, G_FILE_TEST_IS_DIR))
    {
      if (g_mkdir (to, 0777) != 0 && errno != EEXIST)
        return fail (to, error);
      if (!move_files (from, to, error))
        return FALSE;
    }
  return move_files (self->work, self->folder, error);
}

gboolean
cro_dump_folder_finish (CroDumpFolder  *self,
                        GError        **error)
{
  if (!goes_on (self, CRO_N_TABLES, error))
    return FALSE;
  if (self->is_there)
    {
      if (!mark (self->folder, error) || !move_up (self, error))
        return FALSE;
      unmark (self->folder);
      return TRUE;
    }
  unmark (self->work);
  if (g_rename (self->work, self->folder) != 0)
    return fail (self->folder, error);
  g_clear_pointer (&self->work, g_free);
  return TRUE;
}

gboolean
cro_dump_folder_is_unfinished (const char *folder)
{
  g_autofree char *path = g_build_filename (folder, MARK, NULL);

  return g_file_test (path, G_FILE_TEST_EXISTS);
}
