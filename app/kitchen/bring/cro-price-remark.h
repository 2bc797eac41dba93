/* cro-price-remark.h: what words beside a price, in a remark or a name, say of it. In English and in French; words are
 * common practice, no source. */
#pragma once

#include "cro-price-saying.h"

G_BEGIN_DECLS

/* Whether a remark says nothing of its price: all its words are known to be of the goods, "washed", "class 1",
 * "82 % fat", "order by Tuesday"; what is not known may say anything. also: folded words that are known too; NULL. */
gboolean      cro_price_remark_is_plain   (const char       *text,
                                           const char       *also);

/* The same of what stands beside a name, whose numbers are of sizes. */
gboolean      cro_price_words_are_plain   (const char       *text,
                                           const char       *also);

/* Whether any of it is known to be of prices, of days or of what is not to be had: "out", "stop", "promo", "12.40 €";
 * else it may be a name. */
gboolean      cro_price_words_are_doubtful (const char      *text);

/* Whether it has anywhere for how much a price is: "fresh, per kg", "sold by the bunch", "each". A whole pack, "per
 * box", is what a price is for anyway. */
gboolean      cro_price_remark_says_per   (const char       *text);

/* Whether a name says nothing of its price; its numbers are of sizes. "Sugar, promo", "Sugar -10 %" are not. */
gboolean      cro_price_name_is_plain     (const char       *text);

/* Whether a text has a word for what is not sold or not priced: "discontinued", "POA". */
gboolean      cro_price_remark_is_gone    (const char       *text);

/* Whether what a text says changes a price: "All prices less 10 %", "remise 5 %", "energy surcharge 1.50 per case".
 * What is taken off who pays soon is none. saying: of that text. */
gboolean      cro_price_remark_is_change  (const char           *text,
                                           const CroPriceSaying *saying);

/* Whether it adds per cents that are of no tax: "All prices +3 %", "plus 3 % energy surcharge"; "HT + 10 %" is of
 * tax. */
gboolean      cro_price_remark_adds_rate  (const char       *text);

/* Whether a cell says no: "non", "none". */
gboolean      cro_price_cell_is_no        (const char       *text);

/* Whether it answers what a heading asks, "yes", "N", "up", and says no more. */
gboolean      cro_price_cell_is_answer    (const char       *text);

/* Whether a cell under a heading that asks so says that goods are to be had: "yes", "low stock", "12". */
gboolean      cro_price_cell_is_had       (const char       *text);

G_END_DECLS
