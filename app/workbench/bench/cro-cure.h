/* cro-cure.h: from what is missing to the field where it is entered.
 *
 * A field is marked by what it cures (cro_cure_set); what leads there says which cause it is about,
 * so that a price that is typed there lands in a price, and in nothing else. */
#pragma once

#include "cro-bench.h"
#include "cro-cause.h"

G_BEGIN_DECLS

/* Asks the window to open what cures a cause, with the focus on the field. */
void     cro_cure_open        (CroBench       *bench,
                               const CroCause *cause);

/* The same for the cost of a line that is not known; FALSE: nothing is missing there. */
gboolean cro_cure_open_line   (CroBench       *bench,
                               guint32         line);

/* Puts the focus on what cures a cause below widget: the field of that cause, or the first of any
 * other. cause may be CRO_NO_CAUSE. FALSE: there is none. */
gboolean cro_cure_focus       (GtkWidget      *widget,
                               int             cause);

G_END_DECLS
