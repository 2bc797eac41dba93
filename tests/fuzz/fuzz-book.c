/* Book files that somebody changed: their bytes, and through a connection of SQL alone their rows and
 * their schema. Whatever comes of it, opening, costing, verifying, writing out and taking back end,
 * crash nothing, and touch no other file.
 *
 * An input is a row of changes, four bytes each: what kind, and three that choose what is changed
 * and to what. */
#include "fuzz.h"

#include <glib.h>
#include <glib/gstdio.h>
#include <string.h>

#include "cro-breakdown.h"
#include "cro-check.h"
#include "cro-copy.h"
#include "cro-decimal.h"
#include "cro-dump.h"
#include "cro-left-out-words.h"
#include "cro-past.h"
#include "cro-salvage.h"
#include "cro-words.h"
#include "support/kitchen-book.h"
#include "support/kitchen-tables.h"

#define CHANGE 4
#define MOST_CHANGES 12

/* A letter is a kind of change, the signs after it say which. */
const char *const fuzz_seeds[] = {
  "v000", "u111", "d222", "s333", "b444", "n555", "c666", "w777", "x888",
  "u1a2u2b3u3c4", "d1a2d2b3d3c4d4d5", "b1a2b2b3b3c4n4d5", "s1a2s2b3", "c1a2c2b3c3c4u4d5",
  NULL,
};

/* --- A sound book, made once -------------------------------------------------------------------- */

typedef struct
{
  char  *bytes;
  gsize  length;
} Sound;

static const Sound *
sound_book (void)
{
  static Sound sound;
  CroTestFolder folder;
  CroBook *book;
  CroCell price = CRO_CELL_INT (6 * CRO_MICRO);
  GError *error = NULL;

  if (sound.bytes != NULL)
    return &sound;
  folder = cro_test_folder_new ();
  cro_test_write_tables (folder.folder, NULL, NULL);
  book = cro_test_book_load (&folder);
  if (!cro_book_set (book, "price", "plate", 1, "price_micro", &price, &error))
    g_error ("%s", error->message);
  g_object_unref (book);
  if (!g_file_get_contents (folder.path, &sound.bytes, &sound.length, &error))
    g_error ("%s", error->message);
  cro_test_folder_clear (&folder);
  return &sound;
}

/* --- Changes ------------------------------------------------------------------------------------ */

static const char *const tables[] = {
  "book", "item", "ingredient", "supplier", "offer", "price", "price_answer", "rate", "preparation", "output",
  "thing", "plate", "menu", "menu_plate", "recipe_line", "yield_test", "yield_test_part", "sale",
  "till_name", "stock_count", "purchase", "adjustment", "month", "month_row", "act", "change", "unit",
};

static const char *const values[] = {
  "NULL", "0", "-1", "1", "2", "77", "9223372036854775807", "-9223372036854775808", "1000000",
  "''", "'x'", "CAST (X'C3' AS TEXT)", "'a' || char (0) || 'b'", "char (8238) || 'gpj'",
  "'main'", "'free'", "'kg'", "'g'", "'whole'", "'EUR'", "'2026-02-30'", "'2026-02-28'", "'undo'",
  "'item\" SET name = ''hacked'' --'", "'{\"name\":\"x\"}'", "'{'", "'[]'", "'*'",
  "hex (zeroblob (3000))",
};

static const char *const schemas[] = {
  "DROP TRIGGER journal_item_UPDATE", "DROP INDEX price_by_date", "DROP TABLE change",
  "CREATE VIEW v AS WITH RECURSIVE r (x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM r) SELECT x FROM r",
  "DROP TABLE sale; CREATE VIEW sale AS WITH RECURSIVE r (id) AS (SELECT 1 UNION ALL"
  " SELECT id + 1 FROM r) SELECT id FROM r",
  "CREATE TRIGGER t AFTER INSERT ON act BEGIN DELETE FROM item; END",
  "ALTER TABLE item ADD COLUMN x TEXT", "PRAGMA user_version = 0", "PRAGMA user_version = 7",
  "PRAGMA application_id = 0", "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET rootpage = 2",
  "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = NULL WHERE name = 'item'",
  "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET rootpage = 9 WHERE name = 'item'",
  "PRAGMA journal_mode = DELETE", "PRAGMA encoding = 'UTF-16'", "VACUUM",
  "UPDATE sqlite_sequence SET seq = 9223372036854775807", "DELETE FROM sqlite_sequence",
};

#define PICK(of, byte) (of)[(byte) % G_N_ELEMENTS (of)]

