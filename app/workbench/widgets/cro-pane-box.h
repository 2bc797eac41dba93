/* cro-pane-box.h: what a page is about, and pictures of it: beside it where the window is wide
 * enough to work on both, in its place elsewhere.
 *
 * Of two kinds of pictures one is open: one that may stand level with the rows of the body, and the
 * others. In one column: fields, bar, the body or else the picture, rest, under each other. In two: fields
 * over the body at one side; bar, picture and rest at the other. In three, where there is that much room:
 * the body, the level picture, and in the last bar, another picture and rest.
 *
 * Bar and pictures stay in sight while the body scrolls, and a picture that is higher than the window
 * scrolls by itself; but for one that is level: it reaches as far as the body and scrolls with it.
 *
 * Signals    "turned": there are more or fewer columns now, or the picture came or went with that. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_PANE_BOX (cro_pane_box_get_type ())
G_DECLARE_FINAL_TYPE (CroPaneBox, cro_pane_box, CRO, PANE_BOX, GtkWidget)

typedef enum
{
  CRO_PANE_NONE,
  CRO_PANE_LEVEL,
  CRO_PANE_PICTURE,
} CroPanePart;

/* What of it is NULL is left out, but for the body. */
GtkWidget *cro_pane_box_new           (GtkWidget  *fields,
                                       GtkWidget  *body,
                                       GtkWidget  *bar,
                                       GtkWidget  *level,
                                       GtkWidget  *picture,
                                       GtkWidget  *rest);

/* How wide the body has to be, in characters, for both to stand beside each other: for one that scrolls
 * sideways, and so takes any width. */
void       cro_pane_box_set_least_body (CroPaneBox *self,
                                        int         chars);

/* How wide the picture is at most beside the body, in characters, where that needs the room more. */
void       cro_pane_box_set_most_picture (CroPaneBox *self,
                                          int         chars);

/* Which picture is wanted: beside the body from then on, and in its place until it is taken
 * away (cro_pane_box_show_body) or the window is wide. */
void       cro_pane_box_set_open      (CroPaneBox *self,
                                       CroPanePart part);

/* Where the picture stands in the place of the body: brings that back. FALSE: it did not. */
gboolean   cro_pane_box_show_body     (CroPaneBox *self);

/* Whether a picture is on the page as it is laid out now, and how many columns that has. */
gboolean   cro_pane_box_shows         (CroPaneBox *self,
                                       CroPanePart part);
int        cro_pane_box_get_columns   (CroPaneBox *self);

/* Where the page is scrolled to, in pixels, if the beginning of the body is in sight and a picture stands beside it: as
 * the focus goes to that nothing need move. Less than 0: it need. */
double     cro_pane_box_get_place     (CroPaneBox *self);
void       cro_pane_box_put_place     (CroPaneBox *self,
                                       double      place);

/* Whether the first picture is level with the body: head stands in it over what is drawn beside the
 * rows, and drawn is drawn anew whenever the page is laid out; both borrowed. NULL: it is not. */
void       cro_pane_box_set_level     (CroPaneBox *self,
                                       GtkWidget  *head,
                                       GtkWidget  *drawn);

G_END_DECLS
