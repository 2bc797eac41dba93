/* cro-output-row.h: one output of a batch: how much it gives, and what it is worth. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_OUTPUT_ROW (cro_output_row_get_type ())
G_DECLARE_FINAL_TYPE (CroOutputRow, cro_output_row, CRO, OUTPUT_ROW, GtkWidget)

GtkWidget *cro_output_row_new     (CroBench     *bench,
                                   guint32       item);

void       cro_output_row_refresh (CroOutputRow *self);

G_END_DECLS
