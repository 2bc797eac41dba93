#include "cro-edit-service.h"

#include "cro-edit-private.h"
#include "cro-refusal.h"

/* The row of an id is changed, made (0) or, where there is nothing to say any more, removed. */
static gboolean
put_row (CroBook            *book,
         const char         *table,
         gint64              id,
         const char *const  *columns,
         const CroCell      *cells,
         gboolean            goes,
         GError            **error)
{
  if (goes)
    return id == 0 || cro_store_delete (cro_book_get_store (book), table, id, error);
  if (id != 0)
    return cro_edit_update_row (book, table, id, columns, cells, error);
  return cro_edit_insert (book, table, columns, cells, error) != 0;
}

static gint64
find_covers (const CroService *service,
             CroRef            thing)
{
  for (guint i = 0; i < service->covers->len; i++)
    if (cro_ref_equal (g_array_index (service->covers, CroCovers, i).thing, thing))
      return g_array_index (service->covers, CroCovers, i).id;
  return 0;
}

static gboolean
put_covers (CroBook           *book,
            const CroService  *now,
            CroDate            date,
            const char        *name,
            CroRef             thing,
            gint64             covers,
            GError           **error)
{
  static const char *const columns[] = { "date", "service", "thing", "covers_micro", NULL };
  const char *table;
  char day[CRO_DATE_CHARS];
  CroCell cells[] = {
    CRO_CELL_STR (day), CRO_CELL_STR (name),
    CRO_CELL_INT (cro_edit_row (cro_book_get_model (book), thing, &table)), CRO_CELL_INT (covers)
  };

  cro_date_format (date, day);
  return put_row (book, "service", find_covers (now, thing), columns, cells, covers == CRO_NOT_SET,
                  error);
}

static gboolean
set_covers (CroBook     *book,
            CroDate      date,
            const char  *name,
            CroRef       thing,
            gint64       covers,
            GError     **error)
{
  g_autofree char *tidy = cro_tidy_name (name, error);
  g_autoptr (CroService) now = tidy != NULL ? cro_service_read (book, date, tidy, error) : NULL;

  return now != NULL && put_covers (book, now, date, tidy, thing, covers, error);
}

gboolean
cro_edit_set_covers (CroBook     *book,
                     const char  *label,
                     CroDate      date,
                     const char  *service,
                     CroRef       thing,
                     gint64       covers,
                     GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, set_covers (book, date, service, thing, covers, error), error);
}

static gboolean
take_covers (CroBook     *book,
             CroDate      date,
             const char  *name,
             CroDate      from,
             GError     **error)
{
  g_autofree char *tidy = cro_tidy_name (name, error);
  g_autoptr (CroService) now = tidy != NULL ? cro_service_read (book, date, tidy, error) : NULL;
  g_autoptr (CroService) then = now != NULL ? cro_service_read (book, from, tidy, error) : NULL;

  for (guint i = 0; then != NULL && i < then->covers->len; i++)
    {
      const CroCovers *one = &g_array_index (then->covers, CroCovers, i);

      if (find_covers (now, one->thing) == 0
          && !put_covers (book, now, date, tidy, one->thing, one->covers, error))
        return FALSE;
    }
  return then != NULL;
}

gboolean
cro_edit_take_covers (CroBook     *book,
                      const char  *label,
                      CroDate      date,
                      const char  *service,
                      CroDate      from,
                      GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, take_covers (book, date, service, from, error), error);
}

static gint64
find_in_house (const CroService *service,
               guint32           item)
{
  for (guint i = 0; i < service->in_house->len; i++)
    if (g_array_index (service->in_house, CroInHouse, i).item == item)
      return g_array_index (service->in_house, CroInHouse, i).id;
  return 0;
}

static gboolean
set_in_house (CroBook     *book,
              CroDate      date,
              const char  *name,
              guint32      item,
              gint64       amount,
              CroUnit      unit,
              GError     **error)
{
  static const char *const columns[] = { "date", "service", "item", "amount_micro", "unit", NULL };
  g_autofree char *tidy = cro_tidy_name (name, error);
  g_autoptr (CroService) now = tidy != NULL ? cro_service_read (book, date, tidy, error) : NULL;
  char day[CRO_DATE_CHARS];
  CroCell cells[] = { CRO_CELL_STR (day), CRO_CELL_STR (tidy),
                      CRO_CELL_INT (cro_model_item (cro_book_get_model (book), item)->id),
                      CRO_CELL_INT (amount), CRO_CELL_STR (cro_edit_unit_code (unit)) };

  if (now == NULL)
    return FALSE;
  cro_date_format (date, day);
  return put_row (book, "service_stock", find_in_house (now, item), columns, cells,
                  amount == CRO_NOT_SET, error);
}

gboolean
cro_edit_set_in_house (CroBook     *book,
                       const char  *label,
                       CroDate      date,
                       const char  *service,
                       guint32      item,
                       gint64       amount,
                       CroUnit      unit,
                       GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, set_in_house (book, date, service, item, amount, unit, error), error);
}
