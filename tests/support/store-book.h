/* store-book.h: a small book for the tests of the store, and raw SQL beside it.
 *
 * Ownership  Strings returned are the caller's. A CroTestFolder is removed with all it holds. */
#pragma once

#include "cro-store.h"

#include <glib/gstdio.h>
#include <setjmp.h>
#include <sqlite3.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

/* The bytes FF D8 FF by their SHA-256. */
#define CRO_TEST_PICTURE "6e568e1f67fba258184c78181539e5e8" \
                         "fdee447e49bb706fc0ea34fbf12336a5.jpg"

/* One row of every table, set in every column that can be; item and thing 2 are the other kind. */
#define CRO_TEST_ROWS                                                                             \
  "INSERT INTO book VALUES (1, 'Saltmarsh Rooms', 'EUR', 18000000, 10000000, 28000000, 90000000," \
  " 'food-cost', 1, NULL);"                                                                             \
  "INSERT INTO item VALUES (1, 'samphire'), (2, 'samphire purée');"                               \
  "INSERT INTO ingredient VALUES (1, 'greens', 'food', 'g', 600000, 2000000, 85000000, 0, 4,"     \
  " 'n');"                                                                                        \
  "INSERT INTO supplier VALUES (1, 'Estuary Greens', 'at the quay', 'pack', 40000000, 6000000,"   \
  " 'n');"                                                                                        \
  "INSERT INTO offer VALUES (1, 1, 1, 'S1', 6000000, 1000000, 'kg', 98000000, 'GBP', 1,"          \
  " '2027-01-31', '6291041500213', 1000000);"                                                     \
  "INSERT INTO price VALUES (1, 1, '2026-01-05', 9500000, 20000000, 5000000, 1000000, 'kg');"     \
  "INSERT INTO price_answer VALUES (1, 1, '2026-01-05', 9500000, '2026-01-06',"                   \
  " 5000000, 1000000, 'kg', 'GBP');"                                                              \
  "INSERT INTO rate VALUES (1, 'GBP', '2026-01-01', 1150000, 1000000);"                           \
  "INSERT INTO picture VALUES (1, '" CRO_TEST_PICTURE "', x'ffd8ff');"                            \
  "INSERT INTO preparation VALUES (1, 'samphire purée', 'weight', 12000000, 500000, 'n', '"        \
  CRO_TEST_PICTURE "');"                                                                          \
  "INSERT INTO output VALUES (2, 1, 'main', 800000000, 'g', NULL, 4000000, 1050000, 30000000,"    \
  " 5000000);"                                                                                    \
  "INSERT INTO thing VALUES (1, 'marsh tartlet'), (2, 'tide menu');"                              \
  "INSERT INTO plate VALUES (1, 'snacks', 24000000, 2000000, 9000000, 10000000, 25000000,"        \
  " 3000000, 20000000, 'n', '" CRO_TEST_PICTURE "');"                                             \
  "INSERT INTO menu VALUES (2, 90000000, 10000000, 27000000, 'n');"                               \
  "INSERT INTO menu_plate VALUES (1, 2, 1, 'snack', 1000000, 1000000, 60000000);"                 \
  "INSERT INTO selling_price VALUES (1, 2, '2026-02-01', 95000000, 12000000);"                    \
  "INSERT INTO service VALUES (1, '2026-02-07', 'dinner', 2, 24000000);"                          \
  "INSERT INTO service_stock VALUES (1, '2026-02-07', 'dinner', 1, 2000000, 'kg');"               \
  "INSERT INTO recipe_line VALUES (1, 1, NULL, 1000000, 1, 1000000000, 'g', 'trimmed', 85000000," \
  " 5000000, 'n'), (2, NULL, 1, 1000000, 2, 120000000, 'g', 'whole', NULL, NULL, NULL);"          \
  "INSERT INTO yield_test VALUES (1, 'lot 7', 1, '2026-02-02', 1000000000, 850000000, 'n');"      \
  "INSERT INTO yield_test_part VALUES (1, 1, 2, 90000000);"                                       \
  "INSERT INTO sale VALUES (1, '2026-02-03', 1, NULL, 12000000, 98000000);"                       \
  "INSERT INTO till_name VALUES (1, 'TARTLET x1', 'plate', 'marsh tartlet');"                     \
  "INSERT INTO stock_count VALUES (1, '2026-02-28', 1, 3000000, 'kg', 'cold room');"              \
  "INSERT INTO purchase VALUES (1, '2026-02-04', '2026-02-03', 1, 'D-1', 1, 'greens', 'food',"    \
  " -1000000, 'kg', -9500000);"                                                                   \
  "INSERT INTO adjustment VALUES (1, '2026-02-05', 'staff-meal', 1, 1000000, 'kg', 9500000, 'n');"\
  "INSERT INTO month VALUES (1, '2026-01', 1000000, 1100000, 2000000, '2026-01-31', 3000000,"     \
  " 4000000, '2026-02-01T08:00:00Z', 'r', 'h');"                                                  \
  "INSERT INTO month_row VALUES (1, 1, 'plate', 'marsh tartlet', 'food', 'samphire', 1000000,"    \
  " '2026-01-31', 12000000, 98000000, 9000000, 'g', 10000000, 1140000, 9500000, 'Estuary Greens',"\
  " 'D-1', 'greens', 'food', 'n');"

typedef struct
{
  char *folder;
  char *path; /* of a book in it, not yet made */
} CroTestFolder;

static inline void
cro_test_must (gboolean  done,
               GError   *error)
{
  if (!done)
    fail_msg ("%s", error != NULL ? error->message : "failed without an error");
}

