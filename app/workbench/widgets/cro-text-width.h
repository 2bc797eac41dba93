/* cro-text-width.h: how wide texts are, so that numbers with their units stand with their decimal
 * signs under each other.
 *
 * Units      Pixels, in the font of a widget.
 * Ownership  The widget is borrowed. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef struct _CroTextWidth CroTextWidth;

CroTextWidth *cro_text_width_new       (GtkWidget     *widget);
void          cro_text_width_free      (CroTextWidth  *self);

/* After the font of the widget became another. */
void          cro_text_width_forget    (CroTextWidth  *self);

int           cro_text_width           (CroTextWidth  *self,
                                        const char    *text);

/* "7.5 g" before its decimal sign, and from there on; of a whole number from its unit on. */
void          cro_text_width_of_number (CroTextWidth  *self,
                                        const char    *text,
                                        int           *head,
                                        int           *tail);

G_END_DECLS
