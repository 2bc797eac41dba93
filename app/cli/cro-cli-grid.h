/* cro-cli-grid.h: aligned text in columns, 80 characters wide.
 *
 * The first column is aligned left and gives way: a text too wide for it has lines of its own
 * above its row's figures. The others are aligned right and as wide as their widest cell, though
 * together they were wider than the line. A note stands on lines of its own under a row. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define CRO_GRID_WIDTH 80

typedef struct _CroGrid CroGrid;

CroGrid *cro_grid_new      (guint        n_columns);
void     cro_grid_free     (CroGrid     *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroGrid, cro_grid_free)

/* Takes the cells, n_columns of them; NULL is an empty one. */
void     cro_grid_take_row (CroGrid     *self,
                            guint        indent,
                            char       **cells);

void     cro_grid_add_note (CroGrid     *self,
                            guint        indent,
                            const char  *text);

/* A row of titles: plain texts, copied. */
void     cro_grid_add_head (CroGrid           *self,
                            const char *const *titles);

void     cro_grid_add_gap  (CroGrid     *self);

void     cro_grid_print    (CroGrid     *self);

/* Text broken into lines at spaces, and a word wider than a line within it. */
void     cro_cli_print_wrapped (const char *text,
                                guint       indent);

G_END_DECLS
