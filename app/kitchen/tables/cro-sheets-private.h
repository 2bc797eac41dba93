/* cro-sheets-private.h: what reading a folder of tables is made of: names, keys, checks. */
#pragma once

#include "cro-sheets.h"

G_BEGIN_DECLS

/* Spaces in which names are unique. */
typedef enum
{
  CRO_SPACE_ITEMS,
  CRO_SPACE_SUPPLIERS,
  CRO_SPACE_PREPARATIONS,
  CRO_SPACE_THINGS,
  CRO_SPACE_TESTS,
  CRO_SPACE_MONTHS,
  CRO_N_SPACES,
} CroSpace;

typedef struct
{
  CroSheets   *sheets;
  CroFaults   *faults;
  CroTableId   id;                       /* the table being read */
  GHashTable  *names[CRO_N_SPACES];      /* name → number + 1 */
  CroUnderlay *underlay;                 /* NULL: the folder is all there is */
  GHashTable  *offers;                   /* rows of offers, by what they name */
  CroReferent  columns[CRO_MAX_COLUMNS]; /* what each column of the table being read names */
  CroSheetsGoOn go_on;                   /* NULL: nobody asks how far it is */
  gpointer     user_data;
  guint64      n_lines[CRO_N_TABLES];    /* of the files, where somebody asks */
  guint64      n_lines_before;           /* of those read before this table */
  guint64      n_lines_in_all;
  gboolean     is_cancelled;
} CroSheetReader;

static inline guint
cro_sheet_n_of (const CroSheetReader *reader,
                CroTableId            id)
{
  return reader->sheets->sheets[id].n;
}

/* Of the table being read, or of another. column -1: of the whole row. */
void     cro_sheet_fault            (CroSheetReader *reader,
                                     guint32         line,
                                     int             column,
                                     CroFaultKind    kind,
                                     const char     *value,
                                     const char     *detail);
void     cro_sheet_fault_in         (CroSheetReader *reader,
                                     CroTableId      id,
                                     guint32         line,
                                     int             column,
                                     CroFaultKind    kind,
                                     const char     *value,
                                     const char     *detail);

/* Takes one row into the sheet of the table being read; user_data is the reader. */
gboolean cro_sheet_take_row         (guint           line,
                                     const CroField *fields,
                                     gboolean        sound,
                                     gpointer        user_data);

/* --- cro-sheet-names.c ----------------------------------------------------------------------- */

/* A row's own name gets the next number of its space; a fault if it has one. */
void     cro_sheet_register_name    (CroSheetReader *reader,
                                     guint32         line,
                                     const char     *name);

/* The number that a cell keeps for a name: within its own table where only one is meant. */
gint64   cro_sheet_resolve          (CroSheetReader *reader,
                                     guint32         line,
                                     guint           column,
                                     CroReferent     names,
                                     const CroField *fields);

/* --- cro-sheet-keys.c ------------------------------------------------------------------------ */

void     cro_sheet_find_double_keys (CroSheetReader *reader);

/* The offers of the table just read, by what they name; looked up for the rows of prices. */
GHashTable *cro_sheet_offers_new    (void);
void     cro_sheet_index_offers     (CroSheetReader *reader);
void     cro_sheet_find_offer       (CroSheetReader *reader,
                                     guint32         line,
                                     const CroField *fields,
                                     gint64         *cells);

/* --- cro-sheet-answers.c --------------------------------------------------------------------- */

/* Half a pack is none. */
void     cro_sheet_check_answer     (CroSheetReader *reader,
                                     guint32         line,
                                     const CroField *fields);

/* Pack and currency of answers that leave them out, once all tables are read. */
void     cro_sheet_fill_answers     (CroSheetReader *reader);

/* --- cro-sheet-checks.c ---------------------------------------------------------------------- */

/* What goes over several columns of a row. */
void     cro_sheet_check_row        (CroSheetReader *reader,
                                     guint32         line,
                                     const CroField *fields);

/* What goes over whole tables, once all are read. */
void     cro_sheet_read_book        (CroSheetReader *reader);
void     cro_sheet_check_mains      (CroSheetReader *reader);
void     cro_sheet_check_choices    (CroSheetReader *reader);
void     cro_sheet_check_cycles     (CroSheetReader *reader);

G_END_DECLS
