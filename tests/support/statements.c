#include "support/statements.h"

#include <sqlite3.h>

static gint n_statements;

static int
run_cb (unsigned  kind,
        void     *user_data,
        void     *statement,
        void     *sql)
{
  g_atomic_int_inc (&n_statements);
  return 0;
}

static int
watch_cb (sqlite3                           *db,
          char                             **message,
          const struct sqlite3_api_routines *api)
{
  return sqlite3_trace_v2 (db, SQLITE_TRACE_STMT, run_cb, NULL);
}

void
cro_test_statements_watch (void)
{
  sqlite3_auto_extension ((void (*) (void)) watch_cb);
}

guint
cro_test_statements (void)
{
  return (guint) g_atomic_int_get (&n_statements);
}
