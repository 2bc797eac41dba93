/* cro-intake.h: what a sheet of somebody's says of one part of a month, and what it is in the book.
 *
 *   sales        a row a sale, or a row a plate: a name as the till has it, how many, for how much
 *   counts       a row an item: how much of it, where; or one text a row: "2 l oil"
 *   documents    a row an invoice, or several: its supplier, its number, its days, its net values, and perhaps
 *                what of which ingredient it bills
 *   adjustments  a row each: its kind, an item with an amount or a value, a note
 *
 * and perhaps a day; documents of closed months may stand among them, which come late. Columns are matched by
 * their headings, in English and in French, and can be told otherwise. Rows that belong together are put
 * together: sold, void (below 0) and given back (0 sold, money below 0) of one name and day, so that what a till
 * rang one by one is no sale twice; and the rows of one document.
 *
 * Each name is a plate, a menu or other revenue, an item, a supplier; or it is left out: as it was settled
 * before (of a till, table till_names), else where the book has something of that name but for case and accents
 * (of an item, in any number where that is but one). What is none of these waits to be settled; nothing is
 * guessed. A row that says a total is left out.
 *
 * Sales with tax are taken without it: at the rate that stands beside them, else of a plate or a menu at that of its
 * day, of other revenue at the book's. The tax of a document is checked against its total, and not kept.
 *
 * Units      Money, amounts and numbers sold in millionths. A row without a day is of the last.
 * Ownership  An intake owns all it holds, and needs what was brought no longer once it is read.
 * Errors     Those of the store. */
#pragma once

#include "cro-brought.h"
#include "cro-month-edit.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_INTAKE_SALES,
  CRO_INTAKE_COUNTS,
  CRO_INTAKE_DOCUMENTS,
  CRO_INTAKE_ADJUSTMENTS,
  CRO_N_INTAKES,
} CroIntakeKind;

/* What a column holds. A program remembers columns by these numbers: new ones stand at the end. */
typedef enum
{
  CRO_INTAKE_NONE,
  CRO_INTAKE_NAME,        /* of what was sold, counted or adjusted; of the supplier */
  CRO_INTAKE_SOLD,
  CRO_INTAKE_REVENUE,     /* with tax or without, as the house's till has it */
  CRO_INTAKE_NET,         /* sales, a document or an adjustment without tax */
  CRO_INTAKE_GROSS,
  CRO_INTAKE_DAY,         /* of a document that of its delivery */
  CRO_INTAKE_AMOUNT,      /* with its unit behind it, or in a column of its own */
  CRO_INTAKE_UNIT,
  CRO_INTAKE_TEXT,        /* a place, a note, the number of a document */
  CRO_INTAKE_KIND,        /* of an adjustment, of what was bought */
  CRO_INTAKE_DATED,       /* the document's own date; of its delivery too where no column says that */
  CRO_INTAKE_FOOD,
  CRO_INTAKE_DISPOSABLES,
  CRO_INTAKE_OTHER_GOODS,
  CRO_INTAKE_TAX,
  CRO_INTAKE_RATE,        /* of the tax in a sale, per cent */
  CRO_INTAKE_ITEM,        /* what a row of a document bills: an ingredient of the book gives its kind too */
  CRO_N_INTAKE_COLUMNS,
} CroIntakeColumn;

typedef struct
{
  CroIntakeKind   kind;
  CroIntakeColumn of[CRO_BROUGHT_MOST_COLUMNS];
  int             headings;   /* the row of the headings; -1: there are none */
} CroIntakeColumns;

/* What headings say; without any, what the cells look like. */
void          cro_intake_columns_find    (const CroBrought        *brought,
                                          CroIntakeKind            kind,
                                          CroIntakeColumns        *columns);

/* A column holds something, which no other one does then; NONE can be many's. */
void          cro_intake_columns_set     (CroIntakeColumns        *columns,
                                          guint                    column,
                                          CroIntakeColumn          what);
gboolean      cro_intake_columns_has     (const CroIntakeColumns  *columns,
                                          CroIntakeColumn          what);

/* What the columns of a kind can hold, *n of them, NONE first. Static. */
const CroIntakeColumn *cro_intake_columns_list (CroIntakeKind      kind,
                                          guint                   *n);

/* Whether money is with tax or without and no column says which. */
gboolean      cro_intake_columns_ask_tax (const CroIntakeColumns  *columns);

typedef enum
{
  CRO_INTAKE_UNSETTLED,
  CRO_INTAKE_THING,           /* what the book has: a plate or a menu, an item, a supplier */
  CRO_INTAKE_OTHER,           /* revenue without a plate, or a supplier to be made, under that name */
  CRO_INTAKE_LEFT_OUT,        /* a total, a comment, a voucher sold */
} CroIntakeState;

typedef struct
{
  const char     *name;       /* as it stands there */
  CroIntakeState  state;
  CroRef          thing;      /* of THING */
  gboolean        is_new;     /* settled here, to be remembered */
  guint           n_rows;
  gint64          sold;       /* of sales */
  gint64          revenue;    /* money as it stands there; CRO_NOT_SET: none does */
} CroIntakeName;

