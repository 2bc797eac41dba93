#include "cro-ink.h"

GdkRGBA
cro_ink_of (GtkWidget *widget)
{
  GdkRGBA ink;

  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &ink);
  return ink;
}

GdkRGBA
cro_ink_pale (const GdkRGBA *ink,
              float          part)
{
  GdkRGBA pale = *ink;

  pale.alpha *= part;
  return pale;
}

void
cro_ink_frame (GtkSnapshot           *snapshot,
               const graphene_rect_t *rect,
               const GdkRGBA         *ink)
{
  GskRoundedRect frame;

  gsk_rounded_rect_init_from_rect (&frame, rect, 0);
  gtk_snapshot_append_border (snapshot, &frame, (float[]){ 1, 1, 1, 1 },
                              (GdkRGBA[]){ *ink, *ink, *ink, *ink });
}
