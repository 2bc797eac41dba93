#include "cro-fill.h"
#include "cro-path.h"
#include "cro-store-private.h"

#include <errno.h>
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
        const char         *why)
{
  g_set_error_literal (error, CRO_STORE_ERROR, code, why);
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
  return refuse (error, CRO_STORE_ERROR_SYSTEM, "it cannot be read");
}

static gboolean
stands_beside (const char *path,
               const char *ending,
               goffset     least)
{
  g_autofree char *beside = g_strconcat (path, ending, NULL);
  GStatBuf         info;

  return g_stat (beside, &info) == 0 && info.st_size >= least;
}

/* A write-ahead log may hold pages that the file itself still lacks. */
static gboolean
has_log (const char *path)
{
  return stands_beside (path, "-wal", 1);
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

/* Neither the file nor, it may be, the folder it should stand in; nor can there be one of that name. */
static gboolean
is_gone (int code)
{
  return code == ENOENT || code == ENOTDIR || code == ELOOP || code == ENAMETOOLONG;
}

/* Whether it is a file, a database, and none of another program. */
static gboolean
check_kind (const char  *path,
            Header      *header,
            GError     **error)
{
  GStatBuf info;

  if (g_stat (path, &info) != 0)
    return refuse (error, is_gone (errno) ? CRO_STORE_ERROR_GONE : CRO_STORE_ERROR_SYSTEM,
                   g_strerror (errno));
  if (S_ISDIR (info.st_mode))
    return refuse (error, CRO_STORE_ERROR_FOLDER, "it is a folder");
  /* Opening a pipe would wait for somebody to write into it. */
  if (!S_ISREG (info.st_mode))
    return refuse (error, CRO_STORE_ERROR_NOT_A_BOOK, g_strerror (ENXIO));
  if (!read_header (path, header, error))
    return FALSE;
  if (header->file_bytes == 0)
    return refuse (error, CRO_STORE_ERROR_NOT_A_BOOK, "it is empty");
  if (memcmp (header->bytes, HEADER_MAGIC,
              MIN ((gsize) header->file_bytes, sizeof HEADER_MAGIC)) != 0)
    return refuse (error, CRO_STORE_ERROR_NOT_A_BOOK, "it is no database");
  if (header->file_bytes >= HEADER_BYTES &&
      big_endian (header->bytes + HEADER_APPLICATION_ID) != CRO_STORE_APPLICATION_ID)
    return refuse (error, CRO_STORE_ERROR_NOT_A_BOOK, "it is another program's database");
  return TRUE;
}

gboolean
cro_store_check_kind (const char  *path,
                      GError     **error)
{
  Header header = { 0 };

  return check_kind (path, &header, error);
}

gboolean
cro_store_check_name (const char  *path,
                      GError     **error)
{
  static const char *const endings[] = { "-wal", "-shm", "-journal" };

  for (gsize i = 0; i < G_N_ELEMENTS (endings); i++)
    if (g_str_has_suffix (path, endings[i]))
      return refuse (error, CRO_STORE_ERROR_RULE, CRO_STORE_NAMED_AS_LOG);
  return TRUE;
}

/* Judges a file before SQLite opens it, as SQLite would already roll back another program's
 * journal or fold in its log. */
static gboolean
check_file (const char  *path,
            int          newest,
            GError     **error)
{
  Header header = { 0 };

  if (!check_kind (path, &header, error) || !cro_store_check_name (path, error))
    return FALSE;
  if (is_truncated (path, &header))
    return refuse (error, CRO_STORE_ERROR_DAMAGED, "its end is missing");
  if (big_endian (header.bytes + HEADER_USER_VERSION) > (guint32) newest)
    return refuse (error, CRO_STORE_ERROR_NEWER, "it is of a newer version");
  return TRUE;
}

/* Instructions of SQLite's machine: a sound book's schema takes some ten thousand. */
#define MOST_BEFORE_TRUST 20000000

/* What is not as this program makes it could hold anything: views, triggers and expressions that
 * never end or do what nobody asked for. So nothing of it is run. */
static gboolean
check_schema (CroStore            *self,
              const CroMigration  *migration,
              GError             **error)
{
  g_autofree char *digest = NULL;
  int              version;

  if (!cro_migration_get_version (self->db, &version, error))
    return FALSE;
  if (version > migration->version)
    return refuse (error, CRO_STORE_ERROR_NEWER, "it is of a newer version");
  digest = cro_schema_digest (self->db, error);
  if (digest == NULL)
    return FALSE;
  if (version >= 1 && (migration->digests == NULL
                       || g_str_equal (digest, migration->digests[version - 1])))
    return TRUE;
  return refuse (error, CRO_STORE_ERROR_ALTERED, "its tables are not those of a book");
}

static gboolean
open_database (CroStore    *self,
               const char  *name,
               int          flags,
               GError     **error)
{
  g_clear_pointer (&self->db, sqlite3_close);
  if (sqlite3_open_v2 (name, &self->db, flags | SQLITE_OPEN_NOMUTEX, NULL) != SQLITE_OK)
    return cro_sql_fail (self->db, error);
  /* Pages that lead to one another can make even a schema endless. */
  self->limit = (CroSqlLimit) { .most = MOST_BEFORE_TRUST };
  cro_sql_limit (self->db, &self->limit);
  return cro_sql_configure (self->db, error) && cro_rows_configure (self->db, error) &&
         cro_sql_exec (self->db, "SELECT count(*) FROM sqlite_schema", error);
}

/* A medium that cannot be written has no room for the shared memory of a log. If there is no log
 * the file is all there is; should somebody else begin to write meanwhile, its time tells. */
static gboolean
open_immutable (CroStore  *self,
                GError   **error)
{
  g_autofree char *escaped = g_uri_escape_string (self->path, "/", FALSE);
  g_autofree char *uri = g_strconcat ("file:", escaped, "?immutable=1", NULL);

  self->is_immutable = TRUE;
  return open_database (self, uri, SQLITE_OPEN_READONLY | SQLITE_OPEN_URI, error);
}

static gboolean
may_write (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);

  return g_access (path, W_OK) == 0 && g_access (folder, W_OK) == 0;
}

