/* cro-sided.h: a page with a list at its side, which gives way where the window is narrow or the
 * text large.
 *
 * Which of them a person wants is the list's own visibility. Where both have no room the list is
 * out of sight all the same, comes back when there is room again, and until then stands over the
 * page while it is asked for. The first child is the page, the second the list.
 *
 * Signals    "turned": it came to have room for both, or lost it; in the midst of a layout. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_SIDED (cro_sided_get_type ())
G_DECLARE_FINAL_TYPE (CroSided, cro_sided, CRO, SIDED, GtkWidget)

/* There is no room for both. */
gboolean cro_sided_is_tight (CroSided *self);

/* There is little height. */
gboolean cro_sided_is_low   (CroSided *self);

/* Whether the list stands over the page where there is no room for both. */
void     cro_sided_set_over (CroSided *self,
                             gboolean  is_over);
gboolean cro_sided_is_over  (CroSided *self);

/* A part of the page that would scroll sideways in less than wanted: while it is seen the list gives way to
 * it; in every width where it wants CRO_SIDED_ALL. The last that asks has it. Not owned. */
#define CRO_SIDED_ALL G_MAXINT

void       cro_sided_set_wide  (CroSided  *self,
                                GtkWidget *wide,
                                int        wanted);

G_END_DECLS
