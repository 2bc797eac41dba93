/* cro-ink.h: what pictures are drawn with: the colour of the text around them, and thin frames. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

GdkRGBA cro_ink_of    (GtkWidget             *widget);

/* The same, paler: part of its strength. */
GdkRGBA cro_ink_pale  (const GdkRGBA         *ink,
                       float                  part);

/* A line of one pixel inside the edges of rect. */
void    cro_ink_frame (GtkSnapshot           *snapshot,
                       const graphene_rect_t *rect,
                       const GdkRGBA         *ink);

G_END_DECLS
