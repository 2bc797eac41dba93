/* What was billed for goods before: at that they go back, and what goes back at another price may be a part of it. */
#include "cro-price-list-private.h"

#include "cro-code.h"
#include "cro-decimal.h"
#include "cro-isolate.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-price-list-purchase.h"
#include "cro-price-rows.h"
#include "cro-row-date.h"
#include "cro-words.h"

#include <string.h>

/* What was asked for as much as the line is for, before it came back. */
typedef struct
{
  CroListMatching  *matching;
  const CroListRow *row;
  gint64            last;     /* the newest until then; CRO_NOT_SET: nothing was */
  CroDate           last_day;
  gboolean          has_any;  /* something was, though maybe later, or in what the line cannot be compared with */
  gboolean          is_met;   /* one is that of the line */
  CroDate           met_day;  /* the last on which it was; CRO_NO_DAY */
} Billed;

/* A price of a pack, which was rounded by so much of itself. */
static void
take_billed (Billed        *self,
             const CroPack *pack,
             gint64         price,
             double         rounding,
             CroDate        day)
{
  gint64 own = price;

  self->has_any |= price > 0;
  if (price <= 0 || pack->size <= 0 || !cro_list_price_in_pack (pack, &self->row->pack, &own))
    return;
  if (fabs ((double) (own - self->row->price)) <= cro_list_price_rounding (self->row) + rounding * (double) own + 1)
    {
      self->is_met = TRUE;
      if (self->met_day == CRO_NO_DAY || day > self->met_day)
        self->met_day = day;
    }
  if (day <= self->matching->list->delivered && (self->last == CRO_NOT_SET || day >= self->last_day))
    {
      self->last = own;
      self->last_day = day;
    }
}

/* A price that has tax in it was billed without. */
static gboolean
read_prices (Billed  *self,
             GError **error)
{
  const CroListMatching *matching = self->matching;
  const CroOfferEntry *entry = cro_model_offer (matching->model, self->row->offer);
  g_autoptr (GArray) rows = NULL;

  if (g_strcmp0 (self->row->currency, cro_model_currency_of (matching->model, self->row->offer)) != 0)
    {
      self->has_any = TRUE;
      return TRUE;
    }
  rows = cro_price_rows_new (matching->model, cro_book_get_store (matching->of->book), self->row->offer, error);
  for (guint i = 0; rows != NULL && i < rows->len; i++)
    {
      const CroPriceRow *price = &g_array_index (rows, CroPriceRow, i);
      CroPack pack = { entry->pack_count, entry->pack_size, (CroUnit) entry->pack_unit };
      gint64 net = price->price;

      if (price->own.count > 0 && price->own.size > 0 && price->own.unit >= 0)
        pack = (CroPack){ price->own.count, price->own.size, (CroUnit) price->own.unit };
      if (price->price != CRO_NOT_SET
          && cro_decimal_from_double (cro_decimal_to_double (price->price) / (1 + (double) price->tax / CRO_WHOLE_PCT),
                                      &net))
        take_billed (self, &pack, net, 0, price->from);
    }
  return rows != NULL;
}

