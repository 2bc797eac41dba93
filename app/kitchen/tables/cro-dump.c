#include "cro-dump.h"

#include "cro-dump-folder.h"
#include "cro-sheet-pictures.h"
#include "cro-stored-row.h"

/* --- Tables ----------------------------------------------------------------------------------------------- */

/* Who gets the rows of each table. */
typedef struct
{
  CroDumpTable take;
  gpointer     user_data;
} Taker;

static gboolean
hand_on (const Taker  *taker,
         CroTableId    id,
         GArray       *fields,
         GError      **error)
{
  const CroTable *table = cro_table_get (id);
  guint n = fields->len / table->n_columns;

  cro_stored_rows_sort (table, (CroField *) (gpointer) fields->data, n);
  return taker->take (id, (const CroField *) (gconstpointer) fields->data, n, taker->user_data, error);
}

static gboolean
take_row (CroStoredNames     *names,
          const CroSheetMap  *map,
          CroRows            *rows,
          guint               n,
          GArray             *fields,
          GError            **error)
{
  guint width = cro_table_get (map->id)->n_columns;
  gint64 id = cro_rows_get_int (rows, 0);
  CroCell cells[CRO_MAP_MOST];
  CroField *row;

  cro_rows_get_cells (rows, 1, (int) n, cells);
  g_array_set_size (fields, fields->len + width);
  row = &g_array_index (fields, CroField, fields->len - width);
  if (cro_stored_row_fill (names, map, id, cells, row, NULL) != 0)
    return cro_rows_is_damaged (rows, 0, error);
  if (cro_stored_row_stands (names, map, row))
    cro_stored_row_meet (names, map, id, row);
  else
    g_array_set_size (fields, fields->len - width);
  return TRUE;
}

static gboolean
dump_table (CroStoredNames     *names,
            CroStore           *store,
            const CroSheetMap  *map,
            const Taker        *taker,
            GError            **error)
{
  g_autoptr (GArray) fields = g_array_new (FALSE, FALSE, sizeof (CroField));
  const char *columns[CRO_MAP_MOST + 2] = { "id" };
  g_autoptr (CroRows) rows = NULL;
  GError *failed = NULL;

  cro_stored_columns (map, columns + 1);
  rows = cro_store_read (store, map->table, columns, error);
  if (rows == NULL)
    return FALSE;
  while (cro_rows_next (rows, &failed))
    if (!take_row (names, map, rows, g_strv_length ((char **) columns) - 1, fields, error))
      return FALSE;
  if (failed != NULL)
    {
      g_propagate_error (error, failed);
      return FALSE;
    }
  return hand_on (taker, map->id, fields, error);
}

static gboolean
dump_book (CroStoredNames  *names,
           CroStore        *store,
           const Taker     *taker,
           GError         **error)
{
  g_autoptr (GArray) fields = g_array_new (FALSE, TRUE, sizeof (CroField));
  g_autoptr (CroRows) rows = cro_store_read_one (store, "book", 1, cro_book_columns, error);
  CroCell cells[CRO_N_BOOK_KEYS];
  CroField row[CRO_N_BOOK];
  GError *failed = NULL;

  if (rows == NULL)
    return FALSE;
  if (cro_rows_next (rows, &failed))
    {
      cro_rows_get_cells (rows, 0, CRO_N_BOOK_KEYS, cells);
      for (guint key = 0; key < CRO_N_BOOK_KEYS; key++)
        if (!cro_stored_setting (names, (CroBookKey) key, &cells[key], row))
          return cro_rows_is_damaged (rows, (int) key, error);
        else if (row[CRO_BOOK_VALUE].is_set)
          g_array_append_vals (fields, row, CRO_N_BOOK);
    }
  if (failed != NULL)
    {
      g_propagate_error (error, failed);
      return FALSE;
    }
  return hand_on (taker, CRO_TABLE_BOOK, fields, error);
}

static gboolean
read_base (CroStoredNames  *names,
           CroStore        *store,
           guint            base,
           GError         **error)
{
  static const char *const columns[] = { "id", "name", NULL };
  g_autoptr (CroRows) rows = cro_store_read (store, cro_stored_bases[base], columns, error);
  GError *failed = NULL;

  if (rows == NULL)
    return FALSE;
  while (cro_rows_next (rows, &failed))
    cro_stored_names_lend (names, base, cro_rows_get_int (rows, 0), cro_rows_get_text (rows, 1));
  if (failed == NULL)
    return TRUE;
  g_propagate_error (error, failed);
  return FALSE;
}

gboolean
cro_dump_each (CroStore      *store,
               CroDumpTable   table,
               gpointer       user_data,
               GError       **error)
{
  const Taker taker = { table, user_data };
  g_autoptr (CroStoredNames) names = cro_stored_names_new ();
  gboolean done = TRUE;

  for (guint base = 0; done && cro_stored_bases[base] != NULL; base++)
    done = read_base (names, store, base, error);
  done = done && dump_book (names, store, &taker, error);
  for (const CroSheetMap *map = cro_sheet_maps; done && map->table != NULL; map++)
    done = dump_table (names, store, map, &taker, error);
  return done;
}

/* --- Files ------------------------------------------------------------------------------------------------ */

typedef struct
{
  CroStore      *store;
  CroDumpFolder *into;
} Dump;

/* A name that the book does not keep a picture under is no name of a file: reading it says so. */
static gboolean
write_pictures (Dump            *self,
                CroTableId       id,
                const CroField  *fields,
                guint            n,
                GError         **error)
{
  int column = cro_sheet_picture_column (id);

  for (guint row = 0; column >= 0 && row < n; row++)
    {
      const CroField *field = &fields[row * cro_table_get (id)->n_columns + (guint) column];
      g_autoptr (GBytes) data = NULL;

      if (!field->is_set)
        continue;
      data = cro_store_read_picture (self->store, field->text, error);
      if (data == NULL || !cro_dump_folder_picture (self->into, field->text, data, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
write_table (CroTableId       id,
             const CroField  *fields,
             guint            n,
             gpointer         user_data,
             GError         **error)
{
  Dump *self = user_data;

  return cro_dump_folder_write (self->into, id, fields, n, error)
         && write_pictures (self, id, fields, n, error);
}

gboolean
cro_dump (CroStore     *store,
          const char   *folder,
          CroLoadGoOn   go_on,
          gpointer      user_data,
          GError      **error)
{
  g_autoptr (CroDumpFolder) into = NULL;
  Dump dump = { store, NULL };
  gboolean done;

  if (!cro_store_begin_read (store, error))
    return FALSE;
  into = cro_dump_folder_new (folder, CRO_DUMP_FOLDER_OF_TABLES, go_on, user_data, error);
  dump.into = into;
  done = into != NULL && cro_dump_each (store, write_table, &dump, error);
  cro_store_end_read (store);
  return done && cro_dump_folder_finish (into, error);
}
