#include "cro-edit-private.h"

#include "cro-photo.h"

/* The picture first, as the row names it. */
static gboolean
write_picture (CroBook     *book,
               CroRef       recipe,
               const char  *name,
               GBytes      *kept,
               GError     **error)
{
  const char *table;
  gint64 id = cro_edit_row (cro_book_get_model (book), recipe, &table);

  return (kept == NULL || cro_store_keep_picture (cro_book_get_store (book), name, kept, error))
         && cro_edit_update (book, table, id, "picture", CRO_CELL_STR (name), error);
}

gboolean
cro_edit_set_picture (CroBook     *book,
                      const char  *label,
                      CroRef       recipe,
                      GBytes      *file,
                      GError     **error)
{
  g_autofree char *name = NULL;
  g_autoptr (GBytes) kept = NULL;

  g_return_val_if_fail (recipe.kind == CRO_REF_RECIPE, FALSE);

  if (cro_book_get_tried (book) != NULL)
    {
      g_set_error_literal (error, CRO_BOOK_ERROR, CRO_BOOK_ERROR_TRIAL, "a picture");
      return FALSE;
    }
  if (file != NULL)
    {
      kept = cro_photo_take (file, &name, error);
      if (kept == NULL)
        return FALSE;
    }
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, write_picture (book, recipe, name, kept, error), error);
}
