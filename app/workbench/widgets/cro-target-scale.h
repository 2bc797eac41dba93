/* cro-target-scale.h: a part of a price as a length, with a tick where its target is.
 *
 * The length ends before the tick, or passes it; words beside it say the same. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_TARGET_SCALE (cro_target_scale_get_type ())
G_DECLARE_FINAL_TYPE (CroTargetScale, cro_target_scale, CRO, TARGET_SCALE, GtkWidget)

GtkWidget *cro_target_scale_new (void);

/* Both in per cent; says: the accessible text of where it stands. */
void       cro_target_scale_set (CroTargetScale *self,
                                 double          pct,
                                 double          target,
                                 const char     *says);

G_END_DECLS
