/* cro-remains.h: what can still be read of a book that cannot be opened.
 *
 * Nothing is taken on trust and nothing is written: rows are read table by table, over whatever of
 * the file cannot be read, and say what of them is none of the kinds that a book's values have.
 *
 * Ownership  One thread at a time. Texts of cells live until the row function returns.
 * Errors     CRO_STORE_ERROR: GONE, FOLDER, NOT_A_BOOK, SYSTEM; DAMAGED where not even the list of its tables
 *            can be read. */
#pragma once

#include "cro-store.h"

G_BEGIN_DECLS

typedef struct _CroRemains CroRemains;

/* Of a book of any version, truncated or with tables of another program's making too. */
CroRemains *cro_remains_open (const char          *path,
                              GError             **error);
void        cro_remains_free (CroRemains          *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroRemains, cro_remains_free)

/* Whether it is of the newest version, and so must have all tables. */
gboolean    cro_remains_is_newest (CroRemains     *self);

/* One row. unreadable has a bit for each column whose value is neither a number, nor sound text, nor
 * not set: its cell is as one that is not set. FALSE, with the error set, ends the reading. */
typedef gboolean (*CroRemainsRow) (gint64          id,
                                   const CroCell  *cells,
                                   guint32         unreadable,
                                   gpointer        user_data,
                                   GError        **error);

/* Rows of these ids, if there were any, cannot be read. last is G_MAXINT64 where nobody knows how far
 * they went. */
typedef void (*CroRemainsGap)     (gint64          first,
                                   gint64          last,
                                   gpointer        user_data);

/* The rows of a table by rising id; columns is NULL-terminated and not "id". A column that the table
 * does not have is not set in any row; one gap from G_MININT64 on stands for a table that is not there. */
gboolean    cro_remains_read (CroRemains          *self,
                              const char          *table,
                              const char *const   *columns,
                              CroRemainsRow        row,
                              CroRemainsGap        gap,
                              gpointer             user_data,
                              GError             **error);

/* A picture by its name; NULL: it is not there, or not what its name says. */
GBytes     *cro_remains_read_picture (CroRemains  *self,
                                      const char  *name);

G_END_DECLS
