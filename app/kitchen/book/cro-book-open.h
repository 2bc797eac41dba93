/* cro-book-open.h: opening a book while somebody waits.
 *
 * Errors     Those of cro_book_open and cro_book_open_past. One that was ended by its watch fails
 *            with any of them. */
#pragma once

#include "cro-book.h"
#include "cro-watch.h"

G_BEGIN_DECLS

/* watch may be NULL; it is asked while rows are read, in the thread of the call. */
CroBook *cro_book_open_watched      (const char      *path,
                                     const char      *desk,
                                     CroStoreMode     mode,
                                     CroDate          date,
                                     const CroWatch  *watch,
                                     GError         **error);

CroBook *cro_book_open_past_watched (const char      *path,
                                     CroDate          day,
                                     CroDate          date,
                                     const CroWatch  *watch,
                                     GError         **error);

G_END_DECLS
