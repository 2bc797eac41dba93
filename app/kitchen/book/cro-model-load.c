#include "cro-model-load.h"

#include "cro-halves.h"
#include "cro-model-rows-private.h"
#include "cro-processors.h"

/* A second connection and its thread cost as much as a few thousand lines. */
#define LEAST_TO_HALVE 20000

typedef struct
{
  _Alignas (CRO_CACHE_LINE) CroModel *model;
  const CroModelTable *table;
  gint64               last; /* id */
  gint64               most; /* that an id can be */
} Loading;

/* Ids rise from row to row; where they do not, the file's pages may lead round and round. */
static gboolean
take_row_cb (CroRows  *rows,
             gpointer  user_data,
             GError  **error)
{
  Loading *loading = user_data;
  gint64 id = cro_rows_get_int (rows, 0);
  CroModelRow record;

  if (id <= loading->last || id > loading->most)
    return cro_rows_is_damaged (rows, 0, error);
  loading->last = id;
  if (!cro_model_row_read (&record, loading->table->columns, rows, 1, error))
    return FALSE;
  loading->table->take (loading->model, id, &record);
  return !record.is_damaged || cro_rows_is_damaged (rows, record.bad + 1, error);
}

/* Room for all ids and lines that there can be: the arrays then stay where they are while two threads
 * write into them. What no line comes into is never touched, and takes no memory. */
static gboolean
reserve (CroModel        *self,
         const CroHalves *halves)
{
  for (gint64 id = LEAST_TO_HALVE / 8; id < halves->last; id *= 2)
    cro_slots_set (&self->line_slots, id, CRO_NO_SLOT);
  cro_slots_set (&self->line_slots, halves->last, CRO_NO_SLOT);
  cro_model_reserve_lines (self, (gsize) (halves->last - halves->first) + 1);
  return (guint64) halves->last < self->line_slots.n_dense;
}

/* Ids rise, so the lower half has no more lines than ids, and the upper one can begin behind them
 * whatever the lower comes to. All else of the model both only look at. */
static gboolean
load_halves (CroModel            *self,
             CroHalves           *halves,
             const CroModelTable *table,
             const char *const   *columns,
             GError             **error)
{
  CroModel upper = *self;
  Loading loading = { self, table, halves->first - 1, halves->middle };
  Loading loading_upper = { &upper, table, halves->middle, halves->last };
  gsize from = (gsize) (halves->middle - halves->first) + 1;

  upper.lines.n = from;
  if (!cro_halves_read (halves, table->table, columns, take_row_cb, &loading, &loading_upper, error))
    return FALSE;
  cro_model_join_lines (self, from, upper.lines.n - from);
  return TRUE;
}

static gboolean
load_table (CroModel             *self,
            CroStore             *store,
            CroHalves            *halves,
            const CroModelTable  *table,
            GError              **error)
{
  const char *columns[CRO_MODEL_MOST_COLUMNS + 2];
  Loading loading = { self, table, 0, G_MAXINT64 };

  cro_model_table_columns (table, columns);
  if (table == &cro_model_recipe_line_table && halves != NULL
      && reserve (self, halves))
    return load_halves (self, halves, table, columns, error);
  return cro_store_read_each (store, table->table, columns, take_row_cb, &loading, error);
}

gboolean
cro_model_load_tables (CroModel  *self,
                       CroStore  *store,
                       GError   **error)
{
  g_autoptr (CroHalves) halves = cro_halves_new (store, cro_model_recipe_line_table.table,
                                                 LEAST_TO_HALVE);

  for (const CroModelTable *const *at = cro_model_rows; *at != NULL; at++)
    if (!load_table (self, store, halves, *at, error))
      return FALSE;
  return TRUE;
}