/* The name of a column of the table, by number. */
static char *
column_of (sqlite3    *db,
           const char *table,
           guint       number)
{
  g_autofree char *sql = g_strdup_printf ("SELECT name FROM pragma_table_info ('%s') ORDER BY cid"
                                          " LIMIT 1 OFFSET %u %% max (1, (SELECT count(*) FROM"
                                          " pragma_table_info ('%s')))", table, number, table);
  sqlite3_stmt *stmt = NULL;
  char *name = NULL;

  if (sqlite3_prepare_v2 (db, sql, -1, &stmt, NULL) == SQLITE_OK && sqlite3_step (stmt) == SQLITE_ROW)
    name = g_strdup ((const char *) sqlite3_column_text (stmt, 0));
  sqlite3_finalize (stmt);
  return name;
}

static void
change_rows (sqlite3       *db,
             const uint8_t *change)
{
  const char *table = PICK (tables, change[1]);
  const char *value = PICK (values, change[3]);
  g_autofree char *column = column_of (db, table, change[2]);
  g_autofree char *sql = NULL;

  switch (change[0] % 4)
    {
    case 0:
      sql = g_strdup_printf ("DELETE FROM \"%s\" WHERE id %% 3 = %d", table, change[2] % 3);
      break;
    case 1:
      sql = g_strdup_printf ("UPDATE OR IGNORE \"%s\" SET \"%s\" = %s", table,
                             column != NULL ? column : "id", value);
      break;
    default:
      sql = g_strdup_printf ("UPDATE OR IGNORE \"%s\" SET \"%s\" = %s WHERE id = 1 + %d", table,
                             column != NULL ? column : "id", value, change[2] / 32);
    }
  sqlite3_exec (db, sql, NULL, NULL, NULL);
}

static int
stop_cb (void *data)
{
  return 1;
}

static void
change_by_sql (const char    *path,
               const uint8_t *change)
{
  sqlite3 *db = NULL;

  if (sqlite3_open (path, &db) == SQLITE_OK)
    {
      sqlite3_progress_handler (db, 1000000, stop_cb, NULL);
      sqlite3_exec (db, "PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON;"
                        "INSERT INTO act (label, desk, verb, first_change)"
                        " SELECT 'raw', 'fuzz', 'do', max (id) + 1 FROM change", NULL, NULL, NULL);
      if (change[0] % 8 == 7)
        sqlite3_exec (db, PICK (schemas, change[1]), NULL, NULL, NULL);
      else
        change_rows (db, change);
      if (change[2] % 16 != 0)
        sqlite3_exec (db, "UPDATE act SET at = '2026-02-16T10:00:00Z' WHERE at IS NULL", NULL, NULL,
                      NULL);
    }
  sqlite3_close (db);
}

static void
change_bytes (const char    *path,
              const uint8_t *change)
{
  g_autofree char *bytes = NULL;
  gsize length, at, n;

  if (!g_file_get_contents (path, &bytes, &length, NULL) || length == 0)
    return;
  at = (gsize) (change[1] << 8 | change[2]) * 7919 % length;
  n = MIN (length - at, (gsize) 1 << change[3] % 10);
  switch (change[0] % 4)
    {
    case 0:
      bytes[at] ^= (char) (change[3] | 1);
      break;
    case 1:
      memset (bytes + at, change[3], n);
      break;
    case 2: /* a page in the place of another */
      n = MIN (length / 4096, 200);
      if (n > 0)
        memmove (bytes + change[1] % n * 4096, bytes + change[2] % n * 4096, 4096);
      break;
    default:
      length = at;
    }
  g_file_set_contents (path, bytes, (gssize) length, NULL);
}

/* --- What is done with it ------------------------------------------------------------------------- */

static void
assert_sentence (GError *error)
{
  g_autofree char *sentence = error != NULL ? cro_words_error (error) : NULL;

  g_assert (sentence != NULL && *sentence != '\0' && g_utf8_validate (sentence, -1, NULL));
  g_clear_error (&error);
}

static void
found_cb (const char *finding,
          gpointer    user_data)
{
  g_assert (g_utf8_validate (finding, -1, NULL));
}

static void
found_in_model_cb (CroCheckKind  kind,
                   const char   *what,
                   gpointer      user_data)
{
  g_assert (what != NULL && g_utf8_validate (what, -1, NULL));
}

static void
verify (const char *path)
{
  GError *error = NULL;
  g_autoptr (CroStore) store = cro_store_open (path, NULL, CRO_STORE_INSPECT, &error);

  if (store == NULL || !cro_store_verify (store, found_cb, NULL, &error))
    assert_sentence (error);
}

static void
look_at_history (CroBook *book)
{
  GError *error = NULL;
  gint64 last;
  g_autoptr (GPtrArray) acts = cro_past_list (book, CRO_REF_NOWHERE, 0, 50, &last, &error);

  if (acts == NULL)
    {
      assert_sentence (error);
      return;
    }
  for (guint i = 0; i < acts->len; i++)
    {
      const CroPast *past = acts->pdata[i];
      GError *failed = NULL;
      g_autoptr (GPtrArray) moves = NULL;

      g_assert (g_utf8_validate (past->label, -1, NULL) && g_utf8_validate (past->desk, -1, NULL));
      moves = cro_past_list_moves (book, past->act, 50, &failed);
      if (moves == NULL)
        assert_sentence (failed);
    }
}

