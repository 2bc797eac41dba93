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

/* --- Lines: cro-model-lines.c ---------------------------------------------------------------- */

/* Room in every array for n of them. */
void cro_model_reserve_lines (CroModel *model,
                              gsize     n);

/* Makes n lines that stand in the arrays from one place on follow those that there are. */
void cro_model_join_lines    (CroModel *model,
                              gsize     from,
                              gsize     n);

/* Their arrays, not their slots. */
void cro_model_free_lines    (CroModel *model);

/* --- A row ----------------------------------------------------------------------------------- */

static inline gboolean
cro_model_row_is_null (CroModelRow *record,
                       int          column)
{
  return record->cells[column].kind == CRO_CELL_NULL;
}

/* 0 where the column is not set: for all that must be above 0, 0 says so. */
static inline gint64
cro_model_row_get_int (CroModelRow *record,
                       int          column)
{
  return record->cells[column].integer;
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
  return record->cells[column].text;
}

/* Always FALSE. */
static inline gboolean
cro_model_row_refuse (CroModelRow *record,
                      int          column)
{
  record->is_damaged = TRUE;
  record->bad = column;
  return FALSE;
}

/* What another row's id leads to. */
static inline guint32
cro_model_row_get_slot (CroModelRow    *record,
                        int             column,
                        const CroSlots *slots)
{
  guint32 slot = cro_slots_get (slots, record->cells[column].integer);

  if (G_UNLIKELY (slot == CRO_NO_SLOT))
    cro_model_row_refuse (record, column);
  return slot;
}

/* Grams where the column is not set. */
static inline CroUnit
cro_model_row_get_unit (CroModelRow *record,
                        int          column)
{
  const char *code = record->cells[column].text;
  CroUnit unit = CRO_UNIT_G;

  if (code != NULL && G_UNLIKELY (!cro_unit_parse (code, strlen (code), &unit)))
    cro_model_row_refuse (record, column);
  return unit;
}

/* The place of a text among the codes (cro-code.h); the first where the column is not set. */
static inline guint8
cro_model_row_get_choice (CroModelRow       *record,
                          int                column,
                          const char *const *choices)
{
  const char *text = record->cells[column].text;

  for (guint8 i = 0; text != NULL && choices[i] != NULL; i++)
    if (strcmp (text, choices[i]) == 0)
      return i;
  if (text != NULL)
    cro_model_row_refuse (record, column);
  return 0;
}

/* FALSE where the column is not set. */
static inline gboolean
cro_model_row_get_date (CroModelRow *record,
                        int          column,
                        CroDate     *date)
{
  const char *text = record->cells[column].text;

  if (text == NULL)
    return FALSE;
  return cro_date_parse (text, strlen (text), date) || cro_model_row_refuse (record, column);
}

/* Three capital letters, or NULL. */
static inline const char *
cro_model_row_get_currency (CroModelRow *record,
                            int          column)
{
  const char *text = record->cells[column].text;

  if (text != NULL && (strlen (text) != 3 || !g_ascii_isupper (text[0])
                       || !g_ascii_isupper (text[1]) || !g_ascii_isupper (text[2])))
    cro_model_row_refuse (record, column);
  return text;
}

#define CRO_NOTHING_TAKEN ((CroTouched){ CRO_TOUCHED_NOTHING, 0 })

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
