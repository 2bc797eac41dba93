/* From when prices hold: what a day of the past leaves as it is. */
#include "config.h"

#include "cro-round-words.h"

#include <glib/gi18n.h>

#include "cro-month-entries.h"
#include "cro-number.h"
#include "cro-price-rows.h"

/* The last month that is closed and not over before that day. */
static CroDate
closed_since (CroBook *book,
              CroDate  from)
{
  g_autoptr (GPtrArray) rows = cro_month_rows_read (book, NULL);
  CroDate last = CRO_NO_DAY;

  for (guint i = 0; rows != NULL && i < rows->len; i++)
    {
      const CroMonthRow *row = rows->pdata[i];

      if (row->is_closed && cro_month_next (row->first) > from)
        last = MAX (last, cro_month_next (row->first) - 1);
    }
  return last;
}

char *
cro_words_prices_closed (CroBook *book,
                         CroDate  from)
{
  CroDate closed = closed_since (book, from);
  g_autofree char *day = closed != CRO_NO_DAY ? cro_date_to_text (closed) : NULL;

  /* Translators: a day. */
  return day != NULL ? g_strdup_printf (_("months closed up to %s do not change"), day) : NULL;
}

/* What a day of the past leaves as it is. */
static char *
prices_past (CroBook *book,
             CroDate  from)
{
  CroDate closed = closed_since (book, from);
  g_autofree char *day = cro_date_to_text (from), *last = closed != CRO_NO_DAY ? cro_date_to_text (closed) : NULL;

  if (last == NULL)
    return g_strdup_printf (_("In the past: from %s. Prices entered for a later day stay in force from that day."),
                            day);
  return g_strdup_printf (_("In the past: from %s. Prices of later days and months closed up to %s do not change."),
                          day, last);
}

/* Whether the book has a price of the offer of a later day. */
static gboolean
has_later (CroBook *book,
           guint32  offer,
           CroDate  from)
{
  g_autoptr (GArray) rows = cro_price_rows_new (cro_book_get_model (book), cro_book_get_store (book), offer, NULL);

  for (guint i = 0; rows != NULL && i < rows->len; i++)
    if (g_array_index (rows, CroPriceRow, i).from > from)
      return TRUE;
  return FALSE;
}

char *
cro_words_list_past (const CroPriceList *list,
                     CroBook            *book)
{
  for (guint i = 0; i < list->rows->len; i++)
    {
      const CroListRow *row = &g_array_index (list->rows, CroListRow, i);

      if (row->is_posted && row->offer != CRO_NO_SLOT && has_later (book, row->offer, list->from))
        return prices_past (book, list->from);
    }
  return NULL;
}

/* Of what a document gives back no price is posted. */
static gboolean
has_prices (const CroPriceList *invoice)
{
  for (guint i = 0; i < invoice->rows->len; i++)
    {
      const CroListRow *row = &g_array_index (invoice->rows, CroListRow, i);

      if (!row->is_return && !row->is_whole && !row->is_no_ingredient)
        return TRUE;
    }
  return FALSE;
}

/* Lines of an invoice hold from another day than what is typed. */
static char *
invoice_day (CroRound *round)
{
  const CroPriceList *invoice = cro_round_get_invoice (round);
  g_autofree char *day = invoice != NULL ? cro_date_to_text (invoice->delivered) : NULL;

  if (day == NULL || invoice->delivered == cro_round_get_from (round) || !has_prices (invoice))
    return NULL;
  /* Translators: a day. */
  return g_strdup_printf (_("Prices of the invoice hold from %s, its delivery."), day);
}

char *
cro_words_round_past (CroRound *round,
                      CroDate   today)
{
  CroDate from = cro_round_get_from (round);
  g_autofree char *day = cro_date_to_text (from), *said = NULL, *of_invoice = invoice_day (round);

  if (from > today)
    /* Translators: a day. */
    said = g_strdup_printf (_("In the future: these prices hold from %s."), day);
  else if (from < today)
    said = prices_past (cro_round_get_book (round), from);
  if (said == NULL)
    return g_steal_pointer (&of_invoice);
  if (of_invoice == NULL)
    return g_steal_pointer (&said);
  return g_strdup_printf ("%s %s", said, of_invoice);
}
