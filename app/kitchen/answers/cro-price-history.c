#include "cro-price-history.h"

#include <math.h>
#include <string.h>

static void
take_row (CroRows       *rows,
          CroPastPrice  *price,
          const CroOfferEntry *entry)
{
  const char *from = cro_rows_get_text (rows, 1);
  const char *unit = cro_rows_get_text (rows, 6);

  price->id = cro_rows_get_int (rows, 0);
  price->offer_then = entry->offer;
  price->offer_then.rate = 1;
  price->offer_then.has_price = !cro_rows_is_null (rows, 2);
  cro_date_parse (from, strlen (from), &price->offer_then.from);
  price->offer_then.price = cro_rows_get_int (rows, 2);
  price->offer_then.tax_included = cro_rows_get_int (rows, 3);
  price->has_own_count = !cro_rows_is_null (rows, 4);
  price->has_own_size = !cro_rows_is_null (rows, 5);
  price->has_own_unit = unit != NULL;
  price->has_own_pack = price->has_own_count || price->has_own_size || price->has_own_unit;
  price->offer_then.pack_count = cro_rows_get_int (rows, 4);
  price->offer_then.pack_size = cro_rows_get_int (rows, 5);
  if (unit != NULL)
    cro_unit_parse (unit, strlen (unit), &price->offer_then.pack_unit);
}

static gboolean
read_offer (CroBook   *book,
            guint32    offer,
            GArray    *history,
            GError   **error)
{
  static const char *const columns[] = {
    "id", "from_date", "price_micro", "tax_included_pct_micro", "pack_count_micro",
    "pack_size_micro", "pack_unit", NULL
  };
  CroModel *model = cro_book_get_model (book);
  const CroOfferEntry *entry = cro_model_offer (model, offer);
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (book), "price", "offer",
                                                entry->id, columns, error);
  g_autoptr (GHashTable) answers = rows != NULL ? cro_price_answers_new (cro_book_get_store (book), entry->id, error)
                                                : NULL;
  GError *failed = NULL;

  if (answers == NULL)
    return FALSE;
  while (cro_rows_next (rows, &failed))
    {
      CroPastPrice price = { .offer = offer };
      const CroPriceAnswer *answer;

      take_row (rows, &price, entry);
      answer = cro_price_answers_find (answers, entry->id, price.offer_then.from);
      price.has_answer = answer != NULL;
      if (answer != NULL)
        price.answer = *answer;
      g_array_append_val (history, price);
    }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return failed == NULL;
}

static int
compare (gconstpointer a,
         gconstpointer b)
{
  const CroPastPrice *one = a, *other = b;

  if (one->offer_then.from != other->offer_then.from)
    return one->offer_then.from < other->offer_then.from ? 1 : -1;
  return one->offer < other->offer ? -1 : one->offer > other->offer;
}

/* The next older price of the same offer is further down. */
static void
compute_changes (GArray *history)
{
  g_autoptr (GHashTable) newer = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < history->len; i++)
    {
      CroPastPrice *price = &g_array_index (history, CroPastPrice, i);
      CroPastPrice *after = g_hash_table_lookup (newer, GUINT_TO_POINTER (price->offer));

      if (after != NULL && price->unit_cost > 0)
        after->change_pct = (after->unit_cost / price->unit_cost - 1) * 100;
      g_hash_table_insert (newer, GUINT_TO_POINTER (price->offer), price);
    }
}

/* What a price does not say of its pack is the offer's. */
static void
cost (CroModel     *model,
      CroPastPrice *price)
{
  const CroOfferEntry *entry = cro_model_offer (model, price->offer);
  const CroMeasure *measure = &model->measures[entry->item];
  CroOffer *then = &price->offer_then;

  then->net = entry->offer.net;
  if (!price->has_own_count)
    then->pack_count = entry->pack_count;
  if (!price->has_own_size)
    then->pack_size = entry->pack_size;
  if (!price->has_own_unit)
    then->pack_unit = (CroUnit) entry->pack_unit;
  price->unit_cost = then->has_price && cro_offer_pack (then, measure) > 0
                         ? cro_offer_unit_cost (then, measure)
                         : NAN;
  price->change_pct = NAN;
  price->is_answered = price->has_answer && then->has_price
                       && cro_price_answer_holds (&price->answer, model, price->offer, then);
}

void
cro_price_history_cost (CroModel *model,
                        GArray   *history)
{
  for (guint i = 0; i < history->len; i++)
    cost (model, &g_array_index (history, CroPastPrice, i));
  compute_changes (history);
}

GArray *
cro_price_history_new (CroBook   *book,
                       guint32    ingredient,
                       GError   **error)
{
  CroModel *model = cro_book_get_model (book);
  const CroItem *item = cro_model_item (model, ingredient);
  g_autoptr (GArray) history = g_array_new (FALSE, FALSE, sizeof (CroPastPrice));

  for (guint32 i = 0; i < item->n_offers; i++)
    if (!read_offer (book, g_array_index (model->offer_order, guint32, item->first_offer + i),
                     history, error))
      return NULL;
  g_array_sort (history, compare);
  cro_price_history_cost (model, history);
  return g_steal_pointer (&history);
}

gboolean
cro_price_history_last_two (CroFigures          *figures,
                            GArray              *history,
                            guint32              ingredient,
                            const CroPastPrice **price,
                            const CroPastPrice **before)
{
  guint32 offer = figures->offer_in_use[ingredient];

  *price = *before = NULL;
  for (guint i = 0; i < history->len && *before == NULL; i++)
    {
      const CroPastPrice *past = &g_array_index (history, CroPastPrice, i);

      if (past->offer != offer || past->offer_then.from > figures->date)
        continue;
      if (*price == NULL)
        *price = past;
      else
        *before = past;
    }
  return *before != NULL && !isnan ((*price)->change_pct);
}

double
cro_price_history_last_change (CroFigures *figures,
                               GArray     *history,
                               guint32     ingredient)
{
  const CroPastPrice *price, *before;

  return cro_price_history_last_two (figures, history, ingredient, &price, &before)
             ? price->change_pct
             : NAN;
}
