/* cro-workbook-report.h: sheets of a report that stand before a workbook's model: tables with sums, charts,
 * and totals that tie.
 *
 * Rows       of a sheet begin at CRO_WORKBOOK_REPORT_ROW, as a person counts them; columns are letters from 'A',
 *            CRO_WORKBOOK_REPORT_MOST at most.
 * Units      Money of the book as it is shown, so that parts add up; percentages are fractions.
 * Ownership  Borrowed until the workbook is written. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define CRO_WORKBOOK_REPORT_ROW 5
#define CRO_WORKBOOK_REPORT_MOST 26

/* How much of a figure is known, as the workbook is written: a 0 of which not all is known is none. */
typedef enum
{
  CRO_WORKBOOK_WHOLE,
  CRO_WORKBOOK_AT_LEAST,
  CRO_WORKBOOK_AT_MOST,        /* what is taken from a cost, or is a part of one */
  CRO_WORKBOOK_INCOMPLETE,     /* no bound: a credit may lower it */
  CRO_WORKBOOK_UNKNOWN,        /* nothing; it is whole once what is missing is entered */
} CroWorkbookKnown;

typedef enum
{
  CRO_WORKBOOK_COLUMN_TEXT,
  CRO_WORKBOOK_COLUMN_SENTENCE,  /* wrapped */
  CRO_WORKBOOK_COLUMN_ENTRY,     /* a text that the office fills in */
  CRO_WORKBOOK_COLUMN_NUMBER,    /* with as many decimals as it has */
  CRO_WORKBOOK_COLUMN_QUANTITY,
  CRO_WORKBOOK_COLUMN_MONEY,
  CRO_WORKBOOK_COLUMN_FINE,      /* money of one base unit */
  CRO_WORKBOOK_COLUMN_PCT,
  CRO_WORKBOOK_COLUMN_DATE,      /* a CroDate */
} CroWorkbookColumnKind;

typedef struct
{
  const char            *head;
  CroWorkbookColumnKind  kind;
} CroWorkbookColumn;

typedef enum
{
  CRO_WORKBOOK_ROW_PLAIN,
  CRO_WORKBOOK_ROW_INDENT,
  CRO_WORKBOOK_ROW_TOTAL,
  CRO_WORKBOOK_ROW_HEAD,         /* a heading over the rows that follow */
  CRO_WORKBOOK_ROW_NOTE,         /* a sentence over all columns */
} CroWorkbookRowLook;

typedef struct
{
  const char       *text;        /* NULL: none */
  double            value;       /* NaN: none */
  const char       *formula;     /* # is its row; NULL: the value alone */
  CroWorkbookKnown  known;
} CroWorkbookCell;

typedef enum
{
  CRO_WORKBOOK_CHART_NONE,
  CRO_WORKBOOK_CHART_BARS,
  CRO_WORKBOOK_CHART_SCATTER,
} CroWorkbookChartKind;

/* Under the rows. Rows and columns as a person sees them. */
typedef struct
{
  CroWorkbookChartKind  kind;
  const char           *title;
  guint32               first, last;
  char                  categories;   /* column of names, or of x */
  const char           *values;       /* columns of values, a series each */
  const char           *x, *y;        /* what the axes say; NULL: nothing */
} CroWorkbookChart;

typedef struct
{
  const char               *name, *title, *about;
  const CroWorkbookColumn  *columns;
  guint                     n_columns;
  const CroWorkbookRowLook *looks;    /* [n_rows] */
  const CroWorkbookCell    *cells;    /* [n_rows * n_columns] */
  guint32                   n_rows;
  guint32                   n_filtered;  /* rows from the first that may be filtered; 0: none */
  char                      group;       /* column at which a second group of columns begins; 0: none */
  CroWorkbookChart          chart;
} CroWorkbookSheet;

/* A control total: a cell of a sheet, what it was when it was written, and the same reckoned otherwise. */
typedef struct
{
  const char *what;
  guint       sheet;                  /* of the report */
  char        column;
  guint32     row;
  double      value;
  double      other;
} CroWorkbookTie;

typedef struct
{
  const CroWorkbookSheet *sheets;
  guint                   n_sheets;
  const CroWorkbookTie   *ties;
  guint                   n_ties;
  const char *const      *notes;      /* sentences */
  guint                   n_notes;
} CroWorkbookReport;

G_END_DECLS
