/* cro-place-all.h: the row over a place's list that is of all it holds: its name, and how many. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_PLACE_ALL (cro_place_all_get_type ())
G_DECLARE_FINAL_TYPE (CroPlaceAll, cro_place_all, CRO, PLACE_ALL, GtkButton)

/* Until there is a book, of what is said of it. */
GtkWidget *cro_place_all_new   (const char  *name);

void       cro_place_all_set   (CroPlaceAll *self,
                                const char  *name,
                                guint        n);

/* Whether it stands on the bench. */
void       cro_place_all_mark  (CroPlaceAll *self,
                                gboolean     is_here);

G_END_DECLS
