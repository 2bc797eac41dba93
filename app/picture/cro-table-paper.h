/* cro-table-paper.h: a table of texts on sheets of paper: for a printer and a PDF alike.
 *
 * Heads of narrow columns are turned, so that they are whole words. Heads stand on every page, and so do
 * the notes, at its foot: pages are parted from each other in a kitchen.
 *
 * Units      Points of 1/72 inch, from the top left corner of what a page holds between its margins.
 * Errors     G_FILE_ERROR. */
#pragma once

#include <cairo.h>

#include "cro-text-table.h"

G_BEGIN_DECLS

typedef struct _CroTablePaper CroTablePaper;

/* Takes the table. is_mirrored: columns run from right to left. */
CroTablePaper *cro_table_paper_new       (CroTextTable   *table,
                                          gboolean        is_mirrored);
void           cro_table_paper_free      (CroTablePaper  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroTablePaper, cro_table_paper_free)

/* Borrowed. */
const char    *cro_table_paper_get_title (CroTablePaper  *self);

/* Sets it out for pages of that size without their margins, and returns how many there are. */
guint          cro_table_paper_set_out   (CroTablePaper  *self,
                                          double          width,
                                          double          height);

/* A page by number, from 0, once it was set out. */
void           cro_table_paper_draw      (CroTablePaper  *self,
                                          guint           page,
                                          cairo_t        *cairo);

/* A PDF of A4 (ISO 216, 210 mm × 297 mm) or US Letter pages on their sides. created: seconds since 1970, so that a
 * file made again is the same file. What stood at path stands there on failure. */
gboolean       cro_table_paper_write_pdf (CroTablePaper  *self,
                                          const char     *path,
                                          gint64          created,
                                          gboolean        is_letter,
                                          GError        **error);

/* How wide a page is on its side, how high, and its margins on all sides. */
#define CRO_TABLE_PAPER_A4_WIDTH 841.89
#define CRO_TABLE_PAPER_A4_HEIGHT 595.276
#define CRO_TABLE_PAPER_LETTER_WIDTH 792.0
#define CRO_TABLE_PAPER_LETTER_HEIGHT 612.0
#define CRO_TABLE_PAPER_MARGIN 42.0

G_END_DECLS
