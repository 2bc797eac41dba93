/* cro-variance.h: why an ingredient cost another sum than it should have.
 *
 *   price = AQ (AP - SP)      usage = (AQ - SQ) SP      their sum = AQ AP - SQ SP
 *
 * AQ and AP are what was used and what a unit of it cost, SQ and SP what recipes take and what that
 * should have cost. Above 0 is unfavourable. On what was bought the price variance stands when it
 * arises: bought (bought at - SP).
 * These are the direct materials variances of standard costing; worked examples stand in
 * test-engine-variance.c.
 *
 * Units      Quantities in base units, money of the book. NaN where SP does not exist: nothing of it
 *            was to be used. */
#pragma once

typedef struct
{
  double price;
  double usage;
} CroVariance;

CroVariance cro_variance           (double actual_quantity,
                                    double actual_cost,
                                    double standard_quantity,
                                    double standard_cost);

/* What a unit of stock costs at the weighted average of a period: of what was there at its beginning and
 * what was bought in it (IAS 2, paragraph 27). NaN where there was nothing. */
double      cro_weighted_average   (double opening_quantity,
                                    double opening_cost,
                                    double bought_quantity,
                                    double bought_cost);

double      cro_variance_on_bought (double bought_quantity,
                                    double bought_cost,
                                    double standard_quantity,
                                    double standard_cost);
