/* Writing: what is written reads back, and what stood there stays until all is written. */
#include "cro-table.h"

#include "cro-allergen.h"
#include "cro-column.h"
#include "cro-date.h"
#include "cro-decimal.h"
#include "cro-unit.h"

#include <glib/gstdio.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <string.h>
#include <sys/resource.h>

#include <cmocka.h>

#define N_ROWS 200

static char *folder;

/* Fields of text that a table could lose or change. */
static const char *const texts[] = {
  "plain", "with, comma", "\"quoted\"", "a\r\nb", "\n", "\r", " spaces ", "=1+1", "+1", "-1", "@a",
  "\ttab", "crème → 🦪", "\"", ",", "'", "none", "0",
};

static const char *const names[] = {
  "plain", "with, comma", "\"quoted\"", "two, lines", "=1+1", "Crème brûlée", "'", "-",
};

/* Source: RFC 4180, 2.6 and 2.7 (from memory). */
static const struct
{
  const char *says;
  const char *text;
  const char *written;
} quotings[] = {
  { "what needs no quotes has none", "aaa", "aaa" },
  { "spaces need none", " a b ", " a b " },
  { "a quote is doubled", "He said \"hi\", ok", "\"He said \"\"hi\"\", ok\"" },
  { "a comma is quoted", "b,b", "\"b,b\"" },
  { "a line end is quoted", "b\r\nbb", "\"b\r\nbb\"" },
  { "what looks like a formula is left as it is", "=1+1", "=1+1" },
};

typedef struct
{
  const CroTable *table;
  CroField        rows[N_ROWS][CRO_MAX_COLUMNS];
  guint           n_read;
} Written;

static char *
dup_path (CroTableId table)
{
  g_autofree char *file = g_strconcat (cro_table_get (table)->name, ".csv", NULL);

  return g_build_filename (folder, file, NULL);
}

static char *
dup_file (CroTableId table)
{
  g_autofree char *path = dup_path (table);
  char *text = NULL;

  g_file_get_contents (path, &text, NULL, NULL);
  return text;
}

