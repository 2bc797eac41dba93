/* The book as it stood, 10 thousand changes ago.
 *
 * Beside     Opening the same book as it stands, until all its costs stand: the past is that, and
 *            the way back.
 * Counted    From opening the file to letting go of it, both sides; the file is in the system's
 *            cache. */
#include "bench-check.h"
#include "bench.h"
#include "cro-book.h"
#include "synthetic-tables.h"

#include "cro-date.h"
#include "cro-load.h"

#include <sqlite3.h>

#define N_LINES 100000
#define N_CHANGES 10000
#define ROUNDS 7

typedef struct
{
  char    *path;
  CroDate  then;
  CroDate  date;
} Bench;

static void
open_past (void *user_data)
{
  Bench *bench = user_data;
  GError *error = NULL;
  CroBook *book = cro_book_open_past (bench->path, bench->then, bench->date, &error);

  check (book != NULL, error);
  g_object_unref (book);
}

static void
open_now (void *user_data)
{
  Bench *bench = user_data;
  GError *error = NULL;
  CroBook *book = cro_book_open (bench->path, "bench", CRO_STORE_READ, bench->date, &error);

  check (book != NULL, error);
  g_object_unref (book);
}

/* Each an act of its own, all over the book. */
static void
change_lines (Bench *bench)
{
  static const char *const columns[] = { "amount_micro", NULL };
  GError *error = NULL;
  g_autoptr (CroStore) store = cro_store_open (bench->path, "bench", CRO_STORE_WRITE, &error);

  check (store != NULL, error);
  for (gint64 i = 0; i < N_CHANGES; i++)
    {
      CroCell cell = CRO_CELL_INT ((i + 1) * G_GINT64_CONSTANT (1000000));

      check (cro_store_begin_act (store, "amount", &error)
                 && cro_store_update (store, "recipe_line", 1 + i * (N_LINES / N_CHANGES - 1),
                                      columns, &cell, &error)
                 && cro_store_end_act (store, NULL, &error),
             error);
    }
}

/* What was loaded today was loaded then. */
static void
date_load (Bench *bench)
{
  char day[CRO_DATE_CHARS];
  g_autofree char *sql = NULL;
  sqlite3 *db;

  cro_date_format (bench->then, day);
  sql = g_strdup_printf ("UPDATE act SET at = '%sT12:00:00Z', day = '%s' WHERE id = 1", day, day);
  if (sqlite3_open (bench->path, &db) != SQLITE_OK
      || sqlite3_exec (db, sql, NULL, NULL, NULL) != SQLITE_OK)
    g_error ("%s", sqlite3_errmsg (db));
  sqlite3_close (db);
}

int
main (int    argc,
      char **argv)
{
  g_autofree char *folder = cro_synthetic_make_folder (argc > 1 ? argv[1] : NULL, N_LINES);
  g_autofree char *path = g_build_filename (folder, "past.croustade", NULL);
  Bench bench = { path, cro_date_from_civil (2026, 2, 1), cro_date_from_civil (2026, 3, 1) };
  g_autoptr (CroFaults) faults = cro_faults_new ();
  GError *error = NULL;
  CroBenchPair pair;

  check (cro_load (path, folder, "bench", "load", FALSE, NULL, NULL, faults, &error), error);
  date_load (&bench);
  change_lines (&bench);
  cro_bench_head ("100 thousand lines, 10 thousand changes back");
  pair = cro_bench_pair (open_past, open_now, &bench, ROUNDS, 1);
  cro_bench_row_of ("the book as it stood", "opening it", &pair, 3);
  cro_synthetic_remove_folder (folder);
  return 0;
}
