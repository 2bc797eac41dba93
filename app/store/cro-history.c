#include "cro-history.h"

#include <string.h>

#include "cro-store-private.h"

/* An act stands unless the last that was done about it is an undo. */
#define LAST_VERDICT "(SELECT verb FROM act AS later WHERE later.of = base.id" \
                     " ORDER BY later.id DESC LIMIT 1)"

/* A desk was named in the user's language once: as "name on machine" in English, "name sur machine"
 * in French. Both are this desk. */
#define OF_DESK "desk IN (?1, ?2)"

#define UNDO_CANDIDATE "SELECT id FROM act AS base WHERE verb = 'do' AND " OF_DESK \
                       " AND " LAST_VERDICT " IS NOT 'undo' ORDER BY id DESC LIMIT 1"

/* The last act taken back, unless the desk has done something of its own since. */
#define REDO_CANDIDATE "SELECT base.id FROM act AS taken JOIN act AS base ON base.id = taken.of" \
                       " WHERE taken." OF_DESK " AND taken.verb = 'undo'" \
                       " AND taken.id > (SELECT ifnull (max (id), 0) FROM act" \
                       " WHERE verb = 'do' AND " OF_DESK ")" \
                       " AND taken.id = (SELECT max (id) FROM act WHERE of = base.id)" \
                       " ORDER BY taken.id DESC LIMIT 1"

/* An act and what undoes and redoes it alternate, so the last of them says what holds. */
#define UNDONE_BY "ifnull ((SELECT iif ((later.verb = 'undo') <> (act.verb = 'undo'), later.id, 0)" \
                  " FROM act AS later WHERE later.of = ifnull (act.of, act.id)" \
                  " AND later.id > act.id ORDER BY later.id DESC LIMIT 1), 0)"

#define ACT_COLUMNS "id, ifnull (of, 0), verb, label, desk, at, " UNDONE_BY
#define CHANGE_COLUMNS "id, act, tbl, row, before, after"

void
cro_act_free (CroAct *act)
{
  if (act == NULL)
    return;
  g_free (act->label);
  g_free (act->desk);
  g_free (act->at);
  g_free (act);
}

void
cro_change_free (CroChange *change)
{
  if (change == NULL)
    return;
  g_free (change->table);
  g_free (change->before);
  g_free (change->after);
  g_free (change);
}

static char *
dup_text (sqlite3_stmt *stmt,
          int           column)
{
  return g_strdup ((const char *) sqlite3_column_text (stmt, column));
}

/* A journal may come from a stranger: what its columns cannot hold is damage. */
static gboolean
is_text (sqlite3_stmt *stmt,
         int           column)
{
  return sqlite3_column_type (stmt, column) == SQLITE_TEXT &&
         cro_text_is_sound ((const char *) sqlite3_column_text (stmt, column),
                            sqlite3_column_bytes (stmt, column));
}

static gboolean
is_text_or_null (sqlite3_stmt *stmt,
                 int           column)
{
  return sqlite3_column_type (stmt, column) == SQLITE_NULL || is_text (stmt, column);
}

static gboolean
is_integer (sqlite3_stmt *stmt,
            int           column)
{
  return sqlite3_column_type (stmt, column) == SQLITE_INTEGER;
}

static gpointer
damaged (const char  *what,
         gint64       id,
         GError     **error)
{
  g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED,
               "%s %" G_GINT64_FORMAT " of the journal cannot be read", what, id);
  return NULL;
}

/* Only an act that is open has no time yet. */
static gpointer
act_from_row (CroStore      *store,
              sqlite3_stmt  *stmt,
              GError       **error)
{
  gint64      id = sqlite3_column_int64 (stmt, 0);
  const char *verb;
  CroAct     *act;

  if (!is_integer (stmt, 1) || !is_text (stmt, 2) || !is_text (stmt, 3) || !is_text (stmt, 4) ||
      !(id == store->act ? is_text_or_null (stmt, 5) : is_text (stmt, 5)))
    return damaged ("act", id, error);
  verb = (const char *) sqlite3_column_text (stmt, 2);
  act = g_new0 (CroAct, 1);
  act->id = id;
  act->of = sqlite3_column_int64 (stmt, 1);
  act->verb = g_str_equal (verb, "undo")   ? CRO_ACT_UNDO
              : g_str_equal (verb, "redo") ? CRO_ACT_REDO
                                           : CRO_ACT_DO;
  act->label = dup_text (stmt, 3);
  act->desk = dup_text (stmt, 4);
  act->at = dup_text (stmt, 5);
  act->undone_by = sqlite3_column_int64 (stmt, 6);
  return act;
}

