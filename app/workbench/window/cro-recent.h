/* cro-recent.h: books that were opened of late, as the desktop remembers files of late. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

void    cro_recent_note     (const char *path);

/* Paths of books that are there, the last opened first. Owned. */
char  **cro_recent_dup      (void);

/* What to call a book among others: its file, and its folder from the home folder on. Owned. */
char   *cro_recent_dup_name (const char *path);

/* Calls the function with object whenever books may have come or gone, until it is finalized. */
void    cro_recent_watch    (gpointer    object,
                             GCallback   changed);

G_END_DECLS
