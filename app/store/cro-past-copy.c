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
         gboolean   with_pictures,
         GError   **error)
{
  g_autoptr(CroStore) copy = cro_store_copy_to_memory (self, with_pictures, error);

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
  const char *changes; /* SQL: what is taken back from the act ?1 on, newest first */
} Past;

#define SINCE "id >= (SELECT first_change FROM act WHERE id = ?1)"

static const char all_changes[] =
  "SELECT tbl, row, before, after FROM change WHERE " SINCE " ORDER BY id DESC";

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
  sqlite3_stmt *changes = cro_store_take (self->copy, self->changes, error);
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
take_back_from (CroStore    *copy,
                const char  *changes,
                gint64       first_act,
                GError     **error)
{
  Past     self = { copy, cro_replayers_new (), changes };
  gboolean done = take_back_all (&self, first_act, error);

  g_hash_table_unref (self.replayers);
  return done;
}

/* The first act after a day; 0: there is none. */
static gboolean
find_first_after (CroStore    *copy,
                  const char  *day,
                  gint64      *first,
                  GError     **error)
{
  sqlite3_stmt *stmt = cro_store_take (copy, FIRST_AFTER, error);

  if (stmt == NULL)
    return FALSE;
  cro_sql_bind_text (stmt, 1, day);
  *first = sqlite3_step (stmt) == SQLITE_ROW ? sqlite3_column_int64 (stmt, 0) : 0;
  cro_store_give (copy, stmt);
  return TRUE;
}

/* To before that act; 0: nothing is taken back. */
static gboolean
go_before (CroStore  *copy,
           gint64     first,
           GError   **error)
{
  if (first == 0)
    return TRUE;
  return cro_store_run (copy, "BEGIN", error) &&
         take_back_from (copy, all_changes, first, error) &&
         forget (copy, first, error) && cro_store_run (copy, "COMMIT", error);
}

static gboolean
go_back (CroStore    *copy,
         const char  *day,
         GError     **error)
{
  gint64 first;

  return find_first_after (copy, day, &first, error) && go_before (copy, first, error);
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
  copy = copy_of (self, FALSE, error);
  return copy != NULL &&
         cro_sql_exec (copy->db, "PRAGMA ignore_check_constraints = OFF; BEGIN", error) &&
         take_back_from (copy, all_changes, first, error);
}

static CroStore *
only_read (CroStore  *copy,
           GError   **error)
{
  return cro_sql_exec (copy->db, "PRAGMA query_only = ON", error) ? copy : NULL;
}

/* A copy that went a way back, and is only read from then on. */
static CroStore *
open_back (CroStore    *self,
           const char  *day,
           gboolean     with_pictures,
           gboolean   (*way) (CroStore *copy, const char *day, GError **error),
           GError     **error)
{
  g_autoptr(CroStore) copy = NULL;

  g_return_val_if_fail (self != NULL && self->act == 0, NULL);
  g_return_val_if_fail (day != NULL, NULL);

  if (!check_begun (self, day, error))
    return NULL;
  copy = copy_of (self, with_pictures, error);
  if (copy == NULL || !way (copy, day, error) || only_read (copy, error) == NULL)
    return NULL;
  return g_steal_pointer (&copy);
}

CroStore *
cro_store_open_past (CroStore    *self,
                     const char  *day,
                     GError     **error)
{
  return open_back (self, day, TRUE, go_back, error);
}

/* The first act after the last that closed it, or, where the journal knows of none, after the last fill. */
#define FIRST_AFTER_CLOSING \
  "SELECT ifnull (min (id), 0) FROM act WHERE id > ifnull ((SELECT max (act) FROM change WHERE tbl = 'month'" \
  " AND row = ?1 AND json_extract (after, '$.closed_at') IS NOT NULL)," \
  " ifnull ((SELECT max (act) FROM change WHERE tbl = '*'), (SELECT max (id) FROM act)))"

CroStore *
cro_store_open_closed (CroStore  *self,
                       gint64     month,
                       GError   **error)
{
  g_autoptr(CroStore) copy = NULL;
  sqlite3_stmt       *stmt;
  gint64              first;

  g_return_val_if_fail (self != NULL && self->act == 0, NULL);

  copy = copy_of (self, FALSE, error);
  stmt = copy != NULL ? cro_store_take (copy, FIRST_AFTER_CLOSING, error) : NULL;
  if (stmt == NULL)
    return NULL;
  sqlite3_bind_int64 (stmt, 1, month);
  first = sqlite3_step (stmt) == SQLITE_ROW ? sqlite3_column_int64 (stmt, 0) : 0;
  cro_store_give (copy, stmt);
  if (!go_before (copy, first, error) || only_read (copy, error) == NULL)
    return NULL;
  return g_steal_pointer (&copy);
}

