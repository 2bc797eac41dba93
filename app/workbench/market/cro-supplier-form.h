/* cro-supplier-form.h: what is known of a supplier. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_SUPPLIER_FORM (cro_supplier_form_get_type ())
G_DECLARE_FINAL_TYPE (CroSupplierForm, cro_supplier_form, CRO, SUPPLIER_FORM, GtkWidget)

/* bench is borrowed: the bench holds all. */
GtkWidget *cro_supplier_form_new     (CroBench        *bench);

/* Of the supplier that stands on the bench. */
void       cro_supplier_form_show    (CroSupplierForm *self);

/* After the book moved. */
void       cro_supplier_form_refresh (CroSupplierForm *self);

G_END_DECLS
