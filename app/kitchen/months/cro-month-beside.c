/* A statement as a page has it: numbered, with another month beside it. */
#include "config.h"

#include "cro-month-statement.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-month-lines.h"
#include "cro-month-words.h"
#include "cro-number.h"
#include "cro-sum.h"

guint
cro_statement_number (CroStatementLine line)
{
  switch (line)
    {
    case CRO_STATEMENT_SALES:
      return 1;
    case CRO_STATEMENT_OPENING:
      return 2;
    case CRO_STATEMENT_BOUGHT:
      return 3;
    case CRO_STATEMENT_CLOSING:
      return 4;
    case CRO_STATEMENT_ADJUSTMENTS:
      return 5;
    default:
      return 0;
    }
}

/* --- Beside another month ------------------------------------------------------------------- */

enum
{
  NAME,
  NOTE,
  MONEY,
  OF_SALES,
  OF_COSTED,
  OTHER,
  N_COLUMNS,
};

/* Lines without a number begin where the names of the others do. */
#define NUMBER_CHARS 2

static void
add_line (CroMonthTable          *table,
          CroStatementLine        line,
          const CroMonthTableRow *of_month,
          const CroMonthTableRow *of_other,
          const char             *beside,
          gboolean                has_two_shares)
{
  const CroMonthTableRow *named = of_month != NULL ? of_month : of_other;
  guint number = cro_statement_number (line);
  g_autofree char *name = number > 0 ? g_strdup_printf ("%u  %s", number, named->cells[CRO_STATEMENT_NAME])
                                     : g_strdup (named->cells[CRO_STATEMENT_NAME]);
  CroMonthTableRow *row = cro_month_table_add (table, (int) line, name);

  row->indent = number > 0 ? 0 : named->indent + NUMBER_CHARS;
  row->is_apart = named->is_apart;
  row->is_sum = named->is_sum;
  row->cells[OTHER] = g_strdup (beside);
  if (of_month == NULL)
    return;
  row->cells[NOTE] = g_strdup (of_month->note);
  row->cells[MONEY] = g_strdup (of_month->cells[CRO_STATEMENT_MONEY]);
  row->cells[OF_SALES] = g_strdup (of_month->cells[CRO_STATEMENT_OF_SALES]);
  if (has_two_shares)
    row->cells[OF_COSTED] = g_strdup (of_month->cells[CRO_STATEMENT_OF_COSTED]);
}

/* Of another month's line, which it may not have. Food as a ledger has it stands in both months where it stands in
 * one; how far a month is over is shown as the line is named for this one, under where that is under: one that is not
 * shows its sign. */
static char *
dup_beside (CroStatementLine        line,
            const CroMonthTableRow *one,
            const CroMonthTableRow *two,
            const CroMonth         *month,
            const CroMonth         *other,
            const CroMonthLines    *lines)
{
  const CroMonthLine *of_other = &lines->all[line];
  gboolean is_turned = line == CRO_STATEMENT_OVER && month->over < 0;

  if (one == NULL || (line != CRO_STATEMENT_FOOD && line != CRO_STATEMENT_OVER))
    return two != NULL ? g_strdup (two->cells[CRO_STATEMENT_MONEY]) : NULL;
  return of_other->has_money ? cro_month_table_money (is_turned ? cro_known_turned (of_other->known) : of_other->known,
                                                      is_turned ? -of_other->minor : of_other->minor,
                                                      cro_currency_digits (other->currency))
                             : NULL;
}

/* A total with tax is not held against one without; one that is not entered has no line of its own. */
static gboolean
is_otherwise (CroStatementLine        line,
              const CroMonthTableRow *one,
              const CroMonthTableRow *two)
{
  return line == CRO_STATEMENT_TILL && two->cells[CRO_STATEMENT_MONEY] != NULL
         && strcmp (one->cells[CRO_STATEMENT_NAME], two->cells[CRO_STATEMENT_NAME]) != 0;
}

CroMonthTable *
cro_month_statement_beside (CroModel       *model,
                            const CroMonth *month,
                            const CroMonth *other,
                            gboolean        is_form)
{
  g_autoptr (CroMonthTable) of_month = cro_month_statement_new (model, month, is_form);
  g_autoptr (CroMonthTable) of_other = other != NULL ? cro_month_statement_new (model, other, is_form) : NULL;
  g_autoptr (CroMonthLines) lines = other != NULL ? cro_month_lines_new (other) : NULL;
  gboolean has_two_shares = month->net_sales != month->net_sales_costed;
  g_autofree char *name = cro_month_to_text (month->first);
  g_autofree char *other_name = other != NULL ? cro_month_to_text (other->first) : NULL;
  const char *titles[N_COLUMNS] = { NULL, NULL, name, _("of net sales"),
                                    has_two_shares ? _("of plates and menus") : NULL, other_name };
  CroMonthTable *table = cro_month_table_new (N_COLUMNS, titles);

  table->words |= 1u << NOTE;
  table->spared |= 1u << OF_COSTED;
  for (int line = 0; line < CRO_N_STATEMENT_LINES; line++)
    {
      const CroMonthTableRow *one = cro_month_table_find (of_month, line);
      const CroMonthTableRow *two = of_other != NULL ? cro_month_table_find (of_other, line) : NULL;
      g_autofree char *beside = other != NULL ? dup_beside (line, one, two, month, other, lines) : NULL;

      if (one != NULL && two != NULL && is_otherwise (line, one, two))
        {
          add_line (table, line, one, NULL, NULL, has_two_shares);
          add_line (table, line, NULL, two, beside, has_two_shares);
        }
      else if (one != NULL || two != NULL)
        add_line (table, line, one, two, beside, has_two_shares);
    }
  for (guint i = 0; i < of_month->notes->len; i++)
    g_ptr_array_add (table->notes, g_strdup (of_month->notes->pdata[i]));
  return table;
}

