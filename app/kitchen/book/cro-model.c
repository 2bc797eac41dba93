#include "cro-model.h"

#include <string.h>

#include "cro-model-load.h"
#include "cro-model-prices.h"
#include "cro-model-rest.h"
#include "cro-model-rows-private.h"
#include "cro-model-selling.h"

CroModel *
cro_model_new (void)
{
  static int n_models;
  CroModel *self = g_new0 (CroModel, 1);

  self->serial = (guint) g_atomic_int_add (&n_models, 1) + 1;
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
  self->selling = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
  self->thing_names = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  self->text = g_string_chunk_new (4096);
  return self;
}

void
cro_model_free (CroModel *self)
{
  GArray *arrays[] = { self->items,  self->recipes,     self->menus,       self->menu_plates,
                       self->suppliers, self->offers, self->offer_order, self->output_order };
  CroSlots *slots[] = { &self->item_slots,       &self->preparation_slots, &self->plate_slots,
                        &self->menu_slots,       &self->menu_plate_slots,  &self->supplier_slots,
                        &self->offer_slots,      &self->price_slots,       &self->line_slots };

  for (gsize i = 0; i < G_N_ELEMENTS (arrays); i++)
    g_array_unref (arrays[i]);
  for (gsize i = 0; i < G_N_ELEMENTS (slots); i++)
    cro_slots_clear (slots[i]);
  cro_model_free_lines (self);
  g_free (self->name);
  g_free (self->currency);
  g_free (self->maker);
  g_free (self->measures);
  g_hash_table_unref (self->rates);
  g_hash_table_unref (self->selling);
  g_hash_table_unref (self->thing_names);
  g_string_chunk_free (self->text);
  g_free (self);
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

/* Ids and not slots: figures come out in the same bits whatever the book went through. */
static int
compare_outputs (gconstpointer a,
                 gconstpointer b,
                 gpointer      user_data)
{
  const CroItem *x = cro_model_item (user_data, *(const guint32 *) a);
  const CroItem *y = cro_model_item (user_data, *(const guint32 *) b);

  if (x->is_main != y->is_main)
    return x->is_main ? -1 : 1;
  return x->id < y->id ? -1 : x->id > y->id;
}

/* Gathers outputs by recipe: a counting sort, then the few of each in their order. */
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

        g_array_index (self->output_order, guint32, recipe->first_output + recipe->n_outputs++) = i;
      }
  for (guint32 r = 0; r < self->recipes->len; r++)
    {
      CroRecipe *recipe = cro_model_recipe (self, r);

      if (recipe->n_outputs > 1)
        g_qsort_with_data (&g_array_index (self->output_order, guint32, recipe->first_output),
                           (int) recipe->n_outputs, sizeof (guint32), compare_outputs, self);
    }
}

void
cro_model_sort (CroModel *self)
{
  sort_offers (self);
  sort_outputs (self);
}

static gboolean
has_kind (CroModel *self,
          guint32   slot)
{
  return cro_model_item (self, slot)->is_dead || self->maker[slot] >= 0
         || self->measures[slot].is_bought;
}

gboolean
cro_model_has_kind (CroModel *self,
                    gint64    id)
{
  guint32 slot = cro_slots_get (&self->item_slots, id);

  return slot == CRO_NO_SLOT || has_kind (self, slot);
}

static gboolean
check_kinds (CroModel  *self,
             GError   **error)
{
  for (guint32 i = 0; i < self->items->len; i++)
    if (!has_kind (self, i))
      {
        g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED,
                     "item %" G_GINT64_FORMAT " is neither bought nor made",
                     cro_model_item (self, i)->id);
        return FALSE;
      }
  return TRUE;
}

gboolean
cro_model_load (CroModel  *self,
                CroStore  *store,
                CroDate    date,
                gboolean   is_copy,
                GError   **error)
{
  if (!cro_model_load_tables (self, store, error) || !check_kinds (self, error)
      || (!is_copy && !cro_model_check_rest (self, store, error)))
    return FALSE;
  cro_model_sort (self);
  return cro_model_load_prices (self, store, date, error);
}

/* --- One row ---------------------------------------------------------------------------------------- */

/* A pack that moved is that of its price, unless the price has its own. */
static gboolean
take_offer_price (CroModel    *self,
                  CroStore    *store,
                  CroDate      date,
                  const char  *table,
                  gint64       id,
                  GError     **error)
{
  guint32 slot = strcmp (table, "offer") == 0 ? cro_slots_get (&self->offer_slots, id)
                                              : CRO_NO_SLOT;

  return slot == CRO_NO_SLOT || cro_model_load_price (self, store, date, slot, error);
}

gboolean
cro_model_take (CroModel           *self,
                CroStore           *store,
                CroDate             date,
                const char         *table_name,
                gint64              id,
                const char *const  *previewed,
                const CroCell      *cells,
                CroTouched         *touched,
                GError            **error)
{
  const CroModelTable *table = cro_model_table_find (table_name);
  const char *columns[CRO_MODEL_MOST_COLUMNS + 2];
  g_autoptr (CroRows) rows = NULL;
  GError *failed = NULL;
  CroModelRow record;

  *touched = (CroTouched){ CRO_TOUCHED_NOTHING, 0 };
  if (strcmp (table_name, "price") == 0)
    return cro_model_take_price (self, store, date, id, touched, error);
  if (strcmp (table_name, "selling_price") == 0)
    return cro_model_load_selling (self, store, date, error);
  if (strcmp (table_name, "rate") == 0)
    touched->kind = CRO_TOUCHED_ALL;
  if (table == NULL)
    return TRUE;
  cro_model_table_columns (table, columns);
  rows = cro_store_read_one (store, table_name, id, columns, error);
  if (rows == NULL)
    return FALSE;
  if (cro_rows_next (rows, &failed))
    {
      if (cro_model_row_read (&record, table->columns, rows, 1, &failed))
        {
          cro_model_row_show (&record, table, previewed, cells);
          *touched = table->take (self, id, &record);
          if (record.is_damaged)
            cro_rows_is_damaged (rows, record.bad + 1, &failed);
        }
    }
  else if (failed == NULL)
    *touched = table->drop (self, id);
  if (failed == NULL)
    return take_offer_price (self, store, date, table_name, id, error);
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

      for (const CroModelTable *const *at = cro_model_rows; *at != NULL; at++)
        tables[n++] = (*at)->table;
      tables[n++] = "price";
      tables[n++] = "selling_price";
      tables[n++] = "rate";
      tables[n] = "*";
    }
  return tables;
}
