/* cro-past-words.h: rows and columns of the journal, by what people call them.
 *
 * A row that is gone is known by what it was when it went. Texts are the caller's to free where
 * they are not const. */
#pragma once

#include "cro-book.h"

G_BEGIN_DECLS

/* "amount" for amount_micro of a line; the column itself, the same pointer, where it has no word.
 * Borrowed. */
const char *cro_past_column   (const char  *table,
                               const char  *column);

/* The entry of the history for one column that changes: "trim yield of Mussels"; of the book, which
 * needs no name, "book setting: tax". */
char       *cro_past_dup_act  (const char  *table,
                               const char  *column,
                               const char  *name);

/* Whether it is a value, and neither an id nor what the row belongs to. */
gboolean    cro_past_is_value (const char  *table,
                               const char  *column);

/* A value as people read it: millionths as a decimal, an id as a name, a code as its word. */
char       *cro_past_value    (CroBook     *book,
                               const char  *table,
                               const char  *column,
                               const char  *value);

/* "Butter in Crab croustade" for a line, "price of Butter, Mill Lane". */
char       *cro_past_subject  (CroBook     *book,
                               const char  *table,
                               gint64       row);

/* Whether a row is that of the thing (table, id), or belongs to it. */
gboolean    cro_past_is_own   (CroStore    *store,
                               const char  *table,
                               gint64       row,
                               const char  *of_table,
                               gint64       of_id);

G_END_DECLS
