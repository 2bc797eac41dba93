/* Reading: RFC 4180, every fault at its place, and files that somebody has damaged. */
#include "cro-table.h"

#include "cro-column.h"
#include "support/n-books.h"

#include <glib/gstdio.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

#define BOM "\xEF\xBB\xBF"
#define HEADER "name,contact,quotes,note\n"
#define N_DAMAGED CRO_TEST_N_BOOKS (4000)

static char *folder;

static const char *const kinds[] = {
  [CRO_FAULT_NOT_UTF8] = "not-utf8",
  [CRO_FAULT_NOT_A_FILE] = "not-a-file",
  [CRO_FAULT_TOO_LONG] = "too-long",
  [CRO_FAULT_QUOTES] = "quotes",
  [CRO_FAULT_FIELD_COUNT] = "field-count",
  [CRO_FAULT_UNKNOWN_TABLE] = "unknown-table",
  [CRO_FAULT_UNKNOWN_COLUMN] = "unknown-column",
  [CRO_FAULT_DOUBLE_COLUMN] = "double-column",
  [CRO_FAULT_MISSING_COLUMN] = "missing-column",
  [CRO_FAULT_MISSING_VALUE] = "missing-value",
  [CRO_FAULT_NOT_A_NUMBER] = "not-a-number",
  [CRO_FAULT_TOO_MANY_PLACES] = "too-many-places",
  [CRO_FAULT_TOO_LARGE] = "too-large",
  [CRO_FAULT_OUT_OF_RANGE] = "out-of-range",
  [CRO_FAULT_NOT_A_DATE] = "not-a-date",
  [CRO_FAULT_NOT_A_MONTH] = "not-a-month",
  [CRO_FAULT_NOT_A_CHOICE] = "not-a-choice",
  [CRO_FAULT_NOT_A_UNIT] = "not-a-unit",
  [CRO_FAULT_STRAY_CHARACTER] = "stray-character",
  [CRO_FAULT_STRAY_IN_TEXT] = "stray-in-text",
  [CRO_FAULT_NOT_A_CURRENCY] = "not-a-currency",
  [CRO_FAULT_NOT_AN_ALLERGEN] = "not-an-allergen",
};

/* The texts of rows of suppliers.csv as line{field|field|field|field}, "-" for what is not set, and "!" where
 * the row is not sound. */
