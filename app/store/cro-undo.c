/* Undo and redo replay the changes of the act itself, never those of an earlier undo or redo, in
 * an act of their own: backwards from after to before, or forwards from before to after. Each row
 * must still be as the replay expects to find it, so that nothing a later act did is lost; other
 * columns of it may have moved on. */
#include "cro-history.h"

#include "cro-journal-check.h"
#include "cro-replay.h"
#include "cro-replayer.h"
#include "cro-store-private.h"

static gboolean
fail_act (gint64    act,
          GError  **error)
{
  g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED,
               "act %" G_GINT64_FORMAT " of the journal is not what was done", act);
  return FALSE;
}

/* --- Closed months --------------------------------------------------------------------- */

/* Takes over stmt, which finds a month that stands in the way, and whether it is closed now. */
static gboolean
check_finds_none (CroReplay     *self,
                  sqlite3_stmt  *stmt,
                  GError       **error)
{
  int status = sqlite3_step (stmt);

  if (status == SQLITE_ROW)
    g_set_error_literal (error, CRO_STORE_ERROR,
                         sqlite3_column_int (stmt, 1) ? CRO_STORE_ERROR_CLOSED
                                                      : CRO_STORE_ERROR_REOPENED,
                         (const char *) sqlite3_column_text (stmt, 0));
  else if (status != SQLITE_DONE)
    cro_sql_fail (self->store->db, error);
  cro_store_give (self->store, stmt);
  return status == SQLITE_DONE;
}

/* Whether the act moved the closing of a month, or any act since closed one that is closed still. */
static gboolean
check_crossing (CroReplay  *self,
                GError    **error)
{
  sqlite3_stmt *stmt;

  stmt = cro_store_take (self->store,
                         "SELECT coalesce (month.month, json_extract (coalesce (after, before),"
                         " '$.month'), '?'), month.closed_at IS NOT NULL"
                         " FROM change LEFT JOIN month ON month.id = change.row"
                         " WHERE tbl = 'month' AND act >= ?1"
                         " AND ((json_extract (after, '$.closed_at') IS NOT NULL"
                         " AND (act = ?1 OR month.closed_at IS NOT NULL))"
                         " OR (act = ?1 AND json_extract (before, '$.closed_at') IS NOT NULL))"
                         " LIMIT 1",
                         error);
  if (stmt == NULL)
    return FALSE;
  sqlite3_bind_int64 (stmt, 1, self->base);
  return check_finds_none (self, stmt, error);
}

/* Purchases are not among them: a document that came after the closing is booked in the first open
 * month, and an act before the closing is not crossed. */
static gboolean
is_frozen_with_its_month (const char *table)
{
  static const char *const dated[] = { "adjustment", "sale", "stock_count", NULL };

  return g_strv_contains (dated, table);
}

/* The day may be that of the row as it stands, as it would become, or as it was then. */
static gboolean
check_month_open (CroReplay      *self,
                  const CroMove  *move,
                  GError        **error)
{
  g_autofree char *sql = NULL;
  sqlite3_stmt    *stmt;

  if (!is_frozen_with_its_month (move->table))
    return TRUE;
  sql = g_strdup_printf ("SELECT month, 1 FROM month WHERE closed_at IS NOT NULL AND month IN"
                         " (substr (json_extract (?2, '$.date'), 1, 7),"
                         " substr (json_extract (?3, '$.date'), 1, 7),"
                         " (SELECT substr (date, 1, 7) FROM \"%s\" WHERE id = ?1)) LIMIT 1",
                         move->table);
  stmt = cro_store_take (self->store, sql, error);
  if (stmt == NULL)
    return FALSE;
  sqlite3_bind_int64 (stmt, 1, move->row);
  cro_sql_bind_text (stmt, 2, move->to);
  cro_sql_bind_text (stmt, 3, move->from);
  return check_finds_none (self, stmt, error);
}

/* --- Replay ---------------------------------------------------------------------------- */

/* Where no act since stands in the way the journal is not what was done. Takes over conflict. */
static gboolean
fail_conflict (CroReplay  *self,
               GError     *conflict,
               GError    **error)
{
  if (self->conflict->act == 0 &&
      g_error_matches (conflict, CRO_STORE_ERROR, CRO_STORE_ERROR_CHANGED))
    {
      g_error_free (conflict);
      return fail_act (self->base, error);
    }
  g_propagate_error (error, conflict);
  return FALSE;
}

/* The row is not as the act left it. */
static gboolean
fail_row (CroReplay      *self,
          const CroMove  *move,
          GError        **error)
{
  g_autoptr(GError) conflict = NULL;

  cro_conflict_in_row (self, move->table, move->row, move->from, &conflict);
  return fail_conflict (self, g_steal_pointer (&conflict), error);
}

static gboolean
fail_rule (CroReplay      *self,
           const CroMove  *move,
           int             status,
           GError        **error)
{
  g_autoptr(GError) conflict = NULL;

  cro_conflict_of_rule (self, move, status, &conflict);
  return fail_conflict (self, g_steal_pointer (&conflict), error);
}

static gboolean
make_move (CroReplay      *self,
           const CroMove  *move,
           GError        **error)
{
  int status;

  if (!cro_replayers_know (self->replayers, self->store->db, move->table, error)
      || !check_month_open (self, move, error))
    return FALSE;
  status = cro_replayers_move (self->replayers, self->store->db, move->table, move->row, move->to,
                               move->from, error);
  if (status == SQLITE_DONE)
    return sqlite3_changes (self->store->db) == 1 ||
           fail_row (self, move, error);
  return (status & 0xff) == SQLITE_CONSTRAINT && fail_rule (self, move, status, error);
}

