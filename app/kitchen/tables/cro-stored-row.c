#include "cro-stored-row.h"

#include <string.h>

#include "cro-allergen.h"
#include "cro-date.h"
#include "cro-decimal.h"
#include "cro-unit.h"

/* An offer is named by three texts. */
struct _CroStoredNames
{
  GHashTable   *lent[2];    /* by base: id → name */
  GHashTable   *items;
  GHashTable   *ingredients;
  GHashTable   *outputs;
  GHashTable   *suppliers;
  GHashTable   *preparations;
  GHashTable   *plates;
  GHashTable   *menus;
  GHashTable   *tests;
  GHashTable   *months;
  GHashTable   *offers;     /* id → const char *[3] */
  GHashTable   *sold[2];    /* names of plates and of menus; NULL until a till's name asks */
  GStringChunk *text;
};

const char *const cro_stored_bases[] = { "item", "thing", NULL };

/* --- A value ------------------------------------------------------------------------------------ */

static gboolean
set_text (CroField   *field,
          const char *text)
{
  field->is_set = text != NULL && *text != '\0';
  field->text = text;
  return TRUE;
}

static gboolean
set_number (CroField *field,
            gint64    number)
{
  field->is_set = TRUE;
  field->number = number;
  return TRUE;
}

static gboolean
is_within (const CroColumn *column,
           gint64           number)
{
  return (number > column->low || (number == column->low && !column->low_excluded))
         && (number < column->high || (number == column->high && !column->high_excluded));
}

static gboolean
take_number (const CroColumn *column,
             gint64           number,
             CroField        *field)
{
  switch (column->kind)
    {
    case CRO_FIELD_DECIMAL:
      return is_within (column, number) && set_number (field, number);
    case CRO_FIELD_ALLERGENS:
      return number >= 0 && number < ((gint64) 1 << CRO_N_ALLERGENS) && set_number (field, number);
    case CRO_FIELD_CHOICE:
      /* What says yes or no is kept as 1 or 0. */
      return strcmp (column->choices[0], "yes") == 0 && (number == 0 || number == 1)
             && set_number (field, number == 0);
    default:
      return FALSE;
    }
}

static gboolean
take_choice (const CroColumn *column,
             const char      *text,
             CroField        *field)
{
  for (gint64 i = 0; column->choices[i] != NULL; i++)
    if (strcmp (column->choices[i], text) == 0)
      return strcmp (column->choices[0], "yes") != 0 && set_number (field, i);
  return FALSE;
}

/* Those of an older book need not be ISO 4217's. */
static gboolean
is_currency (const char *text)
{
  return strlen (text) == 3 && g_ascii_isupper (text[0]) && g_ascii_isupper (text[1])
         && g_ascii_isupper (text[2]);
}

static gboolean
take_text (const CroColumn *column,
           const char      *text,
           CroField        *field)
{
  gsize   length = strlen (text);
  CroDate date;
  CroUnit unit;

  switch (column->kind)
    {
    case CRO_FIELD_NAME:
    case CRO_FIELD_TEXT:
      return set_text (field, text);
    case CRO_FIELD_CURRENCY:
      return is_currency (text) && set_text (field, text);
    case CRO_FIELD_CHOICE:
      return take_choice (column, text, field);
    case CRO_FIELD_UNIT:
      return cro_unit_parse (text, length, &unit) && set_number (field, unit);
    case CRO_FIELD_DATE:
      return cro_date_parse (text, length, &date) && set_number (field, date);
    case CRO_FIELD_MONTH:
      return cro_month_parse (text, length, &date) && set_number (field, date);
    default:
      return FALSE;
    }
}

gboolean
cro_stored_field (const CroColumn *column,
                  const CroCell   *cell,
                  CroField        *field)
{
  *field = (CroField){ 0 };
  switch (cell->kind)
    {
    case CRO_CELL_INTEGER:
      return take_number (column, cell->integer, field);
    case CRO_CELL_TEXT:
      return take_text (column, cell->text, field);
    default:
      return TRUE;
    }
}

/* --- Names -------------------------------------------------------------------------------------- */

static GHashTable *
space_new (void)
{
  return g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
}

static void
space_add (GHashTable *space,
           gint64      id,
           const char *name)
{
  g_hash_table_insert (space, g_memdup2 (&id, sizeof id), (gpointer) name);
}

