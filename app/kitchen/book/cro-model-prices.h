/* cro-model-prices.h: how a row of prices is taken into the model. */
#pragma once

#include "cro-model.h"

G_BEGIN_DECLS

/* As cro_model_take, of a row of the table of prices. */
gboolean cro_model_take_price (CroModel       *self,
                               CroStore       *store,
                               CroDate         date,
                               gint64          id,
                               CroTouched     *touched,
                               GError        **error);

/* The offer that a row of prices is of now; CRO_NO_SLOT if the row is gone. */
gboolean cro_model_find_price (CroModel       *self,
                               CroStore       *store,
                               gint64          price,
                               guint32        *slot,
                               GError        **error);

G_END_DECLS
