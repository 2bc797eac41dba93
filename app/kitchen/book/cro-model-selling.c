#include "cro-model-selling.h"

#include "cro-model-rows-private.h"

static void
sell (CroModel *self,
      gint64    thing,
      gint64    own_price,
      gint64    own_tax,
      gint64   *price,
      gint64   *tax)
{
  const CroSelling *dated = g_hash_table_lookup (self->selling, &thing);

  *price = dated != NULL ? dated->price : own_price;
  *tax = dated != NULL && dated->tax != CRO_NOT_SET ? dated->tax : own_tax;
}

void
cro_model_sell_plate (CroModel  *self,
                      CroRecipe *plate)
{
  sell (self, plate->id, plate->own_price, plate->own_tax, &plate->price, &plate->tax);
}

void
cro_model_sell_menu (CroModel *self,
                     CroMenu  *menu)
{
  sell (self, menu->id, menu->own_price, menu->own_tax, &menu->price, &menu->tax);
}

static void
sell_all (CroModel *self)
{
  for (guint32 i = 0; i < self->recipes->len; i++)
    if (cro_model_recipe (self, i)->is_plate)
      cro_model_sell_plate (self, cro_model_recipe (self, i));
  for (guint32 i = 0; i < self->menus->len; i++)
    cro_model_sell_menu (self, cro_model_menu (self, i));
}

/* Columns as cro_store_read_selling_prices gives them. */
static const CroModelColumn columns_of_selling[] = {
  { "thing", CRO_OF_ID },
  { "id", CRO_OF_ID },
  { "price_micro", CRO_FROM_0 },
  { "tax_pct_micro", CRO_FROM_0 },
  { NULL, 0, 0 },
};

static gboolean
take_selling (CroModel  *self,
              CroRows   *rows,
              GError   **error)
{
  CroModelRow record;
  CroSelling selling;
  gint64 thing;

  if (!cro_model_row_read (&record, columns_of_selling, rows, 0, error))
    return FALSE;
  thing = cro_model_row_get_int (&record, 0);
  selling = (CroSelling){ cro_model_row_get_int (&record, 1),
                          cro_model_row_get_int_or (&record, 2, CRO_NOT_SET),
                          cro_model_row_get_int_or (&record, 3, CRO_NOT_SET) };
  g_hash_table_insert (self->selling, g_memdup2 (&thing, sizeof thing),
                       g_memdup2 (&selling, sizeof selling));
  return TRUE;
}

static gboolean
read_selling (CroModel  *self,
              CroStore  *store,
              CroDate    date,
              GError   **error)
{
  char on[CRO_DATE_CHARS];
  g_autoptr (CroRows) rows = NULL;
  GError *failed = NULL;

  cro_date_format (date, on);
  rows = cro_store_read_selling_prices (store, on, error);
  if (rows == NULL)
    return FALSE;
  g_hash_table_remove_all (self->selling);
  while (cro_rows_next (rows, &failed))
    if (!take_selling (self, rows, error))
      return FALSE;
  if (failed == NULL)
    return TRUE;
  g_propagate_error (error, failed);
  return FALSE;
}

gboolean
cro_model_load_selling (CroModel  *self,
                        CroStore  *store,
                        CroDate    date,
                        GError   **error)
{
  if (!read_selling (self, store, date, error))
    return FALSE;
  sell_all (self);
  return TRUE;
}

void
cro_model_sell_thing (CroModel *self,
                      gint64    thing,
                      gint64    id,
                      gint64    price,
                      gint64    tax)
{
  guint32 plate = cro_slots_get (&self->plate_slots, thing);
  guint32 menu = cro_slots_get (&self->menu_slots, thing);
  CroSelling selling = { id, price, tax };

  if (id != 0)
    g_hash_table_insert (self->selling, g_memdup2 (&thing, sizeof thing),
                         g_memdup2 (&selling, sizeof selling));
  else
    g_hash_table_remove (self->selling, &thing);
  if (plate != CRO_NO_SLOT)
    cro_model_sell_plate (self, cro_model_recipe (self, plate));
  if (menu != CRO_NO_SLOT)
    cro_model_sell_menu (self, cro_model_menu (self, menu));
}
