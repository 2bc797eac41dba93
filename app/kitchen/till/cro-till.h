/* cro-till.h: what a till wrote of a month's sales, and what it is in the book.
 *
 * A sheet has a row a sale, or a row a plate: a name as the till has it, how many, for how much, and perhaps
 * a day; columns are matched by their headings, in English and in French, and can be told otherwise.
 * Rows of one name and day are put together: sold, void (below 0) and given back (0 sold, money below 0)
 * apart, so that what the till rang one by one is no sale twice.
 *
 * Each name of the till is a plate, a menu, other revenue, or left out: as it was settled before
 * (table till_names), else where the book has a plate or a menu of that name but for case and accents. What
 * is none of these waits to be settled; nothing is guessed. A row that says a total is left out.
 *
 * Money with tax is taken without it: of a plate or a menu at the rate of its day, of other revenue at the
 * book's.
 *
 * Units      Money and numbers sold in millionths. Days are days of the month; a row without one is of the
 *            month's last.
 * Ownership  A till owns all it holds, and needs what was brought no longer once it is read.
 * Errors     Those of the store. */
#pragma once

#include "cro-brought.h"
#include "cro-month-edit.h"

G_BEGIN_DECLS

/* What a column holds. */
typedef enum
{
  CRO_TILL_NONE,
  CRO_TILL_NAME,
  CRO_TILL_SOLD,
  CRO_TILL_REVENUE,     /* with tax or without, as the house's till has it */
  CRO_TILL_NET,
  CRO_TILL_GROSS,
  CRO_TILL_DAY,
  CRO_N_TILL_COLUMNS,
} CroTillColumn;

typedef struct
{
  CroTillColumn of[CRO_BROUGHT_MOST_COLUMNS];
  int           headings;   /* the row of the headings; -1: there are none */
} CroTillColumns;

/* What headings say; without any, what the cells look like. */
void          cro_till_columns_find   (const CroBrought      *brought,
                                       CroTillColumns        *columns);

/* A column holds something, which no other one does then; NONE can be many's. */
void          cro_till_columns_set    (CroTillColumns        *columns,
                                       guint                  column,
                                       CroTillColumn          what);
gboolean      cro_till_columns_has    (const CroTillColumns  *columns,
                                       CroTillColumn          what);

/* Whether money is with tax or without and no column says which. */
gboolean      cro_till_columns_ask_tax (const CroTillColumns *columns);

typedef enum
{
  CRO_TILL_UNSETTLED,
  CRO_TILL_THING,           /* a plate or a menu */
  CRO_TILL_OTHER,           /* revenue without a plate, under that name */
  CRO_TILL_LEFT_OUT,        /* a total, a comment, a voucher sold */
} CroTillState;

typedef struct
{
  const char   *name;       /* as the till has it */
  CroTillState  state;
  CroRef        thing;      /* of THING */
  gboolean      is_new;     /* settled here, to be remembered */
  guint         n_rows;
  gint64        sold;
  gint64        revenue;    /* as it stands there; CRO_NOT_SET: none does */
} CroTillName;

/* Why a row is left out. */
typedef enum
{
  CRO_TILL_NO_NAME,
  CRO_TILL_NOT_A_NUMBER,
  CRO_TILL_NOT_A_DAY,
  CRO_TILL_OTHER_MONTH,
  CRO_TILL_TOO_LARGE,       /* with the rows above it, more than the book holds */
  CRO_TILL_STRAY,           /* a character that no name has (cro-stray.h); text: "U+202E" */
} CroTillFault;

typedef struct
{
  guint         number;     /* of the row, as its spreadsheet shows it */
  CroTillFault  fault;
  const char   *text;       /* of the cell at fault; of STRAY its character */
} CroTillBad;

typedef struct
{
  CroDate       first;      /* of the month */
  CroDate       last;
  gboolean      with_tax;
  GArray       *names;      /* CroTillName, those that wait first, then by revenue */
  GArray       *bad;        /* CroTillBad */
  guint         n_rows;
  guint         n_days;     /* that rows are of */
  guint         n_known_days; /* of which the book has sales already */
  GArray       *rows;       /* those of the sheet; of cro-till.c */
  GStringChunk *texts;
} CroTill;

CroTill      *cro_till_read           (CroBook               *book,
                                       const CroBrought      *brought,
                                       const CroTillColumns  *columns,
                                       CroDate                first,
                                       gboolean               with_tax,
                                       GError               **error);
void          cro_till_free           (CroTill               *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroTill, cro_till_free)

/* Settles a name; thing is that of THING. */
void          cro_till_settle         (CroTill               *self,
                                       guint                  name,
                                       CroTillState           state,
                                       CroRef                 thing);

guint         cro_till_count_unsettled (const CroTill        *self);

/* Rows of plates and menus that say for how much and not how many: they are not entered. */
guint         cro_till_count_uncounted (const CroTill        *self);

/* The rows of table sales that it comes to, of what is settled: without those that the book has already,
 * *n_known of them. Elements CroSaleEntry, with texts of the till. */
GArray       *cro_till_entries        (const CroTill         *self,
                                       CroBook               *book,
                                       guint                 *n_known,
                                       GError               **error);

/* Enters them, and remembers how names were settled, as one act. replace: sales of its days go before. *n_made
 * is how many rows were made. */
gboolean      cro_till_enter          (const CroTill         *self,
                                       CroBook               *book,
                                       const char            *label,
                                       gboolean               replace,
                                       guint                 *n_made,
                                       GError               **error);

G_END_DECLS