static void
cost (const char *path)
{
  GError *error = NULL;
  g_autoptr (CroBook) book = cro_book_open (path, NULL, CRO_STORE_READ, CRO_TEST_DAY, &error);
  CroCheckReport report = { 0 };
  g_autofree char *figures = NULL;

  if (book == NULL)
    {
      assert_sentence (error);
      return;
    }
  figures = cro_test_figures (book);
  cro_check_model (book, found_in_model_cb, NULL, &report);
  look_at_history (book);
}

static void
write_out (const char *path,
           const char *folder)
{
  GError *error = NULL;
  g_autoptr (CroStore) store = cro_store_open (path, NULL, CRO_STORE_READ, &error);

  if (store == NULL || !cro_dump (store, folder, NULL, NULL, &error))
    assert_sentence (error);
}

/* What is saved is tables whose every sentence can be read; the file stays as it is. */
static void
save (const char *path,
      const char *folder)
{
  GError *error = NULL;
  g_autofree char *before = NULL, *after = NULL;
  g_autoptr (CroSalvage) saved = NULL;
  gsize length = 0, length_after = 0;

  g_file_get_contents (path, &before, &length, NULL);
  saved = cro_salvage (path, folder, NULL, NULL, &error);
  if (saved == NULL)
    assert_sentence (error);
  for (guint i = 0; saved != NULL && i < saved->left_out->len; i++)
    {
      g_autofree char *line = cro_words_left_out (saved->left_out->pdata[i]);

      g_assert (g_utf8_validate (line, -1, NULL));
    }
  g_file_get_contents (path, &after, &length_after, NULL);
  g_assert (length == length_after && memcmp (before, after, length) == 0);
}

static void
look_for_copy (const char *path)
{
  g_autoptr (CroCopy) copy = cro_copy_find_newest (path);

  g_assert (copy == NULL || !g_str_equal (copy->path, path));
}

static void
edit (const char *path)
{
  GError *error = NULL;
  g_autoptr (CroBook) book = cro_book_open (path, "fuzz", CRO_STORE_WRITE, CRO_TEST_DAY, &error);
  CroCell price = CRO_CELL_INT (7 * CRO_MICRO);
  gboolean changed;

  if (book == NULL)
    {
      assert_sentence (error);
      return;
    }
  for (int i = 0; i < 3; i++)
    {
      error = NULL;
      if (!cro_book_undo (book, NULL, &error))
        assert_sentence (error);
    }
  error = NULL;
  if (!cro_book_redo (book, NULL, &error))
    assert_sentence (error);
  error = NULL;
  if (!cro_book_set (book, "price", "plate", 1, "price_micro", &price, &error))
    assert_sentence (error);
  error = NULL;
  if (!cro_book_refresh (book, &changed, &error))
    assert_sentence (error);
}

/* --- Nothing else is touched ------------------------------------------------------------------------ */

static void
remove_all (const char *path)
{
  g_autoptr (GDir) dir = g_dir_open (path, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *inner = g_build_filename (path, name, NULL);

      remove_all (inner);
    }
  g_remove (path);
}

static void
check_folder (const char *folder,
              const char *other)
{
  const Sound *sound = sound_book ();
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autofree char *bytes = NULL;
  const char *name;
  gsize length;

  if (!g_file_get_contents (other, &bytes, &length, NULL) || length != sound->length
      || memcmp (bytes, sound->bytes, length) != 0)
    g_error ("another book was written into");
  while ((name = g_dir_read_name (dir)) != NULL)
    if (!g_str_has_prefix (name, "a.croustade") && !g_str_has_prefix (name, "a-before-v")
        && !g_str_equal (name, "b.croustade") && !g_str_equal (name, "out"))
      g_error ("something was left: %s", name);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data,
                        size_t         size)
{
  const Sound *sound = sound_book ();
  g_autofree char *folder = g_dir_make_tmp ("fuzz-book-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "a.croustade", NULL);
  g_autofree char *other = g_build_filename (folder, "b.croustade", NULL);
  g_autofree char *out = g_build_filename (folder, "out", NULL);

  g_assert (g_file_set_contents (path, sound->bytes, (gssize) sound->length, NULL));
  g_assert (g_file_set_contents (other, sound->bytes, (gssize) sound->length, NULL));
  for (size_t i = 0; i + CHANGE <= size && i < MOST_CHANGES * CHANGE; i += CHANGE)
    if (data[i] % 16 < 4)
      change_bytes (path, data + i);
    else
      change_by_sql (path, data + i);
  verify (path);
  cost (path);
  write_out (path, out);
  remove_all (out);
  save (path, out);
  look_for_copy (path);
  edit (path);
  verify (path);
  check_folder (folder, other);
  remove_all (folder);
  return 0;
}
