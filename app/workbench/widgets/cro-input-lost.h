/* cro-input-lost.h: what is typed into a field of a row that was removed meanwhile, in another window or by another
 * process: it can be kept nowhere, and is told before it goes. */
#pragma once

#include "cro-input.h"

G_BEGIN_DECLS

/* What stands in the field, if that is not what was stored there; act: what it is. By the action "bench.say", of what
 * the field stands in. */
void cro_input_lost_tell   (CroInput   *self,
                            const char *act,
                            const char *stored);

/* The same of all fields at or below a widget whose rows are gone; what is typed there is given up. For who takes the
 * widget away. */
void cro_input_lost_let_go (GtkWidget  *widget);

G_END_DECLS
