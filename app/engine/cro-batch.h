/* cro-batch.h: how a batch's cost is shared among its outputs.
 *
 * The unit cost of every output is affine in the batch's cost C: u = share C + fixed. That is
 * all the sweeps need to know of a rule.
 *
 *   free     by-products 0; main C / (Q0 (1 - l0))
 *   weight   C g / sum (g Q) / (1 - l)
 *   value    C v / sum (v Q) / (1 - l)
 *   credit   by-product its assigned value v; main (C - sum (v Q (1 - l))) / (Q0 (1 - l0))
 *
 * The lost part l of an output is thrown away as a rule before it is used: shares are taken on
 * the finished amount Q, and what is used, Q (1 - l), bears the cost of what is lost. Under every
 * rule sum (Q (1 - l) u) = C.
 *
 * Disposables and labour have the same shares and no fixed part: under free and credit the
 * main output bears them. (IAS 2 paragraph 14: a rational and consistent basis.)
 *
 * Units      Finished amounts Q in the output's base unit; value in book currency per base
 *            unit.
 * Ownership  Every array is the caller's.
 * Errors     An output that lacks what its rule needs has neither share nor cost; status says
 *            so and the batch goes on. */
#pragma once

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "cro-line.h"

typedef enum
{
  CRO_RULE_FREE,
  CRO_RULE_WEIGHT,
  CRO_RULE_VALUE,
  CRO_RULE_CREDIT,
} CroRule;

typedef enum
{
  CRO_OUTPUT_SOUND = 0,
  CRO_OUTPUT_LACKS_DENSITY = CRO_LACKS_DENSITY,
  CRO_OUTPUT_LACKS_PIECE = CRO_LACKS_PIECE,
  CRO_OUTPUT_LACKS_AMOUNT = 1 << 2,
  CRO_OUTPUT_LACKS_VALUE = 1 << 3,
} CroOutputLack;

typedef struct
{
  /* in */
  CroUnit  unit;          /* in which amount and value are written */
  bool     has_value;
  int64_t  amount;        /* finished, millionths of unit; 0 = not set */
  int64_t  yield;         /* of the batch's input mass, millionths of a per cent; 0 = not set */
  int64_t  value;         /* money per unit, millionths */
  int64_t  lost;          /* millionths of a per cent, below 100 per cent */
  /* out */
  double   finished;      /* Q in base units; 0 = not known */
  double   used;          /* Q (1 - l): what lines can take of it */
  double   value_of_base; /* v per base unit; 0 if not set */
  double   share;         /* of C, per base unit that is used */
  double   fixed;         /* book currency per base unit that is used */
  bool     is_known;      /* whether a unit cost can be stated */
  unsigned lacks;         /* CroOutputLack bits that leave the batch incomplete */
} CroOutput;

/* outputs[0] is the main output, measures[i] that of outputs[i]. input_grams is the mass of
 * the food lines less what is recovered, negative if it cannot be formed.
 * A free by-product without an amount is no lack here: it is one only where it is taken. */
void cro_batch_share (CroRule           rule,
                      double            input_grams,
                      CroOutput        *outputs,
                      const CroMeasure *measures,
                      size_t            n);
