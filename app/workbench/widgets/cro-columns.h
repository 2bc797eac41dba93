/* cro-columns.h: the widths of a table's columns, which its headings, rows and totals share.
 *
 * Where the width does not do headings break into lines first, then texts are cut, to a few
 * characters each; numbers and dates never are. What is left over goes to all columns alike.
 * Where even that does not do, those that may be spared are left out, the highest rank first: what is
 * left out is told, and nothing is out of sight at the side.
 * Columns grow with what comes into sight, and never shrink while the table is the same, so that
 * nothing jumps while one scrolls.
 *
 * Units      Pixels, without the space between columns, which is inside of them.
 * Signals    "changed" after a column grew, "left-out" after others are left out than before, from the
 *            main loop: never while others lay out. */
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

/* A column that has its natural width before the others have more than they need, up to 45 % of all. */
void        cro_columns_set_first  (CroColumns  *self,
                                    guint        column);

/* Rank 0 stays, whatever the width. */
void        cro_columns_set_rank   (CroColumns  *self,
                                    guint        column,
                                    guint        rank);

/* Whether it was left out where all together were shown last. */
gboolean    cro_columns_is_left_out (CroColumns *self,
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

/* By how much that is more than the shortest. */
int         cro_columns_get_aside  (CroColumns  *self,
                                    guint        column);

/* Whether no text before had more characters: the others need no measuring. */
gboolean    cro_columns_is_longest  (CroColumns  *self,
                                    guint        column,
                                    glong        chars);

/* The sums over all columns; min over those that stay. */
void        cro_columns_measure    (CroColumns  *self,
                                    int         *min,
                                    int         *natural);

/* The width of each column where all together have width; 0: it is left out. widths: [n]. */
void        cro_columns_allot      (CroColumns  *self,
                                    int          width,
                                    int         *widths);

/* All together are shown so wide. */
void        cro_columns_show       (CroColumns  *self,
                                    int          width);

G_END_DECLS
