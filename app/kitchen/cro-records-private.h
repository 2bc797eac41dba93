/* cro-records-private.h: how rows of the store become cells. */
#pragma once

#include "cro-records.h"

typedef enum
{
  CRO_VALUE_TEXT,
  CRO_VALUE_DATE,         /* a CroDate */
  CRO_VALUE_MONTH,        /* its first day */
  CRO_VALUE_MONEY,        /* in the currency that text names, or the book's */
  CRO_VALUE_DECIMAL,      /* millionths */
  CRO_VALUE_COUNT,
  CRO_VALUE_PCT,          /* signed: a change */
  CRO_VALUE_AMOUNT,       /* millionths of the unit that text names */
  CRO_VALUE_UNIT_COST,    /* per base unit; text is the code of the base */
} CroValueKind;

typedef struct
{
  double      number;     /* what it is sorted by, unless it is text; NaN: not set */
  const char *text;       /* interned by the records; NULL: none */
} CroValue;

#define CRO_RECORD_MOST 9

typedef struct
{
  gint64   id;
  CroRef   ref;
  gint32   month;         /* its first day; of a row without a date G_MININT32 */
  CroValue values[CRO_RECORD_MOST];
} CroRecordRow;

/* All rows of a kind, in the order of the book; texts go into the chunk. FALSE with error, and
 * rows are to be thrown away. */
gboolean cro_records_read (CroBook         *book,
                           CroRecordsKind   kind,
                           GArray          *rows,
                           GStringChunk    *texts,
                           GError         **error);
