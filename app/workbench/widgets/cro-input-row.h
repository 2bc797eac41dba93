/* cro-input-row.h: the row and column that a field shows, or the way that stands for them: whether
 * it is there, what it holds, and how a value goes into it.
 *
 * Of the files of cro-input.h alone.
 *
 * Ownership  The row holds its book, its label and what it keeps; cro_input_row_clear() gives them
 *            back. Its owner is weak. What dup_… returns is owned by who asks. */
#pragma once

#include "cro-input.h"

G_BEGIN_DECLS

typedef struct
{
  CroBook           *book;
  const char        *table;
  gint64             id;
  const char        *column;
  char              *act;
  const CroInputWay *way;         /* borrowed; NULL: the column */
  GObject           *owner;       /* weak: NULL once it is gone */
  gboolean           has_owner;
  guint64            there;       /* of the book, when the row was last found in the store; 0: never */
} CroInputRow;

gboolean cro_input_row_is         (const CroInputRow *row,
                                   CroBook       *book,
                                   const char    *table,
                                   gint64         id,
                                   const char    *column);
void     cro_input_row_set        (CroInputRow   *row,
                                   CroBook       *book,
                                   const char    *table,
                                   gint64         id,
                                   const char    *column);
void     cro_input_row_set_way    (CroInputRow   *row,
                                   const CroInputWay *way,
                                   gpointer       owner);
void     cro_input_row_clear      (CroInputRow   *row);

/* Whether what it belongs to was disposed of. */
gboolean cro_input_row_lost_owner (const CroInputRow *row);

/* Between the act that removed the row, or what it belongs to, and the refresh that takes the field
 * away: another process may have made it. A row that was never there is not gone: keeping makes it. */
gboolean cro_input_row_is_gone    (CroInputRow   *row);

/* The same as far as the book knows, which keys that are typed need not ask twice. */
gboolean cro_input_row_is_known_gone (CroInputRow *row);

/* What is stored; input is the field that a way is asked for. */
char    *cro_input_row_dup_text   (CroInputRow   *row,
                                   const CroInputType *type,
                                   CroInput      *input);

/* Ahead of the first key: none of them asks the store. */
void     cro_input_row_look       (CroInputRow   *row,
                                   CroInput      *input);

gboolean cro_input_row_preview    (CroInputRow   *row,
                                   CroInput      *input,
                                   const CroCell *cell,
                                   GError       **error);
gboolean cro_input_row_keep       (CroInputRow   *row,
                                   CroInput      *input,
                                   const CroCell *cell,
                                   GError       **error);

G_END_DECLS
