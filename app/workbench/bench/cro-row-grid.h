/* cro-row-grid.h: rows of one table of the book under each other, with a head over each column:
 * inputs that change a row, labels that say what it comes to, a button that removes it.
 *
 * Rows are known by their ids: those that stay keep their widgets, and with them the focus and what
 * is typed, wherever they move; new ones are added; those that are gone leave last, and their focus
 * goes to the row that takes their place.
 *
 * Signals    "remove" (gint64 id): the button of a row was pressed. */
#pragma once

#include "cro-bench.h"
#include "cro-input.h"

G_BEGIN_DECLS

#define CRO_TYPE_ROW_GRID (cro_row_grid_get_type ())
G_DECLARE_FINAL_TYPE (CroRowGrid, cro_row_grid, CRO, ROW_GRID, GtkWidget)

/* Between rows, in pixels. */
#define CRO_ROW_GRID_SPACING 3

/* Of the book of a bench. refuge takes the focus where there is no row any more, and from a field of a row that goes:
 * it is to hold no value that what is typed on could be; borrowed. */
GtkWidget *cro_row_grid_new         (CroBench      *bench,
                                     const char    *table,
                                     GtkWidget     *refuge);

/* From this column on, of heads and rows, cells stand on a second line under the first ones: for a
 * table that is wider than the page. To be called before there are any. */
void       cro_row_grid_break_at    (CroRowGrid    *self,
                                     guint          column);

/* A column stands in the place of the one before it, as wide as the wider of both: a row shows one of them. To be
 * called before there are any. */
void       cro_row_grid_share_place (CroRowGrid    *self,
                                     guint          column);

/* The rows that are to be shown, one after the other, from here to cro_row_grid_end. */
void       cro_row_grid_begin       (CroRowGrid    *self);

/* Whether the heads are to be added, as key is not that of the last ones: all rows are made anew
 * under others, for another set of columns. What is typed in them stays. */
gboolean   cro_row_grid_begin_heads (CroRowGrid    *self,
                                     const char    *key);
void       cro_row_grid_add_head    (CroRowGrid    *self,
                                     const char    *text,
                                     gboolean       is_number);

/* Borrowed. */
GtkWidget *cro_row_grid_get_head    (CroRowGrid    *self,
                                     guint          column);

/* The head that was added last has two lines, broken at the blank nearest to its middle: no unit stands alone. */
void       cro_row_grid_keep_head   (CroRowGrid    *self);

/* The next row; whether it is new: then its cells are added. */
gboolean   cro_row_grid_add_row     (CroRowGrid    *self,
                                     gint64         id);

/* Whether its fields are called otherwise than name would have it: then they are named. */
gboolean   cro_row_grid_rename_row  (CroRowGrid    *self,
                                     const char    *name);

/* A field of a column of the row. */
GtkWidget *cro_row_grid_add_input   (CroRowGrid    *self,
                                     CroInputKind   kind,
                                     CroRange       range,
                                     int            width,
                                     const char    *column);
/* Any other control. */
void       cro_row_grid_add         (CroRowGrid    *self,
                                     GtkWidget     *control);
void       cro_row_grid_add_label   (CroRowGrid    *self,
                                     gboolean       is_number);

/* A number that keeps the room of so many characters: what is typed beside it moves nothing. */
void       cro_row_grid_add_figure  (CroRowGrid    *self,
                                     int            chars);
void       cro_row_grid_add_removal (CroRowGrid    *self);

/* Names a control of the row. act: the label of the acts of a field; NULL: it makes none. */
void       cro_row_grid_name        (CroRowGrid    *self,
                                     guint          column,
                                     const char    *act,
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

/* Whether a cell, or the head of a column, is seen; it keeps its room. A new one is. */
void       cro_row_grid_show_cell   (CroRowGrid    *self,
                                     guint          row,
                                     guint          column,
                                     gboolean       is_shown);
void       cro_row_grid_show_head   (CroRowGrid    *self,
                                     guint          column,
                                     gboolean       is_shown);

/* What stands over a row over its whole width, as the head of those that follow; NULL: nothing. It goes
 * with the row, or where another is put there. */
GtkWidget *cro_row_grid_get_above   (CroRowGrid    *self,
                                     guint          row);
void       cro_row_grid_put_above   (CroRowGrid    *self,
                                     guint          row,
                                     GtkWidget     *above);

/* The row that has the focus, -1: none. */
int        cro_row_grid_get_focus_row (CroRowGrid  *self);

G_END_DECLS
