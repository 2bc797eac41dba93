/* cro-kept-row.h: a row as it stands in the store, kept in memory for previews: once it was read, a
 * key that is typed asks the store nothing.
 *
 * Ownership  It holds copies of all texts. It is good for the edition of the book that it was read
 *            at, and for the model that holds the row. */
#pragma once

#include "cro-model.h"

G_BEGIN_DECLS

typedef struct _CroKeptRow CroKeptRow;

/* Reads a row, of which no preview is shown, and what its figures take from rows beside it. NULL
 * without an error: a preview of it takes more of the store than that (settings of the book, rates). */
CroKeptRow *cro_kept_row_new   (CroModel           *model,
                                CroStore           *store,
                                const char         *table,
                                gint64              id,
                                GError            **error);

/* The price of an offer, by slot, which need not have one yet. */
CroKeptRow *cro_kept_row_new_price (CroModel       *model,
                                    guint32         offer);

void        cro_kept_row_free  (CroKeptRow         *self);

/* Takes it into the model, with prices as of date, as if columns (NULL-terminated, CRO_PREVIEW_MOST at most) held
 * cells; NULL: as it stands in the store. *touched as with cro_model_take. DAMAGED where a cell is none that the
 * column can hold: then nothing is taken. */
gboolean    cro_kept_row_take  (const CroKeptRow   *self,
                                CroModel           *model,
                                CroDate             date,
                                const char *const  *columns,
                                const CroCell      *cells,
                                CroTouched         *touched,
                                GError            **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroKeptRow, cro_kept_row_free)

G_END_DECLS
