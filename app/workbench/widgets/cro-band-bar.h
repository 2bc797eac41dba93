/* cro-band-bar.h: between what a figure is likely to be, what it is, and what it may be: a band with a
 * thick mark in it, and a thin one for the most. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_BAND_BAR (cro_band_bar_get_type ())
G_DECLARE_FINAL_TYPE (CroBandBar, cro_band_bar, CRO, BAND_BAR, GtkWidget)

GtkWidget *cro_band_bar_new (void);

/* low <= now <= high; most is NaN where nothing says it. The numbers stand beside it: it says nothing
 * itself. */
void       cro_band_bar_set (CroBandBar *self,
                             double      low,
                             double      now,
                             double      high,
                             double      most);

G_END_DECLS
