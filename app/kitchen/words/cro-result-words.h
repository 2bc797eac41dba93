/* cro-result-words.h: what stands between price and food, and its target, as people read and type them
 * in the house's way (cro-result.h), in both programs.
 *
 * Ownership  Texts are the caller's to free. */
#pragma once

#include "cro-entry.h"
#include "cro-result.h"

G_BEGIN_DECLS

/* "29.4 %", "70.6 %", "3.40": with as many decimals as tell it from the target. "–" without a price,
 * and for the coefficient of what costs nothing. */
char       *cro_words_result_plain  (CroModel        *model,
                                     const CroFigure *figure);

/* The same with its mark: "at least 29.4 %", "at most 70.6 %". */
char       *cro_words_result        (CroModel        *model,
                                     const CroFigure *figure);

/* Decimals that it has. */
int         cro_result_digits       (CroModel        *model,
                                     const CroFigure *figure);

/* The target in force, "30.0 %"; "–" without one. */
char       *cro_words_target        (CroModel        *model,
                                     const CroFigure *figure);

/* A food-cost percentage that a person typed, as a target is asked back: "0.3 %". */
char       *cro_words_result_typed  (CroModel        *model,
                                     double           pct);

/* "food cost", "gross profit", "coefficient"; with an article's capital where a row begins with it.
 * Borrowed. */
const char *cro_words_result_name   (CroModel        *model);
const char *cro_words_result_title  (CroModel        *model);

/* "over target" in the house's way: gross profit and coefficient are below it then. Borrowed. */
const char *cro_words_over_target   (CroModel        *model);

/* What a field of a target is called: "Target %"; and before and behind it in a sentence: "target
 * [70] % gross profit". Borrowed. */
const char *cro_words_target_title  (CroModel        *model);
const char *cro_words_target_before (CroModel        *model);
const char *cro_words_target_behind (CroModel        *model);

/* A stored target, in millionths of a per cent, as it is typed; NULL where it is not set. */
char       *cro_words_target_text   (CroModel        *model,
                                     gint64           target);

/* Reads what was typed into the field of a target: entry->micro is as it is stored. Returns why it
 * cannot be kept; NULL: it can, or nothing was typed. */
char       *cro_words_target_read   (CroModel        *model,
                                     const char      *text,
                                     CroEntry        *entry);

G_END_DECLS
