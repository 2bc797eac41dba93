#include "cro-salvage.h"

#include <string.h>

#include "cro-date.h"
#include "cro-decimal.h"
#include "cro-dump-folder.h"
#include "cro-remains.h"
#include "cro-sheet-pictures.h"
#include "cro-sheets.h"
#include "cro-stored-row.h"
#include "cro-unit.h"

typedef struct
{
  CroRemains        *remains;
  CroStoredNames    *names;
  CroSalvage        *salvage;
  CroTableId         id;       /* the table at hand */
  const CroSheetMap *map;      /* NULL: the book's settings, or a base */
  guint              base;
  CroDumpFolder     *folder;
  GArray            *fields;   /* CroField */
  GHashTable        *taken;    /* the keys of the rows that are kept, each with its space */
} Salvaging;

static void
left_out_free (gpointer data)
{
  CroLeftOut *self = data;

  g_free (self->name);
  g_free (self);
}

static void
leave_out (Salvaging       *self,
           CroLeftOutKind   kind,
           const CroColumn *column,
           gint64           row,
           gint64           last,
           char            *name)
{
  CroLeftOut *left = g_new (CroLeftOut, 1);

  *left = (CroLeftOut){ kind, self->id, column, row, last, name };
  g_ptr_array_add (self->salvage->left_out, left);
}

/* --- What a row is called ----------------------------------------------------------------------- */

static void
append_field (GString         *name,
              const CroColumn *column,
              const CroField  *field)
{
  char text[MAX (CRO_DECIMAL_CHARS, CRO_DATE_CHARS)];

  if (cro_field_is_text (column->kind))
    {
      g_string_append (name, field->text);
      return;
    }
  if (column->kind == CRO_FIELD_CHOICE || column->kind == CRO_FIELD_UNIT)
    {
      g_string_append (name, column->kind == CRO_FIELD_UNIT
                                 ? cro_unit_get ((CroUnit) field->number)->code
                                 : column->choices[field->number]);
      return;
    }
  if (column->kind == CRO_FIELD_DECIMAL)
    cro_decimal_format (field->number, text);
  else
    cro_date_format ((CroDate) field->number, text);
  if (column->kind == CRO_FIELD_MONTH)
    text[strlen ("YYYY-MM")] = '\0';
  g_string_append (name, text);
}

/* The fields of its key that are known; of a table without one those that are needed. NULL: none. */
static char *
dup_name (const CroTable *table,
          const CroField *fields)
{
  g_autoptr (GString) name = g_string_new (NULL);
  gboolean has_key = FALSE;

  for (guint i = 0; i < table->n_columns; i++)
    has_key |= table->columns[i].key;
  for (guint i = 0; i < table->n_columns; i++)
    if (fields[i].is_set && (has_key ? table->columns[i].key : table->columns[i].required))
      {
        if (name->len > 0)
          g_string_append (name, ", ");
        append_field (name, &table->columns[i], &fields[i]);
      }
  return name->len > 0 ? g_strdup (name->str) : NULL;
}

/* --- Rows --------------------------------------------------------------------------------------- */

/* What tells a row from all others, within what shares a space of names; owned. */
static char *
dup_key (Salvaging      *self,
         const CroTable *table,
         const CroField *fields)
{
  const char *space = self->map->base != NULL ? self->map->base : self->map->table;
  g_autoptr (GString) key = g_string_new (space);

  for (guint i = 0; i < table->n_columns; i++)
    if (table->columns[i].key)
      {
        g_string_append_c (key, '\n');
        if (fields[i].is_set)
          append_field (key, &table->columns[i], &fields[i]);
      }
  return g_string_free (g_steal_pointer (&key), FALSE);
}

static gboolean
is_taken (Salvaging      *self,
          const CroTable *table,
          const CroField *fields)
{
  return self->map->is_unique && !g_hash_table_add (self->taken, dup_key (self, table, fields));
}

/* The columns of the table that could not be read as values of any kind. */
static guint32
unreadable_columns (const CroSheetMap *map,
                    guint32            unreadable)
{
  guint32 bits = 0;

  for (guint i = 0; map->columns[i].column != NULL; i++)
    if (unreadable & 1u << i)
      bits |= 1u << cro_stored_told_column (map, &map->columns[i]);
  return bits;
}

/* A price that is not set says that a pack is not to be had, and a pack that is not, another price. */
static gboolean
is_needed (CroTableId       id,
           const CroColumn *column)
{
  return column->required || column->key || id == CRO_TABLE_PRICES || id == CRO_TABLE_PRICE_ANSWERS
         || id == CRO_TABLE_RATES || id == CRO_TABLE_SELLING_PRICES;
}

