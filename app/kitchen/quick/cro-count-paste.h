/* cro-count-paste.h: counts that were noted elsewhere, a line each: "crab butter 0.7 kg", "3 l fish stock", or
 * cells of a spreadsheet.
 *
 * Errors     those of cro-month-edit.h; then nothing was changed. */
#pragma once

#include "cro-month-edit.h"

G_BEGIN_DECLS

/* Enters as one act what names an item of the book to the letter, or but for case, accents and number, and
 * an amount of it. *n is how many lines were; *left what was not understood, line by line, owned; NULL:
 * nothing. */
gboolean cro_count_paste (CroBook     *book,
                          const char  *label,
                          CroDate      day,
                          const char  *text,
                          guint       *n,
                          char       **left,
                          GError     **error);

G_END_DECLS
