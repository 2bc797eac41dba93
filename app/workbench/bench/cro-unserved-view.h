/* cro-unserved-view.h: what is asked about a plate, a menu or a preparation: outputs that nothing
 * takes, whose cost no plate pays, and what was probably not meant below it (cro-doubt.h). Each is
 * a button that leads to what it is about. */
#pragma once

#include "cro-causes-view.h"

G_BEGIN_DECLS

#define CRO_TYPE_UNSERVED_VIEW (cro_unserved_view_get_type ())
G_DECLARE_FINAL_TYPE (CroUnservedView, cro_unserved_view, CRO, UNSERVED_VIEW, GtkWidget)

GtkWidget *cro_unserved_view_new (CroBench        *bench);

/* Where the first of them is asked too: in the head, from which it leads here. Not held. */
void       cro_unserved_view_tell (CroUnservedView *self,
                                   CroCausesView   *head);

/* thing: whose lines lead to it; unserved: elements CroUnserved. What is asked below it is read of
 * the book when nothing else is to be done, and again when the book was changed. */
void       cro_unserved_view_set (CroUnservedView *self,
                                  CroRef           thing,
                                  GArray          *unserved);

G_END_DECLS
