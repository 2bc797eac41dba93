#include "cro-sheet-cells.h"

#include <string.h>

#include "cro-unit.h"

void
cro_ids_init (CroIds          *ids,
              const CroSheets *sheets)
{
  for (guint id = 0; id < CRO_N_TABLES; id++)
    ids->of[id] = g_new0 (gint64, sheets->sheets[id].n + 1);
}

void
cro_ids_clear (CroIds *ids)
{
  for (guint id = 0; id < CRO_N_TABLES; id++)
    g_free (ids->of[id]);
}

static gint64
id_over_two (const CroSheets *sheets,
             const CroIds    *ids,
             CroTableId       first,
             CroTableId       second,
             gint64           number)
{
  gint64 n = sheets->sheets[first].n;

  return number < n ? ids->of[first][number] : ids->of[second][number - n];
}

static gint64
id_of (const CroSheets *sheets,
       const CroIds    *ids,
       CroReferent         names,
       gint64           number)
{
  switch (names)
    {
    case CRO_REFERENT_INGREDIENT:
      return ids->of[CRO_TABLE_INGREDIENTS][number];
    case CRO_REFERENT_SUPPLIER:
      return ids->of[CRO_TABLE_SUPPLIERS][number];
    case CRO_REFERENT_OFFER:
      return ids->of[CRO_TABLE_OFFERS][number];
    case CRO_REFERENT_PREPARATION:
      return ids->of[CRO_TABLE_PREPARATIONS][number];
    case CRO_REFERENT_OUTPUT:
      return ids->of[CRO_TABLE_OUTPUTS][number];
    case CRO_REFERENT_PLATE:
      return ids->of[CRO_TABLE_PLATES][number];
    case CRO_REFERENT_MENU:
      return ids->of[CRO_TABLE_MENUS][number];
    case CRO_REFERENT_TEST:
      return ids->of[CRO_TABLE_YIELD_TESTS][number];
    case CRO_REFERENT_MONTH:
      return ids->of[CRO_TABLE_MONTHS][number];
    case CRO_REFERENT_ITEM:
      return id_over_two (sheets, ids, CRO_TABLE_INGREDIENTS, CRO_TABLE_OUTPUTS, number);
    case CRO_REFERENT_RECIPE:
      return id_over_two (sheets, ids, CRO_TABLE_PREPARATIONS, CRO_TABLE_PLATES, number);
    case CRO_REFERENT_THING:
    case CRO_REFERENT_SOLD:
      return id_over_two (sheets, ids, CRO_TABLE_PLATES, CRO_TABLE_MENUS, number);
    default:
      g_assert_not_reached ();
    }
}

void
cro_cell_append_key (GString       *key,
                     const CroCell *cell)
{
  if (cell->kind == CRO_CELL_INTEGER)
    g_string_append_printf (key, "%" G_GINT64_FORMAT, cell->integer);
  else if (cell->kind == CRO_CELL_TEXT)
    g_string_append (key, cell->text);
  /* No text holds this: names are trimmed, and it is no letter. */
  g_string_append_c (key, '\x1f');
}

static CroCell
value_cell (const CroColumn *column,
            gint64           value,
            char             date[CRO_DATE_CHARS])
{
  switch (column->kind)
    {
    case CRO_FIELD_NAME:
    case CRO_FIELD_TEXT:
    case CRO_FIELD_CURRENCY:
      return CRO_CELL_STR ((const char *) (gintptr) value);
    case CRO_FIELD_DATE:
      cro_date_format ((CroDate) value, date);
      return CRO_CELL_STR (date);
    case CRO_FIELD_MONTH:
      cro_date_format ((CroDate) value, date);
      date[7] = '\0';
      return CRO_CELL_STR (date);
    case CRO_FIELD_UNIT:
      return CRO_CELL_STR (cro_unit_get ((CroUnit) value)->code);
    case CRO_FIELD_CHOICE:
      /* A column that says yes or no is kept as 1 or 0. */
      if (strcmp (column->choices[0], "yes") == 0)
        return CRO_CELL_INT (value == 0);
      return CRO_CELL_STR (column->choices[value]);
    default:
      return CRO_CELL_INT (value);
    }
}

