/* cro-landing.h: where the cost of a batch lands: on each of its outputs, under its own rule or
 * under another.
 *
 * Units      Food and disposables in book currency for the whole of an output. */
#pragma once

#include "cro-figures.h"

G_BEGIN_DECLS

/* What each output of a preparation bears under a rule, main first, in the order of
 * cro_figures_outputs: texts of minor units that add up to the rounded cost of the batch, "–" for
 * what is not known, as the rule lacks a value or an amount (CRO_LANDING_NOWHERE). Owned, NULL-terminated. */
#define CRO_LANDING_NOWHERE "–"

char  **cro_landing_dup_texts (CroFigures   *figures,
                               guint32       preparation,
                               CroRule       rule);

/* Per cents of the cost that outputs bear under a rule, of one decimal, that add up to 100; NULL
 * where one is not known, or there is no cost to share. Owned, of *n. */
double *cro_landing_dup_parts (CroFigures   *figures,
                               guint32       preparation,
                               CroRule       rule,
                               guint32      *n);

/* Food and disposables of a base unit of an item; NaN where nothing is known. */
double  cro_item_cost_of_one  (CroFigures   *figures,
                               guint32       item);

/* What a line at a position of the graph costs; NaN where nothing is known, as it has no price or
 * cannot be converted. */
double  cro_line_cost         (CroFigures   *figures,
                               guint32       position);

/* Whether what a line takes can be charged to it. */
gboolean cro_line_is_known    (CroFigures   *figures,
                               guint32       line);

/* Minor units that the lines of a recipe bear of its rounded cost, in the graph's order, and then
 * its seasoning and handling, 0 where there is none: they add up to it, and are those of its card
 * (cro-card.h). *total: the rounded cost. Owned. */
gint64 *cro_landing_dup_lines (CroFigures   *figures,
                               guint32       recipe,
                               gint64       *total);

/* Minor units that one more line of a cost would bear behind them. */
gint64  cro_landing_of_added  (CroFigures   *figures,
                               guint32       recipe,
                               double        cost);

/* Food and disposables of a batch of a preparation, or of all bites of a plate. */
double  cro_landing_total     (CroFigures   *figures,
                               guint32       recipe);

/* Of it, what seasoning and handling adds; 0 for a preparation. */
double  cro_landing_allowance (CroFigures   *figures,
                               guint32       recipe);

G_END_DECLS
