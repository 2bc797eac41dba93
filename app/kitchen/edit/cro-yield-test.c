#include "cro-yield-test.h"

#include <string.h>

#include "cro-decimal.h"
#include "cro-edit-private.h"

static void
clear_test (gpointer data)
{
  CroYieldTest *test = data;

  g_free (test->name);
  g_free (test->note);
}

static int
compare (gconstpointer a,
         gconstpointer b)
{
  const CroYieldTest *one = a, *other = b;

  if (one->date != other->date)
    return one->date < other->date ? 1 : -1;
  return strcmp (one->name, other->name);
}

GArray *
cro_yield_tests_new (CroBook   *book,
                     guint32    item,
                     GError   **error)
{
  static const char *const columns[] = {
    "id", "test", "date", "purchased_g_micro", "usable_g_micro", "note", NULL
  };
  g_autoptr (GArray) tests = g_array_new (FALSE, TRUE, sizeof (CroYieldTest));
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (book), "yield_test", "item",
                                                cro_model_item (cro_book_get_model (book),
                                                                item)->id,
                                                columns, error);
  GError *failed = NULL;

  g_array_set_clear_func (tests, clear_test);
  if (rows == NULL)
    return NULL;
  while (cro_rows_next (rows, &failed))
    {
      const char *date = cro_rows_get_text (rows, 2);
      CroYieldTest test = {
        .id = cro_rows_get_int (rows, 0),
        .name = g_strdup (cro_rows_get_text (rows, 1)),
        .purchased = cro_rows_get_int (rows, 3),
        .usable = cro_rows_get_int (rows, 4),
        .note = g_strdup (cro_rows_get_text (rows, 5)),
      };

      cro_date_parse (date, strlen (date), &test.date);
      g_array_append_val (tests, test);
    }
  if (failed != NULL)
    {
      g_propagate_error (error, failed);
      return NULL;
    }
  g_array_sort (tests, compare);
  return g_steal_pointer (&tests);
}

CroPooledYield
cro_yield_tests_pool (GArray *tests)
{
  g_autofree double *purchased = g_new (double, tests->len + 1);
  g_autofree double *usable = g_new (double, tests->len + 1);
  gsize n = 0;

  for (guint i = 0; i < tests->len; i++)
    {
      const CroYieldTest *test = &g_array_index (tests, CroYieldTest, i);

      if (test->purchased == 0)
        continue;
      purchased[n] = cro_decimal_to_double (test->purchased);
      usable[n++] = cro_decimal_to_double (test->usable);
    }
  return cro_yield_pool (purchased, usable, n);
}

GArray *
cro_yield_test_parts_new (CroBook   *book,
                          gint64     test,
                          GError   **error)
{
  static const char *const columns[] = { "id", "output", "weight_g_micro", NULL };
  CroModel *model = cro_book_get_model (book);
  g_autoptr (GArray) parts = g_array_new (FALSE, FALSE, sizeof (CroYieldTestPart));
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (book), "yield_test_part",
                                                "yield_test", test, columns, error);
  GError *failed = NULL;

  if (rows == NULL)
    return NULL;
  while (cro_rows_next (rows, &failed))
    {
      CroYieldTestPart part = {
        .id = cro_rows_get_int (rows, 0),
        .output = cro_slots_get (&model->item_slots, cro_rows_get_int (rows, 1)),
        .weight = cro_rows_get_int (rows, 2),
      };

      g_array_append_val (parts, part);
    }
  if (failed != NULL)
    {
      g_propagate_error (error, failed);
      return NULL;
    }
  return g_steal_pointer (&parts);
}

/* --- Changes --------------------------------------------------------------------------------- */