static const struct
{
  const char *says;
  const char *file;
  const char *rows;
} layouts[] = {
  /* Source: RFC 4180, 2, whose numbers these are; 2.6 and 2.7 from memory. */
  { "2.1: a record ends in CRLF", "name,contact,note\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n",
    "2{aaa|bbb|-|ccc}3{zzz|yyy|-|xxx}" },
  { "2.2: the last one need not", "name,contact,note\r\naaa,bbb,ccc\r\nzzz,yyy,xxx",
    "2{aaa|bbb|-|ccc}3{zzz|yyy|-|xxx}" },
  { "2.4: spaces are part of a field", "name,contact,note\r\naaa, bbb , ccc \r\n",
    "2{aaa| bbb |-| ccc }" },
  { "2.5: any field may be quoted", "\"name\",\"contact\",\"note\"\r\n\"aaa\",\"bbb\",\"ccc\"\r\n",
    "2{aaa|bbb|-|ccc}" },
  { "2.6: line ends and commas stand in quotes",
    "name,contact,note\r\n\"aaa\",\"b\r\nbb\",\"c,c\"\r\nzzz,yyy,xxx\r\n",
    "2{aaa|b\r\nbb|-|c,c}4{zzz|yyy|-|xxx}" },
  { "2.7: a quote is doubled", "name,contact,note\r\naaa,\"b\"\"bb\",\"\"\"hi\"\", ok\"\r\n",
    "2{aaa|b\"bb|-|\"hi\", ok}" },
  { "lines may end in LF", HEADER "a,,,\nb,,,\n", "2{a|-|-|-}3{b|-|-|-}" },
  { "lines may end in CR", "name,note\ra,\"x\ry\"\rb,\r", "2{a|-|-|x\ry}4{b|-|-|-}" },
  { "a byte order mark is accepted", BOM HEADER "a,b,pack,c\n", "2{a|b|pack|c}" },
  { "and one before a quoted header", BOM "\"name\"\na\n", "2{a|-|-|-}" },
  { "columns stand in any order", "note,quotes,name,contact\nc,pack,a,b\n", "2{a|b|pack|c}" },
  { "columns that are not required may be left out", "name\na\n", "2{a|-|-|-}" },
  { "blank lines are skipped and counted", "\n\r\n" HEADER "\na,,,\n\n\nb,,,\n\n",
    "5{a|-|-|-}8{b|-|-|-}" },
  { "lines are counted inside quotes", HEADER "a,,,\"\n\n\"\nb,,,\"x\r\ny\"\nc,,,\n",
    "2{a|-|-|\n\n}5{b|-|-|x\r\ny}7{c|-|-|-}" },
  { "quoted and empty is empty", HEADER "a,\"\",,\"\"\n", "2{a|-|-|-}" },
  { "names are trimmed and composed", HEADER " Cre\xCC\x80me  ,,,\n", "2{Crème|-|-|-}" },
  { "text is kept as it is", HEADER "a,\"=1+1\",, Cre\xCC\x80me \n", "2{a|=1+1|-| Cre\xCC\x80me }" },
  { "a header alone is an empty table", HEADER, "" },
  { "a row with a fault is passed on without it", HEADER "a,b,PACK,c\nb,,,\n",
    "!2{a|b|-|c}3{b|-|-|-}" },
  { "a short row is passed on as far as it goes", HEADER "a,b\n", "!2{a|b|-|-}" },
  { "so is one with a stray quote", HEADER "a,b \"c\",pack,d\nb,,,\n", "!2{a|-|-|-}3{b|-|-|-}" },
  { "what an open quote has swallowed is read again", HEADER "a,\"b,,\nb,,,\nc,\"x\",,\n",
    "!2{a|-|-|-}3{b|-|-|-}4{c|x|-|-}" },
  { "even at the end of the file", HEADER "a,\"b,,\nb,,,\nc,,,\n",
    "!2{a|-|-|-}3{b|-|-|-}4{c|-|-|-}" },
};

