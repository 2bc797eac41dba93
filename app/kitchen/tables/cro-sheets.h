/* cro-sheets.h: a folder of tables, read and checked as a whole before anything is written.
 *
 * Every cell is an int64: a number as its column has it, an interned text, or, where the
 * column names something, the number of what it names. Rows are numbered from 0 in each
 * table; some numbers go over two tables: an item is an ingredient, or beyond those an
 * output; a recipe a preparation, beyond those a plate; a thing a plate, beyond those a menu.
 *
 * Ownership  The sheets own all they hold. */
#pragma once

#include <glib.h>

#include "cro-column.h"
#include "cro-fault.h"
#include "cro-table.h"

G_BEGIN_DECLS

#define CRO_SHEET_UNSET G_MININT64

/* A cell beyond the columns of a price, and of what was answered about one: the number of its offer. */
#define CRO_PRICES_OFFER CRO_N_PRICES
#define CRO_PRICE_ANSWERS_OFFER CRO_N_PRICE_ANSWERS

/* Whether rows of a table have that cell; the first three columns of such a table name the offer. */
static inline gboolean
cro_table_is_of_offers (CroTableId id)
{
  return id == CRO_TABLE_PRICES || id == CRO_TABLE_PRICE_ANSWERS;
}

typedef struct
{
  const CroTable *table;
  guint           width;      /* cells of a row */
  guint           n;
  gint64         *cells;
  guint32        *at;         /* line in the file */
  gsize           allocated;
} CroSheet;

typedef struct
{
  CroSheet      sheets[CRO_N_TABLES];
  gint64        book[CRO_N_BOOK_KEYS];
  gboolean      is_absent[CRO_N_TABLES];  /* the folder has no such file */
  GStringChunk *text;
  GHashTable   *pictures;                 /* name, in text → GBytes: of the folder's pictures */
} CroSheets;

/* Asked now and then with the part that is read, from 0 to 1; FALSE cancels. */
typedef gboolean (*CroSheetsGoOn) (gpointer user_data,
                                   double   done);

/* Faults go to faults; the sheets are whole only if there is none. NULL with error: a file
 * could not be read; with error unset: cancelled. go_on may be NULL. */
CroSheets *cro_sheets_read (const char     *folder,
                            CroSheetsGoOn   go_on,
                            gpointer        user_data,
                            CroFaults      *faults,
                            GError        **error);
/* Rows of a book that those of a folder change and add to (cro-underlay.h). */
typedef struct _CroUnderlay CroUnderlay;

/* The same of the rows of the book and the folder together: a row of the folder whose key the book
 * has changes that row, where a column that is absent keeps what is there. Lines are those of the
 * folder; what is the book's has line 0. */
CroSheets *cro_sheets_read_onto (CroUnderlay    *underlay,
                                 const char     *folder,
                                 CroSheetsGoOn   go_on,
                                 gpointer        user_data,
                                 CroFaults      *faults,
                                 GError        **error);
void       cro_sheets_free (CroSheets   *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroSheets, cro_sheets_free)

static inline gint64
cro_sheet_get (const CroSheet *sheet,
               guint           row,
               guint           column)
{
  return sheet->cells[(gsize) row * sheet->width + column];
}

static inline const char *
cro_sheet_text (const CroSheet *sheet,
                guint           row,
                guint           column)
{
  gint64 cell = cro_sheet_get (sheet, row, column);

  return cell == CRO_SHEET_UNSET ? NULL : (const char *) (gintptr) cell;
}

/* What a column names. */
typedef enum
{
  CRO_REFERENT_NONE,
  CRO_REFERENT_ITSELF,        /* the row's own name, unique in its space */
  CRO_REFERENT_INGREDIENT,
  CRO_REFERENT_SUPPLIER,
  CRO_REFERENT_OFFER,
  CRO_REFERENT_PREPARATION,
  CRO_REFERENT_OUTPUT,
  CRO_REFERENT_ITEM,
  CRO_REFERENT_PLATE,
  CRO_REFERENT_MENU,
  CRO_REFERENT_RECIPE,        /* of the kind in the column before */
  CRO_REFERENT_THING,         /* a plate or a menu */
  CRO_REFERENT_SOLD,          /* a thing of the kind in the column before, or any words */
  CRO_REFERENT_TEST,
  CRO_REFERENT_MONTH,
} CroReferent;

CroReferent cro_sheet_referent (CroTableId id,
                                guint      column);

G_END_DECLS
