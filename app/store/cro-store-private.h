/* cro-store-private.h: what the files of the store share: the connection, its statements, and
 * how SQLite's refusals become CroStoreErrorCode.
 *
 * Ownership  A statement is taken and given back; between the two it is the taker's alone. */
#pragma once

#include "cro-migration.h"
#include "cro-store.h"

#include <sqlite3.h>
#include <time.h>

#include "cro-unfinished.h"
#include "cro-watch.h"

#define CRO_STORE_APPLICATION_ID 0x43726f75 /* "Crou" */
#define CRO_STORE_TIME_OUT_MSEC 5000

/* Tables that no journal is kept of: the journal's own, and pictures, which never change. SQL. */
#define CRO_STORE_OWN_TABLES "'act', 'change', 'picture'"

#define CRO_LAST_ACT "SELECT ifnull (max (id), 0) FROM act"

/* Instructions of SQLite's machine. */
typedef struct
{
  gint64 run;
  gint64 most;
} CroSqlLimit;

struct _CroStore
{
  sqlite3     *db;
  char        *path;         /* absolute */
  char        *desk;
  CroStoreMode mode;
  guint64      device;       /* of the file as it was opened */
  guint64      inode;
  struct timespec modified;  /* when it was opened */
  gboolean     is_immutable; /* opened without locks, as nobody was writing into it */
  CroUnfinished *unfinished; /* the book is in the making: its file; else NULL */
  char        *place;        /* that it will take */
  gint64       unfolded;     /* since when the log holds what the file lacks, monotonic time; or 0 */
  CroSqlLimit  limit;        /* until its schema is trusted */
  gint64       run;          /* instructions of a watch */
  gint64       run_expected;
  int          run_apace;    /* connections that run at the same pace, if more than this one */
  const CroWatch *watch;     /* borrowed; NULL: nobody waits */
  gint64       data_version;
  gint64       last_act;     /* that is known of: this store's own, and another's once it was polled */
  gboolean     is_in_memory; /* a copy: there is no file to look at */
  gboolean     is_past;      /* the book as it stood, a copy that is only read */
  GHashTable  *idle;         /* SQL text, owned by the statement → statement not in use */
  gint64       act;          /* the act now open, or 0 */
  guint        reading;      /* cro_store_begin_read less cro_store_end_read, outside acts */
  CroStoreCheck check;       /* may be NULL */
  gpointer     check_data;
  char       **indexes;      /* SQL that ends a fill; NULL outside one */
  gint64       changes_before; /* sqlite3_total_changes64 when the fill began */
};

G_DEFINE_AUTOPTR_CLEANUP_FUNC (sqlite3, sqlite3_close)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (sqlite3_stmt, sqlite3_finalize)

/* --- cro-sql.c: always FALSE or NULL on failure, with the error set from the connection --- */

gboolean      cro_sql_fail    (sqlite3       *db,
                               GError       **error);

/* From now on what runs longer than limit->most ends with an error; who reads on sets limit->run to 0.
 * limit is borrowed; a progress handler of another takes its place. */
void          cro_sql_limit   (sqlite3       *db,
                               CroSqlLimit   *limit);

/* All pages of a database into another. */
gboolean      cro_sql_copy    (sqlite3       *from,
                               sqlite3       *to,
                               GError       **error);

sqlite3_stmt *cro_sql_prepare (sqlite3       *db,
                               const char    *sql,
                               GError       **error);

gboolean      cro_sql_exec    (sqlite3       *db,
                               const char    *sql,
                               GError       **error);

/* Makes an error of a file one of the store; takes it over. Always FALSE. */
gboolean      cro_sql_fail_file (GError       *file_error,
                                 GError      **error);

/* The one number that sql gives; NULL gives 0. */
gboolean      cro_sql_number  (sqlite3       *db,
                               const char    *sql,
                               gint64        *number,
                               GError       **error);

/* A NULL-terminated array of the one text column that sql gives; parameter may be NULL. */
char        **cro_sql_texts   (sqlite3       *db,
                               const char    *sql,
                               const char    *parameter,
                               GError       **error);

/* Appends name as a quoted identifier. */
void          cro_sql_append_name (GString    *sql,
                                   const char *name);

/* The same of a NULL-terminated array, with commas between; after_each follows each name. */
void          cro_sql_append_names (GString           *sql,
                                    const char *const *names,
                                    const char        *after_each);

void          cro_sql_bind_text   (sqlite3_stmt *stmt,
                                   int           parameter,
                                   const char   *text);

/* What a connection must not do for the sake of a stranger's schema. */
gboolean      cro_sql_harden      (sqlite3       *db,
                                   GError       **error);

/* The same, and the pragmas of a connection, not those of the file. */
gboolean      cro_sql_configure   (sqlite3       *db,
                                   GError       **error);

/* --- cro-store.c ----------------------------------------------------------------------- */

sqlite3_stmt *cro_store_take  (CroStore      *self,
                               const char    *sql,
                               GError       **error);

/* Resets stmt, forgets what was bound, and keeps it for the next cro_store_take. */
void          cro_store_give  (CroStore      *self,
                               sqlite3_stmt  *stmt);