/* FALSE: a faulty column is one that the row cannot be without. */
static gboolean
can_do_without (Salvaging      *self,
                const CroTable *table,
                const CroField *fields,
                gint64          id,
                guint32         faulty,
                guint32         strangers)
{
  for (guint i = 0; i < table->n_columns; i++)
    if (faulty & 1u << i && is_needed (self->id, &table->columns[i]))
      {
        leave_out (self, strangers & 1u << i ? CRO_LEFT_OUT_STRANGER : CRO_LEFT_OUT_ROW,
                   &table->columns[i], id, id, dup_name (table, fields));
        return FALSE;
      }
  for (guint i = 0; i < table->n_columns; i++)
    if (faulty & 1u << i)
      leave_out (self, CRO_LEFT_OUT_VALUE, &table->columns[i], id, id, dup_name (table, fields));
  return TRUE;
}

/* The picture of a row, if it has one that can be read; else it goes on without. */
static gboolean
take_picture (Salvaging  *self,
              CroField   *fields,
              guint32    *faulty,
              GError    **error)
{
  int column = cro_sheet_picture_column (self->id);
  g_autoptr (GBytes) data = NULL;

  if (column < 0 || !fields[column].is_set)
    return TRUE;
  data = cro_remains_read_picture (self->remains, fields[column].text);
  if (data != NULL)
    return cro_dump_folder_picture (self->folder, fields[column].text, data, error);
  fields[column] = (CroField){ 0 };
  *faulty |= 1u << column;
  return TRUE;
}

static gboolean
take_row (gint64          id,
          const CroCell  *cells,
          guint32         unreadable,
          gpointer        user_data,
          GError        **error)
{
  Salvaging *self = user_data;
  const CroTable *table = cro_table_get (self->id);
  CroField fields[CRO_MAX_COLUMNS];
  guint32 strangers;
  guint32 faulty = cro_stored_row_fill (self->names, self->map, id, cells, fields, &strangers)
                   | unreadable_columns (self->map, unreadable);

  if (!take_picture (self, fields, &faulty, error))
    return FALSE;
  if (!can_do_without (self, table, fields, id, faulty, strangers))
    return TRUE;
  if (is_taken (self, table, fields))
    {
      leave_out (self, CRO_LEFT_OUT_TWICE, NULL, id, id, dup_name (table, fields));
      return TRUE;
    }
  if (!cro_stored_row_stands (self->names, self->map, fields))
    {
      leave_out (self, CRO_LEFT_OUT_STRANGER, &table->columns[CRO_TILL_NAMES_SOLD_AS], id, id,
                 dup_name (table, fields));
      return TRUE;
    }
  cro_stored_row_meet (self->names, self->map, id, fields);
  g_array_append_vals (self->fields, fields, table->n_columns);
  return TRUE;
}

/* An older book lacks the tables that came later. */
static void
pass_over (gint64   first,
           gint64   last,
           gpointer user_data)
{
  Salvaging *self = user_data;

  if (first != G_MININT64)
    leave_out (self, CRO_LEFT_OUT_GAP, NULL, first, last, NULL);
  else if (cro_remains_is_newest (self->remains))
    leave_out (self, CRO_LEFT_OUT_TABLE, NULL, first, last, NULL);
}

/* --- Tables ------------------------------------------------------------------------------------- */

static gboolean
write_rows (Salvaging      *self,
            CroDumpFolder  *folder,
            GError        **error)
{
  const CroTable *table = cro_table_get (self->id);
  CroField *rows = (CroField *) (gpointer) self->fields->data;
  guint n = self->fields->len / table->n_columns;

  cro_stored_rows_sort (table, rows, n);
  self->salvage->n_rows[self->id] = n;
  return cro_dump_folder_write (folder, self->id, rows, n, error);
}

static gboolean
salvage_table (Salvaging          *self,
               const CroSheetMap  *map,
               CroDumpFolder      *folder,
               GError            **error)
{
  const char *columns[CRO_MAP_MOST + 1];

  self->map = map;
  self->id = map->id;
  g_array_set_size (self->fields, 0);
  cro_stored_columns (map, columns);
  return cro_remains_read (self->remains, map->table, columns, take_row, pass_over, self, error)
         && write_rows (self, folder, error);
}

static gboolean
take_setting (gint64          id,
              const CroCell  *cells,
              guint32         unreadable,
              gpointer        user_data,
              GError        **error)
{
  Salvaging *self = user_data;
  CroField row[CRO_N_BOOK];

  for (guint key = 0; id == 1 && key < CRO_N_BOOK_KEYS; key++)
    if (unreadable & 1u << key
        || !cro_stored_setting (self->names, (CroBookKey) key, &cells[key], row))
      leave_out (self, CRO_LEFT_OUT_VALUE, cro_book_key_get ((CroBookKey) key), id, id, NULL);
    else if (row[CRO_BOOK_VALUE].is_set)
      g_array_append_vals (self->fields, row, CRO_N_BOOK);
  return TRUE;
}

