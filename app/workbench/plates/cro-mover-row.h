/* cro-mover-row.h: one row of what moves a cost: its name, a bar for 10 % less and more, the number
 * beside it, what it is now, and how far it may go. */
#pragma once

#include <gtk/gtk.h>

#include "cro-bench.h"
#include "cro-limits.h"

G_BEGIN_DECLS

#define CRO_TYPE_MOVER_ROW (cro_mover_row_get_type ())
G_DECLARE_FINAL_TYPE (CroMoverRow, cro_mover_row, CRO, MOVER_ROW, GtkListBoxRow)

GtkWidget *cro_mover_row_new    (CroBench       *bench);

/* largest: the effect that fills a bar; part: minor units that it makes of the cost, shown of prices
 * and values. */
void       cro_mover_row_set    (CroMoverRow    *self,
                                 CroFigures     *figures,
                                 const CroMover *mover,
                                 const CroLimit *limit,
                                 double          largest,
                                 gint64          part);

/* Shows the figure of what is far off, or over as a gift, or hides it again. FALSE: it has none. */
gboolean   cro_mover_row_toggle (CroMoverRow    *self,
                                 CroFigures     *figures);

/* In a trial a price is a field: whether something is typed in it. A row where that is so must go on
 * showing the same. */
gboolean   cro_mover_row_is_edited (CroMoverRow *self);
gboolean   cro_mover_row_shows  (CroMoverRow    *self,
                                 const CroMover *mover);

/* Where what it is of is to be changed. */
CroRef     cro_mover_row_get_ref (CroMoverRow   *self);

G_END_DECLS
