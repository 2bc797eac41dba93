/* cro-known.h: how much is known of a figure over something that is missing.
 *
 * A sum of what is known is a lower bound of a cost, unless a credit below may lower it; what a
 * cost is taken from (money left, a ceiling) is bounded from above. Where nothing is known at all
 * there is no figure: a 0 would be taken for one. */
#pragma once

#include "cro-breakdown.h"
#include "cro-ref.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_KNOWN_WHOLE,
  CRO_KNOWN_AT_LEAST,
  CRO_KNOWN_AT_MOST,
  CRO_KNOWN_IN_PART,   /* no bound: a credit may lower it */
  CRO_KNOWN_NOTHING,
} CroKnown;

/* Of a cost above what bits of CroReach tell of, known_sum being its known part. */
CroKnown cro_known_of_bits   (guint64          bits,
                              double           known_sum);

CroKnown cro_known_of_cost   (const CroFigure *figure);

/* Of the cheapest and of the dearest way through a menu's choices: one that lacks nothing is known whole,
 * whatever others lack. */
CroKnown cro_known_of_cheapest (const CroFigure *figure);
CroKnown cro_known_of_dearest  (const CroFigure *figure);

/* Of labour: what is bought bears none, so that neither its price nor its weight leaves it open. causes are those
 * of the figure. */
CroKnown cro_known_of_labour (CroModel        *model,
                              const CroFigure *figure,
                              GArray          *causes);

/* Whether labour is a figure: where nobody entered minutes 0 would be taken for one. */
gboolean cro_known_has_labour (const CroModel  *model,
                               double           labour,
                               CroKnown         known);

/* Of disposables of a plate or menu: where none stand below, nobody expects any. causes are those of
 * the figure. */
CroKnown cro_known_of_disposables (CroFigures      *figures,
                                   CroRef           thing,
                                   const CroFigure *figure,
                                   GArray          *causes);

/* Of food and labour together. */
CroKnown cro_known_of_prime  (const CroFigure *figure);

/* Of what an item costs. */
CroKnown cro_known_of_item   (CroFigures      *figures,
                              guint32          item);

/* Items below a plate, a menu, a preparation or an item of which more is taken than can be counted: a line of them, or
 * of what they go into, lacks a weight or an amount. A bit for each node of the graph. Owned. */
guint64 *cro_known_list_uncounted (CroFigures    *figures,
                                   CroRef         thing);

/* Of what an item that is bought makes of a cost: what can be counted of it, at its price. */
CroKnown cro_known_of_share_of    (CroFigures    *figures,
                                   const guint64 *uncounted,
                                   guint32        item);

/* Of what by-products at an assigned value make of a cost, as in a month: how much there is of them hangs on all that
 * cannot be counted. causes are those of the figure. */
CroKnown cro_known_of_by_products (GArray        *causes);

/* Of what a line takes of an item, cost being what that comes to. */
CroKnown cro_known_of_taken  (CroFigures      *figures,
                              guint32          item,
                              double           cost);

/* Of food and disposables of a batch, or of all bites of a plate: what its outputs lack, or are
 * credited with, is no part of that. A wage that is missing is told there as in all that is made of it. */
CroKnown cro_known_of_recipe (CroFigures      *figures,
                              guint32          recipe);

/* Of what a by-product is credited for under credit: without a value or an amount nothing. */
CroKnown cro_known_of_credit (CroModel        *model,
                              guint32          item);

/* Of what an output bears of its batch under a rule, main 0: nothing where the rule lacks a value or an amount. What
 * is free, or at its assigned value, hangs on no cost. */
CroKnown cro_known_of_landing (CroFigures      *figures,
                               guint32          preparation,
                               CroRule          rule,
                               guint32          output,
                               gboolean         is_shared);

/* Of the part that something takes of a cost: what is known whole takes at most so much of what costs
 * at least so much; below 0, as a by-product at its value, no less than that. */
CroKnown cro_known_of_share  (CroKnown         of_part,
                              double           part,
                              CroKnown         of_cost);

/* Of a sum of two figures. */
CroKnown cro_known_of_sum    (CroKnown         a,
                              CroKnown         b);

/* Of what is left when the cost is taken from a figure that is known. */
CroKnown cro_known_turned    (CroKnown         known);

G_END_DECLS