CroStoredNames *
cro_stored_names_new (void)
{
  CroStoredNames *self = g_new0 (CroStoredNames, 1);
  GHashTable **spaces[] = { &self->lent[0],   &self->lent[1],   &self->items,        &self->ingredients,
                            &self->outputs,   &self->suppliers, &self->preparations, &self->plates,
                            &self->menus,     &self->tests,     &self->months };

  for (gsize i = 0; i < G_N_ELEMENTS (spaces); i++)
    *spaces[i] = space_new ();
  self->offers = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
  self->text = g_string_chunk_new (65536);
  return self;
}

void
cro_stored_names_free (CroStoredNames *self)
{
  GHashTable *spaces[] = { self->lent[0],   self->lent[1],   self->items,        self->ingredients,
                           self->outputs,   self->suppliers, self->preparations, self->plates,
                           self->menus,     self->tests,     self->months,       self->offers };

  for (gsize i = 0; i < G_N_ELEMENTS (spaces); i++)
    g_hash_table_unref (spaces[i]);
  for (gsize i = 0; i < G_N_ELEMENTS (self->sold); i++)
    g_clear_pointer (&self->sold[i], g_hash_table_unref);
  g_string_chunk_free (self->text);
  g_free (self);
}

static guint
base_of (const char *base)
{
  return strcmp (base, cro_stored_bases[0]) == 0 ? 0 : 1;
}

void
cro_stored_names_lend (CroStoredNames *self,
                       guint           base,
                       gint64          id,
                       const char     *name)
{
  space_add (self->lent[base], id, g_string_chunk_insert_const (self->text, name));
}

/* --- A row -------------------------------------------------------------------------------------- */

void
cro_stored_columns (const CroSheetMap *map,
                    const char        *columns[CRO_MAP_MOST + 1])
{
  guint n = 0;

  for (; map->columns[n].column != NULL; n++)
    columns[n] = map->columns[n].column;
  columns[n] = NULL;
}

static gboolean
take_offer (CroStoredNames *self,
            CroField       *fields,
            gint64          id)
{
  const char **offer = g_hash_table_lookup (self->offers, &id);

  return offer != NULL && set_text (&fields[CRO_PRICES_INGREDIENT], offer[0])
         && set_text (&fields[CRO_PRICES_SUPPLIER], offer[1])
         && set_text (&fields[CRO_PRICES_CODE], offer[2]);
}

static gboolean
take_month (CroStoredNames *self,
            CroField       *field,
            gint64          id)
{
  const char *name = g_hash_table_lookup (self->months, &id);
  CroDate     month;

  return name != NULL && cro_month_parse (name, strlen (name), &month) && set_number (field, month);
}

static GHashTable *
space_of (CroStoredNames *self,
          CroReferent     what,
          gint64          id)
{
  switch (what)
    {
    case CRO_REFERENT_INGREDIENT:
      return self->ingredients;
    case CRO_REFERENT_OUTPUT:
      return self->outputs;
    case CRO_REFERENT_SUPPLIER:
      return self->suppliers;
    case CRO_REFERENT_PREPARATION:
      return self->preparations;
    case CRO_REFERENT_PLATE:
      return self->plates;
    case CRO_REFERENT_MENU:
      return self->menus;
    case CRO_REFERENT_THING:
    case CRO_REFERENT_SOLD:
      return g_hash_table_contains (self->menus, &id) ? self->menus : self->plates;
    case CRO_REFERENT_TEST:
      return self->tests;
    default:
      return self->items;
    }
}

/* The name of what an id stands for; where a table has two kinds of it, the kind goes to the column
 * before. FALSE: it stands for nothing. */
static gboolean
take_name (CroStoredNames     *self,
           const CroMapColumn *map,
           CroReferent         what,
           gint64              id,
           CroField           *fields)
{
  gboolean    is_plate = map->kind == CRO_MAP_PLATE;
  GHashTable *space = what != CRO_REFERENT_RECIPE ? space_of (self, what, id)
                      : is_plate                  ? self->plates
                                                  : self->preparations;

  if (what == CRO_REFERENT_OFFER)
    return take_offer (self, fields, id);
  if (what == CRO_REFERENT_MONTH)
    return take_month (self, &fields[map->from], id);
  if (what == CRO_REFERENT_RECIPE)
    set_number (&fields[map->from - 1], is_plate);
  if (what == CRO_REFERENT_SOLD)
    set_number (&fields[map->from - 1], space == self->menus ? CRO_SALE_MENU : CRO_SALE_PLATE);
  return set_text (&fields[map->from], g_hash_table_lookup (space, &id))
         && fields[map->from].text != NULL;
}

