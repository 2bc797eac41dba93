/* cro-model-selling.h: what plates and menus are sold for on a date.
 *
 * The newest dated price on or before it, which may say that there is none, else the undated one.
 * The tax is that of the dated price, else the thing's own; the book's stands in for both. */
#pragma once

#include "cro-model.h"

G_BEGIN_DECLS

/* All of a date, into all plates and menus. */
gboolean cro_model_load_selling (CroModel           *self,
                                 CroStore           *store,
                                 CroDate             date,
                                 GError            **error);

/* As cro_model_take, of a row of the table of selling prices. Nothing that is kept is computed from
 * them. */
gboolean cro_model_take_selling (CroModel           *self,
                                 CroStore           *store,
                                 CroDate             date,
                                 gint64              id,
                                 const char *const  *columns,
                                 const CroCell      *cells,
                                 GError            **error);

/* Sets price and tax on the date from the undated ones and what is loaded. */
void     cro_model_sell_plate   (CroModel           *self,
                                 CroRecipe          *plate);
void     cro_model_sell_menu    (CroModel           *self,
                                 CroMenu            *menu);

G_END_DECLS
