/* cro-dump.h: a book into a folder of tables.
 *
 * Errors     CRO_STORE_ERROR, G_FILE_ERROR or CRO_LOAD_ERROR_CANCELLED; then the folder is as it
 *            was. A folder that a kill left half written is marked, and cannot be loaded. */
#pragma once

#include <glib.h>

#include "cro-load.h"
#include "cro-store.h"
#include "cro-table.h"

G_BEGIN_DECLS

/* Writes every table, sorted by key; makes the folder if it is not there. The store is read in
 * one transaction, so that the tables agree with each other. go_on is asked before each table,
 * and may be NULL. */
gboolean cro_dump (CroStore     *store,
                   const char   *folder,
                   CroLoadGoOn   go_on,
                   gpointer      user_data,
                   GError      **error);

/* Rows of a table, sorted: fields of n rows one after the other, borrowed until it returns. */
typedef gboolean (*CroDumpTable) (CroTableId        id,
                                  const CroField   *fields,
                                  guint             n,
                                  gpointer          user_data,
                                  GError          **error);

/* The same without files: table is called for each. Within a moment of the store or an act. */
gboolean cro_dump_each (CroStore      *store,
                        CroDumpTable   table,
                        gpointer       user_data,
                        GError       **error);

G_END_DECLS
