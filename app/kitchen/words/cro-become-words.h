/* cro-become-words.h: what is said of a plate, or of an ingredient, that becomes a preparation: what its
 * note keeps, and what a preparation has no place for.
 *
 * Ownership  Texts are the caller's; NULL where there is nothing to say. */
#pragma once

#include "cro-book.h"

G_BEGIN_DECLS

/* For the note of the preparation: "seasoning and handling 3 %; selling price 14.00". */
char *cro_become_note_of_plate (CroBook *book,
                                guint32  plate);

/* "allergens: fish, milk; may contain: celery". */
char *cro_become_note_of_item  (CroBook *book,
                                guint32  item);

/* What neither the preparation nor its note keeps: "course, tax, 2 dated selling prices". */
char *cro_become_dropped       (CroBook *book,
                                guint32  plate);

G_END_DECLS
