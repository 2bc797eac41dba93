#include "cro-price-answers.h"

#include <string.h>

#include "cro-not-set.h"

typedef struct
{
  gint64         offer;
  CroDate        from;
  CroPriceAnswer answer;
} Answer;

static guint
answer_hash (gconstpointer key)
{
  const Answer *answer = key;

  return g_int64_hash (&answer->offer) * 31 + (guint) answer->from;
}

static gboolean
answer_equal (gconstpointer a,
              gconstpointer b)
{
  const Answer *one = a, *other = b;

  return one->offer == other->offer && one->from == other->from;
}

static void
take_answer (CroRows    *rows,
             GHashTable *answers)
{
  enum { OFFER, FROM, PRICE, COUNT, SIZE, UNIT, CURRENCY };
  const char *from = cro_rows_get_text (rows, FROM), *unit = cro_rows_get_text (rows, UNIT);
  const char *currency = cro_rows_get_text (rows, CURRENCY);
  Answer self = { .offer = cro_rows_get_int (rows, OFFER) };

  if (!cro_date_parse (from, strlen (from), &self.from))
    return;
  self.answer = (CroPriceAnswer){ cro_rows_get_int (rows, PRICE), cro_row_number (rows, COUNT),
                                  cro_row_number (rows, SIZE), CRO_N_UNITS, "" };
  if (unit != NULL)
    cro_unit_parse (unit, strlen (unit), &self.answer.pack_unit);
  if (currency != NULL)
    g_strlcpy (self.answer.currency, currency, sizeof self.answer.currency);
  g_hash_table_add (answers, g_memdup2 (&self, sizeof self));
}

GHashTable *
cro_price_answers_new (CroStore  *store,
                       gint64     offer,
                       GError   **error)
{
  static const char *const columns[] = { "offer", "from_date", "price_micro", "pack_count_micro", "pack_size_micro",
                                         "pack_unit", "currency", NULL };
  g_autoptr (GHashTable) answers = g_hash_table_new_full (answer_hash, answer_equal, g_free, NULL);
  g_autoptr (CroRows) rows = offer != 0 ? cro_store_read_of (store, "price_answer", "offer", offer, columns, error)
                                        : cro_store_read (store, "price_answer", columns, error);
  GError *failed = NULL;

  while (rows != NULL && cro_rows_next (rows, &failed))
    take_answer (rows, answers);
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL ? g_steal_pointer (&answers) : NULL;
}

const CroPriceAnswer *
cro_price_answers_find (GHashTable *answers,
                        gint64      offer,
                        CroDate     from)
{
  const Answer key = { .offer = offer, .from = from };
  const Answer *found = g_hash_table_lookup (answers, &key);

  return found != NULL ? &found->answer : NULL;
}

gboolean
cro_price_answer_holds (const CroPriceAnswer *answer,
                        CroModel             *model,
                        guint32               offer,
                        const CroOffer       *then)
{
  const CroOfferEntry *entry = cro_model_offer (model, offer);

  return answer != NULL && then->price == answer->price
         && then->pack_count == (answer->pack_count != CRO_NOT_SET ? answer->pack_count : entry->pack_count)
         && then->pack_size == (answer->pack_size != CRO_NOT_SET ? answer->pack_size : entry->pack_size)
         && then->pack_unit == (answer->pack_unit != CRO_N_UNITS ? answer->pack_unit : (CroUnit) entry->pack_unit)
         && (*answer->currency == '\0'
             || g_strcmp0 (answer->currency, cro_model_currency_of (model, offer)) == 0);
}
