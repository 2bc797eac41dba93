/* The book as it stood: a copy in memory, in which the newest changes are taken back one by one.
 * Each of them gives back a state that existed, so keys are unique throughout; references are not
 * looked at, as a state within an act need not satisfy them. */
#include "cro-history.h"

#include "cro-replayer.h"
#include "cro-store-private.h"

/* Days rise from act to act, so the first that is later ends the past. */
#define FIRST_AFTER "SELECT ifnull (min (id), 0) FROM act WHERE " CRO_ACT_DAY " > ?1"

char *
cro_store_dup_first_day (CroStore  *self,
                         GError   **error)
{
  g_auto(GStrv) days = NULL;

  g_return_val_if_fail (self != NULL, NULL);

  days = cro_sql_texts (self->db, "SELECT " CRO_ACT_DAY " FROM act ORDER BY id LIMIT 1", NULL,
                        error);
  return days != NULL ? g_strdup (days[0]) : NULL;
}

/* In a book without acts any day is as good as today. */
static gboolean
check_begun (CroStore    *self,
             const char  *day,
             GError     **error)
{
  g_autoptr(GError) failed = NULL;
  g_autofree char  *first = cro_store_dup_first_day (self, &failed);

  if (failed != NULL)
    {
      g_propagate_error (error, g_steal_pointer (&failed));
      return FALSE;
    }
  if (first == NULL || strcmp (day, first) >= 0)
    return TRUE;
  g_set_error_literal (error, CRO_STORE_ERROR, CRO_STORE_ERROR_BEFORE, first);
  return FALSE;
}

/* --- The copy -------------------------------------------------------------------------- */

/* What a newer version checks was not checked when an older one wrote it. */
static CroStore *
copy_of (CroStore  *self,
         GError   **error)
{
  g_autoptr(CroStore) copy = cro_store_copy_to_memory (self, error);

  if (copy == NULL ||
      !cro_sql_exec (copy->db,
                     "PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON;"
                     "PRAGMA journal_mode = OFF;",
                     error) ||
      !cro_journal_disarm (copy->db, error))
    return NULL;
  copy->is_past = TRUE;
  return g_steal_pointer (&copy);
}

/* --- Back ------------------------------------------------------------------------------ */

typedef struct
{
  CroStore   *copy;
  GHashTable *replayers;
} Past;

/* A fill keeps no rows, as its past is an empty book. */
static gboolean
empty (Past    *self,
       GError **error)
{
  g_auto(GStrv) tables = cro_journal_tables (self->copy->db, error);

  for (gsize i = 0; tables != NULL && tables[i] != NULL; i++)
    {
      g_autofree char *sql = g_strdup_printf ("DELETE FROM \"%s\"", tables[i]);

      if (!g_str_equal (tables[i], "unit") && !cro_sql_exec (self->copy->db, sql, error))
        return FALSE;
    }
  return tables != NULL;
}

static gboolean
take_back (Past          *self,
           sqlite3_stmt  *change,
           GError       **error)
{
  const char *table = (const char *) sqlite3_column_text (change, 0);
  const char *before = (const char *) sqlite3_column_text (change, 2);
  const char *after = (const char *) sqlite3_column_text (change, 3);
  gint64      row = sqlite3_column_int64 (change, 1);
  int         status;

  if (g_strcmp0 (table, "*") == 0)
    return empty (self, error);
  status = cro_replayers_move (self->replayers, self->copy->db, table,
                               row, before, after, error);
  if (status == SQLITE_DONE ? sqlite3_changes (self->copy->db) == 1 : status == SQLITE_ERROR)
    return status == SQLITE_DONE;
  g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED,
               "row %" G_GINT64_FORMAT " of %s is not what the journal says", row, table);
  return FALSE;
}

static gboolean
take_back_all (Past    *self,
               gint64   first_act,
               GError **error)
{
  sqlite3_stmt *changes = cro_store_take (self->copy,
                                          "SELECT tbl, row, before, after FROM change WHERE id >="
                                          " (SELECT first_change FROM act WHERE id = ?1)"
                                          " ORDER BY id DESC",
                                          error);
  int           status;

  if (changes == NULL)
    return FALSE;
  sqlite3_bind_int64 (changes, 1, first_act);
  while ((status = sqlite3_step (changes)) == SQLITE_ROW)
    if (!take_back (self, changes, error))
      break;
  if (status != SQLITE_DONE && status != SQLITE_ROW)
    cro_sql_fail (self->copy->db, error);
  cro_store_give (self->copy, changes);
  return status == SQLITE_DONE;
}

/* The acts that were not yet made are not in its history either. */
static gboolean
forget (CroStore  *copy,
        gint64     first_act,
        GError   **error)
{
  return cro_store_run_with (copy,
                             "DELETE FROM change WHERE id >="
                             " (SELECT first_change FROM act WHERE id = ?1)",
                             first_act, error) &&
         cro_store_run_with (copy, "DELETE FROM act WHERE id >= ?1", first_act, error);
}

static gboolean
take_back_from (CroStore  *copy,
                gint64     first_act,
                GError   **error)
{
  Past     self = { copy, cro_replayers_new () };
  gboolean done = take_back_all (&self, first_act, error);

  g_hash_table_unref (self.replayers);
  return done;
}

static gboolean
go_back (CroStore    *copy,
         const char  *day,
         GError     **error)
{
  sqlite3_stmt *stmt = cro_store_take (copy, FIRST_AFTER, error);
  gint64        first;

  if (stmt == NULL)
    return FALSE;
  cro_sql_bind_text (stmt, 1, day);
  first = sqlite3_step (stmt) == SQLITE_ROW ? sqlite3_column_int64 (stmt, 0) : 0;
  cro_store_give (copy, stmt);
  if (first == 0)
    return TRUE;
  return cro_store_run (copy, "BEGIN", error) && take_back_from (copy, first, error) &&
         forget (copy, first, error) && cro_store_run (copy, "COMMIT", error);
}

/* Nothing is copied for a book whose journal keeps no rows. */
gboolean
cro_past_check (CroStore  *self,
                GError   **error)
{
  g_autoptr(CroStore) copy = NULL;
  gint64              first = 0;

  if (!cro_store_number (self, "SELECT min (act) FROM change WHERE tbl <> '*'", &first, error))
    return FALSE;
  if (first == 0)
    return TRUE;
  copy = copy_of (self, error);
  return copy != NULL &&
         cro_sql_exec (copy->db, "PRAGMA ignore_check_constraints = OFF; BEGIN", error) &&
         take_back_from (copy, first, error);
}

CroStore *
cro_store_open_past (CroStore    *self,
                     const char  *day,
                     GError     **error)
{
  g_autoptr(CroStore) copy = NULL;

  g_return_val_if_fail (self != NULL && self->act == 0, NULL);
  g_return_val_if_fail (day != NULL, NULL);

  if (!check_begun (self, day, error))
    return NULL;
  copy = copy_of (self, error);
  if (copy == NULL || !go_back (copy, day, error) ||
      !cro_sql_exec (copy->db, "PRAGMA query_only = ON", error))
    return NULL;
  return g_steal_pointer (&copy);
}