static gpointer
change_from_row (CroStore      *store,
                 sqlite3_stmt  *stmt,
                 GError       **error)
{
  gint64     id = sqlite3_column_int64 (stmt, 0);
  CroChange *change;

  if (!is_integer (stmt, 1) || !is_text (stmt, 2) || !is_integer (stmt, 3) ||
      !is_text_or_null (stmt, 4) || !is_text_or_null (stmt, 5))
    return damaged ("change", id, error);
  change = g_new0 (CroChange, 1);
  change->id = id;
  change->act = sqlite3_column_int64 (stmt, 1);
  change->table = dup_text (stmt, 2);
  change->row = sqlite3_column_int64 (stmt, 3);
  change->before = dup_text (stmt, 4);
  change->after = dup_text (stmt, 5);
  return change;
}

/* NULL where the row is damaged. */
typedef gpointer (*FromRow) (CroStore *store, sqlite3_stmt *stmt, GError **error);

/* Takes over stmt, whose parameters are bound. */
static GPtrArray *
list (CroStore       *self,
      sqlite3_stmt   *stmt,
      FromRow         from_row,
      GDestroyNotify  element_free,
      GError        **error)
{
  g_autoptr(GPtrArray) elements = g_ptr_array_new_with_free_func (element_free);
  gpointer             element;
  int                  status;

  while ((status = sqlite3_step (stmt)) == SQLITE_ROW)
    {
      element = from_row (self, stmt, error);
      if (element == NULL)
        break;
      g_ptr_array_add (elements, element);
    }
  if (status != SQLITE_DONE && status != SQLITE_ROW)
    cro_sql_fail (self->db, error);
  cro_store_give (self, stmt);
  return status == SQLITE_DONE ? g_steal_pointer (&elements) : NULL;
}

static void
free_act (gpointer act)
{
  cro_act_free (act);
}

static void
free_change (gpointer change)
{
  cro_change_free (change);
}

static GPtrArray *
list_changes (CroStore      *self,
              sqlite3_stmt  *stmt,
              GError       **error)
{
  return list (self, stmt, change_from_row, free_change, error);
}

GPtrArray *
cro_store_list_acts (CroStore  *self,
                     gint64     before,
                     guint      limit,
                     GError   **error)
{
  sqlite3_stmt *stmt;

  g_return_val_if_fail (self != NULL, NULL);

  stmt = cro_store_take (self,
                         "SELECT " ACT_COLUMNS " FROM act WHERE id <= ?1 ORDER BY id DESC LIMIT ?2",
                         error);
  if (stmt == NULL)
    return NULL;
  sqlite3_bind_int64 (stmt, 1, before > 0 ? before - 1 : G_MAXINT64);
  sqlite3_bind_int64 (stmt, 2, limit);
  return list (self, stmt, act_from_row, free_act, error);
}

GPtrArray *
cro_store_list_changes_of_act (CroStore  *self,
                               gint64     act,
                               GError   **error)
{
  sqlite3_stmt *stmt;

  g_return_val_if_fail (self != NULL, NULL);

  stmt = cro_store_take (self,
                         "SELECT " CHANGE_COLUMNS " FROM change"
                         " WHERE id >= (SELECT first_change FROM act WHERE id = ?1)"
                         " AND id < ifnull ((SELECT first_change FROM act WHERE id > ?1"
                         " ORDER BY id LIMIT 1), 9223372036854775807) ORDER BY id",
                         error);
  if (stmt == NULL)
    return NULL;
  sqlite3_bind_int64 (stmt, 1, act);
  return list_changes (self, stmt, error);
}

GPtrArray *
cro_store_list_changes_of_row (CroStore    *self,
                               const char  *table,
                               gint64       row,
                               GError     **error)
{
  sqlite3_stmt *stmt;

  g_return_val_if_fail (self != NULL && table != NULL, NULL);

  stmt = cro_store_take (self,
                         "SELECT " CHANGE_COLUMNS " FROM change WHERE tbl = ?1 AND row = ?2"
                         " ORDER BY id DESC",
                         error);
  if (stmt == NULL)
    return NULL;
  cro_sql_bind_text (stmt, 1, table);
  sqlite3_bind_int64 (stmt, 2, row);
  return list_changes (self, stmt, error);
}