/* Only a connection that may write clears the log and its index away when it is the last to
 * leave. */
static gboolean
open_with_log (CroStore  *self,
               GError   **error)
{
  if (!may_write (self->path))
    return open_database (self, self->path, SQLITE_OPEN_READONLY, error);
  return open_database (self, self->path, SQLITE_OPEN_READWRITE, error) &&
         cro_sql_exec (self->db, "PRAGMA query_only = ON", error);
}

static gboolean
has_logs (CroStore *self)
{
  return stands_beside (self->path, "-wal", 0) || stands_beside (self->path, "-shm", 0);
}

/* An open that failed on a full disk leaves the empty beginnings of a log. Whoever holds the book
 * alone, which takes no index of the log, is the last to leave and takes the log away. */
static void
clear_logs (CroStore *self)
{
  g_autofree char   *shared = g_strconcat (self->path, "-shm", NULL);
  g_autoptr(sqlite3) db = NULL;

  g_clear_pointer (&self->db, sqlite3_close);
  if (!has_log (self->path) &&
      sqlite3_open_v2 (self->path, &db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, NULL) == SQLITE_OK &&
      cro_sql_harden (db, NULL) &&
      cro_sql_exec (db, "PRAGMA locking_mode = EXCLUSIVE; BEGIN IMMEDIATE; ROLLBACK", NULL))
    g_unlink (shared);
}

static gboolean
open_to_read (CroStore  *self,
              GError   **error)
{
  g_autoptr(GError) local_error = NULL;
  gboolean          is_in_use = has_logs (self);

  if (!is_in_use && !may_write (self->path))
    return open_immutable (self, error);
  if (open_with_log (self, &local_error))
    return TRUE;
  if (!is_in_use)
    clear_logs (self);
  /* A full disk has no room for the index of a log that is not needed. */
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
  gboolean is_in_use = has_logs (self);

  if (!may_write (self->path))
    return refuse (error, CRO_STORE_ERROR_READ_ONLY, g_strerror (errno));
  if (!open_database (self, self->path, SQLITE_OPEN_READWRITE, error))
    {
      if (!is_in_use)
        clear_logs (self);
      return FALSE;
    }
  if (sqlite3_db_readonly (self->db, "main") != 0)
    return refuse (error, CRO_STORE_ERROR_READ_ONLY, g_strerror (EROFS));
  return TRUE;
}

/* Where the copy of what it was goes: a name that nothing has, as an older copy may be of other days. Owned. */
static char *
dup_path_of_older (CroStore *self,
                   int       version)
{
  g_autofree char *stem = g_str_has_suffix (self->path, ".croustade")
                            ? g_strndup (self->path, strlen (self->path) - strlen (".croustade"))
                            : g_strdup (self->path);
  char *path = g_strdup_printf ("%s-before-v%d.croustade", stem, version);
  GStatBuf there;

  for (int i = 2; g_lstat (path, &there) == 0; i++)
    {
      g_free (path);
      path = g_strdup_printf ("%s-before-v%d-%d.croustade", stem, version, i);
    }
  return path;
}

static gboolean
bring_up_to_date (CroStore            *self,
                  const CroMigration  *migration,
                  GError             **error)
{
  g_autofree char *older = NULL;
  int version;

  if (!cro_migration_get_version (self->db, &version, error))
    return FALSE;
  if (version == migration->version)
    return TRUE;
  if (self->mode == CRO_STORE_READ)
    return refuse (error, CRO_STORE_ERROR_OLDER,
                   "it is of an older version and has to be opened for writing first");
  older = dup_path_of_older (self, migration->version);
  if (!cro_backup_copy (self->db, older, error))
    return FALSE;
  if (cro_migration_run (self->db, migration, error))
    return TRUE;
  /* The book is what it was. */
  g_unlink (older);
  return FALSE;
}

