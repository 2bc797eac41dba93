/* cro-sum-private.h: the numbers of a sum, which are shown with as many digits as it takes.
 *
 * A sum is for a pocket calculator: with the digits that are shown it gives the figure that is shown.
 * Numbers begin with the digits that they have elsewhere, and get more, all of them together, until
 * the sum holds; where no digits of theirs are enough (the figure stands at the edge between two
 * roundings), the figure gets one more. */
#pragma once

#include "cro-sum.h"

#include "cro-known.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_TERM_EXACT,      /* a sign, a word, or a number that is shown as it was entered */
  CRO_TERM_MONEY,
  CRO_TERM_PLAIN,
  CRO_TERM_PCT,        /* value is a fraction */
  CRO_TERM_PRICE,      /* per base unit; shown per kg, l or piece */
  CRO_TERM_AMOUNT,     /* in base units */
} CroTermForm;

/* What an element of a sum is: a token, and what its text is made of. */
typedef struct
{
  CroSumToken token;
  CroTermForm form;
  double      value;
  int         digits;   /* decimals at least: of money, its minor unit's */
  CroBase     base;
  CroKnown    known;
} CroTerm;

/* The figure, and "=". Currency digits and base matter where the form needs them. */
GPtrArray *cro_sum_begin      (CroTermForm  form,
                               double       value,
                               int          digits,
                               CroBase      base,
                               CroKnown     known,
                               CroRef       ref);
void       cro_sum_add        (GPtrArray   *sum,
                               CroTermForm  form,
                               double       value,
                               int          digits,
                               CroBase      base,
                               const char  *says,
                               CroRef       ref);
/* Takes text. */
void       cro_sum_add_exact  (GPtrArray   *sum,
                               char        *text,
                               double       value,
                               const char  *says,
                               CroRef       ref);
void       cro_sum_add_sign   (GPtrArray   *sum,
                               const char  *text);
void       cro_sum_add_word   (GPtrArray   *sum,
                               const char  *text,
                               CroRef       ref);

/* Says how much is known of the number that was added last. */
void       cro_sum_mark       (GPtrArray   *sum,
                               CroKnown     known);

/* Writes all texts. Returns the sum. */
GPtrArray *cro_sum_settle     (GPtrArray   *sum);

/* --- Numbers: cro-sum-number.c ---------------------------------------------------------------- */

/* Where a caller gives no words. */
extern const CroSumWords cro_sum_no_words;

/* Of what a person entered no digit is left out. */
#define CRO_SUM_ALL_DIGITS 6

/* A sum whose figure is money. */
GPtrArray *cro_sum_begin_money     (CroModel   *model,
                                    double      figure,
                                    CroKnown    known,
                                    CroRef      ref);
void       cro_sum_add_money       (GPtrArray  *sum,
                                    CroModel   *model,
                                    double      amount,
                                    const char *says,
                                    CroRef      ref);
void       cro_sum_add_plain       (GPtrArray  *sum,
                                    double      value,
                                    const char *says,
                                    CroRef      ref);
/* Of a base unit; shown per kg, l or piece. */
void       cro_sum_add_price       (GPtrArray  *sum,
                                    CroModel   *model,
                                    CroBase     base,
                                    double      unit_cost,
                                    const char *says,
                                    CroRef      ref);
/* Millionths, as they were entered. */
void       cro_sum_add_entered     (GPtrArray  *sum,
                                    gint64      micro,
                                    const char *says,
                                    CroRef      ref);
void       cro_sum_add_entered_pct (GPtrArray  *sum,
                                    gint64      micro,
                                    const char *says,
                                    CroRef      ref);
/* An amount as it was written, and what other units are in g, ml or pieces: "2 tsp × 5 ml". */
void       cro_sum_add_amount      (GPtrArray  *sum,
                                    gint64      amount,
                                    CroUnit     unit,
                                    CroRef      ref);
/* Base units of an item in one of another base: "0.92" of a volume in a mass, "50 g" of a piece. */
void       cro_sum_add_conversion  (GPtrArray  *sum,
                                    CroBase     from,
                                    CroBase     to,
                                    double      ratio,
                                    CroRef      item);
/* × (1 − k). */
void       cro_sum_add_part_left   (GPtrArray  *sum,
                                    gint64      pct,
                                    const char *says,
                                    CroRef      ref);

#define CRO_SUM_MINUS "−"
#define CRO_SUM_TIMES "×"
#define CRO_SUM_OVER "÷"

G_END_DECLS
