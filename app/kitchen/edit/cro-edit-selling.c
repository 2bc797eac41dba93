#include "cro-edit-private.h"

#include "cro-selling-steps.h"

static gboolean
set_selling_price (CroBook  *book,
                   CroRef    thing,
                   CroDate   from,
                   gint64    price,
                   GError  **error)
{
  static const char *const columns[] = { "thing", "from_date", "price_micro", "tax_pct_micro", NULL };
  g_autoptr (GArray) steps = cro_selling_steps_new (book, thing, error);
  const CroSellingStep *before;
  const char *table;
  char date[CRO_DATE_CHARS];
  CroCell cells[4];

  if (steps == NULL)
    return FALSE;
  before = cro_selling_step_on (steps, from);
  cro_date_format (from, date);
  cells[0] = CRO_CELL_INT (cro_edit_row (cro_book_get_model (book), thing, &table));
  cells[1] = CRO_CELL_STR (date);
  cells[2] = price != CRO_NOT_SET ? CRO_CELL_INT (price) : CRO_CELL_NONE;
  cells[3] = price != CRO_NOT_SET && before != NULL && before->tax != CRO_NOT_SET
                 ? CRO_CELL_INT (before->tax)
                 : CRO_CELL_NONE;
  if (before != NULL && before->from == from)
    return cro_store_update (cro_book_get_store (book), "selling_price", before->id, columns, cells,
                             error);
  return cro_edit_insert (book, "selling_price", columns, cells, error) != 0;
}

gboolean
cro_edit_set_selling_price (CroBook     *book,
                            const char  *label,
                            CroRef       thing,
                            CroDate      from,
                            gint64       price,
                            GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, set_selling_price (book, thing, from, price, error), error);
}

gboolean
cro_edit_remove_selling_price (CroBook     *book,
                               const char  *label,
                               gint64       id,
                               GError     **error)
{
  return cro_edit_remove_row (book, label, "selling_price", id, error);
}
