/* cro-model-prices.h: how a row of prices is taken into the model. */
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

G_END_DECLS
