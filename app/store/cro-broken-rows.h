/* cro-broken-rows.h: which rows of a table break a rule of its columns: SQLite tells the table alone. */
#pragma once

#include "cro-store-private.h"

G_BEGIN_DECLS

/* why: the rule that the row breaks, in the words of SQLite. Borrowed. */
typedef void (*CroBrokenRow) (gint64      row,
                              const char *why,
                              gpointer    user_data);

/* Each row that a new book would refuse. Nothing of the book is written. */
gboolean cro_broken_rows     (sqlite3       *db,
                              const char    *table,
                              CroBrokenRow   broken,
                              gpointer       user_data,
                              GError       **error);

/* What a row is called: its own name, or those of the rows that it names and its day, as "Dill, Quay Shellfish,
 * 2026-03-01". is_own: no other row of the table is called so. Owned; NULL where there is none. */
char    *cro_row_dup_name    (sqlite3       *db,
                              const char    *table,
                              gint64         row,
                              gboolean      *is_own);

G_END_DECLS
