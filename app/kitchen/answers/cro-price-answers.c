#include "cro-price-answers.h"

#include <string.h>

typedef struct
{
  gint64  offer;
  gint64  price;
  CroDate from;
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

  return one->offer == other->offer && one->from == other->from && one->price == other->price;
}

GHashTable *
cro_price_answers_new (CroStore  *store,
                       gint64     offer,
                       GError   **error)
{
  static const char *const columns[] = { "offer", "from_date", "price_micro", NULL };
  g_autoptr (GHashTable) answers = g_hash_table_new_full (answer_hash, answer_equal, g_free, NULL);
  g_autoptr (CroRows) rows = offer != 0 ? cro_store_read_of (store, "price_answer", "offer", offer, columns, error)
                                        : cro_store_read (store, "price_answer", columns, error);
  GError *failed = NULL;

  while (rows != NULL && cro_rows_next (rows, &failed))
    {
      Answer answer = { .offer = cro_rows_get_int (rows, 0), .price = cro_rows_get_int (rows, 2) };
      const char *from = cro_rows_get_text (rows, 1);

      if (cro_date_parse (from, strlen (from), &answer.from))
        g_hash_table_add (answers, g_memdup2 (&answer, sizeof answer));
    }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL ? g_steal_pointer (&answers) : NULL;
}

gboolean
cro_price_answers_has (GHashTable *answers,
                       gint64      offer,
                       CroDate     from,
                       gint64      price)
{
  const Answer answer = { .offer = offer, .price = price, .from = from };

  return g_hash_table_contains (answers, &answer);
}
