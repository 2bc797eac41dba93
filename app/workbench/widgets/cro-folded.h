/* cro-folded.h: what is folded away under a line that says what is in it. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* A GtkExpander. */
GtkWidget *cro_folded_new       (GtkWidget  *child);

/* To the eye, cut where it is longer than its place, and whole as it is spoken. */
void       cro_folded_set_label (GtkWidget  *folded,
                                 const char *label);

G_END_DECLS
