#include "cro-sheets.h"

#include <string.h>

#include "cro-date.h"
#include "cro-graph.h"

/* Spaces in which names are unique. */
typedef enum
{
  SPACE_ITEMS,
  SPACE_SUPPLIERS,
  SPACE_PREPARATIONS,
  SPACE_THINGS,
  SPACE_TESTS,
  SPACE_MONTHS,
  N_SPACES,
} Space;

typedef struct
{
  CroSheets  *sheets;
  CroFaults  *faults;
  CroTableId  id;
  GHashTable *names[N_SPACES];   /* name → number + 1 */
  GHashTable *offers;            /* rows of offers, by what they name */
  CroReferent    columns[CRO_MAX_COLUMNS];  /* what each column of the table being read names */
} Reader;

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
    [CRO_TABLE_PREPARATIONS][CRO_PREPARATIONS_NAME] = CRO_REFERENT_ITSELF,
    [CRO_TABLE_OUTPUTS][CRO_OUTPUTS_ITEM] = CRO_REFERENT_ITSELF,
    [CRO_TABLE_OUTPUTS][CRO_OUTPUTS_PREPARATION] = CRO_REFERENT_PREPARATION,
    [CRO_TABLE_LINES][CRO_LINES_PARENT] = CRO_REFERENT_RECIPE,
    [CRO_TABLE_LINES][CRO_LINES_ITEM] = CRO_REFERENT_ITEM,
    [CRO_TABLE_PLATES][CRO_PLATES_NAME] = CRO_REFERENT_ITSELF,
    [CRO_TABLE_MENUS][CRO_MENUS_NAME] = CRO_REFERENT_ITSELF,
    [CRO_TABLE_MENU_PLATES][CRO_MENU_PLATES_MENU] = CRO_REFERENT_MENU,
    [CRO_TABLE_MENU_PLATES][CRO_MENU_PLATES_PLATE] = CRO_REFERENT_PLATE,
    [CRO_TABLE_YIELD_TESTS][CRO_YIELD_TESTS_TEST] = CRO_REFERENT_ITSELF,
    [CRO_TABLE_YIELD_TESTS][CRO_YIELD_TESTS_ITEM] = CRO_REFERENT_ITEM,
    [CRO_TABLE_YIELD_TEST_PARTS][CRO_YIELD_TEST_PARTS_TEST] = CRO_REFERENT_TEST,
    [CRO_TABLE_YIELD_TEST_PARTS][CRO_YIELD_TEST_PARTS_OUTPUT] = CRO_REFERENT_OUTPUT,
    [CRO_TABLE_SALES][CRO_SALES_NAME] = CRO_REFERENT_THING,
    [CRO_TABLE_COUNTS][CRO_COUNTS_ITEM] = CRO_REFERENT_ITEM,
    [CRO_TABLE_PURCHASES][CRO_PURCHASES_SUPPLIER] = CRO_REFERENT_SUPPLIER,
    [CRO_TABLE_PURCHASES][CRO_PURCHASES_INGREDIENT] = CRO_REFERENT_INGREDIENT,
    [CRO_TABLE_ADJUSTMENTS][CRO_ADJUSTMENTS_ITEM] = CRO_REFERENT_ITEM,
    [CRO_TABLE_MONTHS][CRO_MONTHS_MONTH] = CRO_REFERENT_ITSELF,
    [CRO_TABLE_MONTH_ROWS][CRO_MONTH_ROWS_MONTH] = CRO_REFERENT_MONTH,
  };

  return (CroReferent) named[id][column];
}

/* --- Faults ------------------------------------------------------------------------------------ */

static void
add_fault_in (Reader       *reader,
              CroTableId    id,
              guint32       line,
              int           column,
              CroFaultKind  kind,
              const char   *value,
              const char   *detail)
{
  const CroTable *table = cro_table_get (id);
  g_autofree char *file = g_strconcat (table->name, ".csv", NULL);

  cro_faults_add (reader->faults, file, line, column >= 0 ? table->columns[column].name : NULL,
                  kind, value, detail);
}

static void
add_fault (Reader       *reader,
           guint32       line,
           int           column,
           CroFaultKind  kind,
           const char   *value,
           const char   *detail)
{
  add_fault_in (reader, reader->id, line, column, kind, value, detail);
}

/* --- Names ---------------------------------------------------------------------------------------- */