/* --- Sums ----------------------------------------------------------------------------------- */

static void
token_free (gpointer data)
{
  CroSumToken *token = data;

  g_free (token->text);
  g_free (token);
}

static void
add_token (GPtrArray       *sum,
           CroSumTokenKind  kind,
           const char      *text)
{
  CroSumToken *token = g_new0 (CroSumToken, 1);

  *token = (CroSumToken){ kind, g_strdup (text), CRO_REF_NOWHERE };
  g_ptr_array_add (sum, token);
}

#define MINUS "−"

/* Money as a term, with its sign before it. */
static void
add_term (GPtrArray              *sum,
          const CroMonthTableRow *row,
          gboolean                is_taken)
{
  const char *money = row->cells[CRO_STATEMENT_MONEY];
  gboolean is_below = g_str_has_prefix (money, MINUS);

  if (sum->len > 2 || is_below != is_taken)
    add_token (sum, CRO_SUM_SIGN, is_below != is_taken ? MINUS : "+");
  add_token (sum, CRO_SUM_NUMBER, is_below ? money + strlen (MINUS) : money);
  add_token (sum, CRO_SUM_WORD, row->cells[CRO_STATEMENT_NAME]);
}

/* What a line is the sum of, a bit for each; and what is taken from that. */
static guint
parts_of (CroStatementLine  line,
          guint            *taken)
{
  *taken = line == CRO_STATEMENT_OVER ? 1u << CRO_STATEMENT_THEORETICAL : 0;
  switch (line)
    {
    case CRO_STATEMENT_SALES:
      return 1u << CRO_STATEMENT_COSTED | 1u << CRO_STATEMENT_REVENUE;
    case CRO_STATEMENT_USED:
      return 1u << CRO_STATEMENT_OPENING | 1u << CRO_STATEMENT_BOUGHT | 1u << CRO_STATEMENT_EARLIER
             | 1u << CRO_STATEMENT_LATER | 1u << CRO_STATEMENT_ESTIMATE | 1u << CRO_STATEMENT_CLOSING;
    case CRO_STATEMENT_ACTUAL:
      return 1u << CRO_STATEMENT_USED | 1u << CRO_STATEMENT_TRANSFER_IN | 1u << CRO_STATEMENT_TRANSFER_OUT
             | 1u << CRO_STATEMENT_PROMOTION | 1u << CRO_STATEMENT_OTHER | 1u << CRO_STATEMENT_STAFF;
    case CRO_STATEMENT_OVER:
      return 1u << CRO_STATEMENT_ACTUAL | *taken;
    case CRO_STATEMENT_FOOD:
      return 1u << CRO_STATEMENT_BOUGHT | 1u << CRO_STATEMENT_EARLIER | 1u << CRO_STATEMENT_LATER
             | 1u << CRO_STATEMENT_ESTIMATE;
    case CRO_STATEMENT_PURCHASES:
      return 1u << CRO_STATEMENT_BOUGHT | 1u << CRO_STATEMENT_EARLIER | 1u << CRO_STATEMENT_LATER
             | 1u << CRO_STATEMENT_ESTIMATE | 1u << CRO_STATEMENT_DISPOSABLES
             | 1u << CRO_STATEMENT_EARLIER_DISPOSABLES | 1u << CRO_STATEMENT_LATER_DISPOSABLES
             | 1u << CRO_STATEMENT_OTHER_PURCHASES | 1u << CRO_STATEMENT_EARLIER_OTHER
             | 1u << CRO_STATEMENT_LATER_OTHER;
    default:
      return 0;
    }
}

GPtrArray *
cro_month_statement_sum (CroModel         *model,
                         const CroMonth   *month,
                         CroStatementLine  line)
{
  g_autoptr (CroMonthTable) table = cro_month_statement_new (model, month, TRUE);
  const CroMonthTableRow *row = cro_month_table_find (table, (int) line);
  g_autoptr (GPtrArray) sum = NULL;
  guint taken, parts = parts_of (line, &taken);

  if (row == NULL || row->cells[CRO_STATEMENT_MONEY] == NULL || parts == 0
      || (line == CRO_STATEMENT_ACTUAL && cro_month_table_find (table, CRO_STATEMENT_USED) == NULL))
    return NULL;
  sum = g_ptr_array_new_with_free_func (token_free);
  add_token (sum, CRO_SUM_NUMBER, row->cells[CRO_STATEMENT_MONEY]);
  add_token (sum, CRO_SUM_SIGN, "=");
  for (int part = 0; part < CRO_N_STATEMENT_LINES; part++)
    {
      const CroMonthTableRow *one = (parts & 1u << part) != 0 ? cro_month_table_find (table, part) : NULL;

      if (one != NULL && one->cells[CRO_STATEMENT_MONEY] != NULL)
        add_term (sum, one, (taken & 1u << part) != 0);
    }
  return g_steal_pointer (&sum);
}
