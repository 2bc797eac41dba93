/* cro-ceiling-line.h: what may be paid for an ingredient at most, in a line of its own: told after the
 * frame, as it hangs on all that takes it. Its
 * room is kept where nothing is said. */
#pragma once

#include <gtk/gtk.h>

#include "cro-book.h"

G_BEGIN_DECLS

#define CRO_TYPE_CEILING_LINE (cro_ceiling_line_get_type ())
G_DECLARE_FINAL_TYPE (CroCeilingLine, cro_ceiling_line, CRO, CEILING_LINE, GtkWidget)

GtkWidget *cro_ceiling_line_new (void);

/* Per pack too where offer is the one in use. item may be CRO_NO_SLOT: nothing is said. */
void       cro_ceiling_line_set (CroCeilingLine *self,
                                 CroBook        *book,
                                 guint32         item,
                                 guint32         offer);

G_END_DECLS