static inline CroTestFolder
cro_test_folder_new (void)
{
  CroTestFolder folder = { .folder = g_dir_make_tmp ("croustade-XXXXXX", NULL) };

  assert_non_null (folder.folder);
  folder.path = g_build_filename (folder.folder, "book.croustade", NULL);
  return folder;
}

static inline void
cro_test_folder_clear (CroTestFolder *folder)
{
  GDir       *dir = g_dir_open (folder->folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      char *path = g_build_filename (folder->folder, name, NULL);

      g_remove (path);
      g_free (path);
    }
  g_clear_pointer (&dir, g_dir_close);
  g_rmdir (folder->folder);
  g_clear_pointer (&folder->folder, g_free);
  g_clear_pointer (&folder->path, g_free);
}

static inline CroStore *
cro_test_open (const char *path,
               const char *desk)
{
  GError   *error = NULL;
  CroStore *store = cro_store_open (path, desk, CRO_STORE_WRITE, &error);

  cro_test_must (store != NULL, error);
  return store;
}

/* An empty book, made anew. */
static inline CroStore *
cro_test_make (const char *path)
{
  GError   *error = NULL;
  CroStore *store = cro_store_create (path, "cook", &error);

  cro_test_must (store != NULL, error);
  return store;
}

/* The first of a program is made and the others are copies of it: its tables and triggers take longer than most
 * of what is asked of them. */
static inline void
cro_test_put_empty (const char *path)
{
  static char *bytes;
  static gsize length;
  GError      *error = NULL;

  if (bytes == NULL)
    {
      cro_store_close (cro_test_make (path));
      cro_test_must (g_file_get_contents (path, &bytes, &length, &error), error);
      return;
    }
  cro_test_must (g_file_set_contents_full (path, bytes, (gssize) length, G_FILE_SET_CONTENTS_NONE, 0600, &error),
                 error);
}

static inline CroStore *
cro_test_create (const char *path)
{
  cro_test_put_empty (path);
  return cro_test_open (path, "cook");
}

static inline sqlite3 *
cro_test_raw (const char *path)
{
  sqlite3 *db;

  assert_int_equal (sqlite3_open (path, &db), SQLITE_OK);
  sqlite3_extended_result_codes (db, 1);
  sqlite3_busy_timeout (db, 5000);
  assert_int_equal (sqlite3_exec (db, "PRAGMA foreign_keys = ON", NULL, NULL, NULL), SQLITE_OK);
  return db;
}

static inline void
cro_test_sql (sqlite3    *db,
              const char *sql)
{
  if (sqlite3_exec (db, sql, NULL, NULL, NULL) != SQLITE_OK)
    fail_msg ("%s: %s", sqlite3_errmsg (db), sql);
}

/* A transaction that the journal accepts: an act is open in it. */
static inline void
cro_test_begin_raw_act (sqlite3 *db)
{
  cro_test_sql (db, "BEGIN IMMEDIATE; INSERT INTO act (label, desk, verb, first_change)"
                    " SELECT 'raw', 'raw', 'do', ifnull (max (id), 0) + 1 FROM change");
}

static inline void
cro_test_end_raw_act (sqlite3 *db)
{
  cro_test_sql (db, "UPDATE act SET at = '2026-01-01T00:00:00Z' WHERE at IS NULL; COMMIT");
}

/* The rows of CRO_TEST_ROWS, in one act of the desk "raw". */
static inline void
cro_test_add_rows (const char *path)
{
  sqlite3 *db = cro_test_raw (path);

  cro_test_begin_raw_act (db);
  cro_test_sql (db, CRO_TEST_ROWS);
  cro_test_end_raw_act (db);
  sqlite3_close (db);
}

static inline void
cro_test_dump_table (sqlite3    *db,
                     const char *table,
                     GString    *dump)
{
  char         *sql = g_strdup_printf ("SELECT * FROM %s ORDER BY id", table);
  sqlite3_stmt *stmt;

  assert_int_equal (sqlite3_prepare_v2 (db, sql, -1, &stmt, NULL), SQLITE_OK);
  while (sqlite3_step (stmt) == SQLITE_ROW)
    {
      g_string_append (dump, table);
      for (int i = 0; i < sqlite3_column_count (stmt); i++)
        g_string_append_printf (dump, "|%d:%s", sqlite3_column_type (stmt, i),
                                (const char *) sqlite3_column_text (stmt, i));
      g_string_append_c (dump, '\n');
    }
  sqlite3_finalize (stmt);
  g_free (sql);
}

/* Every row of every table but the journal's own, with the type of every value. */
static inline char *
cro_test_dump_of (sqlite3 *db)
{
  GString      *dump = g_string_new (NULL);
  sqlite3_stmt *tables;

  assert_int_equal (sqlite3_prepare_v2 (db, "SELECT name FROM sqlite_schema WHERE type = 'table'"
                                            " AND name NOT IN ('act', 'change', 'sqlite_sequence')"
                                            " ORDER BY name", -1, &tables, NULL), SQLITE_OK);
  while (sqlite3_step (tables) == SQLITE_ROW)
    cro_test_dump_table (db, (const char *) sqlite3_column_text (tables, 0), dump);
  sqlite3_finalize (tables);
  return g_string_free (dump, FALSE);
}

static inline char *
cro_test_dump (const char *path)
{
  sqlite3 *db = cro_test_raw (path);
  char    *dump = cro_test_dump_of (db);

  sqlite3_close (db);
  return dump;
}
