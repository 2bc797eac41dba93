/* cro-model-selling.h: what plates and menus are sold for on a date.
 *
 * The newest dated price on or before it, which may say that there is none, else the undated one.
 * The tax is that of the dated price, else the thing's own; the book's stands in for both. */
#pragma once

#include "cro-model.h"

G_BEGIN_DECLS

/* All of a date, into all plates and menus. Nothing that is kept is computed from them. */
gboolean cro_model_load_selling (CroModel           *self,
                                 CroStore           *store,
                                 CroDate             date,
                                 GError            **error);

/* The thing of an id is sold at a dated price, of a row id; 0: at its undated one. */
void     cro_model_sell_thing   (CroModel           *self,
                                 gint64              thing,
                                 gint64              id,
                                 gint64              price,
                                 gint64              tax);

/* Sets price and tax on the date from the undated ones and what is loaded. */
void     cro_model_sell_plate   (CroModel           *self,
                                 CroRecipe          *plate);
void     cro_model_sell_menu    (CroModel           *self,
                                 CroMenu            *menu);

G_END_DECLS
