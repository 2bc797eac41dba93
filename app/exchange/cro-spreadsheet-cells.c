#include "cro-spreadsheet-private.h"

void
cro_read_cells_init (CroReadCells *self)
{
  self->texts = g_string_new (NULL);
  self->cells = g_array_new (FALSE, FALSE, sizeof (CroReadCell));
  self->starts = g_array_new (FALSE, FALSE, sizeof (gsize));
}

void
cro_read_cells_clear (CroReadCells *self)
{
  g_string_free (self->texts, TRUE);
  g_array_unref (self->cells);
  g_array_unref (self->starts);
}

void
cro_read_cells_empty (CroReadCells *self)
{
  g_string_truncate (self->texts, 0);
  g_array_set_size (self->cells, 0);
  g_array_set_size (self->starts, 0);
}

static void
append (CroReadCells    *self,
        CroReadCellKind  kind,
        const char  *text,
        gsize        length)
{
  CroReadCell cell = { length > 0 && *text != '\0' ? kind : CRO_READ_CELL_EMPTY, NULL };
  gsize start = self->texts->len;

  g_string_append_len (self->texts, text, (gssize) length);
  g_string_append_c (self->texts, '\0');
  g_array_append_val (self->cells, cell);
  g_array_append_val (self->starts, start);
}

gboolean
cro_read_cells_put (CroReadCells    *self,
               guint        column,
               CroReadCellKind  kind,
               const char  *text,
               gsize        length)
{
  if (column < self->cells->len || column >= CRO_SPREADSHEET_MOST_COLUMNS
      || self->texts->len + length > CRO_SPREADSHEET_MOST_ROW)
    return FALSE;
  while (self->cells->len < column)
    append (self, CRO_READ_CELL_EMPTY, "", 0);
  append (self, kind, text, length);
  return TRUE;
}

gboolean
cro_read_cells_hand_on (CroReadCells                  *self,
                   guint                      row,
                   const CroSpreadsheetTaker *taker,
                   gpointer                   user_data)
{
  CroReadCell *cells = (CroReadCell *) (void *) self->cells->data;
  gboolean goes_on = TRUE, has_any = FALSE;

  /* Only now, as texts move while they grow. */
  for (guint i = 0; i < self->cells->len; i++)
    {
      cells[i].text = self->texts->str + g_array_index (self->starts, gsize, i);
      has_any |= cells[i].kind != CRO_READ_CELL_EMPTY;
    }
  if (has_any && taker->row != NULL)
    goes_on = taker->row (row, cells, self->cells->len, user_data);
  cro_read_cells_empty (self);
  return goes_on;
}
