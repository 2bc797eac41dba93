/* cro-plate-figures.h: the figures of a plate that are always in sight, and how each opens as its sum. */
#pragma once

#include "cro-bench.h"
#include "cro-breakdown.h"

G_BEGIN_DECLS

#define CRO_TYPE_PLATE_FIGURES (cro_plate_figures_get_type ())
G_DECLARE_FINAL_TYPE (CroPlateFigures, cro_plate_figures, CRO, PLATE_FIGURES, GtkWidget)

/* Of the plate on a bench. */
GtkWidget *cro_plate_figures_new       (CroBench           *bench);

/* In one row, over those of a trial, where what is missing stands once more. */
void       cro_plate_figures_set_small (CroPlateFigures    *self);

void       cro_plate_figures_show      (CroPlateFigures    *self,
                                        const CroBreakdown *breakdown);

/* The menu that the plate is held against; NULL: none carries it. */
const CroMenuPlate *cro_plate_menu     (CroBench           *bench);

/* As CroFigureSum has them; of an amuse its cost says, too, what it takes of its menu's price. */
GPtrArray *cro_plate_sum_of_guest      (CroBench           *bench);
GPtrArray *cro_plate_sum_of_pct        (CroBench           *bench);
GPtrArray *cro_plate_sum_of_prime_cost (CroBench           *bench);
GPtrArray *cro_plate_sum_of_net_price  (CroBench           *bench);

G_END_DECLS
