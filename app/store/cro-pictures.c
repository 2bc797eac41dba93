/* Pictures by what they hold. They are not journalled: a row of the journal says the name alone. */
#include "cro-store-private.h"

#include <string.h>

#define DATA_OF "SELECT data FROM picture WHERE name = ?1"

static gboolean
fail_name (const char  *name,
           GError     **error)
{
  g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED, "picture %s is not what its name says",
               name);
  return FALSE;
}

/* Whether a picture of such a name is made of these bytes: no other name is safe to be a file's. */
static gboolean
is_named (const char    *name,
          gconstpointer  data,
          gsize          length)
{
  g_autofree char *sum = NULL;

  if (data == NULL || length == 0 || length > CRO_STORE_MOST_PICTURE)
    return FALSE;
  sum = g_compute_checksum_for_data (G_CHECKSUM_SHA256, data, length);
  return g_str_has_prefix (name, sum)
         && (g_str_equal (name + strlen (sum), ".jpg") || g_str_equal (name + strlen (sum), ".png"));
}

GBytes *
cro_picture_take (sqlite3_stmt *stmt,
                  const char   *name)
{
  gconstpointer data = sqlite3_column_type (stmt, 0) == SQLITE_BLOB ? sqlite3_column_blob (stmt, 0)
                                                                    : NULL;
  gsize length = data != NULL ? (gsize) sqlite3_column_bytes (stmt, 0) : 0;

  return is_named (name, data, length) ? g_bytes_new (data, length) : NULL;
}

gboolean
cro_store_keep_picture (CroStore    *self,
                        const char  *name,
                        GBytes      *data,
                        GError     **error)
{
  static const char sql[] = "INSERT INTO picture (name, data) VALUES (?1, ?2)"
                            " ON CONFLICT (name) DO NOTHING";
  gsize length;
  gconstpointer start;
  sqlite3_stmt *stmt;
  gboolean done;

  g_return_val_if_fail (self != NULL && name != NULL && data != NULL, FALSE);

  start = g_bytes_get_data (data, &length);
  if (!cro_act_check_open (self, error))
    return FALSE;
  if (!is_named (name, start, length))
    return fail_name (name, error);
  stmt = cro_store_take (self, sql, error);
  if (stmt == NULL)
    return FALSE;
  cro_sql_bind_text (stmt, 1, name);
  sqlite3_bind_blob64 (stmt, 2, start, length, SQLITE_STATIC);
  done = sqlite3_step (stmt) == SQLITE_DONE || cro_sql_fail (self->db, error);
  cro_store_give (self, stmt);
  return done;
}

GBytes *
cro_store_read_picture (CroStore    *self,
                        const char  *name,
                        GError     **error)
{
  sqlite3_stmt *stmt;
  GBytes *data = NULL;
  int status;

  g_return_val_if_fail (self != NULL && name != NULL, NULL);

  stmt = cro_store_take (self, DATA_OF, error);
  if (stmt == NULL)
    return NULL;
  cro_sql_bind_text (stmt, 1, name);
  status = sqlite3_step (stmt);
  if (status != SQLITE_ROW && status != SQLITE_DONE)
    cro_sql_fail (self->db, error);
  else
    {
      data = status == SQLITE_ROW ? cro_picture_take (stmt, name) : NULL;
      if (data == NULL)
        fail_name (name, error);
    }
  cro_store_give (self, stmt);
  return data;
}
