/* Spreadsheets that others made. Workbooks are written by libxlsxwriter, a general-purpose library,
 * or part by part after ISO/IEC 29500-1 (numbers of its clauses beside the cases); delimited text
 * after RFC 4180, charsets after the Unicode and WHATWG Encoding standards. */
#include "cro-spreadsheet.h"

#include <archive.h>
#include <archive_entry.h>
#include <glib/gstdio.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <xlsxwriter.h>

#include <cmocka.h>

/* Everything that is handed on, one row a line: "1: text | #number | %percent | @date | !error | -". */
static GString *taken;
static guint stop_after;

static gboolean
take_row (guint          row,
          const CroReadCell *cells,
          guint          n_cells,
          gpointer       user_data)
{
  static const char *const marks[] = { "-", "", "#", "%", "@", "!" };

  g_string_append_printf (taken, "%u:", row);
  for (guint i = 0; i < n_cells; i++)
    g_string_append_printf (taken, "%s%s%s%s", i > 0 ? "|" : "", marks[cells[i].kind], cells[i].text,
                            cells[i].is_hidden ? " (hidden)" : "");
  g_string_append_c (taken, '\n');
  return stop_after == 0 || row < stop_after;
}

static void
take_merged (guint    first_row,
             guint    first_column,
             guint    last_row,
             guint    last_column,
             gpointer user_data)
{
  g_string_append_printf (taken, "merged %u,%u to %u,%u\n", first_row, first_column, last_row,
                          last_column);
}

/* How often it is still said to go on; -1: always. */
static int goes_on_for = -1;

static gboolean
goes_on (gpointer user_data)
{
  if (goes_on_for > 0)
    goes_on_for--;
  return goes_on_for != 0;
}

static const CroSpreadsheetTaker taker = { take_row, take_merged, goes_on };

static char *
dup_path (const char *name)
{
  g_autofree char *folder = g_dir_make_tmp ("croustade-spreadsheet-XXXXXX", NULL);

  return g_build_filename (folder, name, NULL);
}

static void
remove_path (char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);

  g_remove (path);
  g_rmdir (folder);
  g_free (path);
}

static void
assert_taken (const char *path,
              guint       sheet,
              const char *expected)
{
  g_autoptr (GError) error = NULL;

  g_string_truncate (taken, 0);
  assert_true (cro_spreadsheet_read (path, sheet, &taker, NULL, &error));
  assert_null (error);
  assert_string_equal (taken->str, expected);
}

static void
assert_refused (const char *path,
                guint       sheet,
                int         code)
{
  g_autoptr (GError) error = NULL;

  assert_false (cro_spreadsheet_read (path, sheet, &taker, NULL, &error));
  assert_true (g_error_matches (error, CRO_SPREADSHEET_ERROR, code));
}

static void
assert_text (const char *bytes,
             gsize       length,
             const char *expected)
{
  char *path = dup_path ("list.csv");

  assert_true (g_file_set_contents (path, bytes, (gssize) length, NULL));
  assert_taken (path, 0, expected);
  remove_path (path);
}

#define ASSERT_TEXT(bytes, expected) assert_text (bytes, sizeof (bytes) - 1, expected)

static void
test_delimiters (void **state)
{
  ASSERT_TEXT ("name,price\nhake,14.50\n", "1:name|price\n2:hake|14.50\n");
  ASSERT_TEXT ("name;price\r\nhake;14,50\r\n\r\ncod;9,80", "1:name|price\n2:hake|14,50\n4:cod|9,80\n");
  ASSERT_TEXT ("name\tprice\nhake\t14.50\n", "1:name|price\n2:hake|14.50\n");
  ASSERT_TEXT ("name|price\rhake|14.50\r", "1:name|price\n2:hake|14.50\n");
  /* Sentences with commas between semicolons, and a title over the table. */
  ASSERT_TEXT ("Prices, all net, of November\nname;note;price\nhake;whole, gutted;14,50\ncod;;9,8\n",
               "1:Prices, all net, of November\n2:name|note|price\n3:hake|whole, gutted|14,50\n"
               "4:cod|-|9,8\n");
  ASSERT_TEXT ("only one column\nhake\n", "1:only one column\n2:hake\n");
  ASSERT_TEXT ("", "");
}

static void
test_quotes (void **state)
{
  ASSERT_TEXT ("\"a, b\",\"say \"\"fresh\"\"\"\n\"two\nlines\",2\n",
               "1:a, b|say \"fresh\"\n2:two\nlines|2\n");
}

