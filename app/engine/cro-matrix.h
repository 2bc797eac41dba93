/* cro-matrix.h: plates by how often they are sold and what one of them leaves.
 *
 * A plate is popular if it is sold at least 70 per cent of its equal share, and earns if one of it
 * leaves at least the mean of all that were sold. Neither threshold is rounded; a tie counts as "at
 * least".
 * Source: M. L. Kasavana and D. I. Smith, Menu Engineering (1982), as quoted by Dittmer and Keefe,
 * Principles of Food, Beverage, and Labor Cost Controls, 9th edition, chapter 11 (which prints
 * "greater than"), and by Kasavana, The Power of Menu Engineering ("greater than or equal to").
 *
 * Units      contribution in money of one sold: net price less food. */
#pragma once

#include <stdbool.h>
#include <stddef.h>

typedef struct
{
  double sold;          /* of one plate, from which on it is popular */
  double contribution;  /* of one sold, from which on it earns */
} CroMatrixLimits;

/* sold[i] above 0. n is above 0. */
CroMatrixLimits cro_matrix_limits     (const double          *sold,
                                       const double          *contribution,
                                       size_t                 n);

bool            cro_matrix_is_popular (const CroMatrixLimits *limits,
                                       double                 sold);
bool            cro_matrix_earns      (const CroMatrixLimits *limits,
                                       double                 contribution);
