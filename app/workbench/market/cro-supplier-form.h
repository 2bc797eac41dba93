/* cro-supplier-form.h: a new supplier, and the fields of the one that is selected in a table. */
#pragma once

#include "cro-records-view.h"

G_BEGIN_DECLS

#define CRO_TYPE_SUPPLIER_FORM (cro_supplier_form_get_type ())
G_DECLARE_FINAL_TYPE (CroSupplierForm, cro_supplier_form, CRO, SUPPLIER_FORM, GtkWidget)

/* bench and view are borrowed: the bench holds all. */
GtkWidget *cro_supplier_form_new     (CroBench        *bench,
                                      CroRecordsView  *view);

/* After the book moved, or is another one. */
void       cro_supplier_form_refresh (CroSupplierForm *self);

/* To where the name of a new one is typed. */
void       cro_supplier_form_focus   (CroSupplierForm *self);

G_END_DECLS
