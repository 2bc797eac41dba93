/* cro-notes.h: what is told below a table: as high as it is where there is room, and scrolls where the table needs
 * that. A scroller by itself asks for the height of lines that never break. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_NOTES (cro_notes_get_type ())
G_DECLARE_FINAL_TYPE (CroNotes, cro_notes, CRO, NOTES, GtkWidget)

GtkWidget *cro_notes_new (GtkWidget *notes);

G_END_DECLS
