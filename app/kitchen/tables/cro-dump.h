/* cro-dump.h: a book into a folder of tables.
 *
 * Errors     CRO_STORE_ERROR or G_FILE_ERROR. Each file is written beside its target and
 *            renamed when whole. */
#pragma once

#include <glib.h>

#include "cro-store.h"

G_BEGIN_DECLS

/* Writes every table, sorted by key; makes the folder if it is not there. The store is read in
 * one transaction, so that the tables agree with each other. */
gboolean cro_dump (CroStore    *store,
                   const char  *folder,
                   GError     **error);

G_END_DECLS
