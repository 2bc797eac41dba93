/* cro-waiting-lines.h: the lines that could not be placed, below the next line, each with why.
 *
 * It keeps their texts alone: whoever owns it takes one into the field, or forgets one, when told that a person
 * asks for it.
 *
 * Signals  taken (guint), dismissed (guint): of the line that stands there, counted from 0.
 *          changed: other lines stand here, or they in another order. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_WAITING_LINES (cro_waiting_lines_get_type ())
G_DECLARE_FINAL_TYPE (CroWaitingLines, cro_waiting_lines, CRO, WAITING_LINES, GtkWidget)

GtkWidget  *cro_waiting_lines_new      (CroBench           *bench);

guint       cro_waiting_lines_count    (CroWaitingLines    *self);

/* NULL: none stands there. Borrowed. */
const char *cro_waiting_lines_get      (CroWaitingLines    *self,
                                        guint               at);

/* In place of all that waited; lines ends with NULL. */
void        cro_waiting_lines_set      (CroWaitingLines    *self,
                                        const char *const  *lines);

/* Before all that wait. */
void        cro_waiting_lines_prepend  (CroWaitingLines    *self,
                                        const char *const  *lines);

/* Takes one out; what is given waits in its place, unless it is empty. Owned by the caller. */
char       *cro_waiting_lines_exchange (CroWaitingLines    *self,
                                        guint               at,
                                        const char         *text);

void        cro_waiting_lines_remove   (CroWaitingLines    *self,
                                        guint               at);

G_END_DECLS
