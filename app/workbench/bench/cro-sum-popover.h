/* cro-sum-popover.h: a figure opened as its sum in words, beside the figure. */
#pragma once

#include "cro-bench.h"
#include "cro-sum.h"

G_BEGIN_DECLS

#define CRO_TYPE_SUM_POPOVER (cro_sum_popover_get_type ())
G_DECLARE_FINAL_TYPE (CroSumPopover, cro_sum_popover, CRO, SUM_POPOVER, GtkPopover)

/* parent is to remove it when it goes. */
GtkWidget         *cro_sum_popover_new  (CroBench       *bench,
                                         GtkWidget      *parent);

/* Closes it, and takes it from its parent. */
void               cro_sum_popover_remove (GtkWidget    *self);

/* Opens it at anchor, which stands in its parent; elements of sum are CroSumToken; why it is not what is shown, or
 * NULL. When it closes the focus is where it was. */
void               cro_sum_popover_show (CroSumPopover  *self,
                                         GtkWidget      *anchor,
                                         GPtrArray      *sum,
                                         const char     *why);

G_END_DECLS
