/* That a price which is asked about is right. */
#include "cro-edit-private.h"

#include <string.h>

#include "cro-here.h"
#include "cro-not-set.h"

/* What was answered about the price that an offer has from a day on: its row, 0 where there is none, and its price. */
static gboolean
find_answer (CroBook     *book,
             gint64       offer,
             const char  *date,
             gint64      *id,
             gint64      *price,
             GError     **error)
{
  static const char *const columns[] = { "id", "from_date", "price_micro", NULL };
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (book), "price_answer", "offer", offer, columns,
                                                error);
  GError *failed = NULL;

  *id = 0;
  *price = CRO_NOT_SET;
  while (rows != NULL && *id == 0 && cro_rows_next (rows, &failed))
    if (strcmp (cro_rows_get_text (rows, 1), date) == 0)
      {
        *id = cro_rows_get_int (rows, 0);
        *price = cro_row_number (rows, 2);
      }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

gboolean
cro_edit_forget_answer (CroBook     *book,
                        gint64       offer,
                        const char  *date,
                        gint64       kept,
                        GError     **error)
{
  gint64 id, price;

  if (cro_book_get_tried (book) != NULL)
    return TRUE;
  return find_answer (book, offer, date, &id, &price, error)
         && (id == 0 || price == kept || cro_store_delete (cro_book_get_store (book), "price_answer", id, error));
}

/* What a price is for: its own pack, or the offer's where it has none. */
static gboolean
write_answer (CroBook        *book,
              guint32         offer,
              const char     *date,
              const CroOffer *then,
              GError        **error)
{
  static const char *const columns[] = { "offer", "from_date", "price_micro", "answered_on", "pack_count_micro",
                                         "pack_size_micro", "pack_unit", "currency", NULL };
  CroModel *model = cro_book_get_model (book);
  gint64 id = cro_model_offer (model, offer)->id, answer, before;
  char today[CRO_DATE_CHARS];

  cro_date_format (cro_here_today (), today);
  if (!find_answer (book, id, date, &answer, &before, error))
    return FALSE;
  {
    const CroCell cells[] = {
      CRO_CELL_INT (id), CRO_CELL_STR (date), CRO_CELL_INT (then->price), CRO_CELL_STR (today),
      CRO_CELL_INT (then->pack_count), CRO_CELL_INT (then->pack_size),
      CRO_CELL_STR (cro_unit_get (then->pack_unit)->code), CRO_CELL_STR (cro_model_currency_of (model, offer)),
    };

    return answer != 0 ? cro_edit_update_row (book, "price_answer", answer, columns, cells, error)
                       : cro_edit_insert (book, "price_answer", columns, cells, error) != 0;
  }
}

static gboolean
answer_price (CroBook  *book,
              guint32   offer,
              CroDate   from,
              GError  **error)
{
  /* As cro_store_read_prices gives them. */
  enum { OFFER, ID, FROM, PRICE, TAX, COUNT, SIZE, UNIT };
  const CroOfferEntry *entry = cro_model_offer (cro_book_get_model (book), offer);
  CroOffer then = entry->offer;
  char date[CRO_DATE_CHARS];
  g_autoptr (CroRows) rows = NULL;
  const char *unit;
  GError *failed = NULL;

  cro_date_format (from, date);
  rows = cro_store_read_prices (cro_book_get_store (book), date, entry->id, error);
  if (rows == NULL)
    return FALSE;
  if (!cro_rows_next (rows, &failed) || strcmp (cro_rows_get_text (rows, FROM), date) != 0
      || cro_rows_is_null (rows, PRICE))
    {
      if (failed != NULL)
        g_propagate_error (error, failed);
      return failed == NULL;
    }
  unit = cro_rows_get_text (rows, UNIT);
  then.price = cro_rows_get_int (rows, PRICE);
  then.pack_count = cro_rows_is_null (rows, COUNT) ? entry->pack_count : cro_rows_get_int (rows, COUNT);
  then.pack_size = cro_rows_is_null (rows, SIZE) ? entry->pack_size : cro_rows_get_int (rows, SIZE);
  then.pack_unit = (CroUnit) entry->pack_unit;
  if (unit != NULL)
    cro_unit_parse (unit, strlen (unit), &then.pack_unit);
  g_clear_pointer (&rows, cro_rows_free);
  return write_answer (book, offer, date, &then, error);
}

gboolean
cro_edit_answer_price (CroBook     *book,
                       const char  *label,
                       guint32      offer,
                       CroDate      from,
                       GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, answer_price (book, offer, from, error), error);
}
