/* cro-reason.h: what is said under a field: a note, or why what stands there cannot be kept. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The label for it, which takes no room as yet. */
GtkWidget *cro_reason_new  (void);

/* Shows it in a label, to the eye and as the field's description; note NULL: nothing. field NULL: it is of
 * no one field. */
void       cro_reason_say  (GtkWidget  *reason,
                            GtkWidget  *field,
                            const char *note);

/* Whether what stands in the field cannot be kept, to the eye and to who hears it. */
void       cro_reason_mark (GtkWidget  *field,
                            gboolean    is_wrong);

G_END_DECLS
