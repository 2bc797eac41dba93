/* cro-not-set.h: numbers that a row may leave out: NULL in the store, CRO_NOT_SET where people count with them. */
#pragma once

#include "cro-model.h"

G_BEGIN_DECLS

static inline gint64
cro_row_number (CroRows *rows,
                int      column)
{
  return cro_rows_is_null (rows, column) ? CRO_NOT_SET : cro_rows_get_int (rows, column);
}

static inline gint64
cro_cell_number (const CroCell *cell)
{
  return cell->kind == CRO_CELL_NULL ? CRO_NOT_SET : cell->integer;
}

static inline CroCell
cro_number_cell (gint64 value)
{
  return value != CRO_NOT_SET ? CRO_CELL_INT (value) : CRO_CELL_NONE;
}

G_END_DECLS
