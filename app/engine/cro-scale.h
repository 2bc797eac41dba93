/* cro-scale.h: amounts as kitchen scales weigh them.
 *
 * To the whole gram (or millilitre), below five to a quarter of one, half away from zero. What a
 * scale of that kind would show as 0 is there all the same: it keeps two digits, for a finer one.
 *
 * Source     Common practice, no source: kitchen scales divide by 1 g, fine ones by 0.1 g or less;
 *            a quarter of a gram is what a pinch can be told apart by. */
#pragma once

/* grams: 0 or more. */
double cro_scale_round      (double grams);

/* What goes to one bite, which is weighed many times over: quarters up to ten, so that a batch is its
 * bites wherever a bite is quarters. */
double cro_scale_round_bite (double grams);
