#include "cro-store-private.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

/* The header of a database file: https://www.sqlite.org/fileformat2.html section 1.3. */
#define HEADER_BYTES 100
#define HEADER_MAGIC "SQLite format 3"
#define HEADER_PAGE_SIZE 16
#define HEADER_N_PAGES 28
#define HEADER_USER_VERSION 60
#define HEADER_APPLICATION_ID 68

typedef struct
{
  guint8        bytes[HEADER_BYTES];
  sqlite3_int64 file_bytes;
} Header;

static guint32
big_endian (const guint8 *bytes)
{
  return (guint32) bytes[0] << 24 | (guint32) bytes[1] << 16 | (guint32) bytes[2] << 8 | bytes[3];
}

static gboolean
refuse (GError            **error,
        CroStoreErrorCode   code,
        const char         *path,
        const char         *why)
{
  g_set_error (error, CRO_STORE_ERROR, code, "%s: %s", path, why);
  return FALSE;
}

/* Reads through SQLite's own file layer: closing any other descriptor of the file would drop the
 * locks that another store of this process holds on it. */
static gboolean
read_header (const char  *path,
             Header      *header,
             GError     **error)
{
  sqlite3_vfs             *vfs = sqlite3_vfs_find (NULL);
  g_autofree sqlite3_file *file = g_malloc0 (vfs->szOsFile);
  sqlite3_filename         name = sqlite3_create_filename (path, "", "", 0, NULL);
  int                      status;

  status = vfs->xOpen (vfs, name, file, SQLITE_OPEN_READONLY | SQLITE_OPEN_MAIN_DB, NULL);
  if (status == SQLITE_OK)
    status = file->pMethods->xFileSize (file, &header->file_bytes);
  if (status == SQLITE_OK)
    status = file->pMethods->xRead (file, header->bytes, HEADER_BYTES, 0);
  if (file->pMethods != NULL)
    file->pMethods->xClose (file);
  sqlite3_free_filename (name);
  if (status == SQLITE_OK || status == SQLITE_IOERR_SHORT_READ)
    return TRUE;
  return refuse (error, CRO_STORE_ERROR_SYSTEM, path, "it cannot be read");
}

/* A write-ahead log may hold pages that the file itself still lacks. */
static gboolean
has_log (const char *path)
{
  g_autofree char *log = g_strconcat (path, "-wal", NULL);
  GStatBuf         info;

  return g_stat (log, &info) == 0 && info.st_size > 0;
}

static gboolean
is_truncated (const char   *path,
              const Header *header)
{
  sqlite3_int64 page = header->bytes[HEADER_PAGE_SIZE] << 8 | header->bytes[HEADER_PAGE_SIZE + 1];

  if (header->file_bytes < HEADER_BYTES)
    return TRUE;
  if (page == 1)
    page = 65536;
  return !has_log (path) &&
         header->file_bytes < page * big_endian (header->bytes + HEADER_N_PAGES);
}

/* Neither the file nor, it may be, the folder it should stand in. */
static gboolean
is_gone (int code)
{
  return code == ENOENT || code == ENOTDIR;
}

/* Judges a file before SQLite opens it, as SQLite would already roll back another program's
 * journal or fold in its log. */
static gboolean
check_file (const char  *path,
            int          newest,
            GError     **error)
{
  Header   header = { 0 };
  GStatBuf info;

  if (g_stat (path, &info) != 0)
    return refuse (error, is_gone (errno) ? CRO_STORE_ERROR_GONE : CRO_STORE_ERROR_SYSTEM, path,
                   g_strerror (errno));
  if (S_ISDIR (info.st_mode))
    return refuse (error, CRO_STORE_ERROR_NOT_A_BOOK, path, g_strerror (EISDIR));
  if (!read_header (path, &header, error))
    return FALSE;
  if (header.file_bytes == 0)
    return refuse (error, CRO_STORE_ERROR_NOT_A_BOOK, path, "it is empty");
  if (memcmp (header.bytes, HEADER_MAGIC,
              MIN ((gsize) header.file_bytes, sizeof HEADER_MAGIC)) != 0)
    return refuse (error, CRO_STORE_ERROR_NOT_A_BOOK, path, "it is no database");
  if (header.file_bytes >= HEADER_BYTES &&
      big_endian (header.bytes + HEADER_APPLICATION_ID) != CRO_STORE_APPLICATION_ID)
    return refuse (error, CRO_STORE_ERROR_NOT_A_BOOK, path, "it is another program's database");
  if (is_truncated (path, &header))
    return refuse (error, CRO_STORE_ERROR_DAMAGED, path, "its end is missing");
  if (big_endian (header.bytes + HEADER_USER_VERSION) > (guint32) newest)
    return refuse (error, CRO_STORE_ERROR_NEWER, path, "it is of a newer version");
  return TRUE;
}