/* --- Recipes as they stood, at prices as they stand --------------------------------------- */

/* Of the tables that no recipe and no price is read from. */
#define RECORDS \
  "'sale', 'stock_count', 'purchase', 'adjustment', 'month', 'month_row', 'service'," \
  " 'service_stock', 'yield_test', 'yield_test_part', 'till_name'," \
  " 'price_answer'"

static const char forget_records[] =
  "DELETE FROM sale; DELETE FROM stock_count; DELETE FROM purchase; DELETE FROM adjustment;"
  "DELETE FROM month_row; DELETE FROM month; DELETE FROM service; DELETE FROM service_stock;"
  "DELETE FROM yield_test_part; DELETE FROM yield_test; DELETE FROM till_name;"
  "DELETE FROM price_answer;";

static const char remember_now[] =
  "CREATE TEMP TABLE now_item AS SELECT id FROM item;"
  "CREATE TEMP TABLE now_thing AS SELECT id FROM thing;"
  "CREATE TEMP TABLE now_book AS SELECT * FROM book;"
  "CREATE TEMP TABLE now_supplier AS SELECT * FROM supplier;"
  "CREATE TEMP TABLE now_offer AS SELECT * FROM offer;"
  "CREATE TEMP TABLE now_price AS SELECT * FROM price;"
  "CREATE TEMP TABLE now_rate AS SELECT * FROM rate;"
  "CREATE TEMP TABLE now_selling_price AS SELECT * FROM selling_price;"
  "CREATE TEMP TABLE skipped (act INTEGER PRIMARY KEY);"
  "CREATE TEMP TABLE gone (item INTEGER, act INTEGER, PRIMARY KEY (item, act)) WITHOUT ROWID;"
  "CREATE TEMP TABLE merged (item INTEGER PRIMARY KEY, into_item INTEGER);";

/* An act that was taken back never was, on whichever side of the day it was taken back: what took it
 * back stays, and so does an act after the day that does not stand. */
static const char skip_taken_back[] =
  "INSERT INTO skipped SELECT id FROM act AS a WHERE id >= ?1 AND"
  " (ifnull (of, ?1) < ?1 OR ifnull ((SELECT verb FROM act AS b WHERE b.of = ifnull (a.of, a.id)"
  " ORDER BY b.id DESC LIMIT 1), 'do') = 'undo')";

static const char changes_of_recipes[] =
  "SELECT tbl, row, before, after FROM change WHERE " SINCE
  " AND tbl NOT IN (" RECORDS ") AND act NOT IN (SELECT act FROM skipped) ORDER BY id DESC";

/* An item that went in an act that pointed its lines, packs or records to another was merged into
 * that one. */
static const char find_gone[] =
  "INSERT INTO gone SELECT DISTINCT row, act FROM change WHERE " SINCE
  " AND tbl = 'item' AND after IS NULL AND act NOT IN (SELECT act FROM skipped)";

static const char find_merged[] =
  "INSERT OR REPLACE INTO merged SELECT gone.item, ifnull (json_extract (change.after, '$.item'),"
  " json_extract (change.after, '$.ingredient')) FROM change JOIN gone ON gone.act = change.act"
  " AND gone.item = ifnull (json_extract (change.before, '$.item'),"
  " json_extract (change.before, '$.ingredient'))"
  " WHERE change." SINCE " AND change.tbl <> '*' AND change.before IS NOT NULL"
  " AND change.after IS NOT NULL AND ifnull (json_extract (change.after, '$.item'),"
  " json_extract (change.after, '$.ingredient')) IS NOT NULL";

/* What the same act made took the other's place in its lines, and is another thing. */
static const char forget_replaced[] =
  "DELETE FROM merged WHERE EXISTS (SELECT 1 FROM gone JOIN change ON change.act = gone.act"
  " WHERE gone.item = merged.item AND change." SINCE " AND change.tbl = 'item'"
  " AND change.before IS NULL AND change.row = merged.into_item)";

