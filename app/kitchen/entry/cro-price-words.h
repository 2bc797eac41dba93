/* cro-price-words.h: the signs of currencies, the words for tax, and what stands between a price and what it is of.
 *
 * Source     Codes: cro-currency.h. Signs and words are common practice, no source. */
#pragma once

#include "cro-entry.h"

G_BEGIN_DECLS

/* The sign or the code of a currency that begins text: its bytes, 0 where there is none. *is_it:
 * whether it is currency's; a sign that several share is that of each of them. currency may be
 * NULL: not known, then nothing is. */
gsize cro_currency_scan  (const char *text,
                          const char *currency,
                          gboolean   *is_it);

/* The same of a word for one, "euros", behind a number. A pound is one where the price says of what; else it is a
 * weight. */
gsize cro_currency_scan_word (const char *text,
                              const char *currency,
                              gboolean   *is_it);

/* The sign that a word for a currency which begins text stands for, "pounds"; NULL: it is none. */
const char *cro_currency_sign_of_word (const char *text);

/* Whether the code of a currency that begins text is an everyday word of English or French too: "all sizes". */
gboolean cro_currency_is_word (const char *text);

/* Where the sign, the code or the word of a currency begins that ends text, behind something else: "/kg GBP", "/kg
 * (€)". The length of text: none does. */
gsize cro_currency_scan_last (const char *text);

/* The currency that a text names beside a number, by its code or by a sign that is but one's: "9.20 €/kg".
 * *code is it, in capitals. FALSE: none, or it could be several. */
gboolean cro_currency_of_text (const char *text,
                               char        code[4]);

/* The first sign of a currency in a text, which is no letter; NULL: there is none. */
const char *cro_currency_find_sign (const char *text);

/* The one currency of a sign or a code alone; FALSE: it could be several. */
gboolean cro_currency_of_sign (const char *sign,
                               char        code[4]);

/* ",-", ".-", ",--", ".–" behind a number, for no cents: bytes, 0 where there is none. Common practice, no
 * source. */
gsize cro_price_scan_even (const char *text);

/* The longest of some words, ending with NULL, that begins text and ends there, whatever its case: bytes, 0 where
 * there is none. */
gsize cro_price_scan_word (const char        *text,
                           const char *const *words);

/* "/h", "per hour", "de l’heure" behind money, with the space before it. Bytes, 0 where there is none. */
gsize cro_price_scan_hour (const char *text);

/* "/", "per", "a", "an", "the", "for", "par", "le", "la", "à la", "l’", "les", "au", "aux", "du", "pour": bytes, 0
 * where there is none. */
gsize cro_price_scan_per (const char *text);

/* "HT", "ex VAT", "does not include VAT", "TTC", "incl. VAT", in English and in French: bytes, 0 where there is none.
 * pct: where a rate that is in a price, "TTC 10 %", is read with it, its per cents in millionths, 0 where none is said;
 * NULL: what says a rate is not read. */
gsize cro_price_scan_tax (const char *text,
                          CroTax     *tax,
                          gint64     *pct);

/* A text without the first such words in it, wherever they stand; *tax and *pct: what they say. Owned. */
char *cro_price_take_tax_out (const char *text,
                              CroTax     *tax,
                              gint64     *pct);

/* "case", "colis": bytes, 0 where there is none. *is_whole: the word means the pack; otherwise, as "tin" does, what
 * may be one of several in it. */
gsize cro_price_scan_pack (const char *text,
                           gboolean   *is_whole);

G_END_DECLS
