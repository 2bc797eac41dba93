/* cro-merge-private.h: the rows of an item that become another one's, within an open act. */
#pragma once

#include "cro-edit.h"

G_BEGIN_DECLS

/* Its lines are the other one's by then. */
gboolean cro_merge_rows (CroBook  *book,
                         guint32   item,
                         guint32   into,
                         GError  **error);

G_END_DECLS
