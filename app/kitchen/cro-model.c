#include "cro-model.h"

#include <string.h>

#include "cro-decimal.h"
#include "cro-model-rows.h"

#define MOST_COLUMNS 16

CroModel *
cro_model_new (void)
{
  CroModel *self = g_new0 (CroModel, 1);

  self->wage_per_hour = self->tax = self->target = self->stale_after_days = CRO_NOT_SET;
  self->items = g_array_new (FALSE, TRUE, sizeof (CroItem));
  self->recipes = g_array_new (FALSE, TRUE, sizeof (CroRecipe));
  self->menus = g_array_new (FALSE, TRUE, sizeof (CroMenu));
  self->menu_plates = g_array_new (FALSE, TRUE, sizeof (CroMenuPlate));
  self->suppliers = g_array_new (FALSE, TRUE, sizeof (CroSupplier));
  self->offers = g_array_new (FALSE, TRUE, sizeof (CroOfferEntry));
  self->offer_order = g_array_new (FALSE, FALSE, sizeof (guint32));
  self->output_order = g_array_new (FALSE, FALSE, sizeof (guint32));
  self->rates = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  self->thing_names = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  self->text = g_string_chunk_new (4096);
  return self;
}

static void
free_lines (CroModel *self)
{
  CroLines *lines = &self->lines;

  g_free (lines->row);
  g_free (lines->item);
  g_free (lines->position);
  g_free (lines->amount);
  g_free (lines->yield);
  g_free (lines->recovered);
  g_free (lines->unit);
  g_free (lines->whole);
  g_free (self->line_ids);
}

void
cro_model_free (CroModel *self)
{
  GArray *arrays[] = { self->items,  self->recipes,     self->menus,       self->menu_plates,
                       self->suppliers, self->offers, self->offer_order, self->output_order };
  CroSlots *slots[] = { &self->item_slots,       &self->preparation_slots, &self->plate_slots,
                        &self->menu_slots,       &self->menu_plate_slots,  &self->supplier_slots,
                        &self->offer_slots,      &self->line_slots };

  for (gsize i = 0; i < G_N_ELEMENTS (arrays); i++)
    g_array_unref (arrays[i]);
  for (gsize i = 0; i < G_N_ELEMENTS (slots); i++)
    cro_slots_clear (slots[i]);
  free_lines (self);
  g_free (self->name);
  g_free (self->currency);
  g_free (self->maker);
  g_free (self->measures);
  g_hash_table_unref (self->rates);
  g_hash_table_unref (self->thing_names);
  g_string_chunk_free (self->text);
  g_free (self);
}

/* "id" and the columns of a table. */
static void
with_id (const CroModelTable *table,
         const char          *columns[MOST_COLUMNS])
{
  int n = 0;

  columns[n++] = "id";
  for (int i = 0; table->columns[i] != NULL; i++)
    columns[n++] = table->columns[i];
  columns[n] = NULL;
}

static gboolean
load_table (CroModel             *self,
            CroStore             *store,
            const CroModelTable  *table,
            GError              **error)
{
  const char *columns[MOST_COLUMNS];
  g_autoptr (CroRows) rows = NULL;
  GError *failed = NULL;
  CroRecord record = { .column = -1 };

  with_id (table, columns);
  rows = record.rows = cro_store_read (store, table->table, columns, error);
  if (rows == NULL)
    return FALSE;
  while (cro_rows_next (rows, &failed))
    table->take (self, cro_rows_get_int (rows, 0), &record);
  if (failed == NULL)
    return TRUE;
  g_propagate_error (error, failed);
  return FALSE;
}

/* --- Orders ---------------------------------------------------------------------------------- */

static int
compare_offers (gconstpointer a,
                gconstpointer b,
                gpointer      user_data)
{
  CroModel *self = user_data;
  const CroOfferEntry *x = cro_model_offer (self, *(const guint32 *) a);
  const CroOfferEntry *y = cro_model_offer (self, *(const guint32 *) b);
  int order;

  if (x->item != y->item)
    return x->item < y->item ? -1 : 1;
  if (x->supplier != y->supplier)
    {
      order = strcmp (g_array_index (self->suppliers, CroSupplier, x->supplier).name,
                      g_array_index (self->suppliers, CroSupplier, y->supplier).name);
      if (order != 0)
        return order;
    }
  return strcmp (x->code, y->code);
}

