/* cro-reveal.h: brings what appeared under the eyes into sight. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Scrolls what the widget stands in just so far that all of it is seen, or its top where it is
 * taller, once it has its new size. */
void cro_reveal      (GtkWidget *widget);

/* The same of what was made anew, in a page that stood at value before and may have been scrolled since. */
void cro_reveal_from (GtkWidget *widget,
                      double     value);

G_END_DECLS