static void
test_charsets (void **state)
{
  ASSERT_TEXT ("\xEF\xBB\xBFr\xC3\xB4ti,1\n", "1:r\xC3\xB4ti|1\n");
  /* Beyond U+10FFFF: no text, whatever a converter lets through. */
  ASSERT_TEXT ("\xEF\xBB\xBF" "a\xF5\x86\x86\x86,1\n", "1:a????|1\n");
  ASSERT_TEXT ("r\xC3\xB4ti,1\n", "1:r\xC3\xB4ti|1\n");
  ASSERT_TEXT ("\xFF\xFEr\0\xF4\0t\0i\0;\0001\0\n\0", "1:r\xC3\xB4ti|1\n");
  ASSERT_TEXT ("\xFE\xFF\0r\0\xF4\0t\0i\0;\0001\0\n", "1:r\xC3\xB4ti|1\n");
  /* Without a mark, and of four bytes a character. */
  ASSERT_TEXT ("r\0\xF4\0t\0i\0;\0001\0\n\0", "1:r\xC3\xB4ti|1\n");
  ASSERT_TEXT ("\0r\0\xF4\0t\0i\0;\0001\0\n", "1:r\xC3\xB4ti|1\n");
  ASSERT_TEXT ("\xFF\xFE\0\0r\0\0\0\xF4\0\0\0;\0\0\0001\0\0\0", "1:r\xC3\xB4|1\n");
  ASSERT_TEXT ("\0\0\xFE\xFF\0\0\0r\0\0\0;\0\0\0001", "1:r|1\n");
  ASSERT_TEXT ("r\0\0\0\xF4\0\0\0;\0\0\0001\0\0\0", "1:r\xC3\xB4|1\n");
  ASSERT_TEXT ("\0\0\0r\0\0\0;\0\0\0001", "1:r|1\n");
  /* Windows-1252 has the euro sign at 0x80. */
  ASSERT_TEXT ("r\xF4ti;\x80 5\n", "1:r\xC3\xB4ti|\xE2\x82\xAC 5\n");
}

static void
test_long_text (void **state)
{
  g_autoptr (GString) text = g_string_new (NULL);
  char *path = dup_path ("list.csv");

  /* Characters over the ends of chunks. */
  for (guint i = 0; i < 100000; i++)
    g_string_append (text, "\xC3\xA9,\xE2\x82\xAC\n");
  assert_true (g_file_set_contents (path, text->str, (gssize) text->len, NULL));
  g_string_truncate (taken, 0);
  assert_true (cro_spreadsheet_read (path, 0, &taker, NULL, NULL));
  assert_non_null (strstr (taken->str, "\n100000:\xC3\xA9|\xE2\x82\xAC\n"));
  assert_null (strstr (taken->str, "\xEF\xBF\xBD"));

  /* A quote that is never closed. */
  g_string_assign (text, "a,\"");
  for (guint i = 0; i < 400000; i++)
    g_string_append (text, "0123456789");
  assert_true (g_file_set_contents (path, text->str, (gssize) text->len, NULL));
  assert_refused (path, 0, CRO_SPREADSHEET_ERROR_TOO_LARGE);
  remove_path (path);
}

