/* cro-pane-box.h: what a page is about, and a picture of it: beside it where the window is wide
 * enough to work on both, in its place elsewhere.
 *
 * Wide: fields over the body at one side; bar, picture and rest at the other, where bar and picture
 * stay in sight while the body scrolls, and a picture that is higher than the window scrolls by
 * itself. Narrow: fields, bar, the body or else the picture, rest, under each other.
 *
 * Signals    "turned": it is wide now, or narrow, or the picture came or went with that. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_PANE_BOX (cro_pane_box_get_type ())
G_DECLARE_FINAL_TYPE (CroPaneBox, cro_pane_box, CRO, PANE_BOX, GtkWidget)

/* What of it is NULL is left out, but for body and picture. */
GtkWidget *cro_pane_box_new           (GtkWidget  *fields,
                                       GtkWidget  *body,
                                       GtkWidget  *bar,
                                       GtkWidget  *picture,
                                       GtkWidget  *rest);

/* How wide the body has to be, in characters, for both to stand beside each other: for one that scrolls
 * sideways, and so takes any width. */
void       cro_pane_box_set_least_body (CroPaneBox *self,
                                        int         chars);

/* How wide the picture is at most beside the body, in characters, where that needs the room more. */
void       cro_pane_box_set_most_picture (CroPaneBox *self,
                                           int         chars);

/* Whether a picture is wanted: beside the body from then on, and in its place until it is taken
 * away (cro_pane_box_show_body) or the window is wide. */
void       cro_pane_box_set_open      (CroPaneBox *self,
                                       gboolean    is_open);

/* Where the picture stands in the place of the body: brings that back. FALSE: it did not. */
gboolean   cro_pane_box_show_body     (CroPaneBox *self);

/* Whether the picture is on the page as it is laid out now. */
gboolean   cro_pane_box_shows_picture (CroPaneBox *self);

G_END_DECLS