/* A sale of nothing brought nothing: an older book did not have to say so, and a table does. */
static void
say_revenue (CroField *fields)
{
  if (fields[CRO_SALES_SOLD].is_set && fields[CRO_SALES_SOLD].number == 0
      && !fields[CRO_SALES_NET_REVENUE].is_set)
    set_number (&fields[CRO_SALES_NET_REVENUE], 0);
}

static gboolean
take_value (CroStoredNames     *self,
            const CroTable     *table,
            const CroMapColumn *map,
            const CroCell      *cell,
            CroField           *fields)
{
  CroField *field = &fields[map->from];

  /* What two columns of the store may fill is filled by one. */
  if (map->kind == CRO_MAP_OTHER && field->is_set)
    return FALSE;
  if (!cro_stored_field (&table->columns[map->from], cell, field))
    return FALSE;
  if (field->text != NULL)
    field->text = g_string_chunk_insert_const (self->text, field->text);
  if (map->kind == CRO_MAP_OTHER)
    set_number (&fields[map->from - 1], CRO_SALE_OTHER);
  return TRUE;
}

guint
cro_stored_told_column (const CroSheetMap  *map,
                        const CroMapColumn *column)
{
  return column->from < cro_table_get (map->id)->n_columns ? column->from : CRO_PRICES_INGREDIENT;
}

static gboolean
is_name (const CroMapColumn *map,
         CroReferent         what)
{
  return what > CRO_REFERENT_ITSELF && map->kind != CRO_MAP_OTHER;
}

guint32
cro_stored_row_fill (CroStoredNames    *self,
                     const CroSheetMap *map,
                     gint64             id,
                     const CroCell     *cells,
                     CroField          *fields,
                     guint32           *strangers)
{
  const CroTable *table = cro_table_get (map->id);
  guint32         faulty = 0, unknown = 0;

  memset (fields, 0, table->n_columns * sizeof *fields);
  if (map->base != NULL)
    set_text (&fields[0], g_hash_table_lookup (self->lent[base_of (map->base)], &id));
  for (guint i = 0; map->columns[i].column != NULL; i++)
    {
      const CroMapColumn *column = &map->columns[i];
      CroReferent         what = cro_sheet_referent (map->id, column->from);
      guint32             bit = 1u << cro_stored_told_column (map, column);

      if (cells[i].kind == CRO_CELL_NULL)
        continue;
      if (!is_name (column, what))
        faulty |= take_value (self, table, column, &cells[i], fields) ? 0 : bit;
      else if (cells[i].kind != CRO_CELL_INTEGER
               || (!cro_table_is_of_offers (map->id) && fields[column->from].is_set))
        faulty |= bit;
      else if (!take_name (self, column, what, cells[i].integer, fields))
        unknown |= bit;
    }
  if (map->id == CRO_TABLE_SALES)
    say_revenue (fields);
  for (guint i = 0; i < table->n_columns; i++)
    if (table->columns[i].required && !fields[i].is_set)
      faulty |= 1u << i;
  if (strangers != NULL)
    *strangers = unknown;
  return faulty | unknown;
}

static void
meet_offer (CroStoredNames *self,
            gint64          id,
            const CroField *fields)
{
  const char **offer = g_new (const char *, 3);

  offer[0] = fields[CRO_OFFERS_INGREDIENT].text;
  offer[1] = fields[CRO_OFFERS_SUPPLIER].text;
  offer[2] = fields[CRO_OFFERS_CODE].text;
  g_hash_table_insert (self->offers, g_memdup2 (&id, sizeof id), offer);
}

static const char *
month_text (CroStoredNames *self,
            CroDate         month)
{
  char text[CRO_DATE_CHARS];

  cro_date_format (month, text);
  return g_string_chunk_insert_len (self->text, text, strlen ("YYYY-MM"));
}

static GHashTable *
names_of (GHashTable *space)
{
  GHashTable *names = g_hash_table_new (g_str_hash, g_str_equal);
  GHashTableIter iter;
  gpointer name;

  g_hash_table_iter_init (&iter, space);
  while (g_hash_table_iter_next (&iter, NULL, &name))
    g_hash_table_add (names, name);
  return names;
}

