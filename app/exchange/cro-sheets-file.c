#include "cro-sheets-file.h"

#include <math.h>
#include <string.h>

#include "cro-package-close.h"
#include "cro-sheet-name.h"
#include "cro-whole-file.h"

#define N_COLUMNS 26
#define NARROWEST 5
#define WIDEST 44

struct _CroSheetsFile
{
  CroWholeFile  *file;
  lxw_workbook  *book;
  lxw_worksheet *sheet;
  CroSheetNames *names;
  lxw_format    *looks[CRO_N_CELL_LOOKS];
  char          *money;
  char          *footer;
  gboolean       is_letter;
  gboolean       failed;
  lxw_row_t      row;
  guint          widths[N_COLUMNS];
};

/* --- Looks ----------------------------------------------------------------------------------------- */

static const struct
{
  gboolean    is_bold, is_italic, is_head, is_total, is_box;
  guint8      indent;
  double      size;
  const char *number;     /* NULL: none; "": money */
} looks[CRO_N_CELL_LOOKS] = {
  [CRO_CELL_LOOK_TITLE] = { .is_bold = TRUE, .size = 14 },
  [CRO_CELL_LOOK_BOLD] = { .is_bold = TRUE },
  [CRO_CELL_LOOK_HEAD] = { .is_bold = TRUE, .is_head = TRUE },
  [CRO_CELL_LOOK_INDENT] = { .indent = 1 },
  [CRO_CELL_LOOK_NOTE] = { .is_italic = TRUE },
  [CRO_CELL_LOOK_BOX] = { .is_box = TRUE },
  [CRO_CELL_LOOK_NUMBER] = { .number = "General" },
  [CRO_CELL_LOOK_COUNT] = { .number = "#,##0" },
  [CRO_CELL_LOOK_MONEY] = { .number = "" },
  [CRO_CELL_LOOK_TOTAL] = { .is_bold = TRUE, .is_total = TRUE, .number = "" },
};

static void
make_looks (CroSheetsFile *self)
{
  for (int i = 0; i < CRO_N_CELL_LOOKS; i++)
    {
      lxw_format *format = workbook_add_format (self->book);

      self->looks[i] = format;
      if (looks[i].is_bold)
        format_set_bold (format);
      if (looks[i].is_italic)
        format_set_italic (format);
      if (looks[i].is_head)
        format_set_bottom (format, LXW_BORDER_THIN);
      if (looks[i].is_total)
        format_set_top (format, LXW_BORDER_THIN);
      if (looks[i].is_box)
        format_set_border (format, LXW_BORDER_THIN);
      if (looks[i].indent > 0)
        format_set_indent (format, looks[i].indent);
      if (looks[i].size > 0)
        format_set_font_size (format, looks[i].size);
      if (looks[i].number != NULL)
        format_set_num_format (format, *looks[i].number != '\0' ? looks[i].number : self->money);
    }
}

static char *
money_format (int digits)
{
  char zeros[16] = "";

  for (int i = 0; i < MIN (digits, 8); i++)
    strcat (zeros, "0");
  return g_strconcat ("#,##0", digits > 0 ? "." : "", zeros, NULL);
}

/* --- Sheets ---------------------------------------------------------------------------------------- */

/* Widths and paper are written with the last row. */
static void
end_sheet (CroSheetsFile *self)
{
  if (self->sheet == NULL)
    return;
  for (guint i = 0; i < N_COLUMNS; i++)
    if (self->widths[i] > 0)
      worksheet_set_column (self->sheet, (lxw_col_t) i, (lxw_col_t) i,
                            CLAMP (self->widths[i], NARROWEST, WIDEST), NULL);
  worksheet_set_paper (self->sheet, self->is_letter ? 1 : 9);
  worksheet_set_margins (self->sheet, 0.5, 0.5, 0.6, 0.7);
  worksheet_fit_to_pages (self->sheet, 1, 0);
  worksheet_set_footer (self->sheet, self->footer);
  self->sheet = NULL;
}

void
cro_sheets_file_add_sheet (CroSheetsFile *self,
                           const char    *name)
{
  const char *taken = cro_sheet_names_take (self->names, name);
  g_autofree char *quoted = cro_sheet_name_quote (taken);

  end_sheet (self);
  self->sheet = cro_package_add_sheet (self->book, taken, quoted);
  self->failed |= self->sheet == NULL;
  self->row = 0;
  memset (self->widths, 0, sizeof self->widths);
}

void
cro_sheets_file_next_row (CroSheetsFile *self)
{
  self->row++;
}

void
cro_sheets_file_mark_head (CroSheetsFile *self)
{
  if (self->sheet == NULL)
    return;
  worksheet_freeze_panes (self->sheet, self->row + 1, 0);
  worksheet_repeat_rows (self->sheet, self->row, self->row);
}

