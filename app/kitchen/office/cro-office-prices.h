/* cro-office-prices.h: every price of a book up to a date, offer by offer, the newest last; and
 * what currencies were worth.
 *
 * Kept small, as a book may have a hundred thousand of them. */
#pragma once

#include "cro-book.h"
#include "cro-rate-steps.h"

G_BEGIN_DECLS

typedef struct
{
  gint64  price;         /* CRO_NOT_SET: not to be had */
  gint32  tax;           /* millionths of a per cent */
  CroDate from;
  guint32 pack;          /* into packs: one that the price has of its own; CRO_NO_SLOT */
} CroOfficePrice;

typedef struct
{
  gint64  count;
  gint64  size;
  CroUnit unit;
} CroOfficePack;

typedef struct
{
  CroOfficePrice *prices;
  guint32        *first;     /* [n_offers + 1] by number of offer */
  GArray         *packs;     /* CroOfficePack */
  CroRateSteps   *rates;
  guint32         n_offers;
  gboolean        in_force_only;   /* there were more than a sheet has room for */
} CroOfficePrices;

/* number_of[] gives offers their numbers by slot, CRO_NO_SLOT to those left out. */
gboolean cro_office_prices_load  (CroOfficePrices  *self,
                                  CroStore         *store,
                                  CroModel         *model,
                                  CroDate           date,
                                  const guint32    *number_of,
                                  guint32           n_offers,
                                  GError          **error);
void     cro_office_prices_clear (CroOfficePrices  *self);

/* The offer of a price. */
guint32  cro_office_prices_offer (const CroOfficePrices *self,
                                  guint32                price);

/* The price of an offer that begins on a day; CRO_NO_SLOT: it is not kept. */
guint32  cro_office_prices_find  (const CroOfficePrices *self,
                                  guint32                offer,
                                  CroDate                from);

G_END_DECLS
