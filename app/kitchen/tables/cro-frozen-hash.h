/* cro-frozen-hash.h: whether a closed month is as closing left it, in table month_rows and in its own row.
 *
 * The hash of a month (SHA-256, in hexadecimal) is that of its rows in the order of their bytes, so that
 * it is the same however they are stored; it tells of what was changed by hand, and is no proof against
 * somebody who reckons it anew. Of the columns of table months the journal tells, where it knows the row; the day
 * of the recipes and the money that was entered, till, ledger, estimate and stock, stand in the statement too. */
#pragma once

#include "cro-store.h"

G_BEGIN_DECLS

/* Of the rows as they stand in the store. Owned; NULL with error. */
char    *cro_frozen_hash       (CroStore        *store,
                                gint64           month,
                                GError         **error);

/* Whether one closed month is as closing left it: its rows have that hash, if any, are of its days and add up to its
 * statement's figures, and its own row is what the journal and the statement say. FALSE with error. */
gboolean cro_frozen_is_kept    (CroStore        *store,
                                gint64           month,
                                const char      *hash,
                                gboolean        *is_kept,
                                GError         **error);

/* Within an act: what was changed in the file of a closed month is again as closing left it, as far as the journal
 * and the statement tell; frozen rows that the journal does not know go. Nothing where it is kept, and its rows are
 * those that are told. FALSE with error. */
gboolean cro_frozen_put_back   (CroStore        *store,
                                gint64           month,
                                const char      *hash,
                                GError         **error);

/* Told of each month that is not as closing left it: "2026-10". */
typedef void (*CroFrozenFound) (const char      *month,
                                gpointer         user_data);

/* Looks at every closed month, and for those that were (cro-frozen-gone.h). n_tried may be NULL. FALSE with error. */
gboolean cro_frozen_verify     (CroStore        *store,
                                CroFrozenFound   found,
                                gpointer         user_data,
                                guint64         *n_tried,
                                GError         **error);

G_END_DECLS
