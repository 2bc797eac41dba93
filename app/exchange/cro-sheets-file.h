/* cro-sheets-file.h: a spreadsheet file of plain sheets, to be printed: texts and numbers, row by
 * row, without formulas.
 *
 * Columns    letters from 'A' to 'Z'; a row's cells in any order.
 * Money      in the digits of its currency.
 * Ownership  Texts are copied.
 * Errors     CRO_WORKBOOK_ERROR_SYSTEM or G_FILE_ERROR. On failure what stood at the path stands there.
 *            What goes wrong before the end is told at the end. */
#pragma once

#include "cro-workbook.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_CELL_LOOK_PLAIN,
  CRO_CELL_LOOK_TITLE,
  CRO_CELL_LOOK_BOLD,
  CRO_CELL_LOOK_HEAD,
  CRO_CELL_LOOK_INDENT,
  CRO_CELL_LOOK_NOTE,
  CRO_CELL_LOOK_BOX,       /* to be ticked on paper */
  CRO_CELL_LOOK_NUMBER,    /* with as many decimals as it has */
  CRO_CELL_LOOK_COUNT,     /* a whole one */
  CRO_CELL_LOOK_MONEY,
  CRO_CELL_LOOK_TOTAL,     /* money under a line */
  CRO_N_CELL_LOOKS,
} CroCellLook;

typedef struct _CroSheetsFile CroSheetsFile;

/* created: seconds since 1970, so that a file made again is the same file. digits: of the currency's
 * minor unit. NULL with error. */
CroSheetsFile *cro_sheets_file_new       (const char     *path,
                                          const char     *title,
                                          gint64          created,
                                          int             digits,
                                          gboolean        is_letter,
                                          GError        **error);

/* Writes goes on in a new sheet of that name, or one near to it, at its top. */
void           cro_sheets_file_add_sheet (CroSheetsFile  *self,
                                          const char     *name);
void           cro_sheets_file_next_row  (CroSheetsFile  *self);

/* The row at hand is repeated on every printed page, and what is above it stays in sight. */
void           cro_sheets_file_mark_head (CroSheetsFile  *self);

void           cro_sheets_file_text      (CroSheetsFile  *self,
                                          char            column,
                                          CroCellLook     look,
                                          const char     *text);
/* An empty cell for NaN. */
void           cro_sheets_file_number    (CroSheetsFile  *self,
                                          char            column,
                                          CroCellLook     look,
                                          double          value);

/* Ends the file, and frees it as cro_sheets_file_free does. */
gboolean       cro_sheets_file_finish    (CroSheetsFile  *self,
                                          GError        **error);
void           cro_sheets_file_free      (CroSheetsFile  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroSheetsFile, cro_sheets_file_free)

G_END_DECLS
