/* cro-dated-fields.h: fields whose values hold from the day in an entry beside them.
 *
 * The day is of the next value alone. Once that is kept, once the focus goes elsewhere with nothing typed, or once
 * the thing is left, the entry is empty again, which means the day of the book: no day of before is at the next
 * value unseen. A day that no value followed is said to have changed nothing. Enter in the entry keeps what is typed
 * beside it; it goes there where the day is typed first, and on where a value was kept on the way already, of which the
 * day it holds from is said: the next value is not meant for the field before. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

/* fields: those of the day, ending with NULL, the first of them where a value is typed; as long-lived as the entry.
 * What stands around fields, with the button that keeps them, can be one too. Where the first is an entry of a form,
 * Enter is the form's own. */
void  cro_dated_fields_begin    (CroBench         *bench,
                                 GtkWidget        *day,
                                 GtkWidget *const *fields);

/* The day that a value is kept from. FALSE: what stands in the entry is none, which is said over it and leads there
 * who is in one of the fields; *error is of CRO_DAY_ENTRY_ERROR. Only where cro_dated_fields_tell () was asked for. */
gboolean cro_dated_fields_read  (GtkWidget        *day,
                                 CroDate          *from,
                                 GError          **error);

/* A value was kept from a day: the next begins with the book's again, and a day on which the book is not shown is
 * said. act: what was kept, as undo says it; text: as it was typed. */
void  cro_dated_fields_kept     (GtkWidget        *day,
                                 CroDate           from,
                                 const char       *act,
                                 const char       *text);

/* What the day that stands there means, or why it is none, is said over the entry from now on; it stands in a box. */
void  cro_dated_fields_tell     (GtkWidget        *day);

G_END_DECLS
