#include "cro-month-question.h"

#include <string.h>

typedef struct { const char *code, *text; } Told;

/* Without a default, so that a kind that is not told does not compile. */
static Told
told_of (CroMonthQuestionKind kind)
{
  switch (kind)
    {
    case CRO_QUESTION_TILL:
      return (Told){ "till", "net sales differ by" };
    case CRO_QUESTION_TILL_GROSS:
      return (Told){ "till-gross", "sales with tax differ by" };
    case CRO_QUESTION_TILL_TAX:
      return (Told){ "till-tax", "the total with tax is below the one without by" };
    case CRO_QUESTION_LEDGER:
      return (Told){ "ledger", "purchases differ by" };
    case CRO_QUESTION_TAX:
      return (Told){ "tax", "not set, counted as 0" };
    case CRO_QUESTION_STOCK:
      return (Told){ "stock", "the stock is entered as one sum and counted on" };
    case CRO_QUESTION_COUNTED_AFTER:
      return (Told){ "counted-after", "neither counted nor entered at the end of the month, counted on" };
    case CRO_QUESTION_NOT_COUNTED:
      return (Told){ "not-counted", "not counted on" };
    case CRO_QUESTION_MISSING:
      return (Told){ "missing", "missing:" };
    case CRO_QUESTION_FIRST_STOOD:
      return (Told){ "first-stood", "costed as it first stood, on" };
    case CRO_QUESTION_BEFORE:
      return (Told){ "before-journal", "before the journal; recipes of" };
    case CRO_QUESTION_SALE_TWICE:
      return (Told){ "sale-twice", "the same sale twice on" };
    case CRO_QUESTION_COUNT_TWICE:
      return (Told){ "count-twice", "the same count twice on" };
    case CRO_QUESTION_PURCHASE_TWICE:
      return (Told){ "purchase-twice", "the same purchase twice on" };
    case CRO_QUESTION_ADJUSTMENT_TWICE:
      return (Told){ "adjustment-twice", "the same adjustment twice on" };
    case CRO_QUESTION_FAR_AMOUNT:
      return (Told){ "far-amount", "far beyond the others on" };
    case CRO_QUESTION_FAR_PRICE:
      return (Told){ "far-price", "bought far from its price on" };
    case CRO_QUESTION_MORE_THAN_THERE:
      return (Told){ "more-than-there", "more counted than was there on" };
    case CRO_QUESTION_UNIT:
      return (Told){ "unit", "the amount would explain in another unit on" };
    case CRO_QUESTION_NO_VALUE:
      return (Told){ "no-value", "an adjustment without a value on" };
    case CRO_QUESTION_OPENING:
      return (Told){ "opening", "closed since with another stock on" };
    case CRO_QUESTION_NEXT_OPENED:
      return (Told){ "next-opened", "closed, and opened with another stock than that of" };
    case CRO_QUESTION_BOOKED_LATER:
      return (Told){ "booked-later", "booked in a later month that is closed, and taken off here:" };
    case CRO_QUESTION_EARLIER_OPEN:
      return (Told){ "earlier-open", "an earlier month was open when this one was closed" };
    case CRO_QUESTION_LATER_CLOSED:
      return (Told){ "later-closed", "a later month was closed before this one" };
    case CRO_N_QUESTIONS:
      break;
    }
  g_return_val_if_reached (((Told){ "", "" }));
}

const char *
cro_month_question_code (CroMonthQuestionKind kind)
{
  return told_of (kind).code;
}

gboolean
cro_month_question_parse (const char           *code,
                          CroMonthQuestionKind *kind)
{
  for (guint k = 0; code != NULL && k < CRO_N_QUESTIONS; k++)
    if (strcmp (told_of (k).code, code) == 0)
      {
        *kind = k;
        return TRUE;
      }
  return FALSE;
}

char *
cro_month_question_text (const CroMonthQuestion *question)
{
  GString *text = g_string_new (told_of (question->kind).text);
  char day[CRO_DATE_CHARS];

  if (question->day != CRO_NO_DAY)
    {
      cro_date_format (question->day, day);
      g_string_append_printf (text, " %s", day);
    }
  if (question->detail != NULL)
    g_string_append_printf (text, "%s%s", question->day != CRO_NO_DAY ? ": " : " ", question->detail);
  return g_string_free (text, FALSE);
}

gboolean
cro_month_question_is_tie (CroMonthQuestionKind kind)
{
  return kind == CRO_QUESTION_TILL || kind == CRO_QUESTION_TILL_GROSS
         || kind == CRO_QUESTION_TILL_TAX || kind == CRO_QUESTION_LEDGER;
}

gboolean
cro_month_question_is_order (CroMonthQuestionKind kind)
{
  return kind == CRO_QUESTION_EARLIER_OPEN || kind == CRO_QUESTION_LATER_CLOSED || kind == CRO_QUESTION_NEXT_OPENED;
}
