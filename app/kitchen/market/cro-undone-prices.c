#include "config.h"

#include "cro-undone-prices.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-history.h"
#include "cro-isolate.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-price-list-private.h"
#include "cro-price-rows.h"
#include "cro-row-date.h"
#include "cro-words.h"

/* The last delivery of a pack among purchases that were booked after another one. */
typedef struct
{
  CroModel *model;
  guint32   offer;
  CroDate   undone;   /* from when the price that is undone held */
  gint64    after;    /* the id of that */
  CroDate   day;      /* CRO_NO_DAY: there is none */
  gint64    price;    /* for the pack, net, in the book's currency */
  double    rounding; /* of that, as its money was rounded */
} Delivery;

static void
take_purchase (Delivery *self,
               CroRows  *rows)
{
  enum { ID, SUPPLIER, DATE, AMOUNT, UNIT, NET_VALUE };
  const CroOfferEntry *entry = cro_model_offer (self->model, self->offer);
  const char *unit = cro_rows_get_text (rows, UNIT);
  CroPack pack = { CRO_MICRO, cro_rows_is_null (rows, AMOUNT) ? 0 : cro_rows_get_int (rows, AMOUNT), CRO_UNIT_KG };
  const CroPack own = { entry->offer.pack_count, entry->offer.pack_size, entry->offer.pack_unit };
  gint64 price = cro_rows_get_int (rows, NET_VALUE);
  CroDate day = cro_row_date (rows, DATE);
  double share = (double) cro_currency_minor (self->model->currency) / 2 / (double) MAX (price, 1);

  if (cro_rows_get_int (rows, ID) <= self->after || price <= 0 || pack.size <= 0 || cro_rows_is_null (rows, SUPPLIER)
      || cro_rows_get_int (rows, SUPPLIER) != g_array_index (self->model->suppliers, CroSupplier, entry->supplier).id
      || (self->day != CRO_NO_DAY && day < self->day) || unit == NULL
      || !cro_unit_parse (unit, strlen (unit), &pack.unit) || !cro_list_price_in_pack (&pack, &own, &price))
    return;
  self->day = day;
  self->price = price;
  self->rounding = share * (double) price;
}

