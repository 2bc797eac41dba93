/* cro-supplier-days.h: suppliers with their last list, when the next is due and what was set aside, each
 * with the ways to new prices. */
#pragma once

#include "cro-bench.h"
#include "cro-market-day.h"

G_BEGIN_DECLS

#define CRO_TYPE_SUPPLIER_DAYS (cro_supplier_days_get_type ())
G_DECLARE_FINAL_TYPE (CroSupplierDays, cro_supplier_days, CRO, SUPPLIER_DAYS, GtkWidget)

/* bench is borrowed: it holds them. */
GtkWidget *cro_supplier_days_new (CroBench           *bench);

void       cro_supplier_days_set (CroSupplierDays    *self,
                                  const CroMarketDay *day);

/* The supplier, by slot, in whose row the focus is, or at a place of the widget; CRO_NO_SLOT: none. */
guint32    cro_supplier_days_get_focused (CroSupplierDays *self);
guint32    cro_supplier_days_get_at      (CroSupplierDays *self,
                                          double           x,
                                          double           y);

G_END_DECLS