static gboolean
open_database (CroStore    *self,
               const char  *name,
               int          flags,
               GError     **error)
{
  gint64 n_objects;

  g_clear_pointer (&self->db, sqlite3_close);
  if (sqlite3_open_v2 (name, &self->db, flags | SQLITE_OPEN_NOMUTEX, NULL) != SQLITE_OK)
    return cro_sql_fail (self->db, error);
  return cro_sql_configure (self->db, error) && cro_rows_configure (self->db, error) &&
         cro_sql_number (self->db, "SELECT count(*) FROM sqlite_schema", &n_objects, error);
}

/* A medium that cannot be written has no room for the shared memory of a log. If there is no log
 * the file is all there is, and nothing can change it. */
static gboolean
open_immutable (CroStore  *self,
                GError   **error)
{
  g_autofree char *escaped = g_uri_escape_string (self->path, "/", FALSE);
  g_autofree char *uri = g_strconcat ("file:", escaped, "?immutable=1", NULL);

  return open_database (self, uri, SQLITE_OPEN_READONLY | SQLITE_OPEN_URI, error);
}

static gboolean
open_to_read (CroStore  *self,
              GError   **error)
{
  g_autoptr(GError) local_error = NULL;

  if (open_database (self, self->path, SQLITE_OPEN_READONLY, &local_error))
    return TRUE;
  if ((g_error_matches (local_error, CRO_STORE_ERROR, CRO_STORE_ERROR_SYSTEM) ||
       g_error_matches (local_error, CRO_STORE_ERROR, CRO_STORE_ERROR_READ_ONLY)) &&
      !has_log (self->path))
    return open_immutable (self, error);
  g_propagate_error (error, g_steal_pointer (&local_error));
  return FALSE;
}

static gboolean
open_to_write (CroStore  *self,
               GError   **error)
{
  g_autofree char *folder = g_path_get_dirname (self->path);

  if (g_access (self->path, W_OK) != 0 || g_access (folder, W_OK) != 0)
    return refuse (error, CRO_STORE_ERROR_READ_ONLY, self->path, g_strerror (errno));
  if (!open_database (self, self->path, SQLITE_OPEN_READWRITE, error))
    return FALSE;
  if (sqlite3_db_readonly (self->db, "main") != 0)
    return refuse (error, CRO_STORE_ERROR_READ_ONLY, self->path, g_strerror (EROFS));
  return TRUE;
}

static gboolean
back_up_before (CroStore  *self,
                int        version,
                GError   **error)
{
  g_autofree char *stem = g_str_has_suffix (self->path, ".croustade")
                            ? g_strndup (self->path, strlen (self->path) - strlen (".croustade"))
                            : g_strdup (self->path);
  g_autofree char *path = g_strdup_printf ("%s-before-v%d.croustade", stem, version);

  return cro_backup_copy (self->db, path, error);
}

static gboolean
bring_up_to_date (CroStore            *self,
                  const CroMigration  *migration,
                  GError             **error)
{
  int version;

  if (!cro_migration_get_version (self->db, &version, error))
    return FALSE;
  if (version > migration->version)
    return refuse (error, CRO_STORE_ERROR_NEWER, self->path, "it is of a newer version");
  if (version == migration->version)
    return TRUE;
  if (self->mode == CRO_STORE_READ)
    return refuse (error, CRO_STORE_ERROR_READ_ONLY, self->path,
                   "it is of an older version and has to be opened for writing first");
  return back_up_before (self, migration->version, error) &&
         cro_migration_run (self->db, migration, error);
}

