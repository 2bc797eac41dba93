/* cro-month-shelf.h: the months of a book as they were reckoned last, for all that shows them.
 *
 * A month is reckoned when it is asked for, one between two frames, and again when the book has moved: with its rows,
 * and what each thing took of closed ones alone, which may be compared.
 *
 * Ownership  A shelf belongs to its book, and lives as long. Months are borrowed, until the main loop runs.
 * Signals    "changed": months were reckoned, or have to be again; others are there, or none any more. */
#pragma once

#include <glib-object.h>

#include "cro-month.h"

G_BEGIN_DECLS

#define CRO_TYPE_MONTH_SHELF (cro_month_shelf_get_type ())
G_DECLARE_FINAL_TYPE (CroMonthShelf, cro_month_shelf, CRO, MONTH_SHELF, GObject)

/* That of a book, made when it is first asked for. Borrowed. */
CroMonthShelf  *cro_month_shelf_of     (CroBook        *book);

/* The months in which something is recorded, newest first: CroDate. Borrowed. */
GArray         *cro_month_shelf_list   (CroMonthShelf  *self);

/* As it was reckoned last; NULL: not yet. What is not of today's book is reckoned soon. */
const CroMonth *cro_month_shelf_peek   (CroMonthShelf  *self,
                                        CroDate         first);

/* Of the book as it is now. NULL with error. */
const CroMonth *cro_month_shelf_reckon (CroMonthShelf  *self,
                                        CroDate         first,
                                        GError        **error);

/* A month as a slot of CRO_REF_MONTH, and back. */
guint32         cro_month_to_slot      (CroDate         first);
CroDate         cro_month_of_slot      (guint32         slot);

G_END_DECLS
