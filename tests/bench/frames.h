/* frames.h: what the main loop works for a frame of a window, apart from what it waits.
 *
 * Units      Seconds of the loop's own processor time, so that other work on the machine is not in
 *            it. Work is that between two waits of the loop; the frame clock's waiting for the next
 *            frame, and a thread's for the loop, are none of it.
 * Errors     A screen or a frame that does not come ends the program. */
#pragma once

#include <adwaita.h>

typedef struct
{
  double work;      /* until what was done is painted */
  double longest;   /* the longest time in which the loop answered nobody */
} CroFrames;

typedef void     (*CroFramesDo)   (gpointer user_data);
typedef gboolean (*CroFramesDone) (gpointer user_data);

/* To be called once, after GTK is initialized: loops are watched from then on. */
void       cro_frames_init  (void);

/* Does something, and waits until its frame is painted. The window is on the screen. */
CroFrames  cro_frames_do    (GtkWidget     *window,
                             CroFramesDo    act,
                             gpointer       user_data);

/* Does something, and waits until it is done and painted; and then a while for what follows. */
CroFrames  cro_frames_until (GtkWidget     *window,
                             CroFramesDo    act,
                             CroFramesDone  done,
                             gpointer       user_data);

/* Opens a book in the program's window. */
CroFrames  cro_frames_open  (GtkWidget     *window,
                             const char    *path);

/* Shows a window and waits for its first frame. */
CroFrames  cro_frames_show  (GtkWidget     *window);

/* The nth mapped widget of that type in or below widget, counted from 0; NULL: there is none. */
GtkWidget *cro_frames_find  (GtkWidget     *widget,
                             GType          type,
                             guint          n);
