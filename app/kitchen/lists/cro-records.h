/* cro-records.h: what a book has entered, row by row, to be read and sorted: packs and their
 * prices, exchange rates, and the months with their sales, purchases, counts and
 * adjustments; and what all its plates, preparations and ingredients come to.
 *
 * A list model of CroRecord over an array of indices that is sorted here; an object is made when
 * one is asked for. The rows are read anew when the book's journal or its date has moved, and
 * what is told then are the rows that differ.
 *
 * Ownership  Records hold the book; a record holds its records, and its own copy of its row.
 *            Texts are the caller's.
 * Errors     What cannot be read leaves the list as it was. */
#pragma once

#include <gio/gio.h>

#include "cro-book.h"
#include "cro-ref.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_RECORDS_OFFERS,
  CRO_RECORDS_RATES,
  CRO_RECORDS_MONTHS,
  CRO_RECORDS_SALES,
  CRO_RECORDS_PURCHASES,
  CRO_RECORDS_COUNTS,
  CRO_RECORDS_ADJUSTMENTS,
  CRO_RECORDS_DOCUMENTS,        /* purchases by the invoice or delivery note that they stand on */
  /* What the book's things come to: computed, in the order in which they want attention. */
  CRO_RECORDS_PLATES,           /* and menus */
  CRO_RECORDS_PREPARATIONS,
  CRO_RECORDS_INGREDIENTS,
  /* How prices moved since a day (cro_records_set_since), what moved most first. */
  CRO_RECORDS_MOVES,            /* of ingredients */
  CRO_RECORDS_MOVED,            /* plates and menus whose cost that changes */
  CRO_RECORDS_INDICES,          /* of categories */
  CRO_N_RECORDS,
} CroRecordsKind;

#define CRO_TYPE_RECORDS (cro_records_get_type ())
G_DECLARE_FINAL_TYPE (CroRecords, cro_records, CRO, RECORDS, GObject)

#define CRO_TYPE_RECORD (cro_record_get_type ())
G_DECLARE_FINAL_TYPE (CroRecord, cro_record, CRO, RECORD, GObject)

CroRecords *cro_records_new        (CroBook        *book,
                                    CroRecordsKind  kind);

/* Columns that somebody asks for by name. */
enum
{
  CRO_RECORDS_RATES_SINCE = 1,
  CRO_RECORDS_RATES_STATUS = 4,     /* "" unless in force */
  CRO_RECORDS_MONTHS_MONTH = 0,
  CRO_RECORDS_ENTRIES_DATE = 0,     /* of sales, purchases, counts and adjustments */
  CRO_RECORDS_MONTHS_NET_SALES = 3,
  CRO_RECORDS_MONTHS_TILL = 4,
  CRO_RECORDS_MONTHS_TO_THE_TILL = 5,
  CRO_RECORDS_MONTHS_PURCHASES = 6,
  CRO_RECORDS_MONTHS_LEDGER = 7,
  CRO_RECORDS_MONTHS_TO_THE_LEDGER = 8,
  CRO_RECORDS_ADJUSTMENTS_VALUE = 4,
  CRO_RECORDS_MOVES_SINCE = 6,
  CRO_RECORDS_OFFERS_SUPPLIER = 1,
};

/* --- Columns: of a kind, whatever the book ------------------------------------------------ */

guint       cro_records_n_columns  (CroRecordsKind  kind);
/* Its heading, in the user's language. Borrowed. */
const char *cro_records_title      (CroRecordsKind  kind,
                                    guint           column);
/* Whether it holds numbers, which stand at the right. */
gboolean    cro_records_is_number  (CroRecordsKind  kind,
                                    guint           column);
/* Whether a part of it would mislead: numbers and dates. */
gboolean    cro_records_is_whole   (CroRecordsKind  kind,
                                    guint           column);

/* Where not all have room the highest ranks are left out first; 0: it stays. */
guint       cro_records_rank       (CroRecordsKind  kind,
                                    guint           column);

/* Whether it holds small pictures (cro_record_dup_text gives what they are drawn from). */
gboolean    cro_records_is_picture (CroRecordsKind  kind,
                                    guint           column);

/* Whether it follows the book, as it does from the start; one that nobody looks at need not, and
 * catches up when it is told to follow again. */
void        cro_records_set_follows (CroRecords    *self,
                                    gboolean        follows);

CroRecordsKind cro_records_get_kind (CroRecords    *self);

/* --- Rows ------------------------------------------------------------------------------------ */

/* Equals stay in the order in which the book has them; what is not set stands last. */
void        cro_records_set_order  (CroRecords     *self,
                                    guint           column,
                                    gboolean        falling);

/* Rows whose texts hold every word of it, in any order; NULL: all. */
void        cro_records_set_search (CroRecords     *self,
                                    const char     *text);

