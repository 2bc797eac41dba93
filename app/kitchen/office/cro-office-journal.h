/* cro-office-journal.h: what the end of a month books: stock, what is not invoiced yet, and what left the
 * kitchen otherwise than on plates. Sales and invoices are booked from their own documents.
 *
 * Each entry is one sum of money, on the debit of one account and the credit of another, so that the two
 * sides of the journal are equal. The accounts are the office's: a table names them by entry.
 *
 * Units      Minor units of the currency, as the statement shows them. */
#pragma once

#include "cro-month-words.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_JOURNAL_OPENING_STOCK,
  CRO_JOURNAL_CLOSING_STOCK,
  CRO_JOURNAL_REVERSED,
  CRO_JOURNAL_NOT_INVOICED,
  CRO_JOURNAL_TRANSFER_IN,
  CRO_JOURNAL_TRANSFER_OUT,
  CRO_JOURNAL_PROMOTION,
  CRO_JOURNAL_OTHER,
  CRO_JOURNAL_STAFF_MEALS,
  CRO_N_JOURNAL_ENTRIES,
} CroJournalKind;

typedef struct
{
  CroJournalKind kind;
  gboolean       is_turned;  /* debit and credit change places: a sum below 0 */
  gint64         minor;      /* above 0; 0 where known is CRO_KNOWN_NOTHING */
  CroKnown       known;
  gboolean       is_untold;  /* a stock that was neither counted nor entered, beside one that was */
} CroJournalEntry;

#define CRO_JOURNAL_ERROR (cro_journal_error_quark ())

typedef enum
{
  CRO_JOURNAL_ERROR_COLUMNS,   /* of the table of accounts: one is not there; the message is its name */
  CRO_JOURNAL_ERROR_ENTRY,     /* no such entry; what stands there */
  CRO_JOURNAL_ERROR_TWICE,     /* an entry stands there again */
  CRO_JOURNAL_ERROR_NO_ENTRIES, /* there are headings alone */
  CRO_JOURNAL_ERROR_MORE_CELLS, /* a row has more cells than there are headings */
  CRO_JOURNAL_ERROR_EMPTY,     /* a cell; the message is its column */
  CRO_JOURNAL_ERROR_STRAY,     /* a character that no account has: "U+202E" (cro-stray.h) */
  CRO_JOURNAL_ERROR_QUOTE,     /* a quotation mark in an account, or one that was never closed */
  CRO_JOURNAL_ERROR_LONG,      /* more than CRO_JOURNAL_MOST_CHARS; the column */
  CRO_JOURNAL_ERROR_FORMULA,   /* what a spreadsheet would run; as it stands there */
} CroJournalErrorCode;

GQuark      cro_journal_error_quark (void);

/* Of an account. */
#define CRO_JOURNAL_MOST_CHARS 64

/* "closing-stock": in the order of CroJournalKind; NULL-terminated. */
extern const char *const cro_journal_codes[];

/* Of the lines that a statement has; what is 0 is no entry. A stock that is told on one of both days alone is an
 * entry of no known money on the other: else all of it would go to the cost of food. CroJournalEntry. */
GArray     *cro_journal_new        (const CroMonth       *month,
                                    int                   digits);

/* What an entry is. Owned. */
char       *cro_journal_words      (const CroJournalEntry *entry);

/* What its sides are where the office names no account. Borrowed. */
const char *cro_journal_side_words (CroJournalKind        kind,
                                    gboolean              is_credit);

/* Accounts from a table, delimited or a spreadsheet, with the columns entry, debit and credit: each entry
 * once and both of its sides. NULL with CRO_JOURNAL_ERROR of *row, as the spreadsheet counts, or what reading
 * gives. */
GHashTable *cro_journal_accounts   (const char           *path,
                                    guint                *row,
                                    GError              **error);

/* The account of a side; NULL: none was named. accounts may be NULL. */
const char *cro_journal_account    (GHashTable           *accounts,
                                    CroJournalKind        kind,
                                    gboolean              is_credit);

/* The journal as a table (RFC 4180): date, entry, account, text, debit, credit, and how much is known of it
 * (empty: all), two rows an entry, in this thread's language. Owned. */
char       *cro_journal_to_csv     (GArray               *journal,
                                    CroDate               day,
                                    int                   digits,
                                    GHashTable           *accounts);

G_END_DECLS
