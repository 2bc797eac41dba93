/* cro-measure.h: what widgets that lay out others ask of them.
 *
 * Units      Pixels of the toolkit. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* So many characters of the widget's own font, in any language as in English: it grows with the size of the
 * text. */
int cro_measure_chars  (GtkWidget *widget,
                        int        chars);

/* The child, or the next of those behind it that is laid out; NULL: there is none. child may be NULL. */
GtkWidget *cro_measure_shown (GtkWidget *child);

/* The least width of a child. */
int cro_measure_least  (GtkWidget *child);

/* The widths of a row that may be broken between any two children: what the widest needs, and what all that are shown
 * would like beside each other with the spacing between them. */
void cro_measure_row   (GtkWidget *parent,
                        int        spacing,
                        int       *minimum,
                        int       *natural);

/* What a child wants for a width; 0 of one that is not shown. */
int cro_measure_height (GtkWidget *child,
                        int        width);

/* For gtk_label_set_width_chars () of a label that breaks where there is no room, and would like to break nowhere: no
 * more than most, and less than the text takes, however narrow its letters are. */
int        cro_measure_least_chars (const char *text,
                                    int         most);

G_END_DECLS
