/* cro-lines-total.h: under the lines of a recipe, what they come to, in the column of their costs. */
#pragma once

#include <gtk/gtk.h>

#include "cro-figures.h"

G_BEGIN_DECLS

#define CRO_TYPE_LINES_TOTAL (cro_lines_total_get_type ())
G_DECLARE_FINAL_TYPE (CroLinesTotal, cro_lines_total, CRO, LINES_TOTAL, GtkWidget)

GtkWidget *cro_lines_total_new         (void);

/* total and allowance as the lines show them (cro-landing.h). */
void       cro_lines_total_set         (CroLinesTotal *self,
                                        CroFigures    *figures,
                                        guint32        recipe,
                                        gint64         total,
                                        gint64         allowance);

/* The last that is said of the sum: its food and disposables, where they are told apart. Borrowed. */
GtkWidget *cro_lines_total_get_last    (CroLinesTotal *self);

/* The lines' columns, in pixels: where names begin, how wide costs are, what stands behind them. */
void       cro_lines_total_set_columns (CroLinesTotal *self,
                                        int            name,
                                        int            cost,
                                        int            behind);

G_END_DECLS
