/* cro-pack-form.h: a new price for the pack that is selected in a table of packs.
 *
 * A price is typed as such, or as what changed: "+5 %", "-0.40". What it means is shown at once,
 * and by all figures where it begins on the book's date; Enter keeps it, Escape gives it up. */
#pragma once

#include "cro-records-view.h"

G_BEGIN_DECLS

#define CRO_TYPE_PACK_FORM (cro_pack_form_get_type ())
G_DECLARE_FINAL_TYPE (CroPackForm, cro_pack_form, CRO, PACK_FORM, GtkWidget)

/* bench and view are borrowed: the bench holds all. */
GtkWidget *cro_pack_form_new (CroBench       *bench,
                              CroRecordsView *view);

/* After the book moved, or is another one. */
void       cro_pack_form_refresh (CroPackForm *self);

G_END_DECLS
