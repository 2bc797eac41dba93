#include "cro-store-private.h"
#include "cro-whole-file.h"

/* The copy's own connection is in full synchronous mode: a backup that was reported made has
 * reached the disk. */
static gboolean
copy_pages (sqlite3     *from,
            const char  *path,
            GError     **error)
{
  g_autoptr(sqlite3) to = NULL;

  if (sqlite3_open_v2 (path, &to, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, NULL) != SQLITE_OK)
    return cro_sql_fail (to, error);
  sqlite3_extended_result_codes (to, 1);
  return cro_sql_copy (from, to, error);
}

gboolean
cro_backup_copy (sqlite3     *db,
                 const char  *path,
                 GError     **error)
{
  GError                   *failed = NULL;
  g_autoptr (CroWholeFile)  file = cro_whole_file_new_database (path, &failed);

  if (file == NULL)
    return cro_sql_fail_file (failed, error);
  if (!copy_pages (db, cro_whole_file_get_path (file), error))
    return FALSE;
  return cro_whole_file_finish (file, &failed) || cro_sql_fail_file (failed, error);
}
