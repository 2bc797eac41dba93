/* cro-replayer.h: the statements that give rows back what a change of the journal says of them.
 *
 * Ownership  A table of replayers owns its replayers and their texts.
 * Errors     CRO_STORE_ERROR_DAMAGED where the journal names a table that is not there. */
#pragma once

#include <glib.h>
#include <sqlite3.h>

G_BEGIN_DECLS

/* Parameters: ?1 the row, ?2 what it becomes, ?3 what it has to be, both JSON by column name. A
 * column that the JSON does not name stays. None of them touches a row that is otherwise. */
typedef struct
{
  char *update;
  char *insert;
  char *remove;
} CroReplayer;

/* Name of a table → CroReplayer, made as they are asked for. */
GHashTable        *cro_replayers_new (void);

const CroReplayer *cro_replayers_get (GHashTable  *replayers,
                                      sqlite3     *db,
                                      const char  *table,
                                      GError     **error);

G_END_DECLS
