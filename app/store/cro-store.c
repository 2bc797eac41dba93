#include "cro-store-private.h"

#include <glib/gstdio.h>
#include <sys/vfs.h>

sqlite3_stmt *
cro_store_take (CroStore    *self,
                const char  *sql,
                GError     **error)
{
  sqlite3_stmt *stmt = g_hash_table_lookup (self->idle, sql);

  if (stmt == NULL)
    return cro_sql_prepare (self->db, sql, error);
  g_hash_table_steal (self->idle, sql);
  return stmt;
}

void
cro_store_give (CroStore     *self,
                sqlite3_stmt *stmt)
{
  const char *sql = sqlite3_sql (stmt);

  sqlite3_reset (stmt);
  sqlite3_clear_bindings (stmt);
  if (g_hash_table_contains (self->idle, sql))
    sqlite3_finalize (stmt);
  else
    g_hash_table_insert (self->idle, (gpointer) sql, stmt);
}

static void
finalize_statement (gpointer stmt)
{
  sqlite3_finalize (stmt);
}

GHashTable *
cro_store_idle_new (void)
{
  return g_hash_table_new_full (g_str_hash, g_str_equal, NULL, finalize_statement);
}

gboolean
cro_store_run (CroStore    *self,
               const char  *sql,
               GError     **error)
{
  return cro_store_run_with (self, sql, 0, error);
}

gboolean
cro_store_run_with (CroStore    *self,
                    const char  *sql,
                    gint64       parameter,
                    GError     **error)
{
  sqlite3_stmt *stmt = cro_store_take (self, sql, error);
  int           status;

  if (stmt == NULL)
    return FALSE;
  if (sqlite3_bind_parameter_count (stmt) > 0)
    sqlite3_bind_int64 (stmt, 1, parameter);
  status = sqlite3_step (stmt);
  if (status != SQLITE_DONE && status != SQLITE_ROW)
    cro_sql_fail (self->db, error);
  cro_store_give (self, stmt);
  return status == SQLITE_DONE || status == SQLITE_ROW;
}

gboolean
cro_store_number (CroStore    *self,
                  const char  *sql,
                  gint64      *number,
                  GError     **error)
{
  sqlite3_stmt *stmt = cro_store_take (self, sql, error);
  int           status;

  if (stmt == NULL)
    return FALSE;
  status = sqlite3_step (stmt);
  if (status == SQLITE_ROW)
    *number = sqlite3_column_int64 (stmt, 0);
  else if (status == SQLITE_DONE)
    *number = 0;
  else
    cro_sql_fail (self->db, error);
  cro_store_give (self, stmt);
  return status == SQLITE_ROW || status == SQLITE_DONE;
}

static gboolean
is_same_time (const struct timespec *a,
              const struct timespec *b)
{
  return a->tv_sec == b->tv_sec && a->tv_nsec == b->tv_nsec;
}

gboolean
cro_store_check_there (CroStore  *self,
                       GError   **error)
{
  GStatBuf now;

  if (self->is_in_memory)
    return TRUE;
  if (g_stat (self->path, &now) == 0 && now.st_dev == self->device && now.st_ino == self->inode
      && (!self->is_immutable || is_same_time (&now.st_mtim, &self->modified)))
    return TRUE;
  g_set_error_literal (error, CRO_STORE_ERROR, CRO_STORE_ERROR_GONE,
                       "it is no longer the file that was opened");
  return FALSE;
}

void
cro_store_close (CroStore *self)
{
  if (self == NULL)
    return;
  if (self->act != 0)
    cro_store_cancel_act (self);
  /* Where others have it open too, closing alone would leave the log to them. */
  if (self->mode == CRO_STORE_WRITE && self->inode != 0 && self->unfinished == NULL)
    cro_store_checkpoint (self, NULL);
  g_clear_pointer (&self->idle, g_hash_table_unref);
  sqlite3_close (self->db);
  cro_unfinished_free (self->unfinished);
  g_free (self->place);
  g_free (self->path);
  g_free (self->desk);
  g_free (self);
}

const char *
cro_store_get_path (CroStore *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  return self->path;
}

/* Magic numbers of statfs(2), as <linux/magic.h> and the modules' own sources give them. */
gboolean
cro_store_is_on_network (const char *path)
{
  static const guint32 networks[] = {
    0x00006969, /* NFS */
    0x0000517b, /* SMB */
    0xfe534d42, /* SMB2 */
    0xff534d42, /* CIFS */
    0x5346414f, /* AFS */
    0x73757245, /* Coda */
    0x00c36400, /* Ceph */
    0x01021997, /* 9P */
    0x65735546, /* FUSE: sshfs and its kin cannot be told from local ones */
  };
  struct statfs        info;

  g_return_val_if_fail (path != NULL, FALSE);

  if (statfs (path, &info) != 0)
    return FALSE;
  for (gsize i = 0; i < G_N_ELEMENTS (networks); i++)
    if ((guint32) info.f_type == networks[i])
      return TRUE;
  return FALSE;
}

