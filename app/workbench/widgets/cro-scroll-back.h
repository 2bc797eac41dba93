/* cro-scroll-back.h: scrolls a page or a list to where it was, once what stands there is laid out.
 *
 * What comes in meanwhile moves it again, so that it is held there for some frames; after some twenty it is left
 * where it is. A list that has other rows, or that is out of sight, is not scrolled before they are laid out: it could
 * not tell which of them stands there.
 *
 * Units      Pixels of the toolkit. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* What is scrolled; NULL: nothing is there that can be. *is_moving: it is about to scroll by itself. Borrowed. */
typedef GtkAdjustment *(*CroScrollFind) (GtkWidget *widget,
                                         gboolean  *is_moving);

typedef struct
{
  GtkWidget     *widget;     /* borrowed; whose frames they are */
  CroScrollFind  find;
  int            to;
  guint          n_frames;   /* since it was asked for */
  guint          n_there;    /* for which it has been there */
  gboolean       was_seen;   /* on the screen, in the frame before */
  guint          tick_id;    /* 0: it is not under way */
} CroScrollBack;

/* The widget outlives it, or stops it when it is disposed of. */
void cro_scroll_back_init (CroScrollBack *self,
                           GtkWidget     *widget,
                           CroScrollFind  find);

void cro_scroll_back_to   (CroScrollBack *self,
                           int            value);

void cro_scroll_back_stop (CroScrollBack *self);

/* Where it is, or will be. */
int  cro_scroll_back_get  (CroScrollBack *self);

G_END_DECLS
