/* A folder of tables loaded, checked, into a new book.
 *
 * Beside     The sqlite3 shell's .import --csv of the same rows as the book keeps them, ids and
 *            millionths, into tables with the same keys and indexes, in one transaction, with
 *            the same pragmas. It resolves no name and checks no value. It writes an empty field
 *            as '' and not as NULL: a column that may be NULL refers to nothing there, and a
 *            partial index leaves out ''. There is no journal and no CHECK either.
 * Counted    From no file to a closed one; the tables are in the system's cache. In the second
 *            row the shell makes its indexes after its rows, which the goal does not ask of it.
 *
 * Usage: bench-load SQLITE3 [FOLDER]   (the shell; a folder on the disk to be measured, default:
 *                                       that for temporary files) */
#include "bench-check.h"
#include "bench.h"
#include "cro-load.h"
#include "synthetic-tables.h"

#include <glib/gstdio.h>

#define SKIPPED 77

#define COUNT "SELECT count (*) FROM recipe_line;\n"

/* The tables that a synthetic book fills; what a row refers to comes first. */
static const char *const tables[] = { "unit",  "item",        "ingredient", "supplier", "offer",
                                      "price", "preparation", "output",     "thing",    "plate",
                                      "recipe_line" };

typedef struct
{
  const char *shell;
  const char *folder;
  char       *book;
  char       *rows;        /* folder of the resolved rows */
  char       *copy;        /* the shell's database */
  char       *script;      /* that fills it */
  char       *n_lines;     /* what COUNT prints */
} Bench;

static void
remove_database (const char *path)
{
  static const char *const suffixes[] = { "", "-wal", "-shm" };

  for (gsize i = 0; i < G_N_ELEMENTS (suffixes); i++)
    {
      g_autofree char *file = g_strconcat (path, suffixes[i], NULL);

      g_unlink (file);
    }
}

/* Returns what the shell prints. */
static char *
run_shell (const Bench *bench,
           const char  *path,
           const char  *script)
{
  g_autofree char *file = g_build_filename (bench->rows, "script.sql", NULL);
  g_autofree char *read = g_strdup_printf (".read '%s'", file);
  char *argv[] = { (char *) bench->shell, "-batch", "-bail", "-init", "/dev/null",
                   (char *) path, read, NULL };
  char *printed;
  GError *error = NULL;
  int status;

  check (g_file_set_contents (file, script, -1, &error), error);
  check (g_spawn_sync (NULL, argv, NULL, 0, NULL, NULL, &printed, NULL, &status, &error), error);
  check (g_spawn_check_wait_status (status, &error), error);
  return printed;
}

static void
load (void *user_data)
{
  Bench *bench = user_data;
  g_autoptr (CroFaults) faults = cro_faults_new ();
  GError *error = NULL;

  remove_database (bench->book);
  check (cro_load (bench->book, bench->folder, "bench", "load", FALSE, NULL, NULL, faults, &error),
         error);
}

static void
import (void *user_data)
{
  Bench *bench = user_data;
  g_autofree char *n_lines = NULL;

  remove_database (bench->copy);
  n_lines = run_shell (bench, bench->copy, bench->script);
  if (!g_str_has_suffix (n_lines, bench->n_lines))
    g_error ("the shell imported other lines than the book has: %s", n_lines);
}

/* --- What the shell is given --------------------------------------------------------------------- */

static void
write_rows (Bench *bench)
{
  g_autoptr (GString) script = g_string_new (".mode csv\n");

  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    g_string_append_printf (script, ".output '%s/%s.csv'\nSELECT * FROM %s ORDER BY id;\n",
                            bench->rows, tables[i], tables[i]);
  g_free (run_shell (bench, bench->book, script->str));
}

