/* cro-guest-figures.h: the figures of a plate or a menu that are always in sight, and how each opens as its
 * sum. */
#pragma once

#include "cro-bench.h"
#include "cro-breakdown.h"

G_BEGIN_DECLS

#define CRO_TYPE_GUEST_FIGURES (cro_guest_figures_get_type ())
G_DECLARE_FINAL_TYPE (CroGuestFigures, cro_guest_figures, CRO, GUEST_FIGURES, GtkWidget)

/* Of what stands on a bench. */
GtkWidget *cro_guest_figures_new       (CroBench           *bench);

/* In one row, over those of a trial, where what is missing stands once more. */
void       cro_guest_figures_set_small (CroGuestFigures    *self);

void       cro_guest_figures_show      (CroGuestFigures    *self,
                                        const CroBreakdown *breakdown);

/* The menu that the plate is held against; NULL: none carries it. */
const CroMenuPlate *cro_plate_menu     (CroBench           *bench);

/* Of a plate, as CroFigureSum has them; of an amuse its cost says, too, what it takes of its menu's price. */
GPtrArray *cro_plate_sum_of_guest      (CroBench           *bench);
GPtrArray *cro_plate_sum_of_pct        (CroBench           *bench);
GPtrArray *cro_plate_sum_of_prime_cost (CroBench           *bench);
GPtrArray *cro_plate_sum_of_net_price  (CroBench           *bench);

G_END_DECLS
