/* cro-month-lines.h: the lines of a month's statement in the order of checks: what was sold, opened with, bought,
 * counted and adjusted, and what that makes of its food cost (cro-month.h). The words, the money and the note of each
 * are made here, once, for tables of texts (cro-month-statement.h) and for a workbook.
 *
 * Units      Minor units of the month's currency, rounded so that lines add up (cro-month-words.h).
 * Ownership  Lines own their texts. */
#pragma once

#include "cro-month.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_STATEMENT_SALES,
  CRO_STATEMENT_COSTED,         /* of plates and menus */
  CRO_STATEMENT_REVENUE,        /* without a plate */
  CRO_STATEMENT_TILL,
  CRO_STATEMENT_OPENING,
  CRO_STATEMENT_BOUGHT,
  CRO_STATEMENT_EARLIER,
  CRO_STATEMENT_LATER,
  CRO_STATEMENT_ESTIMATE,
  CRO_STATEMENT_CLOSING,
  CRO_STATEMENT_USED,
  CRO_STATEMENT_ADJUSTMENTS,    /* a heading over the lines of each kind */
  CRO_STATEMENT_TRANSFER_IN,
  CRO_STATEMENT_TRANSFER_OUT,
  CRO_STATEMENT_PROMOTION,
  CRO_STATEMENT_OTHER,
  CRO_STATEMENT_STAFF,
  CRO_STATEMENT_ACTUAL,
  CRO_STATEMENT_THEORETICAL,
  CRO_STATEMENT_OVER,           /* actual less theoretical */
  CRO_STATEMENT_WASTE,
  CRO_STATEMENT_FOOD,           /* bought, of other months and estimated: what a ledger has */
  CRO_STATEMENT_DISPOSABLES,
  CRO_STATEMENT_EARLIER_DISPOSABLES,
  CRO_STATEMENT_LATER_DISPOSABLES,
  CRO_STATEMENT_OTHER_PURCHASES,
  CRO_STATEMENT_EARLIER_OTHER,
  CRO_STATEMENT_LATER_OTHER,
  CRO_STATEMENT_PURCHASES,
  CRO_STATEMENT_LEDGER,
  CRO_N_STATEMENT_LINES,
} CroStatementLine;

typedef struct
{
  char     *name;
  guint     indent;       /* characters: it is a part of the line above */
  gboolean  is_apart;     /* other lines than those above: room is left between */
  gboolean  is_sum;
  gboolean  is_said;      /* FALSE: it may be left out, for the month has nothing of it */
  gboolean  has_money;    /* FALSE: it is not known, or nothing is entered */
  gint64    minor;        /* with the sign with which it enters */
  CroKnown  known;        /* of it with that sign */
  double    money;        /* unrounded, for its percentages of net sales; NaN: it has none */
  char     *note;         /* NULL: nothing is said of it */
} CroMonthLine;

typedef struct
{
  CroMonthLine  all[CRO_N_STATEMENT_LINES];
  gboolean      adds_up;
  gboolean      is_shifted;   /* as CroMonthMinor has both */
  GPtrArray    *notes;    /* char *: sentences below */
} CroMonthLines;

CroMonthLines *cro_month_lines_new  (const CroMonth *month);
void           cro_month_lines_free (CroMonthLines  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroMonthLines, cro_month_lines_free)

G_END_DECLS