/* Purchases are in the currency of the book. */
static gboolean
read_purchases (Billed  *self,
                GError **error)
{
  static const char *const columns[] = { "supplier", "date", "amount_micro", "unit", "net_value_micro", NULL };
  enum { SUPPLIER, DATE, AMOUNT, UNIT, NET_VALUE };
  CroModel *model = self->matching->model;
  gint64 supplier = g_array_index (model->suppliers, CroSupplier, self->matching->of->supplier).id;
  g_autoptr (CroRows) rows = NULL;
  GError *failed = NULL;

  if (g_strcmp0 (self->row->currency, model->currency) != 0)
    {
      self->has_any = TRUE;
      return TRUE;
    }
  rows = cro_store_read_of (cro_book_get_store (self->matching->of->book), "purchase", "ingredient",
                            cro_model_item (model, self->row->item)->id, columns, error);
  while (rows != NULL && cro_rows_next (rows, &failed))
    {
      CroPack pack = { CRO_MICRO, cro_rows_is_null (rows, AMOUNT) ? 0 : cro_rows_get_int (rows, AMOUNT), CRO_UNIT_KG };
      gint64 net_value = cro_rows_get_int (rows, NET_VALUE);
      const char *unit = cro_rows_get_text (rows, UNIT);

      if (!cro_rows_is_null (rows, SUPPLIER) && cro_rows_get_int (rows, SUPPLIER) == supplier && unit != NULL
          && cro_unit_parse (unit, strlen (unit), &pack.unit))
        take_billed (self, &pack, net_value,
                     net_value > 0 ? (double) cro_currency_minor (model->currency) / 2 / (double) net_value : 0,
                     cro_row_date (rows, DATE));
    }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

gboolean
cro_list_last_billed (CroListMatching   *self,
                      const CroListRow  *row,
                      CroDate           *day,
                      GError           **error)
{
  Billed billed = { self, row, CRO_NOT_SET, CRO_NO_DAY, FALSE, FALSE, CRO_NO_DAY };
  gboolean done = read_purchases (&billed, error);

  *day = billed.met_day;
  return done;
}

static gboolean
is_goods_or_price (const CroListRow *row,
                   CroListWhy        why)
{
  return why == CRO_LIST_GOODS_OR_PRICE;
}

/* Of what the document itself asks for, as far as it is known. */
static void
read_document (Billed *self)
{
  const GArray *rows = self->matching->list->rows;

  for (guint i = 0; i < rows->len; i++)
    {
      const CroListRow *row = &g_array_index (rows, CroListRow, i);

      if (row->item == self->row->item && row->item != CRO_NO_SLOT && !row->is_return && row->has_price)
        take_billed (self, &row->pack, row->price, cro_list_price_rounding (row) / (double) MAX (row->price, 1),
                     self->matching->list->delivered);
    }
}

void
cro_list_settle_return (CroListMatching *self,
                        CroListRow      *row)
{
  Billed billed = { self, row, CRO_NOT_SET, CRO_NO_DAY, FALSE, FALSE, CRO_NO_DAY };

  read_document (&billed);
  if (billed.is_met)
    cro_list_row_unsay (row, is_goods_or_price);
}

/* Goods go back at what was paid for them, however prices went since; at another price it may be what was billed too
 * much that comes back, and the goods stay. */
static gboolean
ask_what_goes_back (CroListMatching  *self,
                    CroListRow       *row,
                    GError          **error)
{
  Billed billed = { self, row, CRO_NOT_SET, CRO_NO_DAY, FALSE, FALSE, CRO_NO_DAY };
  g_autofree char *last = NULL;

  if (row->back != CRO_LIST_BACK_UNSAID || row->is_turned)
    return TRUE;
  if (!read_prices (&billed, error) || !read_purchases (&billed, error))
    return FALSE;
  read_document (&billed);
  if (billed.is_met || (billed.has_any && billed.last == CRO_NOT_SET))
    return TRUE;
  if (billed.last != CRO_NOT_SET)
    last = g_strdup_printf ("%" G_GINT64_FORMAT, billed.last);
  cro_list_row_say (self->list, row, CRO_LIST_GOODS_OR_PRICE, last, NULL);
  return TRUE;
}

static gboolean
is_look (const CroListRow *row,
         CroListWhy        why)
{
  return why == CRO_LIST_LOOK;
}

gboolean
cro_list_look_at_return (CroListMatching  *self,
                         CroListRow       *row,
                         GError          **error)
{
  if (row->offer == CRO_NO_SLOT || row->price <= 0)
    return TRUE;
  if (!cro_list_look_twice (self, row, error))
    return FALSE;
  if (row->look.kind == CRO_LOOK_PACK && row->counted.size == 0)
    return TRUE;
  cro_list_row_unsay (row, is_look);
  row->look = (CroLook){ .ratio = NAN, .meant = CRO_NOT_SET };
  return ask_what_goes_back (self, row, error);
}

/* One booked purchase of an ingredient from the supplier; a credit has less than 0. */
typedef struct
{
  gint64   net_value;
  gint64   amount;   /* 0: it has none */
  CroUnit  unit;
  CroDate  day;
  gboolean is_named; /* it is of the invoice that the credit names */
} Purchase;

/* What was bought of an ingredient so far, less what was credited. */
typedef struct
{
  const char *document; /* with that alone; NULL: with any */
  CroBase  base;
  gint64   net_value;
  double   amount;      /* in that */
  gboolean is_known;    /* there is no more of it: what was bought has amounts, and in that */
  gboolean has_any;     /* something was, before the document; or the book has that, without the ingredient */
} Bought;

/* amount: 0 of what has none. A credit without one leaves no more than there was. */
static void
add_bought (Bought   *self,
            gint64    net_value,
            gint64    amount,
            CroUnit   unit)
{
  gboolean is_told = amount != 0 && cro_unit_get (unit)->base == self->base;

  self->net_value += net_value;
  if (is_told)
    self->amount += (double) amount * cro_unit_get (unit)->per_micro;
  self->is_known &= is_told || net_value <= 0;
}

static gboolean
is_of (const char *asked,
       const char *document)
{
  g_autofree char *key = NULL, *other = NULL;

  if (asked == NULL || document == NULL)
    return FALSE;
  key = cro_list_dup_number_key (asked);
  other = cro_list_dup_number_key (document);
  return strcmp (key, other) == 0;
}

/* Elements Purchase, without those of the list's own document, whose lines are counted as they stand; NULL: it failed.
 * Owned. */
static GArray *
read_of_item (CroListMatching   *self,
              const CroListRow  *row,
              const char        *named,
              GError           **error)
{
  static const char *const columns[] = { "supplier", "amount_micro", "unit", "net_value_micro", "document", "date",
                                         NULL };
  enum { SUPPLIER, AMOUNT, UNIT, NET_VALUE, DOCUMENT, DATE };
  gint64 supplier = g_array_index (self->model->suppliers, CroSupplier, self->of->supplier).id;
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (self->of->book), "purchase", "ingredient",
                                                cro_model_item (self->model, row->item)->id, columns, error);
  g_autoptr (GArray) purchases = g_array_new (FALSE, FALSE, sizeof (Purchase));
  GError *failed = NULL;

  while (rows != NULL && cro_rows_next (rows, &failed))
    {
      const char *text = cro_rows_get_text (rows, UNIT), *document = cro_rows_get_text (rows, DOCUMENT);
      Purchase one = { cro_rows_get_int (rows, NET_VALUE),
                       cro_rows_is_null (rows, AMOUNT) ? 0 : cro_rows_get_int (rows, AMOUNT), CRO_UNIT_G,
                       cro_row_date (rows, DATE), is_of (named, document) };

      if (cro_rows_is_null (rows, SUPPLIER) || cro_rows_get_int (rows, SUPPLIER) != supplier
          || is_of (self->list->document, document))
        continue;
      if (text == NULL || !cro_unit_parse (text, strlen (text), &one.unit))
        one.amount = 0;
      g_array_append_val (purchases, one);
    }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL ? g_steal_pointer (&purchases) : NULL;
}

