/* A book opened until all its costs stand.
 *
 * Beside     A loop over the same columns of the same rows in the same order: sqlite3_step, and
 *            for each value the sqlite3_column_ function of its type. It keeps nothing and
 *            computes nothing; it is the price of merely fetching the book.
 * Counted    From opening the file to closing it, both sides; the file is in the system's
 *            cache. */
#include "bench-check.h"
#include "bench.h"
#include "cro-book.h"
#include "synthetic-tables.h"

#include "cro-date.h"
#include "cro-load.h"

#include <glib/gstdio.h>
#include <sqlite3.h>

/* What the figures are computed from: a letter says how a column is fetched, i as an integer, t
 * as text. */
static const struct
{
  const char *columns;
  const char *sql;
} reads[] = {
  { "ittiiii", "SELECT id, name, currency, wage_per_hour_micro, tax_pct_micro, target_pct_micro,"
               " stale_after_days_micro FROM book" },
  { "it", "SELECT id, name FROM item ORDER BY id" },
  { "ittiiii", "SELECT id, kind, unit, density_g_per_ml_micro, piece_g_micro,"
               " trim_yield_pct_micro, allergens FROM ingredient ORDER BY id" },
  { "it", "SELECT id, name FROM supplier ORDER BY id" },
  { "iiitiititit", "SELECT id, ingredient, supplier, code, pack_count_micro, pack_size_micro,"
                   " pack_unit, net_pct_micro, currency, preferred, until FROM offer"
                   " ORDER BY id" },
  { "ittii", "SELECT id, name, by_products, active_minutes_micro, smallest_part_micro"
             " FROM preparation ORDER BY id" },
  { "iititiiii", "SELECT id, preparation, role, amount_micro, unit, yield_pct_micro, value_micro,"
                 " density_g_per_ml_micro, piece_g_micro FROM output ORDER BY id" },
  { "it", "SELECT id, name FROM thing ORDER BY id" },
  { "itiiiiiii", "SELECT id, course, makes_micro, per_guest_micro, price_micro, tax_pct_micro,"
                 " target_pct_micro, allowance_pct_micro, active_minutes_micro FROM plate"
                 " ORDER BY id" },
  { "iiii", "SELECT id, price_micro, tax_pct_micro, target_pct_micro FROM menu ORDER BY id" },
  { "iiiii", "SELECT id, menu, plate, servings_micro, position_micro FROM menu_plate"
             " ORDER BY id" },
  { "iiiiiittii", "SELECT id, preparation, plate, position_micro, item, amount_micro, unit,"
                  " weighed, yield_pct_micro, recovered_pct_micro FROM recipe_line ORDER BY id" },
  { "tii", "SELECT currency, rate_micro, per_micro FROM rate" },
  { "iitiiiit", "SELECT offer, id, from_date, price_micro, tax_included_pct_micro,"
                " pack_count_micro, pack_size_micro, pack_unit FROM price ORDER BY id" },
};

typedef struct
{
  char    *path;
  CroDate  date;
  guint64  sum;  /* of what was fetched, so that no call can be left out */
} Bench;

static void
open_book (void *user_data)
{
  Bench *bench = user_data;
  GError *error = NULL;
  CroBook *book = cro_book_open (bench->path, "bench", CRO_STORE_WRITE, bench->date, &error);

  check (book != NULL, error);
  g_object_unref (book);
}

static void
fetch_row (sqlite3_stmt *stmt,
           const char   *columns,
           guint64      *sum)
{
  for (int i = 0; columns[i] != '\0'; i++)
    if (columns[i] == 'i')
      *sum += (guint64) sqlite3_column_int64 (stmt, i);
    else
      *sum += sqlite3_column_text (stmt, i) != NULL;
}

static void
fetch_rows (void *user_data)
{
  Bench *bench = user_data;
  sqlite3 *db;

  if (sqlite3_open_v2 (bench->path, &db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, NULL)
          != SQLITE_OK
      || sqlite3_exec (db,
                       "PRAGMA temp_store = MEMORY; PRAGMA cache_size = -32768;"
                       "PRAGMA synchronous = NORMAL; BEGIN",
                       NULL, NULL, NULL)
             != SQLITE_OK)
    g_error ("%s", sqlite3_errmsg (db));
  for (gsize i = 0; i < G_N_ELEMENTS (reads); i++)
    {
      sqlite3_stmt *stmt;

      if (sqlite3_prepare_v2 (db, reads[i].sql, -1, &stmt, NULL) != SQLITE_OK)
        g_error ("%s", sqlite3_errmsg (db));
      while (sqlite3_step (stmt) == SQLITE_ROW)
        fetch_row (stmt, reads[i].columns, &bench->sum);
      if (sqlite3_finalize (stmt) != SQLITE_OK)
        g_error ("%s", sqlite3_errmsg (db));
    }
  sqlite3_exec (db, "COMMIT", NULL, NULL, NULL);
  sqlite3_close (db);
}

static const struct
{
  const char *title;
  gsize       n_lines, rounds, repeats;
} sizes[] = {
  { "100 thousand lines", 100000, 21, 2 },
  { "1 million lines", 1000000, 11, 1 },
};

int
main (int    argc,
      char **argv)
{
  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autofree char *folder = cro_synthetic_make_folder (argc > 1 ? argv[1] : NULL,
                                                           sizes[i].n_lines);
      g_autofree char *path = g_build_filename (folder, "open.croustade", NULL);
      Bench bench = { .path = path, .date = cro_date_from_civil (2026, 3, 1) };
      g_autoptr (CroFaults) faults = cro_faults_new ();
      GError *error = NULL;
      CroBenchPair pair;

      check (cro_load (path, folder, "bench", "load", FALSE, NULL, NULL, faults, &error), error);
      cro_bench_head (sizes[i].title);
      pair = cro_bench_pair (open_book, fetch_rows, &bench, sizes[i].rounds, sizes[i].repeats);
      cro_bench_row_of ("open, and all costs", "sqlite3_step and _column_", &pair, 1.25);
      cro_synthetic_remove_folder (folder);
    }
  return 0;
}
