/* cro-intake-page.h: a spreadsheet, a till's export or pasted rows on their way into one part of a month: its
 * sales, counts, documents or adjustments.
 *
 * Columns are matched by their headings and can be told otherwise, which is remembered for sheets of the same
 * headings. Names that the book does not know are settled here; those of a till are remembered in the book.
 * Nothing is entered before the button; then all is one act.
 *
 * Ownership  It borrows its bench, which holds it; once it is out of the window it stops reading.
 * Signals    "entered": rows were.
 *            "left": nothing more is to be done here. */
#pragma once

#include "cro-bench.h"
#include "cro-intake.h"

G_BEGIN_DECLS

#define CRO_TYPE_INTAKE_PAGE (cro_intake_page_get_type ())
G_DECLARE_FINAL_TYPE (CroIntakePage, cro_intake_page, CRO, INTAKE_PAGE, GtkWidget)

/* Rows are of the days from first to last: of a count, one day. */
GtkWidget *cro_intake_page_new   (CroBench       *bench,
                                  CroIntakeKind   kind,
                                  CroDate         first,
                                  CroDate         last);

/* Reads a file, in a thread. */
void       cro_intake_page_open  (CroIntakePage  *self,
                                  const char     *path);

/* Reads rows that were pasted, in a thread as well. */
void       cro_intake_page_paste (CroIntakePage  *self,
                                  const char     *text);

G_END_DECLS
