/* cro-price-saying.h: what a heading or a note says of prices: with or without tax, at what rate, for how much.
 *
 * It is read by a closed grammar, all of whose words are known (English and French; common practice, no source).
 * A text that speaks of tax in other words, or in another order, is open: what it says is to be asked, and is
 * never taken for the part of it that is known.
 *
 * Units      Per cents in millionths. */
#pragma once

#include "cro-brought-pack.h"
#include "cro-price-heading.h"

G_BEGIN_DECLS

typedef struct
{
  CroPriceTax tax;             /* of what is understood */
  gint64      tax_pct;         /* the rate that is said to be in them; 0: none */
  gboolean    is_tax_open;     /* it speaks of tax, and is not understood; tax is unsaid then */
  gboolean    may_have_tax;    /* "included", "no longer ex VAT": with tax, of whichever */
  gboolean    speaks_of_prices; /* "prices", "tarif" */
  gboolean    is_all_known;    /* it has no word that could be of goods */
  gboolean    is_net;          /* "net", "gross", of which a note says nothing for sure */
  gboolean    has_exception;   /* "except", "sauf" */
  gboolean    is_negated;      /* "not", "aucun" */
  gboolean    is_gross;        /* "gross", "brut" */
  gboolean    is_of_below;     /* "the following", "ci-dessous" */
  gboolean    has_day;         /* "from 7 December" */
  gboolean    has_money;       /* "€", "pounds" */
  gboolean    has_number;      /* that is no rate, day, nor of what the price is for */
  gboolean    has_price;       /* one of its numbers may be a price: none of days, hours, "list no. 50" */
  gboolean    is_beside_number; /* what it says of tax stands beside one, as beside the price of goods */
  gboolean    is_of_all;       /* it begins as what is said of all prices: "all", "in", "per", or speaks of prices */
  gboolean    has_stray_money; /* its money stands beside no number that may be a price: "GBP, 30 days" */
  gboolean    has_stray_unit;  /* so does a unit */
  gboolean    has_rate;        /* "10 %", of tax or of anything */
  gboolean    is_rate;         /* "VAT 20 %", and no more */
  gboolean    is_beside;       /* "(spirits: included)", which another note may be of */
  gboolean    is_pound;        /* "pounds", of money or of weight */
  gboolean    is_unfinished;   /* it ends with what goes on: "Prices do not" */

  CroPricePer per;             /* "/kg", "kg", "per 100 g" */
  gboolean    has_per_word;    /* behind "per" or "/" */
  gboolean    is_per_open;     /* "/5 kg", "each/kg": units, and for how much of them is not clear */
  gboolean    has_pack;        /* "case", "colis" */
} CroPriceSaying;

/* also: a folded text whose words are known too, as of a supplier's name; NULL. */
CroPriceSaying cro_price_saying_of (const char *text,
                                    const char *also);

/* Whether a folded word is one of those that are known. */
gboolean       cro_price_saying_knows (const char *word,
                                       const char *also);

/* Whether a text has any word of those at all, which is told soon. */
gboolean       cro_price_saying_may_be_of_tax (const char *text);

/* Whether it speaks of tax at all. */
gboolean       cro_price_saying_is_of_tax (const CroPriceSaying *self);

/* Whether a heading is of sizes in a unit, "Net wt (g)": of anything but prices and what is in stock. */
gboolean       cro_price_saying_is_size (const char *heading,
                                         CroUnit    *unit);

/* Whether words beside a price that is said to be with or without tax say more of that: "not", "but". */
gboolean       cro_price_saying_qualifies (const char *text);

G_END_DECLS
