/* cro-spreadsheet-private.h: what the readers of the two kinds of spreadsheets share. */
#pragma once

#include "cro-spreadsheet.h"

#include <libxml/xmlreader.h>

G_BEGIN_DECLS

/* The cells of the row in hand. A row costs what it holds, however far to the right that stands. */
typedef struct
{
  char        *texts;    /* one after the other, each with a NUL; they never move */
  gsize        n_bytes;
  CroReadCell *cells;    /* [CRO_SPREADSHEET_MOST_COLUMNS]; empty but for those that are filled */
  guint        n;        /* columns of the row */
  guint       *filled;   /* columns */
  guint        n_filled;
} CroReadCells;

void     cro_read_cells_init         (CroReadCells              *self);
void     cro_read_cells_clear        (CroReadCells              *self);

/* Puts a cell at column, after all that are there; those between are empty, as is one without text.
 * around is borrowed until the row is handed on. FALSE: it is none that a row can have. */
gboolean cro_read_cells_put          (CroReadCells              *self,
                                      guint                      column,
                                      CroReadCellKind            kind,
                                      const char                *text,
                                      gsize                      length,
                                      const char                *around,
                                      gboolean                   is_hidden);

/* Hands the row on, if it has a cell that is not empty, and empties it. FALSE: stop. */
gboolean cro_read_cells_hand_on      (CroReadCells              *self,
                                      guint                      row,
                                      const CroSpreadsheetTaker *taker,
                                      gpointer                   user_data);

/* How much of a text says in which charset it is. */
#define CRO_TEXT_HEAD 512

/* By its mark, of *mark bytes, or by the zeros of UTF-16 and UTF-32 without one; NULL: it is of one
 * byte a character, or no text at all. */
const char *cro_text_find_charset (const char *head,
                                   gsize       length,
                                   gsize      *mark);

gboolean cro_delimited_read     (const char                *path,
                                 const CroSpreadsheetTaker *taker,
                                 gpointer                   user_data,
                                 GError                   **error);

/* cro-spreadsheet-package.c: the parts of a workbook, each unpacked as it is read. */
typedef struct _CroPart CroPart;

/* Who is asked whether to go on; taker may be NULL. */
typedef struct
{
  const CroSpreadsheetTaker *taker;
  gpointer                   user_data;
} CroReadFor;

/* NULL with error; with error unset: the package has no such part. */
CroPart *cro_part_open          (const char                *path,
                                 const char                *name,
                                 CroReadFor                 whom,
                                 GError                   **error);
xmlTextReaderPtr cro_part_get_xml (CroPart                 *self);

/* Steps on; FALSE at the end and on an error: STOPPED where it was told not to go on. */
gboolean cro_part_next          (CroPart                   *self,
                                 GError                   **error);
void     cro_part_free          (CroPart                   *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroPart, cro_part_free)

/* Of an element, as long as its begin is told. */
typedef struct
{
  const xmlChar **all;
  guint           n;
} CroPartAttributes;

/* NULL: it has none of this name, whichever its namespace. The value is no text with a NUL at its end. */
const char *cro_part_attribute  (const CroPartAttributes   *self,
                                 const char                *name,
                                 gsize                     *length);

/* What a large part is told by, in its order; names without their namespace, a text in any number of
 * pieces. FALSE: no more, with error or without. */
typedef struct
{
  gboolean (*begin) (const char              *name,
                     const CroPartAttributes *attributes,
                     gpointer                 user_data,
                     GError                 **error);
  gboolean (*text)  (const char              *text,
                     gsize                    length,
                     gpointer                 user_data,
                     GError                 **error);
  gboolean (*end)   (const char              *name,
                     gpointer                 user_data,
                     GError                 **error);
} CroPartWalker;

/* is_needed: a package without such a part is DAMAGED. FALSE with error: not walked to its end, STOPPED
 * where whom did not want to go on; without: the walker said so. */
gboolean cro_part_walk          (const char                *path,
                                 const char                *name,
                                 gboolean                   is_needed,
                                 CroReadFor                 whom,
                                 const CroPartWalker       *walker,
                                 gpointer                   user_data,
                                 GError                   **error);

/* cro-spreadsheet-workbook.c: what a workbook says of its sheets. */
typedef struct
{
  GPtrArray *names;       /* of the sheets that can be seen */
  GPtrArray *parts;       /* where each of them stands in the package */
  char      *texts_part;  /* NULL: none */
  char      *styles_part;
  gboolean   is_1904;     /* days are counted from 1904-01-01 */
} CroWorkbookParts;

CroWorkbookParts *cro_workbook_parts_new  (const char        *path,
                                           CroReadFor         whom,
                                           GError           **error);
void              cro_workbook_parts_free (CroWorkbookParts  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroWorkbookParts, cro_workbook_parts_free)

/* What numbers of a style are. */
typedef enum
{
  CRO_NUMBERS_PLAIN,
  CRO_NUMBERS_PERCENT,
  CRO_NUMBERS_DATE,
} CroNumbers;

typedef struct
{
  CroNumbers numbers;
  char      *around;    /* as a cell's; NULL */
  gboolean   is_hidden; /* its format shows nothing, or what it shows is struck out */
} CroStyle;

/* By number of the style. NULL with error. */
GArray     *cro_styles_read     (const char                *path,
                                 const CroWorkbookParts    *parts,
                                 CroReadFor                 whom,
                                 GError                   **error);

gboolean    cro_sheet_read      (const char                *path,
                                 const CroWorkbookParts    *parts,
                                 guint                      sheet,
                                 const CroSpreadsheetTaker *taker,
                                 gpointer                   user_data,
                                 GError                   **error);

G_END_DECLS
