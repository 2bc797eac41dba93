/* cro-migration.h: brings the schema of a book up to date.
 *
 * An empty file gets the schema as it stands in schema.sql. A book of an older version becomes the
 * same by a plan: step n leads from version n to n + 1 and says what names of columns moved, and
 * may change rows; then every table whose text differs is made anew under its name by the schema's
 * own text, and its rows are copied. So a new column needs no step of its own, and an older book
 * ends with the same texts as a new one. Never ALTER TABLE: SQLite would rewrite them. All of it is
 * one transaction.
 *
 * A column that is new is not set in the rows that were there, unless the schema has a default: its
 * past in the journal does not know it, so it has to take NULL.
 *
 * Ownership  All is borrowed and static.
 * Errors     CRO_STORE_ERROR; on failure the file is as it was. */
#pragma once

#include <glib.h>
#include <sqlite3.h>

G_BEGIN_DECLS

/* A column that a step gives another name. The journal holds names of columns, so they are
 * rewritten there too: the past of a row stays readable and can be undone. */
typedef struct
{
  const char *table;
  const char *from;
  const char *to;
} CroMigrationRename;

typedef struct
{
  const char               *sql;       /* run on the tables as they were; NULL: none */
  const CroMigrationRename *renames;
  int                       n_renames;
} CroMigrationStep;

typedef struct
{
  const char             *schema;      /* of the newest version */
  const CroMigrationStep *steps;       /* steps[n] leads from version n; the first is of version 1 */
  int                     version;     /* the newest: one more than the last step's */
  const char *const      *digests;     /* digests[n - 1] is cro_schema_digest of version n, which
                                        * no other book has; NULL: schemas are not compared */
} CroMigration;

/* Of this program. */
const CroMigration *cro_migration_get (void);

gboolean cro_migration_get_version (sqlite3             *db,
                                    int                 *version,
                                    GError             **error);

gboolean cro_migration_run         (sqlite3             *db,
                                    const CroMigration  *migration,
                                    GError             **error);

G_END_DECLS
