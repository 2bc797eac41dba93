/* cro-month-words.h: months as people read them, in both programs. Texts are the caller's to free. */
#pragma once

#include "cro-month.h"

G_BEGIN_DECLS

/* "October 2026". */
char *cro_month_to_text        (CroDate                 first);

/* What a month asks, as a sentence without its full stop. is_named: another month is "October 2026" there, not
 * "2026-10", as commands and spreadsheets have it. */
char *cro_month_question_words (const CroMonthQuestion *question,
                                gboolean                is_named);

/* What of the thing that a question is about is missing; FALSE: it asks something else, or lacks a selling
 * price. */
gboolean cro_month_question_cause (const CroMonthQuestion *question,
                                CroCauseKind           *cause);

/* Of a closed month: where those documents count that came since, and what can be done. NULL: none did. */
char *cro_month_late_words     (CroModel               *model,
                                const CroMonth         *month);

/* What is asked about amounts and money far beyond the others of a month, a line each of the first few. NULL: nothing.
 * Owned. */
char *cro_month_far_words      (const CroMonth         *month);

/* That a closed month is not what closing left, this one or one that its figures rest on, and what can be done.
 * NULL: none is known to have been altered. Owned. */
char *cro_month_altered_words  (const CroMonth         *month);

/* "October 2026": the months whose documents of a kind came late into an open month; NULL: none's did, or it is
 * closed. */
char *cro_month_late_of_words  (const CroMonth         *month,
                                guint                   kind);

/* "November 2026": the months after it that were closed with documents of it, of a kind; NULL: none. */
char *cro_month_later_of_words (const CroMonth         *month,
                                guint                   kind);

/* What the lines of a kind are called: of what came late for earlier months, and of what later ones have booked of the
 * month's own. Static. */
const char *cro_month_earlier_name (guint               kind);
const char *cro_month_later_name (guint                 kind);

/* "perhaps 23.10 of the difference"; NULL where nothing can be said. */
char *cro_month_explains_words (CroModel               *model,
                                const CroMonthQuestion *question);

/* The control of the closing stock by weighted average, as a sentence; NULL where nothing was bought and
 * counted in amounts. */
char *cro_month_average_words  (CroModel               *model,
                                const CroMonth         *month);

/* "of which estimates reversed −120.50": what of food of earlier months is no document that came late; NULL
 * where there is none. */
char *cro_month_reversed_words (const CroMonth         *month,
                                int                     digits);

/* How net sales stand to a till's, all purchases to a ledger's, which are known: "agrees", or the difference and
 * what of it is estimated. */
char *cro_month_till_words     (const CroMonth         *month,
                                int                     digits);
char *cro_month_ledger_words   (const CroMonth         *month,
                                int                     digits);

/* How sales with tax stand to a till's that says its total with tax alone. */
char *cro_month_gross_words    (const CroMonth         *month,
                                int                     digits);

/* What each line of the statement is in minor units of the currency: all purchases are rounded first, then their
 * parts so that they add up to that; the theoretical cost and the difference, then the actual cost is what leads from
 * one to the other, then its parts, of which food that was bought is one already, so that they add up to it; what is
 * whole minor units, as documents have it, is never moved (costing.md, section 12). Parts have the sign with which
 * they enter. A figure that does not exist leaves 0. */
typedef struct
{
  gint64 net_sales, net_sales_costed;
  gint64 opening, bought, earlier, estimate, closing, used;
  gint64 adjustments[CRO_N_ADJUSTMENT_KINDS];
  gint64 actual, theoretical, over, waste;
  gint64 purchases;           /* all kinds, late ones and the estimate with them */
  gint64 of_kind[CRO_N_PURCHASE_KINDS], earlier_of_kind[CRO_N_PURCHASE_KINDS]; /* the first those of food above */
  gint64 later_of_kind[CRO_N_PURCHASE_KINDS]; /* below 0 of what was bought: later months have booked it */
  gboolean is_shifted;        /* a line is another than its own rounding, so that all add up */
  gboolean adds_up;           /* FALSE: lines are rounded each, for they are not the statement's */
} CroMonthMinor;

void  cro_month_round          (const CroMonth         *month,
                                int                     digits,
                                CroMonthMinor          *minor);

G_END_DECLS
