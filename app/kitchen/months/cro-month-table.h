/* cro-month-table.h: what a month tells, as a table of texts: told once, for a terminal, the screen and
 * paper alike.
 *
 * Ownership  A table owns its texts. */
#pragma once

#include "cro-known.h"

G_BEGIN_DECLS

#define CRO_MONTH_TABLE_COLUMNS 8

typedef struct
{
  int      line;          /* which one it is, as its maker counts them; -1: a sum */
  guint    indent;        /* characters */
  gboolean is_apart;      /* other rows than those above: room is left between */
  gboolean is_sum;
  char    *cells[CRO_MONTH_TABLE_COLUMNS];    /* the first is its name; NULL: empty */
  char    *note;          /* said of it; NULL: nothing */
} CroMonthTableRow;

typedef struct
{
  guint      n_columns;
  char      *titles[CRO_MONTH_TABLE_COLUMNS]; /* NULL: none */
  guint      words;       /* a bit for each column that holds words, not numbers; the first does */
  guint      spared;      /* a bit for each that is left out where a page has no room for all */
  GArray    *rows;        /* CroMonthTableRow */
  GPtrArray *notes;       /* char *: sentences below */
} CroMonthTable;

/* titles: n_columns of them, copied. */
CroMonthTable    *cro_month_table_new      (guint              n_columns,
                                            const char *const *titles);
void              cro_month_table_free     (CroMonthTable     *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroMonthTable, cro_month_table_free)

/* An empty row at the end; name is copied. Borrowed until the next is added. */
CroMonthTableRow *cro_month_table_add      (CroMonthTable     *self,
                                            int                line,
                                            const char        *name);

const CroMonthTableRow *cro_month_table_get (const CroMonthTable *self,
                                            guint              i);

/* The row of a line; NULL: there is none. */
const CroMonthTableRow *cro_month_table_find (const CroMonthTable *self,
                                            int                line);

/* Money in minor units, marked by what is known of it: "?" of 0 that is not known whole. Owned. */
char             *cro_month_table_money    (CroKnown           known,
                                            gint64             minor,
                                            int                digits);

/* The same with the sign of a change. */
char             *cro_month_table_change   (CroKnown           known,
                                            gint64             minor,
                                            int                digits);

G_END_DECLS
