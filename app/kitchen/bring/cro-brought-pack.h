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

/* "/kg", "per kg", "au kilo". */
gboolean cro_brought_per            (const char        *text,
                                     CroUnit           *unit);

/* For what a price is, "per kg", "/100 g". */
typedef struct
{
  gboolean is_said;
  CroUnit  unit;
  gint64   times;   /* so many times it is the price for one unit: 10 of one for 100 g or 100 ml, else 1 */
} CroPricePer;

/* What the heading of prices says. *is_open: it speaks of units, and not of one alone. */
CroPricePer cro_brought_per_of_heading (const CroBrought *brought,
                                        gboolean         *is_open);

/* A price of a cell as one for one unit: what stands behind its number says it better than the heading, which *per is
 * before. FALSE: that is something else, or the price is too large. */
gboolean cro_brought_price_of_one   (const char        *behind,
                                     CroPricePer       *per,
                                     gint64            *price);

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
