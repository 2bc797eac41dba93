/* cro-spreadsheet.h: a spreadsheet that somebody else made, read row by row.
 *
 * Text        delimited by comma, semicolon, tab or bar, quoted as RFC 4180 has it; in UTF-8,
 *             UTF-16 or UTF-32, with a mark or plainly without, or else Windows-1252. What divides fields is found by
 *             looking at the first rows.
 * Workbook    Office Open XML (ISO/IEC 29500-1, SpreadsheetML), transitional or strict: what the
 *             cells show that hold values; of formulas the value that was kept beside them.
 * Memory      A row, and of a workbook the texts that its cells share, CRO_SPREADSHEET_MOST_TEXTS
 *             at most. A part that unpacks to more than CRO_SPREADSHEET_MOST_PART is refused.
 * Ownership   Texts handed on live until the function returns.
 * Errors      CRO_SPREADSHEET_ERROR, G_FILE_ERROR. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Bytes. */
#define CRO_SPREADSHEET_MOST_TEXTS (128u * 1024 * 1024)
#define CRO_SPREADSHEET_MOST_PART (256u * 1024 * 1024)
#define CRO_SPREADSHEET_MOST_ROW (1024u * 1024)

/* ISO/IEC 29500 leaves these open; what common programs can hold: columns, rows, styles, and bytes of
 * 32,767 characters. */
#define CRO_SPREADSHEET_MOST_COLUMNS 16384
#define CRO_SPREADSHEET_MOST_ROWS 1048576u
#define CRO_SPREADSHEET_MOST_STYLES 65536u
#define CRO_SPREADSHEET_MOST_CELL (4 * 32767u)

/* Of an element; ISO/IEC 29500-1 knows none of more than 60. A parser compares each with all others. */
#define CRO_SPREADSHEET_MOST_ATTRIBUTES 256u

typedef enum
{
  CRO_SPREADSHEET_ERROR_OTHER_KIND, /* neither delimited text nor a workbook of Office Open XML */
  CRO_SPREADSHEET_ERROR_LOCKED,     /* with a password, or in the binary format before it */
  CRO_SPREADSHEET_ERROR_DAMAGED,
  CRO_SPREADSHEET_ERROR_TOO_LARGE,
  CRO_SPREADSHEET_ERROR_NO_SHEET,
  CRO_SPREADSHEET_ERROR_STOPPED,    /* among the files of the reader alone */
} CroSpreadsheetError;

#define CRO_SPREADSHEET_ERROR (cro_spreadsheet_error_quark ())
GQuark    cro_spreadsheet_error_quark (void);

typedef enum
{
  CRO_READ_CELL_EMPTY,
  CRO_READ_CELL_TEXT,    /* as it stands there */
  CRO_READ_CELL_NUMBER,  /* in digits with a point */
  CRO_READ_CELL_PERCENT, /* a number shown as a percentage, times 100 */
  CRO_READ_CELL_DATE,    /* YYYY-MM-DD; the time of day is left out */
  CRO_READ_CELL_ERROR,   /* of a formula, as it is written: #N/A; or, where it has no value yet, itself: =B2*1.1 */
} CroReadCellKind;

typedef struct
{
  CroReadCellKind kind;
  const char *text;   /* UTF-8; "" where it is empty */
  const char *around; /* what the format of a number shows with it, "£", "kg", "/kg"; NULL: nothing */
  gboolean    is_hidden; /* in a row or a column that is not shown, or not shown as it stands: struck out */
} CroReadCell;

/* Any of them may be NULL. */
typedef struct
{
  /* row: from 1, as the spreadsheet counts; rows without cells are left out. FALSE stops. */
  gboolean (*row)    (guint          row,
                      const CroReadCell *cells,
                      guint          n_cells,
                      gpointer       user_data);
  /* Cells shown as one, after all rows; only the first of them holds anything. Rows and columns
   * from 1 and from 0. */
  void     (*merged) (guint          first_row,
                      guint          first_column,
                      guint          last_row,
                      guint          last_column,
                      gpointer       user_data);
  /* Asked now and then, before the first row too. FALSE stops. */
  gboolean (*goes_on) (gpointer      user_data);
} CroSpreadsheetTaker;

/* The names of the sheets that can be seen, in their order; of delimited text the file's own. */
GStrv     cro_spreadsheet_list        (const char                 *path,
                                       GError                    **error);

/* FALSE with error unset: stopped. */
gboolean  cro_spreadsheet_read        (const char                 *path,
                                       guint                       sheet,
                                       const CroSpreadsheetTaker  *taker,
                                       gpointer                    user_data,
                                       GError                    **error);

/* What is text and no table, in the charsets that delimited text may be in. What is no character of them becomes
 * U+FFFD. Owned. */
char     *cro_spreadsheet_dup_text    (const char                 *bytes,
                                       gsize                       length);

G_END_DECLS
