/* cro-hold.h: what would make a plate or a menu hold its target, one thing at a time, all else equal.
 *
 * The limits of what moves it (cro-limits.h), which are exact where the cost is affine and bracketed
 * otherwise, become values that a person would write: a selling price to the minor unit, rounded up;
 * a price of a pack to the minor unit and an amount to three digits, rounded down. Prices and amounts
 * are tried as previews, so that the value holds and one step more does not.
 *
 * Units      As they are written: millionths of a price, of a pack's price, of an amount in its unit. */
#pragma once

#include "cro-known.h"
#include "cro-movers.h"
#include "cro-trial.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_HOLD_SELLING,   /* the gross price of thing */
  CRO_HOLD_PRICE,     /* of a pack of offer, in its currency */
  CRO_HOLD_AMOUNT,    /* of line */
} CroHoldKind;

typedef enum
{
  CRO_HOLD_OK,
  CRO_HOLD_NO_TARGET,
  CRO_HOLD_NO_PRICE,  /* nothing is asked for it, by itself or on a menu */
  CRO_HOLD_NOTHING,   /* it costs nothing */
  CRO_HOLD_NEVER,     /* over even as a gift, without the line, or at any selling price */
  CRO_HOLD_ALWAYS,    /* at any price: another offer takes over before */
} CroHoldAnswer;

typedef struct
{
  CroHoldKind   kind;
  CroHoldAnswer answer;
  CroRef        thing;   /* whose selling price it is, or whose target is held */
  guint32       item;
  guint32       line;
  guint32       recipe;  /* in which the line stands */
  guint32       offer;
  gint64        now;     /* CRO_NOT_SET: there is none */
  gint64        value;   /* where it is OK */
  CroKnown      known;   /* of value, where something is missing below what is sold */
} CroHold;

/* The selling price, and of most prices and amounts each, those that move it most. In a trial's book, or
 * any: nothing is written, and what is previewed there is given up. Elements CroHold. */
GArray  *cro_holds_new     (CroBook        *book,
                            CroRef          thing,
                            guint           most);

/* As one act of that book, a price from its date. */
gboolean cro_hold_apply    (const CroHold  *self,
                            CroBook        *book,
                            const char     *label,
                            GError        **error);

G_END_DECLS
