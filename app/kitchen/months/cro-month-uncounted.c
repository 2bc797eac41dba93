/* What was not counted and may have been there: when a month began, as far back as nobody counted it, and at its
 * close. */
#include "cro-month-private.h"

#include <math.h>

#include "cro-decimal.h"
#include "cro-service.h"

/* --- Counted some morning after ------------------------------------------------------------- */

/* The first day of counts after the opening (0) or the closing (1): of an item, or of any (0). */
static CroDate
counted_after (const CroMonthWork *self,
               guint               end,
               gint64              item)
{
  const GArray *counts = self->entries->counted_after[end];
  CroDate day = CRO_NO_DAY;

  for (guint i = 0; i < counts->len; i++)
    {
      const CroMonthCount *count = &g_array_index (counts, CroMonthCount, i);

      if ((item == 0 || count->item == item) && (day == CRO_NO_DAY || count->date < day))
        day = count->date;
    }
  return day;
}

static void
ask_counted_after (CroMonthWork *self,
                   guint         end,
                   double        stock)
{
  CroDate day = isnan (stock) ? counted_after (self, end, 0) : CRO_NO_DAY;

  if (day != CRO_NO_DAY)
    cro_month_ask (self, CRO_QUESTION_COUNTED_AFTER, "stock", day, NULL, NAN);
}

/* explains: NaN where that is not known. */
static void
ask_not_counted (CroMonthWork           *self,
                 guint                   end,
                 const CroMonthGathered *of,
                 double                  explains)
{
  CroDate day = counted_after (self, end, of->id);
  char text[CRO_DATE_CHARS];
  g_autofree char *detail = NULL;

  if (day != CRO_NO_DAY)
    {
      cro_date_format (day, text);
      detail = g_strconcat (CRO_MONTH_COUNTED_ON, text, NULL);
    }
  cro_month_ask (self, CRO_QUESTION_NOT_COUNTED, of->name, end == 0 ? self->entries->first - 1 : self->entries->last,
                 detail, explains);
}

/* --- What may have been there when the month began ------------------------------------------ */

/* money: NaN of what has no price. */
static void
note_there (CroMonthWork *self,
            CroBook      *book,
            guint32       item,
            double        money)
{
  CroMonthGathered *of = cro_month_gather (self, book, item);

  of->may_be_there = TRUE;
  of->there_value += isnan (money) ? 0 : money;
}

/* Of an amount that was there when it was counted last. */
static gboolean
note_counted (CroMonthWork         *self,
              const CroMonthCount  *count,
              GError              **error)
{
  guint32 item;
  CroBook *book;
  double quantity;

  if (count->amount <= 0)
    return TRUE;
  book = cro_month_find_item (self, self->before_on, count->item, count->date, &item, error);
  if (book == NULL || item == CRO_NO_SLOT)
    return book != NULL;
  quantity = cro_service_in_base (cro_book_get_model (book), item, count->amount, count->unit, NULL);
  note_there (self, book, item, quantity * cro_month_stock_cost (cro_book_get_figures (book), item));
  return TRUE;
}

static gboolean
note_all_counted (CroMonthWork  *self,
                  const GArray  *counts,
                  GError       **error)
{
  for (guint i = 0; i < counts->len; i++)
    if (!note_counted (self, &g_array_index (counts, CroMonthCount, i), error))
      return FALSE;
  return TRUE;
}

static gboolean
note_bought (CroMonthWork  *self,
             GError       **error)
{
  GHashTableIter iter;
  gpointer id, value;

  g_hash_table_iter_init (&iter, self->entries->was_bought);
  while (g_hash_table_iter_next (&iter, &id, &value))
    {
      const CroMonthWasBought *bought = value;
      guint32 item;
      CroBook *book;

      if (!bought->came)
        continue;
      book = cro_month_find_item (self, self->before_on, *(gint64 *) id, CRO_NO_DAY, &item, error);

      if (book == NULL)
        return FALSE;
      if (item != CRO_NO_SLOT)
        note_there (self, book, item, cro_decimal_to_double (bought->money));
    }
  return TRUE;
}

