/* cro-scale-button.h: "Scale to…": every line, and every finished amount, in proportion. Changing
 * what a recipe makes never does that by itself. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_SCALE_BUTTON (cro_scale_button_get_type ())
G_DECLARE_FINAL_TYPE (CroScaleButton, cro_scale_button, CRO, SCALE_BUTTON, GtkWidget)

/* Of the recipe on the bench. */
GtkWidget *cro_scale_button_new (CroBench *bench);

G_END_DECLS
