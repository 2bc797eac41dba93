#include "cro-spreadsheet-private.h"

#include <string.h>

static const CroReadCell empty = { CRO_READ_CELL_EMPTY, "", NULL, FALSE };

void
cro_read_cells_init (CroReadCells *self)
{
  self->texts = g_malloc (CRO_SPREADSHEET_MOST_ROW + 1);
  self->cells = g_new (CroReadCell, CRO_SPREADSHEET_MOST_COLUMNS);
  self->filled = g_new (guint, CRO_SPREADSHEET_MOST_COLUMNS);
  self->n_bytes = self->n = self->n_filled = 0;
  for (guint i = 0; i < CRO_SPREADSHEET_MOST_COLUMNS; i++)
    self->cells[i] = empty;
}

void
cro_read_cells_clear (CroReadCells *self)
{
  g_free (self->texts);
  g_free (self->cells);
  g_free (self->filled);
}

static void
empty_cells (CroReadCells *self)
{
  for (guint i = 0; i < self->n_filled; i++)
    self->cells[self->filled[i]] = empty;
  self->n_bytes = self->n = self->n_filled = 0;
}

gboolean
cro_read_cells_put (CroReadCells    *self,
                    guint            column,
                    CroReadCellKind  kind,
                    const char      *text,
                    gsize            length,
                    const char      *around,
                    gboolean         is_hidden)
{
  char *own = self->texts + self->n_bytes;

  if (column < self->n || column >= CRO_SPREADSHEET_MOST_COLUMNS || self->n_bytes + length > CRO_SPREADSHEET_MOST_ROW)
    return FALSE;
  self->n = column + 1;
  if (length == 0 || *text == '\0')
    return TRUE;
  memcpy (own, text, length);
  own[length] = '\0';
  self->n_bytes += length + 1;
  self->cells[column] = (CroReadCell){ kind, own, around, is_hidden };
  self->filled[self->n_filled++] = column;
  return TRUE;
}

gboolean
cro_read_cells_hand_on (CroReadCells              *self,
                        guint                      row,
                        const CroSpreadsheetTaker *taker,
                        gpointer                   user_data)
{
  gboolean goes_on = self->n_filled == 0 || taker->row == NULL || taker->row (row, self->cells, self->n, user_data);

  empty_cells (self);
  return goes_on;
}