/* Beside purchases. */
static gboolean
note_came_in (CroMonthWork              *self,
              const CroMonthAdjustment  *adjustment,
              GError                   **error)
{
  guint32 item;
  CroBook *book = cro_month_find_item (self, self->before_on, adjustment->item, adjustment->date, &item, error);
  CroFigures *figures;
  double money = NAN;

  if (book == NULL || item == CRO_NO_SLOT)
    return book != NULL;
  figures = cro_book_get_figures (book);
  if (adjustment->has_value)
    money = cro_decimal_to_double (adjustment->value);
  else if (adjustment->has_amount)
    money = cro_service_in_base (figures->model, item, adjustment->amount, adjustment->unit, NULL)
            * figures->layers[CRO_LAYER_FOOD].unit_cost[cro_figures_node (figures, item)];
  note_there (self, book, item, money);
  return TRUE;
}

static gboolean
note_all_came_in (CroMonthWork  *self,
                  GError       **error)
{
  const GArray *came = self->entries->came_in;

  for (guint i = 0; i < came->len; i++)
    if (!note_came_in (self, &g_array_index (came, CroMonthAdjustment, i), error))
      return FALSE;
  return TRUE;
}

static gboolean
is_counted_since (CroMonthWork *self,
                  gint64        item,
                  CroDate       day)
{
  gpointer counted;

  return g_hash_table_lookup_extended (self->entries->last_counted, &item, NULL, &counted)
         && GPOINTER_TO_INT (counted) > day;
}

/* What was asked when a month was closed, and was not counted since. An item of another name since is asked about all
 * the same. */
static gboolean
note_asked (CroMonthWork    *self,
            const CroMonth  *frozen,
            GError         **error)
{
  g_autoptr (GHashTable) items = cro_month_items_by_name (self->book);
  CroDate last = cro_month_next (frozen->first) - 1;

  for (guint i = 0; i < frozen->questions->len; i++)
    {
      const CroMonthQuestion *question = &g_array_index (frozen->questions, CroMonthQuestion, i);
      const gint64 *id = g_hash_table_lookup (items, question->about);
      guint32 item = CRO_NO_SLOT;
      CroBook *book = NULL;

      if (question->kind != CRO_QUESTION_NOT_COUNTED || question->day != last
          || (id != NULL && is_counted_since (self, *id, last)))
        continue;
      if (id != NULL && (book = cro_month_find_item (self, self->before_on, *id, CRO_NO_DAY, &item, error)) == NULL)
        return FALSE;
      if (item != CRO_NO_SLOT)
        note_there (self, book, item, question->explains);
      else
        {
          cro_month_lower (&self->month->known_opening, CRO_KNOWN_AT_LEAST);
          cro_month_ask (self, CRO_QUESTION_NOT_COUNTED, question->about, self->entries->first - 1, NULL,
                         -question->explains);
        }
    }
  return TRUE;
}

/* Of the newest closed month that counted its stock. */
static gboolean
note_settled (CroMonthWork    *self,
              const CroMonth  *frozen,
              GError         **error)
{
  const CroMonthRow *settled = self->entries->settled;
  g_autoptr (CroMonth) older = NULL;

  if (settled == NULL)
    return TRUE;
  if (settled->first == self->entries->before->first)
    return frozen == NULL || note_asked (self, frozen, error);
  older = cro_month_thaw (self->book, settled, NULL, error);
  return older != NULL && note_asked (self, older, error);
}

static void
open_opening (CroMonthGathered *of,
              double            quantity,
              double            value,
              CroKnown          known)
{
  of->is_opening_open = TRUE;
  cro_month_lower (&of->known_opening, CRO_KNOWN_AT_LEAST);
}

/* The same question that the month before asks of its closing, from its side: there it may have been used less, here
 * more. */
