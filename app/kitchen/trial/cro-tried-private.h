/* cro-tried-private.h: how one thing that was tried is made, by the files that find it or read it. */
#pragma once

#include "cro-tried.h"

G_BEGIN_DECLS

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

/* Which of the tables of dated prices it is; -1: none. */
int       cro_tried_dated    (const char   *table);

/* What a row of one of them says of its price, by column; NULL-terminated. Static. */
const char *const *cro_tried_dated_columns (int which);

G_END_DECLS