/* Faults as line:column:kind:value:detail. */
static const struct
{
  const char *says;
  CroTableId  table;
  const char *file;
  const char *faults;
} faults_of[] = {
  { "an unknown column", CRO_TABLE_SUPPLIERS, "name,phone\na,b\n", "1:phone:unknown-column::\n" },
  { "columns are matched exactly", CRO_TABLE_SUPPLIERS, "name, note\na,b\n",
    "1: note:unknown-column::\n" },
  { "a double column", CRO_TABLE_SUPPLIERS, "name,note,note\na,b,c\n",
    "1:note:double-column::\n" },
  { "missing columns, each", CRO_TABLE_RATES, "from,per\n2026-01-01,1\n",
    "1:currency:missing-column::\n1:rate:missing-column::\n" },
  { "an empty file has no columns", CRO_TABLE_SUPPLIERS, "", "1:name:missing-column::\n" },
  { "nor has one of blank lines", CRO_TABLE_SUPPLIERS, "\n\n", "1:name:missing-column::\n" },
  { "a header of other bytes", CRO_TABLE_SUPPLIERS, "name,n\xF6te\na,b\n",
    "1:n\uFFFDte:not-utf8:n\uFFFDte:0xF6\n" },
  { "a header with an open quote ends the file", CRO_TABLE_SUPPLIERS, "name,\"note\na,b,c\n",
    "1:-:quotes::\n" },
  { "a missing value", CRO_TABLE_SUPPLIERS, HEADER ",b,,\n", "2:name:missing-value::\n" },
  { "spaces are no name", CRO_TABLE_SUPPLIERS, HEADER "  ,b,,\n", "2:name:missing-value::\n" },
  { "too few fields", CRO_TABLE_SUPPLIERS, HEADER "a,b\n", "2:-:field-count:2:4\n" },
  { "too many, and no guess which", CRO_TABLE_SUPPLIERS, HEADER "a,b,c,d,e\n",
    "2:-:field-count:5:4\n" },
  { "a line of spaces is a row", CRO_TABLE_SUPPLIERS, HEADER "  \n", "2:-:field-count:1:4\n" },
  { "a stray quote", CRO_TABLE_SUPPLIERS, HEADER "a,b\"c,,\n", "2:contact:quotes::\n" },
  { "text behind a quote", CRO_TABLE_SUPPLIERS, HEADER "a,\"b\" ,,\n", "2:contact:quotes::\n" },
  { "an open quote at the end", CRO_TABLE_SUPPLIERS, HEADER "a,,,\"b\nc,,,\n",
    "2:note:quotes::\n" },
  { "bytes of another encoding", CRO_TABLE_SUPPLIERS, HEADER "a,,,\nCr\xE8me,,,\n",
    "3:name:not-utf8:Cr\uFFFDme:0xE8\n" },
  { "half a character", CRO_TABLE_SUPPLIERS, HEADER "a,,,\xC3\n", "2:note:not-utf8:\uFFFD:0xC3\n" },
  { "a number", CRO_TABLE_RATES, "currency,from,rate\nUSD,2026-01-01,\"0,9\"\n",
    "2:rate:not-a-number:0,9:\n" },
  { "a number with a space", CRO_TABLE_RATES, "currency,from,rate\nUSD,2026-01-01, 1\n",
    "2:rate:not-a-number: 1:\n" },
  { "too many places", CRO_TABLE_RATES, "currency,from,rate\nUSD,2026-01-01,0.1234567\n",
    "2:rate:too-many-places:0.1234567:\n" },
  { "too large", CRO_TABLE_RATES, "currency,from,rate\nUSD,2026-01-01,99999999999999\n",
    "2:rate:too-large:99999999999999:\n" },
  { "out of range", CRO_TABLE_RATES, "currency,from,rate\nUSD,2026-01-01,0\n",
    "2:rate:out-of-range:0:(0, ∞)\n" },
  { "a date", CRO_TABLE_RATES, "currency,from,rate\nUSD,1.1.2026,1\n",
    "2:from:not-a-date:1.1.2026:\n" },
  { "a month", CRO_TABLE_MONTHS, "month\n2026-13\n", "2:month:not-a-month:2026-13:\n" },
  { "a choice", CRO_TABLE_SUPPLIERS, HEADER "a,,case,\n",
    "2:quotes:not-a-choice:case:pack, base unit\n" },
  { "a unit", CRO_TABLE_COUNTS, "date,item,amount,unit\n2026-01-01,a,1,stone\n",
    "2:unit:not-a-unit:stone:\n" },
  { "a currency", CRO_TABLE_RATES, "currency,from,rate\n$,2026-01-01,1\n",
    "2:currency:not-a-currency:$:\n" },
  { "an allergen", CRO_TABLE_INGREDIENTS, "name,unit,allergens\na,g,milk dust\n",
    "2:allergens:not-an-allergen:milk dust:dust\n" },
  { "all faults of a row, and those of the next", CRO_TABLE_RATES,
    "currency,from,rate,per\nusd,,x,0\nUSD,2026-02-30,1,1\n",
    "2:currency:not-a-currency:usd:\n2:from:missing-value::\n2:rate:not-a-number:x:\n"
    "2:per:out-of-range:0:(0, ∞)\n3:from:not-a-date:2026-02-30:\n" },
  { "faults behind a line end in quotes", CRO_TABLE_SUPPLIERS,
    HEADER "a,\"x\r\ny\",,\r\nb,\"x\ny\",box,\nc,,box,\n",
    "4:quotes:not-a-choice:box:pack, base unit\n6:quotes:not-a-choice:box:pack, base unit\n" },
  { "no fault", CRO_TABLE_SUPPLIERS, HEADER "a,b,pack,d\n", "" },
};

typedef struct
{
  CroTableId  table;
  CroFaults  *faults;
  GString    *rows;
  guint       n_rows;
  guint       n_unsound;
  guint       last_line;
  guint       stop_after;
} Reading;

static char *
dup_path (CroTableId table)
{
  g_autofree char *file = g_strconcat (cro_table_get (table)->name, ".csv", NULL);

  return g_build_filename (folder, file, NULL);
}