/* All tests share one space of names. */
static char *
dup_free_name (CroBook     *book,
               const char  *name,
               GError     **error)
{
  static const char *const columns[] = { "test", NULL };
  g_autoptr (GHashTable) taken = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (book), "yield_test", columns,
                                             error);
  GError *failed = NULL;
  char *free_name = g_strdup (name);

  while (rows != NULL && cro_rows_next (rows, &failed))
    g_hash_table_add (taken, g_strdup (cro_rows_get_text (rows, 0)));
  if (failed != NULL)
    g_propagate_error (error, failed);
  if (rows == NULL || failed != NULL)
    {
      g_free (free_name);
      return NULL;
    }
  for (guint i = 2; g_hash_table_contains (taken, free_name); i++)
    {
      g_free (free_name);
      free_name = g_strdup_printf ("%s %u", name, i);
    }
  return free_name;
}

gboolean
cro_yield_test_add (CroBook     *book,
                    const char  *label,
                    guint32      item,
                    const char  *name,
                    CroDate      date,
                    gint64       purchased,
                    gint64       usable,
                    GError     **error)
{
  static const char *const columns[] = {
    "test", "item", "date", "purchased_g_micro", "usable_g_micro", NULL
  };
  char day[CRO_DATE_CHARS];
  g_autofree char *free_name = NULL;

  if (!cro_edit_begin (book, label, error))
    return FALSE;
  cro_date_format (date, day);
  free_name = dup_free_name (book, name, error);
  {
    CroCell cells[] = {
      CRO_CELL_STR (free_name),
      CRO_CELL_INT (cro_model_item (cro_book_get_model (book), item)->id),
      CRO_CELL_STR (day),
      CRO_CELL_INT (purchased),
      CRO_CELL_INT (usable),
    };

    return cro_edit_end (book,
                         free_name != NULL
                             && cro_edit_insert (book, "yield_test", columns, cells, error) != 0,
                         error);
  }
}

static gboolean
remove_test (CroBook  *book,
             gint64    test,
             GError  **error)
{
  g_autoptr (GArray) parts = cro_yield_test_parts_new (book, test, error);

  if (parts == NULL)
    return FALSE;
  for (guint i = 0; i < parts->len; i++)
    if (!cro_store_delete (cro_book_get_store (book), "yield_test_part",
                           g_array_index (parts, CroYieldTestPart, i).id, error))
      return FALSE;
  return cro_store_delete (cro_book_get_store (book), "yield_test", test, error);
}

gboolean
cro_yield_test_remove (CroBook     *book,
                       const char  *label,
                       gint64       test,
                       GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, remove_test (book, test, error), error);
}

static gboolean
set_part (CroBook  *book,
          gint64    test,
          guint32   output,
          gint64    weight,
          GError  **error)
{
  static const char *const columns[] = { "yield_test", "output", "weight_g_micro", NULL };
  g_autoptr (GArray) parts = cro_yield_test_parts_new (book, test, error);
  CroCell cells[] = {
    CRO_CELL_INT (test),
    CRO_CELL_INT (cro_model_item (cro_book_get_model (book), output)->id),
    CRO_CELL_INT (weight),
  };

  if (parts == NULL)
    return FALSE;
  for (guint i = 0; i < parts->len; i++)
    {
      const CroYieldTestPart *part = &g_array_index (parts, CroYieldTestPart, i);

      if (part->output != output)
        continue;
      return weight != 0 ? cro_edit_update (book, "yield_test_part", part->id, "weight_g_micro",
                                            CRO_CELL_INT (weight), error)
                         : cro_store_delete (cro_book_get_store (book), "yield_test_part",
                                             part->id, error);
    }
  return weight == 0 || cro_edit_insert (book, "yield_test_part", columns, cells, error) != 0;
}

gboolean
cro_yield_test_set_part (CroBook     *book,
                         const char  *label,
                         gint64       test,
                         guint32      output,
                         gint64       weight,
                         GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, set_part (book, test, output, weight, error), error);
}

/* --- Yields of a batch ------------------------------------------------------------------------ */

/* What all tests together weighed of one output, and bought for it. */
static gboolean
add_up (CroBook        *book,
        GArray         *tests,
        guint32         output,
        double         *weight,
        double         *purchased,
        GError        **error)
{
  for (guint i = 0; i < tests->len; i++)
    {
      const CroYieldTest *test = &g_array_index (tests, CroYieldTest, i);
      g_autoptr (GArray) parts = cro_yield_test_parts_new (book, test->id, error);

      if (parts == NULL)
        return FALSE;
      for (guint k = 0; k < parts->len; k++)
        if (g_array_index (parts, CroYieldTestPart, k).output == output)
          {
            *weight += (double) g_array_index (parts, CroYieldTestPart, k).weight;
            *purchased += (double) test->purchased;
          }
    }
  return TRUE;
}

