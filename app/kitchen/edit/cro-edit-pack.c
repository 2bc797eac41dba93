#include "cro-edit-private.h"

#include <string.h>

/* What a pack holds may change under the same code: prices of before keep what it held then. */

static const char *const pack_columns[] = { "pack_count_micro", "pack_size_micro", "pack_unit", NULL };

typedef struct
{
  gint64  offer;
  char    from[CRO_DATE_CHARS];
  CroCell pack[3];
} Change;

/* Rows of later days that have no pack of their own: what it holds goes on with them. */
static GArray *
list_later (CroBook       *book,
            const Change  *change,
            GError       **error)
{
  static const char *const columns[] = { "id", "from_date", "pack_count_micro", "pack_size_micro",
                                         "pack_unit", NULL };
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (gint64));
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (book), "price", "offer",
                                                change->offer, columns, error);
  GError *failed = NULL;

  while (rows != NULL && cro_rows_next (rows, &failed))
    {
      gint64 id = cro_rows_get_int (rows, 0);

      if (strcmp (cro_rows_get_text (rows, 1), change->from) > 0 && cro_rows_is_null (rows, 2)
          && cro_rows_is_null (rows, 3) && cro_rows_is_null (rows, 4))
        g_array_append_val (ids, id);
    }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL ? g_steal_pointer (&ids) : NULL;
}

static gboolean
carry_on (CroBook       *book,
          const Change  *change,
          GError       **error)
{
  g_autoptr (GArray) ids = list_later (book, change, error);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    if (!cro_store_update (cro_book_get_store (book), "price", g_array_index (ids, gint64, i),
                           pack_columns, change->pack, error))
      return FALSE;
  return ids != NULL;
}

/* The price goes on, in the new pack: what is paid for it is asked for apart. */
static gboolean
begin_price (CroBook       *book,
             const Change  *change,
             CroRows       *standing,
             GError       **error)
{
  static const char *const columns[] = { "offer", "from_date", "price_micro",
                                         "tax_included_pct_micro", "pack_count_micro",
                                         "pack_size_micro", "pack_unit", NULL };
  const CroCell cells[] = {
    CRO_CELL_INT (change->offer),
    CRO_CELL_STR (change->from),
    cro_rows_is_null (standing, 3) ? CRO_CELL_NONE : CRO_CELL_INT (cro_rows_get_int (standing, 3)),
    cro_rows_is_null (standing, 4) ? CRO_CELL_NONE : CRO_CELL_INT (cro_rows_get_int (standing, 4)),
    change->pack[0],
    change->pack[1],
    change->pack[2],
  };

  if (strcmp (cro_rows_get_text (standing, 2), change->from) == 0)
    return cro_store_update (cro_book_get_store (book), "price", cro_rows_get_int (standing, 1),
                             pack_columns, change->pack, error);
  return cro_edit_insert (book, "price", columns, cells, error) != 0;
}

/* Where no price holds on that day there is nothing of before to keep. */
static gboolean
set_pack (CroBook       *book,
          const Change  *change,
          GError       **error)
{
  g_autoptr (CroRows) standing = cro_store_read_prices (cro_book_get_store (book), change->from,
                                                        change->offer, error);
  GError *failed = NULL;

  if (standing == NULL)
    return FALSE;
  if (cro_rows_next (standing, &failed))
    return begin_price (book, change, standing, error) && carry_on (book, change, error);
  if (failed != NULL)
    {
      g_propagate_error (error, failed);
      return FALSE;
    }
  return cro_store_update (cro_book_get_store (book), "offer", change->offer, pack_columns,
                           change->pack, error);
}

gboolean
cro_edit_set_pack (CroBook     *book,
                   const char  *label,
                   guint32      offer,
                   CroDate      from,
                   gint64       count,
                   gint64       size,
                   CroUnit      unit,
                   GError     **error)
{
  Change change = {
    .offer = cro_model_offer (cro_book_get_model (book), offer)->id,
    .pack = { CRO_CELL_INT (count), CRO_CELL_INT (size), CRO_CELL_STR (cro_edit_unit_code (unit)) },
  };

  cro_date_format (from, change.from);
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, set_pack (book, &change, error), error);
}
