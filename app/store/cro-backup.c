#include "cro-store-private.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <unistd.h>

/* The copy's own connection is in full synchronous mode: a backup that was reported made has
 * reached the disk. */
static gboolean
copy_pages (sqlite3     *from,
            const char  *path,
            GError     **error)
{
  g_autoptr(sqlite3) to = NULL;
  sqlite3_backup    *backup;
  int                status;

  if (sqlite3_open_v2 (path, &to, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, NULL) != SQLITE_OK)
    return cro_sql_fail (to, error);
  sqlite3_extended_result_codes (to, 1);
  backup = sqlite3_backup_init (to, "main", from, "main");
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

gboolean
cro_backup_copy (sqlite3     *db,
                 const char  *path,
                 GError     **error)
{
  g_autofree char *temporary = g_strconcat (path, ".XXXXXX", NULL);
  int              fd = g_mkstemp_full (temporary, O_RDWR, 0666);

  if (fd < 0)
    {
      int saved = errno;

      g_set_error (error, CRO_STORE_ERROR,
                   saved == EROFS || saved == EACCES ? CRO_STORE_ERROR_READ_ONLY
                                                     : CRO_STORE_ERROR_SYSTEM,
                   "%s: %s", path, g_strerror (saved));
      return FALSE;
    }
  close (fd);
  if (!copy_pages (db, temporary, error))
    {
      g_unlink (temporary);
      return FALSE;
    }
  if (g_rename (temporary, path) != 0)
    {
      g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_SYSTEM, "%s: %s", path,
                   g_strerror (errno));
      g_unlink (temporary);
      return FALSE;
    }
  return TRUE;
}
