/* cro-columns.h: the widths of a table's columns, which its headings, rows and totals share.
 *
 * Where the width does not do headings break into lines first, then texts are cut, to a few
 * characters each; numbers and dates never are. What is left over goes to all columns alike.
 * Columns grow with what comes into sight, and never shrink while the table is the same, so that
 * nothing jumps while one scrolls.
 *
 * Units      Pixels, without the space between columns, which is inside of them.
 * Signals    "changed" after a column grew, from the main loop: never while others lay out. */
#pragma once

#include <glib-object.h>

G_BEGIN_DECLS

#define CRO_TYPE_COLUMNS (cro_columns_get_type ())
G_DECLARE_FINAL_TYPE (CroColumns, cro_columns, CRO, COLUMNS, GObject)

CroColumns *cro_columns_new        (guint        n);
guint       cro_columns_get_n      (CroColumns  *self);

/* Numbers stand at the right; what is not whole may be cut. */
void        cro_columns_set_kind   (CroColumns  *self,
                                    guint        column,
                                    gboolean     is_number,
                                    gboolean     is_whole);
gboolean    cro_columns_is_number  (CroColumns  *self,
                                    guint        column);
gboolean    cro_columns_is_whole   (CroColumns  *self,
                                    guint        column);

/* Forgets what was taken: the table holds something else now. */
void        cro_columns_forget     (CroColumns  *self);

/* Something in the column cannot be narrower than min, wants to be wanted wide, and looks best
 * with natural: a heading that breaks into lines wants no more than its longest word. */
void        cro_columns_take       (CroColumns  *self,
                                    guint        column,
                                    int          min,
                                    int          wanted,
                                    int          natural);

/* A number in the column, with frame around it: up to its decimal sign, and from there on. Signs
 * stand under each other, so the column is as wide as the longest of both. */
void        cro_columns_take_number (CroColumns *self,
                                    guint        column,
                                    int          frame,
                                    int          head,
                                    int          tail);

/* The longest that was taken from its decimal sign on. */
int         cro_columns_get_tail   (CroColumns  *self,
                                    guint        column);

/* Whether no text before had more characters: the others need no measuring. */
gboolean    cro_columns_is_longest  (CroColumns  *self,
                                    guint        column,
                                    glong        chars);

/* The sums over all columns. */
void        cro_columns_measure    (CroColumns  *self,
                                    int         *min,
                                    int         *natural);

/* The width of each column where all together have width. widths: [n]. */
void        cro_columns_allot      (CroColumns  *self,
                                    int          width,
                                    int         *widths);

G_END_DECLS