GPtrArray *
cro_store_list_changes_after (CroStore  *self,
                              gint64     change,
                              GError   **error)
{
  sqlite3_stmt *stmt;

  g_return_val_if_fail (self != NULL, NULL);

  /* An act may be hundreds of thousands of rows. */
  stmt = cro_store_take (self,
                         "SELECT id, act, tbl, row, CASE typeof (before) WHEN 'text' THEN '' ELSE before END,"
                         " CASE WHEN before IS NULL AND typeof (after) = 'text' THEN '' ELSE after END"
                         " FROM change WHERE id > ?1 ORDER BY id",
                         error);
  if (stmt == NULL)
    return NULL;
  sqlite3_bind_int64 (stmt, 1, change);
  return list_changes (self, stmt, error);
}

gint64
cro_store_last_change (CroStore *self)
{
  gint64 last = 0;

  g_return_val_if_fail (self != NULL, 0);

  cro_store_number (self, "SELECT ifnull (max (id), 0) FROM change", &last, NULL);
  return last;
}

/* Takes over stmt, whose parameter is bound. */
static CroAct *
one_act (CroStore      *self,
         sqlite3_stmt  *stmt,
         GError       **error)
{
  CroAct *act = NULL;
  int     status;

  status = sqlite3_step (stmt);
  if (status == SQLITE_ROW)
    act = act_from_row (self, stmt, error);
  else if (status != SQLITE_DONE)
    cro_sql_fail (self->db, error);
  cro_store_give (self, stmt);
  return act;
}

static char *
dup_older_desk (const char *desk)
{
  const char *between = g_strrstr (desk != NULL ? desk : "", " on ");

  return between != NULL ? g_strdup_printf ("%.*s sur %s", (int) (between - desk), desk,
                                            between + strlen (" on "))
                         : NULL;
}

static CroAct *
peek (CroStore    *self,
      const char  *sql,
      GError     **error)
{
  g_autofree char *older = dup_older_desk (self->desk);
  sqlite3_stmt    *stmt = cro_store_take (self, sql, error);

  if (stmt == NULL)
    return NULL;
  cro_sql_bind_text (stmt, 1, self->desk);
  cro_sql_bind_text (stmt, 2, older);
  return one_act (self, stmt, error);
}

CroAct *
cro_store_find_act (CroStore  *self,
                    gint64     act,
                    GError   **error)
{
  sqlite3_stmt *stmt;

  g_return_val_if_fail (self != NULL, NULL);

  stmt = cro_store_take (self, "SELECT " ACT_COLUMNS " FROM act WHERE id = ?1", error);
  if (stmt == NULL)
    return NULL;
  sqlite3_bind_int64 (stmt, 1, act);
  return one_act (self, stmt, error);
}

CroAct *
cro_store_peek_undo (CroStore  *self,
                     GError   **error)
{
  g_return_val_if_fail (self != NULL, NULL);

  return peek (self, "SELECT " ACT_COLUMNS " FROM act WHERE id = (" UNDO_CANDIDATE ")", error);
}

CroAct *
cro_store_peek_redo (CroStore  *self,
                     GError   **error)
{
  g_return_val_if_fail (self != NULL, NULL);

  return peek (self, "SELECT " ACT_COLUMNS " FROM act WHERE id = (" REDO_CANDIDATE ")", error);
}

void
cro_moved_free (CroMoved *moved)
{
  if (moved == NULL)
    return;
  g_free (moved->column);
  g_free (moved->before);
  g_free (moved->after);
  g_free (moved);
}

static gpointer
moved_from_row (CroStore      *store,
                sqlite3_stmt  *stmt,
                GError       **error)
{
  CroMoved *moved;

  if (!is_text (stmt, 0))
    return damaged ("change", sqlite3_column_int64 (stmt, 3), error);
  moved = g_new0 (CroMoved, 1);
  moved->column = dup_text (stmt, 0);
  moved->before = dup_text (stmt, 1);
  moved->after = dup_text (stmt, 2);
  return moved;
}

