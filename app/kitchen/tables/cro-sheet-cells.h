/* cro-sheet-cells.h: rows of the sheets as the store keeps them. */
#pragma once

#include "cro-date.h"
#include "cro-sheet-map.h"
#include "cro-store.h"

G_BEGIN_DECLS

/* The ids in the store of every table's rows, by number; 0: not in the store. */
typedef struct
{
  gint64 *of[CRO_N_TABLES];
} CroIds;

void  cro_ids_init    (CroIds          *ids,
                       const CroSheets *sheets);
void  cro_ids_clear   (CroIds          *ids);

/* Room for what a row's cells point to. */
typedef struct
{
  char dates[CRO_MAP_MOST][CRO_DATE_CHARS];
} CroCellText;

/* One cell per column of map; texts live in the sheets, in text, or for ever. */
void cro_cells_of_row (const CroSheets   *sheets,
                       const CroSheetMap *map,
                       guint              row,
                       const CroIds      *ids,
                       CroCell           *cells,
                       CroCellText       *text);

/* One cell per column of cro_book_columns; texts live in the sheets, or for ever. */
void cro_cells_of_book (const CroSheets   *sheets,
                        CroCell            cells[CRO_N_BOOK_KEYS]);

/* What a field that names nothing is kept as; what is not set as the map says. */
CroCell cro_cell_of_field (const CroMapColumn *map,
                           const CroColumn    *column,
                           const CroField     *field,
                           char                date[CRO_DATE_CHARS]);

/* Of rows whose keys are made so, those are equal whose cells are. */
void cro_cell_append_key (GString       *key,
                          const CroCell *cell);

guint cro_map_width   (const CroSheetMap *map);

gboolean cro_cell_equal (const CroCell *a,
                         const CroCell *b);

G_END_DECLS
