/* cro-model-prices.h: how a row of prices is taken into the model, and shown by a preview. */
#pragma once

#include "cro-model.h"

G_BEGIN_DECLS

/* As cro_model_take, of a row of the table of prices: only the price in force on date counts. */
gboolean cro_model_take_price (CroModel       *self,
                               CroStore       *store,
                               CroDate         date,
                               gint64          id,
                               const char     *column,
                               const CroCell  *cell,
                               CroTouched     *touched,
                               GError        **error);

/* What a price says of its pack itself; what it does not say is its offer's. */
typedef struct
{
  gint64  count;    /* 0: not said */
  gint64  size;     /* 0 */
  gint    unit;     /* CroUnit; -1 */
} CroOwnPack;

/* Of the price in force of an offer, by slot. *serves: whether that is what the offer is costed at,
 * as it is to be had. */
gboolean cro_model_find_own_pack (CroModel    *self,
                                  CroStore    *store,
                                  CroDate      date,
                                  guint32      offer,
                                  CroOwnPack  *own,
                                  gboolean    *serves,
                                  GError     **error);

/* Sets pack and rate of an offer's price in force from the offer as it is now. */
void     cro_model_repack     (CroModel       *self,
                               guint32         offer,
                               CroOwnPack      own);

/* One value of the price in force as a preview has it. */
void     cro_model_show_price (CroOfferEntry  *entry,
                               const char     *column,
                               const CroCell  *cell);

G_END_DECLS
