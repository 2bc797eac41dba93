/* cro-row-grid.h: rows of one table of the book under each other, with a head over each column:
 * inputs that change a row, labels that say what it comes to, a button that removes it.
 *
 * Rows are made anew only where others are to be shown or are called otherwise, which a key tells;
 * the focus then goes back to its row and column.
 *
 * Signals    "remove" (gint64 id): the button of a row was pressed. */
#pragma once

#include "cro-bench.h"
#include "cro-input.h"

G_BEGIN_DECLS

#define CRO_TYPE_ROW_GRID (cro_row_grid_get_type ())
G_DECLARE_FINAL_TYPE (CroRowGrid, cro_row_grid, CRO, ROW_GRID, GtkWidget)

/* Of the book of a bench. refuge takes the focus where there is no row any more; borrowed. */
GtkWidget *cro_row_grid_new         (CroBench      *bench,
                                     const char    *table,
                                     GtkWidget     *refuge);

/* Whether it was made with that key. */
gboolean   cro_row_grid_shows       (CroRowGrid    *self,
                                     const char    *key);

/* Takes all rows away, to make others: heads first, then row after row with its cells. */
void       cro_row_grid_begin       (CroRowGrid    *self,
                                     const char    *key);
void       cro_row_grid_add_head    (CroRowGrid    *self,
                                     const char    *text,
                                     gboolean       is_number);
void       cro_row_grid_add_row     (CroRowGrid    *self,
                                     gint64         id);

/* A field of a column of the row. act: the label of its acts; name: its accessible name. */
GtkWidget *cro_row_grid_add_input   (CroRowGrid    *self,
                                     CroInputKind   kind,
                                     CroRange       range,
                                     int            width,
                                     const char    *column,
                                     const char    *act,
                                     const char    *name);
/* Any other control. */
void       cro_row_grid_add         (CroRowGrid    *self,
                                     GtkWidget     *control);
void       cro_row_grid_add_label   (CroRowGrid    *self,
                                     const char    *text,
                                     gboolean       is_number);
void       cro_row_grid_add_removal (CroRowGrid    *self,
                                     const char    *name);
void       cro_row_grid_end         (CroRowGrid    *self);

/* All inputs and choices from the book. */
void       cro_row_grid_refresh     (CroRowGrid    *self);

/* row counts from 0, as they were added. */
void       cro_row_grid_set_text    (CroRowGrid    *self,
                                     guint          row,
                                     guint          column,
                                     const char    *text);
GtkWidget *cro_row_grid_get         (CroRowGrid    *self,
                                     guint          row,
                                     guint          column);

G_END_DECLS
