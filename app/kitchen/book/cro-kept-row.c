#include "cro-kept-row.h"

#include <string.h>

#include "cro-model-prices.h"
#include "cro-model-rows.h"
#include "cro-model-selling.h"
#include "cro-price-rows.h"
#include "cro-selling-steps.h"

typedef enum
{
  KEPT_NOTHING,          /* no figure hangs on it */
  KEPT_ROW,              /* as its table has it; an offer with its prices */
  KEPT_PRICE,            /* one of an offer's prices */
  KEPT_PRICE_IN_FORCE,   /* an offer at its price, which need be no row */
  KEPT_SELLING,          /* one of the selling prices of a thing */
} Kept;

struct _CroKeptRow
{
  Kept                 kept;
  const CroModelTable *table;
  gint64               id;
  CroModelRow          record;    /* its texts are owned */

  guint32              offer;     /* slot; CRO_NO_SLOT: it is no offer's */
  CroOfferEntry        before;    /* without a preview */
  GArray              *prices;    /* cro_price_rows_new */
  CroPriceRow          price;     /* of them, as it stands in the store */

  gint64               thing;
  GArray              *steps;     /* cro_selling_steps_read */
};

/* --- Reading ---------------------------------------------------------------------------------- */

static CroKeptRow *
kept_new (Kept kept)
{
  CroKeptRow *self = g_new0 (CroKeptRow, 1);

  self->kept = kept;
  self->offer = CRO_NO_SLOT;
  return self;
}

CroKeptRow *
cro_kept_row_new_price (CroModel *model,
                        guint32   offer)
{
  CroKeptRow *self = kept_new (KEPT_PRICE_IN_FORCE);

  self->offer = offer;
  self->before = *cro_model_offer (model, offer);
  return self;
}

static const CroPriceRow *
price_of (GArray *prices,
          gint64  id)
{
  for (guint i = 0; i < prices->len; i++)
    if (g_array_index (prices, CroPriceRow, i).id == id)
      return &g_array_index (prices, CroPriceRow, i);
  return NULL;
}

/* Any row of a history: an older one may serve, and another may under a preview. */
static CroKeptRow *
keep_price (CroModel  *model,
            CroStore  *store,
            gint64     id,
            GError   **error)
{
  g_autoptr (CroKeptRow) self = kept_new (KEPT_PRICE);
  const CroPriceRow *price;

  if (!cro_model_find_price (model, store, id, &self->offer, error))
    return NULL;
  if (self->offer == CRO_NO_SLOT)
    return kept_new (KEPT_NOTHING);
  self->prices = cro_price_rows_new (model, store, self->offer, error);
  if (self->prices == NULL)
    return NULL;
  price = price_of (self->prices, id);
  if (price == NULL)
    return kept_new (KEPT_NOTHING);
  self->price = *price;
  return g_steal_pointer (&self);
}

/* The thing that a row of selling prices is of; 0: there is no such row. */
static gboolean
find_thing (CroStore  *store,
            gint64     id,
            gint64    *thing,
            GError   **error)
{
  static const char *const columns[] = { "thing", NULL };
  g_autoptr (CroRows) rows = cro_store_read_one (store, "selling_price", id, columns, error);
  GError *failed = NULL;

  if (rows == NULL)
    return FALSE;
  *thing = cro_rows_next (rows, &failed) ? cro_rows_get_int (rows, 0) : 0;
  if (failed == NULL)
    return TRUE;
  g_propagate_error (error, failed);
  return FALSE;
}

static CroKeptRow *
keep_selling (CroStore  *store,
              gint64     id,
              GError   **error)
{
  g_autoptr (CroKeptRow) self = kept_new (KEPT_SELLING);

  if (!find_thing (store, id, &self->thing, error))
    return NULL;
  if (self->thing == 0)
    return kept_new (KEPT_NOTHING);
  self->steps = cro_selling_steps_read (store, self->thing, error);
  self->id = id;
  return self->steps != NULL ? g_steal_pointer (&self) : NULL;
}

static void
own_texts (CroModelRow         *record,
           const CroModelTable *table)
{
  for (int i = 0; table->columns[i].name != NULL; i++)
    if (record->cells[i].kind == CRO_CELL_TEXT)
      record->cells[i].text = g_strdup (record->cells[i].text);
}

static CroKeptRow *
keep_row (CroStore             *store,
          const CroModelTable  *table,
          gint64                id,
          GError              **error)
{
  const char *columns[CRO_MODEL_MOST_COLUMNS + 2];
  g_autoptr (CroRows) rows = NULL;
  g_autoptr (CroKeptRow) self = kept_new (KEPT_NOTHING);
  GError *failed = NULL;

  cro_model_table_columns (table, columns);
  rows = cro_store_read_one (store, table->table, id, columns, error);
  if (rows == NULL)
    return NULL;
  if (cro_rows_next (rows, &failed)
      && cro_model_row_read (&self->record, table->columns, rows, 1, &failed))
    {
      own_texts (&self->record, table);
      self->kept = KEPT_ROW;
      self->table = table;
      self->id = id;
    }
  if (failed == NULL)
    return g_steal_pointer (&self);
  g_propagate_error (error, failed);
  return NULL;
}

