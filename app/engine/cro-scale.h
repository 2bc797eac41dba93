/* cro-scale.h: amounts as kitchen scales weigh them.
 *
 * To the whole gram (or millilitre) from 25 on, to a tenth from 2.5, to a hundredth from a quarter of one, and so on
 * down, half away from zero: never more than 2 % from what it is, as gels and curing salts are weighed finely.
 *
 * Source     Common practice, no source: kitchen scales divide by 1 g, fine ones by 0.1 g, those for gels and curing
 *            salts by 0.01 g or less. */
#pragma once

/* grams: 0 or more. */
double cro_scale_round      (double grams);

/* What goes to one bite, which is weighed many times over: quarters below ten stay quarters, so that a batch is its
 * bites. */
double cro_scale_round_bite (double grams);
