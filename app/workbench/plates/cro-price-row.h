/* cro-price-row.h: one price of a plate or a menu, and what it leaves: a row of columns that stand
 * under their heads. */
#pragma once

#include <gtk/gtk.h>

#include "cro-figures.h"
#include "cro-price-steps.h"

G_BEGIN_DECLS

#define CRO_PRICE_COLUMNS 5

#define CRO_TYPE_PRICE_ROW (cro_price_row_get_type ())
G_DECLARE_FINAL_TYPE (CroPriceRow, cro_price_row, CRO, PRICE_ROW, GtkListBoxRow)

/* The heads over the columns; columns[CRO_PRICE_COLUMNS] keep those of one width. */
GtkWidget *cro_price_row_head_new  (GtkSizeGroup       *const *columns);

/* As the house gives its results. */
void       cro_price_row_head_set  (GtkWidget          *head,
                                    CroModel           *model);

GtkWidget *cro_price_row_new       (GtkSizeGroup       *const *columns);

void       cro_price_row_set       (CroPriceRow        *self,
                                    CroModel           *model,
                                    const CroFigure    *figure,
                                    const CroPriceStep *step);

/* Millionths, gross. */
gint64     cro_price_row_get_price (CroPriceRow        *self);

G_END_DECLS
