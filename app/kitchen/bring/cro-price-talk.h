/* cro-price-talk.h: what a line of a message that prices no goods may say of the prices around it. In English and in
 * French; words are common practice, no source.
 *
 * It is of the prices unless all of it is of a letter (cro-price-letter.h). Who writes in other words is asked once of
 * the whole message. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Whether a line may say of prices, however many, that they are others: "wrong price above", "both up 5 %", "12.50 for
 * two", and all that is not known. has_price: its number is read as the price of what it names, which the book does not
 * know; also: as of cro_price_saying_of (). */
gboolean cro_price_talk_may_be_of_prices (const char *line,
                                          gboolean    has_price,
                                          const char *also);

/* Whether what is said of the currency or the pack of all prices is of more than that: "add a euro", "the box is
 * extra". */
gboolean cro_price_talk_adds              (const char *note);

/* Whether the words beside a price name no goods, or there are none. also: as of cro_price_saying_of (). */
gboolean cro_price_talk_names_nothing    (const char *words,
                                          const char *also);

/* Whether a line is a price of no goods, "oops, 11.40", "make that 11.40", which is that of its neighbour. name: its
 * words without what is of the price; also: as of cro_price_saying_of (). */
gboolean cro_price_talk_is_bare_price    (const char *line,
                                          const char *name,
                                          const char *also);

/* Whether it has a word that takes back what was said of the goods that it names: "forget", "sorry", "off". */
gboolean cro_price_talk_takes_back       (const char *line);

/* Whether a line may be the name of who wrote a message, "Pia", "Pia x", and is no word of prices. */
gboolean cro_price_talk_is_name          (const char *line);

/* Whether words beside a name are of other goods of that name: "smoked", "claws". */
gboolean cro_price_talk_is_of_other_kind (const char *words);

G_END_DECLS
