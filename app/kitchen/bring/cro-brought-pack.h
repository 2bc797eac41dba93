/* cro-brought-pack.h: what a row of a sheet says of its pack, and of what its price is for.
 *
 * Units      Decimals in millionths. */
#pragma once

#include "cro-brought.h"
#include "cro-entry.h"

G_BEGIN_DECLS

/* The whole of text as a unit. */
gboolean cro_brought_unit           (const char        *text,
                                     CroUnit           *unit);

/* "/kg", "per kg", "au kilo" behind a price. */
gboolean cro_brought_per            (const char        *text,
                                     CroUnit           *unit);

/* The same at the end of the heading of prices. */
gboolean cro_brought_per_of_heading (const CroBrought  *brought,
                                     CroUnit           *unit);

/* A row's pack: in one text, or in count, size and unit. FALSE: it says nothing that can be read; *column
 * is where. */
gboolean cro_brought_pack           (const CroBrought  *brought,
                                     guint              index,
                                     CroPack           *pack,
                                     guint             *column);

/* A price for one unit as that of the pack, exactly. FALSE: they are of other bases, or it is too large,
 * or would be 0. */
gboolean cro_brought_price_of_pack  (CroUnit            per,
                                     const CroPack     *pack,
                                     gint64            *price);

G_END_DECLS
