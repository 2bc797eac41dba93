/* cro-price-plot.h: what an ingredient has cost, as a picture of steps and as a sentence. */
#pragma once

#include "cro-figures.h"
#include "cro-plot.h"

G_BEGIN_DECLS

/* history: as cro_price_history_new gives it. Packs in another currency than that of the one in
 * use are left out: no rate says what they were in it. Returns what the picture shows, as a
 * sentence; owned. */
char *cro_price_plot_set (CroPlot    *plot,
                          CroFigures *figures,
                          guint32     ingredient,
                          GArray     *history);

G_END_DECLS
