/* cro-price-field.h: a price below a plate as a field: what a kg, a litre or one costs as it is used, at
 * the offer in use, whose pack then costs as much more or less.
 *
 * It previews and keeps as every input; what it keeps is a price of the book's date. */
#pragma once

#include "cro-bench.h"
#include "cro-input.h"

G_BEGIN_DECLS

#define CRO_TYPE_PRICE_FIELD (cro_price_field_get_type ())
G_DECLARE_FINAL_TYPE (CroPriceField, cro_price_field, CRO, PRICE_FIELD, GtkWidget)

GtkWidget *cro_price_field_new       (CroBench      *bench);

/* An ingredient of the bench's book; unit_cost: per base unit. Not while it is edited. */
void       cro_price_field_set       (CroPriceField *self,
                                      guint32        item,
                                      double         unit_cost);

gboolean   cro_price_field_is_edited (CroPriceField *self);

G_END_DECLS
