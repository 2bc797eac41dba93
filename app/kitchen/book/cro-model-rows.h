/* cro-model-rows.h: how a row of each table is taken into the model. */
#pragma once

#include "cro-model.h"

G_BEGIN_DECLS

/* Columns of a row that can be previewed at once: an amount and its unit. */
#define CRO_PREVIEW_MOST 2

/* A row as it stands in the store, or with some columns as a preview has them. */
typedef struct
{
  CroRows       *rows;     /* the id, then the table's columns */
  int            columns[CRO_PREVIEW_MOST]; /* indexes of the previewed columns */
  const CroCell *cells;    /* theirs */
  int            n;
} CroModelRow;

typedef CroTouched (*CroTakeRow) (CroModel    *model,
                                  gint64       id,
                                  CroModelRow *record);
typedef CroTouched (*CroDropRow) (CroModel  *model,
                                  gint64     id);

typedef struct
{
  const char        *table;
  const char *const *columns;
  CroTakeRow         take;
  CroDropRow         drop;
} CroModelTable;

/* Ended by NULL; what a row names comes first. */
extern const CroModelTable *const cro_model_rows[];

G_END_DECLS