static void
sort_offers (CroModel *self)
{
  g_array_set_size (self->offer_order, 0);
  for (guint32 i = 0; i < self->items->len; i++)
    cro_model_item (self, i)->n_offers = 0;
  for (guint32 i = 0; i < self->offers->len; i++)
    if (!cro_model_offer (self, i)->is_dead)
      g_array_append_val (self->offer_order, i);
  g_array_sort_with_data (self->offer_order, compare_offers, self);

  for (guint32 k = 0; k < self->offer_order->len; k++)
    {
      guint32 slot = g_array_index (self->offer_order, guint32, k);
      CroItem *item = cro_model_item (self, cro_model_offer (self, slot)->item);

      if (item->n_offers++ == 0)
        item->first_offer = k;
    }
}

/* Gathers outputs by recipe: a counting sort, then the main output to the front. */
static void
sort_outputs (CroModel *self)
{
  guint32 n = 0;

  for (guint32 r = 0; r < self->recipes->len; r++)
    cro_model_recipe (self, r)->n_outputs = 0;
  for (guint32 i = 0; i < self->items->len; i++)
    if (self->maker[i] >= 0)
      cro_model_recipe (self, (guint32) self->maker[i])->n_outputs++;
  for (guint32 r = 0; r < self->recipes->len; r++)
    {
      CroRecipe *recipe = cro_model_recipe (self, r);

      recipe->first_output = n;
      n += recipe->n_outputs;
      recipe->n_outputs = 0;
    }
  g_array_set_size (self->output_order, n);
  for (guint32 i = 0; i < self->items->len; i++)
    if (self->maker[i] >= 0)
      {
        CroRecipe *recipe = cro_model_recipe (self, (guint32) self->maker[i]);
        guint32 *of_recipe = &g_array_index (self->output_order, guint32, recipe->first_output);
        guint32 at = recipe->n_outputs++;

        if (cro_model_item (self, i)->is_main)
          {
            of_recipe[at] = of_recipe[0];
            at = 0;
          }
        of_recipe[at] = i;
      }
}

void
cro_model_sort (CroModel *self)
{
  sort_offers (self);
  sort_outputs (self);
}

/* --- Prices and rates ---------------------------------------------------------------------------- */

static double
rate_of (CroModel            *self,
         const CroOfferEntry *entry)
{
  const double *rate;

  if (entry->currency == NULL || g_strcmp0 (entry->currency, self->currency) == 0)
    return 1;
  rate = g_hash_table_lookup (self->rates, entry->currency);
  return rate != NULL ? *rate : 0;
}

static void
forget_price (CroModel      *self,
              CroOfferEntry *entry)
{
  entry->price_id = 0;
  entry->offer.has_price = false;
  entry->offer.pack_count = entry->pack_count;
  entry->offer.pack_size = entry->pack_size;
  entry->offer.pack_unit = (CroUnit) entry->pack_unit;
  entry->offer.rate = rate_of (self, entry);
}

static gboolean
load_rates (CroModel    *self,
            CroStore    *store,
            const char  *date,
            GError     **error)
{
  g_autoptr (CroRows) rows = cro_store_read_rates (store, date, error);
  GError *failed = NULL;

  if (rows == NULL)
    return FALSE;
  g_hash_table_remove_all (self->rates);
  while (cro_rows_next (rows, &failed))
    {
      gint64 per = cro_rows_is_null (rows, 3) ? CRO_MICRO : cro_rows_get_int (rows, 3);
      double rate = (double) cro_rows_get_int (rows, 2) / (double) per;

      g_hash_table_insert (self->rates, g_strdup (cro_rows_get_text (rows, 0)),
                           g_memdup2 (&rate, sizeof rate));
    }
  if (failed == NULL)
    return TRUE;
  g_propagate_error (error, failed);
  return FALSE;
}

