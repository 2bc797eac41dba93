/* cro-changes.h: what an act changed, as the tables would show it: names, not ids, and texts as
 * they stand in a file.
 *
 * Names and keys are those that held when the act was done, whatever they are called today.
 *
 * Ownership  Lists own what they hold.
 * Errors     CRO_STORE_ERROR. */
#pragma once

#include <glib.h>

#include "cro-store.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_CHANGE_ADDED,
  CRO_CHANGE_MOVED,
  CRO_CHANGE_REMOVED,
} CroChangeKind;

/* One value of one row. */
typedef struct
{
  CroChangeKind kind;     /* of the row */
  gint64        row;      /* values of one row of one table follow one another */
  const char   *table;    /* as its file is called, without .csv */
  char         *key;      /* see cro_changes_of_act */
  const char   *column;
  char         *from;     /* NULL: not set, or no row */
  char         *to;
} CroTableChange;

/* In the order in which they were made. A key of one column is its text; one of several stands as
 * in a row of the file, with commas between. Rows without a key are told by their dates, kinds and
 * names. Elements CroTableChange. What a fill wrote is not in the journal: then the list is empty. */
GPtrArray *cro_changes_of_act (CroStore  *store,
                               gint64     act,
                               GError   **error);

G_END_DECLS
