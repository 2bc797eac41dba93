#include "cro-sheets-private.h"

#include "cro-underlay.h"

#include <string.h>
#include <unistd.h>

#include "cro-plain-file.h"
#include "cro-sheet-pictures.h"

/* Rows between two questions whether to go on. */
#define GO_ON_ROWS 4096

/* --- Faults ----------------------------------------------------------------------------------- */

void
cro_sheet_fault_in (CroSheetReader *reader,
                    CroTableId      id,
                    guint32         line,
                    int             column,
                    CroFaultKind    kind,
                    const char     *value,
                    const char     *detail)
{
  const CroTable *table = cro_table_get (id);
  g_autofree char *file = g_strconcat (table->name, ".csv", NULL);

  cro_faults_add (reader->faults, file, line, column >= 0 ? table->columns[column].name : NULL,
                  kind, value, detail);
}

void
cro_sheet_fault (CroSheetReader *reader,
                 guint32         line,
                 int             column,
                 CroFaultKind    kind,
                 const char     *value,
                 const char     *detail)
{
  cro_sheet_fault_in (reader, reader->id, line, column, kind, value, detail);
}

/* --- Rows ------------------------------------------------------------------------------------- */

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

/* What was sold without a plate is named in words of its own. */
static gboolean
is_in_words (CroReferent     names,
             const CroField *kind)
{
  return names == CRO_REFERENT_SOLD && kind->is_set && kind->number == CRO_SALE_OTHER;
}

