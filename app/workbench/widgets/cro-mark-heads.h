/* cro-mark-heads.h: what stands over signs that cro-marks.h shows: few letters each, and whole words below them
 * where there is room for all. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_MARK_HEADS (cro_mark_heads_get_type ())
G_DECLARE_FINAL_TYPE (CroMarkHeads, cro_mark_heads, CRO, MARK_HEADS, GtkWidget)

GtkWidget *cro_mark_heads_new     (const char *const *letters,
                                   const char *const *words,
                                   guint              n);

/* How wide one of them must be for its letters, and for its word: of the widest. */
void       cro_mark_heads_measure (CroMarkHeads      *self,
                                   int               *letters,
                                   int               *word);

G_END_DECLS
