/* cro-item-ceiling.h: what may be paid for an ingredient at most: the tightest ceiling of all plates and
 * menus that take it, by whatever way.
 *
 * One pass up from the ingredient, through what uses it, tells what each of them is charged of it. */
#pragma once

#include "cro-limits.h"

G_BEGIN_DECLS

/* *price is the ingredient as what moves a cost, for the words of its limit (cro_words_limit). Of kind
 * CRO_LIMIT_NONE where nothing that has a price and a target takes it. */
CroLimit cro_ceiling_of_item (CroFigures *figures,
                              guint32     item,
                              CroMover   *price);

G_END_DECLS
