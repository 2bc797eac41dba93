/* cro-price-letter.h: the lines of a supplier's letter that say nothing of its prices: greetings and thanks, telephones
 * and addresses, orders and deliveries, what they cost, terms of payment, the title of the list, headings of groups.
 *
 * They are a closed set of forms, in English and in French, and a line is of the letter only as a whole: "free delivery
 * over 60" is one, "free" and "over 60" are none. Common practice, no source. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Whether all of a line is of such forms. also: a folded text of names that may stand there, as those of suppliers;
 * NULL. */
gboolean cro_price_letter_has_line     (const char *line,
                                       const char *also);

/* A line without telephone numbers, addresses of mail, and hours: "07700 900123", "17:30". Owned. */
char    *cro_price_letter_dup_uncalled (const char *line);

/* What is left of a line without its parts that are of such forms: "Morning chef, lovely crab". Owned. */
char    *cro_price_letter_dup_rest     (const char *line);

/* Whether a line may be the name of who wrote it: "Pia", "Pia x". */
gboolean cro_price_letter_is_name      (const char *line);

G_END_DECLS