/* Whether both are at one price, as far as money that was rounded tells. */
static gboolean
is_at_price_of (const CroModel *model,
                const Purchase *a,
                const Purchase *b)
{
  double half = (double) cro_currency_minor (model->currency) / 2;
  double x = (double) a->amount * cro_unit_get (a->unit)->per_micro;
  double y = (double) b->amount * cro_unit_get (b->unit)->per_micro;

  return a->amount != 0 && b->amount != 0 && cro_unit_get (a->unit)->base == cro_unit_get (b->unit)->base
         && fabs ((double) a->net_value * y - (double) b->net_value * x) <= half * (fabs (x) + fabs (y)) * (1 + 1e-9);
}

/* Whether a credit may be of an invoice that is not named, so far as its price tells. */
static gboolean
may_bear (const CroModel *model,
          const Purchase *invoice,
          const Purchase *credit)
{
  return invoice->net_value > 0 && !invoice->is_named && invoice->day <= credit->day
         && is_at_price_of (model, invoice, credit);
}

/* Of which invoices a credit may be: it has its own number, and the book does not hold which one it named. At a price
 * that no invoice has it is of the named one. */
static void
find_bearers (const CroModel *model,
              const GArray   *purchases,
              const Purchase *credit,
              gboolean       *is_of_named,
              gboolean       *is_of_others)
{
  *is_of_named = *is_of_others = FALSE;
  for (guint i = 0; i < purchases->len; i++)
    {
      const Purchase *at = &g_array_index (purchases, Purchase, i);

      *is_of_named |= at->net_value > 0 && at->is_named && is_at_price_of (model, at, credit);
      *is_of_others |= may_bear (model, at, credit);
    }
  *is_of_named |= !*is_of_others;
}