static gboolean
remember_file (CroStore  *self,
               GError   **error)
{
  GStatBuf info;

  if (g_stat (self->path, &info) != 0)
    return refuse (error, CRO_STORE_ERROR_GONE, self->path, g_strerror (errno));
  self->device = info.st_dev;
  self->inode = info.st_ino;
  return cro_store_number (self, "PRAGMA data_version", &self->data_version, error);
}

CroStore *
cro_store_open_with (const char          *path,
                     const char          *desk,
                     CroStoreMode         mode,
                     const CroMigration  *migration,
                     GError             **error)
{
  g_autoptr(CroStore) self = g_new0 (CroStore, 1);

  self->path = g_canonicalize_filename (path, NULL);
  self->desk = g_strdup (desk);
  self->mode = mode;
  self->idle = cro_store_idle_new ();
  if (!check_file (self->path, migration->version, error))
    return NULL;
  if (!(mode == CRO_STORE_READ ? open_to_read (self, error) : open_to_write (self, error)))
    return NULL;
  if (!bring_up_to_date (self, migration, error))
    return NULL;
  if (mode == CRO_STORE_WRITE && !cro_store_run (self, "PRAGMA journal_mode = WAL", error))
    return NULL;
  if (!remember_file (self, error))
    return NULL;
  return g_steal_pointer (&self);
}

CroStore *
cro_store_open (const char    *path,
                const char    *desk,
                CroStoreMode   mode,
                GError       **error)
{
  g_return_val_if_fail (path != NULL, NULL);
  g_return_val_if_fail (desk != NULL || mode == CRO_STORE_READ, NULL);

  return cro_store_open_with (path, desk, mode, cro_migration_get (), error);
}

static gboolean
make_book (const char  *path,
           GError     **error)
{
  g_autoptr(sqlite3) db = NULL;

  if (sqlite3_open_v2 (path, &db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, NULL) != SQLITE_OK)
    return cro_sql_fail (db, error);
  return cro_sql_configure (db, error) && cro_migration_run (db, cro_migration_get (), error) &&
         cro_sql_exec (db, "PRAGMA journal_mode = WAL", error);
}

/* Gives the finished file its name without ever taking one that exists. Some file systems know
 * no hard links; there the moment between looking and renaming has to do. */
static gboolean
publish (const char  *temporary,
         const char  *path,
         GError     **error)
{
  gboolean done = link (temporary, path) == 0;

  if (!done && errno != EEXIST && !g_file_test (path, G_FILE_TEST_EXISTS))
    return g_rename (temporary, path) == 0 ||
           refuse (error, CRO_STORE_ERROR_SYSTEM, path, g_strerror (errno));
  g_unlink (temporary);
  return done || refuse (error, CRO_STORE_ERROR_EXISTS, path, g_strerror (EEXIST));
}

CroStore *
cro_store_create (const char  *path,
                  const char  *desk,
                  GError     **error)
{
  g_autofree char *temporary = NULL;
  int              fd;

  g_return_val_if_fail (path != NULL, NULL);
  g_return_val_if_fail (desk != NULL, NULL);

  if (g_file_test (path, G_FILE_TEST_EXISTS))
    {
      refuse (error, CRO_STORE_ERROR_EXISTS, path, g_strerror (EEXIST));
      return NULL;
    }
  temporary = g_strconcat (path, ".XXXXXX", NULL);
  fd = g_mkstemp_full (temporary, O_RDWR, 0666);
  if (fd < 0)
    {
      gboolean fixed = errno == EROFS || errno == EACCES;

      refuse (error,
              fixed             ? CRO_STORE_ERROR_READ_ONLY
              : is_gone (errno) ? CRO_STORE_ERROR_GONE
                                : CRO_STORE_ERROR_SYSTEM,
              path, g_strerror (errno));
      return NULL;
    }
  close (fd);
  if (!make_book (temporary, error))
    {
      g_unlink (temporary);
      return NULL;
    }
  if (!publish (temporary, path, error))
    return NULL;
  return cro_store_open (path, desk, CRO_STORE_WRITE, error);
}
