/* cro-price-rows.h: the prices of one offer, and which of them serves on a date.
 *
 * The newest on or before the date, while the offer is to be had; else the price of the last day on
 * which it was, as the last price of its ingredient may be of it (costing.md, "What an ingredient
 * costs"). Held in memory, so that a preview of any of them asks the store nothing.
 *
 * Units  As columns of the table: millionths. */
#pragma once

#include "cro-model.h"

G_BEGIN_DECLS

/* What a price says of its pack itself; what it does not say is its offer's. */
typedef struct
{
  gint64  count;    /* 0: not said */
  gint64  size;     /* 0 */
  gint    unit;     /* CroUnit; -1 */
} CroOwnPack;

typedef struct
{
  gint64     id;
  CroDate    from;
  gint64     price;    /* CRO_NOT_SET: not to be had from then on */
  gint64     tax;
  CroOwnPack own;
} CroPriceRow;

/* Columns as cro_store_read_prices gives them: the slot of the offer, and what the row says. DAMAGED
 * where a value is none that the column can hold. */
gboolean  cro_price_row_read   (CroModel           *model,
                                CroRows            *rows,
                                guint32            *offer,
                                CroPriceRow        *row,
                                GError            **error);

/* One column of it as a preview has it. */
void      cro_price_row_show   (CroPriceRow        *row,
                                const char         *column,
                                const CroCell      *cell);

/* All of an offer, by slot, of whatever date; elements CroPriceRow, by date. NULL with error. */
GArray   *cro_price_rows_new   (CroModel           *model,
                                CroStore           *store,
                                guint32             offer,
                                GError            **error);

/* Those of every offer: by its slot, NULL of one without prices. NULL with error. */
GPtrArray *cro_price_rows_all    (CroModel           *model,
                                CroStore           *store,
                                GError            **error);

/* The offer as it was on a date; its rate stays that of entry. */
void      cro_price_rows_offer_on (GArray            *rows,
                                const CroOfferEntry *entry,
                                CroDate             date,
                                CroOffer           *offer);

/* Costs the offer at what serves on the date. shown takes the place of the row of its id, as a
 * preview has it; NULL: none does. */
void      cro_price_rows_serve (GArray             *rows,
                                const CroPriceRow  *shown,
                                CroModel           *model,
                                guint32             offer,
                                CroDate             date);

/* What one of a currency is worth in the book's; NULL: the book's own. 0: nobody knows. */
double    cro_model_rate         (CroModel          *model,
                                  const char        *currency);

/* An offer without prices, and one at the price of a row, which is its newest. */
void      cro_model_forget_price (CroModel          *model,
                                  CroOfferEntry     *entry);
void      cro_model_serve_price  (CroModel          *model,
                                  guint32            offer,
                                  const CroPriceRow *row,
                                  CroDate            date);

G_END_DECLS
