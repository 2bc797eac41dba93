/* cro-later.h: a book is told of what moved once the event that moved it is over.
 *
 * An act is made when its field is left, in the midst of a focus that changes: a row that went
 * with it would be freed under the toolkit's hands. So what shows the book is refreshed in an idle
 * of its own, before the next event and before the next frame is laid out.
 *
 * A command that goes on to a row it made calls cro_book_tell first; nothing else may. */
#pragma once

#include "cro-book.h"

G_BEGIN_DECLS

/* For every book that a window shows; again does no harm. */
void cro_later_begin (CroBook *book);

G_END_DECLS
