#include "cro-rate-steps.h"

#include <string.h>

#include "cro-decimal.h"

typedef struct
{
  CroDate from;
  double  rate;
} Step;

struct _CroRateSteps
{
  GHashTable *currencies;   /* code → GArray of Step, oldest first */
};

static GArray *
steps_of (CroRateSteps *self,
          const char   *currency)
{
  GArray *steps = g_hash_table_lookup (self->currencies, currency);

  if (steps == NULL)
    {
      steps = g_array_new (FALSE, FALSE, sizeof (Step));
      g_hash_table_insert (self->currencies, g_strdup (currency), steps);
    }
  return steps;
}

static int
by_date (gconstpointer a,
         gconstpointer b)
{
  CroDate x = ((const Step *) a)->from, y = ((const Step *) b)->from;

  return x < y ? -1 : x > y;
}

static void
take_step (CroRateSteps *self,
           CroRows      *rows)
{
  const char *from = cro_rows_get_text (rows, 1);
  gint64 per = cro_rows_is_null (rows, 3) ? CRO_MICRO : cro_rows_get_int (rows, 3);
  Step step = { .rate = (double) cro_rows_get_int (rows, 2) / (double) per };

  if (cro_date_parse (from, strlen (from), &step.from))
    g_array_append_val (steps_of (self, cro_rows_get_text (rows, 0)), step);
}

CroRateSteps *
cro_rate_steps_new (CroStore  *store,
                    GError   **error)
{
  static const char *const columns[] = { "currency", "from_date", "rate_micro", "per_micro", NULL };
  g_autoptr (CroRateSteps) self = g_new0 (CroRateSteps, 1);
  g_autoptr (CroRows) rows = cro_store_read (store, "rate", columns, error);
  GHashTableIter iter;
  gpointer steps;
  GError *failed = NULL;

  self->currencies = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_array_unref);
  while (rows != NULL && cro_rows_next (rows, &failed))
    take_step (self, rows);
  if (failed != NULL)
    g_propagate_error (error, failed);
  if (rows == NULL || failed != NULL)
    return NULL;
  g_hash_table_iter_init (&iter, self->currencies);
  while (g_hash_table_iter_next (&iter, NULL, &steps))
    g_array_sort (steps, by_date);
  return g_steal_pointer (&self);
}

void
cro_rate_steps_free (CroRateSteps *self)
{
  g_hash_table_unref (self->currencies);
  g_free (self);
}

double
cro_rate_steps_on (const CroRateSteps *self,
                   const char         *currency,
                   CroDate             date)
{
  GArray *steps = g_hash_table_lookup (self->currencies, currency);

  for (guint i = steps != NULL ? steps->len : 0; i-- > 0;)
    if (g_array_index (steps, Step, i).from <= date)
      return g_array_index (steps, Step, i).rate;
  return 0;
}