/* What credits that may be of the named invoice and of others leave of the others: below 0, of the named one. */
static void
sum_shared (const CroModel *model,
            const GArray   *purchases,
            const GArray   *credits,
            Bought         *shared)
{
  for (guint i = 0; i < purchases->len; i++)
    {
      const Purchase *at = &g_array_index (purchases, Purchase, i);
      gboolean is_shared = FALSE;

      for (guint k = 0; k < credits->len && !is_shared; k++)
        is_shared = may_bear (model, at, &g_array_index (credits, Purchase, k));
      if (is_shared)
        add_bought (shared, at->net_value, at->amount, at->unit);
    }
  for (guint k = 0; k < credits->len; k++)
    {
      const Purchase *credit = &g_array_index (credits, Purchase, k);

      add_bought (shared, credit->net_value, credit->amount, credit->unit);
    }
}

/* Of a named invoice all credits since then are counted that may be of it, but for what others at one price with it may
 * bear. */
static void
sum_bought (const CroModel *model,
            const GArray   *purchases,
            Bought         *bought)
{
  g_autoptr (GArray) credits = g_array_new (FALSE, FALSE, sizeof (Purchase));
  Bought shared = { .base = bought->base };
  CroDate first = CRO_NO_DAY;

  for (guint i = 0; i < purchases->len; i++)
    {
      const Purchase *at = &g_array_index (purchases, Purchase, i);

      if (at->net_value <= 0 || (bought->document != NULL && !at->is_named))
        continue;
      bought->has_any = TRUE;
      first = first == CRO_NO_DAY ? at->day : MIN (first, at->day);
    }
  for (guint i = 0; i < purchases->len; i++)
    {
      const Purchase *at = &g_array_index (purchases, Purchase, i);
      gboolean is_of_named, is_of_others;

      if (bought->document != NULL && !at->is_named)
        {
          if (at->net_value >= 0 || first == CRO_NO_DAY || at->day < first)
            continue;
          find_bearers (model, purchases, at, &is_of_named, &is_of_others);
          if (is_of_named && is_of_others)
            g_array_append_val (credits, *at);
          if (!is_of_named || is_of_others)
            continue;
        }
      add_bought (bought, at->net_value, at->amount, at->unit);
    }
  sum_shared (model, purchases, credits, &shared);
  bought->net_value += MIN (shared.net_value, 0);
  bought->amount += MIN (shared.amount, 0);
}

/* *is: the book has a document line by line, so that what it does not have was not on it. */
static gboolean
is_document_known (CroListMatching  *self,
                   const char       *named,
                   gboolean         *is,
                   GError          **error)
{
  static const char *const columns[] = { "document", "ingredient", "kind", NULL };
  enum { DOCUMENT, INGREDIENT, KIND };
  enum { FOOD };
  gint64 supplier = g_array_index (self->model->suppliers, CroSupplier, self->of->supplier).id;
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (self->of->book), "purchase", "supplier", supplier,
                                                columns, error);
  gboolean has_lump = FALSE;
  GError *failed = NULL;

  *is = FALSE;
  while (rows != NULL && cro_rows_next (rows, &failed))
    if (is_of (named, cro_rows_get_text (rows, DOCUMENT)))
      {
        *is = TRUE;
        has_lump |= cro_rows_is_null (rows, INGREDIENT)
                    && strcmp (cro_rows_get_text (rows, KIND), cro_purchase_kind_codes[FOOD]) == 0;
      }
  *is &= !has_lump;
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

static gboolean
read_bought (CroListMatching   *self,
             const CroListRow  *row,
             Bought            *bought,
             GError           **error)
{
  g_autoptr (GArray) purchases = read_of_item (self, row, bought->document, error);

  if (purchases == NULL)
    return FALSE;
  sum_bought (self->model, purchases, bought);
  return bought->has_any || bought->document == NULL
         || is_document_known (self, bought->document, &bought->has_any, error);
}

