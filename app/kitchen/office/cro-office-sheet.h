/* cro-office-sheet.h: a sheet of a report (cro-workbook-report.h) while it is put together, row by row, cell
 * by cell.
 *
 * Ownership  Texts are borrowed until the workbook is written, but for those that are taken. */
#pragma once

#include "cro-known.h"
#include "cro-workbook-report.h"

G_BEGIN_DECLS

typedef struct
{
  CroWorkbookSheet  sheet;
  GArray           *columns;    /* CroWorkbookColumn */
  GArray           *looks;
  GArray           *cells;
  guint             at;         /* column of the row at hand */
  GStringChunk     *texts;
} CroOfficeSheet;

void     cro_office_sheet_init   (CroOfficeSheet       *self,
                                  const char           *name,
                                  const char           *title,
                                  const char           *about);
void     cro_office_sheet_clear  (CroOfficeSheet       *self);

/* All of them before the first row. */
void     cro_office_sheet_column (CroOfficeSheet       *self,
                                  const char           *head,
                                  CroWorkbookColumnKind kind);

/* Begins a row; cells that are not put stay empty. */
void     cro_office_sheet_row    (CroOfficeSheet       *self,
                                  CroWorkbookRowLook    look);

/* The next cell of the row. */
void     cro_office_sheet_skip   (CroOfficeSheet       *self);
void     cro_office_sheet_text   (CroOfficeSheet       *self,
                                  const char           *text);
void     cro_office_sheet_take   (CroOfficeSheet       *self,
                                  char                 *text);
void     cro_office_sheet_number (CroOfficeSheet       *self,
                                  double                value,
                                  CroKnown              known);
/* formula: kept; its # is the row. value NaN: it gives "". */
void     cro_office_sheet_formula (CroOfficeSheet      *self,
                                  const char           *formula,
                                  double                value,
                                  CroKnown              known);
/* The sum of its column from a row on, as a person counts them, up to the row before. */
void     cro_office_sheet_sum    (CroOfficeSheet       *self,
                                  guint32               first,
                                  double                value,
                                  CroKnown              known);

/* The row at hand, as a person counts them. */
guint32  cro_office_sheet_at     (const CroOfficeSheet *self);

/* Borrowed, until the next row. */
const CroWorkbookSheet *cro_office_sheet_end (CroOfficeSheet *self);

CroWorkbookKnown cro_office_known (CroKnown known);

G_END_DECLS
