/* cro-remark-words.h: what a remark says of a price or of a yield without a number: "VAT paid", "two for one", "loses a
 * lot", "le double avec les arêtes".
 *
 * Words are those of English and French kitchens, whatever the locale: common practice, no source. */
#pragma once

#include "cro-remark.h"

G_BEGIN_DECLS

/* Of a text out of which what says whether tax is in the price was taken; is_without_tax: that said it is not. */
CroRemark cro_remark_read_words  (const char *text,
                                  gboolean    is_without_tax);

/* What a name says of a price, behind its first word; *start: where. */
CroRemark cro_remark_find_price  (const char *name,
                                  gsize      *start);

/* Whether a text begins with "not trimmed", "non paré". */
gboolean  cro_remark_denies_trim (const char *text);

/* Whether a word turns what stands behind it into its contrary: "not", or makes a price of it: "prix" brut. Bytes. */
gsize     cro_remark_scan_turn   (const char *text);

G_END_DECLS
