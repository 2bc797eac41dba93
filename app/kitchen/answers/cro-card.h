/* cro-card.h: a plate's cost card: its lines, and theirs, down to what is bought.
 *
 * A line that takes an output is followed by the lines of its preparation, scaled to what is
 * taken of it. A preparation is unfolded where it stands first, and named where it stands again.
 *
 * Units      Costs in book currency for all bites that the plate's lines make, allowance apart;
 *            amounts in base units of the item, as written (trimmed or whole, before what comes
 *            back).
 * Sum        Rows of one depth under a row add up to it; those of depth 0 to the card's cost. */
#pragma once

#include "cro-breakdown.h"
#include "cro-known.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_CARD_LINE,
  CRO_CARD_CREDIT,      /* what the main output is credited with for a by-product (below 0) */
  CRO_CARD_ALLOWANCE,
} CroCardKind;

typedef enum
{
  CRO_CARD_UNFOLDED = 1 << 0,    /* rows of its preparation follow */
  CRO_CARD_AGAIN = 1 << 1,       /* its preparation was unfolded above */
  CRO_CARD_FREE = 1 << 2,        /* a by-product that carries no cost */
  CRO_CARD_ASSIGNED = 1 << 3,    /* a by-product at its assigned value */
  CRO_CARD_UNKNOWN = 1 << 4,     /* nothing is known of its cost */
} CroCardFlags;

typedef struct
{
  guint        depth;
  CroCardKind  kind;
  unsigned     flags;
  guint32      item;       /* CRO_NO_SLOT of an allowance */
  guint32      line;       /* slot; CRO_NO_SLOT of credits and allowances */
  double       amount;     /* 0 where it cannot be converted */
  double       cost;       /* food and disposables */
} CroCardRow;

/* Elements CroCardRow, in printed order; the allowance last. */
GArray *cro_card_new             (CroFigures   *figures,
                                  guint32       plate);

/* Minor units of every row, so that each breakdown adds up: the total is rounded first, then
 * parts are floored and the units left go to the largest fractions, top-down. Owned. */
gint64 *cro_card_dup_minor       (GArray       *rows,
                                  gint64        total,
                                  int           digits);

/* Per cents of the total that rows of depth 0 make, to one decimal, so that they add up to 100; what no tenth is left
 * for keeps a part of one; NaN of deeper ones, of those that nothing is known of, and of no total. Owned. */
double *cro_card_dup_shares      (GArray       *rows,
                                  double        total);

/* Minor units of every plate of a menu in order, so that they add up to its rounded cost. Owned. */
gint64 *cro_menu_dup_minor       (CroFigures   *figures,
                                  guint32       menu);

/* The price to which an ingredient may rise before a plate, or a menu that carries it, passes its target:
 * the tightest of them, as what moves a cost has it (cro-limits.h). */
typedef struct
{
  double      unit_cost;   /* NaN: no target, or no price to hold it against */
  const char *holder;      /* name of that plate or menu; borrowed */
  CroKnown    known;       /* at most, where something is missing below the holder; below 0 that is no bound of what
                              cannot be counted */
  double      pack;        /* the same per own pack of the offer in use, in its currency, with tax */
  double      next_offer;  /* unit cost at which another offer takes over first; NaN: none */
} CroCeiling;

/* One for each of breakdown->ingredients. Elements CroCeiling. */
GArray *cro_ceilings_of_plate    (CroFigures   *figures,
                                  guint32       plate,
                                  CroBreakdown *breakdown);
/* The same of a menu's breakdown. */
GArray *cro_ceilings_of_menu     (CroFigures   *figures,
                                  guint32       menu,
                                  CroBreakdown *breakdown);

/* What a unit cost of an ingredient is per own pack of the offer in use (cro-own-pack.h), and at which another offer
 * takes over before; NaN: there is none. */
void    cro_ceiling_in_packs     (CroFigures   *figures,
                                  guint32       item,
                                  double        unit_cost,
                                  double       *pack,
                                  double       *next);

/* What a pack of an offer comes to, as its price is written, in millionths: in minor units of its
 * currency; below ten of them to three digits, as little would be nothing. round: one of cro-money.h.
 * FALSE: no number, or too large for a price. */
gboolean cro_pack_price_of       (CroModel     *model,
                                  guint32       offer,
                                  double        pack,
                                  int64_t     (*round) (double amount, int digits),
                                  gint64       *price);

G_END_DECLS
