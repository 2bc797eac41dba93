/* cro-stream-area.h: a stream on the screen, walked by keys and by pointer.
 *
 * Arrows walk its bands, letters jump to names, Enter or a second click opens what is chosen, Space asks
 * for more room; Escape lets go of what is chosen, and is passed on where nothing is. What is chosen is
 * drawn full, the rest dim, and spoken. Another stream of the same things takes the place of the one that
 * is shown by a short movement, unless the desktop wants none.
 *
 * Signals    "open-place": a number of the stream's places (guint).
 *            "larger": Space. "chosen": another place is chosen, or none. */
#pragma once

#include <gtk/gtk.h>

#include "cro-stream.h"

G_BEGIN_DECLS

#define CRO_TYPE_STREAM_AREA (cro_stream_area_get_type ())
G_DECLARE_FINAL_TYPE (CroStreamArea, cro_stream_area, CRO, STREAM_AREA, GtkWidget)

typedef struct
{
  const char *near_title;
  const char *far_title;
} CroStreamTitles;

GtkWidget  *cro_stream_area_new        (void);

/* Takes the stream; outline (taken too) is drawn behind it, NULL: nothing. says: what the whole picture
 * shows, for those who do not see it. is_same: of the same thing as before, so that it moves. */
void        cro_stream_area_set        (CroStreamArea         *self,
                                        CroStream             *stream,
                                        CroStream             *outline,
                                        const CroStreamTitles *titles,
                                        const char            *says,
                                        gboolean               is_same);

/* Beside rows: tells, before each drawing, where the middle of each row is, from above and in the area's
 * own coordinates; NULL: free. What user_data is must outlive the area, or it is set anew. */
typedef void (*CroStreamEndsFunc) (GArray *ends, gpointer user_data);   /* of CroStreamEnd */

void        cro_stream_area_set_ends   (CroStreamArea         *self,
                                        CroStreamEndsFunc      ends,
                                        gpointer               user_data);

/* Borrowed; NULL: none. */
CroStream  *cro_stream_area_get_stream (CroStreamArea         *self);

/* What is chosen: of the stream, or CRO_STREAM_NOWHERE; and what is said of it. Owned. */
guint       cro_stream_area_get_chosen (CroStreamArea         *self);
char       *cro_stream_area_dup_spoken (CroStreamArea         *self);

/* How it is drawn here, for a file: light. Texts are the area's. */
void        cro_stream_area_get_look   (CroStreamArea         *self,
                                        CroStreamLook         *look);

G_END_DECLS
