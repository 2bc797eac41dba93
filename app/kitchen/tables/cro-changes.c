#include "cro-changes.h"

#include <string.h>

#include "cro-allergen.h"
#include "cro-decimal.h"
#include "cro-history.h"
#include "cro-sheet-map.h"

/* Rows that are remembered: those that one names, and those that many name. */
#define MOST_ROWS 4096

typedef struct
{
  CroStore   *store;
  gint64      before;    /* the last change before the act */
  gint64      after;     /* the last change of the act */
  GPtrArray  *changes;
  GHashTable *rows;      /* "table row change" → that row then, as the store gives it */
} Reader;

/* A row that an act touched, as it stood before and after it. map NULL: the settings. */
typedef struct
{
  const CroSheetMap *map;
  gint64             row;
  gboolean           stood;
  gboolean           stands;
} Touched;

static void
change_free (gpointer data)
{
  CroTableChange *change = data;

  g_free (change->key);
  g_free (change->from);
  g_free (change->to);
  g_free (change);
}

/* NULL where it cannot be read. Borrowed until the next is asked for. */
static GHashTable *
row_at (Reader     *self,
        const char *table,
        gint64      row,
        gint64      at)
{
  g_autofree char *name = g_strdup_printf ("%s %" G_GINT64_FORMAT " %" G_GINT64_FORMAT, table, row, at);
  GHashTable *values = g_hash_table_lookup (self->rows, name);

  if (values != NULL)
    return values;
  values = cro_store_read_row_at (self->store, table, row, at, NULL);
  if (values == NULL)
    return NULL;
  if (g_hash_table_size (self->rows) == MOST_ROWS)
    g_hash_table_remove_all (self->rows);
  g_hash_table_insert (self->rows, g_steal_pointer (&name), values);
  return values;
}

static char *
value_at (Reader     *self,
          const char *table,
          gint64      row,
          const char *column,
          gint64      at)
{
  GHashTable *values = row_at (self, table, row, at);

  return values != NULL ? g_strdup (g_hash_table_lookup (values, column)) : NULL;
}

static gint64
id_at (Reader     *self,
       const char *table,
       gint64      row,
       const char *column,
       gint64      at)
{
  g_autofree char *text = value_at (self, table, row, column, at);

  return text != NULL ? g_ascii_strtoll (text, NULL, 10) : 0;
}

/* --- Values ----------------------------------------------------------------------------------- */

/* What an id names: the table and the column that hold its name. */
static char *
name_at (Reader      *self,
         CroReferent  what,
         gint64       id,
         gint64       at)
{
  switch (what)
    {
    case CRO_REFERENT_INGREDIENT:
    case CRO_REFERENT_OUTPUT:
    case CRO_REFERENT_ITEM:
      return value_at (self, "item", id, "name", at);
    case CRO_REFERENT_SUPPLIER:
      return value_at (self, "supplier", id, "name", at);
    case CRO_REFERENT_PREPARATION:
      return value_at (self, "preparation", id, "name", at);
    case CRO_REFERENT_TEST:
      return value_at (self, "yield_test", id, "test", at);
    case CRO_REFERENT_MONTH:
      return value_at (self, "month", id, "month", at);
    default:
      return value_at (self, "thing", id, "name", at);
    }
}

/* A value of the store as its column writes it; takes over text. */
static char *
column_text (const CroColumn *column,
             char            *text)
{
  g_autofree char *value = text;
  char decimal[CRO_DECIMAL_CHARS];
  char allergens[CRO_ALLERGENS_CHARS];

  if (value == NULL || *value == '\0')
    return NULL;
  switch (column->kind)
    {
    case CRO_FIELD_DECIMAL:
      cro_decimal_format (g_ascii_strtoll (value, NULL, 10), decimal);
      return g_strdup (decimal);
    case CRO_FIELD_ALLERGENS:
      cro_allergens_format ((uint32_t) g_ascii_strtoll (value, NULL, 10), allergens);
      return g_strdup (allergens);
    case CRO_FIELD_CHOICE:
      /* What says yes or no is kept as 1 or 0. */
      if (strcmp (column->choices[0], "yes") == 0)
        return g_strdup (column->choices[*value == '0']);
      break;
    default:
      break;
    }
  return g_steal_pointer (&value);
}

/* Takes over text. */
static char *
mapped_text (Reader             *self,
             const CroSheetMap  *map,
             const CroMapColumn *mapped,
             char               *text,
             gint64              at)
{
  CroReferent what = cro_sheet_referent (map->id, mapped->from);
  gint64 id;

  if (text == NULL)
    return NULL;
  if (what <= CRO_REFERENT_ITSELF || mapped->kind == CRO_MAP_OTHER)
    return column_text (&cro_table_get (map->id)->columns[mapped->from], text);
  id = g_ascii_strtoll (text, NULL, 10);
  g_free (text);
  if (what == CRO_REFERENT_RECIPE)
    what = mapped->kind == CRO_MAP_PLATE ? CRO_REFERENT_PLATE : CRO_REFERENT_PREPARATION;
  return name_at (self, what, id, at);
}

