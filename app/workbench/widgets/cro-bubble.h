/* cro-bubble.h: what is said of a field, in a bubble over it, which moves nothing: why what stands there cannot be
 * kept, or what is asked about it.
 *
 * It comes with what is to be seen at once, and with the focus of the field; it goes with Escape, and as soon as the
 * focus goes from the field to one thing and on to another. What it says is the field's description meanwhile, and
 * stays so. No key and no click goes to it but to its answer, if it has one.
 *
 * Ownership  It belongs to the box over which it comes. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_BUBBLE (cro_bubble_get_type ())
G_DECLARE_FINAL_TYPE (CroBubble, cro_bubble, CRO, BUBBLE, GtkPopover)

/* box: what the field stands in, with a layout of its own, such as a GtkBox; field is borrowed. */
GtkWidget *cro_bubble_new        (GtkWidget  *box,
                                  GtkWidget  *field);

/* text: NULL: nothing. at_once: another text than before comes, though the focus may be elsewhere already. */
void       cro_bubble_say        (CroBubble  *self,
                                  const char *text,
                                  gboolean    at_once);

/* A box of buttons below what it says, in sight while they answer that. */
void       cro_bubble_put_answer (CroBubble  *self,
                                  GtkWidget  *answer);

/* Whether it is open, and has an answer. */
gboolean   cro_bubble_is_asking  (CroBubble  *self);

/* Opens it, and leads to its first answer, or to the field where it has none. FALSE: it says nothing. */
gboolean   cro_bubble_enter      (CroBubble  *self);

/* FALSE: it was not open. */
gboolean   cro_bubble_close      (CroBubble  *self);

G_END_DECLS
