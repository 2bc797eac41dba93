/* cro-effect.h: what moves a figure beside unit costs: yields and assigned values.
 *
 * A figure is affine in the unit cost of every ingredient (cro_sweep_back), in 1 / yield of
 * every line, and in every assigned value; these are its slopes in the latter two. What feeds
 * the mass of an output by yield is not: an amount there is to be recomputed.
 *
 * Units      Book currency of the figure; of a value, per book currency per base unit. */
#pragma once

#include "cro-sweep.h"

/* slope[l] = d figure / d (1 / y) of the line at position l: its row's effect, times what it
 * brings before its yield divides it, times the unit cost of what it takes. 1 / y is a
 * fraction. slope has n_lines; lines and measures are those that were folded. */
void   cro_effect_of_yields (const CroGraph   *graph,
                             const CroLines   *lines,
                             const CroMeasure *measures,
                             const double     *unit_cost,
                             const double     *row_effect,
                             double           *slope);

/* d figure / d value of a credited by-product: who takes it pays its value, and who takes the
 * main output is credited with it. Effects are those of the nodes; amounts used, Q (1 - l), in
 * base units, that of the main output above 0 or 0 where it is not known. */
double cro_effect_of_value  (double            effect_of_by_product,
                             double            effect_of_main,
                             double            used_of_by_product,
                             double            used_of_main);