static guint
n_of (const Reader *reader,
      CroTableId    id)
{
  return reader->sheets->sheets[id].n;
}

/* The space that a table's own names live in, and where in it the table's numbers begin. */
static Space
own_space (const Reader *reader,
           CroTableId    id,
           guint        *base)
{
  *base = id == CRO_TABLE_OUTPUTS ? n_of (reader, CRO_TABLE_INGREDIENTS)
          : id == CRO_TABLE_MENUS ? n_of (reader, CRO_TABLE_PLATES)
                                  : 0;
  switch (id)
    {
    case CRO_TABLE_INGREDIENTS:
    case CRO_TABLE_OUTPUTS:
      return SPACE_ITEMS;
    case CRO_TABLE_SUPPLIERS:
      return SPACE_SUPPLIERS;
    case CRO_TABLE_PREPARATIONS:
      return SPACE_PREPARATIONS;
    case CRO_TABLE_YIELD_TESTS:
      return SPACE_TESTS;
    case CRO_TABLE_MONTHS:
      return SPACE_MONTHS;
    default:
      return SPACE_THINGS;
    }
}

static void
register_name (Reader     *reader,
               guint32     line,
               const char *name)
{
  guint base;
  Space space = own_space (reader, reader->id, &base);
  GHashTable *names = reader->names[space];
  guint known = GPOINTER_TO_UINT (g_hash_table_lookup (names, name));
  g_autofree char *detail = NULL;

  if (known == 0)
    {
      g_hash_table_insert (names, g_string_chunk_insert_const (reader->sheets->text, name),
                           GUINT_TO_POINTER (base + n_of (reader, reader->id) + 1));
      return;
    }
  if (known > base)
    {
      detail = g_strdup_printf ("%u", reader->sheets->sheets[reader->id].at[known - 1 - base]);
      add_fault (reader, line, 0, CRO_FAULT_DOUBLE_KEY, name, detail);
      return;
    }
  detail = g_strdup_printf ("%s.csv:%u",
                            space == SPACE_ITEMS ? "ingredients" : "plates",
                            reader->sheets->sheets[space == SPACE_ITEMS ? CRO_TABLE_INGREDIENTS
                                                                        : CRO_TABLE_PLATES]
                                .at[known - 1]);
  add_fault (reader, line, 0, CRO_FAULT_DOUBLE_NAME, name, detail);
}

/* A range of a space's numbers, and the word for what is looked for there. */
typedef struct
{
  Space       space;
  guint       first;
  guint       end;
  const char *what;
} Range;

static Range
range_of (const Reader   *reader,
          CroReferent        names,
          const CroField *kind)
{
  guint n_ingredients = n_of (reader, CRO_TABLE_INGREDIENTS);
  guint n_plates = n_of (reader, CRO_TABLE_PLATES);
  gboolean second = kind != NULL && kind->is_set && kind->number == 1;

  switch (names)
    {
    case CRO_REFERENT_INGREDIENT:
      return (Range){ SPACE_ITEMS, 0, n_ingredients, "ingredient" };
    case CRO_REFERENT_OUTPUT:
      return (Range){ SPACE_ITEMS, n_ingredients, G_MAXUINT, "output" };
    case CRO_REFERENT_ITEM:
      return (Range){ SPACE_ITEMS, 0, G_MAXUINT, "ingredient or output" };
    case CRO_REFERENT_SUPPLIER:
      return (Range){ SPACE_SUPPLIERS, 0, G_MAXUINT, "supplier" };
    case CRO_REFERENT_PREPARATION:
      return (Range){ SPACE_PREPARATIONS, 0, G_MAXUINT, "preparation" };
    case CRO_REFERENT_RECIPE:
      return second ? (Range){ SPACE_THINGS, 0, n_plates, "plate" }
                    : (Range){ SPACE_PREPARATIONS, 0, G_MAXUINT, "preparation" };
    case CRO_REFERENT_PLATE:
      return (Range){ SPACE_THINGS, 0, n_plates, "plate" };
    case CRO_REFERENT_MENU:
      return (Range){ SPACE_THINGS, n_plates, G_MAXUINT, "menu" };
    case CRO_REFERENT_THING:
      return second ? (Range){ SPACE_THINGS, n_plates, G_MAXUINT, "menu" }
                    : (Range){ SPACE_THINGS, 0, n_plates, "plate" };
    case CRO_REFERENT_TEST:
      return (Range){ SPACE_TESTS, 0, G_MAXUINT, "yield test" };
    default:
      return (Range){ SPACE_MONTHS, 0, G_MAXUINT, "month" };
    }
}

