/* cro-table.h: the tables of a book as a folder of CSV files.
 *
 * RFC 4180, UTF-8, a header row with the columns in any order, ISO 8601 dates, empty = not
 * set. This is the public contract; it knows columns and values, not what they mean together:
 * whether a name exists, keys are unique or a batch has one main output is its caller's.
 *
 * Units      A decimal field is in millionths, a date in days since 1970-01-01.
 * Spaces     belong to a field (RFC 4180, 2.4), so that a number or a unit with one is a fault;
 *            only names are trimmed.
 * Formulas   Text that begins with = + - @ TAB or CR is written as it is, although a
 *            spreadsheet that opens the file would run it: these tables have to read back equal.
 *            What is made for a spreadsheet is the workbook, where text is no formula.
 * Ownership  Texts handed to a row function live until it returns.
 * Errors     What is wrong in a table is a fault in CroFaults, and reading goes on so that all
 *            are found; GError (G_FILE_ERROR) is for files that cannot be read or written. */
#pragma once

#include <glib.h>

#include "cro-fault.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_TABLE_BOOK,
  CRO_TABLE_INGREDIENTS,
  CRO_TABLE_SUPPLIERS,
  CRO_TABLE_OFFERS,
  CRO_TABLE_PRICES,
  CRO_TABLE_PRICE_ANSWERS,
  CRO_TABLE_RATES,
  CRO_TABLE_PREPARATIONS,
  CRO_TABLE_OUTPUTS,
  CRO_TABLE_LINES,
  CRO_TABLE_PLATES,
  CRO_TABLE_MENUS,
  CRO_TABLE_MENU_PLATES,
  CRO_TABLE_SELLING_PRICES,
  CRO_TABLE_SERVICES,
  CRO_TABLE_SERVICE_STOCK,
  CRO_TABLE_YIELD_TESTS,
  CRO_TABLE_YIELD_TEST_PARTS,
  CRO_TABLE_SALES,
  CRO_TABLE_TILL_NAMES,
  CRO_TABLE_COUNTS,
  CRO_TABLE_PURCHASES,
  CRO_TABLE_ADJUSTMENTS,
  CRO_TABLE_MONTHS,
  CRO_TABLE_MONTH_ROWS,
  CRO_N_TABLES,
} CroTableId;

typedef enum
{
  CRO_FIELD_NAME,      /* trimmed, NFC (cro-name.h), matched exactly */
  CRO_FIELD_TEXT,      /* kept as written */
  CRO_FIELD_DECIMAL,   /* number: millionths */
  CRO_FIELD_DATE,      /* number: CroDate */
  CRO_FIELD_MONTH,     /* number: CroDate of its first day */
  CRO_FIELD_CHOICE,    /* number: index into choices */
  CRO_FIELD_UNIT,      /* number: CroUnit */
  CRO_FIELD_CURRENCY,  /* text: three capital letters of ISO 4217 */
  CRO_FIELD_ALLERGENS, /* number: mask, 0 for "none" */
} CroFieldKind;

/* Whether it is a text that a field of the kind holds, and not a number. */
static inline gboolean
cro_field_is_text (CroFieldKind kind)
{
  return kind == CRO_FIELD_NAME || kind == CRO_FIELD_TEXT || kind == CRO_FIELD_CURRENCY;
}

typedef struct
{
  const char        *name;
  CroFieldKind       kind;
  gboolean           required;
  gboolean           key;
  const char *const *choices;       /* NULL-terminated, for CHOICE */
  gint64             low, high;     /* bounds of a DECIMAL, in millionths */
  gboolean           low_excluded;  /* the value must be above low, not only at it */
  gboolean           high_excluded;
  gint64             fallback;      /* what number is where nothing is set: the default */
  gboolean           is_line;       /* a TEXT without line breaks */
} CroColumn;

typedef struct
{
  const char      *name;            /* the file is NAME.csv */
  const CroColumn *columns;         /* in the order of cro-column.h */
  guint            n_columns;
  gboolean         is_seldom;       /* a folder of tables has no file of it where it has no rows */
} CroTable;

/* Borrowed, static. */
const CroTable *cro_table_get    (CroTableId id);

