/* cro-lines-view.h: the lines of a plate or a preparation, each field of them to change, and
 * the quick line after the last.
 *
 * Up and Down lead along a column; what is done with a line (its place, a copy, its removal) are
 * the actions "line.…" with its slot. */
#pragma once

#include "cro-pane.h"

G_BEGIN_DECLS

#define CRO_TYPE_LINES_VIEW (cro_lines_view_get_type ())
G_DECLARE_FINAL_TYPE (CroLinesView, cro_lines_view, CRO, LINES_VIEW, GtkWidget)

/* bench: whom it asks to open things and to say what happened; borrowed. */
GtkWidget *cro_lines_view_new     (CroBench     *bench);

/* Shows the lines of another recipe. */
void       cro_lines_view_put     (CroLinesView *self,
                                   guint32       recipe);

/* Where the next line is typed; borrowed. */
GtkWidget *cro_lines_view_get_next (CroLinesView *self);

/* Figures and values anew; rows that stay keep their widgets and the focus. */
void       cro_lines_view_refresh (CroLinesView *self);

/* A picture can be beside its rows; of a lines view. */
extern const CroPaneRows cro_lines_view_rows;

G_END_DECLS
