/* cro-written.h: how a row of a recipe is set out, apart from its words: what begins it in a list,
 * what leads from a name to its amount, ranges, and counts that are written as words.
 *
 *   1. 250 g butter      [ ] 250 g butter      butter, cold ........ 250 g      2–3 lemons      two eggs
 *
 * Words are those of English and French kitchens, whatever the locale: common practice, no source.
 *
 * Units      Bytes of a text; counts in millionths. */
#pragma once

#include "cro-entry.h"

G_BEGIN_DECLS

/* Stands where something led from a name to its amount. */
#define CRO_WRITTEN_GAP '\t'

/* Bytes of the one of several words that begins a text, and ends there with a space or one of its own signs; 0: none
 * does. */
gsize    cro_written_scan_any   (const char          *text,
                                 const char *const   *words);

/* Whether one of them begins any word of a text. */
gboolean cro_written_has_any    (const char          *text,
                                 const char *const   *words);

/* Bytes of a text up to the comma, semicolon or bracket that ends its first clause; the comma of a number ends
 * none. */
gsize    cro_written_scan_clause (const char         *text);

/* The text with gaps for leaders and rules of a table; each byte stays at its place. Owned. */
char    *cro_written_dup_plain  (const char          *text);

/* Bytes of bullets, boxes and numbering that begin a text, with the space behind them. */
gsize    cro_written_scan_lead  (const char          *text);

/* Bytes of a range that begins a text: "2–3", "1 to 1½", "1 kg - 1.2 kg". */
gsize    cro_written_scan_range (const char          *text,
                                 const CroEntryWords *words);

/* Bytes of a count that is a word, and its space: "two", "half a", "une demi-". */
gsize    cro_written_scan_count (const char          *text,
                                 gint64              *micro);

/* Bytes of what says that the number behind it is not exact, and its space: "about", "env.", "~". */
gsize    cro_written_scan_about (const char          *text);

/* Bytes of what is taken from something that follows with its number: "juice", "le zeste". */
gsize    cro_written_scan_part  (const char          *text);

/* Whether it is a dash or a sign of equality that stands between a name and its amount; its bytes. */
gsize    cro_written_scan_dash  (const char          *text);

/* Bytes of the last word of a text, where it leads to a price behind it: "butter at", "beurre à"; 0: it does not. */
gsize    cro_written_find_to_price (const char       *text);

G_END_DECLS
