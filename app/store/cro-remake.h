/* cro-remake.h: tables that become those of a newer schema, with their rows.
 *
 * Errors  CRO_STORE_ERROR, or the connection's; within a transaction that is then to be rolled
 *         back. */
#pragma once

#include "cro-migration.h"

G_BEGIN_DECLS

/* What differs in text from the schema is dropped and made anew by it: tables keep the rows of the
 * columns that both have, under the names that the steps from version gave them, and the counters
 * of their ids. References are off, and the journal's triggers away. */
gboolean cro_remake_tables (sqlite3             *db,
                            const CroMigration  *to,
                            int                  version,
                            GError             **error);

G_END_DECLS
