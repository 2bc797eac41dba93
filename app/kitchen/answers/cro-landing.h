/* cro-landing.h: where the cost of a batch lands: on each of its outputs, under its own rule or
 * under another.
 *
 * Units      Food and disposables in book currency for the whole of an output. */
#pragma once

#include "cro-figures.h"

G_BEGIN_DECLS

/* What each output of a preparation bears under a rule, main first, in the order of
 * cro_figures_outputs: texts of minor units that add up to the rounded cost of the batch, "–" for
 * what is not known, as the rule lacks a value or an amount. Owned, NULL-terminated. */
char  **cro_landing_dup_texts (CroFigures   *figures,
                               guint32       preparation,
                               CroRule       rule);

/* Per cents of the cost that outputs bear under a rule, of one decimal, that add up to 100; NULL
 * where one is not known, or there is no cost to share. Owned, of *n. */
double *cro_landing_dup_parts (CroFigures   *figures,
                               guint32       preparation,
                               CroRule       rule,
                               guint32      *n);

/* Food and disposables of a batch of a preparation, or of all bites of a plate. */
double  cro_landing_total     (CroFigures   *figures,
                               guint32       recipe);

G_END_DECLS
