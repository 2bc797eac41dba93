/* cro-round-words.h: what is said of a round of new prices, row by row and in all.
 *
 * Ownership  Texts are the caller's. */
#pragma once

#include "cro-round-effect.h"

G_BEGIN_DECLS

/* What stands in the row's field once it is left: "as last", "not to be had", or what was typed; of a list in whole
 * minor units, though its price is kept in full. */
char *cro_words_round_typed     (CroRound              *round,
                                 const CroRoundRow     *row);

/* The last price as the supplier states it: "66.00", "11.20 GBP"; NULL: there is none. */
char *cro_words_round_last      (CroRound              *round,
                                 const CroRoundRow     *row);

/* The same as it is read beside the others of the supplier: of one who states prices per kg, l or piece all are so. */
char *cro_words_round_shown_last (CroRound             *round,
                                 const CroRoundRow     *row);

/* The other way round: "13.90/kg" of a price per pack, "112.00 per pack" of one per kilogram. Of what is
 * typed, else of the last price; NULL: there is none. */
char *cro_words_round_other     (CroRound              *round,
                                 const CroRoundRow     *row);

/* What the row's price contains, in millionths of per cent: of what is typed, else of the last one. */
gint64 cro_words_round_tax     (CroRound              *round,
                                const CroRoundRow     *row);

/* "+5.3 %" per base unit; NULL where nothing can be compared, or nothing moved. */
char *cro_words_round_change    (const CroRoundRow     *row);

/* What is asked or wrong, else what is to be known of it: "pack today: 4 kg, otherwise 5 kg". NULL:
 * nothing. */
char *cro_words_round_note      (CroRound              *round,
                                 guint                  index);

/* "Turbot, 3 kg". */
char *cro_words_round_name      (CroRound              *round,
                                 const CroRoundRow     *row);

/* What a line would be that is being typed into the new row; NULL: nothing yet. */
char *cro_words_round_line      (CroRound              *round,
                                 const char            *line);

/* "30.2 → 30.6 %", in the house's way; NULL: it moves by less than is shown (cro_words_moved_unseen ()). */
char *cro_words_round_moved     (CroRound              *round,
                                 const CroRoundMoved   *moved);

/* "Mussels up to 4.01/kg"; NULL: no one price would hold it. */
char *cro_words_round_hold      (CroRound              *round,
                                 const CroRoundEffect  *effect,
                                 const CroRoundMoved   *moved);

/* "Mussels 4.30/kg at Far Bank, 4.41/kg here". */
char *cro_words_round_cheaper   (CroRound              *round,
                                 const CroRoundCheaper *cheaper);

/* "Preferred once posted: Mussels, Far Bank"; NULL: none is. */
char *cro_words_round_preferred (CroRound              *round);

/* "Now preferred: Mussels, Far Bank", by postings that are in force. posts: CroRoundPost *. NULL: none is. */
char *cro_words_round_now_preferred (CroRound          *round,
                                 GPtrArray             *posts);

/* "About 7.10 more per week (28 days to 22 Nov 2026)"; without sales what moves for a guest of each. NULL:
 * nothing moves. */
char *cro_words_round_week      (CroRound              *round,
                                 const CroRoundEffect  *effect);

/* "4 to post · 1 waits for an answer · 1 untouched". */
char *cro_words_round_counts    (CroRound              *round);
char *cro_words_round_counts_of (guint                  ready,
                                 guint                  waiting,
                                 guint                  untouched);

/* What it does, or did, a line for each plate and menu; "" where nothing moves. */
char *cro_words_round_effect    (CroRound              *round,
                                 const CroRoundEffect  *effect);

/* The prices of a posting that are in force, to be sent to somebody; "": none is. */
char *cro_words_round_copy      (const char            *supplier,
                                 const CroRoundPost    *post);

/* "months closed up to 31 Oct 2026 do not change", of prices from a day in one of them or before; NULL: of another. */
char *cro_words_prices_closed   (CroBook               *book,
                                 CroDate                from);

/* What a day of the past leaves as it is, of a list that posts a price of which the book has one of a later day;
 * NULL: it posts none. */
char *cro_words_list_past       (const CroPriceList    *list,
                                 CroBook               *book);

/* What a day before today leaves as it is, or one to come; and from which day the lines of an invoice hold, where that
 * is another. NULL: neither. */
char *cro_words_round_past      (CroRound              *round,
                                 CroDate                today);

/* "12 changed, 3 unchanged, 2 not found": of what was taken. */
char *cro_words_round_taken     (const CroPriceList    *list);

/* Of a text of cro_round_to_text: "Set aside: 2 rows", "Set aside of invoice UR-3001: 3 lines, 62.00, not booked";
 * NULL: neither. */
char *cro_words_round_aside     (const char            *text);

/* Why such a text could not be put back whole (cro_round_put_text), with the file it could not be read from. */
char *cro_words_round_lost      (const char            *text,
                                 const GError          *error);

/* What of it is of no pack of the supplier's (cro_round_get_unfit); NULL: nothing. */
char *cro_words_round_unfit     (CroRound              *round);

/* Of a line of an invoice that is not asked about; NULL: nothing. */
char *cro_words_round_billed_note (CroRound            *round,
                                   const CroRoundRow   *row);

/* The invoice: its number, dates and money, what is booked of it and what posting books, what is not spread over its
 * lines; and what posting it now will have booked. NULL: none was taken. */
char *cro_words_round_invoice   (CroRound              *round);
char *cro_words_round_invoice_posted (CroRound         *round);

/* Its lines that wait, by name; NULL: none does. */
char *cro_words_round_not_booked (CroRound             *round);

/* Of an invoice what is not booked of it, billed beside what was quoted, in all and line by line. NULL: none was
 * taken. */
char *cro_words_round_billed    (CroRound              *round);

/* The same of what postings booked and was not taken back, each document once. posts: CroRoundPost *. NULL: nothing
 * was. */
char *cro_words_round_was_billed (GPtrArray            *posts);

G_END_DECLS
