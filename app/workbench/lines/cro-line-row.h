/* cro-line-row.h: one line of a plate or a preparation.
 *
 *   [240 g] [10 g]  Dressed white crab              10.39 ▬▬▬  ▾
 *                   yield 86 % · 20 % comes back
 *
 * What a line seldom says otherwise (how it is weighed, its yield, what comes back, its unit, its
 * note, its place) is below it, behind the last button. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_LINE_ROW (cro_line_row_get_type ())
G_DECLARE_FINAL_TYPE (CroLineRow, cro_line_row, CRO, LINE_ROW, GtkWidget)

/* The cells that Up and Down lead along. */
typedef enum
{
  CRO_LINE_AMOUNT,
  CRO_LINE_BITE,
  CRO_LINE_ITEM,
  CRO_LINE_COST,
  CRO_LINE_TOGGLE,
  CRO_N_LINE_CELLS,
} CroLineCell;

/* In pixels, the same for all rows: widths, and what stands from the decimal sign on. */
typedef struct
{
  int amount;
  int amount_tail;
  int bite;
  int bite_tail;
  int cost;
} CroLineColumns;

GtkWidget  *cro_line_row_new         (CroBench              *bench,
                                      guint32                line);

guint32     cro_line_row_get_line    (CroLineRow            *self);

/* total: what all lines cost, for the share; minor: of it this line's, so that all add up; makes:
 * bites in millionths, 0 of a preparation; note: of the line, NULL: none. */
void        cro_line_row_refresh     (CroLineRow            *self,
                                      double                 total,
                                      gint64                 minor,
                                      gint64                 makes,
                                      const char            *note);

/* What a cell shows now: AMOUNT, BITE or COST. Borrowed. */
const char *cro_line_row_get_text    (CroLineRow            *self,
                                      CroLineCell            cell);

/* Something is typed in one of its amounts, and not kept yet. */
gboolean    cro_line_row_is_edited   (CroLineRow            *self);

/* amount_tail and bite_tail of columns are the longest, those beside it this row's own. */
void        cro_line_row_set_columns (CroLineRow            *self,
                                      const CroLineColumns  *columns,
                                      int                    amount_tail,
                                      int                    bite_tail);

/* What stands in the middle of the row's own height, without what is told below it. Borrowed. */
GtkWidget  *cro_line_row_get_middle  (CroLineRow            *self);

/* Whether a bar says how much of the whole it costs: not where a picture beside it has the room. */
void        cro_line_row_show_share  (CroLineRow            *self,
                                      gboolean               shows);

gboolean    cro_line_row_focus_cell  (CroLineRow            *self,
                                      CroLineCell            cell);

/* FALSE: the focus is not on one of its cells. */
gboolean    cro_line_row_get_focus_cell (CroLineRow         *self,
                                      CroLineCell           *cell);

G_END_DECLS
