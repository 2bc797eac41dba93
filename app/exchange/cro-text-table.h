/* cro-text-table.h: a table of texts with a title and notes, told once: for a spreadsheet, for plain rows
 * of commas, and for whoever draws it.
 *
 * Ownership  All texts are copied; those of a row are taken. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Columns at most. */
#define CRO_TEXT_TABLE_MOST 26

typedef struct
{
  char     *text;
  gboolean  is_mark;     /* its cells are a sign or a word in the middle of a narrow column */
} CroTextHead;

typedef struct
{
  char  *heading;        /* over the rows that follow; NULL: it is a row of */
  char **cells;          /* one for each column */
} CroTextRow;

typedef struct
{
  char   *title;
  char   *subtitle;
  GArray *heads;         /* CroTextHead */
  GArray *rows;          /* CroTextRow */
  GPtrArray *notes;      /* char * */
} CroTextTable;

CroTextTable *cro_text_table_new          (const char          *title,
                                           const char          *subtitle);
void          cro_text_table_free         (CroTextTable        *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroTextTable, cro_text_table_free)

/* All of them before the first row. */
void          cro_text_table_add_head     (CroTextTable        *self,
                                           const char          *text,
                                           gboolean             is_mark);
void          cro_text_table_add_heading  (CroTextTable        *self,
                                           const char          *text);
/* NULL-terminated, a cell for each column. */
void          cro_text_table_take_row     (CroTextTable        *self,
                                           char               **cells);
void          cro_text_table_add_note     (CroTextTable        *self,
                                           const char          *text);

/* Rows by RFC 4180 in UTF-8: the heads, then each row with the heading that it stands under in a first column
 * of that title. Owned. */
char         *cro_text_table_to_csv       (const CroTextTable  *self,
                                           const char          *title_of_headings);

/* A spreadsheet of one sheet, to be printed. created: seconds since 1970, so that a file made again is the
 * same file. What stood at path stands there on failure: CRO_WORKBOOK_ERROR or G_FILE_ERROR. */
gboolean      cro_text_table_write_sheet  (const CroTextTable  *self,
                                           const char          *path,
                                           gint64               created,
                                           gboolean             is_letter,
                                           GError             **error);

G_END_DECLS
