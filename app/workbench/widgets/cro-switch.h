/* cro-switch.h: a button for each page of a stack, in rows that break where the width ends: long
 * words and large text put none of them out of reach.
 *
 * Ownership  Borrows the stack, which is in the same window and goes with it. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Follows pages that are added later. */
GtkWidget *cro_switch_new (GtkStack *stack);

G_END_DECLS
