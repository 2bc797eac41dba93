/* cro-month-output.h: what leaves the page of a month: prints, PDF files, the office's spreadsheet.
 *
 * The spreadsheet is written in a thread, which reads the book's file by itself. */
#pragma once

#include "cro-bench.h"
#include "cro-month.h"

G_BEGIN_DECLS

#define CRO_TYPE_MONTH_OUTPUT (cro_month_output_get_type ())
G_DECLARE_FINAL_TYPE (CroMonthOutput, cro_month_output, CRO, MONTH_OUTPUT, GtkWidget)

/* What is printed. */
typedef enum
{
  CRO_MONTH_PRINT_STATEMENT,
  CRO_MONTH_PRINT_WHY,
  CRO_MONTH_PRINT_MATRIX,
} CroMonthPrint;

/* The months that the page shows; *other is NULL where there is none. FALSE: nothing is shown. */
typedef gboolean (*CroMonthShown) (CroBench        *bench,
                                   const CroMonth **month,
                                   const CroMonth **other);

/* The bar of a spreadsheet that is being written, which takes no room else. bench is borrowed. */
GtkWidget *cro_month_output_new         (CroBench       *bench,
                                         CroMonthShown   shown);

void       cro_month_output_print       (CroMonthOutput *self,
                                         CroMonthPrint   what);
/* Asks where to. */
void       cro_month_output_pdf         (CroMonthOutput *self,
                                         CroMonthPrint   what);
void       cro_month_output_spreadsheet (CroMonthOutput *self);

G_END_DECLS
