/* cro-replace-window.h: one item in the place of another, or two that become one, or one plate in the place
 * of another on menus: where it is used, what plates or menus would come to, and then the one act.
 *
 * Nothing is kept before the button is pressed. */
#pragma once

#include <adwaita.h>

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_REPLACE_WINDOW (cro_replace_window_get_type ())
G_DECLARE_FINAL_TYPE (CroReplaceWindow, cro_replace_window, CRO, REPLACE_WINDOW, AdwWindow)

/* Of an item that is on the bench, or the main output of what is, or of a plate. reason: why it is offered,
 * may be NULL. */
GtkWidget *cro_replace_window_new (CroBench   *bench,
                                   CroRef      thing,
                                   const char *reason);

/* The same where it was to be removed: a plate may be taken off its menus or replaced there, and goes. */
GtkWidget *cro_replace_window_new_removal (CroBench   *bench,
                                   CroRef      thing,
                                   const char *reason);

/* The same with the other one chosen: an item, to be merged with it. */
GtkWidget *cro_replace_window_new_merge (CroBench   *bench,
                                   CroRef      thing,
                                   guint32     into,
                                   const char *reason);

G_END_DECLS