/* Rows of one month, "2026-11"; NULL: of all. */
void        cro_records_set_month  (CroRecords     *self,
                                    const char     *month);

/* The day before what moved prices; as long as none is given, 28 days before the book's. */
void        cro_records_set_since  (CroRecords     *self,
                                    CroDate         since);

/* Of plates, preparations, ingredients, packs and sales: those that pass. */
typedef struct
{
  guint       marks;      /* CroRecordMark that a row must have, all of them */
  const char *course;     /* of a plate; of an ingredient: that such plates take; NULL: any. Borrowed
                             during the call */
  guint32     menu;       /* slot: of a plate, that it carries; CRO_NO_SLOT: any */
  guint32     supplier;   /* slot: of an ingredient, who has a pack of it; of a pack, whose it is; CRO_NO_SLOT: any */
  guint       allergens;  /* mask: of an ingredient, one of them was entered of it; 0: any */
  guint       older_than; /* days: of an ingredient, its price in use is older; 0: any */
} CroRecordsFilter;

#define CRO_RECORDS_ALL ((CroRecordsFilter){ .menu = CRO_NO_SLOT, .supplier = CRO_NO_SLOT })

typedef enum
{
  CRO_RECORD_OVER_TARGET = 1 << 0,  /* of an ingredient or a preparation: something that takes it is */
  CRO_RECORD_INCOMPLETE = 1 << 1,
  CRO_RECORD_UNUSED = 1 << 2,
  CRO_RECORD_COSTED = 1 << 3,       /* a sale of a plate or a menu; of the others NOT_COSTED */
  CRO_RECORD_NOT_COSTED = 1 << 4,
  CRO_RECORD_OLD = 1 << 5,          /* its price is, as cro_kind_old_days has it */
  CRO_RECORD_BESIDE = 1 << 6,       /* of a pack: others of the same ingredient stand beside it */
} CroRecordMark;

void        cro_records_set_filter (CroRecords     *self,
                                    const CroRecordsFilter *filter);

/* How many rows there are with a mark, before searching and choosing. */
guint       cro_records_count_marked (CroRecords   *self,
                                    CroRecordMark   mark);

/* So many plates and menus stand under headings of their courses, which are folded at first, as long
 * as nothing is looked for or filtered and no column gives the order. Headings are rows of the list. */
#define CRO_RECORDS_GROUPED 100

/* Folds a heading, or unfolds it. */
void        cro_records_turn       (CroRecords     *self,
                                    CroRecord      *heading);

/* How many are left of searching and choosing, folded or not. */
guint       cro_records_get_n_chosen (CroRecords   *self);

/* How many there are before searching and choosing a month. */
guint       cro_records_get_n_rows (CroRecords     *self);

/* Where the row of a record is shown, whatever became of its values; FALSE: nowhere. */
gboolean    cro_records_find       (CroRecords     *self,
                                    CroRecord      *record,
                                    guint          *position);

/* What adjustments are in money that were entered as amounts: gint64 * to CroMonthWorth *, as a month has it. Of
 * other kinds of rows nothing. Taken. */
void        cro_records_set_worths (CroRecords     *self,
                                    GHashTable     *worths);

/* The row that was entered last of those shown, and its id; NULL and 0: there is none. Owned. */
CroRecord  *cro_records_dup_newest (CroRecords     *self,
                                    gint64         *id);

/* Of months: whether some are in the sum of our sales or purchases that have no total of a till or a ledger, and so
 * no difference. */
gboolean    cro_records_are_unpaired (CroRecords   *self);

/* The sum of a column over the rows that are shown; "" where none says anything: amounts of
 * several things or units, money that came in beside money that went out. */
char       *cro_records_dup_total  (CroRecords     *self,
                                    guint           column);

/* --- One row: as it was when it was asked for ------------------------------------------------ */

/* The id of the row in its table, of a document that of its first; 0 of a month that has none. */
gint64      cro_record_get_id      (CroRecord      *self);

/* What it is about: an ingredient, a supplier, a plate; CRO_REF_NONE. */
CroRef      cro_record_get_ref     (CroRecord      *self);

/* The month it is of, as cro_records_set_month takes it; NULL: of none. Owned. */
char       *cro_record_dup_month   (CroRecord      *self);

/* Whether it is a heading, and how it stands. */
gboolean    cro_record_is_heading  (CroRecord      *self,
                                    gboolean       *is_folded);

/* Whether it is a month that is closed. */
gboolean    cro_record_is_closed   (CroRecord      *self);

/* As people read it; "–" for what is not known, "" for what was left open. */
char       *cro_record_dup_text    (CroRecord      *self,
                                    guint           column);

G_END_DECLS
