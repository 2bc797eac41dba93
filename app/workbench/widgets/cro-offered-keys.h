/* cro-offered-keys.h: how the keys of a list of names, offered below a field, lead back into that field.
 *
 * Ownership  The list borrows the field, which lives as long. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Escape, and Up from the first row, give the field back as it stands; what is typed goes into it. */
void cro_offered_keys_add (GtkListBox *offered,
                           GtkEntry   *entry);

G_END_DECLS
