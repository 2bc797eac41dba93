/* cro-record-keys.h: what rows are sorted and searched by, made once for as long as they are the
 * same.
 *
 * Threads    Of many rows the keys are made in threads, one for what is sorted and one for what is
 *            searched, while people look at the first ones; who asks sooner waits for that one. A
 *            sort then is a few passes over numbers.
 * Ownership  Rows are held; their texts must outlive the keys, and equal texts be one pointer. */
#pragma once

#include "cro-records-private.h"

G_BEGIN_DECLS

typedef struct _CroRecordKeys CroRecordKeys;

CroRecordKeys *cro_record_keys_new    (GArray         *rows,
                                       CroRecordsKind  kind);
void           cro_record_keys_free   (CroRecordKeys  *self);

/* All rows by index (guint32) in the order of a column; G_MAXUINT: as they stand. What is not set
 * comes last, equals in the order in which they stand. Owned. */
GArray        *cro_record_keys_sort   (CroRecordKeys  *self,
                                       guint           column,
                                       gboolean        falling);

/* The texts of a row as they are searched. Borrowed. */
const char    *cro_record_keys_folded (CroRecordKeys  *self,
                                       guint32         index);

G_END_DECLS