/* The number that a cell keeps for a name: within its own table where only one is meant. */
static gint64
resolve (Reader         *reader,
         guint32         line,
         guint           column,
         CroReferent        names,
         const CroField *fields)
{
  const CroField *kind = column > 0 ? &fields[column - 1] : NULL;
  Range range = range_of (reader, names, kind);
  guint number = GPOINTER_TO_UINT (g_hash_table_lookup (reader->names[range.space],
                                                        fields[column].text));

  /* Without its kind, which has had its fault, nobody knows where to look. */
  if ((names == CRO_REFERENT_RECIPE || names == CRO_REFERENT_THING) && !kind->is_set)
    return CRO_SHEET_UNSET;
  if (number == 0 || number - 1 < range.first || number - 1 >= range.end)
    {
      add_fault (reader, line, (int) column, CRO_FAULT_UNKNOWN_NAME, fields[column].text,
                 range.what);
      return CRO_SHEET_UNSET;
    }
  number -= 1;
  if (names == CRO_REFERENT_MENU || names == CRO_REFERENT_OUTPUT)
    return number - range.first;
  if (names == CRO_REFERENT_RECIPE && range.space == SPACE_THINGS)
    return (gint64) n_of (reader, CRO_TABLE_PREPARATIONS) + number;
  return number;
}

/* --- Checks that go over several columns ---------------------------------------------------------------- */

static gboolean
is_mass (const CroField *unit)
{
  return cro_unit_get ((CroUnit) unit->number)->base == CRO_BASE_GRAM;
}

static void
check_output (Reader         *reader,
              guint32         line,
              const CroField *fields)
{
  const CroField *amount = &fields[CRO_OUTPUTS_AMOUNT];
  const CroField *unit = &fields[CRO_OUTPUTS_UNIT];
  const CroField *yield = &fields[CRO_OUTPUTS_YIELD_PCT];

  if (amount->is_set && yield->is_set)
    add_fault (reader, line, CRO_OUTPUTS_YIELD_PCT, CRO_FAULT_OUTPUT_AMOUNT, yield->text, "both");
  else if (yield->is_set && unit->is_set && !is_mass (unit))
    add_fault (reader, line, CRO_OUTPUTS_UNIT, CRO_FAULT_OUTPUT_AMOUNT, unit->text, "mass");
  else if (amount->is_set && !unit->is_set)
    add_fault (reader, line, CRO_OUTPUTS_UNIT, CRO_FAULT_MISSING_VALUE, NULL, NULL);
}

static void
check_amount_has_unit (Reader         *reader,
                       guint32         line,
                       const CroField *fields,
                       guint           amount,
                       guint           unit)
{
  if (fields[amount].is_set && !fields[unit].is_set)
    add_fault (reader, line, (int) unit, CRO_FAULT_MISSING_VALUE, NULL, NULL);
}

static void
check_row (Reader         *reader,
           guint32         line,
           const CroField *fields)
{
  switch (reader->id)
    {
    case CRO_TABLE_OUTPUTS:
      check_output (reader, line, fields);
      break;
    case CRO_TABLE_LINES:
      if (fields[CRO_LINES_WEIGHED].is_set && fields[CRO_LINES_WEIGHED].number == 0
          && fields[CRO_LINES_YIELD_PCT].is_set)
        add_fault (reader, line, CRO_LINES_YIELD_PCT, CRO_FAULT_WHOLE_YIELD,
                   fields[CRO_LINES_YIELD_PCT].text, NULL);
      break;
    case CRO_TABLE_PURCHASES:
      check_amount_has_unit (reader, line, fields, CRO_PURCHASES_AMOUNT, CRO_PURCHASES_UNIT);
      break;
    case CRO_TABLE_ADJUSTMENTS:
      check_amount_has_unit (reader, line, fields, CRO_ADJUSTMENTS_AMOUNT, CRO_ADJUSTMENTS_UNIT);
      break;
    case CRO_TABLE_MONTH_ROWS:
      if (fields[CRO_MONTH_ROWS_PART].is_set != fields[CRO_MONTH_ROWS_PART_KIND].is_set)
        add_fault (reader, line,
                   fields[CRO_MONTH_ROWS_PART].is_set ? CRO_MONTH_ROWS_PART_KIND
                                                      : CRO_MONTH_ROWS_PART,
                   CRO_FAULT_MISSING_VALUE, NULL, NULL);
      break;
    default:
      break;
    }
}

