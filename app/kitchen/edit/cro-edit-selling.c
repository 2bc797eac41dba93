#include "cro-edit-private.h"

#include "cro-not-set.h"
#include "cro-selling-steps.h"

/* The row of the date is changed, or a new one begins. */
static gboolean
put_step (CroBook               *book,
          CroRef                 thing,
          CroDate                from,
          const CroSellingStep  *before,
          gint64                 price,
          gint64                 tax,
          GError               **error)
{
  static const char *const columns[] = { "thing", "from_date", "price_micro", "tax_pct_micro", NULL };
  const char *table;
  char date[CRO_DATE_CHARS];
  CroCell cells[4];

  cro_date_format (from, date);
  cells[0] = CRO_CELL_INT (cro_edit_row (cro_book_get_model (book), thing, &table));
  cells[1] = CRO_CELL_STR (date);
  cells[2] = cro_number_cell (price);
  cells[3] = cro_number_cell (tax);
  if (before != NULL && before->from == from)
    return cro_store_update (cro_book_get_store (book), "selling_price", before->id, columns, cells,
                             error);
  return cro_edit_insert (book, "selling_price", columns, cells, error) != 0;
}

static gboolean
set_selling_price (CroBook  *book,
                   CroRef    thing,
                   CroDate   from,
                   gint64    price,
                   GError  **error)
{
  g_autoptr (GArray) steps = cro_selling_steps_new (book, thing, error);
  const CroSellingStep *before;

  if (steps == NULL)
    return FALSE;
  before = cro_selling_step_on (steps, from);
  return put_step (book, thing, from, before, price,
                   price != CRO_NOT_SET && before != NULL ? before->tax : CRO_NOT_SET, error);
}

/* Where nothing was ever sold by itself no day can be wrong, and its tax has none either. */
static gboolean
set_selling_tax (CroBook  *book,
                 CroRef    thing,
                 CroDate   from,
                 gint64    tax,
                 GError  **error)
{
  g_autoptr (GArray) steps = cro_selling_steps_new (book, thing, error);
  CroModel *model = cro_book_get_model (book);
  const CroSellingStep *before;
  const char *table;
  gint64 price, id = cro_edit_row (model, thing, &table);

  if (steps == NULL)
    return FALSE;
  before = cro_selling_step_on (steps, from);
  price = before != NULL ? before->price : cro_selling_terms_on (model, NULL, thing, from).price;
  if (price != CRO_NOT_SET)
    return put_step (book, thing, from, before, price, tax, error);
  if (steps->len == 0)
    return cro_edit_update (book, table, id, "tax_pct_micro",
                            cro_number_cell (tax), error);
  g_set_error_literal (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_NO_PRICE, "no price on that date");
  return FALSE;
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
cro_edit_set_selling_tax (CroBook     *book,
                          const char  *label,
                          CroRef       thing,
                          CroDate      from,
                          gint64       tax,
                          GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, set_selling_tax (book, thing, from, tax, error), error);
}

gboolean
cro_edit_remove_selling_price (CroBook     *book,
                               const char  *label,
                               gint64       id,
                               GError     **error)
{
  return cro_edit_remove_row (book, label, "selling_price", id, error);
}
