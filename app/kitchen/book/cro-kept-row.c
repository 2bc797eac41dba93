#include "cro-kept-row.h"

#include <string.h>

#include "cro-model-prices.h"
#include "cro-model-rows.h"
#include "cro-model-selling.h"

typedef enum
{
  KEPT_NOTHING,   /* no figure hangs on it */
  KEPT_ROW,       /* as its table has it */
  KEPT_PRICE,     /* an offer as it is with its price in force */
  KEPT_SELLING,   /* a selling price in force */
} Kept;

struct _CroKeptRow
{
  Kept                 kept;
  const CroModelTable *table;
  gint64               id;
  CroModelRow          record;    /* its texts are owned */

  guint32              offer;     /* slot; CRO_NO_SLOT: it is no offer's */
  CroOfferEntry        before;    /* without a preview */
  CroOfferEntry        without;   /* as it would be were the price in force none */
  CroOwnPack           own;       /* what the price in force says of its pack itself */

  gint64               thing;
  CroSelling           selling;
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

static CroKeptRow *
kept_offer (CroModel *model,
            Kept      kept,
            guint32   offer)
{
  CroKeptRow *self = kept_new (kept);

  self->offer = offer;
  self->before = *cro_model_offer (model, offer);
  return self;
}

CroKeptRow *
cro_kept_row_new_price (CroModel *model,
                        guint32   offer)
{
  return kept_offer (model, KEPT_PRICE, offer);
}

/* Reads it as if its price said that the offer is not to be had: an older one serves then. */
static gboolean
read_without (CroKeptRow  *self,
              CroModel    *model,
              CroStore    *store,
              CroDate      date,
              gint64       price,
              GError     **error)
{
  CroCell none = CRO_CELL_NONE;
  CroTouched touched;

  if (!cro_model_take_price (model, store, date, price, "price_micro", &none, &touched, error))
    return FALSE;
  self->without = *cro_model_offer (model, self->offer);
  return cro_model_load_price (model, store, date, self->offer, error);
}

/* Where an older price than the newest serves, another may serve under a preview. */
static CroKeptRow *
keep_price (CroModel  *model,
            CroStore  *store,
            CroDate    date,
            gint64     id,
            GError   **error)
{
  guint32 offer = cro_slots_get (&model->price_slots, id);
  g_autoptr (CroKeptRow) self = NULL;
  CroOwnPack own;
  gboolean serves;

  if (offer == CRO_NO_SLOT)
    return kept_new (KEPT_NOTHING);
  if (!cro_model_find_own_pack (model, store, date, offer, &own, &serves, error) || !serves)
    return NULL;
  self = kept_offer (model, KEPT_PRICE, offer);
  return read_without (self, model, store, date, id, error) ? g_steal_pointer (&self) : NULL;
}

static CroKeptRow *
keep_selling (CroModel *model,
              gint64    id)
{
  CroKeptRow *self = kept_new (KEPT_NOTHING);
  GHashTableIter iter;
  gint64 *thing;
  CroSelling *selling;

  g_hash_table_iter_init (&iter, model->selling);
  while (g_hash_table_iter_next (&iter, (gpointer *) &thing, (gpointer *) &selling))
    if (selling->id == id)
      {
        self->kept = KEPT_SELLING;
        self->thing = *thing;
        self->selling = *selling;
      }
  return self;
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

/* With what its price says. */
static CroKeptRow *
keep_offer (CroModel             *model,
            CroStore             *store,
            CroDate               date,
            const CroModelTable  *table,
            gint64                id,
            GError              **error)
{
  g_autoptr (CroKeptRow) self = keep_row (store, table, id, error);
  guint32 offer = cro_slots_get (&model->offer_slots, id);
  gboolean serves;

  if (self == NULL || self->kept == KEPT_NOTHING || offer == CRO_NO_SLOT)
    return g_steal_pointer (&self);
  self->offer = offer;
  self->before = *cro_model_offer (model, offer);
  if (!cro_model_find_own_pack (model, store, date, offer, &self->own, &serves, error))
    return NULL;
  return serves || self->before.price_id == 0 ? g_steal_pointer (&self) : NULL;
}

CroKeptRow *
cro_kept_row_new (CroModel    *model,
                  CroStore    *store,
                  CroDate      date,
                  const char  *table_name,
                  gint64       id,
                  GError     **error)
{
  const CroModelTable *table = cro_model_table_find (table_name);

  if (strcmp (table_name, "price") == 0)
    return keep_price (model, store, date, id, error);
  if (strcmp (table_name, "selling_price") == 0)
    return keep_selling (model, id);
  if (strcmp (table_name, "book") == 0 || strcmp (table_name, "rate") == 0)
    return NULL;
  if (table == NULL)
    return kept_new (KEPT_NOTHING);
  if (strcmp (table_name, "offer") == 0)
    return keep_offer (model, store, date, table, id, error);
  return keep_row (store, table, id, error);
}

void
cro_kept_row_free (CroKeptRow *self)
{
  for (int i = 0; self->table != NULL && self->table->columns[i].name != NULL; i++)
    if (self->record.cells[i].kind == CRO_CELL_TEXT)
      g_free ((char *) self->record.cells[i].text);
  g_free (self);
}

/* --- Taking ----------------------------------------------------------------------------------- */

gboolean
cro_kept_row_shows (const CroKeptRow  *self,
                    const char *const *columns)
{
  /* Another price may serve until another day. */
  return self->offer == CRO_NO_SLOT || !g_strv_contains (columns, "until");
}

static gboolean
take_row (const CroKeptRow   *self,
          CroModel           *model,
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
  if (self->offer != CRO_NO_SLOT)
    cro_model_repack (model, self->offer, self->own);
  return TRUE;
}

static gboolean
is_none (const char    *column,
         const CroCell *cell)
{
  return cell->kind == CRO_CELL_NULL && strcmp (column, "price_micro") == 0;
}

static void
take_price (const CroKeptRow  *self,
            CroModel          *model,
            const char *const *columns,
            const CroCell     *cells,
            CroTouched        *touched)
{
  CroOfferEntry *entry = cro_model_offer (model, self->offer);

  *entry = self->before;
  for (int i = 0; columns != NULL && columns[i] != NULL; i++)
    if (is_none (columns[i], &cells[i]))
      *entry = self->without;
    else
      cro_model_show_price (entry, columns[i], &cells[i]);
  *touched = (CroTouched){ CRO_TOUCHED_PRICE, entry->item };
}

static void
take_selling (const CroKeptRow  *self,
              CroModel          *model,
              const char *const *columns,
              const CroCell     *cells)
{
  CroSelling selling = self->selling;

  for (int i = 0; columns != NULL && columns[i] != NULL; i++)
    cro_selling_show (&selling, columns[i], &cells[i]);
  cro_model_sell_thing (model, self->thing, &selling);
}

gboolean
cro_kept_row_take (const CroKeptRow   *self,
                   CroModel           *model,
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
      return take_row (self, model, columns, cells, touched, error);
    case KEPT_PRICE:
      take_price (self, model, columns, cells, touched);
      break;
    case KEPT_SELLING:
      take_selling (self, model, columns, cells);
      break;
    }
  return TRUE;
}