/* --- Rows --------------------------------------------------------------------------------------------------- */

static gint64 *
append_row (CroSheet *sheet,
            guint32   line)
{
  gint64 *cells;

  if (sheet->n == sheet->allocated)
    {
      sheet->allocated = MAX (64, sheet->allocated * 2);
      sheet->cells = g_renew (gint64, sheet->cells, sheet->allocated * sheet->width);
      sheet->at = g_renew (guint32, sheet->at, sheet->allocated);
    }
  cells = sheet->cells + (gsize) sheet->n * sheet->width;
  sheet->at[sheet->n++] = line;
  return cells;
}

static gint64
cell_of (Reader         *reader,
         guint32         line,
         guint           column,
         const CroField *fields)
{
  const CroField *field = &fields[column];
  CroReferent names = reader->columns[column];

  if (!field->is_set)
    return CRO_SHEET_UNSET;
  if (names > CRO_REFERENT_ITSELF)
    return resolve (reader, line, column, names, fields);
  switch (reader->sheets->sheets[reader->id].table->columns[column].kind)
    {
    case CRO_FIELD_NAME:
    case CRO_FIELD_TEXT:
    case CRO_FIELD_CURRENCY:
      return (gintptr) g_string_chunk_insert_const (reader->sheets->text, field->text);
    default:
      return field->number;
    }
}

/* The offer of a price: rows of offers are found by what they name. */
static guint
offer_hash (gconstpointer key)
{
  const gint64 *cells = key;

  return (guint) (cells[0] * 31 + cells[1]) * 31 + (guint) ((guint64) cells[2] >> 3);
}

static gboolean
offer_equal (gconstpointer a,
             gconstpointer b)
{
  const gint64 *x = a, *y = b;

  return x[0] == y[0] && x[1] == y[1] && x[2] == y[2];
}

static void
find_offer (Reader         *reader,
            guint32         line,
            const CroField *fields,
            gint64         *cells)
{
  gpointer offer;

  cells[CRO_PRICES_OFFER] = CRO_SHEET_UNSET;
  if (cells[CRO_PRICES_INGREDIENT] == CRO_SHEET_UNSET
      || cells[CRO_PRICES_SUPPLIER] == CRO_SHEET_UNSET)
    return;
  if (g_hash_table_lookup_extended (reader->offers, cells, NULL, &offer))
    cells[CRO_PRICES_OFFER] = GPOINTER_TO_UINT (offer);
  else
    add_fault (reader, line, CRO_PRICES_CODE, CRO_FAULT_UNKNOWN_NAME,
               fields[CRO_PRICES_CODE].text, "offer");
}

static gboolean
take_row (guint           line,
          const CroField *fields,
          gboolean        sound,
          gpointer        user_data)
{
  Reader *reader = user_data;
  CroSheet *sheet = &reader->sheets->sheets[reader->id];
  gint64 *cells;

  if (fields[0].is_set && reader->columns[0] == CRO_REFERENT_ITSELF)
    register_name (reader, line, fields[0].text);
  cells = append_row (sheet, line);
  for (guint i = 0; i < sheet->table->n_columns; i++)
    cells[i] = cell_of (reader, line, i, fields);
  if (reader->id == CRO_TABLE_PRICES)
    find_offer (reader, line, fields, cells);
  check_row (reader, line, fields);
  return TRUE;
}

/* --- Keys ------------------------------------------------------------------------------------------------------ */

typedef struct
{
  const CroSheet *sheet;
  guint           keys[CRO_MAX_COLUMNS];
  guint           n_keys;
} Key;

static int
compare_keys (const Key *key,
              guint      a,
              guint      b)
{
  for (guint k = 0; k < key->n_keys; k++)
    {
      gint64 x = cro_sheet_get (key->sheet, a, key->keys[k]);
      gint64 y = cro_sheet_get (key->sheet, b, key->keys[k]);

      if (x != y)
        return x < y ? -1 : 1;
    }
  return 0;
}

static int
compare_rows (gconstpointer a,
              gconstpointer b,
              gpointer      user_data)
{
  guint x = *(const guint *) a, y = *(const guint *) b;
  int order = compare_keys (user_data, x, y);

  return order != 0 ? order : x < y ? -1 : x > y;
}

