/* cro-finite.h: whether every figure of what is to be printed can be stated.
 *
 * Amounts and yields of chained preparations multiply, so that a figure may pass what a double
 * holds. That is found before anything is printed: there is no half of an answer. */
#pragma once

#include <glib.h>

#include "cro-figures.h"

G_BEGIN_DECLS

/* plates, menus: guint32 slots. NULL, or the name of the first plate or menu of which a figure is
 * not finite, or money is more than can be shown to the minor unit (cro-number.h). Borrowed. */
const char *cro_finite_find_plate (CroFigures *figures,
                                   GArray     *plates,
                                   GArray     *menus);

/* The same of a whole book, items and batches included. */
const char *cro_finite_find_any   (CroFigures *figures);

/* The same for the unit costs of all items. */
const char *cro_finite_find_item  (CroFigures *figures);

/* Where it begins in a book: the first ingredient, preparation or plate whose own cost is too large while what stands
 * in it is not; n_more: how many others are too large. NULL: none. Borrowed. */
const char *cro_finite_find_first (CroFigures *figures,
                                   guint      *n_more);

G_END_DECLS
