/* Spreadsheets that others made. The first byte says what the rest is: a file as it is; or, packed as
 * a workbook is, its one sheet, or the texts that cells share. */
#include "fuzz.h"

#include <archive.h>
#include <archive_entry.h>
#include <glib.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

#include "cro-spreadsheet.h"

#define TYPE "http://schemas.openxmlformats.org/officeDocument/2006/relationships/"

const char *const fuzz_seeds[] = {
  "0name;price\nhake;14,50\n", "0a,\"b\"\"c\",d\r\n\r\n1,2,3\n", "0a\tb\n1\t2\n",
  "0r\xF4ti;\x80 5\n", "0\xEF\xBB\xBF" "a,b\n",
  "0PK\x05\x06\x00\x00\x00\x00",
  "1<worksheet><sheetData><row r='2'><c r='B2' s='1'><v>46354.5</v></c><c t='s'><v>1</v></c></row>"
  "<row><c t='inlineStr'><is><r><t>a</t></r><rPh><t>b</t></rPh></is></c><c t='e'><v>#N/A</v></c>"
  "</row></sheetData><mergeCells><mergeCell ref='A1:C3'/></mergeCells></worksheet>",
  "2<sst><si><t>a_x000A_</t></si><si><r><t>b</t></r><rPh><t>c</t></rPh></si><si/></sst>",
  NULL,
};

static void
add_part (struct archive *package,
          const char     *name,
          const char     *text,
          size_t          length)
{
  struct archive_entry *entry = archive_entry_new ();

  archive_entry_set_pathname (entry, name);
  archive_entry_set_size (entry, (la_int64_t) length);
  archive_entry_set_filetype (entry, AE_IFREG);
  archive_write_header (package, entry);
  archive_write_data (package, text, length);
  archive_entry_free (entry);
}

static void
write_workbook (const char *path,
                gboolean    is_sheet,
                const char *text,
                size_t      length)
{
  static const char links[] = "<Relationships><Relationship Id='a' Type='" TYPE
    "officeDocument' Target='b.xml'/></Relationships>";
  static const char parts[] = "<Relationships><Relationship Id='s' Type='" TYPE
    "worksheet' Target='s.xml'/><Relationship Id='t' Type='" TYPE
    "sharedStrings' Target='t.xml'/><Relationship Id='y' Type='" TYPE
    "styles' Target='y.xml'/></Relationships>";
  static const char book[] = "<workbook><sheets><sheet name='One' id='s'/></sheets></workbook>";
  static const char styles[] = "<s><cellXfs><xf numFmtId='0'/><xf numFmtId='14'/></cellXfs></s>";
  static const char sheet[] = "<w><row><c t='s'><v>0</v></c><c t='s'><v>1</v></c></row></w>";
  static const char texts[] = "<sst><si><t>one</t></si><si><t>two</t></si></sst>";
  struct archive *package = archive_write_new ();

  archive_write_set_format_zip (package);
  g_assert (archive_write_open_filename (package, path) == ARCHIVE_OK);
  add_part (package, "_rels/.rels", links, sizeof links - 1);
  add_part (package, "_rels/b.xml.rels", parts, sizeof parts - 1);
  add_part (package, "b.xml", book, sizeof book - 1);
  add_part (package, "y.xml", styles, sizeof styles - 1);
  add_part (package, "s.xml", is_sheet ? text : sheet, is_sheet ? length : sizeof sheet - 1);
  add_part (package, "t.xml", is_sheet ? texts : text, is_sheet ? sizeof texts - 1 : length);
  archive_write_close (package);
  archive_write_free (package);
}

static guint last_row;

static gboolean
take_row (guint          row,
          const CroReadCell *cells,
          guint          n_cells,
          gpointer       user_data)
{
  g_assert (row > last_row);
  last_row = row;
  for (guint i = 0; i < n_cells; i++)
    {
      g_assert (g_utf8_validate (cells[i].text, -1, NULL));
      g_assert ((cells[i].kind == CRO_READ_CELL_EMPTY) == (*cells[i].text == '\0'));
    }
  return TRUE;
}

int
LLVMFuzzerTestOneInput (const uint8_t *data,
                        size_t         size)
{
  static const CroSpreadsheetTaker taker = { .row = take_row };
  g_autofree char *path = NULL;
  g_autoptr (GError) error = NULL;
  const char *text = (const char *) data + 1;
  int file;

  if (size < 1)
    return 0;
  file = g_file_open_tmp ("croustade-fuzz-XXXXXX", &path, NULL);
  g_assert (file >= 0);
  close (file);
  if (data[0] == '1' || data[0] == '2')
    write_workbook (path, data[0] == '1', text, size - 1);
  else
    g_assert (g_file_set_contents (path, text, (gssize) size - 1, NULL));
  last_row = 0;
  g_assert (cro_spreadsheet_read (path, 0, &taker, NULL, &error) == (error == NULL));
  g_unlink (path);
  return 0;
}
