/* cro-price-list-words.h: what is said of a supplier's list.
 *
 * Ownership  Texts are the caller's, unless it says otherwise. */
#pragma once

#include "cro-price-list.h"

G_BEGIN_DECLS

/* Of a line's price. Borrowed. */
const char *cro_words_list_state  (const CroListRow    *row);

/* A price as it is read and not typed: in whole minor units where it is 1 or more. */
char       *cro_words_price_shown (const char          *currency,
                                   gint64               price);

/* A sentence. */
char       *cro_words_list_reason (CroModel            *model,
                                   const CroPriceList  *list,
                                   const CroListRow    *row,
                                   const CroListReason *reason);

/* What it is called there; of a message the whole line where that is not wholly understood. Borrowed. */
const char *cro_words_list_name   (const CroListRow    *row);

/* "line 4: Mussels": where it is and what it is called there. */
char       *cro_words_list_row    (const CroListRow    *row);

/* Why nothing of the file is taken; NULL: something is. error may be NULL. */
char       *cro_words_list_refused (const CroPriceList *list,
                                   const GError        *error);

/* "columns as last time: supplier’s code, ingredient, price"; NULL: nobody said so. */
char       *cro_words_list_columns (const CroPriceList *list);

/* Money of the document: "8.00", of one in another currency than the book's "8.00 GBP". */
char       *cro_words_list_money   (const CroPriceList *list,
                                    CroNano             value);
char       *cro_words_list_minor   (const CroPriceList *list,
                                    gint64              minor);

/* "allowances of 5.00 on the whole document are not spread over its lines", or what becomes of them, and how much of
 * that waits; NULL: there are none. */
char       *cro_words_list_unspread (const CroPriceList *list);

/* Why charges on the whole are not spread, though that was said; NULL. */
char       *cro_words_list_not_spread (const CroPriceList *list);

/* "“2026-02-30” is not a date; the invoice is booked on 28 Feb 2026"; NULL: its dates are dates, or it has none. */
char       *cro_words_list_date    (const CroPriceList *list);

/* "the invoice names “Far bank” as seller"; NULL: it names the supplier, or nobody. */
char       *cro_words_list_seller  (const CroPriceList *list);

/* "read from the sheet “Prices” of 2"; NULL: there is one only, or it is no workbook. */
char       *cro_words_list_sheet   (const CroPriceList *list);

/* "the invoice says that its lines add up to 240.00, and they add up to 235.52"; NULL: they do. */
char       *cro_words_list_total   (const CroPriceList *list);

/* Of what the document comes to: "booked 199.52 of 235.52"; in another currency "booked 423.00 GBP (485.61 EUR) of
 * 423.00 GBP", and how much less that is for what somebody said is given back. NULL: it is no invoice. */
char       *cro_words_list_booked  (const CroPriceList *list,
                                    CroModel           *model);
/* The same of what the book has already. */
char       *cro_words_list_in_book (const CroPriceList *list,
                                    CroModel           *model);
/* "posting books 36.00"; NULL: nothing. */
char       *cro_words_list_to_book (const CroPriceList *list,
                                    CroModel           *model);

/* "Hake, 10 kg: quoted 102.00, billed 116.00, 14.00 to reclaim"; NULL: both are the same, or nothing was
 * quoted. */
char       *cro_words_list_reclaim (CroModel           *model,
                                   const CroPriceList  *list,
                                   const CroListRow    *row);

/* In all, "14.00 to reclaim"; NULL: nothing is. */
char       *cro_words_list_reclaim_all (const CroPriceList *list);

/* Of a line that goes back at a price in millionths that was not billed, NULL: nothing was; and of one of which more
 * goes back than was bought. */
char       *cro_words_list_goods_or_price (const CroListRow *row,
                                           const char       *billed);
char       *cro_words_list_more_back (const CroListRow    *row,
                                      const CroListReason *reason);

G_END_DECLS
