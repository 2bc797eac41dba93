/* cro-line-details.h: what a line seldom says otherwise: how it is weighed, its yield, what comes
 * back, its unit, its note, its place among the lines. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_LINE_DETAILS (cro_line_details_get_type ())
G_DECLARE_FINAL_TYPE (CroLineDetails, cro_line_details, CRO, LINE_DETAILS, GtkWidget)

GtkWidget *cro_line_details_new     (CroBench       *bench,
                                     guint32         line);

void       cro_line_details_refresh (CroLineDetails *self);

G_END_DECLS
