/* cro-marks.h: signs side by side in cells of one width, one of which the focus can stand on.
 *
 * Signs are drawn, and there is no widget for each: a long table of them would be a thousand. The focus
 * has two widgets that take turns, so that a screen reader hears each cell that it comes to. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_MARKS (cro_marks_get_type ())
G_DECLARE_FINAL_TYPE (CroMarks, cro_marks, CRO, MARKS, GtkWidget)

GtkWidget *cro_marks_new       (guint       n);

/* sign: static. */
void       cro_marks_set       (CroMarks   *self,
                                guint       column,
                                const char *sign);

/* The focus goes to a cell. said: what a screen reader says of it. */
void       cro_marks_point     (CroMarks   *self,
                                guint       column,
                                const char *said);

/* The same cell says something else. */
void       cro_marks_say       (CroMarks   *self,
                                const char *said);

gboolean   cro_marks_has_focus (CroMarks   *self);

/* The cell at a place from its left. */
guint      cro_marks_column_at (CroMarks   *self,
                                double      x);

/* The place of a cell from its left: for whoever lays something out over them. */
void       cro_marks_place     (guint       column,
                                guint       n,
                                int         width,
                                gboolean    is_rtl,
                                int        *x,
                                int        *cell);

G_END_DECLS
