/* cro-replayer.h: gives rows back what a change of the journal says of them.
 *
 * Ownership  A table of replayers owns its statements: it goes before the connection does. */
#pragma once

#include <glib.h>
#include <sqlite3.h>

G_BEGIN_DECLS

/* Name of a table → its statements, made as they are asked for. */
GHashTable *cro_replayers_new  (void);

/* FALSE, DAMAGED, where the journal names a table that is not there. table may be NULL. */
gboolean    cro_replayers_know (GHashTable   *replayers,
                                sqlite3      *db,
                                const char   *table,
                                GError      **error);

/* Makes a row that is as from says be what to says, both JSON by column name; NULL is no row. A
 * column that the JSON does not name stays. SQLITE_DONE, where sqlite3_changes () is 0 if the row was
 * otherwise; or an extended code of SQLITE_CONSTRAINT; or SQLITE_ERROR, with the error set. */
int         cro_replayers_move (GHashTable   *replayers,
                                sqlite3      *db,
                                const char   *table,
                                gint64        row,
                                const char   *to,
                                const char   *from,
                                GError      **error);

G_END_DECLS
