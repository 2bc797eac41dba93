/* A new book is made beside its place and takes it when it is whole: nobody ever finds half of one,
 * and what somebody else puts there meanwhile stays. */
#include "cro-path.h"
#include "cro-store-private.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>

static gboolean
make_tables (const char  *path,
             GError     **error)
{
  g_autoptr(sqlite3) db = NULL;

  if (sqlite3_open_v2 (path, &db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, NULL) != SQLITE_OK)
    return cro_sql_fail (db, error);
  return cro_sql_configure (db, error) && cro_migration_run (db, cro_migration_get (), error) &&
         cro_sql_exec (db, "PRAGMA journal_mode = WAL", error);
}

/* SQLite would take the log of a book that is gone for the new one's, and its rows with it. What
 * holds nothing goes. */
static gboolean
check_beside (const char  *path,
              GError     **error)
{
  static const char *const logs[] = { "-wal", "-journal" };

  for (gsize i = 0; i < G_N_ELEMENTS (logs); i++)
    {
      g_autofree char *log = g_strconcat (path, logs[i], NULL);
      g_autofree char *name = g_path_get_basename (log);
      GStatBuf         info;

      if (g_lstat (log, &info) != 0)
        continue;
      if (info.st_size == 0 && S_ISREG (info.st_mode) && g_unlink (log) == 0)
        continue;
      g_set_error_literal (error, CRO_STORE_ERROR, CRO_STORE_ERROR_LOG, name);
      return FALSE;
    }
  return TRUE;
}

static gboolean
check_place (const char  *path,
             GError     **error)
{
  GStatBuf info;

  if (path == NULL)
    {
      g_set_error_literal (error, CRO_STORE_ERROR, CRO_STORE_ERROR_GONE, "the empty name");
      return FALSE;
    }
  if (g_lstat (path, &info) == 0)
    {
      g_set_error_literal (error, CRO_STORE_ERROR, CRO_STORE_ERROR_EXISTS, g_strerror (EEXIST));
      return FALSE;
    }
  return cro_store_check_name (path, error) && check_beside (path, error);
}

CroStore *
cro_store_create_unfinished (const char  *path,
                             const char  *desk,
                             GError     **error)
{
  g_autofree char          *place = NULL;
  g_autofree char          *folder = NULL;
  g_autoptr (CroUnfinished) unfinished = NULL;
  GError                   *failed = NULL;
  CroStore                 *self;

  g_return_val_if_fail (path != NULL, NULL);
  g_return_val_if_fail (desk != NULL, NULL);

  place = cro_path_dup_real (path);
  if (!check_place (place, error))
    return NULL;
  folder = g_path_get_dirname (place);
  unfinished = cro_unfinished_new (folder, &failed);
  if (unfinished == NULL)
    {
      cro_sql_fail_file (failed, error);
      return NULL;
    }
  if (!make_tables (cro_unfinished_get_path (unfinished), error))
    return NULL;
  self = cro_store_open (cro_unfinished_get_path (unfinished), desk, CRO_STORE_WRITE, error);
  if (self == NULL)
    return NULL;
  self->unfinished = g_steal_pointer (&unfinished);
  self->place = g_steal_pointer (&place);
  return self;
}

/* The last connection to leave folds the log into the file. */
gboolean
cro_store_finish (CroStore  *self,
                  GError   **error)
{
  g_autoptr (CroUnfinished) unfinished = NULL;
  g_autofree char          *place = NULL;
  GError                   *failed = NULL;

  g_return_val_if_fail (self != NULL && self->unfinished != NULL && self->act == 0, FALSE);

  unfinished = g_steal_pointer (&self->unfinished);
  place = g_steal_pointer (&self->place);
  if (!cro_store_checkpoint (self, error))
    {
      cro_store_close (self);
      return FALSE;
    }
  cro_store_close (self);
  if (!check_beside (place, error))
    return FALSE;
  return cro_unfinished_place (unfinished, place, &failed) || cro_sql_fail_file (failed, error);
}

CroStore *
cro_store_create (const char  *path,
                  const char  *desk,
                  GError     **error)
{
  CroStore *self = cro_store_create_unfinished (path, desk, error);

  if (self == NULL || !cro_store_finish (self, error))
    return NULL;
  return cro_store_open (path, desk, CRO_STORE_WRITE, error);
}
