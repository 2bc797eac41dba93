/* cro-rate-form.h: an exchange rate: that of the row selected in a table, changed, removed, or
 * entered for another day. */
#pragma once

#include "cro-records-view.h"

G_BEGIN_DECLS

#define CRO_TYPE_RATE_FORM (cro_rate_form_get_type ())
G_DECLARE_FINAL_TYPE (CroRateForm, cro_rate_form, CRO, RATE_FORM, GtkWidget)

/* bench and view are borrowed: the bench holds all. */
GtkWidget *cro_rate_form_new (CroBench       *bench,
                              CroRecordsView *view);

/* After the book moved, or is another one. */
void       cro_rate_form_refresh (CroRateForm   *self);

/* Asks for the rate of a currency that has none yet. */
void       cro_rate_form_ask (CroRateForm    *self,
                              const char     *currency);

G_END_DECLS