gboolean
cro_store_poll (CroStore  *self,
                gboolean  *changed,
                GError   **error)
{
  gint64 version, last_act;

  g_return_val_if_fail (self != NULL, FALSE);

  *changed = FALSE;
  if (self->is_in_memory)
    return TRUE;
  if (!cro_store_check_there (self, error) ||
      !cro_store_number (self, "PRAGMA data_version", &version, error))
    return FALSE;
  if (version == self->data_version)
    return TRUE;
  /* That a log was emptied is another version, too. */
  if (!cro_store_number (self, CRO_LAST_ACT, &last_act, error))
    return FALSE;
  *changed = last_act != self->last_act;
  self->data_version = version;
  self->last_act = last_act;
  if (*changed)
    cro_store_note_written (self);
  return TRUE;
}

/* A deferred transaction takes its moment at the first row that it reads. */
static gboolean
take_moment (CroStore  *self,
             GError   **error)
{
  gint64 books;

  if (!cro_store_run (self, "BEGIN", error))
    return FALSE;
  if (cro_store_number (self, "SELECT count (*) FROM book", &books, error))
    return TRUE;
  cro_store_run (self, "ROLLBACK", NULL);
  return FALSE;
}

gboolean
cro_store_begin_read (CroStore  *self,
                      GError   **error)
{
  g_return_val_if_fail (self != NULL, FALSE);

  if (self->act != 0)
    return TRUE;
  if (self->reading == 0 && !take_moment (self, error))
    return FALSE;
  self->reading++;
  return TRUE;
}

void
cro_store_end_read (CroStore *self)
{
  g_return_if_fail (self != NULL);

  if (self->act == 0 && --self->reading == 0)
    cro_store_run (self, "COMMIT", NULL);
}

/* What was folded stays in the log until somebody begins it anew, and SQLite would read it again after a
 * kill: over an earlier copy that was put in the place of the file, too. FALSE: a reader is still at it. */
static gboolean
empty_log (CroStore *self)
{
  int status;

  sqlite3_busy_timeout (self->db, 0);
  status = sqlite3_wal_checkpoint_v2 (self->db, NULL, SQLITE_CHECKPOINT_TRUNCATE, NULL, NULL);
  sqlite3_busy_timeout (self->db, CRO_STORE_TIME_OUT_MSEC);
  return status == SQLITE_OK;
}

/* Passive first, so that it never waits: what a reader still holds back goes in the next one. A log that is
 * empty is left alone: emptying it is another version to whoever else has the book open, who looks what came. */
gboolean
cro_store_checkpoint (CroStore  *self,
                      GError   **error)
{
  int status, n_in_log = 0, n_folded = 0;

  g_return_val_if_fail (self != NULL, FALSE);

  status = sqlite3_wal_checkpoint_v2 (self->db, NULL, SQLITE_CHECKPOINT_PASSIVE, &n_in_log,
                                      &n_folded);
  if (status == SQLITE_OK && n_folded == n_in_log && (n_in_log <= 0 || empty_log (self)))
    self->unfolded = 0;
  return status == SQLITE_OK || status == SQLITE_BUSY || cro_sql_fail (self->db, error);
}

void
cro_store_note_written (CroStore *self)
{
  if (self->unfolded == 0)
    self->unfolded = g_get_monotonic_time ();
}

#define FOLD_AFTER_USEC (G_USEC_PER_SEC / 2)

/* Where it cannot be done now nothing is lost: it is tried again. */
void
cro_store_tend (CroStore *self)
{
  g_return_if_fail (self != NULL);

  if (self->mode != CRO_STORE_WRITE || self->act != 0 || self->reading > 0 || self->unfolded == 0
      || g_get_monotonic_time () - self->unfolded < FOLD_AFTER_USEC)
    return;
  cro_store_checkpoint (self, NULL);
}

gboolean
cro_store_backup (CroStore    *self,
                  const char  *path,
                  GError     **error)
{
  GStatBuf there;

  g_return_val_if_fail (self != NULL, FALSE);
  g_return_val_if_fail (path != NULL, FALSE);

  if (g_stat (path, &there) == 0 && there.st_dev == self->device && there.st_ino == self->inode)
    {
      g_set_error_literal (error, CRO_STORE_ERROR, CRO_STORE_ERROR_EXISTS, "it is the book itself");
      return FALSE;
    }
  return cro_backup_copy (self->db, path, error);
}