/* Columns as cro_store_read_prices gives them. A price may carry a pack of its own. */
static void
take_price (CroModel *self,
            CroRows  *rows)
{
  guint32 slot = cro_slots_get (&self->offer_slots, cro_rows_get_int (rows, 0));
  const char *from = cro_rows_get_text (rows, 2);
  const char *unit = cro_rows_get_text (rows, 7);
  CroOfferEntry *entry;

  if (slot == CRO_NO_SLOT)
    return;
  entry = cro_model_offer (self, slot);
  entry->price_id = cro_rows_get_int (rows, 1);
  entry->offer.has_price = cro_date_parse (from, strlen (from), &entry->offer.from);
  entry->offer.price = cro_rows_get_int (rows, 3);
  entry->offer.tax_included = cro_rows_get_int (rows, 4);
  if (!cro_rows_is_null (rows, 5))
    entry->offer.pack_count = cro_rows_get_int (rows, 5);
  if (!cro_rows_is_null (rows, 6))
    entry->offer.pack_size = cro_rows_get_int (rows, 6);
  if (unit != NULL)
    cro_unit_parse (unit, strlen (unit), &entry->offer.pack_unit);
}

gboolean
cro_model_load_prices (CroModel  *self,
                       CroStore  *store,
                       CroDate    date,
                       GError   **error)
{
  char on[CRO_DATE_CHARS];
  g_autoptr (CroRows) rows = NULL;
  GError *failed = NULL;

  cro_date_format (date, on);
  if (!load_rates (self, store, on, error))
    return FALSE;
  for (guint32 i = 0; i < self->offers->len; i++)
    forget_price (self, cro_model_offer (self, i));
  rows = cro_store_read_prices (store, on, error);
  if (rows == NULL)
    return FALSE;
  while (cro_rows_next (rows, &failed))
    take_price (self, rows);
  if (failed == NULL)
    return TRUE;
  g_propagate_error (error, failed);
  return FALSE;
}

gboolean
cro_model_load (CroModel  *self,
                CroStore  *store,
                CroDate    date,
                GError   **error)
{
  for (const CroModelTable *table = cro_model_rows; table->table != NULL; table++)
    if (!load_table (self, store, table, error))
      return FALSE;
  cro_model_sort (self);
  return cro_model_load_prices (self, store, date, error);
}

/* --- One row ---------------------------------------------------------------------------------------- */

static int
column_index (const CroModelTable *table,
              const char          *column)
{
  for (int i = 0; column != NULL && table->columns[i] != NULL; i++)
    if (strcmp (table->columns[i], column) == 0)
      return i;
  return -1;
}

gboolean
cro_model_take (CroModel       *self,
                CroStore       *store,
                CroDate         date,
                const char     *table_name,
                gint64          id,
                const char     *column,
                const CroCell  *cell,
                CroTouched     *touched,
                GError        **error)
{
  const CroModelTable *table = cro_model_rows;
  const char *columns[MOST_COLUMNS];
  g_autoptr (CroRows) rows = NULL;
  GError *failed = NULL;
  CroRecord record = { .cell = cell != NULL ? *cell : CRO_CELL_NONE };

  *touched = (CroTouched){ CRO_TOUCHED_NOTHING, 0 };
  while (table->table != NULL && strcmp (table->table, table_name) != 0)
    table++;
  if (table->table == NULL)
    return TRUE;

  with_id (table, columns);
  rows = record.rows = cro_store_read_one (store, table_name, id, columns, error);
  if (rows == NULL)
    return FALSE;
  record.column = column_index (table, column);
  if (cro_rows_next (rows, &failed))
    *touched = table->take (self, id, &record);
  else if (failed == NULL)
    *touched = table->drop (self, id);
  if (failed == NULL)
    return TRUE;
  g_propagate_error (error, failed);
  return FALSE;
}

const char *const *
cro_model_tables (void)
{
  static const char *tables[32];

  if (tables[0] == NULL)
    {
      int n = 0;

      for (const CroModelTable *table = cro_model_rows; table->table != NULL; table++)
        tables[n++] = table->table;
      tables[n++] = "price";
      tables[n++] = "rate";
      tables[n] = "*";
    }
  return tables;
}
