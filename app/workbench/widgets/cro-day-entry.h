/* cro-day-entry.h: a field for the day from which something holds, which may stay empty. */
#pragma once

#include <gtk/gtk.h>

#include "cro-book.h"

G_BEGIN_DECLS

/* What is typed in it is of the moment: it is not remembered as text that was left unfinished (cro-draft.h). */
void     cro_day_entry_set_fleeting (GtkWidget *entry);
gboolean cro_day_entry_is_fleeting  (GtkWidget *entry);

/* Shows the day that an empty field means, the book's, as an example of how one is typed; and is as wide as a day. */
void     cro_day_entry_show (GtkWidget   *entry,
                             CroBook     *book);

/* Of a field whose value was refused for the day beside it: the reason is told at the entry of the day, not there. */
#define CRO_DAY_ENTRY_ERROR (cro_day_entry_error_quark ())
GQuark   cro_day_entry_error_quark  (void);

/* The day in the field, or the book's where it is empty. FALSE: it is none, and *reason says what
 * may be typed; owned. */
gboolean cro_day_entry_read (GtkWidget   *entry,
                             CroBook     *book,
                             CroDate     *day,
                             char       **reason);

G_END_DECLS
