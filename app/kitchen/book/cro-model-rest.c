#include "cro-model-rest.h"

#include <string.h>

#include "cro-model-rows.h"
#include "cro-stored-row.h"

/* A column that is looked at. */
typedef struct
{
  const CroColumn *column;    /* of the table; NULL: an id */
  CroReferent      names;
} Looked;

typedef struct
{
  CroModel          *model;
  const CroSheetMap *map;
  Looked             looked[CRO_MAP_MOST];
  int                n;
  gint64             last;      /* id */
  CroSlots           tests;     /* ids met, of what the model does not know */
  CroSlots           months;
} Rest;

/* --- What ids lead to --------------------------------------------------------------------------- */

static gboolean
is_item (CroModel    *model,
         CroReferent  names,
         gint64       id)
{
  guint32 slot = cro_slots_get (&model->item_slots, id);

  if (slot == CRO_NO_SLOT)
    return FALSE;
  if (names == CRO_REFERENT_INGREDIENT)
    return model->measures[slot].is_bought;
  return names != CRO_REFERENT_OUTPUT || model->maker[slot] >= 0;
}

static gboolean
is_there (Rest        *rest,
          CroReferent  names,
          gint64       id)
{
  CroModel *model = rest->model;

  switch (names)
    {
    case CRO_REFERENT_SUPPLIER:
      return cro_slots_get (&model->supplier_slots, id) != CRO_NO_SLOT;
    case CRO_REFERENT_OFFER:
      return cro_slots_get (&model->offer_slots, id) != CRO_NO_SLOT;
    case CRO_REFERENT_THING:
    case CRO_REFERENT_SOLD:
      return g_hash_table_contains (model->thing_names, &id);
    case CRO_REFERENT_TEST:
      return cro_slots_get (&rest->tests, id) != CRO_NO_SLOT;
    case CRO_REFERENT_MONTH:
      return cro_slots_get (&rest->months, id) != CRO_NO_SLOT;
    default:
      return is_item (model, names, id);
    }
}

/* --- A row -------------------------------------------------------------------------------------- */

static gboolean
is_sound (Rest          *rest,
          const Looked  *looked,
          const CroCell *cell)
{
  CroField field;

  if (cell->kind == CRO_CELL_NULL)
    return TRUE;
  return looked->column == NULL ? is_there (rest, looked->names, cell->integer)
                                : cro_stored_field (looked->column, cell, &field);
}

/* A sale is of a thing, or of what is told in words. */
static gboolean
is_of_one (Rest          *rest,
           const CroCell *cells)
{
  int n = 0;

  if (rest->map->id != CRO_TABLE_SALES)
    return TRUE;
  for (int i = 0; i < rest->n; i++)
    n += rest->map->columns[i].from == CRO_SALES_NAME && cells[i].kind != CRO_CELL_NULL;
  return n == 1;
}

static gboolean
look_at_row (CroRows  *rows,
             gpointer  user_data,
             GError  **error)
{
  Rest *rest = user_data;
  gint64 id = cro_rows_get_int (rows, 0);
  CroCell cells[CRO_MAP_MOST];

  if (id <= rest->last)
    return cro_rows_is_damaged (rows, 0, error);
  rest->last = id;
  cro_rows_get_cells (rows, 1, rest->n, cells);
  for (int i = 0; i < rest->n; i++)
    if (!is_sound (rest, &rest->looked[i], &cells[i]))
      return cro_rows_is_damaged (rows, i + 1, error);
  if (!is_of_one (rest, cells))
    return cro_rows_is_damaged (rows, 0, error);
  if (rest->map->id == CRO_TABLE_YIELD_TESTS)
    cro_slots_set (&rest->tests, id, 0);
  else if (rest->map->id == CRO_TABLE_MONTHS)
    cro_slots_set (&rest->months, id, 0);
  return TRUE;
}

/* --- A table ------------------------------------------------------------------------------------ */

static gboolean
is_taken (const CroModelTable *table,
          const char          *column)
{
  for (int i = 0; table != NULL && table->columns[i].name != NULL; i++)
    if (strcmp (table->columns[i].name, column) == 0)
      return TRUE;
  return FALSE;
}

/* Of a table that the model has taken what it left, but for texts. */
static gboolean
look_at_table (Rest               *rest,
               CroStore           *store,
               const CroSheetMap  *map,
               GError            **error)
{
  const CroModelTable *taken = cro_model_table_find (map->table);
  const char *columns[CRO_MAP_MOST + 2] = { "id" };

  rest->map = map;
  rest->n = 0;
  rest->last = 0;
  for (int i = 0; map->columns[i].column != NULL; i++)
    {
      const CroMapColumn *column = &map->columns[i];
      CroReferent names = cro_sheet_referent (map->id, column->from);
      gboolean is_id = names > CRO_REFERENT_ITSELF && column->kind != CRO_MAP_OTHER;
      const CroColumn *of = is_id ? NULL : &cro_table_get (map->id)->columns[column->from];

      if (taken != NULL && (is_taken (taken, column->column) || of == NULL
                            || cro_field_is_text (of->kind)))
        continue;
      rest->looked[rest->n++] = (Looked){ of, names };
      columns[rest->n] = column->column;
    }
  columns[rest->n + 1] = NULL;
  return rest->n == 0 || cro_store_read_each (store, map->table, columns, look_at_row, rest, error);
}

gboolean
cro_model_check_rest (CroModel   *self,
                      CroStore   *store,
                      GError    **error)
{
  Rest rest = { .model = self };
  gboolean done = TRUE;

  for (const CroSheetMap *map = cro_sheet_maps; done && map->table != NULL; map++)
    done = look_at_table (&rest, store, map, error);
  cro_slots_clear (&rest.tests);
  cro_slots_clear (&rest.months);
  return done;
}
