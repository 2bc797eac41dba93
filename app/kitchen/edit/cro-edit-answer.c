/* That a price which is asked about is right. */
#include "cro-edit-private.h"

#include <string.h>

#include "cro-here.h"
#include "cro-not-set.h"

/* The row of an offer and a day in the table of prices, or of what was answered about them: its id, 0 where there is
 * none, and its price. */
static gboolean
find_of_day (CroBook     *book,
             const char  *table,
             gint64       offer,
             const char  *date,
             gint64      *id,
             gint64      *price,
             GError     **error)
{
  static const char *const columns[] = { "id", "from_date", "price_micro", NULL };
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (book), table, "offer", offer, columns, error);
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
cro_edit_forget_answer (CroBook  *book,
                        gint64    offer,
                        CroDate   from,
                        GError  **error)
{
  char date[CRO_DATE_CHARS];
  gint64 id, price;

  cro_date_format (from, date);
  return find_of_day (book, "price_answer", offer, date, &id, &price, error)
         && (id == 0 || cro_store_delete (cro_book_get_store (book), "price_answer", id, error));
}

static gboolean
answer_price (CroBook  *book,
              gint64    offer,
              CroDate   from,
              GError  **error)
{
  static const char *const columns[] = { "offer", "from_date", "price_micro", "answered_on", NULL };
  char date[CRO_DATE_CHARS], today[CRO_DATE_CHARS];
  gint64 row, answer, price, before;

  cro_date_format (from, date);
  cro_date_format (cro_here_today (), today);
  if (!find_of_day (book, "price", offer, date, &row, &price, error)
      || !find_of_day (book, "price_answer", offer, date, &answer, &before, error))
    return FALSE;
  if (price == CRO_NOT_SET)
    return TRUE;
  {
    const CroCell cells[] = { CRO_CELL_INT (offer), CRO_CELL_STR (date), CRO_CELL_INT (price), CRO_CELL_STR (today) };

    return answer != 0 ? cro_edit_update_row (book, "price_answer", answer, columns, cells, error)
                       : cro_edit_insert (book, "price_answer", columns, cells, error) != 0;
  }
}

gboolean
cro_edit_answer_price (CroBook     *book,
                       const char  *label,
                       guint32      offer,
                       CroDate      from,
                       GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book,
                          answer_price (book, cro_model_offer (cro_book_get_model (book), offer)->id, from, error),
                          error);
}
