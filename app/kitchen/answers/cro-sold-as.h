/* cro-sold-as.h: the figure, selling price and tax that a plate or a menu is sold with on the day of
 * the figures.
 *
 * Units      Prices in millionths of book currency, tax in millionths of a per cent.
 * Things     A plate (CRO_REF_RECIPE) or a menu (CRO_REF_MENU), by slot. */
#pragma once

#include "cro-breakdown.h"
#include "cro-ref.h"

G_BEGIN_DECLS

CroFigure cro_figure_of  (CroFigures *figures,
                          CroRef      thing);

/* Everything missing below it. Elements CroCause. */
GArray   *cro_causes_of  (CroFigures *figures,
                          CroRef      thing);

/* Its own, with tax; CRO_NOT_SET: it has none. */
gint64    cro_sold_price (CroModel   *model,
                          CroRef      thing);

/* Its own, else the book's, else 0. *whose, which may be NULL: the thing, or CRO_REF_HOUSE where it is
 * the book's. */
gint64    cro_sold_tax   (CroModel   *model,
                          CroRef      thing,
                          CroRef     *whose);

/* Whether somebody has set it, be it 0: of the thing or of the book. */
gboolean  cro_sold_has_tax (CroModel *model,
                          CroRef      thing);

/* What its cost is held against: itself; of a plate without a price of its own, the menu that has least
 * to spare, where one carries it. */
CroRef    cro_sold_as    (CroFigures *figures,
                          CroRef      thing);

G_END_DECLS
