/* cro-mover-words.h: what moves a cost, and how far it may, as people read it: limits rounded to the
 * side that keeps the target.
 *
 * Ownership  Texts are the caller's to free. */
#pragma once

#include "cro-cost-range.h"
#include "cro-item-ceiling.h"

G_BEGIN_DECLS

/* "Brown crab", "White crab, amount". */
char *cro_words_mover        (CroModel       *model,
                              const CroMover *mover);

/* "13.20/kg", "20 %", "10 g per bite"; of what stands in another recipe than thing with its name:
 * "240 g in Crab cream". */
char *cro_words_mover_value  (CroModel       *model,
                              CroRef          thing,
                              const CroMover *mover);

/* "±0.05"; "∓0.04" where more of it costs less; "≥ ±0.05", "? ±0.05" where it is known in part, "?". */
char *cro_words_mover_effect (CroModel       *model,
                              const CroMover *mover);
/* The same of many together. */
char *cro_words_moved_by     (CroModel       *model,
                              double          effect,
                              gboolean        is_turned);

/* "up to 29.34/kg · 146.72 per pack · Tide", "far off", "over even as a gift · Tide"; is_exact: the
 * figure of those too. NULL where there is none. */
char *cro_words_limit        (CroFigures     *figures,
                              const CroMover *mover,
                              const CroLimit *limit,
                              gboolean        is_exact);

/* "Can be paid: up to 29.34/kg · 146.72 per pack · Tide": the tightest of all that take an ingredient;
 * without the pack where another than offer is in use. NULL where nothing holds it. */
char *cro_words_item_ceiling (CroFigures     *figures,
                              guint32         item,
                              guint32         offer);

/* "0.79 to 0.90 in nine weeks of ten, as prices and yields were in the last year", and on what part of the
 * cost that rests where it is not on all; "No range: …" where that is less than half of it, or most prices
 * are missing. NULL where nothing moved, or nothing is bought. */
char *cro_words_cost_range   (CroModel           *model,
                              const CroFigure    *figure,
                              const CroCostRange *range);

/* Whether that is a range, rather than why there is none. */
gboolean cro_cost_range_is_told (const CroFigure    *figure,
                                 const CroCostRange *range);

G_END_DECLS