static gboolean
set_yield (CroBook  *book,
           guint32   output,
           double    part,
           GError  **error)
{
  static const char *const columns[] = { "amount_micro", "yield_pct_micro", NULL };
  const CroItem *item = cro_model_item (cro_book_get_model (book), output);
  CroCell cells[] = { CRO_CELL_NONE, CRO_CELL_NONE };
  gint64 micro;

  if (!(part > 0) || cro_unit_get (item->output.unit)->base != CRO_BASE_GRAM
      || !cro_decimal_from_double (part * 100, &micro))
    return TRUE;
  cells[1] = CRO_CELL_INT (micro);
  return cro_edit_update_row (book, "output", item->id, columns, cells, error);
}

static gboolean
set_outputs (CroBook  *book,
             guint32   preparation,
             guint32   item,
             GError  **error)
{
  CroModel *model = cro_book_get_model (book);
  const CroRecipe *recipe = cro_model_recipe (model, preparation);
  const guint32 *outputs = (const guint32 *) model->output_order->data + recipe->first_output;
  g_autoptr (GArray) tests = cro_yield_tests_new (book, item, error);

  for (guint32 i = 0; tests != NULL && i < recipe->n_outputs; i++)
    {
      gboolean is_main = cro_model_item (model, outputs[i])->is_main;
      double weight = 0, purchased = 0;

      if (!is_main && !add_up (book, tests, outputs[i], &weight, &purchased, error))
        return FALSE;
      if (!set_yield (book, outputs[i],
                      is_main ? cro_yield_tests_pool (tests).yield : weight / purchased, error))
        return FALSE;
    }
  return tests != NULL;
}

gboolean
cro_yield_test_set_outputs (CroBook     *book,
                            const char  *label,
                            guint32      preparation,
                            guint32      item,
                            GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, set_outputs (book, preparation, item, error), error);
}

/* --- By-products ------------------------------------------------------------------------------ */

static void
add_once (GArray  *outputs,
          guint32  output)
{
  for (guint i = 0; i < outputs->len; i++)
    if (g_array_index (outputs, guint32, i) == output)
      return;
  g_array_append_val (outputs, output);
}

/* Those that breaking the item down gives. */
static void
add_by_products (CroFigures *figures,
                 guint32     item,
                 GArray     *outputs)
{
  const CroGraph *graph = &figures->graph;
  guint32 node = cro_figures_node (figures, item);

  for (guint32 u = graph->used_first[node]; u < graph->used_first[node + 1]; u++)
    {
      guint32 row = graph->used_in[u];
      const guint32 *slots;
      guint32 n;

      if (graph->first[row + 1] - graph->first[row] != 1
          || cro_model_recipe (figures->model, graph->slot_of_row[row])->is_plate)
        continue;
      n = cro_figures_outputs (figures, graph->slot_of_row[row], &slots);
      for (guint32 i = 1; i < n; i++)
        add_once (outputs, slots[i]);
    }
}

GArray *
cro_yield_test_outputs (CroBook   *book,
                        guint32    item,
                        GArray    *tests,
                        GError   **error)
{
  g_autoptr (GArray) outputs = g_array_new (FALSE, FALSE, sizeof (guint32));

  for (guint i = 0; i < tests->len; i++)
    {
      g_autoptr (GArray) parts = cro_yield_test_parts_new (
          book, g_array_index (tests, CroYieldTest, i).id, error);

      if (parts == NULL)
        return NULL;
      for (guint k = 0; k < parts->len; k++)
        add_once (outputs, g_array_index (parts, CroYieldTestPart, k).output);
    }
  add_by_products (cro_book_get_figures (book), item, outputs);
  return g_steal_pointer (&outputs);
}
