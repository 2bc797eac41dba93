#include "cro-sheet-pictures.h"

#include <string.h>

#include "cro-photo.h"
#include "cro-plain-file.h"
#include "cro-underlay.h"

int
cro_sheet_picture_column (CroTableId id)
{
  return id == CRO_TABLE_PLATES         ? CRO_PLATES_PICTURE
         : id == CRO_TABLE_PREPARATIONS ? CRO_PREPARATIONS_PICTURE
                                        : -1;
}

/* --- Reading ------------------------------------------------------------------------------------ */

CroFaultKind
cro_sheet_picture_fault (const GError *error)
{
  return g_error_matches (error, CRO_PHOTO_ERROR, CRO_PHOTO_ERROR_TOO_LARGE)
             ? CRO_FAULT_LARGE_PICTURE
         : g_error_matches (error, CRO_PHOTO_ERROR, CRO_PHOTO_ERROR_KIND) ? CRO_FAULT_NOT_A_PICTURE
         : error->domain == CRO_PHOTO_ERROR                               ? CRO_FAULT_BROKEN_PICTURE
                                                                          : CRO_FAULT_NO_PICTURE;
}

/* A file of that folder and of no other. */
static gboolean
is_file_name (const char *file)
{
  return file[0] != '.' && strchr (file, '/') == NULL;
}

/* The name under which it is kept, the sheets'; NULL: with fault. */
static const char *
take_picture (CroSheetReader *reader,
              const char     *folder,
              const char     *file,
              CroFaultKind   *fault)
{
  g_autofree char *path = g_build_filename (folder, CRO_SHEET_PICTURES, file, NULL);
  g_autoptr (GError) failed = NULL;
  g_autoptr (GBytes) read = NULL;
  g_autofree char *name = NULL;
  GBytes *kept;
  const char *own;

  *fault = CRO_FAULT_NO_PICTURE;
  if (!is_file_name (file))
    return NULL;
  read = cro_plain_file_read (path, CRO_PHOTO_MOST_BYTES + 1, &failed);
  kept = read != NULL ? cro_photo_take (read, &name, &failed) : NULL;
  if (kept == NULL)
    {
      *fault = cro_sheet_picture_fault (failed);
      return NULL;
    }
  own = g_string_chunk_insert_const (reader->sheets->text, name);
  g_hash_table_insert (reader->sheets->pictures, (gpointer) own, kept);
  return own;
}

/* Several rows may name one file. */
static void
read_picture (CroSheetReader *reader,
              GHashTable     *taken,
              const char     *folder,
              guint           row,
              int             column)
{
  CroSheet *sheet = &reader->sheets->sheets[reader->id];
  gint64 *cell = &sheet->cells[(gsize) row * sheet->width + (guint) column];
  const char *file = cro_sheet_text (sheet, row, (guint) column);
  const char *name = g_hash_table_lookup (taken, file);
  CroFaultKind fault;

  if (name == NULL && reader->underlay != NULL && cro_underlay_has_picture (reader->underlay, file))
    return;
  if (name == NULL)
    name = take_picture (reader, folder, file, &fault);
  if (name == NULL)
    {
      cro_sheet_fault (reader, sheet->at[row], column, fault, file, NULL);
      return;
    }
  g_hash_table_insert (taken, (gpointer) file, (gpointer) name);
  *cell = (gintptr) name;
}

gboolean
cro_sheet_read_pictures (CroSheetReader *reader,
                         const char     *folder)
{
  g_autoptr (GHashTable) taken = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint id = 0; id < CRO_N_TABLES; id++)
    {
      const CroSheet *sheet = &reader->sheets->sheets[id];
      int column = cro_sheet_picture_column ((CroTableId) id);

      reader->id = (CroTableId) id;
      for (guint row = 0; column >= 0 && row < sheet->n; row++)
        {
          if (cro_sheet_text (sheet, row, (guint) column) == NULL)
            continue;
          if (reader->go_on != NULL && !reader->go_on (reader->user_data, 1))
            {
              reader->is_cancelled = TRUE;
              return FALSE;
            }
          read_picture (reader, taken, folder, row, column);
        }
    }
  return TRUE;
}

/* --- Writing ------------------------------------------------------------------------------------ */

gboolean
cro_sheet_keep_pictures (CroStore         *store,
                         const CroSheets  *sheets,
                         GError          **error)
{
  GHashTableIter iter;
  gpointer name, data;

  g_hash_table_iter_init (&iter, sheets->pictures);
  while (g_hash_table_iter_next (&iter, &name, &data))
    if (!cro_store_keep_picture (store, name, data, error))
      return FALSE;
  return TRUE;
}
