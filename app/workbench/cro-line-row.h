/* cro-line-row.h: one line of a plate or a preparation. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_LINE_ROW (cro_line_row_get_type ())
G_DECLARE_FINAL_TYPE (CroLineRow, cro_line_row, CRO, LINE_ROW, GtkListBoxRow)

/* The size groups keep the columns of all rows in step; borrowed. Columns in printed order. */
enum
{
  CRO_LINE_AMOUNT,
  CRO_LINE_UNIT,
  CRO_LINE_BITE,
  CRO_LINE_ITEM,
  CRO_LINE_WEIGHED,
  CRO_LINE_YIELD,
  CRO_LINE_BACK,
  CRO_LINE_COST,
  CRO_LINE_SHARE,
  CRO_LINE_MORE,
  CRO_N_LINE_COLUMNS,
};

GtkWidget *cro_line_row_new      (CroBench      *bench,
                                  guint32        line,
                                  GtkSizeGroup **columns);

guint32    cro_line_row_get_line (CroLineRow    *self);

/* total: what all lines cost, for the share; bites: how many they make, 0 of a preparation. */
void       cro_line_row_refresh  (CroLineRow    *self,
                                  double         total,
                                  double         bites);

G_END_DECLS