static gint64
cell_of (CroSheetReader *reader,
         guint32         line,
         guint           column,
         const CroField *fields)
{
  const CroField *field = &fields[column];
  CroReferent names = reader->columns[column];

  if (!field->is_set)
    return CRO_SHEET_UNSET;
  if (names > CRO_REFERENT_ITSELF && !is_in_words (names, &fields[column - 1]))
    return cro_sheet_resolve (reader, line, column, names, fields);
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

static gboolean
goes_on (CroSheetReader *reader,
         guint64         line)
{
  double done = (double) (reader->n_lines_before + line) / (double) MAX (reader->n_lines_in_all, 1);

  reader->is_cancelled = reader->go_on != NULL && !reader->go_on (reader->user_data, MIN (done, 1));
  return !reader->is_cancelled;
}

gboolean
cro_sheet_take_row (guint           line,
                    const CroField *fields,
                    gboolean        sound,
                    gpointer        user_data)
{
  CroSheetReader *reader = user_data;
  CroSheet *sheet = &reader->sheets->sheets[reader->id];
  gint64 *cells;

  if (fields[0].is_set && reader->columns[0] == CRO_REFERENT_ITSELF)
    cro_sheet_register_name (reader, line, fields[0].text);
  cells = append_row (sheet, line);
  for (guint i = 0; i < sheet->table->n_columns; i++)
    cells[i] = cell_of (reader, line, i, fields);
  if (cro_table_is_of_offers (reader->id))
    cro_sheet_find_offer (reader, line, fields, cells);
  cro_sheet_check_row (reader, line, fields);
  return sheet->n % GO_ON_ROWS != 0 || goes_on (reader, line);
}

/* --- The folder ------------------------------------------------------------------------------- */

static guint64
count_lines_in (int source)
{
  char block[65536];
  guint64 n = 0;
  gssize length;

  while ((length = read (source, block, sizeof block)) > 0)
    for (gssize i = 0; i < length; i++)
      n += block[i] == '\n';
  return n;
}

/* 0 where the file cannot be read, which reading it says. */
static guint64
count_lines (const char *folder,
             CroTableId  id)
{
  g_autofree char *file = g_strconcat (cro_table_get (id)->name, ".csv", NULL);
  g_autofree char *path = g_build_filename (folder, file, NULL);
  int source = cro_plain_file_open (path, NULL);
  guint64 n;

  if (source < 0)
    return 0;
  n = count_lines_in (source);
  close (source);
  return n;
}

static void
count_all_lines (CroSheetReader *reader,
                 const char     *folder)
{
  for (guint id = 0; id < CRO_N_TABLES; id++)
    {
      reader->n_lines[id] = count_lines (folder, (CroTableId) id);
      reader->n_lines_in_all += reader->n_lines[id];
    }
}

static gboolean
read_table (CroSheetReader *reader,
            const char     *folder,
            GError        **error)
{
  return reader->underlay != NULL
             ? cro_underlay_read (reader->underlay, reader, folder, error)
             : cro_table_read (folder, reader->id, cro_sheet_take_row, reader, reader->faults, error);
}

static gboolean
read_tables (CroSheetReader *reader,
             const char     *folder,
             GError        **error)
{
  /* What a row names has been read before it. */
  static const CroTableId order[] = {
    CRO_TABLE_BOOK,        CRO_TABLE_INGREDIENTS, CRO_TABLE_SUPPLIERS,
    CRO_TABLE_OFFERS,      CRO_TABLE_PRICES,      CRO_TABLE_PRICE_ANSWERS, CRO_TABLE_RATES,
    CRO_TABLE_PREPARATIONS, CRO_TABLE_OUTPUTS,    CRO_TABLE_PLATES,
    CRO_TABLE_MENUS,       CRO_TABLE_LINES,       CRO_TABLE_MENU_PLATES,
    CRO_TABLE_SELLING_PRICES, CRO_TABLE_SERVICES, CRO_TABLE_SERVICE_STOCK,
    CRO_TABLE_YIELD_TESTS, CRO_TABLE_YIELD_TEST_PARTS, CRO_TABLE_SALES,
    CRO_TABLE_TILL_NAMES,  CRO_TABLE_COUNTS,      CRO_TABLE_PURCHASES,
    CRO_TABLE_ADJUSTMENTS, CRO_TABLE_MONTHS,      CRO_TABLE_MONTH_ROWS,
  };

  if (reader->go_on != NULL)
    count_all_lines (reader, folder);
  for (gsize i = 0; i < G_N_ELEMENTS (order); i++)
    {
      reader->id = order[i];
      reader->sheets->is_absent[reader->id]
          = reader->underlay == NULL && cro_table_is_absent (folder, reader->id);
      for (guint column = 0; column < CRO_MAX_COLUMNS; column++)
        reader->columns[column] = cro_sheet_referent (reader->id, column);
      if (!read_table (reader, folder, error)
          || reader->is_cancelled)
        return FALSE;
      reader->n_lines_before += reader->n_lines[reader->id];
      if (reader->columns[0] != CRO_REFERENT_ITSELF)
        cro_sheet_find_double_keys (reader);
      if (reader->id == CRO_TABLE_OFFERS)
        cro_sheet_index_offers (reader);
    }
  return cro_tables_check_folder (folder, reader->faults, error);
}

static CroSheets *
sheets_new (void)
{
  CroSheets *self = g_new0 (CroSheets, 1);

  self->text = g_string_chunk_new (65536);
  self->pictures = g_hash_table_new_full (g_str_hash, g_str_equal, NULL,
                                          (GDestroyNotify) g_bytes_unref);
  for (guint id = 0; id < CRO_N_TABLES; id++)
    {
      self->sheets[id].table = cro_table_get ((CroTableId) id);
      self->sheets[id].width = self->sheets[id].table->n_columns + cro_table_is_of_offers ((CroTableId) id);
    }
  for (guint key = 0; key < CRO_N_BOOK_KEYS; key++)
    self->book[key] = CRO_SHEET_UNSET;
  return self;
}

CroSheets *
cro_sheets_read (const char     *folder,
                 CroSheetsGoOn   go_on,
                 gpointer        user_data,
                 CroFaults      *faults,
                 GError        **error)
{
  return cro_sheets_read_onto (NULL, folder, go_on, user_data, faults, error);
}

CroSheets *
cro_sheets_read_onto (CroUnderlay    *underlay,
                      const char     *folder,
                      CroSheetsGoOn   go_on,
                      gpointer        user_data,
                      CroFaults      *faults,
                      GError        **error)
{
  g_autoptr (CroSheets) self = sheets_new ();
  CroSheetReader reader = { .sheets = self, .faults = faults, .go_on = go_on,
                            .user_data = user_data, .underlay = underlay };
  gboolean read;

  for (int i = 0; i < CRO_N_SPACES; i++)
    reader.names[i] = g_hash_table_new (g_str_hash, g_str_equal);
  reader.offers = cro_sheet_offers_new ();
  read = read_tables (&reader, folder, error);
  /* Without one of the tables nobody knows which names it has. */
  if (read && cro_faults_lack_table (faults))
    cro_faults_drop (faults, CRO_FAULT_UNKNOWN_NAME);
  else if (read)
    {
      cro_sheet_read_book (&reader);
      cro_sheet_fill_answers (&reader);
      cro_sheet_check_mains (&reader);
      cro_sheet_check_choices (&reader);
      cro_sheet_check_cycles (&reader);
      read = cro_sheet_read_pictures (&reader, folder);
    }
  for (int i = 0; i < CRO_N_SPACES; i++)
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
  g_hash_table_unref (self->pictures);
  g_string_chunk_free (self->text);
  g_free (self);
}
