/* cro-covers-view.h: what a guest of a plate or a menu costs as covers rise, with whole batches and
 * packs, beside what the recipes say: a picture of a pane. */
#pragma once

#include "cro-pane.h"

G_BEGIN_DECLS

#define CRO_TYPE_COVERS_VIEW (cro_covers_view_get_type ())
G_DECLARE_FINAL_TYPE (CroCoversView, cro_covers_view, CRO, COVERS_VIEW, GtkWidget)

extern const CroPicture cro_covers_picture;

G_END_DECLS
