/* widgets.h: what stands on the screen: found, waited for, and gone with its window. */
#pragma once

#include <gtk/gtk.h>

/* Lets the main loop run until the condition holds; fails with what is said, as printf () would
 * say it, if that takes too long. */
#define cro_test_wait_until(condition, ...) \
  G_STMT_START \
    { \
      gboolean is_late_ = FALSE; \
      guint patience_ = cro_test_lose_patience (&is_late_); \
\
      while (!(condition) && !is_late_) \
        g_main_context_iteration (NULL, TRUE); \
      if (is_late_) \
        fail_msg (__VA_ARGS__); \
      g_source_remove (patience_); \
    } \
  G_STMT_END

/* Sets the flag when a wait has taken too long. The id of the source. */
guint      cro_test_lose_patience (gboolean   *is_late);

/* Until the main loop has nothing to do. What is to be laid out may still wait for the next frame: rows of a
 * list that is scrolled are not in sight before it. */
void       cro_test_settle        (void);

/* Until a frame of a window was laid out and painted. */
void       cro_test_see           (GtkWidget  *window);

/* The first that is mapped, widget itself or below it: one of the type; a label that shows the
 * text. NULL: none. */
GtkWidget *cro_test_find_type     (GtkWidget  *widget,
                                   GType       type);
GtkWidget *cro_test_find_shown    (GtkWidget  *widget,
                                   const char *text);

/* The same once it is there: a list makes its rows when it is laid out. Fails if none comes. */
void       cro_test_wait_shown    (GtkWidget  *widget,
                                   const char *text);

/* The first in sight that has the text in it. */
GtkWidget *cro_test_find_containing (GtkWidget *widget,
                                   const char  *text);

/* What a shortcut of the widget's own does; whether it did anything. Fails where there is none. */
gboolean   cro_test_press_shortcut (GtkWidget  *widget,
                                    const char *trigger);

/* A key, as a field hears it before the toolkit does; Escape. */
void       cro_test_key    (GtkWidget *entry,
                            guint      keyval);
void       cro_test_escape (GtkWidget *entry);

/* To be called once, after GTK is initialized: what is mapped from then on is watched. */
void       cro_test_widgets_watch (void);

/* Once all windows are destroyed: waits for the last widgets, and fails with the names of the
 * types of those that stay. A sanitizer misses a widget that is leaked, as GTK still points at
 * it. */
void       cro_test_widgets_gone  (void);
