/* cro-last-look.h: since when somebody has not looked at the market, and which plates and menus have gone
 * over their targets since: the book as it stood at the end of that day is held against the book of now.
 *
 * The days are the person's, and kept with what the program remembers of the book. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

typedef struct _CroLastLook CroLastLook;

/* changed (user_data) is called when the book of that day has come; owner goes on while it is read. */
CroLastLook *cro_last_look_new  (GtkWidget     *owner,
                                 GCallback      changed);
void         cro_last_look_free (CroLastLook   *self);

/* Somebody looks at a book today. */
void         cro_last_look_at   (CroLastLook   *self,
                                 CroBook       *book);

/* The day of the look before; CRO_NO_DAY: there was none, or that book is not there (yet). */
CroDate      cro_last_look_get_day (CroLastLook *self);

/* What a plate or a menu showed on that day, by the id of the thing, and whether it was over its target;
 * NULL: it was not there. Borrowed. */
const char  *cro_last_look_get  (CroLastLook   *self,
                                 gint64         id,
                                 gboolean      *was_over);

G_END_DECLS