/* The kind that stands before a name which can be of several: it follows from which is set. */
static char *
kind_at (Reader            *self,
         const CroSheetMap *map,
         gint64             row,
         gint64             at)
{
  gint64 id;

  if (map->id == CRO_TABLE_LINES)
    return g_strdup (id_at (self, map->table, row, "plate", at) != 0 ? "plate" : "preparation");
  id = id_at (self, map->table, row, "thing", at);
  if (id == 0)
    return g_strdup ("other");
  return g_strdup (id_at (self, "plate", id, "makes_micro", at) != 0 ? "plate" : "menu");
}

static gboolean
is_kind (const CroSheetMap *map,
         guint              column)
{
  return (map->id == CRO_TABLE_LINES && column == CRO_LINES_INTO)
         || (map->id == CRO_TABLE_SALES && column == CRO_SALES_KIND);
}

/* The first three columns of a price are those of its offer. */
static char *
offer_text_at (Reader            *self,
               const CroSheetMap *map,
               gint64             row,
               guint              column,
               gint64             at)
{
  gint64 offer = id_at (self, map->table, row, "offer", at);

  if (column == CRO_PRICES_INGREDIENT)
    return name_at (self, CRO_REFERENT_INGREDIENT, id_at (self, "offer", offer, "ingredient", at), at);
  if (column == CRO_PRICES_SUPPLIER)
    return name_at (self, CRO_REFERENT_SUPPLIER, id_at (self, "offer", offer, "supplier", at), at);
  return value_at (self, "offer", offer, "code", at);
}

static gboolean
is_of_offer (const CroSheetMap *map,
             guint              column)
{
  return cro_table_is_of_offers (map->id) && column <= CRO_PRICES_CODE;
}

/* One column of a table's row, as it stood after a change. NULL: not set. */
static char *
text_at (Reader            *self,
         const CroSheetMap *map,
         gint64             row,
         guint              column,
         gint64             at)
{
  if (map->base != NULL && column == 0)
    return value_at (self, map->base, row, "name", at);
  if (is_kind (map, column))
    return kind_at (self, map, row, at);
  if (is_of_offer (map, column))
    return offer_text_at (self, map, row, column, at);
  for (const CroMapColumn *mapped = map->columns; mapped->column != NULL; mapped++)
    if (mapped->from == column)
      {
        char *text = value_at (self, map->table, row, mapped->column, at);

        if (text != NULL)
          return mapped_text (self, map, mapped, text, at);
      }
  return NULL;
}

/* --- Keys --------------------------------------------------------------------------------------- */

static gboolean
is_of_key (const CroSheetMap *map,
           const CroColumn   *column)
{
  return map->is_unique ? column->key
                        : column->kind == CRO_FIELD_DATE || column->kind == CRO_FIELD_CHOICE
                              || column->kind == CRO_FIELD_NAME;
}

static void
append_csv (GString    *row,
            const char *text)
{
  g_auto (GStrv) halves = NULL;
  g_autofree char *doubled = NULL;

  if (text[strcspn (text, ",\"\r\n")] == '\0')
    {
      g_string_append (row, text);
      return;
    }
  halves = g_strsplit (text, "\"", -1);
  doubled = g_strjoinv ("\"\"", halves);
  g_string_append_printf (row, "\"%s\"", doubled);
}

static char *
key_at (Reader            *self,
        const CroSheetMap *map,
        gint64             row,
        gint64             at)
{
  const CroTable *table = cro_table_get (map->id);
  g_autoptr (GString) key = g_string_new (NULL);
  g_autofree char *only = NULL;
  guint n = 0;

  for (guint i = 0; i < table->n_columns; i++)
    if (is_of_key (map, &table->columns[i]))
      {
        g_autofree char *text = text_at (self, map, row, i, at);

        if (n++ > 0)
          g_string_append_c (key, ',');
        append_csv (key, text != NULL ? text : "");
        g_free (only);
        only = g_steal_pointer (&text);
      }
  return n == 1 ? g_strdup (only != NULL ? only : "") : g_string_free (g_steal_pointer (&key), FALSE);
}

/* --- Rows --------------------------------------------------------------------------------------- */

/* What a change of the store is a change of. A name is lent to one of two tables, and the first of
 * them always has its second column set. */
static const CroSheetMap *
map_of (Reader          *self,
        const CroChange *change)
{
  const CroSheetMap *last = NULL;

  for (const CroSheetMap *map = cro_sheet_maps; map->table != NULL; map++)
    {
      g_autofree char *borrowed = NULL;

      if (strcmp (map->table, change->table) == 0)
        return map;
      if (g_strcmp0 (map->base, change->table) != 0)
        continue;
      last = map;
      borrowed = value_at (self, map->table, change->row, map->columns[1].column, self->after);
      if (borrowed != NULL)
        return map;
    }
  return last;
}

