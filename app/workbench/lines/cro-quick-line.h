/* cro-quick-line.h: the line after the last, in which a recipe is typed: "25 g butter 9.20/kg".
 *
 * It says under itself what Enter would do: take an item, or make one with its price. What was
 * pasted in several lines is placed line by line; what could not be placed is kept, and is typed
 * text (cro-typed.h) in lines of its own behind what is typed. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_QUICK_LINE (cro_quick_line_get_type ())
G_DECLARE_FINAL_TYPE (CroQuickLine, cro_quick_line, CRO, QUICK_LINE, GtkWidget)

GtkWidget *cro_quick_line_new (CroBench     *bench);

void       cro_quick_line_put (CroQuickLine *self,
                               guint32       recipe);

G_END_DECLS
