/* cro-pack.h: a pack as people write it: "20 × 250 g", "5 kg".
 *
 * Units      Count and size in millionths.
 * Ownership  Texts returned are the caller's. */
#pragma once

#include "cro-entry.h"
#include "cro-model.h"
#include "cro-own-pack.h"

G_BEGIN_DECLS

char    *cro_pack_to_text   (const CroPack       *pack);

/* The same without a count of 1: "5 kg". */
char    *cro_pack_to_short_text (const CroPack   *pack);

/* Whether there is as much in both: 15 dozen and 15 × 1 dozen, 5 kg and 5000 g. */
gboolean cro_pack_holds_same (const CroPack      *a,
                             const CroPack       *b);

/* What stands before the first × is the count, 1 where there is none. The unit is the one typed,
 * or fallback. FALSE: this is no pack, and *pack is as it was. */
gboolean cro_pack_from_text (const char          *text,
                             CroUnit              fallback,
                             const CroEntryWords *words,
                             CroPack             *pack);

/* That an offer is spoken of and ordered in, on the date of the model (cro-own-pack.h). */
CroPack  cro_pack_of_offer  (CroModel            *model,
                             guint32              offer);

/* That of its price in force: what costs are counted in. */
CroPack  cro_pack_in_force  (CroModel            *model,
                             guint32              offer);

/* "66.00"; with its currency where that is not the book's, "112.00 GBP". Owned. */
char    *cro_pack_price_to_text (CroModel        *model,
                             guint32              offer,
                             gint64               price);

/* What a field of prices of a pack of an offer holds: they are in its currency, with or without tax as its price in
 * force. The currency is borrowed. */
CroPriceOf cro_pack_price_of_offer (CroModel     *model,
                             guint32              offer,
                             const CroPack       *pack);

/* A price of a pack of an offer, as cro_entry_price reads it. */
gboolean cro_pack_read_price (CroModel           *model,
                             guint32              offer,
                             const CroPack       *pack,
                             const char          *text,
                             const CroEntryWords *words,
                             CroEntry            *entry);

G_END_DECLS