static guint
count_files (void)
{
  g_autoptr(GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

static gint64
draw_decimal (const CroColumn *column,
              GRand           *rand)
{
  gint64 number = ((gint64) g_rand_int (rand) << 20) >> g_rand_int_range (rand, 0, 50);

  if (column->low < 0 && g_rand_boolean (rand))
    return -number;
  if (column->high != G_MAXINT64)
    number %= column->high;
  return number + 1;
}

static gint64
draw_number (const CroColumn *column,
             GRand           *rand)
{
  CroDate day = g_rand_int_range (rand, -10000, 40000);
  int year, month, of_month;

  switch (column->kind)
    {
    case CRO_FIELD_DECIMAL:
      return draw_decimal (column, rand);
    case CRO_FIELD_DATE:
      return day;
    case CRO_FIELD_MONTH:
      cro_date_to_civil (day, &year, &month, &of_month);
      return day - of_month + 1;
    case CRO_FIELD_CHOICE:
      return g_rand_int_range (rand, 0, (gint32) g_strv_length ((char **) column->choices));
    case CRO_FIELD_UNIT:
      return g_rand_int_range (rand, 0, CRO_N_UNITS);
    case CRO_FIELD_ALLERGENS:
      return g_rand_int_range (rand, 0, CRO_ALLERGENS_ALL + 1);
    default:
      return 0;
    }
}

static CroField
draw_field (const CroColumn *column,
            GRand           *rand)
{
  CroField field = { .number = column->fallback };

  if (!column->required && g_rand_boolean (rand))
    return field;
  field.is_set = TRUE;
  field.number = draw_number (column, rand);
  if (column->kind == CRO_FIELD_NAME || column->is_line)
    field.text = names[g_rand_int_range (rand, 0, G_N_ELEMENTS (names))];
  else if (column->kind == CRO_FIELD_TEXT)
    field.text = texts[g_rand_int_range (rand, 0, G_N_ELEMENTS (texts))];
  else if (column->kind == CRO_FIELD_CURRENCY)
    field.text = "EUR";
  return field;
}

static void
write_rows (CroTableId  id,
            Written    *written)
{
  g_autoptr(CroTableWriter) writer = cro_table_writer_new (folder, id, NULL);

  assert_non_null (writer);
  for (guint i = 0; i < N_ROWS; i++)
    assert_true (cro_table_writer_row (writer, written->rows[i], NULL));
  assert_true (cro_table_writer_finish (writer, NULL));
}

static gboolean
compare_row (guint           line,
             const CroField *fields,
             gboolean        sound,
             gpointer        user_data)
{
  Written *written = user_data;
  const CroField *expected = written->rows[written->n_read++];

  assert_true (sound);
  for (guint i = 0; i < written->table->n_columns; i++)
    if (fields[i].is_set != expected[i].is_set || fields[i].number != expected[i].number
        || (expected[i].text != NULL && g_strcmp0 (fields[i].text, expected[i].text) != 0))
      fail_msg ("%s.%s on line %u: \"%s\"",
                written->table->name,
                written->table->columns[i].name,
                line,
                fields[i].text);
  return TRUE;
}

static void
test_every_table_reads_back (void **state)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (1);

  for (guint id = 0; id < CRO_N_TABLES; id++)
    {
      g_autofree Written *written = g_new0 (Written, 1);
      g_autoptr(CroFaults) faults = cro_faults_new ();

      written->table = cro_table_get ((CroTableId) id);
      for (guint i = 0; i < N_ROWS; i++)
        for (guint j = 0; j < written->table->n_columns; j++)
          written->rows[i][j] = draw_field (&written->table->columns[j], rand);

      write_rows ((CroTableId) id, written);
      assert_true (
          cro_table_read (folder, (CroTableId) id, compare_row, written, faults, NULL));
      assert_int_equal (cro_faults_get_n (faults), 0);
      assert_int_equal (written->n_read, N_ROWS);
    }
  assert_int_equal (count_files (), CRO_N_TABLES);
}

static void
test_quoting (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (quotings); i++)
    {
      CroField row[CRO_N_SUPPLIERS] = {
        [CRO_SUPPLIERS_NAME] = { .is_set = TRUE, .text = "a" },
        [CRO_SUPPLIERS_CONTACT] = { .is_set = TRUE, .text = quotings[i].text },
      };
      g_autoptr(CroTableWriter) writer = cro_table_writer_new (folder, CRO_TABLE_SUPPLIERS, NULL);
      g_autofree char *expected = NULL;
      g_autofree char *file = NULL;

      assert_true (cro_table_writer_row (writer, row, NULL));
      assert_true (cro_table_writer_finish (writer, NULL));
      file = dup_file (CRO_TABLE_SUPPLIERS);
      expected = g_strdup_printf ("name,contact,quotes,minimum_order,delivery_charge,note\r\n"
                                  "a,%s,,,,\r\n", quotings[i].written);
      if (!g_str_equal (file, expected))
        fail_msg ("%s: %s", quotings[i].says, file);
    }
}

static void
test_each_kind_of_field (void **state)
{
  CroField row[CRO_N_OFFERS] = {
    [CRO_OFFERS_INGREDIENT] = { .is_set = TRUE, .text = "Oyster" },
    [CRO_OFFERS_SUPPLIER] = { .is_set = TRUE, .text = "Estuary boat" },
    [CRO_OFFERS_PACK_COUNT] = { .is_set = TRUE, .number = CRO_MICRO },
    [CRO_OFFERS_PACK_SIZE] = { .is_set = TRUE, .number = 2500000 },
    [CRO_OFFERS_PACK_UNIT] = { .is_set = TRUE, .number = CRO_UNIT_DOZEN },
    [CRO_OFFERS_CURRENCY] = { .is_set = TRUE, .text = "EUR" },
    [CRO_OFFERS_PREFERRED] = { .is_set = TRUE, .number = 0 },
    [CRO_OFFERS_UNTIL] = { .is_set = TRUE, .number = 31 },
  };
  g_autoptr(CroTableWriter) writer = cro_table_writer_new (folder, CRO_TABLE_OFFERS, NULL);
  g_autofree char *file = NULL;

  assert_true (cro_table_writer_row (writer, row, NULL));
  assert_true (cro_table_writer_finish (writer, NULL));
  file = dup_file (CRO_TABLE_OFFERS);
  assert_non_null (strstr (file, "\r\nOyster,Estuary boat,,1,2.5,dozen,,EUR,yes,1970-02-01,,\r\n"));
}

