#include "cro-migration.h"

#include "cro-remake.h"
#include "cro-schema.h"
#include "cro-store-private.h"

static const CroMigrationStep steps[] = {
  { NULL, NULL, 0 }, /* of no version: an empty file */
  /* 1: selling prices with dates, services, choices, what closing a month freezes */
  { NULL, NULL, 0 },
  /* 2: the selling prices that a house rounds to */
  { NULL, NULL, 0 },
  /* 3: pictures of plates and preparations */
  { NULL, NULL, 0 },
  /* 4: what a till calls what it sells */
  { NULL, NULL, 0 },
  /* 5: prices that were asked about and are right */
  { NULL, NULL, 0 },
};

static const char *const digests[] = {
  "9e67f842ee24bcc8d0c625b3976b2109c68aed1334908a7b3947bf3f2fb672bd",
  "bccb3973e6e7388177c48fcba47cd8912feae316e66115481a36015483759b9c",
  "0544e0217894077d3f2e09c6dc3d223ba43901538c543de8bbdb1f63dad5916d",
  "9284e5e353a8dbf8fb82715944340ea97efab7cd7f49e197b106fe1cb355a19f",
  "b6d014df2fe74daeea3ed3e0d16d8b4c62467cdfc2e33f1e3d845ee174d0f5c9",
  "f424af5431f0a1d7af31229c6d85da3196c24d6c4498d0b00f626f93445ecc41",
};

static const CroMigration migration = {
  cro_schema_sql, steps, G_N_ELEMENTS (steps), digests,
};

G_STATIC_ASSERT (G_N_ELEMENTS (digests) == G_N_ELEMENTS (steps));

const CroMigration *
cro_migration_get (void)
{
  return &migration;
}

gboolean
cro_migration_get_version (sqlite3  *db,
                           int      *version,
                           GError  **error)
{
  gint64 number;

  if (!cro_sql_number (db, "PRAGMA user_version", &number, error))
    return FALSE;
  *version = (int) number;
  return TRUE;
}

static gboolean
rename_in_changes (sqlite3                   *db,
                   const CroMigrationRename  *rename,
                   const char                *side,
                   GError                   **error)
{
  g_autofree char        *sql = NULL;
  g_autofree char        *from = g_strdup_printf ("$.%s", rename->from);
  g_autofree char        *to = g_strdup_printf ("$.%s", rename->to);
  g_autoptr(sqlite3_stmt) stmt = NULL;

  sql = g_strdup_printf ("UPDATE change SET %1$s = json_set (json_remove (%1$s, ?2), ?3,"
                         " json_extract (%1$s, ?2))"
                         " WHERE tbl = ?1 AND json_type (%1$s, ?2) IS NOT NULL",
                         side);
  stmt = cro_sql_prepare (db, sql, error);
  if (stmt == NULL)
    return FALSE;
  cro_sql_bind_text (stmt, 1, rename->table);
  cro_sql_bind_text (stmt, 2, from);
  cro_sql_bind_text (stmt, 3, to);
  return sqlite3_step (stmt) == SQLITE_DONE || cro_sql_fail (db, error);
}

static gboolean
take_step (sqlite3                 *db,
           const CroMigrationStep  *step,
           GError                 **error)
{
  if (step->sql != NULL && !cro_sql_exec (db, step->sql, error))
    return FALSE;
  for (int i = 0; i < step->n_renames; i++)
    if (!rename_in_changes (db, &step->renames[i], "before", error) ||
        !rename_in_changes (db, &step->renames[i], "after", error))
      return FALSE;
  return TRUE;
}

static gboolean
check_references (sqlite3  *db,
                  GError  **error)
{
  gint64 n_broken;

  if (!cro_sql_number (db, "SELECT count(*) FROM pragma_foreign_key_check", &n_broken, error))
    return FALSE;
  if (n_broken == 0)
    return TRUE;
  g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED,
               "%" G_GINT64_FORMAT " references lead nowhere", n_broken);
  return FALSE;
}

static gboolean
take_steps (sqlite3             *db,
            const CroMigration  *to,
            int                  version,
            GError             **error)
{
  if (!cro_journal_disarm (db, error))
    return FALSE;
  for (int i = version; i < to->version; i++)
    if (!take_step (db, &to->steps[i], error))
      return FALSE;
  return cro_remake_tables (db, to, version, error);
}

static gboolean
bring_up_to_date (sqlite3             *db,
                  const CroMigration  *to,
                  GError             **error)
{
  g_autofree char *stamp = g_strdup_printf ("PRAGMA application_id = %d; PRAGMA user_version = %d",
                                            CRO_STORE_APPLICATION_ID, to->version);
  int              version;

  if (!cro_migration_get_version (db, &version, error))
    return FALSE;
  if (version >= to->version)
    return TRUE; /* another process was faster */
  if (!(version == 0 ? cro_sql_exec (db, to->schema, error) : take_steps (db, to, version, error)))
    return FALSE;
  return cro_journal_arm (db, error) && check_references (db, error) &&
         cro_sql_exec (db, stamp, error);
}

/* References are off while tables are made anew, and checked as a whole before the commit. */
gboolean
cro_migration_run (sqlite3             *db,
                   const CroMigration  *to,
                   GError             **error)
{
  gboolean done;

  if (!cro_sql_exec (db, "PRAGMA foreign_keys = OFF; BEGIN IMMEDIATE", error))
    return FALSE;
  done = bring_up_to_date (db, to, error) && cro_sql_exec (db, "COMMIT", error);
  if (!done && !sqlite3_get_autocommit (db))
    sqlite3_exec (db, "ROLLBACK", NULL, NULL, NULL);
  sqlite3_exec (db, "PRAGMA foreign_keys = ON", NULL, NULL, NULL);
  return done;
}
