#include "cro-dump.h"

#include <string.h>

#include "cro-date.h"
#include "cro-decimal.h"
#include "cro-dump-folder.h"
#include "cro-sheet-map.h"
#include "cro-unit.h"

/* What an id names. An offer is named by three texts. */
typedef struct
{
  GHashTable *items;
  GHashTable *suppliers;
  GHashTable *preparations;
  GHashTable *things;
  GHashTable *menus;        /* ids of things that are menus */
  GHashTable *tests;
  GHashTable *months;
  GHashTable *offers;       /* id → const char *[3] */
  GStringChunk *text;
} Names;

typedef struct
{
  CroStore          *store;
  const CroSheetMap *map;
  const CroTable    *table;
  Names             *names;
  GArray            *fields;   /* CroField, n_columns a row */
  gboolean           is_damaged; /* an id led nowhere */
} Dump;

/* --- Names ------------------------------------------------------------------------------------------ */

static GHashTable *
read_names (Names       *names,
            CroStore    *store,
            const char  *table,
            const char  *column,
            GError     **error)
{
  const char *columns[] = { "id", column, NULL };
  g_autoptr (CroRows) rows = cro_store_read (store, table, columns, error);
  g_autoptr (GHashTable) found = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  GError *failed = NULL;

  if (rows == NULL)
    return NULL;
  while (cro_rows_next (rows, &failed))
    {
      gint64 id = cro_rows_get_int (rows, 0);
      const char *text = column != NULL ? cro_rows_get_text (rows, 1) : "";

      g_hash_table_insert (found, g_memdup2 (&id, sizeof id),
                           g_string_chunk_insert_const (names->text, text));
    }
  if (failed == NULL)
    return g_steal_pointer (&found);
  g_propagate_error (error, failed);
  return NULL;
}

static gboolean
read_offers (Names     *names,
             CroStore  *store,
             GError   **error)
{
  static const char *const columns[] = { "id", "ingredient", "supplier", "code", NULL };
  g_autoptr (CroRows) rows = cro_store_read (store, "offer", columns, error);
  GError *failed = NULL;

  if (rows == NULL)
    return FALSE;
  while (cro_rows_next (rows, &failed))
    {
      gint64 id = cro_rows_get_int (rows, 0);
      gint64 ingredient = cro_rows_get_int (rows, 1), supplier = cro_rows_get_int (rows, 2);
      const char **offer = g_new (const char *, 3);

      offer[0] = g_hash_table_lookup (names->items, &ingredient);
      offer[1] = g_hash_table_lookup (names->suppliers, &supplier);
      offer[2] = g_string_chunk_insert_const (names->text, cro_rows_get_text (rows, 3));
      g_hash_table_insert (names->offers, g_memdup2 (&id, sizeof id), offer);
    }
  if (failed == NULL)
    return TRUE;
  g_propagate_error (error, failed);
  return FALSE;
}

static gboolean
read_all_names (Names     *names,
                CroStore  *store,
                GError   **error)
{
  const struct { GHashTable **into; const char *table, *column; } spaces[] = {
    { &names->items, "item", "name" },           { &names->suppliers, "supplier", "name" },
    { &names->preparations, "preparation", "name" }, { &names->things, "thing", "name" },
    { &names->menus, "menu", NULL },             { &names->tests, "yield_test", "test" },
    { &names->months, "month", "month" },
  };

  names->text = g_string_chunk_new (65536);
  names->offers = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
  for (gsize i = 0; i < G_N_ELEMENTS (spaces); i++)
    {
      *spaces[i].into = read_names (names, store, spaces[i].table, spaces[i].column, error);
      if (*spaces[i].into == NULL)
        return FALSE;
    }
  return read_offers (names, store, error);
}

static void
names_clear (Names *names)
{
  GHashTable **spaces[] = { &names->items,  &names->suppliers, &names->preparations,
                            &names->things, &names->menus,     &names->tests,
                            &names->months, &names->offers };

  for (gsize i = 0; i < G_N_ELEMENTS (spaces); i++)
    g_clear_pointer (spaces[i], g_hash_table_unref);
  g_string_chunk_free (names->text);
}

/* --- Fields ------------------------------------------------------------------------------------------- */

