/* cro-cost-range.h: between what a guest of a plate or a menu costs when prices and yields go as they
 * went.
 *
 *   var = sum (d cost / d x)^2 var (x)
 *
 * First order, inputs independent. x are the unit costs of what is bought, at the offer in use, each
 * day of the last 365 counted at the price then in force and at today's rate; and 1 / yield, as it
 * differs between the lots that were tested: the trim yield of what is bought and, where that goes
 * into a batch alone whose main output is given as a yield %, that one. What has no such past does
 * not count.
 *
 * Units      Book currency per guest. Low and high are 1.645 standard deviations from the cost as it
 *            is: nine values of ten of a normal distribution lie between (the 0.95 quantile,
 *            NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1; from memory). */
#pragma once

#include "cro-book.h"
#include "cro-ref.h"

G_BEGIN_DECLS

typedef struct
{
  double variance;     /* 0 where nothing that it hangs on has a past */
  double deviation;
  double low;
  double high;
  guint  n_prices;     /* that moved */
  guint  n_yields;     /* that differ between lots */
  double with_past;    /* the part of what makes the cost, food that is bought and values that are assigned, 0
                          to 1, that had more than one price in the last 365 days: the rest is taken as it is */
  guint  n_bought;     /* food that it hangs on */
  guint  n_missing;    /* of these, that have no price */
} CroCostRange;

/* How much prices and yields moved: read of the store once for an edition of the book. */
typedef struct _CroSpreads CroSpreads;

CroSpreads  *cro_spreads_new  (CroBook     *book);
void         cro_spreads_free (CroSpreads  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroSpreads, cro_spreads_free)

/* Reads what stands below thing and was not read at this edition; what a preview brings in waits for
 * it. FALSE with error. */
gboolean     cro_spreads_read (CroSpreads  *self,
                               CroRef       thing,
                               GError     **error);

/* cost: what a guest costs. Asks the store nothing. */
CroCostRange cro_cost_range   (CroSpreads  *self,
                               CroRef       thing,
                               double       cost);

G_END_DECLS
