/* cro-records-private.h: how rows of the store become cells. */
#pragma once

#include "cro-known.h"
#include "cro-records.h"
#include "cro-selling-steps.h"

typedef enum
{
  CRO_VALUE_TEXT,
  CRO_VALUE_DATE,         /* a CroDate */
  CRO_VALUE_MONTH,        /* its first day */
  CRO_VALUE_MONEY,        /* in the currency that text names, or the book's */
  CRO_VALUE_DECIMAL,      /* millionths */
  CRO_VALUE_RATE,         /* millionths, of an exchange rate */
  CRO_VALUE_COUNT,
  CRO_VALUE_PCT,          /* signed: a change */
  CRO_VALUE_AMOUNT,       /* millionths of the unit that text names */
  CRO_VALUE_UNIT_COST,    /* per base unit; text is the code of the base */
  CRO_VALUE_APART,        /* by how much two totals differ that should be one; money */
  CRO_VALUE_SHOWN,        /* a figure as text shows it, with what is not known of it */
  CRO_VALUE_ADDED,        /* money with its sign */
  CRO_VALUE_COURSE,       /* points of a small picture, 'A' to 'z' each, ' ' for none */
} CroValueKind;

typedef struct
{
  double      number;     /* what it is sorted by, unless it is text; NaN: not set */
  const char *text;       /* interned by the records; NULL: none */
  CroKnown    known;      /* of money; of what is not known at all, what a sum that it goes into is */
} CroValue;

/* Text may be NULL. */
#define CRO_VALUE(number, text) ((CroValue){ (number), (text), CRO_KNOWN_WHOLE })

#define CRO_RECORD_MOST 11

typedef struct
{
  gint64   id;
  CroRef   ref;
  gint32   month;         /* its first day; of a row without a date G_MININT32 */
  gboolean is_closed;     /* of a month */
  gboolean came_in;       /* of an adjustment: a transfer in, which takes from the others */
  guint    marks;         /* CroRecordMark */
  gboolean is_heading, is_folded; /* its id is below 0 then */
  double   urgency;       /* of a computed row: what stands first, the lowest before the others */
  const char *also;       /* what it is found by as well, interned; NULL: nothing */
  CroValue values[CRO_RECORD_MOST];
} CroRecordRow;

typedef struct
{
  const char   *title;    /* not translated yet */
  CroValueKind  kind;
  gboolean      adds_up;  /* a sum over rows says something */
  gboolean      is_whole; /* of a text: a part of it would mislead */
  guint         rank;     /* see cro_records_rank () */
} CroRecordColumn;

const CroRecordColumn *cro_records_column (CroRecordsKind  kind,
                                           guint           column);

/* As people read it. Owned. */
char    *cro_record_value_text (CroModel        *model,
                                CroValueKind     kind,
                                const CroValue  *value);

/* Adds a value to a sum, which begins with NaN: what is not known of one is not known of both. */
void     cro_value_add         (CroValue        *sum,
                                const CroValue  *value);

/* The sum of one column over rows by index; NaN where it does not add up: its amounts are of
 * several things or units, or what came in stands beside what went out. */
CroValue cro_records_sum       (const GArray    *rows,
                                const GArray    *indices,
                                CroRecordsKind   kind,
                                guint            column);

/* A record of a row, which it copies. */
CroRecord *cro_record_new      (CroRecords         *records,
                                const CroRecordRow *row);

/* Borrowed. */
const CroRecordRow *cro_record_get_row (CroRecord *self);

CroModel *cro_records_get_model (CroRecords    *self);

/* --- Reading: one row at a time is filled and appended --------------------------------------- */

typedef struct
{
  CroBook      *book;
  CroModel     *model;
  GArray       *rows;         /* CroRecordRow */
  GStringChunk *texts;
  CroRecordRow  row;          /* the one being made */
  GHashTable   *selling;  /* of sales: cro_selling_steps_all */
  GHashTable   *in_force; /* of rates: cro_rates_in_force */
  GHashTable   *answers;  /* of packs: cro_price_answers_new */
  CroDate       since;    /* of moves */
} CroReading;

typedef void (*CroFillRow) (CroReading *self,
                            CroRows    *rows);

/* Begins a row without values. */
void     cro_reading_begin     (CroReading         *self,
                                gint64              id);

/* Whole rows of a table; the first column is the id. */
gboolean cro_reading_table     (CroReading         *self,
                                const char         *table,
                                const char *const  *columns,
                                CroFillRow          fill,
                                GError            **error);

CroValue cro_reading_text      (CroReading         *self,
                                const char         *text);
CroValue cro_reading_number    (double              number);
CroValue cro_reading_micro     (CroRows            *rows,
                                int                 column);
CroValue cro_reading_money     (CroRows            *rows,
                                int                 column);

/* What a figure is sorted by, and how it is read; takes text. */
CroValue cro_reading_shown     (CroReading         *self,
                                double              number,
                                char               *text);

/* What causes tell of, in one line: the only one, or how many there are. Takes the array. */
CroValue cro_reading_causes    (CroReading         *self,
                                GArray             *causes);

/* Puts computed rows in the order of their urgency, and of what stands in their first column. */
void     cro_reading_sort      (CroReading         *self);

/* A column of texts by id, of a table: id → text, owned. NULL with error. */
GHashTable *cro_reading_notes  (CroReading         *self,
                                const char         *table,
                                const char         *column,
                                GError            **error);

/* By the kinds. */
gboolean cro_reading_offers    (CroReading         *self,
                                GError            **error);
gboolean cro_reading_months    (CroReading         *self,
                                GError            **error);
gboolean cro_reading_plates    (CroReading         *self,
                                GError            **error);
gboolean cro_reading_preparations (CroReading      *self,
                                GError            **error);
gboolean cro_reading_ingredients (CroReading       *self,
                                GError            **error);
gboolean cro_reading_moves     (CroReading         *self,
                                GError            **error);
gboolean cro_reading_moved     (CroReading         *self,
                                GError            **error);
gboolean cro_reading_indices   (CroReading         *self,
                                GError            **error);

/* --- What filters choose by -------------------------------------------------------------- */

/* Looked up once for all rows of a choice. */
typedef struct _CroRecordsSieve CroRecordsSieve;

CroRecordsSieve *cro_records_sieve_new    (CroBook                *book,
                                           const CroRecordsFilter *filter);
void             cro_records_sieve_free   (CroRecordsSieve        *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroRecordsSieve, cro_records_sieve_free)

gboolean         cro_records_sieve_passes (CroRecordsSieve        *self,
                                           const CroRecordRow     *row);

/* All rows of a kind, in the order of the book; texts go into the chunk. FALSE with error, and
 * rows are to be thrown away. since: of moves. */
gboolean cro_records_read (CroBook         *book,
                           CroRecordsKind   kind,
                           CroDate          since,
                           GArray          *rows,
                           GStringChunk    *texts,
                           GError         **error);
