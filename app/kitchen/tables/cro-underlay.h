/* cro-underlay.h: the rows of a book beneath those of a folder that is added to it.
 *
 * Rows meet by the key of their table. Rows of sales, counts, purchases and adjustments have none:
 * of equal ones as many as the book has are passed over, unless they are wanted again.
 *
 * Ownership  An underlay owns its rows.
 * Errors     CRO_STORE_ERROR and G_FILE_ERROR. */
#pragma once

#include "cro-add.h"
#include "cro-sheets-private.h"
#include "cro-store.h"

G_BEGIN_DECLS

/* The rows of the store as they stand. */
CroUnderlay *cro_underlay_new  (CroStore       *store,
                                gboolean        again,
                                GError        **error);
void         cro_underlay_free (CroUnderlay    *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroUnderlay, cro_underlay_free)

/* The table that the reader is at, from the folder and from beneath. */
gboolean     cro_underlay_read (CroUnderlay    *self,
                                CroSheetReader *reader,
                                const char     *folder,
                                GError        **error);

/* Rows of the folder that were passed over, in the order in which they were read. Elements
 * CroPassedOver. Borrowed. */
GArray      *cro_underlay_get_passed_over (CroUnderlay *self);

/* Whether a plate or a preparation of the book has a picture of that name. */
gboolean     cro_underlay_has_picture (CroUnderlay *self,
                                       const char  *name);

G_END_DECLS
