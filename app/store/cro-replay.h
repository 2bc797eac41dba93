/* cro-replay.h: an act being replayed, and what can stand in its way.
 *
 * Ownership  All pointers are borrowed while the replay lasts.
 * Errors     The functions always fail: with CHANGED and the conflict filled in, or with what
 *            kept them from finding it. */
#pragma once

#include "cro-history.h"
#include "cro-store-private.h"

typedef struct
{
  CroStore    *store;
  gint64       base;      /* the act replayed */
  gboolean     forwards;
  GHashTable  *replayers; /* cro_replayers_new */
  CroConflict *conflict;  /* never NULL */
} CroReplay;

/* One change as the replay sees it: the row has to be as from says and becomes what to says. Both
 * are JSON by column name; NULL is no row. */
typedef struct
{
  const char *table;
  gint64      row;
  const char *from;
  const char *to;
} CroMove;

/* The row is not as it has to be: the newest act since the base, and no undo or redo of it, that
 * moved one of its columns, or any column if columns is NULL, stands in the way. columns is JSON by column name. */
gboolean cro_conflict_in_row    (CroReplay      *self,
                                 const char     *table,
                                 gint64          row,
                                 const char     *columns,
                                 GError        **error);

/* The schema refuses with an extended SQLite code what was right before: what stands in the way
 * came later, in this row or in another that has taken its place under a unique key. */
gboolean cro_conflict_of_rule   (CroReplay      *self,
                                 const CroMove  *move,
                                 int             sqlite_code,
                                 GError        **error);

/* A reference leads nowhere: what it refers to was removed before the replay, or a later row refers
 * to what the replay removed. Leaves the error unset
 * if there is no such reference. */
gboolean cro_conflict_of_reference (CroReplay   *self,
                                    GError     **error);
