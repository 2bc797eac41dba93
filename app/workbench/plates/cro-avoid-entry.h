/* cro-avoid-entry.h: what a guest avoids: allergens of a list, each a button that takes it away, and a line into
 * which the beginning of another is typed.
 *
 * Signals    "changed": something is avoided that was not, or no longer. */
#pragma once

#include <gtk/gtk.h>

#include "cro-allergen-list.h"

G_BEGIN_DECLS

#define CRO_TYPE_AVOID_ENTRY (cro_avoid_entry_get_type ())
G_DECLARE_FINAL_TYPE (CroAvoidEntry, cro_avoid_entry, CRO, AVOID_ENTRY, GtkWidget)

GtkWidget *cro_avoid_entry_new      (void);

/* Another list: what has no place on it is said, and avoided no more. */
void       cro_avoid_entry_set_list (CroAvoidEntry     *self,
                                     CroAllergenListId  list);

/* Bits by the entries of the list. */
guint32    cro_avoid_entry_get      (CroAvoidEntry     *self);

/* What is typed, and what became of it, in words: stands where whoever made the entry puts it. */
GtkWidget *cro_avoid_entry_get_meaning (CroAvoidEntry  *self);

/* What is typed begins anew with a sign that was typed elsewhere. */
void       cro_avoid_entry_type     (CroAvoidEntry     *self,
                                     gunichar           sign);

G_END_DECLS