static void
write_file (CroTableId  table,
            const char *bytes,
            gsize       length)
{
  g_autofree char *path = dup_path (table);

  assert_true (g_file_set_contents (path, bytes, (gssize) length, NULL));
}

static void
remove_file (CroTableId table)
{
  g_autofree char *path = dup_path (table);

  g_unlink (path);
}

static gboolean
note_row (guint           line,
          const CroField *fields,
          gboolean        sound,
          gpointer        user_data)
{
  Reading *reading = user_data;

  g_string_append_printf (reading->rows, "%s%u{", sound ? "" : "!", line);
  for (guint i = 0; i < CRO_N_SUPPLIERS; i++)
    {
      if (cro_table_get (CRO_TABLE_SUPPLIERS)->columns[i].kind == CRO_FIELD_DECIMAL)
        continue;
      assert_int_equal (fields[i].is_set, fields[i].text != NULL);
      g_string_append_printf (reading->rows,
                              "%s%s",
                              i > 0 ? "|" : "",
                              fields[i].is_set ? fields[i].text : "-");
    }
  g_string_append_c (reading->rows, '}');
  return ++reading->n_rows != reading->stop_after;
}

static char *
dup_faults (CroFaults *faults)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < cro_faults_get_n (faults); i++)
    {
      const CroFault *fault = cro_faults_get (faults, i);

      g_string_append_printf (text,
                              "%u:%s:%s:%s:%s\n",
                              fault->line,
                              fault->column != NULL ? fault->column : "-",
                              kinds[fault->kind],
                              fault->value != NULL ? fault->value : "",
                              fault->detail != NULL ? fault->detail : "");
    }
  return g_string_free (text, FALSE);
}

static gboolean
skip_row (guint           line,
          const CroField *fields,
          gboolean        sound,
          gpointer        user_data)
{
  return TRUE;
}

static void
test_layouts (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (layouts); i++)
    {
      g_autoptr(CroFaults) faults = cro_faults_new ();
      Reading reading = { .rows = g_string_new (NULL) };

      write_file (CRO_TABLE_SUPPLIERS, layouts[i].file, strlen (layouts[i].file));
      assert_true (cro_table_read (folder, CRO_TABLE_SUPPLIERS, note_row, &reading, faults, NULL));
      if (!g_str_equal (reading.rows->str, layouts[i].rows))
        fail_msg ("%s: %s", layouts[i].says, reading.rows->str);
      assert_int_equal (strchr (layouts[i].rows, '!') != NULL, cro_faults_get_n (faults) > 0);
      g_string_free (reading.rows, TRUE);
    }
}

static void
test_faults (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (faults_of); i++)
    {
      g_autoptr(CroFaults) faults = cro_faults_new ();
      g_autofree char *found = NULL;

      write_file (faults_of[i].table, faults_of[i].file, strlen (faults_of[i].file));
      assert_true (cro_table_read (folder, faults_of[i].table, skip_row, NULL, faults, NULL));
      found = dup_faults (faults);
      if (!g_str_equal (found, faults_of[i].faults))
        fail_msg ("%s:\n%s", faults_of[i].says, found);
      remove_file (faults_of[i].table);
    }
}

static void
test_a_nul_is_a_fault (void **state)
{
  static const char file[] = HEADER "a\0b,contact,pack,note\n";
  g_autoptr(CroFaults) faults = cro_faults_new ();
  g_autofree char *found = NULL;

  write_file (CRO_TABLE_SUPPLIERS, file, sizeof file - 1);
  assert_true (cro_table_read (folder, CRO_TABLE_SUPPLIERS, skip_row, NULL, faults, NULL));
  found = dup_faults (faults);
  assert_true (g_str_has_prefix (found, "2:name:not-utf8:a"));
  assert_true (g_str_has_suffix (found, ":0x00\n"));
  assert_int_equal (cro_faults_get_n (faults), 1);
}

