/* cro-migration.h: brings the schema of a book up to date.
 *
 * Step n leads from version n to n + 1; step 0 makes an empty file a book. All steps that a book
 * lacks are one transaction.
 *
 * Ownership  Steps are borrowed and static.
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
  const char               *sql;
  const CroMigrationRename *renames;
  int                       n_renames;
} CroMigrationStep;

/* The steps of this program; *n_steps is the version of its books. */
const CroMigrationStep *cro_migration_get_steps (int *n_steps);

gboolean cro_migration_get_version (sqlite3                *db,
                                    int                    *version,
                                    GError                **error);

gboolean cro_migration_run         (sqlite3                *db,
                                    const CroMigrationStep *steps,
                                    int                     n_steps,
                                    GError                **error);

G_END_DECLS
