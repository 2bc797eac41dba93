/* cro-reveal.h: brings what appeared under the eyes into sight. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Scrolls what the widget stands in just so far that all of it is seen, or its top where it is
 * taller, once it has its new size. */
void cro_reveal      (GtkWidget *widget);

/* The same at once, as it was laid out last. */
void cro_reveal_now  (GtkWidget *widget);

/* The same of what was made anew, in a page that stood at value before and may have been scrolled since. */
void cro_reveal_from (GtkWidget *widget,
                      double     value);

/* Whether its middle is in sight of what it stands in, as it was laid out last. */
gboolean cro_reveal_is_seen (GtkWidget *widget);

/* Whether nothing of it is in sight, as it was scrolled out of it. */
gboolean cro_reveal_is_lost (GtkWidget *widget);

/* What it is scrolled up and down in: a table within may go sideways alone. NULL: nothing. Borrowed. */
GtkWidget *cro_reveal_find_scroller (GtkWidget *widget);

G_END_DECLS
