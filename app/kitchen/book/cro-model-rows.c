#include "cro-model-rows-private.h"

#include "cro-code.h"

static const CroModelColumn book_columns[] = {
  { "name", CRO_OF_TEXT },
  { "currency", CRO_OF_TEXT },
  { "wage_per_hour_micro", CRO_FROM_0 },
  { "tax_pct_micro", CRO_FROM_0 },
  { "target_pct_micro", CRO_PART_PCT },
  { "stale_after_days_micro", CRO_FROM_0 },
  { "speaks", CRO_OF_TEXT },
  { NULL, 0, 0 },
};

/* A code that is none is damage that figures do not hang on. */
static CroSpeaks
speaks_of (const char *code)
{
  for (int i = 0; code != NULL && cro_speaks_codes[i] != NULL; i++)
    if (strcmp (code, cro_speaks_codes[i]) == 0)
      return (CroSpeaks) i;
  return CRO_SPEAKS_FOOD_COST;
}

static CroTouched
take_book (CroModel    *model,
           gint64       id,
           CroModelRow *record)
{
  const char *currency = cro_model_row_get_currency (record, 1);

  if (record->is_damaged)
    return CRO_NOTHING_TAKEN;
  g_free (model->name);
  g_free (model->currency);
  model->name = g_strdup (cro_model_row_get_text (record, 0));
  model->currency = g_strdup (currency);
  model->wage_per_hour = cro_model_row_get_int_or (record, 2, CRO_NOT_SET);
  model->tax = cro_model_row_get_int_or (record, 3, CRO_NOT_SET);
  model->target = cro_model_row_get_int_or (record, 4, CRO_NOT_SET);
  model->stale_after_days = cro_model_row_get_int_or (record, 5, CRO_NOT_SET);
  model->speaks = speaks_of (cro_model_row_get_text (record, 6));
  return cro_touched (CRO_TOUCHED_ALL, 0);
}

static CroTouched
drop_book (CroModel *model,
           gint64    id)
{
  g_clear_pointer (&model->name, g_free);
  g_clear_pointer (&model->currency, g_free);
  model->wage_per_hour = model->tax = model->target = model->stale_after_days = CRO_NOT_SET;
  model->speaks = CRO_SPEAKS_FOOD_COST;
  return cro_touched (CRO_TOUCHED_ALL, 0);
}

static const CroModelTable cro_model_book_table = { "book", book_columns, take_book, drop_book };

const CroModelTable *const cro_model_rows[] = {
  &cro_model_book_table,
  &cro_model_item_table,
  &cro_model_ingredient_table,
  &cro_model_supplier_table,
  &cro_model_offer_table,
  &cro_model_preparation_table,
  &cro_model_output_table,
  &cro_model_thing_table,
  &cro_model_plate_table,
  &cro_model_menu_table,
  &cro_model_menu_plate_table,
  &cro_model_recipe_line_table,
  NULL,
};

gboolean
cro_model_row_read (CroModelRow           *record,
                    const CroModelColumn  *columns,
                    CroRows               *rows,
                    int                    first,
                    GError               **error)
{
  int n = 0;

  while (columns[n].name != NULL)
    n++;
  cro_rows_get_cells (rows, first, n, record->cells);
  record->is_damaged = record->is_preview = FALSE;
  for (int i = 0; i < n; i++)
    if (record->cells[i].kind == CRO_CELL_INTEGER
        && G_UNLIKELY (record->cells[i].integer < columns[i].least
                       || record->cells[i].integer > columns[i].most))
      return cro_rows_is_damaged (rows, first + i, error);
  return TRUE;
}

const CroModelTable *
cro_model_table_find (const char *name)
{
  for (const CroModelTable *const *at = cro_model_rows; *at != NULL; at++)
    if (strcmp ((*at)->table, name) == 0)
      return *at;
  return NULL;
}

void
cro_model_table_columns (const CroModelTable *table,
                         const char          *columns[CRO_MODEL_MOST_COLUMNS + 2])
{
  int n = 0;

  columns[n++] = "id";
  for (int i = 0; table->columns[i].name != NULL; i++)
    columns[n++] = table->columns[i].name;
  columns[n] = NULL;
}

/* A text that has such a name in it is read in vain: its quotes are escaped. */
gboolean
cro_model_table_reads (const CroModelTable *table,
                       const char          *moved)
{
  for (int i = 0; table->columns[i].name != NULL; i++)
    {
      gsize length = strlen (table->columns[i].name);

      for (const char *at = strchr (moved, '"'); at != NULL; at = strchr (at + 1, '"'))
        if (strncmp (at + 1, table->columns[i].name, length) == 0 && at[1 + length] == '"')
          return TRUE;
    }
  return FALSE;
}

static int
column_index (const CroModelTable *table,
              const char          *column)
{
  for (int i = 0; table->columns[i].name != NULL; i++)
    if (strcmp (table->columns[i].name, column) == 0)
      return i;
  return -1;
}

void
cro_model_row_show (CroModelRow         *record,
                    const CroModelTable *table,
                    const char *const   *columns,
                    const CroCell       *cells)
{
  record->is_preview = columns != NULL;
  for (int i = 0; columns != NULL && columns[i] != NULL; i++)
    {
      int column = column_index (table, columns[i]);

      if (column >= 0)
        record->cells[column] = cells[i];
    }
}