/* A library of its own writes what is read. */
static void
test_workbook (void **state)
{
  char *path = dup_path ("list.xlsx");
  lxw_workbook *book = workbook_new (path);
  lxw_worksheet *sheet = workbook_add_worksheet (book, "Prix & colis");
  lxw_worksheet *second = workbook_add_worksheet (book, "Second");
  lxw_worksheet *hidden = workbook_add_worksheet (book, "Hidden");
  lxw_format *percent = workbook_add_format (book), *date = workbook_add_format (book);
  lxw_format *money = workbook_add_format (book);
  lxw_datetime day = { 2026, 11, 28, 0, 0, 0 };
  lxw_row_col_options unseen = { .hidden = LXW_TRUE };
  g_auto (GStrv) names = NULL;

  format_set_num_format (percent, "0.0%");
  format_set_num_format (date, "dd/mm/yyyy");
  format_set_num_format (money, "#,##0.00\\ \"dry\"");
  worksheet_merge_range (sheet, 0, 0, 1, 2, "Price list", NULL);
  worksheet_write_string (sheet, 2, 0, "name", NULL);
  worksheet_write_string (sheet, 2, 3, "r\xC3\xB4ti", NULL);
  worksheet_write_number (sheet, 3, 0, 0.1 + 0.2, NULL);
  worksheet_write_number (sheet, 3, 1, 0.625, percent);
  worksheet_write_datetime (sheet, 3, 2, &day, date);
  worksheet_write_number (sheet, 3, 3, 14.5, money);
  worksheet_write_formula_num (sheet, 5, 1, "=1+1", NULL, 2);
  worksheet_write_string (sheet, 5, 2, "9.20", NULL);
  worksheet_write_boolean (sheet, 5, 3, 1, NULL);
  worksheet_write_number (second, 0, 0, 7, NULL);
  worksheet_write_number (second, 0, 2, 8, NULL);
  worksheet_write_number (second, 1, 0, 9, NULL);
  worksheet_write_number (second, 2, 0, 10, NULL);
  worksheet_set_column_opt (second, 2, 3, 10, NULL, &unseen);
  worksheet_set_row_opt (second, 1, 15, NULL, &unseen);
  worksheet_hide (hidden);
  assert_int_equal (workbook_close (book), LXW_NO_ERROR);

  names = cro_spreadsheet_list (path, NULL);
  assert_int_equal (g_strv_length (names), 2);
  assert_string_equal (names[0], "Prix & colis");
  assert_taken (path, 0,
                "1:Price list\n3:name|-|-|r\xC3\xB4ti\n4:#0.3|%62.5|@2026-11-28|#14.5\n"
                "6:-|#2|9.20|#1\nmerged 1,0 to 2,2\n");
  assert_taken (path, 1, "1:#7|-|#8 (hidden)\n2:#9 (hidden)\n3:#10\n");
  assert_refused (path, 2, CRO_SPREADSHEET_ERROR_NO_SHEET);
  stop_after = 3;
  g_string_truncate (taken, 0);
  assert_false (cro_spreadsheet_read (path, 0, &taker, NULL, NULL));
  assert_string_equal (taken->str, "1:Price list\n3:name|-|-|r\xC3\xB4ti\n");
  stop_after = 0;
  remove_path (path);
}

typedef struct
{
  const char *name;
  const char *text;
} Part;

static void
write_package (const char *path,
               const Part *parts)
{
  struct archive *package = archive_write_new ();

  archive_write_set_format_zip (package);
  assert_int_equal (archive_write_open_filename (package, path), ARCHIVE_OK);
  for (; parts->name != NULL; parts++)
    {
      struct archive_entry *entry = archive_entry_new ();

      archive_entry_set_pathname (entry, parts->name);
      archive_entry_set_size (entry, (la_int64_t) strlen (parts->text));
      archive_entry_set_filetype (entry, AE_IFREG);
      archive_entry_set_perm (entry, 0644);
      assert_int_equal (archive_write_header (package, entry), ARCHIVE_OK);
      archive_write_data (package, parts->text, strlen (parts->text));
      archive_entry_free (entry);
    }
  assert_int_equal (archive_write_close (package), ARCHIVE_OK);
  archive_write_free (package);
}

/* A strict workbook (its name spaces are those of Annex A), its parts where nobody would look. */
#define STRICT "http://purl.oclc.org/ooxml/officeDocument/relationships/"
#define ROOT { "_rels/.rels", "<Relationships><Relationship Id='a' Type='" STRICT \
               "officeDocument' Target='/strange/Book.xml'/></Relationships>" }
#define LINKS { "strange/_rels/Book.xml.rels", \
                "<Relationships><Relationship Id='s1' Type='" STRICT \
                "worksheet' Target='../s.xml'/><Relationship Id='t' Type='" STRICT \
                "sharedStrings' Target='t.xml'/><Relationship Id='y' Type='" STRICT \
                "styles' Target='y.xml'/></Relationships>" }
#define BOOK(properties) { "STRANGE/book.xml", \
                           "<x:workbook xmlns:x='m' xmlns:r='r'>" properties \
                           "<x:sheets><x:sheet name='One' r:id='s1'/></x:sheets></x:workbook>" }
#define TEXTS(texts) { "strange/t.xml", "<sst>" texts "</sst>" }
#define STYLES { "strange/y.xml", \
                 "<styleSheet><numFmts><numFmt numFmtId='200' formatCode='[h]:mm'/>" \
                 "<numFmt numFmtId='201' formatCode='\"day\" 0'/></numFmts>" \
                 "<cellStyleXfs><xf numFmtId='9'/></cellStyleXfs>" \
                 "<cellXfs><xf numFmtId='0'/><xf numFmtId='14'/><xf numFmtId='200'/>" \
                 "<xf numFmtId='201'/></cellXfs></styleSheet>" }
#define SHEET(rows) { "s.xml", "<worksheet><sheetData>" rows "</sheetData></worksheet>" }
#define END { NULL, NULL }

