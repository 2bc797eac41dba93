/* cro-cells.h: one row of a table: widgets side by side, each as wide as its column. */
#pragma once

#include <gtk/gtk.h>

#include "cro-columns.h"

G_BEGIN_DECLS

#define CRO_TYPE_CELLS (cro_cells_get_type ())
G_DECLARE_FINAL_TYPE (CroCells, cro_cells, CRO, CELLS, GtkWidget)

/* Holds columns. */
GtkWidget *cro_cells_new      (CroColumns  *columns);

/* For the next column. */
void       cro_cells_append   (CroCells    *self,
                               GtkWidget   *child);

/* A label for the next column, which is of that number. */
void       cro_cells_append_text (CroCells *self,
                                  guint     column);

/* A label in each column: numbers at the right, digits under digits. */
GtkWidget *cro_cells_new_texts (CroColumns *columns);

/* The child of a column. Borrowed. */
GtkWidget *cro_cells_get_child (CroCells   *self,
                               guint        column);

/* The text of such a label. */
void       cro_cells_set_text (CroCells    *self,
                               guint        column,
                               const char  *text);

G_END_DECLS