typedef struct
{
  gboolean    is_set;
  gboolean    is_absent;            /* the file has no such column */
  gint64      number;               /* the column's fallback if not set */
  const char *text;                 /* what stands in the file, a name tidied; NULL if not set */
} CroField;

/* A field of a row that is made here; an empty text is not set. text is borrowed. */
static inline void
cro_field_set_text (CroField   *field,
                    const char *text)
{
  if (text != NULL && *text != '\0')
    *field = (CroField){ .is_set = TRUE, .text = text };
}

static inline void
cro_field_set_number (CroField *field,
                      gint64    number)
{
  *field = (CroField){ .is_set = TRUE, .number = number };
}

/* Reads what stands in one field; "" is not set. field->text is text itself, so a name is
 * tidied before. On a fault returns FALSE with the field not set; *detail is the caller's to
 * free and may be NULL. */
gboolean cro_table_parse_field   (const CroColumn *column,
                                  const char      *text,
                                  CroField        *field,
                                  CroFaultKind    *kind,
                                  char           **detail);

/* The keys of book.csv, whose values are read as plain text: what kind a value is hangs on its
 * key. */
typedef enum
{
  CRO_BOOK_KEY_NAME,
  CRO_BOOK_KEY_CURRENCY,
  CRO_BOOK_KEY_WAGE_PER_HOUR,
  CRO_BOOK_KEY_TAX_PCT,
  CRO_BOOK_KEY_TARGET_PCT,
  CRO_BOOK_KEY_STALE_AFTER_DAYS,
  CRO_BOOK_KEY_SPEAKS,
  CRO_BOOK_KEY_TILL_WITH_TAX,
  CRO_BOOK_KEY_PRICE_STEPS,
  CRO_N_BOOK_KEYS,
} CroBookKey;

/* What a value may be, for cro_table_parse_field(). Borrowed, static. */
const CroColumn *cro_book_key_get (CroBookKey key);

/* FALSE: no such key. */
gboolean cro_book_key_find       (const char *name,
                                  CroBookKey *key);

/* fields: one per column of the table, in its order. A row with a fault is still passed on,
 * with the faulty fields not set and sound FALSE, so that its caller can go on finding faults.
 * Return FALSE to stop reading (cancelled). */
typedef gboolean (*CroRowFunc) (guint           line,
                                const CroField *fields,
                                gboolean        sound,
                                gpointer        user_data);

/* Reads FOLDER/NAME.csv; an absent file is an empty table. FALSE with error unset: stopped. */
gboolean cro_table_read          (const char   *folder,
                                  CroTableId    id,
                                  CroRowFunc    row,
                                  gpointer      user_data,
                                  CroFaults    *faults,
                                  GError      **error);

/* Whether the folder is there and has no FOLDER/NAME.csv. */
gboolean cro_table_is_absent     (const char   *folder,
                                  CroTableId    id);

/* The same of a table that changes another: of one with a key only the columns of the key are
 * demanded. */
gboolean cro_table_read_partial  (const char   *folder,
                                  CroTableId    id,
                                  CroRowFunc    row,
                                  gpointer      user_data,
                                  CroFaults    *faults,
                                  GError      **error);

/* Notes as faults the CSV files in folder that are no table; hidden files are left alone. */
gboolean cro_tables_check_folder (const char   *folder,
                                  CroFaults    *faults,
                                  GError      **error);

typedef struct _CroTableWriter CroTableWriter;

/* Writes FOLDER/NAME.csv into a file beside it, synced and renamed when finished: until then,
 * and after any failure, what stood there before stands there still. */
CroTableWriter *cro_table_writer_new    (const char      *folder,
                                         CroTableId       id,
                                         GError         **error);
gboolean        cro_table_writer_row    (CroTableWriter  *writer,
                                         const CroField  *fields,
                                         GError         **error);
gboolean        cro_table_writer_finish (CroTableWriter  *writer,
                                         GError         **error);
/* Removes what was not finished. */
void            cro_table_writer_free   (CroTableWriter  *writer);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroTableWriter, cro_table_writer_free)

G_END_DECLS
