/* cro-result.h: what stands between price and food, as the house gives it: food cost %, gross profit
 * % or coefficient. Figures and targets are food-cost percentages throughout; this turns them, and
 * turns back what was typed.
 *
 * Gross profit % = 100 − food-cost %; coefficient = net price ÷ food cost = 100 ÷ food-cost %. Each
 * undoes itself. Both fall where the cost rises, so that a cost known in part, "at least", is an "at
 * most" of them.
 *
 * Units      Per cent; a coefficient is a number. */
#pragma once

#include "cro-known.h"

G_BEGIN_DECLS

/* Also back. NaN stays so, and no coefficient is of a cost of 0 or less. */
double    cro_result_of_pct   (CroSpeaks        speaks,
                               double           pct);

/* A target as it is stored, in millionths of a per cent, of one as it was typed in millionths of the
 * house's way. FALSE: it is no share above 0 % and up to 100 %. */
gboolean  cro_result_to_target (CroSpeaks       speaks,
                               gint64           typed,
                               gint64          *target);

/* How much is known of it. */
CroKnown  cro_known_of_result (CroSpeaks        speaks,
                               const CroFigure *figure);

/* A target that was probably not meant, being typed as a part of 1, or as a percentage where a
 * coefficient is asked: in *meant, as a food-cost percentage, what probably was. */
gboolean  cro_result_is_slip  (CroSpeaks        speaks,
                               double           pct,
                               double          *meant);

G_END_DECLS
