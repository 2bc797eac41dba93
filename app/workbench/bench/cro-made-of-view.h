/* cro-made-of-view.h: the picture "Made of" of a plate, a preparation or a menu: its stream of money or
 * weight, with the sentence that says the same, or as a table. */
#pragma once

#include "cro-pane.h"

G_BEGIN_DECLS

#define CRO_TYPE_MADE_OF_VIEW (cro_made_of_view_get_type ())
G_DECLARE_FINAL_TYPE (CroMadeOfView, cro_made_of_view, CRO, MADE_OF_VIEW, GtkWidget)

/* For the pane of a bench. */
extern const CroPicture cro_made_of_picture;

G_END_DECLS
