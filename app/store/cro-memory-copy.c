/* A copy of a book in memory: nothing that is done to it reaches the file. */
#include "cro-history.h"

#include "cro-store-private.h"

static gboolean
copy_pages (CroStore  *self,
            sqlite3   *to,
            GError   **error)
{
  sqlite3_backup *backup = sqlite3_backup_init (to, "main", self->db, "main");
  int             status;

  if (backup == NULL)
    return cro_sql_fail (to, error);
  status = sqlite3_backup_step (backup, -1);
  sqlite3_backup_finish (backup);
  if (status == SQLITE_DONE)
    return TRUE;
  g_set_error_literal (error, CRO_STORE_ERROR, cro_sql_error_code (status),
                       sqlite3_errstr (status));
  return FALSE;
}

CroStore *
cro_store_copy_to_memory (CroStore  *self,
                          GError   **error)
{
  g_autoptr(CroStore) copy = g_new0 (CroStore, 1);

  copy->path = g_strdup (self->path);
  copy->mode = CRO_STORE_READ;
  copy->is_in_memory = TRUE;
  copy->idle = cro_store_idle_new ();
  if (sqlite3_open_v2 (":memory:", &copy->db,
                       SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_NOMUTEX,
                       NULL) != SQLITE_OK)
    cro_sql_fail (copy->db, error);
  else if (copy_pages (self, copy->db, error) && cro_sql_configure (copy->db, error) &&
           cro_rows_configure (copy->db, error) &&
           cro_sql_exec (copy->db, "PRAGMA journal_mode = MEMORY; PRAGMA synchronous = OFF;", error))
    return g_steal_pointer (&copy);
  return NULL;
}

CroStore *
cro_store_open_trial (CroStore  *self,
                      GError   **error)
{
  CroStore *copy;

  g_return_val_if_fail (self != NULL && self->act == 0, NULL);

  copy = cro_store_copy_to_memory (self, error);
  if (copy == NULL)
    return NULL;
  copy->mode = CRO_STORE_WRITE;
  copy->desk = g_strdup ("trial");
  return copy;
}