static void
test_an_absent_table_is_empty (void **state)
{
  g_autoptr(CroFaults) faults = cro_faults_new ();
  g_autoptr(GError) error = NULL;
  Reading reading = { .rows = NULL };

  remove_file (CRO_TABLE_SUPPLIERS);
  assert_true (cro_table_read (folder, CRO_TABLE_SUPPLIERS, note_row, &reading, faults, &error));
  assert_int_equal (reading.n_rows, 0);
  assert_int_equal (cro_faults_get_n (faults), 0);
}

static void
test_an_absent_folder_is_an_error (void **state)
{
  g_autoptr(CroFaults) faults = cro_faults_new ();
  g_autoptr(GError) error = NULL;
  g_autofree char *nowhere = g_build_filename (folder, "nowhere", NULL);

  assert_false (cro_table_read (nowhere, CRO_TABLE_SUPPLIERS, skip_row, NULL, faults, &error));
  assert_true (g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOENT));
  assert_non_null (strstr (error->message, "suppliers.csv"));
  assert_null (strstr (error->message, "nowhere"));

  g_clear_error (&error);
  assert_false (cro_tables_check_folder (nowhere, faults, &error));
  assert_true (g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOENT));
  assert_int_equal (cro_faults_get_n (faults), 0);
}

/* Asking a pipe for its bytes would wait until somebody writes some. */
static void
test_what_is_no_file_is_a_fault (void **state)
{
  g_autofree char *path = dup_path (CRO_TABLE_MENUS);

  alarm (60);
  for (int i = 0; i < 3; i++)
    {
      g_autoptr(CroFaults) faults = cro_faults_new ();
      g_autoptr(GError) error = NULL;
      g_autofree char *found = NULL;

      assert_int_equal (i == 0   ? g_mkdir (path, 0700)
                        : i == 1 ? mkfifo (path, 0600)
                                 : symlink ("/dev/zero", path), 0);
      assert_true (cro_table_read (folder, CRO_TABLE_MENUS, skip_row, NULL, faults, &error));
      found = dup_faults (faults);
      assert_string_equal (found, "0:-:not-a-file::\n");
      g_remove (path);
    }
  alarm (0);
}

/* --- More than is read at a time ------------------------------------------------------------------ */

#define N_LONG 20000

static gboolean
compare_row (guint           line,
             const CroField *fields,
             gboolean        sound,
             gpointer        user_data)
{
  guint *n = user_data;
  g_autofree char *name = g_strdup_printf ("n%u", *n);

  assert_true (sound);
  assert_string_equal (fields[CRO_SUPPLIERS_NAME].text, name);
  assert_int_equal (line, 2 + *n * 2);
  assert_int_equal (strlen (fields[CRO_SUPPLIERS_NOTE].text), 2 + *n % 97);
  ++*n;
  return TRUE;
}

/* Rows of all lengths over two lines each, so that what is read at a time ends in the middle of
 * everything: between the two bytes that end a line, in a quote, in a name. */
static void
test_a_file_of_many_pieces (void **state)
{
  static const char *const ends[] = { "\n", "\r\n" };

  for (gsize e = 0; e < G_N_ELEMENTS (ends); e++)
    {
      GString *text = g_string_new ("name,note");
      g_autoptr(CroFaults) faults = cro_faults_new ();
      guint n = 0;

      g_string_append (text, ends[e]);
      for (guint i = 0; i < N_LONG; i++)
        {
          g_string_append_printf (text, "n%u,\"x\n", i);
          for (guint k = 0; k < i % 97; k++)
            g_string_append_c (text, 'y');
          g_string_append_printf (text, "\"%s", ends[e]);
        }
      assert_true (text->len > 4 * 256 * 1024);
      write_file (CRO_TABLE_SUPPLIERS, text->str, text->len);
      assert_true (cro_table_read (folder, CRO_TABLE_SUPPLIERS, compare_row, &n, faults, NULL));
      assert_int_equal (n, N_LONG);
      assert_int_equal (cro_faults_get_n (faults), 0);
      g_string_free (text, TRUE);
    }
}

/* A sanitizer keeps what is freed, so memory tells nothing there. */
static gsize
most_memory (void)
{
#ifdef __SANITIZE_ADDRESS__
  return 0;
#else
  struct rusage usage;

  getrusage (RUSAGE_SELF, &usage);
  return (gsize) usage.ru_maxrss * 1024;
#endif
}

