#include "cro-sheets-private.h"

CroReferent
cro_sheet_referent (CroTableId id,
                    guint      column)
{
  static const guint8 named[CRO_N_TABLES][CRO_MAX_COLUMNS] = {
    [CRO_TABLE_INGREDIENTS][CRO_INGREDIENTS_NAME] = CRO_REFERENT_ITSELF,
    [CRO_TABLE_SUPPLIERS][CRO_SUPPLIERS_NAME] = CRO_REFERENT_ITSELF,
    [CRO_TABLE_OFFERS][CRO_OFFERS_INGREDIENT] = CRO_REFERENT_INGREDIENT,
    [CRO_TABLE_OFFERS][CRO_OFFERS_SUPPLIER] = CRO_REFERENT_SUPPLIER,
    [CRO_TABLE_PRICES][CRO_PRICES_INGREDIENT] = CRO_REFERENT_INGREDIENT,
    [CRO_TABLE_PRICES][CRO_PRICES_SUPPLIER] = CRO_REFERENT_SUPPLIER,
    [CRO_TABLE_PRICES][CRO_PRICES_OFFER] = CRO_REFERENT_OFFER,
    [CRO_TABLE_PRICE_ANSWERS][CRO_PRICE_ANSWERS_INGREDIENT] = CRO_REFERENT_INGREDIENT,
    [CRO_TABLE_PRICE_ANSWERS][CRO_PRICE_ANSWERS_SUPPLIER] = CRO_REFERENT_SUPPLIER,
    [CRO_TABLE_PRICE_ANSWERS][CRO_PRICE_ANSWERS_OFFER] = CRO_REFERENT_OFFER,
    [CRO_TABLE_PREPARATIONS][CRO_PREPARATIONS_NAME] = CRO_REFERENT_ITSELF,
    [CRO_TABLE_OUTPUTS][CRO_OUTPUTS_ITEM] = CRO_REFERENT_ITSELF,
    [CRO_TABLE_OUTPUTS][CRO_OUTPUTS_PREPARATION] = CRO_REFERENT_PREPARATION,
    [CRO_TABLE_LINES][CRO_LINES_PARENT] = CRO_REFERENT_RECIPE,
    [CRO_TABLE_LINES][CRO_LINES_ITEM] = CRO_REFERENT_ITEM,
    [CRO_TABLE_PLATES][CRO_PLATES_NAME] = CRO_REFERENT_ITSELF,
    [CRO_TABLE_MENUS][CRO_MENUS_NAME] = CRO_REFERENT_ITSELF,
    [CRO_TABLE_MENU_PLATES][CRO_MENU_PLATES_MENU] = CRO_REFERENT_MENU,
    [CRO_TABLE_MENU_PLATES][CRO_MENU_PLATES_PLATE] = CRO_REFERENT_PLATE,
    [CRO_TABLE_SELLING_PRICES][CRO_SELLING_PRICES_NAME] = CRO_REFERENT_THING,
    [CRO_TABLE_SERVICES][CRO_SERVICES_NAME] = CRO_REFERENT_THING,
    [CRO_TABLE_SERVICE_STOCK][CRO_SERVICE_STOCK_ITEM] = CRO_REFERENT_ITEM,
    [CRO_TABLE_YIELD_TESTS][CRO_YIELD_TESTS_TEST] = CRO_REFERENT_ITSELF,
    [CRO_TABLE_YIELD_TESTS][CRO_YIELD_TESTS_ITEM] = CRO_REFERENT_ITEM,
    [CRO_TABLE_YIELD_TEST_PARTS][CRO_YIELD_TEST_PARTS_TEST] = CRO_REFERENT_TEST,
    [CRO_TABLE_YIELD_TEST_PARTS][CRO_YIELD_TEST_PARTS_OUTPUT] = CRO_REFERENT_OUTPUT,
    [CRO_TABLE_SALES][CRO_SALES_NAME] = CRO_REFERENT_SOLD,
    [CRO_TABLE_COUNTS][CRO_COUNTS_ITEM] = CRO_REFERENT_ITEM,
    [CRO_TABLE_PURCHASES][CRO_PURCHASES_SUPPLIER] = CRO_REFERENT_SUPPLIER,
    [CRO_TABLE_PURCHASES][CRO_PURCHASES_INGREDIENT] = CRO_REFERENT_INGREDIENT,
    [CRO_TABLE_ADJUSTMENTS][CRO_ADJUSTMENTS_ITEM] = CRO_REFERENT_ITEM,
    [CRO_TABLE_MONTHS][CRO_MONTHS_MONTH] = CRO_REFERENT_ITSELF,
    [CRO_TABLE_MONTH_ROWS][CRO_MONTH_ROWS_MONTH] = CRO_REFERENT_MONTH,
  };

  return (CroReferent) named[id][column];
}

/* --- Names ------------------------------------------------------------------------------------ */

/* The space that a table's own names live in, and where in it the table's numbers begin. */
static CroSpace
own_space (const CroSheetReader *reader,
           CroTableId            id,
           guint                *base)
{
  *base = id == CRO_TABLE_OUTPUTS ? cro_sheet_n_of (reader, CRO_TABLE_INGREDIENTS)
          : id == CRO_TABLE_MENUS ? cro_sheet_n_of (reader, CRO_TABLE_PLATES)
                                  : 0;
  switch (id)
    {
    case CRO_TABLE_INGREDIENTS:
    case CRO_TABLE_OUTPUTS:
      return CRO_SPACE_ITEMS;
    case CRO_TABLE_SUPPLIERS:
      return CRO_SPACE_SUPPLIERS;
    case CRO_TABLE_PREPARATIONS:
      return CRO_SPACE_PREPARATIONS;
    case CRO_TABLE_YIELD_TESTS:
      return CRO_SPACE_TESTS;
    case CRO_TABLE_MONTHS:
      return CRO_SPACE_MONTHS;
    default:
      return CRO_SPACE_THINGS;
    }
}

