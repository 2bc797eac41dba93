/* cro-trial-offers.h: what a trial offers to try, as menus: what would hold the target, and what another
 * item may take the place of. Each is of the plate on a bench that shows a trial's book. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

/* The selling price, prices below, and amounts, each with its result; chosen it is tried. */
GtkWidget *cro_hold_menu_new    (CroBench *bench);

/* What its lines take and what is bought for it; chosen it asks for the other one. */
GtkWidget *cro_replace_menu_new (CroBench *bench);

G_END_DECLS
