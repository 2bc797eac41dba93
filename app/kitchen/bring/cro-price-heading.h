/* cro-price-heading.h: what the heading of a column of prices says of them: with or without tax,
 * in which currency, before or after a discount, of when, for how much. In English and in French; words are common
 * practice, no source. */
#pragma once

#include "cro-date.h"
#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  CRO_PRICE_TAX_UNSAID,
  CRO_PRICE_WITHOUT_TAX,
  CRO_PRICE_WITH_TAX,
} CroPriceTax;

CroPriceTax cro_price_heading_tax (const char *heading);

/* The same with the rate that it says is in them, "Price incl. 10 % VAT", in millionths of a per cent; 0: none. */
CroPriceTax cro_price_heading_tax_at (const char *heading,
                                      gint64     *pct);

/* Whether it speaks of the tax in prices, and not of an invoice or a number for it, and what it says is not
 * understood. */
gboolean cro_price_heading_leaves_tax_open (const char *heading);

/* What a column beside the prices has of tax; of several the later one tells more. */
typedef enum
{
  CRO_TAX_COLUMN_NONE,
  CRO_TAX_COLUMN_GROSS,    /* "Gross price", "Prix brut": with tax, or before a discount */
  CRO_TAX_COLUMN_CODE,     /* "VAT code" */
  CRO_TAX_COLUMN_RATE,     /* "VAT %", "Taux de TVA" */
  CRO_TAX_COLUMN_OPEN,     /* "VAT": amounts, or a rate */
  CRO_TAX_COLUMN_AMOUNT,   /* "VAT amount", "TVA 21 %", "VAT EUR" */
} CroTaxColumn;

CroTaxColumn cro_price_heading_tax_column (const char *heading);

/* "HT", "Net", "TTC", "Gross": a price, where no other heading is of one and a column of tax, or what it says itself,
 * tells that it is money. */
gboolean cro_price_heading_is_sum (const char *heading);

/* The currency that it names, by its sign, a word or a code that is no unit or everyday word: "Price £", "prix (eur)",
 * "Prices in pounds", which elsewhere are a weight. Owned: the sign or the code; NULL: none. */
char *cro_price_heading_dup_currency (const char *heading);

/* All that a note without a number names, in which pounds are money. Owned. */
GStrv cro_price_heading_dup_currencies (const char *text);

/* "Total", "Amount due", "Montant": what may be the price with its tax; nothing is too. */
gboolean cro_price_heading_is_total (const char *heading);

/* "Last week", "ancien prix": a price that no longer holds. */
gboolean cro_price_heading_is_past (const char *heading);

/* Whether a folded word of a heading of prices is one of those that tell them apart. */
gboolean cro_price_heading_is_word (const char *folded);

/* Whether a heading of prices says nothing but what is understood: their tax, currency, measure and whose they are, of
 * whom also, a supplier's name, tells. Any word more, "Price Monday", "Price (half case)", may make them others.
 * *is_of_other_time: it names a day, a week, a month or a year that does not have that day, "Price week 50". */
gboolean cro_price_heading_is_whole (const char *heading,
                                     const char *also,
                                     CroDate     day,
                                     gboolean   *is_of_other_time);

/* "Net price": after what is taken off. */
gboolean cro_price_heading_is_net (const char *heading);

/* Which of two is to be paid, without tax and for the pack where both are: above 0 the first, below
 * 0 the second; 0: nothing tells. */
int cro_price_heading_compare (const char *one, const char *other);

G_END_DECLS
