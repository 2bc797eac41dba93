/* cro-bring-window.h: a sheet that somebody brings, what is understood of it, and into the book with
 * it. */
#pragma once

#include <adwaita.h>

#include "cro-book.h"

G_BEGIN_DECLS

#define CRO_TYPE_BRING_WINDOW (cro_bring_window_get_type ())
G_DECLARE_FINAL_TYPE (CroBringWindow, cro_bring_window, CRO, BRING_WINDOW, AdwWindow)

/* Signals  "brought" (int kind, const char *says, const char *first): it is in the book, a CroBringKind, and
 *          the first of its recipes, NULL where it has none; the window closes.
 *          "refused" (const char *why): the file cannot be read; the window closes. */
GtkWidget *cro_bring_window_new (GtkWindow  *parent,
                                 CroBook    *book,
                                 const char *book_path,
                                 const char *path);

G_END_DECLS
