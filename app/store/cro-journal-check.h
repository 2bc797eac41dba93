/* cro-journal-check.h: whether the journal is one that this program can have written.
 *
 * Values of the kinds of their columns, names without strays (cro-stray.h), acts with times and
 * changes in one row. That the rows of the book are what the journal says is not asked here.
 *
 * Errors     CRO_STORE_ERROR. */
#pragma once

#include "cro-store.h"

#include <sqlite3.h>

G_BEGIN_DECLS

/* Columns of the book's tables whose text is no name; NULL-terminated. */
extern const char *const cro_free_texts[];

/* Makes a connection know what is asked: stray_in (text, column) is "U+202E", or NULL;
 * NULL too where the column's text is no name. */
gboolean cro_journal_check_configure (sqlite3        *db,
                                      GError        **error);

/* Tells all of it that is not as it has to be. */
gboolean cro_journal_check_all       (CroStore       *store,
                                      CroStoreFound   found,
                                      gpointer        user_data,
                                      GError        **error);

/* DAMAGED, with what is not as it has to be of one act and its changes. */
gboolean cro_journal_check_act       (CroStore       *store,
                                      gint64          act,
                                      GError        **error);

G_END_DECLS