static void
key_of (Reader *reader,
        Key    *key)
{
  const CroTable *table = cro_table_get (reader->id);

  key->sheet = &reader->sheets->sheets[reader->id];
  key->n_keys = 0;
  if (reader->id == CRO_TABLE_PRICES)
    key->keys[key->n_keys++] = CRO_PRICES_OFFER;
  for (guint i = 0; i < table->n_columns; i++)
    if (table->columns[i].key && (reader->id != CRO_TABLE_PRICES || i == CRO_PRICES_FROM))
      key->keys[key->n_keys++] = i;
}

/* Whether a key is whole: one that names what does not exist has had its fault. */
static gboolean
has_key (const Key *key,
         guint      row)
{
  const CroTable *table = key->sheet->table;

  for (guint k = 0; k < key->n_keys; k++)
    if ((key->keys[k] >= table->n_columns || table->columns[key->keys[k]].required)
        && cro_sheet_get (key->sheet, row, key->keys[k]) == CRO_SHEET_UNSET)
      return FALSE;
  return TRUE;
}

static void
find_double_keys (Reader *reader)
{
  Key key;
  g_autofree guint *order = NULL;
  guint n = n_of (reader, reader->id), rising = 1;

  key_of (reader, &key);
  if (key.n_keys == 0)
    return;
  /* A table that was dumped stands in order, and then no two are equal. */
  while (rising < n && compare_keys (&key, rising - 1, rising) < 0)
    rising++;
  if (rising >= n)
    return;

  order = g_new (guint, n);
  for (guint i = 0; i < n; i++)
    order[i] = i;
  g_qsort_with_data (order, (int) n, sizeof *order, compare_rows, &key);
  for (guint i = 1; i < n; i++)
    if (compare_keys (&key, order[i - 1], order[i]) == 0 && has_key (&key, order[i]))
      {
        guint first = i - 1;
        g_autofree char *detail = NULL;

        while (first > 0 && compare_keys (&key, order[first - 1], order[i]) == 0)
          first--;
        detail = g_strdup_printf ("%u", key.sheet->at[order[first]]);
        add_fault (reader, key.sheet->at[order[i]], (int) key.keys[key.n_keys - 1],
                   CRO_FAULT_DOUBLE_KEY, NULL, detail);
      }
}

/* --- Checks that go over whole tables ------------------------------------------------------------------------------ */

static void
read_book (Reader *reader)
{
  const CroSheet *sheet = &reader->sheets->sheets[CRO_TABLE_BOOK];

  for (guint i = 0; i < sheet->n; i++)
    {
      const char *name = cro_sheet_text (sheet, i, CRO_BOOK_KEY);
      const char *value = cro_sheet_text (sheet, i, CRO_BOOK_VALUE);
      CroField field = { 0 };
      CroFaultKind kind;
      CroBookKey key;
      g_autofree char *detail = NULL;

      if (name == NULL)
        continue;
      if (!cro_book_key_find (name, &key))
        {
          add_fault_in (reader, CRO_TABLE_BOOK, sheet->at[i], CRO_BOOK_KEY, CRO_FAULT_UNKNOWN_KEY,
                        name, NULL);
          continue;
        }
      if (value == NULL)
        continue;
      if (!cro_table_parse_field (cro_book_key_get (key), value, &field, &kind, &detail))
        add_fault_in (reader, CRO_TABLE_BOOK, sheet->at[i], CRO_BOOK_VALUE, kind, value, detail);
      else if (field.is_set)
        reader->sheets->book[key] = field.text != NULL && cro_book_key_get (key)->kind
                                                              != CRO_FIELD_DECIMAL
                                        ? (gintptr) value
                                        : field.number;
    }
}

