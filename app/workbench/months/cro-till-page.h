/* cro-till-page.h: a till's export, or pasted rows, on their way into the sales of a month.
 *
 * Its columns are matched by their headings and can be told otherwise, which is remembered for files of the
 * same headings. Names that the book does not know are settled here, each as a plate, a menu, other revenue
 * or nothing, and remembered in the book. Nothing is entered before the button; then all is one act.
 *
 * Ownership  It borrows its bench, which holds it.
 * Signals    "left": nothing more is to be done here; rows may have been entered. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_TILL_PAGE (cro_till_page_get_type ())
G_DECLARE_FINAL_TYPE (CroTillPage, cro_till_page, CRO, TILL_PAGE, GtkWidget)

/* first: the first day of the month. */
GtkWidget *cro_till_page_new   (CroBench     *bench,
                                CroDate       first);

/* Reads a file, in a thread. */
void       cro_till_page_open  (CroTillPage  *self,
                                const char   *path);

/* Reads rows that were pasted. */
void       cro_till_page_paste (CroTillPage  *self,
                                const char   *text);

G_END_DECLS