/* With its prices: what it says of its pack, and until when, is theirs too. */
static CroKeptRow *
keep_offer (CroModel             *model,
            CroStore             *store,
            const CroModelTable  *table,
            gint64                id,
            GError              **error)
{
  g_autoptr (CroKeptRow) self = keep_row (store, table, id, error);

  if (self == NULL || self->kept == KEPT_NOTHING)
    return g_steal_pointer (&self);
  self->offer = cro_slots_get (&model->offer_slots, id);
  if (self->offer == CRO_NO_SLOT)
    return g_steal_pointer (&self);
  self->prices = cro_price_rows_new (model, store, self->offer, error);
  return self->prices != NULL ? g_steal_pointer (&self) : NULL;
}

CroKeptRow *
cro_kept_row_new (CroModel    *model,
                  CroStore    *store,
                  const char  *table_name,
                  gint64       id,
                  GError     **error)
{
  const CroModelTable *table = cro_model_table_find (table_name);

  if (strcmp (table_name, "price") == 0)
    return keep_price (model, store, id, error);
  if (strcmp (table_name, "selling_price") == 0)
    return keep_selling (store, id, error);
  if (strcmp (table_name, "book") == 0 || strcmp (table_name, "rate") == 0)
    return NULL;
  if (table == NULL)
    return kept_new (KEPT_NOTHING);
  if (strcmp (table_name, "offer") == 0)
    return keep_offer (model, store, table, id, error);
  return keep_row (store, table, id, error);
}

void
cro_kept_row_free (CroKeptRow *self)
{
  for (int i = 0; self->table != NULL && self->table->columns[i].name != NULL; i++)
    if (self->record.cells[i].kind == CRO_CELL_TEXT)
      g_free ((char *) self->record.cells[i].text);
  g_clear_pointer (&self->prices, g_array_unref);
  g_clear_pointer (&self->steps, g_array_unref);
  g_free (self);
}

/* --- Taking ----------------------------------------------------------------------------------- */

static gboolean
take_row (const CroKeptRow   *self,
          CroModel           *model,
          CroDate             date,
          const char *const  *columns,
          const CroCell      *cells,
          CroTouched         *touched,
          GError            **error)
{
  CroModelRow record = self->record;

  cro_model_row_show (&record, self->table, columns, cells);
  *touched = self->table->take (model, self->id, &record);
  if (record.is_damaged)
    {
      g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED, "a row of %s, its value %d",
                   self->table->table, record.bad + 2);
      return FALSE;
    }
  if (self->prices != NULL)
    cro_price_rows_serve (self->prices, NULL, model, self->offer, date);
  return TRUE;
}

static void
take_price (const CroKeptRow  *self,
            CroModel          *model,
            CroDate            date,
            const char *const *columns,
            const CroCell     *cells)
{
  CroPriceRow shown = self->price;

  for (int i = 0; columns != NULL && columns[i] != NULL; i++)
    cro_price_row_show (&shown, columns[i], &cells[i]);
  cro_price_rows_serve (self->prices, &shown, model, self->offer, date);
}

static void
show_step (CroSellingStep *step,
           const char     *column,
           const CroCell  *cell)
{
  gint64 number = cell->kind == CRO_CELL_INTEGER ? cell->integer : CRO_NOT_SET;

  if (strcmp (column, "price_micro") == 0)
    step->price = number;
  else if (strcmp (column, "tax_pct_micro") == 0)
    step->tax = number;
  else if (strcmp (column, "from_date") == 0 && cell->kind == CRO_CELL_TEXT)
    cro_date_parse (cell->text, strlen (cell->text), &step->from);
}

/* What is shown may be of another date than that by which the steps stand in their order. */
static void
take_selling (const CroKeptRow  *self,
              CroModel          *model,
              CroDate            date,
              const char *const *columns,
              const CroCell     *cells)
{
  CroSellingStep held = { .from = CRO_NO_DAY };

  for (guint i = 0; i < self->steps->len; i++)
    {
      CroSellingStep step = g_array_index (self->steps, CroSellingStep, i);

      for (int c = 0; step.id == self->id && columns != NULL && columns[c] != NULL; c++)
        show_step (&step, columns[c], &cells[c]);
      if (step.from <= date && (held.id == 0 || step.from > held.from))
        held = step;
    }
  cro_model_sell_thing (model, self->thing, held.id, held.price, held.tax);
}

gboolean
cro_kept_row_take (const CroKeptRow   *self,
                   CroModel           *model,
                   CroDate             date,
                   const char *const  *columns,
                   const CroCell      *cells,
                   CroTouched         *touched,
                   GError            **error)
{
  *touched = (CroTouched){ CRO_TOUCHED_NOTHING, 0 };
  switch (self->kept)
    {
    case KEPT_NOTHING:
      break;
    case KEPT_ROW:
      return take_row (self, model, date, columns, cells, touched, error);
    case KEPT_PRICE:
      take_price (self, model, date, columns, cells);
      *touched = (CroTouched){ CRO_TOUCHED_PRICE, cro_model_offer (model, self->offer)->item };
      break;
    case KEPT_PRICE_IN_FORCE:
      *cro_model_offer (model, self->offer) = self->before;
      *touched = (CroTouched){ CRO_TOUCHED_PRICE, self->before.item };
      break;
    case KEPT_SELLING:
      take_selling (self, model, date, columns, cells);
      break;
    }
  return TRUE;
}
