/* cro-fill.h: opening a book that is to be filled.
 *
 * Errors     CRO_STORE_ERROR, as of cro_store_open (). */
#pragma once

#include "cro-store.h"

G_BEGIN_DECLS

/* How the message of that RULE begins. */
#define CRO_STORE_NOT_EMPTY "the book is not empty"

/* To write it, if it holds nothing: otherwise RULE, and an older schema stays as it is. */
CroStore *cro_store_open_to_fill (const char  *path,
                                  const char  *desk,
                                  GError     **error);

/* RULE where it holds anything but units. Of the store alone. */
gboolean  cro_store_check_empty  (CroStore    *self,
                                  GError     **error);

G_END_DECLS
