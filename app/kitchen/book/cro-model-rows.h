/* cro-model-rows.h: how a row of each table is taken into the model. */
#pragma once

#include "cro-decimal.h"
#include "cro-model.h"

G_BEGIN_DECLS

/* Columns of a row that can be previewed at once: count, size and unit of a pack. */
#define CRO_PREVIEW_MOST 3

#define CRO_MODEL_MOST_COLUMNS 16

/* What a whole number in a column can be, as the schema has it; a text has no range. */
typedef struct
{
  const char *name;
  gint64      least;
  gint64      most;
} CroModelColumn;

#define CRO_OF_TEXT 0, 0
#define CRO_OF_ID 1, G_MAXINT64
#define CRO_FROM_0 0, G_MAXINT64
#define CRO_ABOVE_0 1, G_MAXINT64
#define CRO_FROM_TO(from, to) (from), (to)
#define CRO_PART_PCT 1, 100 * CRO_MICRO   /* above 0, 100 % at most */
#define CRO_YIELD_PCT 1, 1000 * CRO_MICRO /* above 0, 1000 % at most */

/* A row as it stands in the store, or with some cells as a preview has them. Whoever takes it says
 * what no book can hold: then nothing of it is taken. */
typedef struct
{
  CroCell  cells[CRO_MODEL_MOST_COLUMNS];
  gboolean is_preview;
  gboolean is_damaged;
  int      bad;       /* the column */
} CroModelRow;

typedef CroTouched (*CroTakeRow) (CroModel    *model,
                                  gint64       id,
                                  CroModelRow *record);
typedef CroTouched (*CroDropRow) (CroModel  *model,
                                  gint64     id);

typedef struct
{
  const char           *table;
  const CroModelColumn *columns; /* ended by one without a name */
  CroTakeRow            take;
  CroDropRow            drop;
} CroModelTable;

/* Puts the row in hand into record; its columns stand from the one first on. DAMAGED where a number
 * is beyond its range. */
gboolean cro_model_row_read  (CroModelRow          *record,
                              const CroModelColumn *columns,
                              CroRows              *rows,
                              int                   first,
                              GError              **error);

/* As a preview has some of its columns (NULL-terminated; NULL: none). */
void     cro_model_row_show  (CroModelRow          *record,
                              const CroModelTable  *table,
                              const char *const    *columns,
                              const CroCell        *cells);

/* NULL: no figure is computed from a table of that name, or not row by row. */
const CroModelTable *cro_model_table_find (const char *name);

/* "id" and the columns of a table, NULL-terminated. */
void     cro_model_table_columns (const CroModelTable *table,
                                  const char          *columns[CRO_MODEL_MOST_COLUMNS + 2]);

/* Whether the table reads a column that an update moved. moved: JSON by column name, as CroChange has it. */
gboolean cro_model_table_reads (const CroModelTable *table,
                                const char          *moved);

/* Ended by NULL; what a row names comes first. */
extern const CroModelTable *const cro_model_rows[];

G_END_DECLS