/* A field that never ends is refused after a megabyte of it, quoted or not, in the header too, and
 * the rest of the file, however large, is never fetched. */
static void
test_a_row_that_is_too_long (void **state)
{
  static const struct { const char *begin, *filling, *found; } rows[] = {
    { HEADER "a,b\n\"", "x", "3:-:too-long::\n" },
    { HEADER "a,,,\nb,,,\"", "x\n", "3:-:too-long::\n" },
    { "", "name", "1:-:too-long::\n" },
    { "name,\"", "\n", "1:-:too-long::\n" },
  };
  gsize length = 64 * 1024 * 1024;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr(CroFaults) faults = cro_faults_new ();
      g_autofree char *path = dup_path (CRO_TABLE_SUPPLIERS);
      g_autofree char *found = NULL;
      FILE *file = g_fopen (path, "wb");
      gsize before;

      fputs (rows[i].begin, file);
      for (gsize n = 0; n < length; n += strlen (rows[i].filling))
        fputs (rows[i].filling, file);
      fclose (file);
      before = most_memory ();
      assert_true (cro_table_read (folder, CRO_TABLE_SUPPLIERS, skip_row, NULL, faults, NULL));
      assert_true (most_memory () - before < length / 4);
      found = dup_faults (faults);
      if (strstr (found, rows[i].found) == NULL)
        fail_msg ("%s: %.200s", rows[i].begin, found);
    }
}

static void
test_a_row_function_stops_the_reading (void **state)
{
  g_autoptr(CroFaults) faults = cro_faults_new ();
  g_autoptr(GError) error = NULL;
  Reading reading = { .rows = g_string_new (NULL), .stop_after = 2 };
  const char *file = HEADER "a,,,\nb,,,\nc,,,\n";

  write_file (CRO_TABLE_SUPPLIERS, file, strlen (file));
  assert_false (cro_table_read (folder, CRO_TABLE_SUPPLIERS, note_row, &reading, faults, &error));
  assert_null (error);
  assert_int_equal (reading.n_rows, 2);
  g_string_free (reading.rows, TRUE);
}

static void
test_files_that_are_no_table (void **state)
{
  static const char *const files[] = { "Lines.csv", "line.csv", "lines.CSV", "lines.txt", ".x.csv",
                                       "lines.csv", "README",   "csv" };
  g_autoptr(CroFaults) faults = cro_faults_new ();
  g_autofree char *inner = g_build_filename (folder, "inner", NULL);

  assert_int_equal (g_mkdir (inner, 0700), 0);
  for (gsize i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_autofree char *path = g_build_filename (inner, files[i], NULL);

      assert_true (g_file_set_contents (path, "", 0, NULL));
    }
  assert_true (cro_tables_check_folder (inner, faults, NULL));
  for (gsize i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_autofree char *path = g_build_filename (inner, files[i], NULL);

      g_unlink (path);
    }
  g_rmdir (inner);

  assert_int_equal (cro_faults_get_n (faults), 3);
  assert_string_equal (cro_faults_get (faults, 0)->file, "Lines.csv");
  assert_string_equal (cro_faults_get (faults, 1)->file, "line.csv");
  assert_string_equal (cro_faults_get (faults, 2)->file, "lines.CSV");
  assert_int_equal (cro_faults_get (faults, 0)->kind, CRO_FAULT_UNKNOWN_TABLE);
  assert_int_equal (cro_faults_get (faults, 0)->line, 0);
}

static void
test_faults_stand_by_file_and_line (void **state)
{
  g_autoptr(CroFaults) faults = cro_faults_new ();

  cro_faults_add (faults, "lines.csv", 10, "item", CRO_FAULT_UNKNOWN_NAME, "a", NULL);
  cro_faults_add (faults, "lines.csv", 9, "unit", CRO_FAULT_NOT_A_UNIT, "b", NULL);
  cro_faults_add (faults, "lines.csv", 9, "amount", CRO_FAULT_NOT_A_NUMBER, "c", NULL);
  cro_faults_add (faults, "book.csv", 11, "key", CRO_FAULT_UNKNOWN_KEY, "d", NULL);
  assert_string_equal (cro_faults_get (faults, 0)->value, "d");
  assert_string_equal (cro_faults_get (faults, 1)->value, "b");
  assert_string_equal (cro_faults_get (faults, 2)->value, "c");
  assert_string_equal (cro_faults_get (faults, 3)->value, "a");
}

