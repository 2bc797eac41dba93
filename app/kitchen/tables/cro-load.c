#include "cro-load.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>

#include "cro-dump-folder.h"
#include "cro-fill.h"
#include "cro-replace.h"
#include "cro-sheet-cells.h"
#include "cro-sheet-pictures.h"
#include "cro-sheets.h"

G_DEFINE_QUARK (cro-load-error-quark, cro_load_error)

/* How far loading is: the tables are read, which is the one half, and then their rows written. */
typedef struct
{
  CroLoadGoOn go_on;        /* NULL: nobody asks */
  gpointer    user_data;
  guint64     n;            /* rows of all tables */
  guint64     n_written;
} Progress;

static gboolean
read_goes_on (gpointer user_data,
              double   done)
{
  Progress *progress = user_data;

  return progress->go_on (progress->user_data, done / 2);
}

static gboolean
set_cancelled (GError **error)
{
  g_set_error_literal (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_CANCELLED, "cancelled");
  return FALSE;
}

static gboolean
write_goes_on (Progress  *progress,
               guint      n,
               GError   **error)
{
  guint64 before = progress->n_written / CRO_WRITER_BLOCK;

  progress->n_written += n;
  if (progress->go_on == NULL || progress->n_written / CRO_WRITER_BLOCK == before)
    return TRUE;
  return progress->go_on (progress->user_data,
                          0.5 + (double) progress->n_written / (double) progress->n / 2)
         || set_cancelled (error);
}

/* --- A table into the store ---------------------------------------------------------------------- */

static CroWriter *
writer_for (CroStore           *store,
            const CroSheetMap  *map,
            GError            **error)
{
  const char *columns[CRO_MAP_MOST + 2];
  guint n = 0;

  if (map->base != NULL)
    columns[n++] = "id";
  for (guint i = 0; map->columns[i].column != NULL; i++)
    columns[n++] = map->columns[i].column;
  columns[n] = NULL;
  return cro_writer_new (store, map->table, columns, error);
}

static CroWriter *
base_writer_for (CroStore           *store,
                 const CroSheetMap  *map,
                 GError            **error)
{
  static const char *const columns[] = { "name", NULL };

  return cro_writer_new (store, map->base, columns, error);
}

/* Where rows of a table go. */
typedef struct
{
  const CroSheets   *sheets;
  const CroSheetMap *map;
  CroIds            *ids;
  CroWriter         *writer;
  CroWriter         *base;   /* NULL: the table has its names itself */
  guint              width;  /* cells of a row in writer, its id among them where base gives it */
  CroCell           *cells;  /* of a block */
  CroCellText       *texts;
} Filling;

static void
cells_of_rows (Filling *filling,
               guint    first,
               guint    n)
{
  const gint64 *ids = filling->ids->of[filling->map->id];

  for (guint i = 0; i < n; i++)
    {
      CroCell *cells = filling->cells + i * filling->width;

      if (filling->base != NULL)
        *cells++ = CRO_CELL_INT (ids[first + i]);
      cro_cells_of_row (filling->sheets, filling->map, first + i, filling->ids, cells,
                        &filling->texts[i]);
    }
}

static void
names_of_rows (Filling *filling,
               guint    first,
               guint    n)
{
  const CroSheet *sheet = &filling->sheets->sheets[filling->map->id];

  for (guint i = 0; i < n; i++)
    filling->cells[i] = CRO_CELL_STR (cro_sheet_text (sheet, first + i, 0));
}

/* n is a block or 1. */
static gboolean
insert (CroWriter      *writer,
        const CroCell  *cells,
        guint           n,
        gint64         *ids,
        GError        **error)
{
  return n == 1 ? cro_writer_insert (writer, cells, ids, error)
                : cro_writer_insert_block (writer, cells, ids, error);
}

static gboolean
fill_rows (Filling  *filling,
           guint     first,
           guint     n,
           GError  **error)
{
  gint64 *ids = &filling->ids->of[filling->map->id][first];

  if (filling->base == NULL)
    {
      cells_of_rows (filling, first, n);
      return insert (filling->writer, filling->cells, n, ids, error);
    }
  names_of_rows (filling, first, n);
  if (!insert (filling->base, filling->cells, n, ids, error))
    return FALSE;
  cells_of_rows (filling, first, n);
  return insert (filling->writer, filling->cells, n, NULL, error);
}