static void
test_parts (void **state)
{
  char *path = dup_path ("a.xlsx");
  const Part shared[] = {
    ROOT, LINKS, BOOK (""), STYLES,
    /* Runs, how to say it (18.4.6), and a character that XML cannot hold (22.9.2.19). */
    TEXTS ("<si><t>plain</t></si><si><r><t>in </t></r><r><t>runs</t></r><rPh><t>said</t></rPh></si>"
           "<si/><si><t>a_x000A_b _x005F_x000A_</t></si>"),
    SHEET ("<row><c t='s'><v>0</v></c><c t='s'><v>1</v></c><c t='s'><v>2</v></c>"
           "<c t='s'><v>3</v></c><c t='s'><v>99</v></c></row>"
           "<row r='7'><c r='C7' t='inlineStr'><is><t>in</t></is></c><c t='e'><v>#N/A</v></c></row>"
           "<row><c t='d'><v>2026-11-28T04:00:00</v></c><c s='2'><v>1.5</v></c>"
           "<c s='3'><v>5</v></c><c s='9'><v>1E3</v></c></row>"
           /* Formulas (18.3.1.40) without a value, with an empty text, and with one. */
           "<row r='9'><c><f>A1*2</f></c><c><f>B1</f><v/></c><c t='str'><f>C1</f><v/></c><c><f>1+1</f><v>2</v></c>"
           "</row>"),
    END,
  };

  write_package (path, shared);
  assert_taken (path, 0,
                "1:plain|in runs|-|a\nb _x000A_\n7:-|-|in|!#N/A\n8:@2026-11-28|#1.5|#5|#1000\n"
                "9:!=A1*2|!=B1|-|#2\n");
  remove_path (path);
}

/* 18.17.4.1: day 1 is 1900-01-01, or of workbooks that say so day 0 is 1904-01-01; 1900 counts a
 * 29th of February. */
static void
test_days (void **state)
{
  char *path = dup_path ("a.xlsx");
  const Part from_1900[] = {
    ROOT, LINKS, BOOK (""), STYLES,
    SHEET ("<row><c s='1'><v>1</v></c><c s='1'><v>59</v></c><c s='1'><v>61</v></c>"
           "<c s='1'><v>46354.75</v></c></row>"),
    END,
  };
  const Part from_1904[] = {
    ROOT, LINKS, BOOK ("<x:workbookPr date1904='1'/>"), STYLES,
    SHEET ("<row><c s='1'><v>1</v></c><c s='1'><v>44892</v></c></row>"),
    END,
  };

  write_package (path, from_1900);
  assert_taken (path, 0, "1:@1900-01-01|@1900-02-28|@1900-03-01|@2026-11-28\n");
  write_package (path, from_1904);
  assert_taken (path, 0, "1:@1904-01-02|@2026-11-28\n");
  remove_path (path);
}

static void
test_refused (void **state)
{
  char *path = dup_path ("a.xlsx");
  g_autofree char *nothing = g_build_filename (path, "not", "there", NULL);
  g_autoptr (GError) error = NULL;
  const Part none[] = { { "word/document.xml", "<document/>" }, END };
  const Part no_sheet[] = { ROOT, LINKS, BOOK (""), END };
  const Part not_xml[] = { ROOT, LINKS, BOOK (""), SHEET ("<row><c><v>1</row>"), END };
  const Part declares[] = {
    ROOT, LINKS, BOOK (""),
    { "s.xml", "<!DOCTYPE worksheet [<!ENTITY a 'aaaa'>]><worksheet><sheetData><row><c t='str'><v>&a;"
               "</v></c></row></sheetData></worksheet>" },
    END,
  };
  const Part backwards[] = {
    ROOT, LINKS, BOOK (""), SHEET ("<row><c r='C1'><v>1</v></c><c r='A1'><v>1</v></c></row>"), END,
  };
  const Part far[] = { ROOT, LINKS, BOOK (""), SHEET ("<row><c r='XFE1'><v>1</v></c></row>"), END };
  const Part last[] = {
    ROOT, LINKS, BOOK (""),
    SHEET ("<row><c r='A1'><v>1</v></c><c r='XFD1'><v>2</v></c></row>"
           "<row><c r='A2'><v>3</v></c><c r='C2'><v>4</v></c></row>"),
    END,
  };

  write_package (path, none);
  assert_refused (path, 0, CRO_SPREADSHEET_ERROR_OTHER_KIND);
  write_package (path, no_sheet);
  assert_refused (path, 0, CRO_SPREADSHEET_ERROR_DAMAGED);
  write_package (path, not_xml);
  assert_refused (path, 0, CRO_SPREADSHEET_ERROR_DAMAGED);
  write_package (path, declares);
  assert_refused (path, 0, CRO_SPREADSHEET_ERROR_DAMAGED);
  write_package (path, backwards);
  assert_refused (path, 0, CRO_SPREADSHEET_ERROR_DAMAGED);
  write_package (path, far);
  assert_refused (path, 0, CRO_SPREADSHEET_ERROR_DAMAGED);
  /* The last column that there is, and nothing of it in the next row. */
  write_package (path, last);
  g_string_truncate (taken, 0);
  assert_true (cro_spreadsheet_read (path, 0, &taker, NULL, NULL));
  assert_true (g_str_has_prefix (taken->str, "1:#1|-|-|"));
  assert_true (g_str_has_suffix (taken->str, "|-|#2\n2:#3|-|#4\n"));

  assert_true (g_file_set_contents (path, "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1 more", 13, NULL));
  assert_refused (path, 0, CRO_SPREADSHEET_ERROR_LOCKED);
  assert_true (g_file_set_contents (path, "%PDF-1.7", 8, NULL));
  assert_refused (path, 0, CRO_SPREADSHEET_ERROR_OTHER_KIND);
  assert_true (g_file_set_contents (path, "PK\x03\x04 cut", 8, NULL));
  assert_refused (path, 0, CRO_SPREADSHEET_ERROR_DAMAGED);
  assert_null (cro_spreadsheet_list (nothing, &error));
  assert_int_equal (error->domain, G_FILE_ERROR);
  remove_path (path);
}