/* Whatever a file holds: rows come in order, their texts are UTF-8, and a row that is not sound
 * has a fault to show for it. */
static gboolean
check_row (guint           line,
           const CroField *fields,
           gboolean        sound,
           gpointer        user_data)
{
  Reading *reading = user_data;

  assert_true (line > reading->last_line);
  reading->last_line = line;
  reading->n_rows++;
  reading->n_unsound += !sound;
  for (guint i = 0; i < cro_table_get (reading->table)->n_columns; i++)
    if (fields[i].is_set)
      assert_true (g_utf8_validate (fields[i].text, -1, NULL));
  assert_true (sound || cro_faults_get_n (reading->faults) > 0);
  return TRUE;
}

static GString *
new_sound_file (void)
{
  GString *file = g_string_new (HEADER);

  for (int i = 0; i < 12; i++)
    g_string_append_printf (file,
                            "Supplier %d,\"%d, quay\r\nsaid \"\"hi\"\"\",%s,Crème brûlée\r\n",
                            i,
                            i,
                            i % 2 ? "pack" : "");
  return file;
}

static void
damage (GString *file,
        GRand   *rand)
{
  static const char bytes[] = "\",\n\r\0\xFF\xC3 x";

  for (int n = g_rand_int_range (rand, 1, 6); n > 0; n--)
    {
      gsize at = (gsize) g_rand_int_range (rand, 0, (gint32) file->len);
      char byte = bytes[g_rand_int_range (rand, 0, sizeof bytes - 1)];

      switch (g_rand_int_range (rand, 0, 4))
        {
        case 0:
          file->str[at] = byte;
          break;
        case 1:
          file->str[at] ^= (char) (1 << g_rand_int_range (rand, 0, 8));
          break;
        case 2:
          g_string_insert_c (file, (gssize) at, byte);
          break;
        default:
          g_string_erase (file, (gssize) at, 1);
        }
    }
}

static void
test_damaged_files (void **state)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (1);
  guint n_rows = 0, n_unsound = 0;

  for (int i = 0; i < N_DAMAGED; i++)
    {
      g_autoptr(CroFaults) faults = cro_faults_new ();
      Reading reading = { .table = CRO_TABLE_SUPPLIERS, .faults = faults };
      GString *file = new_sound_file ();

      damage (file, rand);
      write_file (CRO_TABLE_SUPPLIERS, file->str, file->len);
      assert_true (cro_table_read (folder, CRO_TABLE_SUPPLIERS, check_row, &reading, faults, NULL));
      n_rows += reading.n_rows;
      n_unsound += reading.n_unsound;
      g_string_free (file, TRUE);
    }
  assert_true (n_unsound > N_DAMAGED / 4);
  assert_true (n_unsound < n_rows / 2);
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
    remove_file ((CroTableId) i);
  result = g_rmdir (folder);
  g_free (folder);
  return result;
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_layouts),
    cmocka_unit_test (test_faults),
    cmocka_unit_test (test_a_nul_is_a_fault),
    cmocka_unit_test (test_an_absent_table_is_empty),
    cmocka_unit_test (test_an_absent_folder_is_an_error),
    cmocka_unit_test (test_what_is_no_file_is_a_fault),
    cmocka_unit_test (test_a_file_of_many_pieces),
    cmocka_unit_test (test_a_row_that_is_too_long),
    cmocka_unit_test (test_a_row_function_stops_the_reading),
    cmocka_unit_test (test_files_that_are_no_table),
    cmocka_unit_test (test_faults_stand_by_file_and_line),
    cmocka_unit_test (test_damaged_files),
  };

  return cmocka_run_group_tests (tests, make_folder, remove_folder);
}