/* Why a row is left out. */
typedef enum
{
  CRO_INTAKE_NO_NAME,
  CRO_INTAKE_NOT_A_NUMBER,
  CRO_INTAKE_NOT_A_DAY,
  CRO_INTAKE_OTHER_MONTH,     /* of a count: another day */
  CRO_INTAKE_TOO_LARGE,       /* with the rows above it, more than the book holds */
  CRO_INTAKE_STRAY,           /* a character that no name has (cro-stray.h); text: "U+202E" */
  CRO_INTAKE_NO_AMOUNT,       /* one text, and no amount in it */
  CRO_INTAKE_NOT_A_UNIT,
  CRO_INTAKE_NOT_A_KIND,      /* text: empty where none is said */
  CRO_INTAKE_NO_NET,          /* of a document: nothing says what it is without tax */
  CRO_INTAKE_NOT_ADDING,      /* its parts are not its total, or its tax does not lead to it; text: by how much */
  CRO_INTAKE_TWICE,           /* text: the number of the other row of the same document and values */
  CRO_INTAKE_IN_BOOK,         /* the book has that document with other values; text: its number */
} CroIntakeFault;

typedef struct
{
  guint           number;     /* of the row, as its spreadsheet shows it */
  CroIntakeFault  fault;
  const char     *text;       /* of the cell at fault; of STRAY its character */
} CroIntakeBad;

typedef struct
{
  CroIntakeKind  kind;
  CroDate        first;       /* the days that rows can be of */
  CroDate        last;
  gboolean       with_tax;
  GArray        *names;       /* CroIntakeName, those that wait first, then by revenue */
  GArray        *bad;         /* CroIntakeBad */
  GArray        *clashing;    /* CroIntakeBad: TWICE and IN_BOOK, of the last cro_intake_entries */
  guint          n_rows;
  guint          n_days;      /* that rows are of */
  guint          n_late;      /* documents of a closed month, which count in the first open one */
  guint          n_known_days; /* of which the book has sales, or counts, already */
  GPtrArray     *lines;       /* of documents, of the last cro_intake_entries: GArray of CroPurchaseEntry */
  GArray        *rows;        /* those of the sheet (cro-intake-private.h) */
  GStringChunk  *texts;
  GHashTable    *known;       /* what the book has, as keys (cro-intake-known.c); NULL: not yet read */
  guint64        known_at;    /* the edition of the book that they are of */
} CroIntake;

void          cro_intake_free            (CroIntake               *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroIntake, cro_intake_free)

/* A sheet while it is read, some rows at a time: it asks the book, which belongs to one thread. */
typedef struct _CroIntakeReading CroIntakeReading;

/* Rows are of the days from first to last; with_tax: whether REVENUE is. Borrows the book, which is not changed
 * while it reads, and what was brought. */
CroIntakeReading *cro_intake_reading_new (CroBook                 *book,
                                          const CroBrought        *brought,
                                          const CroIntakeColumns  *columns,
                                          CroDate                  first,
                                          CroDate                  last,
                                          gboolean                 with_tax,
                                          GError                 **error);
void          cro_intake_reading_free    (CroIntakeReading        *self);

/* Reads as many rows more as that, or all that are left. FALSE: none is. */
gboolean      cro_intake_reading_go_on   (CroIntakeReading        *self,
                                          guint                    n_rows);

/* What was read, once nothing is left; owned. */
CroIntake    *cro_intake_reading_end     (CroIntakeReading        *self,
                                          GError                 **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroIntakeReading, cro_intake_reading_free)

/* Settles a name; thing is that of THING. */
void          cro_intake_settle          (CroIntake               *self,
                                          guint                    name,
                                          CroIntakeState           state,
                                          CroRef                   thing);

guint         cro_intake_count_unsettled (const CroIntake         *self);

/* Rows that lack what only the person can say, and are not entered: of plates and menus that say for how much
 * and not how many; of items whose amount has no unit and is not of pieces. */
guint         cro_intake_count_unmeasured (const CroIntake        *self,
                                          CroBook                 *book);

/* The rows of the book that it comes to, of what is settled: without those that the book has already, *n_known
 * of them. Elements CroSaleEntry, CroCountEntry, CroDocumentEntry or CroAdjustmentEntry, with texts of the
 * intake. */
GArray       *cro_intake_entries         (CroIntake               *self,
                                          CroBook                 *book,
                                          guint                   *n_known,
                                          GError                 **error);

/* Enters them, and remembers how names of a till were settled, as one act. replace, of sales and counts: those
 * of its days go before. *n_made is how many were made. */
gboolean      cro_intake_enter           (CroIntake               *self,
                                          CroBook                 *book,
                                          const char              *label,
                                          gboolean                 replace,
                                          guint                   *n_made,
                                          GError                 **error);

G_END_DECLS
