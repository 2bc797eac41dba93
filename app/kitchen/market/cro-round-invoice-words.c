/* What is said of the invoice in a round. */
#include "config.h"

#include "cro-round-words.h"

#include <glib/gi18n.h>

#include "cro-decimal.h"
#include "cro-isolate.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-price-list-words.h"
#include "cro-words.h"

char *
cro_words_round_not_booked (CroRound *round)
{
  g_autoptr (GString) names = g_string_new (NULL);

  for (guint i = 0; i < cro_round_get_n_rows (round); i++)
    {
      const CroRoundRow *row = cro_round_get_row (round, i);
      g_autofree char *name = NULL;

      if (!row->is_billed || !cro_round_row_waits (row))
        continue;
      name = cro_words_round_name (round, row);
      g_string_append_printf (names, "%s%s", names->len > 0 ? ", " : "", name);
    }
  /* Translators: names of an invoice’s lines that wait for an answer. */
  return names->len > 0 ? cro_isolate_printf (_("Not booked yet: %s."), names->str) : NULL;
}

/* Lines that differ, and below them what is billed above what was quoted in all. */
typedef struct
{
  GString    *lines;
  gint64      all;       /* minor units; CRO_NOT_SET: nothing was quoted */
  const char *currency;  /* NULL: the book's */
  int         digits;
} Billed;

/* Takes line, which may be NULL; reclaim: CRO_NOT_SET where nothing was quoted. */
static void
add_billed (Billed *self,
            char   *line,
            gint64  reclaim)
{
  if (line != NULL)
    g_string_append_printf (self->lines, "%s\n", line);
  if (reclaim != CRO_NOT_SET)
    self->all = (self->all != CRO_NOT_SET ? self->all : 0) + MAX (reclaim, 0);
  g_free (line);
}

/* Frees it. is_asked: whether lines of it could have a quoted price; NULL: none has, and none could. */
static char *
billed_to_text (Billed   *self,
                gboolean  is_asked)
{
  g_autofree char *number = cro_money_to_text (MAX (self->all, 0), self->digits);
  g_autofree char *money = self->currency != NULL ? g_strdup_printf ("%s %s", number, self->currency)
                                                  : g_steal_pointer (&number);

  if (self->all == CRO_NOT_SET && !is_asked)
    {
      g_string_free (self->lines, TRUE);
      return NULL;
    }
  if (self->all == CRO_NOT_SET)
    g_string_append (self->lines, _("No line of the invoice has a quoted price: nothing to compare."));
  else if (self->all > 0)
    /* Translators: money that a supplier billed above what was quoted. */
    g_string_append_printf (self->lines, _("%s to reclaim"), money);
  else if (self->lines->len == 0)
    g_string_append (self->lines, _("Billed as quoted."));
  return g_string_free (self->lines, FALSE);
}

/* What is booked was billed by the price that the book has since. */
char *
cro_words_round_billed (CroRound *round)
{
  const CroPriceList *list = cro_round_get_invoice (round);
  CroModel *model = cro_book_get_model (cro_round_get_draft (round));
  Billed billed = { .all = CRO_NOT_SET };
  gboolean is_asked;

  if (list == NULL)
    return NULL;
  is_asked = !list->is_credit;
  billed.lines = g_string_new (NULL);
  billed.currency = list->is_foreign ? list->currency : NULL;
  billed.digits = cro_currency_digits (list->currency);
  for (guint i = 0; i < list->rows->len; i++)
    {
      const CroListRow *row = &g_array_index (list->rows, CroListRow, i);

      /* Of one in the book it was said when it was posted. */
      is_asked &= !row->is_in_book;
      if (!row->is_in_book)
        add_billed (&billed, cro_words_list_reclaim (model, list, row), row->reclaim);
    }
  return billed_to_text (&billed, is_asked);
}

static gboolean
is_told (GPtrArray *posts,
         guint      index)
{
  for (guint i = 0; i < index; i++)
    if (cro_round_posts_same_document (posts->pdata[i], posts->pdata[index]))
      return TRUE;
  return FALSE;
}

/* Of the document of a posting all that is in force of it; NULL: no price is. */
static char *
dup_document (GPtrArray *posts,
              guint      index)
{
  const CroRoundPost *first = posts->pdata[index];
  Billed billed = { .all = CRO_NOT_SET, .currency = first->currency, .digits = first->digits };
  gboolean has_price = FALSE;

  billed.lines = g_string_new (NULL);
  for (guint i = index; i < posts->len; i++)
    {
      const CroRoundPost *post = posts->pdata[i];

      for (guint k = 0; cro_round_posts_same_document (post, first) && k < post->rows->len; k++)
        {
          const CroRoundPosted *row = post->rows->pdata[k];

          if (row->is_back || row->typed != NULL)
            continue;
          has_price |= row->price != NULL;
          add_billed (&billed, g_strdup (row->billed), row->reclaim);
        }
    }
  return billed_to_text (&billed, has_price);
}