static void
check_mains (Reader *reader)
{
  const CroSheet *outputs = &reader->sheets->sheets[CRO_TABLE_OUTPUTS];
  const CroSheet *preparations = &reader->sheets->sheets[CRO_TABLE_PREPARATIONS];
  g_autofree guint *mains = g_new0 (guint, preparations->n + 1);

  for (guint i = 0; i < outputs->n; i++)
    {
      gint64 preparation = cro_sheet_get (outputs, i, CRO_OUTPUTS_PREPARATION);

      if (preparation != CRO_SHEET_UNSET && cro_sheet_get (outputs, i, CRO_OUTPUTS_ROLE) == 0
          && mains[preparation]++ > 0)
        add_fault_in (reader, CRO_TABLE_OUTPUTS, outputs->at[i], CRO_OUTPUTS_ROLE,
                      CRO_FAULT_MAIN_OUTPUT,
                      cro_sheet_text (preparations, (guint) preparation, CRO_PREPARATIONS_NAME),
                      "2");
    }
  for (guint i = 0; i < preparations->n; i++)
    if (mains[i] == 0)
      add_fault_in (reader, CRO_TABLE_PREPARATIONS, preparations->at[i], CRO_PREPARATIONS_NAME,
                    CRO_FAULT_MAIN_OUTPUT,
                    cro_sheet_text (preparations, i, CRO_PREPARATIONS_NAME), "0");
}

/* The line by which `row` takes an output of `part`. */
static guint
line_between (const CroLines *lines,
              const gint32   *maker,
              guint32         row,
              guint32         part)
{
  gsize i = 0;

  while (lines->row[i] != (int32_t) row || maker[lines->item[i]] != (gint32) part)
    i++;
  return (guint) i;
}

static void
add_cycle (Reader         *reader,
           const CroLines *lines,
           const gint32   *maker,
           const guint32  *cycle,
           gsize           length)
{
  const CroSheet *preparations = &reader->sheets->sheets[CRO_TABLE_PREPARATIONS];
  const CroSheet *sheet = &reader->sheets->sheets[CRO_TABLE_LINES];
  guint line = line_between (lines, maker, cycle[length - 1], cycle[0]);
  g_autoptr (GString) path = g_string_new (NULL);

  for (gsize i = 0; i <= length; i++)
    {
      if (i > 0)
        g_string_append (path, " → ");
      g_string_append (path, cro_sheet_text (preparations, cycle[i % length],
                                             CRO_PREPARATIONS_NAME));
    }
  add_fault_in (reader, CRO_TABLE_LINES, sheet->at[line], CRO_LINES_ITEM, CRO_FAULT_CYCLE, NULL,
                path->str);
}

typedef struct
{
  CroLines  lines;
  gint32   *maker;
} Structure;

/* Lines without a fault, and who makes what. */
static void
build_structure (Reader    *reader,
                 Structure *structure)
{
  const CroSheet *sheet = &reader->sheets->sheets[CRO_TABLE_LINES];
  const CroSheet *outputs = &reader->sheets->sheets[CRO_TABLE_OUTPUTS];
  guint n_ingredients = n_of (reader, CRO_TABLE_INGREDIENTS);
  CroLines *lines = &structure->lines;

  lines->n = sheet->n;
  lines->row = g_new (int32_t, sheet->n + 1);
  lines->item = g_new (uint32_t, sheet->n + 1);
  lines->position = g_new (int64_t, sheet->n + 1);
  for (guint i = 0; i < sheet->n; i++)
    {
      gint64 row = cro_sheet_get (sheet, i, CRO_LINES_PARENT);
      gint64 item = cro_sheet_get (sheet, i, CRO_LINES_ITEM);

      lines->row[i] = row == CRO_SHEET_UNSET || item == CRO_SHEET_UNSET ? -1 : (int32_t) row;
      lines->item[i] = item == CRO_SHEET_UNSET ? 0 : (uint32_t) item;
      lines->position[i] = 0;
    }
  structure->maker = g_new (gint32, n_ingredients + outputs->n + 1);
  for (guint i = 0; i < n_ingredients; i++)
    structure->maker[i] = -1;
  for (guint i = 0; i < outputs->n; i++)
    {
      gint64 preparation = cro_sheet_get (outputs, i, CRO_OUTPUTS_PREPARATION);

      structure->maker[n_ingredients + i] = preparation == CRO_SHEET_UNSET ? -1
                                                                           : (gint32) preparation;
    }
}

