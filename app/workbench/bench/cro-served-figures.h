/* cro-served-figures.h: the figures of what is served, said alike for a plate and for a menu. */
#pragma once

#include "cro-breakdown.h"
#include "cro-causes-view.h"
#include "cro-figure-view.h"

G_BEGIN_DECLS

/* What a guest costs; of a plate a bite too. causes are those of the figure. */
void cro_served_show_cost      (CroFigureView      *view,
                                CroModel           *model,
                                const CroFigure    *figure,
                                GArray             *causes);

/* Food cost in the price against the target, as the house gives it, in words, as a length with a tick, what is to
 * spare or over in money, and the price that would do: a percentage alone says little. menu: whose it is; NULL: the
 * thing's own. */
void cro_served_show_pct       (CroFigureView      *view,
                                CroModel           *model,
                                const CroFigure    *figure,
                                const char         *menu);

/* A figure over the numbers that give it, as it opens: what stays of the net price when the food is
 * paid, prime cost. Hidden where sum is NULL. */
void cro_served_show_sum       (CroFigureView      *view,
                                GPtrArray          *sum,
                                const char         *caption);

/* What is missing, or how old the prices are that it rests on. */
void cro_served_show_missing   (CroCausesView      *view,
                                CroFigures         *figures,
                                const CroBreakdown *breakdown);

G_END_DECLS