static void
test_the_old_table_stays_until_the_new_is_finished (void **state)
{
  g_autofree char *path = dup_path (CRO_TABLE_MENUS);
  guint n_files;

  assert_true (g_file_set_contents (path, "old", 3, NULL));
  n_files = count_files ();
  {
    CroField row[CRO_N_MENUS] = { { .is_set = TRUE, .text = "Tide" } };
    g_autoptr(CroTableWriter) writer = cro_table_writer_new (folder, CRO_TABLE_MENUS, NULL);
    g_autofree char *file = NULL;

    assert_true (cro_table_writer_row (writer, row, NULL));
    file = dup_file (CRO_TABLE_MENUS);
    assert_string_equal (file, "old");
  }
  {
    g_autofree char *file = dup_file (CRO_TABLE_MENUS);

    assert_string_equal (file, "old");
  }
  assert_int_equal (count_files (), n_files);
}

static gboolean
write_a_lot (GError **error)
{
  CroField row[CRO_N_MENUS] = { { .is_set = TRUE, .text = "Tide" } };
  g_autoptr(CroTableWriter) writer = cro_table_writer_new (folder, CRO_TABLE_MENUS, error);

  if (writer == NULL)
    return FALSE;
  for (int i = 0; i < 20000; i++)
    if (!cro_table_writer_row (writer, row, error))
      return FALSE;
  return cro_table_writer_finish (writer, error);
}

/* A limit on the size of files stands for a full disk: writing fails in the middle. */
static void
test_a_full_disk_leaves_the_old_table (void **state)
{
  g_autofree char *path = dup_path (CRO_TABLE_MENUS);
  g_autofree char *file = NULL;
  g_autoptr(GError) error = NULL;
  struct rlimit before, limit;
  guint n_files;
  gboolean written;

  assert_true (g_file_set_contents (path, "old", 3, NULL));
  n_files = count_files ();
  getrlimit (RLIMIT_FSIZE, &before);
  limit = before;
  limit.rlim_cur = 50000;
  signal (SIGXFSZ, SIG_IGN);
  setrlimit (RLIMIT_FSIZE, &limit);
  written = write_a_lot (&error);
  setrlimit (RLIMIT_FSIZE, &before);

  assert_false (written);
  assert_int_equal (error->domain, G_FILE_ERROR);
  assert_non_null (strstr (error->message, "menus.csv"));
  file = dup_file (CRO_TABLE_MENUS);
  assert_string_equal (file, "old");
  assert_int_equal (count_files (), n_files);
}

static void
test_an_absent_folder_is_an_error (void **state)
{
  g_autofree char *nowhere = g_build_filename (folder, "nowhere", NULL);
  g_autoptr(GError) error = NULL;

  assert_null (cro_table_writer_new (nowhere, CRO_TABLE_MENUS, &error));
  assert_true (g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOENT));
  assert_non_null (strstr (error->message, "nowhere"));
}

static int
make_folder (void **state)
{
  folder = g_dir_make_tmp ("croustade-XXXXXX", NULL);
  return folder == NULL;
}

static int
remove_folder (void **state)
{
  int result;

  for (guint i = 0; i < CRO_N_TABLES; i++)
    {
      g_autofree char *path = dup_path ((CroTableId) i);

      g_unlink (path);
    }
  result = g_rmdir (folder);
  g_free (folder);
  return result;
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_every_table_reads_back),
    cmocka_unit_test (test_quoting),
    cmocka_unit_test (test_each_kind_of_field),
    cmocka_unit_test (test_the_old_table_stays_until_the_new_is_finished),
    cmocka_unit_test (test_a_full_disk_leaves_the_old_table),
    cmocka_unit_test (test_an_absent_folder_is_an_error),
  };

  return cmocka_run_group_tests (tests, make_folder, remove_folder);
}