static void
widen (CroSheetsFile *self,
       char           column,
       glong          width)
{
  guint *known = &self->widths[column - 'A'];

  *known = MAX (*known, (guint) width + 2);
}

/* A cell may send the row before it to its file. NULL is an empty cell. */
static void
write_cell (CroSheetsFile *self,
            char           column,
            CroCellLook    look,
            const char    *text,
            double         number)
{
  lxw_col_t at = (lxw_col_t) (column - 'A');
  lxw_error failed = LXW_NO_ERROR;
  locale_t before;
  locale_t plain = cro_package_enter_numbers (&before);

  if (text != NULL)
    failed = worksheet_write_string (self->sheet, self->row, at, text, self->looks[look]);
  else if (!isnan (number))
    failed = worksheet_write_number (self->sheet, self->row, at, number, self->looks[look]);
  else
    failed = worksheet_write_blank (self->sheet, self->row, at, self->looks[look]);
  self->failed |= failed != LXW_NO_ERROR;
  cro_package_leave_numbers (plain, before);
}

/* Titles and notes run over the empty cells beside them. */
void
cro_sheets_file_text (CroSheetsFile *self,
                      char           column,
                      CroCellLook    look,
                      const char    *text)
{
  if (self->sheet == NULL)
    return;
  if (look != CRO_CELL_LOOK_TITLE && look != CRO_CELL_LOOK_NOTE)
    widen (self, column, g_utf8_strlen (text, -1) + (looks[look].is_bold ? 2 : 0));
  write_cell (self, column, look, text, NAN);
}

void
cro_sheets_file_number (CroSheetsFile *self,
                        char           column,
                        CroCellLook    look,
                        double         value)
{
  if (self->sheet == NULL)
    return;
  widen (self, column, fabs (value) >= 1e6 ? 14 : fabs (value) >= 1e3 ? 10 : 7);
  write_cell (self, column, look, NULL, value);
}

/* --- The file --------------------------------------------------------------------------------------- */

/* An ampersand is doubled in a footer, which holds no more than some text. */
static char *
footer_of (const char *title)
{
  g_autofree char *head = g_utf8_substring (title, 0, MIN (g_utf8_strlen (title, -1), 60));
  g_auto (GStrv) parts = g_strsplit (head, "&", -1);
  g_autofree char *doubled = g_strjoinv ("&&", parts);

  return g_strconcat ("&L", doubled, "&R&P / &N", NULL);
}

CroSheetsFile *
cro_sheets_file_new (const char  *path,
                     const char  *title,
                     gint64       created,
                     int          digits,
                     gboolean     is_letter,
                     GError     **error)
{
  lxw_workbook_options options = { .constant_memory = LXW_TRUE };
  lxw_doc_properties properties = { .title = (char *) title, .created = (time_t) created };
  g_autoptr (CroSheetsFile) self = g_new0 (CroSheetsFile, 1);

  self->file = cro_whole_file_new (path, error);
  if (self->file == NULL)
    return NULL;
  self->names = cro_sheet_names_new ();
  self->money = money_format (digits);
  self->footer = footer_of (title);
  self->is_letter = is_letter;
  self->book = workbook_new_opt (cro_whole_file_get_path (self->file), &options);
  if (self->book == NULL)
    {
      g_set_error_literal (error, CRO_WORKBOOK_ERROR, CRO_WORKBOOK_ERROR_SYSTEM,
                           lxw_strerror (LXW_ERROR_MEMORY_MALLOC_FAILED));
      return NULL;
    }
  make_looks (self);
  workbook_set_properties (self->book, &properties);
  return g_steal_pointer (&self);
}

static gboolean
close_book (CroSheetsFile  *self,
            GError        **error)
{
  end_sheet (self);
  if (!self->failed)
    return cro_package_close (g_steal_pointer (&self->book), cro_whole_file_get_path (self->file),
                              error);
  g_set_error_literal (error, CRO_WORKBOOK_ERROR, CRO_WORKBOOK_ERROR_SYSTEM,
                       lxw_strerror (LXW_ERROR_CREATING_TMPFILE));
  return FALSE;
}

gboolean
cro_sheets_file_finish (CroSheetsFile  *self,
                        GError        **error)
{
  locale_t before;
  locale_t plain = cro_package_enter_numbers (&before);
  gboolean done = close_book (self, error) && cro_whole_file_finish (self->file, error);

  cro_package_leave_numbers (plain, before);
  cro_sheets_file_free (self);
  return done;
}

void
cro_sheets_file_free (CroSheetsFile *self)
{
  if (self->book != NULL)
    lxw_workbook_free (self->book);
  g_clear_pointer (&self->file, cro_whole_file_free);
  g_clear_pointer (&self->names, cro_sheet_names_free);
  g_free (self->money);
  g_free (self->footer);
  g_free (self);
}
