/* cro-verify-private.h: what the parts of verifying a book share: who is told of what they find. */
#pragma once

#include "cro-finding.h"
#include "cro-store-private.h"

G_BEGIN_DECLS

typedef struct
{
  CroStore       *store;
  CroFindingTold  found;
  gpointer        user_data;
  guint           n_missing;  /* tables, indexes, triggers */
  guint           n_strange;  /* and what is not as it should be, or should not be at all */
  guint           n_found;    /* all that was told */
} CroVerify;

/* Of no row. */
void        cro_verify_tell     (CroVerify      *self,
                                 const char     *format,
                                 ...) G_GNUC_PRINTF (2, 3);

/* The table and the id that a row of a finding begins with. */
#define CRO_VERIFY_ROW(stmt) (const char *) sqlite3_column_text (stmt, 0), sqlite3_column_int64 (stmt, 1)

/* what may be NULL. */
void        cro_verify_tell_row (CroVerify      *self,
                                 CroFindingKind  kind,
                                 const char     *table,
                                 gint64          row,
                                 const char     *what,
                                 const char     *format,
                                 ...) G_GNUC_PRINTF (6, 7);

typedef void (*CroVerifyTold) (CroVerify    *self,
                               sqlite3_stmt *stmt);

/* Calls told for each row of sql; what it is told is borrowed. */
gboolean    cro_verify_each     (CroVerify      *self,
                                 const char     *sql,
                                 CroVerifyTold   told,
                                 GError        **error);

/* "" where it is NULL. Borrowed. */
const char *cro_verify_text     (sqlite3_stmt   *stmt,
                                 int             column);

/* What the book's own rows must hold: cro-verify-rows.c. */
gboolean    cro_verify_rows     (CroVerify      *self,
                                 GError        **error);

G_END_DECLS
