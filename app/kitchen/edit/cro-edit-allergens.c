#include "cro-edit-private.h"

gboolean
cro_edit_state_allergens (CroBook     *book,
                          const char  *label,
                          guint32      item,
                          gint32       allergens,
                          guint32      may_contain,
                          GError     **error)
{
  static const char *const columns[] = { "allergens", "may_contain", NULL };
  CroCell cells[] = {
    allergens >= 0 ? CRO_CELL_INT (allergens) : CRO_CELL_NONE,
    cro_edit_cell_or_none (may_contain),
  };

  return cro_edit_begin (book, label, error)
         && cro_edit_end (book,
                          cro_edit_update_row (book, "ingredient",
                                               cro_model_item (cro_book_get_model (book), item)->id, columns,
                                               cells, error),
                          error);
}
