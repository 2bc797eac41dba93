/* cro-effect.h: what moves a figure beside unit costs: assigned values.
 *
 * A figure is affine in the unit cost of every ingredient (cro_sweep_back) and in every assigned
 * value; this is its slope in the latter.
 *
 * Units      Book currency of the figure; of a value, per book currency per base unit. */
#pragma once

/* d figure / d value of a credited by-product: who takes it pays its value, and who takes the
 * main output is credited with it. Effects are those of the nodes; amounts used, Q (1 - l), in
 * base units, that of the main output above 0 or 0 where it is not known. */
double cro_effect_of_value (double effect_of_by_product,
                            double effect_of_main,
                            double used_of_by_product,
                            double used_of_main);
