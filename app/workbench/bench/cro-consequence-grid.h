/* cro-consequence-grid.h: what plates or menus come to by a change that is not kept yet, a row for each: its name, what
 * it costs and the result, from and to, and whether it is over its target. */
#pragma once

#include <gtk/gtk.h>

#include "cro-model.h"

G_BEGIN_DECLS

/* Floating, and empty. */
GtkWidget *cro_consequence_grid_new      (void);

void       cro_consequence_grid_clear    (GtkWidget  *grid);

/* Dimmed, in a row of its own that is as wide as all. */
void       cro_consequence_grid_add_text (GtkWidget  *grid,
                                          int         row,
                                          const char *text);

/* Below what stands there already. title: of a choice of two, else NULL; all: CroConsequence, of which the first are
 * shown and the others counted. is_of_menus: where there are none, no menu moves; else no plate. */
void       cro_consequence_grid_add      (GtkWidget  *grid,
                                          CroModel   *model,
                                          const char *title,
                                          GArray     *all,
                                          gboolean    is_of_menus);

G_END_DECLS