static gboolean
doubt_opening (CroMonthWork      *self,
               CroMonthGathered  *of,
               GError           **error)
{
  guint32 item;
  CroBook *book = cro_month_find_item (self, self->before_on, of->id, CRO_NO_DAY, &item, error);

  if (book == NULL)
    return FALSE;
  cro_month_lower (&self->month->known_opening, CRO_KNOWN_AT_LEAST);
  if (item != CRO_NO_SLOT)
    cro_month_carry (self, book, item, 1, NAN, CRO_KNOWN_AT_LEAST, open_opening);
  ask_not_counted (self, 0, of, of->there_value != 0 ? -of->there_value : NAN);
  return TRUE;
}

gboolean
cro_month_doubt_opening (CroMonthWork    *self,
                         const CroMonth  *frozen,
                         GError         **error)
{
  CroMonthEntries *entries = self->entries;
  gboolean is_entered = entries->before->closing_stock != CRO_NOT_SET;
  g_autoptr (GList) all = NULL;

  ask_counted_after (self, 0, self->month->opening);
  if (!note_settled (self, frozen, error) || !note_all_counted (self, entries->was_counted, error)
      || !note_bought (self, error) || !note_all_came_in (self, error)
      || (is_entered && !note_all_counted (self, entries->opening, error)))
    return FALSE;
  if (self->month->n_opening == 0)
    return TRUE;
  all = g_hash_table_get_values (self->gathered);
  for (GList *at = all; at != NULL; at = at->next)
    {
      CroMonthGathered *of = at->data;

      of->may_be_there &= of->is_food && !of->is_opening;
      if (of->may_be_there && !doubt_opening (self, of, error))
        return FALSE;
    }
  return TRUE;
}

/* --- What may be there at the close ---------------------------------------------------------- */

static void
open_closing (CroMonthGathered *of,
              double            quantity,
              double            value,
              CroKnown          known)
{
  cro_month_lower (&of->known_closing, CRO_KNOWN_AT_LEAST);
}

/* Whether no more of it can be there than what was left out of the opening stock: what was used of both is no less than
 * nothing. */
static gboolean
is_within_opening (const CroMonthWork     *self,
                   const CroMonthGathered *of)
{
  return of->is_bought && !of->was_bought && !of->came_in && self->month->n_opening > 0
         && (of->may_be_there || (of->was_there && of->counted_at_opening == 0));
}

static gboolean
doubt_closing (CroMonthWork      *self,
               CroMonthGathered  *of,
               GError           **error)
{
  CroMonth *month = self->month;
  double money = of->own_opening_value + of->there_value + of->bought_value + of->came_value;

  ask_not_counted (self, 1, of,
                   cro_month_explained (money, of->may_be_there ? CRO_KNOWN_AT_LEAST : of->known_opening));
  cro_month_lower (&month->known_closing, CRO_KNOWN_AT_LEAST);
  if (!is_within_opening (self, of))
    {
      guint32 item;
      CroBook *book = cro_month_find_item (self, month->recipes_on, of->id, CRO_NO_DAY, &item, error);

      if (book == NULL)
        return FALSE;
      cro_month_lower (&month->known_used, CRO_KNOWN_AT_MOST);
      if (item != CRO_NO_SLOT)
        cro_month_carry (self, book, item, 1, NAN, CRO_KNOWN_AT_LEAST, open_closing);
    }
  return TRUE;
}

gboolean
cro_month_doubt_closing (CroMonthWork  *self,
                         GError       **error)
{
  CroMonth *month = self->month;
  g_autoptr (GList) all = g_hash_table_get_values (self->gathered);

  ask_counted_after (self, 1, month->closing);
  month->known_used = cro_known_of_sum (month->known_opening, cro_known_turned (month->known_closing));
  for (GList *at = month->n_closing > 0 ? all : NULL; at != NULL; at = at->next)
    {
      CroMonthGathered *of = at->data;

      if (of->is_food && !of->is_closing
          && (of->was_bought || of->came_in || of->was_there || of->may_be_there)
          && !doubt_closing (self, of, error))
        return FALSE;
    }
  return TRUE;
}