CroCell
cro_cell_of_field (const CroMapColumn *map,
                   const CroColumn    *column,
                   const CroField     *field,
                   char                date[CRO_DATE_CHARS])
{
  if (field->is_set)
    return value_cell (column, cro_field_is_text (column->kind) ? (gintptr) field->text : field->number, date);
  switch (map->kind)
    {
    case CRO_MAP_EMPTY:
      return CRO_CELL_STR ("");
    case CRO_MAP_FALLBACK:
      return value_cell (column, column->fallback, date);
    default:
      return CRO_CELL_NONE;
    }
}

static CroCell
cell_of (const CroSheets    *sheets,
         CroTableId          id,
         const CroMapColumn *map,
         guint               row,
         const CroIds       *ids,
         char                date[CRO_DATE_CHARS])
{
  const CroTable *table = sheets->sheets[id].table;
  CroReferent names = cro_sheet_referent (id, map->from);
  gint64 value = cro_sheet_get (&sheets->sheets[id], row, map->from);

  if (value == CRO_SHEET_UNSET)
    {
      if (map->kind == CRO_MAP_EMPTY)
        return CRO_CELL_STR ("");
      if (map->kind != CRO_MAP_FALLBACK)
        return CRO_CELL_NONE;
      value = table->columns[map->from].fallback;
    }
  if (map->kind == CRO_MAP_PREPARATION || map->kind == CRO_MAP_PLATE)
    {
      gboolean is_plate = value >= sheets->sheets[CRO_TABLE_PREPARATIONS].n;

      if (is_plate != (map->kind == CRO_MAP_PLATE))
        return CRO_CELL_NONE;
    }
  if (map->kind == CRO_MAP_THING || map->kind == CRO_MAP_OTHER)
    {
      gboolean is_other = cro_sheet_get (&sheets->sheets[id], row, map->from - 1) == CRO_SALE_OTHER;

      if (is_other != (map->kind == CRO_MAP_OTHER))
        return CRO_CELL_NONE;
      if (is_other)
        return value_cell (&table->columns[map->from], value, date);
    }
  if (names > CRO_REFERENT_ITSELF)
    return CRO_CELL_INT (id_of (sheets, ids, names, value));
  return value_cell (&table->columns[map->from], value, date);
}

void
cro_cells_of_row (const CroSheets   *sheets,
                  const CroSheetMap *map,
                  guint              row,
                  const CroIds      *ids,
                  CroCell           *cells,
                  CroCellText       *text)
{
  for (guint i = 0; map->columns[i].column != NULL; i++)
    cells[i] = cell_of (sheets, map->id, &map->columns[i], row, ids, text->dates[i]);
}

void
cro_cells_of_book (const CroSheets *sheets,
                   CroCell          cells[CRO_N_BOOK_KEYS])
{
  for (guint i = 0; i < CRO_N_BOOK_KEYS; i++)
    cells[i] = sheets->book[i] == CRO_SHEET_UNSET
                   ? CRO_CELL_NONE
                   : value_cell (cro_book_key_get ((CroBookKey) i), sheets->book[i], NULL);
}

guint
cro_map_width (const CroSheetMap *map)
{
  guint n = 0;

  while (map->columns[n].column != NULL)
    n++;
  return n;
}

gboolean
cro_cell_equal (const CroCell *a,
                const CroCell *b)
{
  if (a->kind != b->kind)
    return FALSE;
  return a->kind == CRO_CELL_NULL || (a->kind == CRO_CELL_INTEGER && a->integer == b->integer)
         || (a->kind == CRO_CELL_TEXT && strcmp (a->text, b->text) == 0);
}