/* Into the one that remains of them all, or the one that the day knew of these. */
static const char take_merged[] =
  "UPDATE merged SET into_item = (WITH RECURSIVE way (item, step) AS (SELECT merged.into_item, 0"
  " UNION ALL SELECT next.into_item, step + 1 FROM way JOIN merged AS next ON next.item = way.item"
  " WHERE step < 1000) SELECT item FROM way ORDER BY step DESC LIMIT 1);"
  "UPDATE recipe_line SET item = (SELECT into_item FROM merged WHERE merged.item ="
  " recipe_line.item) WHERE item IN (SELECT item FROM merged WHERE into_item IN"
  " (SELECT id FROM item));"
  "DELETE FROM offer WHERE ingredient IN (SELECT item FROM merged);"
  "UPDATE now_offer SET ingredient = (SELECT min (item) FROM merged WHERE into_item ="
  " now_offer.ingredient) WHERE ingredient NOT IN (SELECT id FROM item) AND ingredient IN"
  " (SELECT into_item FROM merged);";

/* What is gone now keeps the prices that it had. */
static const char take_dated[] =
  "INSERT OR IGNORE INTO book SELECT * FROM now_book;"
  "UPDATE book SET (name, currency, wage_per_hour_micro, target_pct_micro, stale_after_days_micro,"
  " speaks, till_with_tax, price_steps) = (SELECT name, currency, wage_per_hour_micro,"
  " target_pct_micro, stale_after_days_micro, speaks, till_with_tax, price_steps FROM now_book);"
  "DELETE FROM rate; INSERT INTO rate SELECT * FROM now_rate;"
  "DELETE FROM supplier WHERE id IN (SELECT id FROM now_supplier) OR name IN (SELECT name FROM"
  " now_supplier); INSERT INTO supplier SELECT * FROM now_supplier;"
  "DELETE FROM offer WHERE ingredient IN (SELECT id FROM now_item) OR id IN (SELECT id FROM"
  " now_offer) OR supplier NOT IN (SELECT id FROM supplier);"
  "INSERT OR IGNORE INTO offer SELECT * FROM now_offer WHERE ingredient IN (SELECT id FROM ingredient);"
  "DELETE FROM price WHERE id IN (SELECT id FROM now_price) OR offer IN (SELECT id FROM now_offer)"
  " OR offer NOT IN (SELECT id FROM offer);"
  "INSERT INTO price SELECT * FROM now_price WHERE offer IN (SELECT id FROM offer);"
  "DELETE FROM selling_price WHERE id IN (SELECT id FROM now_selling_price) OR thing IN (SELECT id"
  " FROM now_thing);"
  "INSERT INTO selling_price SELECT * FROM now_selling_price WHERE thing IN (SELECT id FROM thing);";

static gboolean
recipes_go_back (CroStore    *copy,
                 const char  *day,
                 GError     **error)
{
  gint64 first;

  if (!find_first_after (copy, day, &first, error))
    return FALSE;
  if (first == 0)
    return cro_sql_exec (copy->db, forget_records, error);
  return cro_store_run (copy, "BEGIN", error) && cro_sql_exec (copy->db, forget_records, error) &&
         cro_sql_exec (copy->db, remember_now, error) &&
         cro_store_run_with (copy, skip_taken_back, first, error) &&
         cro_store_run_with (copy, find_gone, first, error) &&
         cro_store_run_with (copy, find_merged, first, error) &&
         cro_store_run_with (copy, forget_replaced, first, error) &&
         take_back_from (copy, changes_of_recipes, first, error) &&
         cro_sql_exec (copy->db, take_merged, error) &&
         cro_sql_exec (copy->db, take_dated, error) && forget (copy, first, error) &&
         cro_store_run (copy, "COMMIT", error);
}

CroStore *
cro_store_open_recipes (CroStore    *self,
                        const char  *day,
                        GError     **error)
{
  return open_back (self, day, FALSE, recipes_go_back, error);
}

char *
cro_store_dup_day_of_lines (CroStore    *self,
                            gint64       thing,
                            const char  *after,
                            GError     **error)
{
  g_autofree char *number = g_strdup_printf ("%" G_GINT64_FORMAT, thing);
  g_auto(GStrv)    days = NULL;
  g_autofree char *sql = g_strdup_printf (
    "SELECT " CRO_ACT_DAY " FROM act WHERE " CRO_ACT_DAY " > '%s' AND id IN (SELECT act FROM change"
    " WHERE tbl IN ('recipe_line', 'menu_plate') AND (json_extract (after, '$.plate') = %s AND tbl ="
    " 'recipe_line' OR json_extract (after, '$.menu') = %s)) ORDER BY id LIMIT 1",
    after, number, number);

  g_return_val_if_fail (self != NULL, NULL);

  days = cro_sql_texts (self->db, sql, NULL, error);
  return days != NULL ? g_strdup (days[0]) : NULL;
}