static void
set_text (CroField   *field,
          const char *text)
{
  field->is_set = text != NULL && *text != '\0';
  field->text = text;
}

static void
set_number (CroField *field,
            gint64    number)
{
  field->is_set = TRUE;
  field->number = number;
}

static gboolean
parse_choice (const CroColumn *column,
              const char      *text,
              gint64          *number)
{
  for (*number = 0; column->choices[*number] != NULL; ++*number)
    if (strcmp (column->choices[*number], text) == 0)
      return TRUE;
  return FALSE;
}

/* A text that stands for a number. FALSE: it stands for none. */
static gboolean
parse_number (const CroColumn *column,
              const char      *text,
              gint64          *number)
{
  gsize length = strlen (text);
  gboolean is_parsed = FALSE;
  CroDate date = 0;
  CroUnit unit = 0;

  switch (column->kind)
    {
    case CRO_FIELD_CHOICE:
      return parse_choice (column, text, number);
    case CRO_FIELD_UNIT:
      is_parsed = cro_unit_parse (text, length, &unit);
      *number = unit;
      break;
    case CRO_FIELD_MONTH:
      is_parsed = cro_month_parse (text, length, &date);
      *number = date;
      break;
    default:
      is_parsed = cro_date_parse (text, length, &date);
      *number = date;
      break;
    }
  return is_parsed;
}

static gboolean
is_number (CroFieldKind kind)
{
  return kind == CRO_FIELD_CHOICE || kind == CRO_FIELD_UNIT || kind == CRO_FIELD_MONTH
         || kind == CRO_FIELD_DATE;
}

static void
set_value (Dump            *dump,
           CroField        *field,
           const CroColumn *column,
           CroRows         *rows,
           int              at)
{
  const char *text;
  gint64 number;

  if (!cro_rows_is_text (rows, at))
    {
      number = cro_rows_get_int (rows, at);
      /* What says yes or no is kept as 1 or 0. */
      set_number (field, column->kind == CRO_FIELD_CHOICE ? number == 0 : number);
      return;
    }
  text = cro_rows_get_text (rows, at);
  if (!is_number (column->kind))
    set_text (field, g_string_chunk_insert_const (dump->names->text, text));
  else if (parse_number (column, text, &number))
    set_number (field, number);
  else
    dump->is_damaged = TRUE;
}

/* Always the text of an id, or damage: a stranger's file may refer to what is not there. */
static const char *
name_of (Dump       *dump,
         GHashTable *space,
         gint64      id)
{
  const char *name = g_hash_table_lookup (space, &id);

  dump->is_damaged |= name == NULL;
  return name;
}

static void
set_offer (Dump     *dump,
           CroField *fields,
           gint64    id)
{
  const char **offer = g_hash_table_lookup (dump->names->offers, &id);

  if (offer == NULL || offer[0] == NULL || offer[1] == NULL)
    {
      dump->is_damaged = TRUE;
      return;
    }
  set_text (&fields[CRO_PRICES_INGREDIENT], offer[0]);
  set_text (&fields[CRO_PRICES_SUPPLIER], offer[1]);
  set_text (&fields[CRO_PRICES_CODE], offer[2]);
}

/* The name of what an id in the store stands for; the kind goes to the column before. */
static void
set_name (Dump         *dump,
          CroField     *fields,
          guint         column,
          CroMapKind    kind,
          CroReferent      what,
          gint64        id)
{
  Names *names = dump->names;
  GHashTable *space = names->items;
  const char *name;
  CroDate month;

  switch (what)
    {
    case CRO_REFERENT_OFFER:
      set_offer (dump, fields, id);
      return;
    case CRO_REFERENT_SUPPLIER:
      space = names->suppliers;
      break;
    case CRO_REFERENT_PREPARATION:
      space = names->preparations;
      break;
    case CRO_REFERENT_RECIPE:
      space = kind == CRO_MAP_PLATE ? names->things : names->preparations;
      set_number (&fields[column - 1], kind == CRO_MAP_PLATE);
      break;
    case CRO_REFERENT_SOLD:
      space = names->things;
      set_number (&fields[column - 1], g_hash_table_contains (names->menus, &id));
      break;
    case CRO_REFERENT_PLATE:
    case CRO_REFERENT_MENU:
    case CRO_REFERENT_THING:
      space = names->things;
      break;
    case CRO_REFERENT_TEST:
      space = names->tests;
      break;
    case CRO_REFERENT_MONTH:
      name = name_of (dump, names->months, id);
      if (name != NULL && cro_month_parse (name, strlen (name), &month))
        set_number (&fields[column], month);
      return;
    default:
      break;
    }
  set_text (&fields[column], name_of (dump, space, id));
}

