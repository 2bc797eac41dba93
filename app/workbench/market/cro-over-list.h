/* cro-over-list.h: the plates and menus that went over their targets since somebody last looked at the market
 * (cro-last-look.h); where nobody did, all that are over. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_OVER_LIST (cro_over_list_get_type ())
G_DECLARE_FINAL_TYPE (CroOverList, cro_over_list, CRO, OVER_LIST, GtkWidget)

/* bench is borrowed: it holds the list. */
GtkWidget *cro_over_list_new     (CroBench    *bench);

/* Somebody looks at the book of the bench today. */
void       cro_over_list_look    (CroOverList *self);

/* As the figures are now. */
void       cro_over_list_refresh (CroOverList *self);

G_END_DECLS
