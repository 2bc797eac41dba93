/* cro-sheet-stack.h: a page, and sheets that stand in its place for a while, one over the other. Escape, or a
 * button, leads back to what one came from, with the focus where it was.
 *
 * Signals    "moved": a sheet was opened or left. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_SHEET_STACK (cro_sheet_stack_get_type ())
G_DECLARE_FINAL_TYPE (CroSheetStack, cro_sheet_stack, CRO, SHEET_STACK, GtkWidget)

GtkWidget *cro_sheet_stack_new     (GtkWidget     *page);

/* Takes content, which has the focus then. title: over it, with a button that leads back; NULL: it has both
 * itself. */
void       cro_sheet_stack_open    (CroSheetStack *self,
                                    const char    *title,
                                    GtkWidget     *content);

/* From the sheet in sight to what is below it. */
void       cro_sheet_stack_back    (CroSheetStack *self);

/* To the page, wherever the focus is. */
void       cro_sheet_stack_close   (CroSheetStack *self);

gboolean   cro_sheet_stack_is_open (CroSheetStack *self);

G_END_DECLS
