/* cro-price-aside.h: what stands beside a saying of tax and says nothing of whether prices have it. Common practice of
 * English and French, no source. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Words of tax itself, bounded by |. */
extern const char cro_price_tax_words[];

/* "VAT no. GB 123 456", "VAT invoice", "n° TVA 12" at a token: of papers and people. How many tokens; 0: none. */
guint cro_price_scan_paper (const GArray *tokens,
                            guint         i);

/* "E&OE"; behind what is added, "+ VAT", also "where applicable". letters: of the sentence so far, as
 * cro-price-saying.c has them. How many tokens; 0: none. */
guint cro_price_scan_aside (const GArray *tokens,
                            guint         i,
                            const char   *letters);

G_END_DECLS