/* What idle is. */
GHashTable   *cro_store_idle_new (void);

/* Takes, steps once and gives back. */
gboolean      cro_store_run   (CroStore      *self,
                               const char    *sql,
                               GError       **error);

/* As cro_store_run, for SQL with one parameter. */
gboolean      cro_store_run_with (CroStore    *self,
                                  const char  *sql,
                                  gint64       parameter,
                                  GError     **error);

gboolean      cro_store_number (CroStore      *self,
                                const char    *sql,
                                gint64        *number,
                                GError       **error);

/* The log holds something from now on. */
void          cro_store_note_written (CroStore *self);

/* GONE if the path no longer leads to the file that was opened. */
gboolean      cro_store_check_there (CroStore  *self,
                                     GError   **error);

/* --- cro-memory-copy.c ----------------------------------------------------------------- */

/* The book as it stands, for reading; without pictures where nobody will see them and they are large. */
CroStore     *cro_store_copy_to_memory (CroStore  *self,
                                        gboolean   with_pictures,
                                        GError   **error);

/* --- cro-rows.c ------------------------------------------------------------------------ */

/* Whether all of a text is UTF-8 and no NUL. */
gboolean      cro_text_is_sound (const char   *text,
                                 int           length);

/* Makes a connection know what cro_store_read_each needs. */
gboolean      cro_rows_configure (sqlite3      *db,
                                  GError      **error);

/* As cro_store_read_each, of the rows of ids from one to another. */
gboolean      cro_store_read_each_of (CroStore           *self,
                                      const char         *table,
                                      const char *const  *columns,
                                      gint64              from,
                                      gint64              to,
                                      CroStoreRow         row,
                                      gpointer            user_data,
                                      GError            **error);

/* --- cro-open.c ------------------------------------------------------------------------ */

/* Another connection to the file that self has open, which only reads. Whether its tables are those of
 * a book is still to be asked. */
CroStore     *cro_store_open_twin (CroStore            *self,
                                   GError             **error);

CroStore     *cro_store_open_with (const char          *path,
                                   const char          *desk,
                                   CroStoreMode         mode,
                                   const CroMigration  *migration,
                                   GError             **error);

/* Whether path leads to an ordinary file that could be a book, damaged or not: GONE, FOLDER, NOT_A_BOOK. */
gboolean      cro_store_check_kind (const char         *path,
                                    GError            **error);

/* RULE for a name that SQLite would take for the log of another book. */
gboolean      cro_store_check_name (const char         *path,
                                    GError            **error);

#define CRO_STORE_NAMED_AS_LOG "its name is that of a log"

/* --- cro-schema-digest.c --------------------------------------------------------------- */

/* SHA-256 over what sqlite_schema says of every table, index, view and trigger. */
char         *cro_schema_digest (sqlite3      *db,
                                 GError      **error);

/* --- cro-backup.c ---------------------------------------------------------------------- */

/* Copies db to path, which appears whole or not at all. */
gboolean      cro_backup_copy (sqlite3        *db,
                               const char     *path,
                               GError        **error);

/* The local day of a moment: what is done before 04:00 belongs to the day before. */
#define CRO_DAY_OF(at) "date (" at ", 'localtime', '-4 hours')"

/* That of a row of act; those of version 1 did not say it. */
#define CRO_ACT_DAY "ifnull (day, " CRO_DAY_OF ("at") ")"

/* --- cro-pictures.c ---------------------------------------------------------------------- */

/* The data in the first column of a row, copied; NULL where they are not those of the name. */
GBytes       *cro_picture_take (sqlite3_stmt   *stmt,
                                const char     *name);

/* --- cro-past-copy.c ------------------------------------------------------------------- */

/* DAMAGED unless all acts can be taken back, one after the other, to before the first. */
gboolean      cro_past_check  (CroStore       *self,
                               GError        **error);

/* --- cro-act.c ------------------------------------------------------------------------- */

/* of is the act taken back or done again, 0 for an act of its own. */
gboolean      cro_act_begin   (CroStore       *self,
                               const char     *label,
                               const char     *verb,
                               gint64          of,
                               GError        **error);

/* Whether rows may be written now. */
gboolean      cro_act_check_open (CroStore    *self,
                                  GError     **error);

/* --- cro-fill.c ------------------------------------------------------------------------ */

/* Makes indexes anew and checks references and rules. On failure the fill goes on. */
gboolean      cro_fill_finish (CroStore       *self,
                               GError        **error);

/* After the commit or the rollback. */
void          cro_fill_leave  (CroStore       *self);

/* --- cro-journal.c: the triggers that write down every change --------------------------- */

/* The journalled tables: all but the journal's own. */
char        **cro_journal_tables  (sqlite3     *db,
                                   GError     **error);

/* The columns of table but for id. */
char        **cro_journal_columns (sqlite3     *db,
                                   const char  *table,
                                   GError     **error);

gboolean      cro_journal_arm     (sqlite3     *db,
                                   GError     **error);

gboolean      cro_journal_disarm  (sqlite3     *db,
                                   GError     **error);
