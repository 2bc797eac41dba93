/* cro-till-private.h: the rows of a till as they were read. */
#pragma once

#include "cro-column.h"
#include "cro-till.h"

G_BEGIN_DECLS

typedef struct
{
  guint    name;            /* among names */
  CroDate  day;
  gint64   sold;
  gboolean has_sold;
  gint64   revenue;         /* as it stands there; CRO_NOT_SET */
} CroTillRow;

/* Whether it says nothing of how many, and is no money given back. */
gboolean cro_till_row_is_uncounted   (const CroTill    *till,
                                      const CroTillRow *row);

/* A day as it stands in a cell, and whether the month stands before the day in a column, of which rows are
 * of the days from first to last. */
gboolean cro_till_day_read           (const char       *text,
                                      gboolean          is_month_first,
                                      CroDate          *date);
gboolean cro_till_day_is_month_first (const CroBrought *brought,
                                      guint             first_row,
                                      guint             column,
                                      CroDate           first,
                                      CroDate           last);

G_END_DECLS
