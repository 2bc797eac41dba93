/* cro-month-statement.h: the statement of a month as rows of texts, in the order of checks: what was
 * sold, opened with, bought, counted and adjusted, and what that makes of its food cost (cro-month.h).
 *
 * Lines are rounded so that they add up (cro-month-words.h). */
#pragma once

#include "cro-month-table.h"
#include "cro-month.h"

G_BEGIN_DECLS

/* Its lines, in their order. */
typedef enum
{
  CRO_STATEMENT_SALES,
  CRO_STATEMENT_COSTED,         /* of plates and menus */
  CRO_STATEMENT_REVENUE,        /* without a plate */
  CRO_STATEMENT_TILL,
  CRO_STATEMENT_OPENING,
  CRO_STATEMENT_BOUGHT,
  CRO_STATEMENT_EARLIER,
  CRO_STATEMENT_ESTIMATE,
  CRO_STATEMENT_CLOSING,
  CRO_STATEMENT_USED,
  CRO_STATEMENT_ADJUSTMENTS,    /* over the lines of each kind */
  CRO_STATEMENT_TRANSFER_IN,
  CRO_STATEMENT_TRANSFER_OUT,
  CRO_STATEMENT_PROMOTION,
  CRO_STATEMENT_OTHER,
  CRO_STATEMENT_STAFF,
  CRO_STATEMENT_ACTUAL,
  CRO_STATEMENT_THEORETICAL,
  CRO_STATEMENT_OVER,
  CRO_STATEMENT_WASTE,
  CRO_STATEMENT_DISPOSABLES,
  CRO_STATEMENT_EARLIER_DISPOSABLES,
  CRO_STATEMENT_OTHER_PURCHASES,
  CRO_STATEMENT_EARLIER_OTHER,
  CRO_STATEMENT_PURCHASES,
  CRO_STATEMENT_LEDGER,
  CRO_N_STATEMENT_LINES,
} CroStatementLine;

/* Its columns. */
enum
{
  CRO_STATEMENT_NAME,
  CRO_STATEMENT_MONEY,
  CRO_STATEMENT_OF_SALES,       /* per cent of net sales */
  CRO_STATEMENT_OF_COSTED,      /* of those of plates and menus */
  CRO_N_STATEMENT_COLUMNS,
};

/* is_form: to be filled in, with lines for what is not entered yet; those say so, and show no 0. */
CroMonthTable    *cro_month_statement_new  (CroModel       *model,
                                            const CroMonth *month,
                                            gboolean        is_form);

/* The lines that something is entered for, from 1 on: of sales, the stock at both ends, purchases,
 * adjustments; 0 of the others. */
guint             cro_statement_number     (CroStatementLine line);

/* A statement with its lines numbered, what is said of each beside it, and another month's money, whose
 * statement may be NULL. Columns: name, note, money, per cent of net sales, of those of plates and menus where
 * they are others, the other month's money. */
CroMonthTable    *cro_month_statement_beside (CroModel       *model,
                                            const CroMonth *month,
                                            const CroMonth *other,
                                            gboolean        is_form);

/* How a line comes about, of lines of a statement: a sum of CroSumToken; NULL: it is none. */
GPtrArray        *cro_month_statement_sum  (CroModel       *model,
                                            const CroMonth *month,
                                            CroStatementLine line);

/* The first line that waits for something to be entered; CRO_N_STATEMENT_LINES: none does. */
CroStatementLine  cro_month_first_waiting  (const CroMonth *month);

G_END_DECLS