/* A sale of nothing brought nothing: an older book did not have to say so, and a table does. */
static void
say_revenue (CroField *fields)
{
  if (fields[CRO_SALES_SOLD].number == 0 && !fields[CRO_SALES_NET_REVENUE].is_set)
    set_number (&fields[CRO_SALES_NET_REVENUE], 0);
}

static void
take_row (Dump    *dump,
          CroRows *rows)
{
  guint n = dump->table->n_columns;
  CroField *fields;

  g_array_set_size (dump->fields, dump->fields->len + n);
  fields = &g_array_index (dump->fields, CroField, dump->fields->len - n);
  memset (fields, 0, n * sizeof *fields);
  if (dump->map->base != NULL)
    {
      gint64 id = cro_rows_get_int (rows, 0);

      set_text (&fields[0], name_of (dump,
                                     strcmp (dump->map->base, "item") == 0 ? dump->names->items
                                                                           : dump->names->things,
                                     id));
    }
  for (guint i = 0; dump->map->columns[i].column != NULL; i++)
    {
      const CroMapColumn *map = &dump->map->columns[i];
      CroReferent what = cro_sheet_referent (dump->map->id, map->from);

      if (cro_rows_is_null (rows, (int) i + 1))
        continue;
      if (what <= CRO_REFERENT_ITSELF || map->kind == CRO_MAP_OTHER)
        set_value (dump, &fields[map->from], &dump->table->columns[map->from], rows, (int) i + 1);
      else
        set_name (dump, fields, map->from, map->kind, what, cro_rows_get_int (rows, (int) i + 1));
      if (map->kind == CRO_MAP_OTHER)
        set_number (&fields[map->from - 1], CRO_SALE_OTHER);
    }
  if (dump->map->id == CRO_TABLE_SALES)
    say_revenue (fields);
}

/* --- Order ---------------------------------------------------------------------------------------------- */

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

/* --- Tables ----------------------------------------------------------------------------------------------- */

/* Who gets the rows of each table. */
typedef struct
{
  CroDumpTable take;
  gpointer     user_data;
} Taker;

static gboolean
hand_on (const Taker     *taker,
         CroTableId       id,
         const CroTable  *table,
         GArray          *fields,
         GError         **error)
{
  guint n = fields->len / table->n_columns;

  if (n > 0)
    g_qsort_with_data (fields->data, (int) n, sizeof (CroField) * table->n_columns, compare_rows,
                       (gpointer) table);
  return taker->take (id, (const CroField *) (gconstpointer) fields->data, n, taker->user_data, error);
}

static gboolean
dump_table (Names              *names,
            CroStore           *store,
            const CroSheetMap  *map,
            const Taker        *taker,
            GError            **error)
{
  g_autoptr (GArray) fields = g_array_new (FALSE, FALSE, sizeof (CroField));
  Dump dump = { store, map, cro_table_get (map->id), names, fields, FALSE };
  const char *columns[CRO_MAP_MOST + 2] = { "id" };
  g_autoptr (CroRows) rows = NULL;
  GError *failed = NULL;

  for (guint i = 0; map->columns[i].column != NULL; i++)
    columns[i + 1] = map->columns[i].column;
  rows = cro_store_read (store, map->table, columns, error);
  if (rows == NULL)
    return FALSE;
  while (!dump.is_damaged && cro_rows_next (rows, &failed))
    take_row (&dump, rows);
  if (dump.is_damaged)
    return cro_rows_is_damaged (rows, 0, error);
  if (failed != NULL)
    {
      g_propagate_error (error, failed);
      return FALSE;
    }
  return hand_on (taker, map->id, dump.table, fields, error);
}

