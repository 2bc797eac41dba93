/* cro-month-question.h: what a month's figures ask of whoever reads them.
 *
 * Each kind is told by its code, which closing freezes: where a kind stands in the enumeration, by which
 * questions are sorted, means nothing outside the program.
 *
 * Ownership  Texts of a question are its month's; codes are static. */
#pragma once

#include "cro-figures.h"

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  CRO_QUESTION_TILL,            /* "till"; by how much ours is more, in money with all its digits; "at least 8.50",
                                   where some sales have no revenue yet */
  CRO_QUESTION_TILL_GROSS,      /* "till"; likewise, both with tax */
  CRO_QUESTION_TILL_TAX,        /* "till"; by how much its total with tax is below the one without */
  CRO_QUESTION_LEDGER,          /* "ledger"; as that of the till */
  CRO_QUESTION_TAX,             /* "tax"; nobody has set one, and net sales rest on prices with it; no day */
  CRO_QUESTION_STOCK,           /* "stock", day; what was entered as one sum and, where anything is known of it, what
                                   was counted is worth: "1500.55 entered, 1937.94 counted, 437.39 difference" */
  CRO_QUESTION_COUNTED_AFTER,   /* "stock", which nobody counted or entered at the end of a month; the first day after
                                   that with a count */
  CRO_QUESTION_NOT_COUNTED,     /* item, day; "counted on 2026-11-01" where it was counted some morning after */
  CRO_QUESTION_MISSING,         /* cause, as its code; no day */
  CRO_QUESTION_FIRST_STOOD,     /* thing, the day of the recipes that it is costed by */
  CRO_QUESTION_BEFORE,          /* month before the journal; the book's first day */
  CRO_QUESTION_SALE_TWICE,      /* thing, day */
  CRO_QUESTION_COUNT_TWICE,     /* item, day */
  CRO_QUESTION_PURCHASE_TWICE,  /* what was bought, day */
  CRO_QUESTION_ADJUSTMENT_TWICE,
  CRO_QUESTION_FAR_AMOUNT,      /* thing, item or purchase, day; table, column and number: "sales sold 96385074" */
  CRO_QUESTION_FAR_PRICE,       /* item, day of the purchase */
  CRO_QUESTION_MORE_THAN_THERE, /* item, day of the count */
  CRO_QUESTION_UNIT,            /* item, day; the unit that would explain */
  CRO_QUESTION_NO_VALUE,        /* adjustment without an amount and a value */
  CRO_QUESTION_OPENING,         /* the month before, closed since with another stock; its last day; of a month that
                                   opened with none the money of that stock, with all its digits. explains is NaN
                                   where one of the two is none */
  CRO_QUESTION_NEXT_OPENED,     /* the month after, closed, which opened with another stock than this one has; this
                                   one's last day; the money that it opened with, with all its digits; NULL: none */
  CRO_QUESTION_BOOKED_LATER,    /* a later month, closed before this one was opened again; money that it booked of this
                                   one, with all its digits, of food, or of each kind of purchase: "food 14.00,
                                   disposable -14.00"; no day */
  CRO_QUESTION_EARLIER_OPEN,    /* when it was closed: an earlier month; no day */
  CRO_QUESTION_LATER_CLOSED,    /* when it was closed: a later month; no day */
  CRO_N_QUESTIONS,
} CroMonthQuestionKind;

typedef struct
{
  CroMonthQuestionKind kind;
  const char          *about;
  CroDate              day;       /* CRO_NO_DAY */
  const char          *detail;    /* a code: of a unit, a cause; money; NULL */
  double               explains;  /* money of over; NaN */
} CroMonthQuestion;

/* Before money in a detail. */
#define CRO_MONTH_AT_LEAST "at least "

/* Before a date in a detail. */
#define CRO_MONTH_COUNTED_ON "counted on "

/* "not-counted". */
const char *cro_month_question_code     (CroMonthQuestionKind    kind);

/* FALSE of a code that is none, and of NULL. */
gboolean    cro_month_question_parse    (const char             *code,
                                         CroMonthQuestionKind   *kind);

/* What it asks, as scripts read it: "not counted on 2026-10-31". Owned. */
char       *cro_month_question_text     (const CroMonthQuestion *question);

/* Whether it asks of two totals that do not go together. */
gboolean    cro_month_question_is_tie   (CroMonthQuestionKind    kind);

/* Whether it asks of the order in which months are closed. */
gboolean    cro_month_question_is_order (CroMonthQuestionKind    kind);

G_END_DECLS