static gboolean
salvage_book (Salvaging      *self,
              CroDumpFolder  *folder,
              GError        **error)
{
  self->id = CRO_TABLE_BOOK;
  return cro_remains_read (self->remains, "book", cro_book_columns, take_setting, pass_over, self,
                           error)
         && write_rows (self, folder, error);
}

static gboolean
take_base (gint64          id,
           const CroCell  *cells,
           guint32         unreadable,
           gpointer        user_data,
           GError        **error)
{
  Salvaging *self = user_data;

  if (cells[0].kind == CRO_CELL_TEXT)
    cro_stored_names_lend (self->names, self->base, id, cells[0].text);
  return TRUE;
}

/* The rows that miss their names are told of by themselves. */
static void
pass_over_base (gint64   first,
                gint64   last,
                gpointer user_data)
{
}

static gboolean
read_bases (Salvaging  *self,
            GError    **error)
{
  static const char *const columns[] = { "name", NULL };
  gboolean done = TRUE;

  for (self->base = 0; done && cro_stored_bases[self->base] != NULL; self->base++)
    done = cro_remains_read (self->remains, cro_stored_bases[self->base], columns, take_base,
                             pass_over_base, self, error);
  return done;
}

/* An empty book is whole; of one that was not, something must have come. */
static gboolean
has_rows (Salvaging  *self,
          GError    **error)
{
  guint n = 0;

  for (guint i = 0; i < CRO_N_TABLES; i++)
    n += self->salvage->n_rows[i];
  if (n > 0 || self->salvage->left_out->len == 0)
    return TRUE;
  g_set_error_literal (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED, "no row can be read");
  return FALSE;
}

static gboolean
salvage_all (Salvaging      *self,
             CroDumpFolder  *folder,
             GError        **error)
{
  gboolean done = read_bases (self, error) && salvage_book (self, folder, error);

  for (const CroSheetMap *map = cro_sheet_maps; done && map->table != NULL; map++)
    done = salvage_table (self, map, folder, error);
  return done && has_rows (self, error) && cro_dump_folder_finish (folder, error);
}

typedef struct
{
  CroLoadGoOn go_on;
  gpointer    user_data;
} Reading;

static gboolean
reads_on (gpointer user_data,
          double   done)
{
  const Reading *reading = user_data;

  return reading->go_on (reading->user_data, 1);
}

/* As whoever loads it will read it. FALSE: cancelled, or it cannot be read at all. */
static gboolean
read_back (CroSalvage   *salvage,
           const char   *folder,
           CroLoadGoOn   go_on,
           gpointer      user_data,
           GError      **error)
{
  Reading reading = { go_on, user_data };
  GError *failed = NULL;
  g_autoptr (CroSheets) sheets = cro_sheets_read (folder, go_on != NULL ? reads_on : NULL, &reading,
                                                  salvage->faults, &failed);

  if (sheets != NULL)
    return TRUE;
  if (failed == NULL)
    g_set_error_literal (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_CANCELLED, "cancelled");
  else
    g_propagate_error (error, failed);
  return FALSE;
}

CroSalvage *
cro_salvage (const char   *path,
             const char   *folder,
             CroLoadGoOn   go_on,
             gpointer      user_data,
             GError      **error)
{
  g_autoptr (CroRemains) remains = cro_remains_open (path, error);
  g_autoptr (CroDumpFolder) into = NULL;
  g_autoptr (CroSalvage) salvage = NULL;
  Salvaging self = { .remains = remains };
  gboolean done;

  if (remains == NULL)
    return NULL;
  into = cro_dump_folder_new (folder, CRO_DUMP_FOLDER_EMPTY, go_on, user_data, error);
  if (into == NULL)
    return NULL;
  self.folder = into;
  salvage = self.salvage = g_new0 (CroSalvage, 1);
  salvage->left_out = g_ptr_array_new_with_free_func (left_out_free);
  salvage->faults = cro_faults_new ();
  self.names = cro_stored_names_new ();
  self.fields = g_array_new (FALSE, TRUE, sizeof (CroField));
  self.taken = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  done = salvage_all (&self, into, error);
  cro_stored_names_free (self.names);
  g_array_unref (self.fields);
  g_hash_table_unref (self.taken);
  return done && read_back (salvage, folder, go_on, user_data, error) ? g_steal_pointer (&salvage)
                                                                      : NULL;
}

void
cro_salvage_free (CroSalvage *self)
{
  cro_faults_free (self->faults);
  g_ptr_array_unref (self->left_out);
  g_free (self);
}
