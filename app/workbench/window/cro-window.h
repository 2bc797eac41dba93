/* cro-window.h: one window on one book: the rail of places, the list of the place, the bench. */
#pragma once

#include <adwaita.h>

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_WINDOW (cro_window_get_type ())
G_DECLARE_FINAL_TYPE (CroWindow, cro_window, CRO, WINDOW, AdwApplicationWindow)

GtkWidget *cro_window_new       (AdwApplication *application);

/* Opens a book in the background, with its progress in the window. */
void       cro_window_open_path (CroWindow      *self,
                                 const char     *path);

/* Opens it in the window that shows it already, or in one that has none, or in a new one. */
void       cro_window_open_in   (GtkApplication *application,
                                 const char     *path);

/* Whether the window is for the book at that path, open or being opened. */
gboolean   cro_window_shows     (CroWindow      *self,
                                 const char     *path);

/* NULL before a book is open. Borrowed. */
CroBook   *cro_window_get_book  (CroWindow      *self);

/* Opens a thing on its bench. */
void       cro_window_open_ref  (CroWindow      *self,
                                 CroRef          ref);

/* That what is typed and not kept could not be written where it is remembered, and why. */
void       cro_window_say_unkept (CroWindow     *self,
                                 const GError   *error);

G_END_DECLS
