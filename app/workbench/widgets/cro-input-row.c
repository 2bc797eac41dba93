#include "cro-input-row.h"

gboolean
cro_input_row_is (const CroInputRow *row,
                  CroBook           *book,
                  const char        *table,
                  gint64             id,
                  const char        *column)
{
  return row->book == book && row->table == g_intern_string (table) && row->id == id
         && row->column == g_intern_string (column);
}

void
cro_input_row_set (CroInputRow *row,
                   CroBook     *book,
                   const char  *table,
                   gint64       id,
                   const char  *column)
{
  g_set_object (&row->book, book);
  row->table = g_intern_string (table);
  row->id = id;
  row->column = g_intern_string (column);
  row->there = 0;
}

void
cro_input_row_set_way (CroInputRow       *row,
                       const CroInputWay *way,
                       gpointer           owner)
{
  row->way = way;
  row->has_owner = owner != NULL;
  g_set_weak_pointer (&row->owner, owner);
}

void
cro_input_row_clear (CroInputRow *row)
{
  g_clear_object (&row->book);
  g_clear_pointer (&row->act, g_free);
  g_clear_weak_pointer (&row->owner);
}

gboolean
cro_input_row_lost_owner (const CroInputRow *row)
{
  return row->has_owner && row->owner == NULL;
}

static gboolean
is_there (CroInputRow *row)
{
  static const char *const columns[] = { "id", NULL };
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (row->book), row->table, row->id, columns, NULL);

  if (rows == NULL || !cro_rows_next (rows, NULL))
    return FALSE;
  row->there = cro_book_get_edition (row->book);
  return TRUE;
}

gboolean
cro_input_row_is_gone (CroInputRow *row)
{
  return cro_input_row_lost_owner (row) || (!is_there (row) && row->there != 0);
}

gboolean
cro_input_row_is_known_gone (CroInputRow *row)
{
  if (row->there == cro_book_get_edition (row->book))
    return cro_input_row_lost_owner (row);
  return cro_input_row_is_gone (row);
}

static char *
text_of_column (CroInputRow        *row,
                const CroInputType *type)
{
  const char *columns[] = { row->column, NULL };
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (row->book), row->table, row->id,
                                                 columns, NULL);

  if (rows == NULL || !cro_rows_next (rows, NULL))
    return g_strdup ("");
  row->there = cro_book_get_edition (row->book);
  return cro_input_type_dup_text (type, cro_book_get_model (row->book), rows);
}

char *
cro_input_row_dup_text (CroInputRow        *row,
                        const CroInputType *type,
                        CroInput           *input)
{
  if (row->way == NULL || row->way->dup_text == NULL)
    return text_of_column (row, type);
  if (cro_input_row_lost_owner (row) || (row->there != cro_book_get_edition (row->book) && !is_there (row)))
    return g_strdup ("");
  return row->way->dup_text (input, row->owner);
}

void
cro_input_row_look (CroInputRow *row,
                    CroInput    *input)
{
  cro_book_look_at (row->book, row->table, row->id, NULL);
  if (row->way != NULL && row->way->look != NULL && !cro_input_row_lost_owner (row))
    row->way->look (input, row->owner);
}

gboolean
cro_input_row_preview (CroInputRow    *row,
                       CroInput       *input,
                       const CroCell  *cell,
                       GError        **error)
{
  if (row->way != NULL && row->way->preview != NULL)
    return row->way->preview (input, cell, row->owner, error);
  return cro_book_preview (row->book, row->table, row->id, row->column, cell, error);
}

gboolean
cro_input_row_keep (CroInputRow    *row,
                    CroInput       *input,
                    const CroCell  *cell,
                    GError        **error)
{
  if (row->way != NULL && row->way->keep != NULL)
    return row->way->keep (input, cell, row->owner, error);
  return cro_book_set (row->book, row->act, row->table, row->id, row->column, cell, error);
}
