/* cro-mark.h: a sign in the middle of a narrow cell, which the focus can stand on. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_MARK (cro_mark_get_type ())
G_DECLARE_FINAL_TYPE (CroMark, cro_mark, CRO, MARK, GtkWidget)

GtkWidget *cro_mark_new (void);

/* said: what a screen reader says of it. */
void       cro_mark_set (CroMark    *self,
                         const char *sign,
                         const char *said);

G_END_DECLS
