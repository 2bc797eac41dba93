/* cro-bring-columns.h: the columns of a sheet that is brought, each with a choice of what it holds.
 *
 * Signals    "chosen": a column holds something else, which the sheet knows already. */
#pragma once

#include <gtk/gtk.h>

#include "cro-brought.h"

G_BEGIN_DECLS

#define CRO_TYPE_BRING_COLUMNS (cro_bring_columns_get_type ())
G_DECLARE_FINAL_TYPE (CroBringColumns, cro_bring_columns, CRO, BRING_COLUMNS, GtkWidget)

/* Those of a sheet, which is borrowed until there is another; NULL: none. roles: what can be chosen, the first of
 * them CRO_ROLE_NONE; they stay. */
void cro_bring_columns_set (CroBringColumns *self,
                            CroBrought      *brought,
                            const CroRole   *roles,
                            guint            n_roles);

G_END_DECLS