static void
check_cycles (Reader *reader)
{
  Structure structure = { 0 };
  CroGraphSource source;
  g_autofree guint32 *cycle = NULL;
  g_autofree void *workspace = NULL;
  gsize n_items = n_of (reader, CRO_TABLE_INGREDIENTS) + n_of (reader, CRO_TABLE_OUTPUTS);
  gsize n_rows = n_of (reader, CRO_TABLE_PREPARATIONS) + n_of (reader, CRO_TABLE_PLATES);
  gsize length;

  build_structure (reader, &structure);
  source = (CroGraphSource){ n_items, n_rows, structure.maker, &structure.lines };
  cycle = g_new (guint32, n_rows + 1);
  workspace = g_malloc (cro_graph_workspace (n_items, n_rows, structure.lines.n));
  length = cro_graph_find_cycle (&source, workspace, cycle);
  if (length > 0)
    add_cycle (reader, &structure.lines, structure.maker, cycle, length);
  g_free (structure.lines.row);
  g_free (structure.lines.item);
  g_free (structure.lines.position);
  g_free (structure.maker);
}

/* --- The folder ------------------------------------------------------------------------------------------------------- */

static void
index_offers (Reader *reader)
{
  const CroSheet *sheet = &reader->sheets->sheets[CRO_TABLE_OFFERS];

  for (guint i = 0; i < sheet->n; i++)
    g_hash_table_insert (reader->offers, sheet->cells + (gsize) i * sheet->width,
                         GUINT_TO_POINTER (i));
}

static gboolean
read_tables (Reader      *reader,
             const char  *folder,
             GError     **error)
{
  /* What a row names has been read before it. */
  static const CroTableId order[] = {
    CRO_TABLE_BOOK,        CRO_TABLE_INGREDIENTS, CRO_TABLE_SUPPLIERS,
    CRO_TABLE_OFFERS,      CRO_TABLE_PRICES,      CRO_TABLE_RATES,
    CRO_TABLE_PREPARATIONS, CRO_TABLE_OUTPUTS,    CRO_TABLE_PLATES,
    CRO_TABLE_MENUS,       CRO_TABLE_LINES,       CRO_TABLE_MENU_PLATES,
    CRO_TABLE_YIELD_TESTS, CRO_TABLE_YIELD_TEST_PARTS, CRO_TABLE_SALES,
    CRO_TABLE_COUNTS,      CRO_TABLE_PURCHASES,   CRO_TABLE_ADJUSTMENTS,
    CRO_TABLE_MONTHS,      CRO_TABLE_MONTH_ROWS,
  };

  for (gsize i = 0; i < G_N_ELEMENTS (order); i++)
    {
      reader->id = order[i];
      for (guint column = 0; column < CRO_MAX_COLUMNS; column++)
        reader->columns[column] = cro_sheet_referent (reader->id, column);
      if (!cro_table_read (folder, reader->id, take_row, reader, reader->faults, error))
        return FALSE;
      if (reader->columns[0] != CRO_REFERENT_ITSELF)
        find_double_keys (reader);
      if (reader->id == CRO_TABLE_OFFERS)
        index_offers (reader);
    }
  return cro_tables_check_folder (folder, reader->faults, error);
}

static CroSheets *
sheets_new (void)
{
  CroSheets *self = g_new0 (CroSheets, 1);

  self->text = g_string_chunk_new (65536);
  for (guint id = 0; id < CRO_N_TABLES; id++)
    {
      self->sheets[id].table = cro_table_get ((CroTableId) id);
      self->sheets[id].width = self->sheets[id].table->n_columns + (id == CRO_TABLE_PRICES);
    }
  for (guint key = 0; key < CRO_N_BOOK_KEYS; key++)
    self->book[key] = CRO_SHEET_UNSET;
  return self;
}

CroSheets *
cro_sheets_read (const char  *folder,
                 CroFaults   *faults,
                 GError     **error)
{
  g_autoptr (CroSheets) self = sheets_new ();
  Reader reader = { .sheets = self, .faults = faults };
  gboolean read;

  for (int i = 0; i < N_SPACES; i++)
    reader.names[i] = g_hash_table_new (g_str_hash, g_str_equal);
  reader.offers = g_hash_table_new (offer_hash, offer_equal);
  read = read_tables (&reader, folder, error);
  if (read)
    {
      read_book (&reader);
      check_mains (&reader);
      check_cycles (&reader);
    }
  for (int i = 0; i < N_SPACES; i++)
    g_hash_table_unref (reader.names[i]);
  g_hash_table_unref (reader.offers);
  return read ? g_steal_pointer (&self) : NULL;
}

void
cro_sheets_free (CroSheets *self)
{
  for (guint id = 0; id < CRO_N_TABLES; id++)
    {
      g_free (self->sheets[id].cells);
      g_free (self->sheets[id].at);
    }
  g_string_chunk_free (self->text);
  g_free (self);
}
