/* cro-movers.h: what moves the cost of a plate or a menu.
 *
 * What a guest costs (food) changes by down and up when a price, a yield, an amount or a
 * finished amount becomes 10 % less or more, all else equal. A price counts at the offer in use.
 * Cost is affine in prices, in 1 / yield, and in the amounts of all lines but those that feed
 * the mass of an output given as a yield %: there the batch is shared anew, and as the cost is
 * affine in what its outputs then cost, the change is exact too.
 *
 * Units      Book currency per guest.
 * Ownership  Names are the model's. */
#pragma once

#include "cro-breakdown.h"
#include "cro-cost-parts.h"
#include "cro-known.h"
#include "cro-ref.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_MOVER_PRICE,      /* of item */
  CRO_MOVER_VALUE,      /* assigned to item, a by-product */
  CRO_MOVER_TRIM_YIELD, /* of item */
  CRO_MOVER_YIELD,      /* of line, its own */
  CRO_MOVER_AMOUNT,     /* of line */
  CRO_MOVER_FINISHED,   /* amount or yield % of item, an output */
} CroMoverKind;

typedef struct
{
  CroMoverKind kind;
  guint32      item;    /* of a line what it takes */
  guint32      line;    /* CRO_NO_SLOT where it is not of a line */
  guint32      recipe;  /* in which it stands; CRO_NO_SLOT for what is the item's own */
  double       value;   /* price or assigned value per base unit; yield and yield % in per cent; amounts in the
                           unit in which they are written */
  double       down;    /* change of the cost when it is 10 % less */
  double       up;
  double       cost;    /* of a price or a value: the part of the cost that it makes, below 0 what
                           it is credited with; all of these together are the cost */
  CroKnown     known;   /* of down and up, whichever way: in part where what is missing may turn them */
} CroMover;

/* What are not among as many as were asked for. */
typedef struct
{
  guint   n;
  double  cost;             /* the part of the cost that they make */
  double  up;               /* change of the cost when all of them are 10 % more */
  CroKnown known;           /* of cost and up */
} CroOtherMovers;

typedef struct
{
  GArray *movers;           /* CroMover, in order of effect, the largest first; without what has none */
  CroOtherMovers prices;    /* apart from values, which move the cost against them: with the parts of */
  CroOtherMovers values;    /* movers theirs are all of it */
  GArray *parts;            /* CroCostPart of all that make a part of the cost, in no order */
} CroMovers;

/* Of a plate (CRO_REF_RECIPE) or a menu: the first ones, G_MAXUINT: all. */
CroMovers *cro_movers_new       (CroFigures *figures,
                                 CroRef      thing,
                                 guint       most);
void       cro_movers_free      (CroMovers  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroMovers, cro_movers_free)

/* What a mover of that much moves at most, whichever way. */
double     cro_mover_effect     (const CroMover *mover);

/* Whether it is known which way it moves the cost, and at least how far. */
gboolean   cro_mover_is_bounded (const CroMover *mover);

/* What of the cost the trim yield of an item divides; between cro_effects_trace and _clear. */
double     cro_mover_charged_by_trim (CroFigures *figures,
                                      guint32     item);

G_END_DECLS
