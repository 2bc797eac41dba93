/* cro-till-names.h: the names of a till's export: those that the book does not know wait to be settled, each
 * as a plate, a menu, other revenue or nothing; the others can be looked at again.
 *
 * Ownership  It borrows its bench.
 * Signals    "settled": a name was settled, or is to be again. */
#pragma once

#include "cro-bench.h"
#include "cro-till.h"

G_BEGIN_DECLS

#define CRO_TYPE_TILL_NAMES (cro_till_names_get_type ())
G_DECLARE_FINAL_TYPE (CroTillNames, cro_till_names, CRO, TILL_NAMES, GtkWidget)

GtkWidget *cro_till_names_new  (CroBench      *bench);

/* Those of a till, which is borrowed until the next; NULL: none. */
void       cro_till_names_put  (CroTillNames  *self,
                                CroTill       *till);

G_END_DECLS
