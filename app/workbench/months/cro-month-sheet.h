/* cro-month-sheet.h: what is entered for one part of a month: what was sold, counted, bought, adjusted.
 *
 * It stands in the page of the month, in place of the row that it was opened from. What is there is
 * listed under the fields that enter more; each thing entered, changed or removed is one act. Files and
 * pasted rows go in as one act each. A closed month, or the book as it stood, is shown and not entered.
 *
 * Ownership  It borrows its bench, which holds it, and follows the bench's book when it is refreshed.
 * Signals    "done": Escape was pressed, or the button; the page takes the row's place again. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_MONTH_SHEET_SALES,        /* plates and menus */
  CRO_MONTH_SHEET_OPENING,      /* counts of the last day of the month before */
  CRO_MONTH_SHEET_PURCHASES,
  CRO_MONTH_SHEET_CLOSING,
  CRO_MONTH_SHEET_ADJUSTMENTS,
  CRO_MONTH_SHEET_REVENUE,      /* what was sold without a plate: wine, service */
  CRO_N_MONTH_SHEETS,
} CroMonthSheetKind;

#define CRO_TYPE_MONTH_SHEET (cro_month_sheet_get_type ())
G_DECLARE_FINAL_TYPE (CroMonthSheet, cro_month_sheet, CRO, MONTH_SHEET, GtkWidget)

/* month: "2026-10". */
GtkWidget  *cro_month_sheet_new           (CroBench          *bench,
                                           const char        *month,
                                           CroMonthSheetKind  which);

/* Shows what the book has now; rows that stay keep their widgets and what is typed. */
void        cro_month_sheet_refresh       (CroMonthSheet     *self);

/* The focus goes to the total that it ties to, of the till or the ledger, as F2 on its row asks; where
 * it has none, to its first field. */
void        cro_month_sheet_focus_total   (CroMonthSheet     *self);

/* Rows that stand elsewhere, in a file or pasted, as its buttons bring them. */
void        cro_month_sheet_open_file     (CroMonthSheet     *self,
                                           const char        *path);
void        cro_month_sheet_paste         (CroMonthSheet     *self,
                                           const char        *text);

G_END_DECLS
