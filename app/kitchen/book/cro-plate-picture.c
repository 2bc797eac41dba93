#include "cro-plate-picture.h"

#include "cro-photo.h"

char *
cro_plate_picture_dup_name (CroBook    *book,
                            const char *table,
                            gint64      id)
{
  static const char *const columns[] = { "picture", NULL };
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (book), table, id, columns, NULL);

  return rows != NULL && cro_rows_next (rows, NULL) ? g_strdup (cro_rows_get_text (rows, 0)) : NULL;
}

cairo_surface_t *
cro_plate_picture_open (CroBook     *book,
                        const char  *name,
                        GError     **error)
{
  g_autoptr (GBytes) kept = cro_store_read_picture (cro_book_get_store (book), name, error);

  return kept != NULL ? cro_photo_open (kept, error) : NULL;
}