static gboolean
remember_file (CroStore  *self,
               GError   **error)
{
  GStatBuf info;

  if (g_stat (self->path, &info) != 0)
    return refuse (error, CRO_STORE_ERROR_GONE, g_strerror (errno));
  self->device = info.st_dev;
  self->inode = info.st_ino;
  self->modified = info.st_mtim;
  /* What is no book has no acts. */
  cro_store_number (self, CRO_LAST_ACT, &self->last_act, NULL);
  return cro_store_number (self, "PRAGMA data_version", &self->data_version, error);
}

/* Opens it as what it is, a stranger's file; it is trusted once its schema is. */
static gboolean
open_checked (CroStore            *self,
              const CroMigration  *migration,
              GError             **error)
{
  gboolean done = self->mode == CRO_STORE_WRITE ? open_to_write (self, error)
                                                : open_to_read (self, error);

  done = done && (self->mode == CRO_STORE_INSPECT || check_schema (self, migration, error));
  if (done)
    sqlite3_progress_handler (self->db, 0, NULL, NULL);
  return done;
}

/* to_fill: refused where it holds anything, before its schema changes. */
static CroStore *
open_with (const char          *path,
           const char          *desk,
           CroStoreMode         mode,
           gboolean             to_fill,
           const CroMigration  *migration,
           GError             **error)
{
  g_autoptr(CroStore) self = g_new0 (CroStore, 1);

  self->path = cro_path_dup_real (path);
  self->desk = g_strdup (desk);
  self->mode = mode;
  self->idle = cro_store_idle_new ();
  if (self->path == NULL)
    {
      refuse (error, CRO_STORE_ERROR_GONE, "the empty name");
      return NULL;
    }
  if (!check_file (self->path, migration->version, error) || !open_checked (self, migration, error))
    return NULL;
  if (to_fill && !cro_store_check_empty (self, error))
    return NULL;
  if (mode != CRO_STORE_INSPECT && !bring_up_to_date (self, migration, error))
    return NULL;
  if (mode == CRO_STORE_WRITE && !cro_store_run (self, "PRAGMA journal_mode = WAL", error))
    return NULL;
  return remember_file (self, error) ? g_steal_pointer (&self) : NULL;
}

CroStore *
cro_store_open_with (const char          *path,
                     const char          *desk,
                     CroStoreMode         mode,
                     const CroMigration  *migration,
                     GError             **error)
{
  return open_with (path, desk, mode, FALSE, migration, error);
}

CroStore *
cro_store_open_to_fill (const char  *path,
                        const char  *desk,
                        GError     **error)
{
  g_return_val_if_fail (path != NULL && desk != NULL, NULL);

  return open_with (path, desk, CRO_STORE_WRITE, TRUE, cro_migration_get (), error);
}

/* Read only, it leaves the log to the one that opened the file first. */
CroStore *
cro_store_open_twin (CroStore  *self,
                     GError   **error)
{
  g_autoptr(CroStore) twin = g_new0 (CroStore, 1);
  gboolean            done;

  twin->path = g_strdup (self->path);
  twin->mode = CRO_STORE_READ;
  twin->idle = cro_store_idle_new ();
  done = self->is_immutable ? open_immutable (twin, error)
                            : open_database (twin, twin->path, SQLITE_OPEN_READONLY, error);
  if (!done || !cro_store_check_there (self, error))
    return NULL;
  sqlite3_progress_handler (twin->db, 0, NULL, NULL);
  return g_steal_pointer (&twin);
}

CroStore *
cro_store_open (const char    *path,
                const char    *desk,
                CroStoreMode   mode,
                GError       **error)
{
  GError   *failed = NULL;
  CroStore *store;

  g_return_val_if_fail (path != NULL, NULL);
  g_return_val_if_fail (desk != NULL || mode != CRO_STORE_WRITE, NULL);

  store = cro_store_open_with (path, desk, mode, cro_migration_get (), &failed);
  /* A job that reads goes on after an upgrade: the book of before stands beside it. */
  if (g_error_matches (failed, CRO_STORE_ERROR, CRO_STORE_ERROR_OLDER))
    {
      g_autoptr(CroStore) writer = cro_store_open_with (path, desk, CRO_STORE_WRITE, cro_migration_get (),
                                                        error);

      g_clear_error (&failed);
      if (writer == NULL)
        return NULL;
      g_clear_pointer (&writer, cro_store_close);
      return cro_store_open_with (path, desk, mode, cro_migration_get (), error);
    }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return store;
}
