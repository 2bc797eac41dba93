#include "cro-store-private.h"

/* What is there and what is empty must not look the same, nor two texts like one. */
static void
add_text (GChecksum    *checksum,
          sqlite3_stmt *stmt,
          int           column)
{
  const guchar *text = sqlite3_column_text (stmt, column);
  int           length = sqlite3_column_bytes (stmt, column);

  g_checksum_update (checksum, (const guchar *) (text != NULL ? "=" : "-"), 1);
  if (text != NULL)
    g_checksum_update (checksum, text, length);
  g_checksum_update (checksum, (const guchar *) "", 1);
}

char *
cro_schema_digest (sqlite3  *db,
                   GError  **error)
{
  g_autoptr(sqlite3_stmt) stmt = NULL;
  g_autoptr(GChecksum)    checksum = g_checksum_new (G_CHECKSUM_SHA256);
  int                     status;

  stmt = cro_sql_prepare (db,
                          "SELECT type, name, tbl_name, sql FROM sqlite_schema"
                          " ORDER BY type, name, tbl_name, sql",
                          error);
  if (stmt == NULL)
    return NULL;
  while ((status = sqlite3_step (stmt)) == SQLITE_ROW)
    for (int column = 0; column < 4; column++)
      add_text (checksum, stmt, column);
  if (status != SQLITE_DONE)
    {
      cro_sql_fail (db, error);
      return NULL;
    }
  return g_strdup (g_checksum_get_string (checksum));
}