static void
free_moved (gpointer moved)
{
  cro_moved_free (moved);
}

/* An update names the same columns before and after; of a row that came or went one side is
 * empty. */
GPtrArray *
cro_store_list_moved (CroStore  *self,
                      gint64     change,
                      GError   **error)
{
  sqlite3_stmt *stmt;

  g_return_val_if_fail (self != NULL, NULL);

  stmt = cro_store_take (self,
                         "SELECT side.key, before ->> ('$.' || side.key), after ->> ('$.' || side.key),"
                         " change.id"
                         " FROM change, json_each (ifnull (after, before)) AS side"
                         " WHERE change.id = ?1 AND tbl <> '*'",
                         error);
  if (stmt == NULL)
    return NULL;
  sqlite3_bind_int64 (stmt, 1, change);
  return list (self, stmt, moved_from_row, free_moved, error);
}

/* --- Rows as they were ------------------------------------------------------------------ */

#define HELD "SELECT held.key, held.value FROM change, json_each (change.before) AS held" \
             " WHERE change.tbl = ?1 AND change.row = ?2 AND change.id "

/* A value that is known already stays. */
static void
take_value (GHashTable   *values,
            const char   *column,
            sqlite3_stmt *stmt,
            int           place)
{
  const char *text = (const char *) sqlite3_column_text (stmt, place);

  if (!g_hash_table_contains (values, column))
    g_hash_table_insert (values, g_strdup (column), text != NULL ? g_utf8_make_valid (text, -1) : NULL);
}

/* sql is HELD with an end, which says in what order changes are asked. */
static gboolean
take_held (CroStore    *self,
           const char  *sql,
           const char  *table,
           gint64       row,
           gint64       change,
           GHashTable  *values,
           GError     **error)
{
  sqlite3_stmt *stmt = cro_store_take (self, sql, error);
  int           status;

  if (stmt == NULL)
    return FALSE;
  cro_sql_bind_text (stmt, 1, table);
  sqlite3_bind_int64 (stmt, 2, row);
  sqlite3_bind_int64 (stmt, 3, change);
  while ((status = sqlite3_step (stmt)) == SQLITE_ROW)
    if (is_text (stmt, 0))
      take_value (values, (const char *) sqlite3_column_text (stmt, 0), stmt, 1);
  if (status != SQLITE_DONE)
    cro_sql_fail (self->db, error);
  cro_store_give (self, stmt);
  return status == SQLITE_DONE;
}

static gboolean
take_now (CroStore    *self,
          const char  *table,
          gint64       row,
          GHashTable  *values,
          gboolean    *is_there,
          GError     **error)
{
  g_autoptr(GString) sql = g_string_new ("SELECT * FROM ");
  sqlite3_stmt      *stmt;
  int                status;

  cro_sql_append_name (sql, table);
  g_string_append (sql, " WHERE id = ?1");
  stmt = cro_store_take (self, sql->str, error);
  if (stmt == NULL)
    return FALSE;
  sqlite3_bind_int64 (stmt, 1, row);
  status = sqlite3_step (stmt);
  *is_there = status == SQLITE_ROW;
  for (int i = 0; *is_there && i < sqlite3_column_count (stmt); i++)
    take_value (values, sqlite3_column_name (stmt, i), stmt, i);
  if (status != SQLITE_ROW && status != SQLITE_DONE)
    cro_sql_fail (self->db, error);
  cro_store_give (self, stmt);
  return status == SQLITE_ROW || status == SQLITE_DONE;
}

/* The next change that moves a value says what it held until then; without one it holds it still. */
GHashTable *
cro_store_read_row_at (CroStore    *self,
                       const char  *table,
                       gint64       row,
                       gint64       change,
                       GError     **error)
{
  g_autoptr(GHashTable) values = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  gboolean              is_there;

  g_return_val_if_fail (self != NULL && table != NULL, NULL);

  if (!take_held (self, HELD "> ?3 ORDER BY change.id", table, row, change, values, error)
      || !take_now (self, table, row, values, &is_there, error)
      || (!is_there
          && !take_held (self, HELD "<= ?3 ORDER BY change.id DESC", table, row, change, values, error)))
    return NULL;
  return g_steal_pointer (&values);
}
