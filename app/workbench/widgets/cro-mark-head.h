/* cro-mark-head.h: what stands over a narrow column of signs: a few letters, and the whole word below them
 * where the column has room for that, and for those of all others. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_MARK_HEAD (cro_mark_head_get_type ())
G_DECLARE_FINAL_TYPE (CroMarkHead, cro_mark_head, CRO, MARK_HEAD, GtkWidget)

/* A screen reader says the word. */
GtkWidget *cro_mark_head_new     (const char  *letters,
                                  const char  *word);

/* The width that the widest word of a table needs: narrower columns show none. */
void       cro_mark_head_set_room (CroMarkHead *self,
                                   int          room);

/* How wide its letters are, and its word. */
void       cro_mark_head_measure (CroMarkHead *self,
                                  int         *letters,
                                  int         *word);

G_END_DECLS