static gboolean
is_price_back (const CroListRow *row,
               CroListWhy        why)
{
  return why == CRO_LIST_PRICE_BACK;
}

/* In the book's currency: named where that is not the document's, or money stands for goods. */
static char *
dup_money (CroListMatching  *self,
           const CroListRow *row,
           gint64            money)
{
  g_autofree char *text = cro_words_price (self->model, money);

  return self->model->currency != NULL
                 && (row->back != CRO_LIST_BACK_PRICE || cro_list_is_foreign (self->list, self->model))
             ? g_strdup_printf ("%s %s", text, self->model->currency)
             : g_steal_pointer (&text);
}

/* "50 kg", and of which document: "50 kg (UP-1)". */
static char *
dup_before (const Bought *bought,
            char         *text)
{
  g_autofree char *alone = text;

  return bought->document != NULL ? cro_isolate_printf ("%s (%s)", alone, bought->document)
                                  : g_steal_pointer (&alone);
}

/* Whether more goes back than that. */
static gboolean
say_more_back (CroListMatching       *self,
               CroListRow            *row,
               const CroListPurchase *back,
               const Bought          *bought)
{
  double amount = -(double) back->amount * cro_unit_get (back->unit)->per_micro;
  g_autofree char *credited = NULL, *before = NULL;

  if (back->amount == 0 || !bought->is_known)
    {
      if (-back->net_value <= MAX (bought->net_value, 0))
        return FALSE;
      credited = dup_money (self, row, -back->net_value);
      before = dup_before (bought, dup_money (self, row, MAX (bought->net_value, 0)));
    }
  else
    {
      if (amount <= MAX (bought->amount, 0) * (1 + 1e-9))
        return FALSE;
      credited = cro_words_amount (bought->base, amount);
      before = dup_before (bought, bought->amount > 0 ? cro_words_amount (bought->base, bought->amount)
                                                      : g_strdup_printf ("0 %s", cro_words_unit (back->unit)));
    }
  /* It is not booked yet. */
  cro_list_row_unsay (row, is_price_back);
  cro_list_row_say (self->list, row, CRO_LIST_MORE_BACK, credited, before);
  return TRUE;
}

/* *is_said: more goes back than was bought with a document, as far as the book has that. */
static gboolean
check_against (CroListMatching        *self,
               CroListRow             *row,
               const CroListPurchase  *back,
               const char             *document,
               gboolean               *is_said,
               GError                **error)
{
  const GArray *rows = self->list->rows;
  Bought bought = { .document = document, .base = cro_unit_get (back->unit)->base, .is_known = TRUE };
  CroListPurchase other;

  if (!read_bought (self, row, &bought, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const CroListRow *at = &g_array_index (rows, CroListRow, i);

      if (at->number != row->number && at->item == row->item
          && cro_list_purchase_of (self->list, self->model, at, &other))
        add_bought (&bought, other.net_value, other.amount, other.unit);
    }
  *is_said = bought.has_any && say_more_back (self, row, back, &bought);
  return TRUE;
}

gboolean
cro_list_check_returned (CroListMatching  *self,
                         CroListRow       *row,
                         GError          **error)
{
  CroListPurchase back;
  gboolean is_said = FALSE;

  /* What its numbers count is asked first. */
  if (self->list->source != CRO_LIST_INVOICE || !row->is_return || row->item == CRO_NO_SLOT
      || cro_list_row_asks_pack (self->list, row)
      || !cro_list_purchase_of (self->list, self->model, row, &back))
    return TRUE;
  return (self->list->preceding == NULL
          || check_against (self, row, &back, self->list->preceding, &is_said, error))
         && (is_said || check_against (self, row, &back, NULL, &is_said, error));
}

static gboolean
is_of_pack (const CroListRow *row,
            CroListWhy        why)
{
  return why == CRO_LIST_NO_PACK || why == CRO_LIST_UNIT_UNKNOWN || why == CRO_LIST_PACKAGE
         || why == CRO_LIST_OTHER_BASE || why == CRO_LIST_WHICH_PACK;
}

void
cro_list_say_price_back (CroListMatching *self,
                         CroListRow      *row)
{
  cro_list_row_unsay (row, is_of_pack);
  cro_list_row_say (self->list, row, CRO_LIST_PRICE_BACK, NULL, NULL);
}
