/* cro-doubts.h: what is likely to be a slip, of a thing and all below it, or of a whole book. */
#pragma once

#include "cro-doubt.h"

G_BEGIN_DECLS

/* Those of what a plate, a menu or a preparation is made of, as its lines lead there, each once: of
 * packs only those in use, or preferred and over. Elements CroDoubt; NULL on failure. */
GArray  *cro_doubts_below     (CroBook     *book,
                               CroRef       thing,
                               GError     **error);

/* Those of an ingredient and its packs. history: its own (cro_price_history_new). Elements CroDoubt. */
GArray  *cro_doubts_of_ingredient (CroBook *book,
                               guint32      item,
                               GArray      *history);

/* All of a book, in the order of its tables; of prices and rates also those after the book's date. Elements
 * CroDoubt; NULL on failure. */
GArray  *cro_doubts_list      (CroBook     *book,
                               GError     **error);

G_END_DECLS
