/* cro-reason.h: what is said under a field: a note, or why what stands there cannot be kept. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The label for it, which takes no room as yet. */
GtkWidget *cro_reason_new  (void);

/* A field that has the width of what is said under it from the first on: fields beside it stay where they are. */
GtkWidget *cro_reason_keep_width (GtkWidget *field);

/* Where no room is kept for it: a bubble over what stands in box, which has a layout of its own, with the label
 * for it. It moves nothing, takes neither the focus nor a key, and goes as soon as the focus goes from field to
 * one thing and on to another; it comes again with the focus. */
GtkWidget *cro_reason_bubble_new (GtkWidget *box,
                                  GtkWidget *field);

/* As cro_reason_say(), in a bubble. */
void       cro_reason_bubble_say (GtkWidget  *bubble,
                                  GtkWidget  *field,
                                  const char *note);

/* The room of what may be said about fields, under which it stands: box, of labels that are seen while they
 * say something. That of the longest, a label, is kept, but in a low window, where it is not there until then. */
GtkWidget *cro_reason_room_new (GtkWidget *box,
                                GtkWidget *longest,
                                GtkWidget *fields);

/* Shows it in a label, to the eye and as the field's description; note NULL: nothing. field NULL: it is of
 * no one field. */
void       cro_reason_say  (GtkWidget  *reason,
                            GtkWidget  *field,
                            const char *note);

/* Whether what stands in the field cannot be kept, to the eye and to who hears it. */
void       cro_reason_mark (GtkWidget  *field,
                            gboolean    is_wrong);

G_END_DECLS
