/* cro-frozen-hash.h: whether rows of table month_rows are those that closing froze.
 *
 * The hash of a month (SHA-256, in hexadecimal) is that of its rows in the order of their bytes, so that
 * it is the same however they are stored; it tells of what was changed by hand, and is no proof against
 * somebody who reckons it anew. */
#pragma once

#include "cro-store.h"

G_BEGIN_DECLS

/* Of the rows as they stand in the store. Owned; NULL with error. */
char    *cro_frozen_hash       (CroStore        *store,
                                gint64           month,
                                GError         **error);

/* Whether rows of one closed month have that hash and add up to its statement's figures. FALSE with error. */
gboolean cro_frozen_is_kept    (CroStore        *store,
                                gint64           month,
                                const char      *hash,
                                gboolean        *is_kept,
                                GError         **error);

/* Told of each month whose rows do not fit its hash or its statement: "2026-10". */
typedef void (*CroFrozenFound) (const char      *month,
                                gpointer         user_data);

/* Looks at every closed month that has a hash: whether that is the hash of its rows, and whether these add up
 * to the statement's figures. n_tried may be NULL. FALSE with error. */
gboolean cro_frozen_verify     (CroStore        *store,
                                CroFrozenFound   found,
                                gpointer         user_data,
                                guint64         *n_tried,
                                GError         **error);

G_END_DECLS