gboolean
cro_stored_row_stands (CroStoredNames    *self,
                       const CroSheetMap *map,
                       const CroField    *fields)
{
  const CroField *kind = &fields[CRO_TILL_NAMES_KIND], *name = &fields[CRO_TILL_NAMES_SOLD_AS];
  gboolean is_menu = kind->number == CRO_TILL_KIND_MENU;

  if (map->id != CRO_TABLE_TILL_NAMES || !name->is_set || (!is_menu && kind->number != CRO_TILL_KIND_PLATE))
    return TRUE;
  if (self->sold[is_menu] == NULL)
    self->sold[is_menu] = names_of (is_menu ? self->menus : self->plates);
  return g_hash_table_contains (self->sold[is_menu], name->text);
}

void
cro_stored_row_meet (CroStoredNames    *self,
                     const CroSheetMap *map,
                     gint64             id,
                     const CroField    *fields)
{
  const char *name = fields[0].text;

  switch (map->id)
    {
    case CRO_TABLE_INGREDIENTS:
      space_add (self->ingredients, id, name);
      space_add (self->items, id, name);
      break;
    case CRO_TABLE_OUTPUTS:
      space_add (self->outputs, id, name);
      space_add (self->items, id, name);
      break;
    case CRO_TABLE_SUPPLIERS:
      space_add (self->suppliers, id, name);
      break;
    case CRO_TABLE_OFFERS:
      meet_offer (self, id, fields);
      break;
    case CRO_TABLE_PREPARATIONS:
      space_add (self->preparations, id, name);
      break;
    case CRO_TABLE_PLATES:
      space_add (self->plates, id, name);
      break;
    case CRO_TABLE_MENUS:
      space_add (self->menus, id, name);
      break;
    case CRO_TABLE_YIELD_TESTS:
      space_add (self->tests, id, name);
      break;
    case CRO_TABLE_MONTHS:
      space_add (self->months, id, month_text (self, (CroDate) fields[CRO_MONTHS_MONTH].number));
      break;
    default:
      break;
    }
}

/* A value of book.csv is text, whatever its key makes of it. */
gboolean
cro_stored_setting (CroStoredNames *self,
                    CroBookKey      key,
                    const CroCell  *cell,
                    CroField       *fields)
{
  const CroColumn *column = cro_book_key_get (key);
  char             decimal[CRO_DECIMAL_CHARS];
  CroField         field;
  const char      *value;

  if (!cro_stored_field (column, cell, &field))
    return FALSE;
  value = field.text;
  if (field.is_set && column->kind == CRO_FIELD_CHOICE)
    value = column->choices[field.number];
  else if (field.is_set && column->kind == CRO_FIELD_DECIMAL)
    {
      cro_decimal_format (field.number, decimal);
      value = decimal;
    }
  memset (fields, 0, CRO_N_BOOK * sizeof *fields);
  set_text (&fields[CRO_BOOK_KEY], column->name);
  if (value != NULL)
    set_text (&fields[CRO_BOOK_VALUE], g_string_chunk_insert_const (self->text, value));
  return TRUE;
}

/* --- Order -------------------------------------------------------------------------------------- */

static int
compare_fields (const CroField *a,
                const CroField *b)
{
  if (a->is_set != b->is_set)
    return a->is_set ? 1 : -1;
  if (!a->is_set)
    return 0;
  if (a->text != NULL)
    return a->text == b->text ? 0 : strcmp (a->text, b->text);
  return a->number < b->number ? -1 : a->number > b->number;
}

/* By key; what has none, and equals, by all columns. */
static int
compare_rows (gconstpointer a,
              gconstpointer b,
              gpointer      user_data)
{
  const CroTable *table = user_data;
  const CroField *x = a, *y = b;

  for (int of_key = 1; of_key >= 0; of_key--)
    for (guint i = 0; i < table->n_columns; i++)
      if (table->columns[i].key == of_key)
        {
          int order = compare_fields (&x[i], &y[i]);

          if (order != 0)
            return order;
        }
  return 0;
}

void
cro_stored_rows_sort (const CroTable *table,
                      CroField       *rows,
                      guint           n)
{
  if (n > 0)
    g_qsort_with_data (rows, (int) n, sizeof (CroField) * table->n_columns, compare_rows,
                       (gpointer) table);
}
