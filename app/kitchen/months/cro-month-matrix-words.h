/* cro-month-matrix-words.h: a month's matrix as tables of texts. */
#pragma once

#include "cro-month-matrix.h"
#include "cro-month-table.h"

G_BEGIN_DECLS

/* NULL: nothing was sold of its kind. A row's line is its index in matrix->rows. */
CroMonthTable *cro_month_matrix_table (CroModel             *model,
                                       const CroMonthMatrix *matrix,
                                       CroMonthThingKind     kind);

/* From where on something sells and earns, and what has no class and why; NULL: all have one. Owned. */
char          *cro_month_matrix_limits_words (CroModel             *model,
                                              const CroMonthMatrix *matrix);
char          *cro_month_matrix_left_out_words (const CroMonthMatrix *matrix);

/* What the mark of a class means; NULL: each is certain. Borrowed. */
const char    *cro_month_matrix_open_words (const CroMonthMatrix *matrix);

/* Puts the numbers of the picture's points before the names of such a table. */
void           cro_month_matrix_number (CroMonthTable        *table);

/* Whose method it is, and what it calls the four classes. Borrowed. */
const char    *cro_month_matrix_source (void);

G_END_DECLS