static char *
tables_sql (const Bench *bench)
{
  g_autoptr (GString) script = g_string_new (NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    g_string_append_printf (
        script,
        "SELECT 'CREATE TABLE %1$s (' || group_concat ("
        "  c.name || ' ' || c.type || iif (c.pk, ' PRIMARY KEY', '')"
        "  || iif (c.name = 'code' AND '%1$s' = 'unit', ' UNIQUE', '')"
        "  || iif (c.\"notnull\", ' NOT NULL', '')"
        "  || iif (f.\"table\" IS NOT NULL AND (c.\"notnull\" OR c.pk),"
        "          ' REFERENCES ' || f.\"table\" || ' (' || f.\"to\" || ')', ''), ', ') || ');'"
        "  FROM pragma_table_info ('%1$s') AS c"
        "  LEFT JOIN pragma_foreign_key_list ('%1$s') AS f ON f.\"from\" = c.name;\n",
        tables[i]);
  return run_shell (bench, bench->book, script->str);
}

static char *
indexes_sql (const Bench *bench)
{
  g_autoptr (GString) script = g_string_new (NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    g_string_append_printf (script,
                            "SELECT replace (sql, 'IS NOT NULL', '<> ''''') || ';'"
                            " FROM sqlite_schema WHERE type = 'index' AND sql IS NOT NULL"
                            " AND tbl_name = '%s';\n",
                            tables[i]);
  return run_shell (bench, bench->book, script->str);
}

static char *
import_script (const Bench *bench,
               gboolean     indexes_last)
{
  g_autofree char *create_tables = tables_sql (bench);
  g_autofree char *create_indexes = indexes_sql (bench);
  GString *script = g_string_new ("PRAGMA journal_mode = WAL;\n"
                                  "PRAGMA synchronous = NORMAL;\n"
                                  "PRAGMA foreign_keys = ON;\n"
                                  "PRAGMA temp_store = MEMORY;\n"
                                  "PRAGMA cache_size = -32768;\n"
                                  "PRAGMA wal_autocheckpoint = 4000;\n");

  g_string_append_printf (script, "%s%sBEGIN;\n", create_tables,
                          indexes_last ? "" : create_indexes);
  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    g_string_append_printf (script, ".import --csv '%s/%s.csv' %s\n", bench->rows, tables[i],
                            tables[i]);
  g_string_append_printf (script, "%sCOMMIT;\n" COUNT, indexes_last ? create_indexes : "");
  return g_string_free (script, FALSE);
}

/* --- Rounds ---------------------------------------------------------------------------------------- */

static void
bench_against (Bench      *bench,
               gsize       rounds,
               gboolean    indexes_last,
               const char *beside,
               double      goal)
{
  CroBenchPair pair;

  bench->script = import_script (bench, indexes_last);
  pair = cro_bench_pair (load, import, bench, rounds, 1);
  cro_bench_row ("load, all checked", pair.ours, beside, pair.reference, pair.ratio, goal);
  g_clear_pointer (&bench->script, g_free);
}

static void
bench_size (const char *shell,
            const char *parent,
            gsize       n_lines,
            gsize       rounds)
{
  g_autofree char *folder = cro_synthetic_make_folder (parent, n_lines);
  Bench bench = { .shell = shell, .folder = folder };

  bench.rows = g_build_filename (folder, "rows", NULL);
  bench.book = g_build_filename (bench.rows, "book.croustade", NULL);
  bench.copy = g_build_filename (bench.rows, "copy.sqlite", NULL);
  if (g_mkdir (bench.rows, 0700) != 0)
    g_error ("%s cannot be made", bench.rows);
  load (&bench);
  write_rows (&bench);
  bench.n_lines = run_shell (&bench, bench.book, COUNT);

  bench_against (&bench, rounds, FALSE, ".import --csv", 0.7);
  bench_against (&bench, rounds, TRUE, ".import, then its indexes", 0);

  cro_synthetic_remove_folder (bench.rows);
  cro_synthetic_remove_folder (folder);
  g_free (bench.rows);
  g_free (bench.book);
  g_free (bench.copy);
  g_free (bench.n_lines);
}

int
main (int    argc,
      char **argv)
{
  if (argc < 2)
    {
      g_printerr ("sqlite3, the shell, is not there to compare with\n");
      return SKIPPED;
    }
  cro_bench_head ("100 thousand lines");
  bench_size (argv[1], argv[2], 100000, 7);
  cro_bench_head ("1 million lines");
  bench_size (argv[1], argv[2], 1000000, 3);
  return 0;
}
