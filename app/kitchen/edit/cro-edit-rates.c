#include "cro-edit-private.h"

#include <string.h>

#include "cro-decimal.h"

static gboolean
set_rate (CroBook     *book,
          const char  *currency,
          CroDate      from,
          gint64       rate,
          gint64       per,
          GError     **error)
{
  static const char *const key[] = { "id", "currency", "from_date", NULL };
  static const char *const columns[] = { "currency", "from_date", "rate_micro", "per_micro", NULL };
  char date[CRO_DATE_CHARS];
  CroCell cells[] = { CRO_CELL_STR (currency), CRO_CELL_STR (date), CRO_CELL_INT (rate),
                      per != CRO_MICRO ? CRO_CELL_INT (per) : CRO_CELL_NONE };
  GError *failed = NULL;
  gint64 id = 0;

  cro_date_format (from, date);
  {
    g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (book), "rate", key, error);

    if (rows == NULL)
      return FALSE;
    while (id == 0 && cro_rows_next (rows, &failed))
      if (strcmp (cro_rows_get_text (rows, 1), currency) == 0
          && strcmp (cro_rows_get_text (rows, 2), date) == 0)
        id = cro_rows_get_int (rows, 0);
  }
  if (failed != NULL)
    {
      g_propagate_error (error, failed);
      return FALSE;
    }
  if (id != 0)
    return cro_edit_update_row (book, "rate", id, columns, cells, error);
  return cro_edit_insert (book, "rate", columns, cells, error) != 0;
}

gboolean
cro_edit_set_rate (CroBook     *book,
                   const char  *label,
                   const char  *currency,
                   CroDate      from,
                   gint64       rate,
                   gint64       per,
                   GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, set_rate (book, currency, from, rate, per, error), error);
}

gboolean
cro_edit_remove_rate (CroBook     *book,
                      const char  *label,
                      gint64       id,
                      GError     **error)
{
  return cro_edit_remove_row (book, label, "rate", id, error);
}