/* A value of book.csv is text, whatever its key makes of it. */
static void
append_setting (GArray       *fields,
                CroBookKey    key,
                CroRows      *rows,
                GStringChunk *text)
{
  const CroColumn *column = cro_book_key_get (key);
  CroField row[CRO_N_BOOK] = { { 0 } };
  char decimal[CRO_DECIMAL_CHARS];
  const char *value = decimal;

  if (cro_rows_is_text (rows, (int) key))
    value = cro_rows_get_text (rows, (int) key);
  else if (column->kind == CRO_FIELD_CHOICE)
    value = column->choices[cro_rows_get_int (rows, (int) key) != 0 ? 0 : 1];
  else
    cro_decimal_format (cro_rows_get_int (rows, (int) key), decimal);
  set_text (&row[CRO_BOOK_KEY], column->name);
  set_text (&row[CRO_BOOK_VALUE], g_string_chunk_insert (text, value));
  g_array_append_vals (fields, row, CRO_N_BOOK);
}

static gboolean
dump_book (CroStore     *store,
           const Taker  *taker,
           GError      **error)
{
  g_autoptr (GArray) fields = g_array_new (FALSE, TRUE, sizeof (CroField));
  g_autoptr (CroRows) rows = NULL;
  g_autoptr (GStringChunk) text = g_string_chunk_new (256);
  GError *failed = NULL;

  rows = cro_store_read_one (store, "book", 1, cro_book_columns, error);
  if (rows == NULL)
    return FALSE;
  if (cro_rows_next (rows, &failed))
    for (guint key = 0; key < CRO_N_BOOK_KEYS; key++)
      if (!cro_rows_is_null (rows, (int) key))
        append_setting (fields, (CroBookKey) key, rows, text);
  if (failed != NULL)
    {
      g_propagate_error (error, failed);
      return FALSE;
    }
  return hand_on (taker, CRO_TABLE_BOOK, cro_table_get (CRO_TABLE_BOOK), fields, error);
}

gboolean
cro_dump_each (CroStore      *store,
               CroDumpTable   table,
               gpointer       user_data,
               GError       **error)
{
  const Taker taker = { table, user_data };
  Names names = { 0 };
  gboolean done = read_all_names (&names, store, error) && dump_book (store, &taker, error);

  for (const CroSheetMap *map = cro_sheet_maps; done && map->table != NULL; map++)
    done = dump_table (&names, store, map, &taker, error);
  names_clear (&names);
  return done;
}

/* --- Files ------------------------------------------------------------------------------------------------ */

/* Where tables are written, and who asks whether to go on. */
typedef struct
{
  const char *folder;
  CroLoadGoOn go_on;
  gpointer    user_data;
} Target;

static gboolean
goes_on (const Target  *target,
         CroTableId     id,
         GError       **error)
{
  if (target->go_on == NULL || target->go_on (target->user_data, (double) id / CRO_N_TABLES))
    return TRUE;
  g_set_error_literal (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_CANCELLED, "cancelled");
  return FALSE;
}

static gboolean
write_table (CroTableId       id,
             const CroField  *fields,
             guint            n,
             gpointer         user_data,
             GError         **error)
{
  const Target *target = user_data;
  g_autoptr (CroTableWriter) writer = NULL;

  if (!goes_on (target, id, error))
    return FALSE;
  writer = cro_table_writer_new (target->folder, id, error);
  if (writer == NULL)
    return FALSE;
  for (guint i = 0; i < n; i++)
    if (!cro_table_writer_row (writer, fields + (gsize) i * cro_table_get (id)->n_columns, error))
      return FALSE;
  return cro_table_writer_finish (writer, error);
}

gboolean
cro_dump (CroStore     *store,
          const char   *folder,
          CroLoadGoOn   go_on,
          gpointer      user_data,
          GError      **error)
{
  Target target = { NULL, go_on, user_data };
  g_autoptr (CroDumpFolder) into = NULL;
  gboolean done;

  if (!cro_store_begin_read (store, error))
    return FALSE;
  into = cro_dump_folder_new (folder, error);
  done = into != NULL;
  if (done)
    {
      target.folder = cro_dump_folder_get_path (into);
      done = cro_dump_each (store, write_table, &target, error);
    }
  cro_store_end_read (store);
  return done && goes_on (&target, CRO_N_TABLES, error) && cro_dump_folder_finish (into, error);
}
