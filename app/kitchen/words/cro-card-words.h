/* cro-card-words.h: the rows of a card and what is said below them, on a screen and on paper.
 *
 * recipe: whose card it is. Texts are the caller's to free. */
#pragma once

#include "cro-book.h"
#include "cro-card.h"
#include "cro-known.h"
#include "cro-ref.h"

G_BEGIN_DECLS

/* "Crab butter (as above)", "Seasoning and handling, 3 %". */
char    *cro_words_card_name   (CroModel         *model,
                                guint32           recipe,
                                const CroCardRow *row);

/* As written where it cannot be converted; NULL of seasoning. */
char    *cro_words_card_amount (CroModel         *model,
                                const CroCardRow *row);

CroKnown cro_known_of_card_row (CroFigures       *figures,
                                guint32           recipe,
                                const CroCardRow *row);

/* share: one of cro_card_dup_shares; NULL: nothing is known. is_short: with the marks of tables of many
 * figures. */
char    *cro_words_card_share  (CroFigures       *figures,
                                guint32           recipe,
                                const CroCardRow *row,
                                double            share,
                                gboolean          is_short);

/* That bands of money in a picture of it are wider than its lines cost, by seasoning and handling; NULL: they
 * are not. */
char    *cro_words_bands_include (CroModel        *model,
                                CroRef            thing);

/* That amounts of its kitchen card are without seasoning and handling; NULL: there is none. */
char    *cro_words_without_allowance (CroModel    *model,
                                CroRef            thing);

/* An amount of a batch as kitchen scales weigh it (cro-scale.h): "179 g", "1.791 kg", "0.75 ml"; pieces
 * to the hundredth. */
char    *cro_words_weighed     (CroBase           base,
                                double            amount);

/* What so many batches take by a line: of one batch as it was typed, else weighed; in spoons and pieces where it was
 * written so and quarters of them make it: "2.25 pc". What they do not is weighed, or without a weight no less than
 * what is needed. */
char    *cro_words_weighed_line (CroModel        *model,
                                guint32           line,
                                double            batches);

/* The same of one bite, the plate making so many; counted in pieces, which are not taken up to quarters: "0.583 pc". */
char    *cro_words_weighed_bite (CroModel        *model,
                                guint32           line,
                                double            bites);

/* "the book of 1 March 2026"; NULL: it is today's. Owned. */
char    *cro_words_book_of     (CroBook          *book);

/* Whose prices and recipes they are: "prices of 1 March 2026", "the book of 1 March 2026". */
char    *cro_words_card_prices (CroBook          *book);

/* What allergens were entered, may be there by the labels, and are not known, a text each. Owned. */
GPtrArray *cro_words_allergens_below (const CroBreakdown *breakdown);

/* The same, and what else is to be asked or known of what stands below a card. Owned. */
GPtrArray *cro_words_below_card (CroBook         *book,
                                 CroRef           thing,
                                 CroBreakdown    *breakdown);

G_END_DECLS
