/* cro-broken-rows.h: which rows of a table break a rule of its columns: SQLite tells the table alone. */
#pragma once

#include "cro-store-private.h"

G_BEGIN_DECLS

typedef void (*CroBrokenRow) (gint64 row, gpointer user_data);

/* Each row that a new book would refuse. Nothing of the book is written. */
gboolean cro_broken_rows     (sqlite3       *db,
                              const char    *table,
                              CroBrokenRow   broken,
                              gpointer       user_data,
                              GError       **error);

/* What a row is called: its own name, or those of the rows that it names, as "Dill, Quay Shellfish". Owned; NULL
 * where there is none. */
char    *cro_row_dup_name    (sqlite3       *db,
                              const char    *table,
                              gint64         row);

G_END_DECLS
