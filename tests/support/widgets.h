/* widgets.h: whether every widget that was on the screen is gone with its window.
 *
 * A sanitizer misses a widget that is leaked, as GTK still points at it. */
#pragma once

#include <gtk/gtk.h>

/* To be called once, after GTK is initialized: what is mapped from then on is watched. */
void cro_test_widgets_watch (void);

/* Once all windows are destroyed: waits for the last widgets, and fails with the names of the
 * types of those that stay. */
void cro_test_widgets_gone  (void);
