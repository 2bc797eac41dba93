/* cro-tried-private.h: how one thing that was tried is made, by the files that find it or read it. */
#pragma once

#include "cro-tried.h"

G_BEGIN_DECLS

/* A table of dated prices. */
typedef struct
{
  const char        *table;
  const char        *of;           /* the column that says what a row of it is of */
  const char *const  columns[8];   /* what a row says of its price; NULL-terminated */
} CroTriedDated;

/* Without cells. table is copied. */
CroTried *cro_tried_new      (CroTriedKind  kind,
                              const char   *table,
                              gint64        id);

/* Copies both. */
void      cro_tried_add_cell (CroTried     *self,
                              const char   *column,
                              CroCell       cell);

/* Owned. */
CroTried *cro_tried_copy     (const CroTried *self);

/* The table of dated prices of that name; NULL: it is none. Static. */
const CroTriedDated *cro_tried_dated (const char *table);

G_END_DECLS