char *
cro_words_round_was_billed (GPtrArray *posts)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < posts->len; i++)
    {
      g_autofree char *one = !((CroRoundPost *) posts->pdata[i])->has_invoice || is_told (posts, i)
                                 ? NULL
                                 : dup_document (posts, i);

      if (one != NULL)
        g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", one);
    }
  return g_string_free (text, text->len == 0);
}

/* Of a price of another day than what is in use. */
static char *
day_note (CroRound          *round,
          const CroRoundRow *row)
{
  CroDate day = cro_round_row_get_day (round, row), newer = cro_round_row_get_newer (round, row);
  g_autofree char *from = cro_date_to_text (day), *since = newer != CRO_NO_DAY ? cro_date_to_text (newer) : NULL;

  if (!row->list.is_posted || !cro_round_row_is_ready (row))
    return NULL;
  if (since != NULL)
    /* Translators: days. */
    return g_strdup_printf (_("Holds from %s. What the book has since %s stays in use."), from, since);
  if (day > cro_round_get_from (round))
    /* Translators: a day that has not come yet. */
    return g_strdup_printf (_("Holds from %s."), from);
  return NULL;
}

/* What is booked of it with its part of charges on the whole. */
static char *
share_note (const CroPriceList *invoice,
            const CroListRow   *list)
{
  g_autofree char *money = cro_words_list_money (invoice, (CroNano) cro_list_row_value (list) * (CRO_NANO / CRO_MICRO));
  g_autofree char *part = cro_words_list_money (invoice, (CroNano) list->spread * (CRO_NANO / CRO_MICRO));

  if (list->spread == 0 || !list->is_booked || list->share_of > 0)
    return NULL;
  /* Translators: money of a line of an invoice, and what is in it of the charges on all of it. */
  return g_strdup_printf (_("%s is booked, with %s of the charges"), money, part);
}

/* Of what is booked and posts no price. */
static char *
unpriced_note (CroRound          *round,
               const CroListRow  *list)
{
  const CroPriceList *invoice = cro_round_get_invoice (round);
  g_autofree char *money = cro_words_list_money (invoice, (CroNano) cro_list_row_value (list) * (CRO_NANO / CRO_MICRO));

  if (list->is_no_ingredient && list->goods == CRO_LIST_GOODS_DISPOSABLE)
    /* Translators: of a line of an invoice; money. */
    return g_strdup_printf (list->is_recalled ? _("Disposables, as last time: %s is booked, no price.")
                                              : _("Disposables: %s is booked, no price."),
                            money);
  if (list->is_no_ingredient)
    /* Translators: of a line of an invoice, as a deposit or carriage; money. */
    return g_strdup_printf (list->is_recalled ? _("No ingredient, as last time: %s is booked as other, no price.")
                                              : _("No ingredient: %s is booked as other, no price."),
                            money);
  if (list->back == CRO_LIST_BACK_PRICE)
    /* Translators: of a part of the price of goods that stay; money, negative. */
    return g_strdup_printf (_("Price credited: %s is booked, the goods stay."), money);
  /* Translators: of goods that go back to the supplier; money, negative. */
  return g_strdup_printf (_("Returned: %s is booked, no price."), money);
}

char *
cro_words_round_billed_note (CroRound          *round,
                             const CroRoundRow *row)
{
  g_autofree char *reclaim = cro_words_list_reclaim (cro_book_get_model (cro_round_get_draft (round)),
                                                     cro_round_get_invoice (round), &row->list);
  g_autofree char *day = day_note (round, row);
  g_autofree char *share = share_note (cro_round_get_invoice (round), &row->list);
  GString *text;

  if (row->list.share_of > 0)
    return cro_words_list_reason (cro_book_get_model (cro_round_get_draft (round)), cro_round_get_invoice (round),
                                  &row->list, &g_array_index (row->list.reasons, CroListReason, 0));
  if ((row->list.is_no_ingredient || row->list.is_return) && row->list.is_booked)
    return unpriced_note (round, &row->list);
  if (reclaim == NULL && share == NULL)
    return g_steal_pointer (&day);
  text = g_string_new (reclaim);
  if (share != NULL)
    g_string_append_printf (text, "%s%s", text->len > 0 ? ". " : "", share);
  if (day != NULL)
    g_string_append_printf (text, ". %s", day);
  return g_string_free (text, FALSE);
}

