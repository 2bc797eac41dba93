/* cro-table-reader-private.h: one pass over a file: its lines (cro-table-file.c), and the rows and
 * fields that they hold (cro-table-reader.c). */
#pragma once

#include "cro-table.h"

#include "cro-column.h"

#include <csv.h>

G_BEGIN_DECLS

typedef struct
{
  gsize start;
  gsize length;
} CroTableCell;

typedef struct
{
  const CroTable    *table;
  char              *file;
  CroRowFunc         row;
  gpointer           user_data;
  CroFaults         *faults;

  int                source;
  int                failed;    /* errno of reading it */
  gboolean           has_ended;
  char              *buffer;    /* of the file, from the row in hand on */
  gsize              buffer_size;
  const char        *at;        /* the next physical line */
  const char        *end;
  guint              line;      /* its number */
  const char        *row_rest;  /* what follows the first line of the open row */
  guint              row_line;  /* the number of that first line */
  gboolean           in_row;
  gboolean           is_plain;  /* the row holds no byte but 1 to 127 so far */
  gboolean           stopped;
  gboolean           is_partial; /* absent columns are no fault, but those of the key */

  struct csv_parser  parser;
  char              *text;      /* the fields of the row, each with a NUL */
  gsize              text_size;
  gsize              text_length;
  GArray            *cells;     /* of CroTableCell: no more than the header has */
  guint              n_cells;   /* in the row, kept or not */

  gboolean           has_header;
  gboolean           complete;  /* the header has all required columns */
  guint              n_header;
  GPtrArray         *header;    /* its texts as written */
  int                cell_of[CRO_MAX_COLUMNS];  /* -1: not in the file */
  CroField           fields[CRO_MAX_COLUMNS];
  char              *composed[CRO_MAX_COLUMNS]; /* names that were not in NFC */
} CroTableReader;

void        cro_table_reader_init           (CroTableReader *self);

/* Of the row in hand; column, value and detail may be NULL. */
void        cro_table_reader_add_fault      (CroTableReader *self,
                                             const char     *column,
                                             CroFaultKind    kind,
                                             const char     *value,
                                             const char     *detail);

/* Tells which columns the header lacks. */
void        cro_table_reader_check_required (CroTableReader *self);

void        cro_table_reader_clear_row      (CroTableReader *self);

/* Nothing more of the file has a meaning. */
void        cro_table_reader_leave_rest     (CroTableReader *self);

/* Behind the LF, CRLF or CR; end where there is none. */
const char *cro_table_reader_end_of_line    (const char     *at,
                                             const char     *end);

/* Takes the next physical line. */
void        cro_table_reader_read_line      (CroTableReader *self);

/* Ends the open row, as the file has ended. */
void        cro_table_reader_end            (CroTableReader *self);

G_END_DECLS
