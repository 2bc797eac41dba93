#include "cro-store-private.h"

static gboolean
insert_act (CroStore    *self,
            const char  *label,
            const char  *verb,
            gint64       of,
            GError     **error)
{
  sqlite3_stmt *stmt = cro_store_take (self,
                                       "INSERT INTO act (label, desk, verb, of, first_change)"
                                       " VALUES (?1, ?2, ?3, nullif (?4, 0),"
                                       " ifnull ((SELECT max (id) FROM change), 0) + 1)",
                                       error);
  gboolean      done;

  if (stmt == NULL)
    return FALSE;
  cro_sql_bind_text (stmt, 1, label);
  cro_sql_bind_text (stmt, 2, self->desk);
  cro_sql_bind_text (stmt, 3, verb);
  sqlite3_bind_int64 (stmt, 4, of);
  done = sqlite3_step (stmt) == SQLITE_DONE || cro_sql_fail (self->db, error);
  self->act = sqlite3_last_insert_rowid (self->db);
  cro_store_give (self, stmt);
  return done;
}

/* After the largest number there is SQLite would give any that is free, and the order of the acts
 * would be lost. */
static gboolean
check_numbers (CroStore  *self,
               GError   **error)
{
  gint64 is_used_up = 0;

  if (!cro_store_number (self,
                         "SELECT 9223372036854775807 IN ((SELECT max (id) FROM act),"
                         " (SELECT max (id) FROM change),"
                         " (SELECT first_change FROM act ORDER BY id DESC LIMIT 1))",
                         &is_used_up, error))
    return FALSE;
  if (is_used_up)
    g_set_error_literal (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED,
                         "the journal has no numbers left");
  return !is_used_up;
}

gboolean
cro_act_begin (CroStore    *self,
               const char  *label,
               const char  *verb,
               gint64       of,
               GError     **error)
{
  g_return_val_if_fail (self->reading == 0, FALSE);

  if (self->is_past)
    {
      g_set_error_literal (error, CRO_STORE_ERROR, CRO_STORE_ERROR_PAST,
                           "the book as it stood is only read");
      return FALSE;
    }
  if (self->mode != CRO_STORE_WRITE)
    {
      g_set_error_literal (error, CRO_STORE_ERROR, CRO_STORE_ERROR_READ_ONLY,
                           "it was opened for reading");
      return FALSE;
    }
  if (!cro_store_check_there (self, error) || !cro_store_run (self, "BEGIN IMMEDIATE", error))
    return FALSE;
  if (!check_numbers (self, error) || !insert_act (self, label, verb, of, error))
    {
      cro_store_cancel_act (self);
      return FALSE;
    }
  return TRUE;
}

/* A full disk makes SQLite roll back the whole transaction by itself; whatever is written after
 * that would no longer belong to the act. */
gboolean
cro_act_check_open (CroStore  *self,
                    GError   **error)
{
  if (self->act != 0 && !sqlite3_get_autocommit (self->db))
    return TRUE;
  if (self->act == 0)
    g_set_error_literal (error, CRO_STORE_ERROR, CRO_STORE_ERROR_NO_ACT, "no act is open");
  else
    g_set_error_literal (error, CRO_STORE_ERROR, CRO_STORE_ERROR_SYSTEM,
                         "the act was rolled back after an earlier failure");
  return FALSE;
}

gboolean
cro_store_begin_act (CroStore    *self,
                     const char  *label,
                     GError     **error)
{
  g_return_val_if_fail (self != NULL && self->act == 0, FALSE);
  g_return_val_if_fail (label != NULL, FALSE);

  return cro_act_begin (self, label, "do", 0, error);
}

/* An act wrote something if the newest change is its own. */
static gboolean
act_is_empty (CroStore  *self,
              gboolean  *empty,
              GError   **error)
{
  gint64 newest;

  if (!cro_store_number (self, "SELECT act FROM change ORDER BY id DESC LIMIT 1", &newest, error))
    return FALSE;
  *empty = newest != self->act;
  return TRUE;
}

/* Before the check is asked: what looks at the rows may follow their references. */
static gboolean
check_references (CroStore  *self,
                  GError   **error)
{
  int open = 0, highest;

  sqlite3_db_status (self->db, SQLITE_DBSTATUS_DEFERRED_FKS, &open, &highest, FALSE);
  if (open == 0)
    return TRUE;
  g_set_error_literal (error, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE,
                       "a row refers to one that is not there");
  return FALSE;
}

static gboolean
allow (CroStore  *self,
       GError   **error)
{
  if (!check_references (self, error))
    return FALSE;
  return self->check == NULL || self->check (self->check_data, error);
}

static void
leave_act (CroStore *self)
{
  self->act = 0;
  if (self->indexes != NULL)
    cro_fill_leave (self);
}

#define NOW "strftime ('%Y-%m-%dT%H:%M:%SZ', 'now')"

/* Time does not run backwards in the journal, whatever a clock does. */
#define AFTER_LAST(moment, of_last) "max (" moment ", ifnull ((SELECT " of_last " FROM act" \
                                    " WHERE id < ?1 ORDER BY id DESC LIMIT 1), ''))"

/* The act gets its time, and with it ceases to be the open one. */
static gboolean
commit_act (CroStore  *self,
            GError   **error)
{
  if (!cro_store_run_with (self,
                           "UPDATE act SET at = " AFTER_LAST (NOW, "at")
                           ", day = " AFTER_LAST (CRO_DAY_OF (NOW), CRO_ACT_DAY)
                           " WHERE id = ?1",
                           self->act, error))
    return FALSE;
  if (cro_store_run (self, "COMMIT", error))
    {
      cro_store_note_written (self);
      return TRUE;
    }
  cro_store_run_with (self, "UPDATE act SET at = NULL, day = NULL WHERE id = ?1", self->act, NULL);
  return FALSE;
}

gboolean
cro_store_end_act (CroStore  *self,
                   gint64    *act_id,
                   GError   **error)
{
  gint64   act;
  gboolean empty;

  g_return_val_if_fail (self != NULL && self->act != 0, FALSE);

  act = self->act;
  if (!cro_act_check_open (self, error))
    return FALSE;
  if (self->indexes != NULL && !cro_fill_finish (self, error))
    return FALSE;
  if (!act_is_empty (self, &empty, error))
    return FALSE;
  if (empty)
    cro_store_cancel_act (self);
  else if (allow (self, error) && commit_act (self, error))
    {
      /* An act of another between them is still to be told of. */
      self->last_act += act == self->last_act + 1;
      leave_act (self);
    }
  else
    return FALSE;
  if (act_id != NULL)
    *act_id = empty ? 0 : act;
  return TRUE;
}

void
cro_store_cancel_act (CroStore *self)
{
  g_return_if_fail (self != NULL);

  if (!sqlite3_get_autocommit (self->db))
    cro_store_run (self, "ROLLBACK", NULL);
  leave_act (self);
}

gint64
cro_store_get_open_act (CroStore *self)
{
  g_return_val_if_fail (self != NULL, 0);

  return self->act;
}

void
cro_store_set_check (CroStore      *self,
                     CroStoreCheck  check,
                     gpointer       user_data)
{
  g_return_if_fail (self != NULL);

  self->check = check;
  self->check_data = user_data;
}