static Touched *
touched_of (GPtrArray         *all,
            GHashTable        *known,
            const CroSheetMap *map,
            gint64             row)
{
  g_autofree char *name = g_strdup_printf ("%d:%" G_GINT64_FORMAT, map != NULL ? (int) map->id : -1,
                                           row);
  Touched *touched = g_hash_table_lookup (known, name);

  if (touched != NULL)
    return touched;
  touched = g_new (Touched, 1);
  *touched = (Touched){ map, row, TRUE, TRUE };
  g_hash_table_insert (known, g_steal_pointer (&name), touched);
  g_ptr_array_add (all, touched);
  return touched;
}

/* The rows that an act touched, in the order in which it did. */
static GPtrArray *
touched_rows (Reader    *self,
              GPtrArray *changes)
{
  GPtrArray *all = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GHashTable) known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GHashTable) met = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < changes->len; i++)
    {
      const CroChange *change = changes->pdata[i];
      gboolean is_book = strcmp (change->table, "book") == 0;
      const CroSheetMap *map = is_book ? NULL : map_of (self, change);
      Touched *touched;

      if (map == NULL && !is_book)
        continue;
      touched = touched_of (all, known, map, change->row);
      if (map != NULL && strcmp (map->table, change->table) != 0)
        continue;
      if (g_hash_table_add (met, touched))
        touched->stood = change->before != NULL;
      touched->stands = change->after != NULL;
    }
  return all;
}

static CroChangeKind
kind_of (gboolean stood,
         gboolean stands)
{
  return !stood ? CRO_CHANGE_ADDED : !stands ? CRO_CHANGE_REMOVED : CRO_CHANGE_MOVED;
}

/* Takes over from and to, unless they are equal. */
static void
add (Reader         *self,
     CroTableChange  change)
{
  if (change.from != NULL && *change.from == '\0')
    g_clear_pointer (&change.from, g_free);
  if (change.to != NULL && *change.to == '\0')
    g_clear_pointer (&change.to, g_free);
  if (g_strcmp0 (change.from, change.to) != 0)
    {
      g_ptr_array_add (self->changes, g_memdup2 (&change, sizeof change));
      return;
    }
  g_free (change.key);
  g_free (change.from);
  g_free (change.to);
}

static void
add_row (Reader        *self,
         const Touched *touched)
{
  const CroTable *table = cro_table_get (touched->map->id);
  g_autofree char *key = key_at (self, touched->map, touched->row,
                                 touched->stands ? self->after : self->before);

  for (guint i = 0; i < table->n_columns; i++)
    add (self, (CroTableChange){
                   kind_of (touched->stood, touched->stands), touched->row, table->name,
                   g_strdup (key), table->columns[i].name,
                   touched->stood ? text_at (self, touched->map, touched->row, i, self->before) : NULL,
                   touched->stands ? text_at (self, touched->map, touched->row, i, self->after)
                                   : NULL });
}

/* The settings of a book are rows of their own in its table. */
static void
add_settings (Reader        *self,
              const Touched *touched)
{
  for (int key = 0; key < CRO_N_BOOK_KEYS; key++)
    {
      const CroColumn *column = cro_book_key_get ((CroBookKey) key);
      const char *name = cro_book_columns[key];
      char *from = touched->stood
                       ? column_text (column, value_at (self, "book", touched->row, name, self->before))
                       : NULL;
      char *to = touched->stands
                     ? column_text (column, value_at (self, "book", touched->row, name, self->after))
                     : NULL;

      add (self, (CroTableChange){ kind_of (from != NULL, to != NULL), key,
                                   cro_table_get (CRO_TABLE_BOOK)->name, g_strdup (column->name),
                                   "value", from, to });
    }
}

GPtrArray *
cro_changes_of_act (CroStore  *store,
                    gint64     act,
                    GError   **error)
{
  g_autoptr (GPtrArray) changes = cro_store_list_changes_of_act (store, act, error);
  g_autoptr (GPtrArray) rows = NULL;
  Reader self = { .store = store };

  if (changes == NULL)
    return NULL;
  self.changes = g_ptr_array_new_with_free_func (change_free);
  if (changes->len == 0)
    return self.changes;
  self.before = ((CroChange *) changes->pdata[0])->id - 1;
  self.after = ((CroChange *) changes->pdata[changes->len - 1])->id;
  self.rows = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_hash_table_unref);
  rows = touched_rows (&self, changes);
  for (guint i = 0; i < rows->len; i++)
    if (((Touched *) rows->pdata[i])->map == NULL)
      add_settings (&self, rows->pdata[i]);
    else
      add_row (&self, rows->pdata[i]);
  g_hash_table_unref (self.rows);
  return self.changes;
}