static gboolean
fill_table (CroStore           *store,
            const CroSheets    *sheets,
            const CroSheetMap  *map,
            CroIds             *ids,
            Progress           *progress,
            GError            **error)
{
  g_autoptr (CroWriter) writer = writer_for (store, map, error);
  g_autoptr (CroWriter) base = NULL;
  g_autofree CroCell *cells = g_new (CroCell, CRO_WRITER_BLOCK * (CRO_MAP_MOST + 1));
  g_autofree CroCellText *texts = g_new (CroCellText, CRO_WRITER_BLOCK);
  Filling filling = { sheets, map, ids, writer, NULL, cro_map_width (map), cells, texts };
  guint n;

  if (writer == NULL)
    return FALSE;
  if (map->base != NULL)
    {
      filling.base = base = base_writer_for (store, map, error);
      filling.width++;
      if (base == NULL)
        return FALSE;
    }
  for (guint row = 0; row < sheets->sheets[map->id].n; row += n)
    {
      n = sheets->sheets[map->id].n - row < CRO_WRITER_BLOCK ? 1 : CRO_WRITER_BLOCK;
      if (!fill_rows (&filling, row, n, error) || !write_goes_on (progress, n, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
fill (CroStore         *store,
      const CroSheets  *sheets,
      CroIds           *ids,
      Progress         *progress,
      GError          **error)
{
  if (!cro_replace_book (store, sheets, error) || !cro_sheet_keep_pictures (store, sheets, error))
    return FALSE;
  for (guint id = 0; id < CRO_N_TABLES; id++)
    progress->n += sheets->sheets[id].n;
  for (const CroSheetMap *map = cro_sheet_maps; map->table != NULL; map++)
    if (sheets->sheets[map->id].n > 0 && !fill_table (store, sheets, map, ids, progress, error))
      return FALSE;
  return TRUE;
}

/* --- The act --------------------------------------------------------------------------------------- */

static gboolean
write_all (CroStore         *store,
           const CroSheets  *sheets,
           const char       *label,
           gboolean          replace,
           Progress         *progress,
           CroFaults        *faults,
           GError          **error)
{
  g_autoptr (GError) filled = NULL;
  gboolean is_empty = cro_store_begin_fill (store, label, &filled);
  CroIds ids;
  gboolean done;

  if (!is_empty && !g_error_matches (filled, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE))
    {
      g_propagate_error (error, g_steal_pointer (&filled));
      return FALSE;
    }
  if (!is_empty && !replace)
    {
      g_set_error_literal (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_NOT_EMPTY,
                           "the book is not empty");
      return FALSE;
    }
  if (!is_empty && !cro_store_begin_act (store, label, error))
    return FALSE;

  cro_ids_init (&ids, sheets);
  done = is_empty ? fill (store, sheets, &ids, progress, error)
                  : cro_replace (store, sheets, &ids, faults, error);
  done = done && (cro_faults_get_n (faults) > 0 || cro_replace_verify (store, sheets, faults, error));
  if (done && cro_faults_get_n (faults) > 0)
    {
      g_set_error_literal (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_FAULTS, "the tables have faults");
      done = FALSE;
    }
  done = done && cro_store_end_act (store, NULL, error);
  if (!done)
    cro_store_cancel_act (store);
  cro_ids_clear (&ids);
  return done;
}

gboolean
cro_load_check_folder (const char  *folder,
                       GError     **error)
{
  GStatBuf info;
  int code = g_stat (folder, &info) != 0 ? errno : S_ISDIR (info.st_mode) ? 0 : ENOTDIR;

  if (code != 0)
    {
      g_set_error_literal (error, G_FILE_ERROR, g_file_error_from_errno (code), g_strerror (code));
      return FALSE;
    }
  if (!cro_dump_folder_is_unfinished (folder))
    return TRUE;
  g_set_error_literal (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_UNFINISHED, folder);
  return FALSE;
}

/* What is refused because the book holds something leaves it as it was, of an older schema too. */
static CroStore *
open_book (const char  *path,
           const char  *desk,
           gboolean     replace,
           GError     **error)
{
  GError *failed = NULL;
  CroStore *store = replace ? cro_store_open (path, desk, CRO_STORE_WRITE, &failed)
                            : cro_store_open_to_fill (path, desk, &failed);

  if (g_error_matches (failed, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE)
      && g_str_has_prefix (failed->message, CRO_STORE_NOT_EMPTY))
    {
      g_clear_error (&failed);
      g_set_error_literal (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_NOT_EMPTY, "the book is not empty");
    }
  else if (failed != NULL)
    g_propagate_error (error, failed);
  return store;
}

gboolean
cro_load (const char  *path,
          const char  *folder,
          const char  *desk,
          const char  *label,
          gboolean     replace,
          CroLoadGoOn  go_on,
          gpointer     user_data,
          CroFaults   *faults,
          GError     **error)
{
  Progress progress = { go_on, user_data, 0, 0 };
  g_autoptr (CroSheets) sheets = NULL;
  gboolean is_new = !g_file_test (path, G_FILE_TEST_EXISTS);
  g_autoptr (CroStore) store = NULL;

  if (!cro_load_check_folder (folder, error))
    return FALSE;
  sheets = cro_sheets_read (folder, go_on != NULL ? read_goes_on : NULL, &progress, faults, error);
  if (sheets == NULL)
    return error != NULL && *error == NULL ? set_cancelled (error) : FALSE;
  if (cro_faults_get_n (faults) > 0)
    {
      g_set_error_literal (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_FAULTS, "the tables have faults");
      return FALSE;
    }
  store = is_new ? cro_store_create_unfinished (path, desk, error)
                 : open_book (path, desk, replace, error);
  if (store == NULL || !write_all (store, sheets, label, replace, &progress, faults, error))
    return FALSE;
  return !is_new || cro_store_finish (g_steal_pointer (&store), error);
}
