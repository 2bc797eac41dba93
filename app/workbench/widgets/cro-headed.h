/* cro-headed.h: what scrolls, under a head that stays in sight.
 *
 * Where the window is low, or text large, the head has two fifths of the height and scrolls by
 * itself, so that what is worked on keeps the rest. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_HEADED (cro_headed_get_type ())
G_DECLARE_FINAL_TYPE (CroHeaded, cro_headed, CRO, HEADED, GtkWidget)

GtkWidget *cro_headed_new (GtkWidget *head,
                           GtkWidget *content);

G_END_DECLS
