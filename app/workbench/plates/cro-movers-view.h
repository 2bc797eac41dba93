/* cro-movers-view.h: what moves the cost of a plate or a menu, in order of effect, and how far each
 * may go: a picture of a pane. */
#pragma once

#include "cro-pane.h"

G_BEGIN_DECLS

#define CRO_TYPE_MOVERS_VIEW (cro_movers_view_get_type ())
G_DECLARE_FINAL_TYPE (CroMoversView, cro_movers_view, CRO, MOVERS_VIEW, GtkWidget)

extern const CroPicture cro_movers_picture;

G_END_DECLS
