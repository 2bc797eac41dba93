/* cro-stream-table.h: a stream as a table: what is on it, its steps, what was bought, and what falls away. */
#pragma once

#include <gtk/gtk.h>

#include "cro-stream.h"

G_BEGIN_DECLS

GtkWidget *cro_stream_table_new  (void);

/* What is arranged of it; NULL: nothing. */
void       cro_stream_table_fill (GtkWidget *table,
                                  CroStream *stream);

G_END_DECLS