/* A parser would compare each of them with all others. Quotes and brackets inside of values end nothing,
 * and a comment is no element. */
static void
test_attributes (void **state)
{
  char *path = dup_path ("a.xlsx");
  GString *row = g_string_new ("<row><!-- a='' b='' --><c");
  Part many[] = { ROOT, LINKS, BOOK (""), STYLES, { "s.xml", NULL }, END };

  for (int i = 0; i < 100000; i++)
    {
      g_string_append_printf (row, " a%d='>\"%s'", i, i == 7 ? "<" + 1 : "");
      if (i == 200)
        {
          g_autofree char *few = g_strdup_printf ("<worksheet><sheetData>%s><v>1</v></c></row>"
                                                  "</sheetData></worksheet>", row->str);

          many[4].text = few;
          write_package (path, many);
          assert_taken (path, 0, "1:#1\n");
        }
    }
  g_string_prepend (row, "<worksheet><sheetData>");
  g_string_append (row, "><v>1</v></c></row></sheetData></worksheet>");
  many[4].text = row->str;
  write_package (path, many);
  assert_refused (path, 0, CRO_SPREADSHEET_ERROR_TOO_LARGE);
  g_string_free (row, TRUE);
  remove_path (path);
}

/* Whoever gives up while shared texts are read, or styles, waits for neither. */
static void
test_stopping (void **state)
{
  char *path = dup_path ("a.xlsx");
  GString *texts = g_string_new ("<sst>");
  Part parts[] = { ROOT, LINKS, BOOK (""), STYLES, { "strange/t.xml", NULL },
                   SHEET ("<row><c><v>1</v></c></row>"), END };
  int n_asked = 0;

  for (int i = 0; i < 100000; i++)
    g_string_append_printf (texts, "<si><t>text %d</t></si>", i);
  g_string_append (texts, "</sst>");
  parts[4].text = texts->str;
  write_package (path, parts);
  for (goes_on_for = 10000; n_asked == 0 || goes_on_for == 0; goes_on_for = ++n_asked)
    {
      GError *error = NULL;
      int before = goes_on_for;

      g_string_truncate (taken, 0);
      if (cro_spreadsheet_read (path, 0, &taker, NULL, &error))
        {
          assert_string_equal (taken->str, "1:#1\n");
          /* The shared texts alone are asked about again and again. */
          assert_true (before - goes_on_for > 20);
          if (before < 10000)
            break;
          continue;
        }
      assert_null (error);
      assert_string_equal (taken->str, "");
    }
  goes_on_for = -1;
  g_string_free (texts, TRUE);
  remove_path (path);
}

static int
set_up (void **state)
{
  taken = g_string_new (NULL);
  return 0;
}

static int
tear_down (void **state)
{
  g_string_free (taken, TRUE);
  return 0;
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_delimiters), cmocka_unit_test (test_quotes),
    cmocka_unit_test (test_charsets),   cmocka_unit_test (test_long_text),
    cmocka_unit_test (test_workbook),   cmocka_unit_test (test_parts),
    cmocka_unit_test (test_days),       cmocka_unit_test (test_refused),
    cmocka_unit_test (test_attributes), cmocka_unit_test (test_stopping),
  };

  return cmocka_run_group_tests (tests, set_up, tear_down);
}