void
cro_sheet_register_name (CroSheetReader *reader,
                         guint32         line,
                         const char     *name)
{
  guint base;
  CroSpace space = own_space (reader, reader->id, &base);
  GHashTable *names = reader->names[space];
  guint known = GPOINTER_TO_UINT (g_hash_table_lookup (names, name));
  g_autofree char *detail = NULL;
  const CroSheet *other;

  if (known == 0)
    {
      g_hash_table_insert (names, g_string_chunk_insert_const (reader->sheets->text, name),
                           GUINT_TO_POINTER (base + cro_sheet_n_of (reader, reader->id) + 1));
      return;
    }
  if (known > base)
    {
      detail = g_strdup_printf ("%u", reader->sheets->sheets[reader->id].at[known - 1 - base]);
      cro_sheet_fault (reader, line, 0, CRO_FAULT_DOUBLE_KEY, name, detail);
      return;
    }
  other = &reader->sheets->sheets[space == CRO_SPACE_ITEMS ? CRO_TABLE_INGREDIENTS
                                                           : CRO_TABLE_PLATES];
  /* A row that is the book's own has no line. */
  detail = other->at[known - 1] == 0
               ? g_strdup (other->table->name)
               : g_strdup_printf ("%s.csv:%u", other->table->name, other->at[known - 1]);
  cro_sheet_fault (reader, line, 0, CRO_FAULT_DOUBLE_NAME, name, detail);
}

/* A range of a space's numbers, and the word for what is looked for there. */
typedef struct
{
  CroSpace    space;
  guint       first;
  guint       end;
  const char *what;
} Range;

static Range
range_of (const CroSheetReader *reader,
          CroReferent           names,
          const CroField       *kind)
{
  guint n_ingredients = cro_sheet_n_of (reader, CRO_TABLE_INGREDIENTS);
  guint n_plates = cro_sheet_n_of (reader, CRO_TABLE_PLATES);
  gboolean second = kind != NULL && kind->is_set && kind->number == 1;

  switch (names)
    {
    case CRO_REFERENT_INGREDIENT:
      return (Range){ CRO_SPACE_ITEMS, 0, n_ingredients, "ingredient" };
    case CRO_REFERENT_OUTPUT:
      return (Range){ CRO_SPACE_ITEMS, n_ingredients, G_MAXUINT, "output" };
    case CRO_REFERENT_ITEM:
      return (Range){ CRO_SPACE_ITEMS, 0, G_MAXUINT, "ingredient or output" };
    case CRO_REFERENT_SUPPLIER:
      return (Range){ CRO_SPACE_SUPPLIERS, 0, G_MAXUINT, "supplier" };
    case CRO_REFERENT_PREPARATION:
      return (Range){ CRO_SPACE_PREPARATIONS, 0, G_MAXUINT, "preparation" };
    case CRO_REFERENT_RECIPE:
      return second ? (Range){ CRO_SPACE_THINGS, 0, n_plates, "plate" }
                    : (Range){ CRO_SPACE_PREPARATIONS, 0, G_MAXUINT, "preparation" };
    case CRO_REFERENT_PLATE:
      return (Range){ CRO_SPACE_THINGS, 0, n_plates, "plate" };
    case CRO_REFERENT_MENU:
      return (Range){ CRO_SPACE_THINGS, n_plates, G_MAXUINT, "menu" };
    case CRO_REFERENT_THING:
      return (Range){ CRO_SPACE_THINGS, 0, G_MAXUINT, "plate or menu" };
    case CRO_REFERENT_SOLD:
      return second ? (Range){ CRO_SPACE_THINGS, n_plates, G_MAXUINT, "menu" }
                    : (Range){ CRO_SPACE_THINGS, 0, n_plates, "plate" };
    case CRO_REFERENT_TEST:
      return (Range){ CRO_SPACE_TESTS, 0, G_MAXUINT, "yield test" };
    default:
      return (Range){ CRO_SPACE_MONTHS, 0, G_MAXUINT, "month" };
    }
}

gint64
cro_sheet_resolve (CroSheetReader *reader,
                   guint32         line,
                   guint           column,
                   CroReferent     names,
                   const CroField *fields)
{
  const CroField *kind = column > 0 ? &fields[column - 1] : NULL;
  Range range = range_of (reader, names, kind);
  guint number = GPOINTER_TO_UINT (g_hash_table_lookup (reader->names[range.space],
                                                        fields[column].text));

  /* Without its kind, which has had its fault, nobody knows where to look. */
  if ((names == CRO_REFERENT_RECIPE || names == CRO_REFERENT_SOLD) && !kind->is_set)
    return CRO_SHEET_UNSET;
  if (number == 0 || number - 1 < range.first || number - 1 >= range.end)
    {
      cro_sheet_fault (reader, line, (int) column, CRO_FAULT_UNKNOWN_NAME, fields[column].text,
                       range.what);
      return CRO_SHEET_UNSET;
    }
  number -= 1;
  if (names == CRO_REFERENT_MENU || names == CRO_REFERENT_OUTPUT)
    return number - range.first;
  if (names == CRO_REFERENT_RECIPE && range.space == CRO_SPACE_THINGS)
    return (gint64) cro_sheet_n_of (reader, CRO_TABLE_PREPARATIONS) + number;
  return number;
}
