/* What a month rests on, the closed months before it, and whether they are as closing left them; and what rests on
 * its stock. */
#include "cro-month-private.h"

#include <math.h>
#include <string.h>

#include "cro-frozen-hash.h"
#include "cro-money.h"
#include "cro-number.h"

/* NaN: none. */
static gboolean
is_same_stock (double a,
               double b,
               int    digits)
{
  return isnan (a) || isnan (b) ? isnan (a) == isnan (b) : cro_money_round (a - b, digits) == 0;
}

/* Closed months stand one by one: a stock that is entered or valued anew since does not move the month that opened
 * with it, and two figures of one stock are told where the later one stands. */
gboolean
cro_month_ask_next_opened (CroMonth  *month,
                           CroBook   *book,
                           GError   **error)
{
  CroMonthQuestion question = { CRO_QUESTION_NEXT_OPENED, NULL, cro_month_next (month->first) - 1, NULL, NAN };
  g_autoptr (GPtrArray) rows = cro_month_rows_read (book, error);
  const CroMonthRow *after = rows != NULL ? cro_month_rows_find (rows, cro_month_next (month->first)) : NULL;
  int digits = cro_currency_digits (month->currency);
  g_autoptr (CroMonth) next = NULL;
  g_autofree char *money = NULL;
  char text[CRO_MONTH_CHARS];
  gboolean is_frozen;

  if (after == NULL || !after->is_closed)
    return rows != NULL;
  next = cro_month_thaw (book, after, &is_frozen, error);
  if (next == NULL)
    return FALSE;
  if (!is_frozen || is_same_stock (next->opening, month->closing, digits))
    return TRUE;
  cro_month_format (after->first, text);
  question.about = g_string_chunk_insert_const (month->texts, text);
  if (!isnan (next->opening))
    {
      money = cro_month_dup_minor (cro_money_round (next->opening, digits), digits);
      question.detail = g_string_chunk_insert_const (month->texts, money);
    }
  g_array_append_val (month->questions, question);
  cro_month_sort (month);
  return TRUE;
}

/* The month before may have been closed, or reopened and closed again, since. */
gboolean
cro_month_ask_opening (CroMonth           *month,
                       CroBook            *book,
                       const CroMonthRow  *before,
                       GError            **error)
{
  CroMonthQuestion question = { CRO_QUESTION_OPENING, NULL, month->first - 1, NULL, NAN };
  int digits = cro_currency_digits (month->currency);
  g_autoptr (CroMonth) other = NULL;
  g_autofree char *money = NULL;
  char text[CRO_MONTH_CHARS];
  gboolean is_frozen;

  if (!before->is_closed)
    return TRUE;
  other = cro_month_thaw (book, before, &is_frozen, error);
  if (other == NULL)
    return FALSE;
  if (!is_frozen || is_same_stock (month->opening, other->closing, digits))
    return TRUE;
  cro_month_format (before->first, text);
  question.about = g_string_chunk_insert_const (month->texts, text);
  if (isnan (month->opening))
    {
      money = cro_month_dup_minor (cro_money_round (other->closing, digits), digits);
      question.detail = g_string_chunk_insert_const (month->texts, money);
    }
  question.explains = month->opening - other->closing;
  g_array_append_val (month->questions, question);
  cro_month_sort (month);
  return TRUE;
}

/* Of a moment alone nothing is told: whoever closes two months within it is asked once more. */
static gboolean
is_answered (const CroMonthQuestion *question,
             GPtrArray              *rows,
             const CroMonthRow      *row)
{
  const CroMonthRow *other;
  CroDate first;

  if (!cro_month_question_is_order (question->kind) && question->kind != CRO_QUESTION_BOOKED_LATER)
    return FALSE;
  if (!cro_month_parse (question->about, strlen (question->about), &first))
    return FALSE;
  other = cro_month_rows_find (rows, first);
  if (question->kind == CRO_QUESTION_EARLIER_OPEN)
    return other != NULL && other->is_closed;
  return other == NULL || !other->is_closed || g_strcmp0 (other->closed_at, row->closed_at) > 0;
}

gboolean
cro_month_drop_answered (CroMonth           *month,
                         CroBook            *book,
                         const CroMonthRow  *row,
                         GError            **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (month->questions->len == 0)
    return TRUE;
  rows = cro_month_rows_read (book, error);
  for (guint i = rows != NULL ? month->questions->len : 0; i-- > 0;)
    if (is_answered (&g_array_index (month->questions, CroMonthQuestion, i), rows, row))
      g_array_remove_index (month->questions, i);
  return rows != NULL;
}

/* What came late rests on what its months were closed with: whoever gives one another name in the file makes all of
 * its documents late. */
static gboolean
look_whether_late_are_kept (CroMonth  *month,
                            CroBook   *book,
                            GError   **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    for (guint i = 0; i < month->earlier_of[k]->len && month->altered == CRO_NO_DAY; i++)
      {
        const CroMonthRow *row;
        gboolean is_kept = TRUE;

        if (rows == NULL && (rows = cro_month_rows_read (book, error)) == NULL)
          return FALSE;
        row = cro_month_rows_find (rows, g_array_index (month->earlier_of[k], CroMonthOf, i).first);
        if (row != NULL && !cro_frozen_is_kept (cro_book_get_store (book), row->id, row->hash, &is_kept, error))
          return FALSE;
        if (!is_kept)
          month->altered = row->first;
      }
  return TRUE;
}

static gboolean
is_gone (const CroMonthEntries *entries,
         CroDate                first)
{
  for (guint i = 0; i < entries->gone->len; i++)
    if (g_array_index (entries->gone, CroDate, i) == first)
      return TRUE;
  return FALSE;
}

/* An open month rests on what the months before it, as far back as they are closed, were closed with: one of them that
 * lost that in the file tells nothing of itself there. */
static gboolean
look_whether_gone (CroMonth               *month,
                   const CroMonthEntries  *entries,
                   CroBook                *book,
                   GError                **error)
{
  g_autoptr (GPtrArray) rows = NULL;
  CroDate first = month->first;
  const CroMonthRow *row;

  if (entries->gone->len == 0 || month->is_closed)
    return TRUE;
  rows = cro_month_rows_read (book, error);
  while (rows != NULL && !is_gone (entries, first))
    {
      first = cro_month_first_of (first - 1);
      row = cro_month_rows_find (rows, first);
      if (!is_gone (entries, first) && (row == NULL || !row->is_closed))
        return TRUE;
    }
  month->altered = first;
  month->is_gone = TRUE;
  return rows != NULL;
}

gboolean
cro_month_look_before (CroMonth               *month,
                       const CroMonthEntries  *entries,
                       CroBook                *book,
                       GError                **error)
{
  return look_whether_late_are_kept (month, book, error) && look_whether_gone (month, entries, book, error);
}