static gboolean
read_delivery (CroBook   *book,
               Delivery  *self,
               GError   **error)
{
  static const char *const columns[] = { "id", "supplier", "date", "amount_micro", "unit", "net_value_micro", NULL };
  g_autoptr (CroRows) rows
      = cro_store_read_of (cro_book_get_store (book), "purchase", "ingredient",
                           cro_model_item (self->model, cro_model_offer (self->model, self->offer)->item)->id, columns,
                           error);
  GError *failed = NULL;

  while (rows != NULL && cro_rows_next (rows, &failed))
    take_purchase (self, rows);
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

/* Whether a price that holds today came after the one that is undone, or one came with that delivery or after it,
 * whose day may still be to come. */
static gboolean
is_replaced (CroBook   *book,
             Delivery  *self,
             gboolean  *is,
             GError   **error)
{
  g_autoptr (GArray) rows = cro_price_rows_new (self->model, cro_book_get_store (book), self->offer, error);
  CroDate today = cro_book_get_figures (book)->date;

  *is = FALSE;
  for (guint i = 0; rows != NULL && i < rows->len; i++)
    {
      CroDate from = g_array_index (rows, CroPriceRow, i).from;

      *is |= (from <= today && from > self->undone) || (self->day != CRO_NO_DAY && from >= self->day);
    }
  return rows != NULL;
}

/* NULL: the book says the same, or it cannot be compared. Owned. */
static char *
dup_sentence (const Delivery *self)
{
  const CroOfferEntry *entry = cro_model_offer (self->model, self->offer);
  const char *name = cro_model_item (self->model, entry->item)->name;
  const char *currency = cro_model_currency_of (self->model, self->offer);
  const CroMeasure *measure = &self->model->measures[entry->item];
  CroOffer then = entry->offer;
  g_autofree char *day = NULL, *billed = NULL, *now = NULL;
  double cost, last;

  if (self->day == CRO_NO_DAY || entry->offer.tax_included != 0 || g_strcmp0 (currency, self->model->currency) != 0
      || (entry->offer.had_price
          && ABS ((double) (entry->offer.price - self->price)) <= self->rounding + 1))
    return NULL;
  last = entry->offer.had_price ? cro_offer_unit_cost (&then, measure) : NAN;
  then.price = self->price;
  cost = cro_offer_unit_cost (&then, measure);
  day = cro_date_to_text (self->day);
  billed = cro_words_unit_price (self->model, measure->base, cost, last, cro_money_round);
  if (!entry->offer.had_price)
    /* Translators: an ingredient; a price; a day. */
    return cro_isolate_printf (_("%s has no price now. %s was billed on %s, and stays booked: enter it if it holds."),
                               name, billed, day);
  now = cro_words_unit_price (self->model, measure->base, last, cost, cro_money_round);
  /* Translators: an ingredient; its price; another price; a day. */
  return cro_isolate_printf (_("%s is at %s again. %s was billed on %s, and stays booked: enter it if it holds."), name,
                             now, billed, day);
}

/* The first purchase that an act booked; 0: it booked none. */
static gint64
first_purchase (const GPtrArray *changes)
{
  gint64 first = 0;

  for (guint i = 0; i < changes->len; i++)
    {
      const CroChange *change = changes->pdata[i];

      if (strcmp (change->table, "purchase") == 0 && change->before == NULL && (first == 0 || change->row < first))
        first = change->row;
    }
  return first;
}

/* Whether anything was booked after a purchase, so that its prices may have been held back. */
static gboolean
is_booked_after (CroStore *store,
                 gint64    purchase)
{
  static const char *const columns[] = { "id", NULL };
  g_autoptr (CroRows) rows = cro_store_read (store, "purchase", columns, NULL);
  gboolean is = FALSE;

  while (rows != NULL && !is && cro_rows_next (rows, NULL))
    is = cro_rows_get_int (rows, 0) > purchase;
  return is;
}

/* Of the pack that a changed price was of, which an act may have made; *from: the day from which it held. */
static guint32
offer_of (CroBook         *book,
          const CroChange *change,
          CroDate         *from,
          GError         **error)
{
  g_autoptr (GHashTable) row = cro_store_read_row_at (cro_book_get_store (book), "price", change->row, change->id,
                                                      error);
  const char *offer = row != NULL ? g_hash_table_lookup (row, "offer") : NULL;
  const char *day = row != NULL ? g_hash_table_lookup (row, "from_date") : NULL;
  CroModel *model = cro_book_get_model (book);
  guint32 slot = offer != NULL ? cro_slots_get (&model->offer_slots, g_ascii_strtoll (offer, NULL, 10)) : CRO_NO_SLOT;

  if (day == NULL || !cro_date_parse (day, strlen (day), from))
    return CRO_NO_SLOT;
  return slot != CRO_NO_SLOT && !cro_model_offer (model, slot)->is_dead ? slot : CRO_NO_SLOT;
}

char *
cro_words_undone_prices (CroBook  *book,
                         gint64    act,
                         GError  **error)
{
  g_autoptr (GPtrArray) changes = cro_store_list_changes_of_act (cro_book_get_store (book), act, error);
  g_autoptr (GHashTable) met = g_hash_table_new (NULL, NULL);
  gint64 first = changes != NULL ? first_purchase (changes) : 0;
  GString *said = g_string_new (NULL);
  g_autoptr (GError) failed = NULL;

  if (first != 0 && !is_booked_after (cro_book_get_store (book), first))
    first = 0;
  for (guint i = 0; first != 0 && failed == NULL && i < changes->len; i++)
    {
      const CroChange *change = changes->pdata[i];
      Delivery last = { .model = cro_book_get_model (book), .offer = CRO_NO_SLOT, .after = first, .day = CRO_NO_DAY };
      g_autofree char *sentence = NULL;
      gboolean is = FALSE;

      if (strcmp (change->table, "price") == 0)
        last.offer = offer_of (book, change, &last.undone, &failed);
      if (last.offer == CRO_NO_SLOT || !g_hash_table_add (met, GUINT_TO_POINTER (last.offer))
          || !read_delivery (book, &last, &failed) || !is_replaced (book, &last, &is, &failed) || is)
        continue;
      sentence = dup_sentence (&last);
      if (sentence != NULL)
        g_string_append_printf (said, "%s\n", sentence);
    }
  if (changes != NULL && failed == NULL)
    return g_string_free (said, FALSE);
  if (failed != NULL)
    g_propagate_error (error, g_steal_pointer (&failed));
  g_string_free (said, TRUE);
  return NULL;
}
