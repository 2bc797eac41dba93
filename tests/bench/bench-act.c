/* bench-act: an act of one update beside the same update without a journal.
 *
 * Both run in the same schema, on the same number of rows, with the same durability (WAL,
 * synchronous NORMAL), each update its own transaction with prepared statements; the second book
 * has lost its triggers. The median of the rounds counts; rounds of the two alternate.
 *
 * Usage: bench-act [FOLDER]   (a folder on the disk to be measured; default: that for
 *                              temporary files) */
#include "bench-check.h"
#include "cro-store.h"

#include <glib/gstdio.h>
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>

#define N_ROWS 20000
#define N_ROUNDS 15
#define N_UPDATES 2000

static void
must (sqlite3 *db,
      int      status)
{
  if (status != SQLITE_OK && status != SQLITE_DONE)
    g_error ("%s", sqlite3_errmsg (db));
}

static void
fill_table (CroStore          *store,
            const char        *table,
            const char *const *columns,
            gboolean           by_name)
{
  GError    *error = NULL;
  CroWriter *writer = cro_writer_new (store, table, columns, &error);

  check (writer != NULL, error);
  for (gint64 id = 1; id <= N_ROWS; id++)
    {
      g_autofree char *name = g_strdup_printf ("ingredient %" G_GINT64_FORMAT, id);
      CroCell          cells[] = { CRO_CELL_INT (id), CRO_CELL_STR (by_name ? name : "g") };

      check (cro_writer_insert (writer, cells, NULL, &error), error);
    }
  cro_writer_free (writer);
}

static CroStore *
make_book (const char *path)
{
  static const char *const item[] = { "id", "name", NULL };
  static const char *const ingredient[] = { "id", "unit", NULL };
  GError                  *error = NULL;
  CroStore                *store = cro_store_create (path, "bench", &error);

  check (store != NULL, error);
  check (cro_store_begin_fill (store, "fill", &error), error);
  fill_table (store, "item", item, TRUE);
  fill_table (store, "ingredient", ingredient, FALSE);
  check (cro_store_end_act (store, NULL, &error), error);
  check (cro_store_checkpoint (store, &error), error);
  return store;
}

/* The same book for plain SQL, its journal's triggers dropped. */
static sqlite3 *
strip_journal (const char *path)
{
  sqlite3      *db;
  sqlite3_stmt *stmt;
  GString      *sql = g_string_new (NULL);

  must (NULL, sqlite3_open_v2 (path, &db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, NULL));
  must (db, sqlite3_prepare_v2 (db, "SELECT name FROM sqlite_schema WHERE name LIKE 'journal_%'",
                                -1, &stmt, NULL));
  while (sqlite3_step (stmt) == SQLITE_ROW)
    g_string_append_printf (sql, "DROP TRIGGER %s;", sqlite3_column_text (stmt, 0));
  sqlite3_finalize (stmt);
  g_string_append (sql, "PRAGMA synchronous = NORMAL; PRAGMA foreign_keys = ON;"
                        "PRAGMA temp_store = MEMORY; PRAGMA cache_size = -32768;"
                        "PRAGMA wal_autocheckpoint = 4000;"
                        "PRAGMA wal_checkpoint");
  must (db, sqlite3_exec (db, sql->str, NULL, NULL, NULL));
  g_string_free (sql, TRUE);
  return db;
}

static gint64
row_of (int update)
{
  return 1 + (gint64) update * 7919 % N_ROWS;
}

static double
journalled_usec (CroStore *store,
                 int       round)
{
  static const char *const columns[] = { "trim_yield_pct_micro", NULL };
  GError                  *error = NULL;
  gint64                   start = g_get_monotonic_time ();

  for (int i = 0; i < N_UPDATES; i++)
    {
      CroCell cell = CRO_CELL_INT (50000000 + round);

      check (cro_store_begin_act (store, "trim yield", &error), error);
      check (cro_store_update (store, "ingredient", row_of (i), columns, &cell, &error), error);
      check (cro_store_end_act (store, NULL, &error), error);
    }
  return (double) (g_get_monotonic_time () - start) / N_UPDATES;
}

static double
plain_usec (sqlite3       *db,
            sqlite3_stmt **stmts,
            int            round)
{
  gint64 start = g_get_monotonic_time ();

  for (int i = 0; i < N_UPDATES; i++)
    {
      sqlite3_bind_int64 (stmts[1], 1, 50000000 + round);
      sqlite3_bind_int64 (stmts[1], 2, row_of (i));
      for (int s = 0; s < 3; s++)
        {
          must (db, sqlite3_step (stmts[s]));
          sqlite3_reset (stmts[s]);
        }
    }
  return (double) (g_get_monotonic_time () - start) / N_UPDATES;
}

static int
by_value (const void *a,
          const void *b)
{
  double x = *(const double *) a;
  double y = *(const double *) b;

  return (x > y) - (x < y);
}

static double
median (double *values)
{
  qsort (values, N_ROUNDS, sizeof *values, by_value);
  return values[N_ROUNDS / 2];
}

int
main (int    argc,
      char **argv)
{
  static const char *const sql[3] = {
    "BEGIN IMMEDIATE", "UPDATE ingredient SET trim_yield_pct_micro = ?1 WHERE id = ?2", "COMMIT",
  };
  g_autofree char *folder = g_build_filename (argc > 1 ? argv[1] : g_get_tmp_dir (),
                                              "bench-act-XXXXXX", NULL);
  g_autofree char *journalled_path = NULL;
  g_autofree char *plain_path = NULL;
  CroStore        *store;
  sqlite3         *db;
  sqlite3_stmt    *stmts[3];
  double           journalled[N_ROUNDS];
  double           plain[N_ROUNDS];
  double           a, b;

  if (g_mkdtemp (folder) == NULL)
    g_error ("%s cannot be made", folder);
  journalled_path = g_build_filename (folder, "journalled.croustade", NULL);
  plain_path = g_build_filename (folder, "plain.croustade", NULL);
  store = make_book (journalled_path);
  cro_store_close (make_book (plain_path));
  db = strip_journal (plain_path);
  for (int s = 0; s < 3; s++)
    must (db, sqlite3_prepare_v2 (db, sql[s], -1, &stmts[s], NULL));

  journalled_usec (store, N_ROUNDS);
  plain_usec (db, stmts, N_ROUNDS);
  for (int round = 0; round < N_ROUNDS; round++)
    {
      journalled[round] = journalled_usec (store, round);
      plain[round] = plain_usec (db, stmts, round);
    }
  a = median (journalled);
  b = median (plain);
  printf ("an act of one update: %.1f us; the same update without a journal: %.1f us; ratio %.2f\n"
          "medians of %d rounds of %d updates among %d rows\n",
          a, b, a / b, N_ROUNDS, N_UPDATES, N_ROWS);

  for (int s = 0; s < 3; s++)
    sqlite3_finalize (stmts[s]);
  sqlite3_close (db);
  cro_store_close (store);
  g_unlink (journalled_path);
  g_unlink (plain_path);
  return g_rmdir (folder) != 0;
}
