/* cro-model-rows-private.h: what the tables of the model share: reading a row, texts that stay,
 * slots of ids. Inline, as loading a book asks for every cell of it. */
#pragma once

#include "cro-model-rows.h"

#include <string.h>

#include "cro-decimal.h"

G_BEGIN_DECLS

/* --- The tables ------------------------------------------------------------------------------ */

extern const CroModelTable cro_model_item_table;
extern const CroModelTable cro_model_ingredient_table;
extern const CroModelTable cro_model_supplier_table;
extern const CroModelTable cro_model_offer_table;
extern const CroModelTable cro_model_preparation_table;
extern const CroModelTable cro_model_output_table;
extern const CroModelTable cro_model_thing_table;
extern const CroModelTable cro_model_plate_table;
extern const CroModelTable cro_model_menu_table;
extern const CroModelTable cro_model_menu_plate_table;
extern const CroModelTable cro_model_recipe_line_table;

/* --- A row ----------------------------------------------------------------------------------- */

/* What a preview puts into a column; NULL: the row's own stands. */
static inline const CroCell *
cro_model_row_previewed (const CroModelRow *record,
                         int                column)
{
  for (int i = 0; i < record->n; i++)
    if (record->columns[i] == column)
      return &record->cells[i];
  return NULL;
}

static inline gboolean
cro_model_row_is_null (CroModelRow *record,
                       int          column)
{
  const CroCell *cell = cro_model_row_previewed (record, column);

  if (cell != NULL)
    return cell->kind == CRO_CELL_NULL;
  return cro_rows_is_null (record->rows, column + 1);
}

/* 0 where the column is not set: for all that must be above 0, 0 says so. */
static inline gint64
cro_model_row_get_int (CroModelRow *record,
                       int          column)
{
  const CroCell *cell = cro_model_row_previewed (record, column);

  if (cell != NULL)
    return cell->kind == CRO_CELL_INTEGER ? cell->integer : 0;
  return cro_rows_get_int (record->rows, column + 1);
}

static inline gint64
cro_model_row_get_int_or (CroModelRow *record,
                          int          column,
                          gint64       otherwise)
{
  return cro_model_row_is_null (record, column) ? otherwise : cro_model_row_get_int (record, column);
}

static inline const char *
cro_model_row_get_text (CroModelRow *record,
                        int          column)
{
  const CroCell *cell = cro_model_row_previewed (record, column);

  if (cell != NULL)
    return cell->kind == CRO_CELL_TEXT ? cell->text : NULL;
  return cro_rows_get_text (record->rows, column + 1);
}

static inline const char *
cro_model_keep (CroModel   *model,
                const char *text)
{
  return text != NULL ? g_string_chunk_insert_const (model->text, text) : NULL;
}

/* A name that no other row has: looking for it among all would cost more than its copy. */
static inline const char *
cro_model_keep_own (CroModel   *model,
                    const char *was,
                    const char *text)
{
  if (text == NULL)
    return NULL;
  if (g_strcmp0 (was, text) == 0)
    return was;
  return g_string_chunk_insert (model->text, text);
}

static inline guint8
cro_model_unit_of (const char *code)
{
  CroUnit unit = CRO_UNIT_G;

  if (code != NULL)
    cro_unit_parse (code, strlen (code), &unit);
  return (guint8) unit;
}

static inline CroTouched
cro_touched (CroTouchedKind kind,
             guint32        slot)
{
  return (CroTouched){ kind, slot };
}

/* The slot of an id, made if it is new; *is_new says so. */
static inline guint32
cro_model_slot_for (GArray   *array,
                    CroSlots *slots,
                    gint64    id,
                    gboolean *is_new)
{
  guint32 slot = cro_slots_get (slots, id);

  *is_new = slot == CRO_NO_SLOT;
  if (*is_new)
    {
      slot = array->len;
      g_array_set_size (array, slot + 1);
      cro_slots_set (slots, id, slot);
    }
  return slot;
}

G_END_DECLS
