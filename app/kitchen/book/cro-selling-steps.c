#include "cro-selling-steps.h"

#include <string.h>

#include "cro-not-set.h"

static int
newest_first (gconstpointer a,
              gconstpointer b)
{
  CroDate x = ((const CroSellingStep *) a)->from, y = ((const CroSellingStep *) b)->from;

  return x < y ? 1 : x > y ? -1 : 0;
}

/* Columns: id, from_date, price_micro, tax_pct_micro. */
static void
take_step (GArray  *steps,
           CroRows *rows)
{
  const char *from = cro_rows_get_text (rows, 1);
  CroSellingStep step = { cro_rows_get_int (rows, 0), 0, cro_row_number (rows, 2), cro_row_number (rows, 3) };

  if (cro_date_parse (from, strlen (from), &step.from))
    g_array_append_val (steps, step);
}

const CroSellingStep *
cro_selling_step_on (GArray  *steps,
                     CroDate  date)
{
  for (guint i = 0; steps != NULL && i < steps->len; i++)
    if (g_array_index (steps, CroSellingStep, i).from <= date)
      return &g_array_index (steps, CroSellingStep, i);
  return NULL;
}

static GArray *
steps_of (GHashTable *all,
          gint64      thing)
{
  GArray *steps = g_hash_table_lookup (all, &thing);

  if (steps == NULL)
    {
      steps = g_array_new (FALSE, FALSE, sizeof (CroSellingStep));
      g_hash_table_insert (all, g_memdup2 (&thing, sizeof thing), steps);
    }
  return steps;
}

GHashTable *
cro_selling_steps_all (CroBook  *book,
                       GError  **error)
{
  static const char *const columns[] = { "id", "from_date", "price_micro", "tax_pct_micro", "thing",
                                         NULL };
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (book), "selling_price", columns,
                                             error);
  g_autoptr (GHashTable) all = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free,
                                                      (GDestroyNotify) g_array_unref);
  GHashTableIter iter;
  gpointer steps;
  GError *failed = NULL;

  if (rows == NULL)
    return NULL;
  while (cro_rows_next (rows, &failed))
    take_step (steps_of (all, cro_rows_get_int (rows, 4)), rows);
  if (failed != NULL)
    {
      g_propagate_error (error, failed);
      return NULL;
    }
  g_hash_table_iter_init (&iter, all);
  while (g_hash_table_iter_next (&iter, NULL, &steps))
    g_array_sort (steps, newest_first);
  return g_steal_pointer (&all);
}

GArray *
cro_selling_steps_read (CroStore  *store,
                        gint64     thing,
                        GError   **error)
{
  static const char *const columns[] = { "id", "from_date", "price_micro", "tax_pct_micro", NULL };
  g_autoptr (CroRows) rows = cro_store_read_of (store, "selling_price", "thing", thing, columns,
                                                error);
  g_autoptr (GArray) steps = g_array_new (FALSE, FALSE, sizeof (CroSellingStep));
  GError *failed = NULL;

  if (rows == NULL)
    return NULL;
  while (cro_rows_next (rows, &failed))
    take_step (steps, rows);
  if (failed != NULL)
    {
      g_propagate_error (error, failed);
      return NULL;
    }
  g_array_sort (steps, newest_first);
  return g_steal_pointer (&steps);
}

GArray *
cro_selling_steps_new (CroBook  *book,
                       CroRef    thing,
                       GError  **error)
{
  CroModel *model = cro_book_get_model (book);

  return cro_selling_steps_read (cro_book_get_store (book),
                                 thing.kind == CRO_REF_MENU
                                     ? cro_model_menu (model, thing.slot)->id
                                     : cro_model_recipe (model, thing.slot)->id,
                                 error);
}

CroSellingTerms
cro_selling_terms_on (CroModel *model,
                      GArray   *steps,
                      CroRef    thing,
                      CroDate   date)
{
  const CroSellingStep *step = cro_selling_step_on (steps, date);
  CroSellingTerms terms = { CRO_NOT_SET, CRO_NOT_SET };

  if (thing.kind == CRO_REF_RECIPE)
    terms = (CroSellingTerms){ cro_model_recipe (model, thing.slot)->own_price,
                               cro_model_recipe (model, thing.slot)->own_tax };
  else if (thing.kind == CRO_REF_MENU)
    terms = (CroSellingTerms){ cro_model_menu (model, thing.slot)->own_price,
                               cro_model_menu (model, thing.slot)->own_tax };
  if (step != NULL)
    terms = (CroSellingTerms){ step->price, step->tax != CRO_NOT_SET ? step->tax : terms.tax };
  if (terms.tax == CRO_NOT_SET)
    terms.tax = model->tax != CRO_NOT_SET ? model->tax : 0;
  return terms;
}