static gboolean
make_moves (CroReplay     *self,
            sqlite3_stmt  *changes,
            GError       **error)
{
  int status;

  while ((status = sqlite3_step (changes)) == SQLITE_ROW)
    {
      const char *before = (const char *) sqlite3_column_text (changes, 2);
      const char *after = (const char *) sqlite3_column_text (changes, 3);
      CroMove     move = {
               .table = (const char *) sqlite3_column_text (changes, 0),
               .row = sqlite3_column_int64 (changes, 1),
               .from = self->forwards ? before : after,
               .to = self->forwards ? after : before,
      };

      if (g_strcmp0 (move.table, "*") == 0)
        {
          g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_NO_ROWS,
                       "act %" G_GINT64_FORMAT " filled the book and kept no rows", self->base);
          return FALSE;
        }
      if (!make_move (self, &move, error))
        return FALSE;
    }
  return status == SQLITE_DONE || cro_sql_fail (self->store->db, error);
}

#define CHANGES_OF_BASE "SELECT tbl, row, before, after FROM change" \
                        " WHERE id >= (SELECT first_change FROM act WHERE id = ?1)" \
                        " AND id < (SELECT first_change FROM act WHERE id > ?1" \
                        " ORDER BY id LIMIT 1) ORDER BY id"

static gboolean
replay (CroReplay  *self,
        GError    **error)
{
  sqlite3_stmt *changes;
  gboolean      done;

  if (!cro_journal_check_act (self->store, self->base, error) || !check_crossing (self, error))
    return FALSE;
  changes = cro_store_take (self->store, self->forwards ? CHANGES_OF_BASE : CHANGES_OF_BASE " DESC",
                            error);
  if (changes == NULL)
    return FALSE;
  sqlite3_bind_int64 (changes, 1, self->base);
  done = make_moves (self, changes, error);
  cro_store_give (self->store, changes);
  return done;
}

static gboolean
end_replay (CroReplay  *self,
            gint64     *act_id,
            GError    **error)
{
  g_autoptr(GError) refusal = NULL;
  g_autoptr(GError) conflict = NULL;
  gint64            made = 0;

  if (cro_store_end_act (self->store, &made, &refusal))
    {
      if (act_id != NULL)
        *act_id = made;
      /* What moved nothing did not come from an act. */
      return made != 0 || fail_act (self->base, error);
    }
  if (g_error_matches (refusal, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE))
    cro_conflict_of_reference (self, &conflict);
  return fail_conflict (self,
                        conflict != NULL ? g_steal_pointer (&conflict) : g_steal_pointer (&refusal),
                        error);
}

static gboolean
replay_act (CroStore      *store,
            const CroAct  *base,
            gboolean       forwards,
            gint64        *act_id,
            CroConflict   *conflict,
            GError       **error)
{
  CroConflict own_conflict = { 0 };
  CroReplay   self = {
         .store = store,
         .base = base->id,
         .forwards = forwards,
         .conflict = conflict != NULL ? conflict : &own_conflict,
  };
  gboolean    done;

  if (!cro_act_begin (store, base->label, forwards ? "redo" : "undo", base->id, error))
    return FALSE;
  self.replayers = cro_replayers_new ();
  done = replay (&self, error) && end_replay (&self, act_id, error);
  if (!done)
    cro_store_cancel_act (store);
  g_hash_table_unref (self.replayers);
  cro_conflict_clear (&own_conflict);
  return done;
}

static gboolean
replay_candidate (CroStore     *self,
                  CroAct       *base,
                  gboolean      forwards,
                  gint64       *act_id,
                  CroConflict  *conflict,
                  GError      **error)
{
  gboolean done;

  if (conflict != NULL)
    *conflict = (CroConflict){ 0 };
  if (base == NULL)
    {
      if (error == NULL || *error == NULL)
        g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_NOTHING, "there is nothing to %s",
                     forwards ? "redo" : "undo");
      return FALSE;
    }
  /* An undo and a redo always name what was done. */
  done = base->verb == CRO_ACT_DO ? replay_act (self, base, forwards, act_id, conflict, error)
                                  : fail_act (base->id, error);
  cro_act_free (base);
  return done;
}

gboolean
cro_store_undo (CroStore     *self,
                gint64       *act_id,
                CroConflict  *conflict,
                GError      **error)
{
  g_return_val_if_fail (self != NULL && self->act == 0, FALSE);

  return replay_candidate (self, cro_store_peek_undo (self, error), FALSE, act_id, conflict, error);
}

/* The act whose rows are replayed: of an undo that which it took back. */
static CroAct *
base_of (CroStore      *self,
         gint64         act,
         gboolean      *forwards,
         GError       **error)
{
  g_autoptr(CroAct) found = cro_store_find_act (self, act, error);

  *forwards = FALSE;
  if (found == NULL || found->undone_by != 0)
    return NULL;
  *forwards = found->verb == CRO_ACT_UNDO;
  return found->of == 0 ? g_steal_pointer (&found) : cro_store_find_act (self, found->of, error);
}

gboolean
cro_store_undo_act (CroStore     *self,
                    gint64        act,
                    gint64       *act_id,
                    CroConflict  *conflict,
                    GError      **error)
{
  gboolean forwards;
  CroAct  *base;

  g_return_val_if_fail (self != NULL && self->act == 0, FALSE);

  base = base_of (self, act, &forwards, error);
  return replay_candidate (self, base, forwards, act_id, conflict, error);
}

gboolean
cro_store_redo (CroStore     *self,
                gint64       *act_id,
                CroConflict  *conflict,
                GError      **error)
{
  g_return_val_if_fail (self != NULL && self->act == 0, FALSE);

  return replay_candidate (self, cro_store_peek_redo (self, error), TRUE, act_id, conflict, error);
}
