/* cro-room.h: a widget with the room of more than it shows, so that what it comes to say moves nothing.
 *
 * The room is that of a sample, at every width and size of text: another label of a button, the longest sentence. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_ROOM (cro_room_get_type ())
G_DECLARE_FINAL_TYPE (CroRoom, cro_room, CRO, ROOM, GtkWidget)

/* Both are the room's children; the sample is never in sight. */
GtkWidget *cro_room_new (GtkWidget *child,
                         GtkWidget *sample);

G_END_DECLS
