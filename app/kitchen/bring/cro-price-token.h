/* cro-price-token.h: what a heading or a note of prices is made of: words, rates, days, money, units.
 *
 * Units      Numbers in millionths.
 * Ownership  An array of tokens is the caller's. */
#pragma once

#include "cro-unit.h"

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  CRO_PRICE_TOKEN_WORD,
  CRO_PRICE_TOKEN_NUMBER,  /* of anything */
  CRO_PRICE_TOKEN_RATE,    /* and "%" */
  CRO_PRICE_TOKEN_DAY,     /* "30/11", "3rd", "2026" */
  CRO_PRICE_TOKEN_MONEY,   /* the sign or the name of a currency */
  CRO_PRICE_TOKEN_UNIT,
  CRO_PRICE_TOKEN_PLUS,
  CRO_PRICE_TOKEN_STROKE,
  CRO_PRICE_TOKEN_DOUBT,   /* "?" */
  CRO_PRICE_TOKEN_MARK,    /* "*": of what has that mark, where it does not say that it is of prices */
  CRO_PRICE_TOKEN_END,     /* of a sentence */
} CroPriceTokenKind;

typedef struct
{
  CroPriceTokenKind kind;
  char     *word;      /* folded; of a word, and of a day as it is written */
  gint64    number;    /* of a number or a rate; CRO_NOT_SET: none that is read */
  CroUnit   unit;
  gboolean  is_pound;  /* of money */
} CroPriceToken;

/* Words behind which a unit is what a price is for, bounded by |. */
extern const char cro_price_per_words[];

/* The CroPriceTokens of a text. */
GArray  *cro_price_tokens_of (const char *text);

/* Whether a folded word is among words, which have | around each. */
gboolean cro_price_is_among  (const char *word,
                              const char *words);

/* The same of any word of a folded text. */
gboolean cro_price_has_word  (const char *folded,
                              const char *words);

/* Whether the token at i is one of those words. */
gboolean cro_price_token_is  (const GArray *tokens,
                              guint         i,
                              const char   *words);

/* The bytes of the blanks of any kind with which a text begins. */
gsize    cro_price_scan_spaces (const char *text);

G_END_DECLS