char *
cro_words_round_aside (const char *text)
{
  guint n = cro_round_text_count (text);
  g_autofree char *rows = g_strdup_printf (ngettext ("Set aside: %u row", "Set aside: %u rows", n), n);
  g_autofree char *number = NULL, *money = NULL, *lines = NULL, *invoice = NULL;
  CroRoundBilled billed;
  int digits;

  if (!cro_round_text_billed (text, &billed))
    return n > 0 ? g_steal_pointer (&rows) : NULL;
  digits = cro_currency_digits (billed.currency);
  number = cro_money_to_text (cro_money_round (cro_decimal_to_double (billed.net_value), digits), digits);
  money = billed.currency != NULL ? g_strdup_printf ("%s %s", number, billed.currency) : g_steal_pointer (&number);
  lines = g_strdup_printf (ngettext ("%u line", "%u lines", billed.n_lines), billed.n_lines);
  /* Translators: the number of an invoice, how many of its lines, their money. */
  invoice = *billed.document != '\0'
                ? cro_isolate_printf (_("Set aside of invoice %s: %s, %s, not booked"), billed.document, lines, money)
                /* Translators: how many lines of an invoice, their money. */
                : g_strdup_printf (_("Set aside of an invoice without a number: %s, %s, not booked"), lines, money);
  cro_round_billed_clear (&billed);
  return n > 0 ? g_strdup_printf ("%s · %s", rows, invoice) : g_steal_pointer (&invoice);
}

char *
cro_words_round_lost (const char   *text,
                      const GError *error)
{
  g_autofree char *path = cro_round_text_invoice (text), *why = cro_words_error (error);
  gboolean is_of_invoice = error != NULL && (error->domain == G_FILE_ERROR || error->domain == CRO_INVOICE_ERROR
                                             || error->domain == CRO_SPREADSHEET_ERROR);

  if (path == NULL || !is_of_invoice)
    /* Translators: of new prices that were typed and not posted; why. */
    return cro_isolate_printf (_("What was set aside could not be put back: %s"), why);
  /* Translators: the path of a file, and why it could not be read. */
  return cro_isolate_printf (_("The invoice that was set aside in %s could not be read again: %s. Drop the invoice "
                               "here once more."),
                             path, why);
}

char *
cro_words_round_unfit (CroRound *round)
{
  const char *unfit = cro_round_get_unfit (round);

  /* Translators: of prices that were typed and not posted: "Crab: 69.50 · Hake: 11.20". */
  return *unfit != '\0' ? cro_isolate_printf (_("Set aside for packs that the supplier does not have in this book: %s"),
                                              unfit)
                        : NULL;
}

/* Each behind the others; takes text. */
static void
add (GString *to,
     char    *text)
{
  if (text != NULL)
    g_string_append_printf (to, "%s%s", to->len > 0 ? " · " : "", text);
  g_free (text);
}

/* "Invoice UR-3001 of 27 Nov 2026, delivered 26 Nov 2026: 145.20 EUR net". A credit note gives money back, and need not
 * be of a delivery. */
static char *
head_of (const CroPriceList *list)
{
  g_autofree char *net = cro_words_list_money (list, list->is_credit ? -cro_price_list_net (list)
                                                                     : cro_price_list_net (list));
  const char *currency = list->currency != NULL && !list->is_foreign ? list->currency : "";
  g_autofree char *money = g_strdup_printf ("%s %s", net, currency);
  g_autofree char *dated = list->dated != CRO_NO_DAY ? cro_date_to_text (list->dated) : g_strdup ("?");
  g_autofree char *delivered = cro_date_to_text (list->delivered);

  g_strstrip (money);
  if (list->is_credit)
    /* Translators: a document's number, its date, money. */
    return cro_isolate_printf (_("Credit note %s of %s: %s net"), list->document != NULL ? list->document : "?", dated,
                               money);
  /* Translators: a document's number, its date, the day of delivery, money. */
  return cro_isolate_printf (_("Invoice %s of %s, delivered %s: %s net"), list->document != NULL ? list->document : "?",
                             dated, delivered, money);
}

char *
cro_words_round_invoice (CroRound *round)
{
  const CroPriceList *list = cro_round_get_invoice (round);
  CroModel *model = cro_book_get_model (cro_round_get_draft (round));
  GString *text;

  if (list == NULL)
    return NULL;
  text = g_string_new (NULL);
  add (text, head_of (list));
  add (text, list->is_booked_before ? cro_words_list_in_book (list, model) : NULL);
  add (text, cro_words_list_to_book (list, model));
  add (text, cro_words_list_unspread (list));
  add (text, cro_words_list_date (list));
  add (text, cro_words_list_seller (list));
  add (text, cro_words_list_total (list));
  return g_string_free (text, FALSE);
}

char *
cro_words_round_invoice_posted (CroRound *round)
{
  const CroPriceList *list = cro_round_get_invoice (round);
  CroModel *model = cro_book_get_model (cro_round_get_draft (round));
  GString *text;

  if (list == NULL)
    return NULL;
  text = g_string_new (NULL);
  add (text, head_of (list));
  add (text, cro_words_list_booked (list, model));
  add (text, cro_words_list_unspread (list));
  add (text, cro_words_list_total (list));
  return g_string_free (text, FALSE);
}
