/* cro-footed.h: a column of a page whose last children, its foot, stay in sight: where they would stand below the
 * lower edge of what the page scrolls in they stand at it, over what is under them.
 *
 * The foot has a third of what is seen at most: of a higher one its last child alone stays, and of that what has room.
 * What has the focus, or is brought into sight (cro-reveal.h), is not behind it. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_FOOTED (cro_footed_get_type ())
G_DECLARE_FINAL_TYPE (CroFooted, cro_footed, CRO, FOOTED, GtkWidget)

/* spacing: between children, in pixels. */
GtkWidget *cro_footed_new         (int        spacing);

/* From above; those of the foot come last. */
void       cro_footed_append      (CroFooted *self,
                                   GtkWidget *child);
void       cro_footed_append_foot (CroFooted *self,
                                   GtkWidget *child);

/* Whether a child of the foot stands higher than it would without that. */
gboolean   cro_footed_is_raised   (CroFooted *self,
                                   GtkWidget *child);

/* How much of the lower part of what is seen the foot takes from a widget that it may stand over, in pixels. */
int        cro_footed_covers      (GtkWidget *widget);

G_END_DECLS
