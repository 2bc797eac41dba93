/* cro-store.h: the book as one SQLite file, its acts and its history.
 *
 * Rows are addressed by table and column name (schema.sql) and by id. Nothing here knows how
 * a figure is computed.
 *
 * Units      Columns named …_micro hold millionths; dates are ISO 8601 text.
 * Ownership  A store is used by one thread at a time. Text handed out by rows is borrowed and
 *            valid until the next step. Cells handed in are read during the call only.
 * Errors     CRO_STORE_ERROR; see the enumeration. The message is for a log: the sentence a
 *            user reads is made from the code where gettext is. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define CRO_STORE_ERROR (cro_store_error_quark ())

typedef enum
{
  CRO_STORE_ERROR_EXISTS,     /* create: something is there already */
  CRO_STORE_ERROR_GONE,       /* no such file or folder, or moved or replaced while open */
  CRO_STORE_ERROR_NOT_A_BOOK, /* not SQLite, or another program's database */
  CRO_STORE_ERROR_FOLDER,     /* a folder stands where the file should be */
  CRO_STORE_ERROR_NEWER,      /* written by a newer version of this program */
  CRO_STORE_ERROR_OLDER,      /* by an older one, and it may only be read (cro_store_open goes on from there) */
  CRO_STORE_ERROR_DAMAGED,    /* truncated, corrupt, or a row that no book can have */
  CRO_STORE_ERROR_ALTERED,    /* its tables or triggers are not as this program makes them */
  CRO_STORE_ERROR_LOG,        /* create: the log of a book that is gone lies there */
  CRO_STORE_ERROR_LOCKED,     /* another process holds it beyond the time-out */
  CRO_STORE_ERROR_READ_ONLY,  /* file or folder cannot be written */
  CRO_STORE_ERROR_SYSTEM,     /* disk full, I/O, permission, memory */
  CRO_STORE_ERROR_RULE,       /* the schema refuses the value: check, unique, reference */
  CRO_STORE_ERROR_NO_ACT,     /* a write outside an act */
  CRO_STORE_ERROR_CHANGED,    /* undo, redo: a value it would give back has changed since */
  CRO_STORE_ERROR_NOTHING,    /* undo, redo: there is nothing to undo or redo */
  CRO_STORE_ERROR_CLOSED,     /* undo, redo: a month is closed that it would change; the month */
  CRO_STORE_ERROR_REOPENED,   /* undo, redo: of a closing or reopening of a month that is open; the month */
  CRO_STORE_ERROR_NO_ROWS,    /* undo: the act kept no rows (it filled an empty book) */
  CRO_STORE_ERROR_BEFORE,     /* a past before the first act; the message is that act's day */
  CRO_STORE_ERROR_PAST,       /* the book as it stood is only read */
} CroStoreErrorCode;

GQuark cro_store_error_quark (void);

typedef struct _CroStore CroStore;

typedef enum
{
  CRO_STORE_READ,
  CRO_STORE_WRITE,
  CRO_STORE_INSPECT,    /* for cro_store_verify alone: whatever its schema may be */
} CroStoreMode;

/* desk names who writes ("name on machine"), and may be NULL where nobody does; undo takes a
 * desk's own last act. */
CroStore   *cro_store_create       (const char   *path,
                                    const char   *desk,
                                    GError      **error);

/* The same in two steps, for a book that is filled first: until it is finished it has no name that
 * anybody finds, and if it is closed before that nothing of it is left. */
CroStore   *cro_store_create_unfinished (const char *path,
                                    const char   *desk,
                                    GError      **error);

/* Closes the book, whether it succeeds or not. EXISTS if its place was taken meanwhile. */
gboolean    cro_store_finish       (CroStore     *self,
                                    GError      **error);

/* Brings an older schema up to date first, to read it too, with a backup beside the file:
 * NAME-before-vN.croustade, N being the version it is brought to, or with "-2" and so on behind it where
 * something has that name. READ_ONLY where nothing may be written;
 * INSPECT leaves it as it is. */
CroStore   *cro_store_open         (const char   *path,
                                    const char   *desk,
                                    CroStoreMode  mode,
                                    GError      **error);

void        cro_store_close        (CroStore     *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroStore, cro_store_close)

const char *cro_store_get_path     (CroStore     *self);

/* Whether the file is on a file system whose locks cannot be trusted (NFS, SMB, …). */
gboolean    cro_store_is_on_network (const char  *path);

/* Whether another connection has committed an act since the last call. */
gboolean    cro_store_poll         (CroStore     *self,
                                    gboolean     *changed,
                                    GError      **error);

/* SQLite's integrity and foreign-key checks; each finding is passed to found. */
typedef void (*CroStoreFound) (const char *finding, gpointer user_data);

gboolean    cro_store_verify       (CroStore      *self,
                                    CroStoreFound  found,
                                    gpointer       user_data,
                                    GError       **error);

/* Folds the log into the file, as far as no reader holds it back, and empties it once all of it is there. */
gboolean    cro_store_checkpoint   (CroStore     *self,
                                    GError      **error);

/* To be called now and then, twice a second at least: folds the log into the file half a second
 * after whoever wrote into it, so that a copy of the file alone lacks the last second at most. */
void        cro_store_tend         (CroStore     *self);

gboolean    cro_store_backup       (CroStore     *self,
                                    const char   *path,
                                    GError      **error);

/* Between these two all that is read is of one moment, whatever other connections commit
 * meanwhile. They nest, and within an act they have no effect: an act is such a moment. */
gboolean    cro_store_begin_read   (CroStore     *self,
                                    GError      **error);
void        cro_store_end_read     (CroStore     *self);

/* --- Cells and rows ------------------------------------------------------------------- */

typedef enum
{
  CRO_CELL_NULL,
  CRO_CELL_INTEGER,
  CRO_CELL_TEXT,
} CroCellKind;

typedef struct
{
  CroCellKind kind;
  gint64      integer;
  const char *text;
} CroCell;

#define CRO_CELL_NONE ((CroCell){ .kind = CRO_CELL_NULL })
#define CRO_CELL_INT(value) ((CroCell){ .kind = CRO_CELL_INTEGER, .integer = (value) })
#define CRO_CELL_STR(value) \
  ((CroCell){ .kind = (value) != NULL ? CRO_CELL_TEXT : CRO_CELL_NULL, .text = (value) })

typedef struct _CroRows CroRows;

/* Rows of a table by rising id. columns is NULL-terminated. */
CroRows    *cro_store_read         (CroStore           *self,
                                    const char         *table,
                                    const char *const  *columns,
                                    GError            **error);

/* As cro_store_read, of one row. */
CroRows    *cro_store_read_one     (CroStore           *self,
                                    const char         *table,
                                    gint64              id,
                                    const char *const  *columns,
                                    GError            **error);

/* Rows that name another row in a column, by rising id. */
CroRows    *cro_store_read_of      (CroStore           *self,
                                    const char         *table,
                                    const char         *column,
                                    gint64              named,
                                    const char *const  *columns,
                                    GError            **error);

/* The same of a day, ISO 8601: of a table with a column `date`. */
CroRows    *cro_store_read_of_day  (CroStore           *self,
                                    const char         *table,
                                    const char         *column,
                                    gint64              named,
                                    const char         *day,
                                    const char *const  *columns,
                                    GError            **error);

/* The newest price on or before date of every offer that has one, by offer; or of one offer
 * where that is not 0. Columns: offer, id, from_date, price_micro, tax_included_pct_micro,
 * pack_count_micro, pack_size_micro, pack_unit. */
CroRows    *cro_store_read_prices  (CroStore           *self,
                                    const char         *date,
                                    gint64              offer,
                                    GError            **error);

/* The ids of prices up to date that came with an invoice: made in an act that also made purchases, all of
 * one document. */
CroRows    *cro_store_read_billed_prices (CroStore     *self,
                                          const char   *date,
                                          GError      **error);

/* Offers and taxes of prices with tax in them, by date, of the year up to date. */
CroRows    *cro_store_read_taxed_prices (CroStore      *self,
                                         const char    *date,
                                         GError       **error);

/* The newest row on or before date, with a price, of an offer: columns as above, and the day of the
 * next row on or before date, NULL where there is none. */
CroRows    *cro_store_read_last_price (CroStore        *self,
                                       const char      *date,
                                       gint64           offer,
                                       GError         **error);

/* The newest selling price on or before date of every plate and menu that has one: thing, id,
 * price_micro, tax_pct_micro. */
CroRows    *cro_store_read_selling_prices (CroStore    *self,
                                           const char  *date,
                                           GError     **error);

/* The newest rate on or before date of every currency: currency, from_date, rate_micro,
 * per_micro. */
CroRows    *cro_store_read_rates   (CroStore           *self,
                                    const char         *date,
                                    GError            **error);

/* FALSE at the end, and on failure with error set: DAMAGED where a value is not of its column's
 * type, one is missing, or a text of the row before is not UTF-8. */
gboolean    cro_rows_next          (CroRows            *rows,
                                    GError            **error);
gboolean    cro_rows_is_null       (CroRows            *rows,
                                    int                 column);
gboolean    cro_rows_is_text       (CroRows            *rows,
                                    int                 column);
gint64      cro_rows_get_int       (CroRows            *rows,
                                    int                 column);
/* Borrowed until the next step; NULL for a column that is not set. Always UTF-8: U+FFFD where
 * the file holds something else. */
const char *cro_rows_get_text      (CroRows            *rows,
                                    int                 column);
/* n columns from the one first on; texts as cro_rows_get_text gives them. */
void        cro_rows_get_cells     (CroRows            *rows,
                                    int                 first,
                                    int                 n,
                                    CroCell            *cells);
void        cro_rows_free          (CroRows            *rows);

/* Says that the value of a column is none that a book can have. Always FALSE. */
gboolean    cro_rows_is_damaged    (CroRows            *rows,
                                    int                 column,
                                    GError            **error);

/* rows stands at one row; what it gives is borrowed until the function returns. FALSE, with the
 * error set, ends the reading. */
typedef gboolean (*CroStoreRow)    (CroRows            *rows,
                                    gpointer            user_data,
                                    GError            **error);

/* As cro_store_read, faster where it is many: row is called for each. */
gboolean    cro_store_read_each    (CroStore           *self,
                                    const char         *table,
                                    const char *const  *columns,
                                    CroStoreRow         row,
                                    gpointer            user_data,
                                    GError            **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroRows, cro_rows_free)

/* --- Pictures ---------------------------------------------------------------------------- */

/* Bytes that a picture may have. */
#define CRO_STORE_MOST_PICTURE (20 << 20)

/* A JPEG or PNG file of a plate or a preparation, whose name is the SHA-256 (FIPS 180-4) of its bytes in
 * small hexadecimal digits, with ".jpg" or ".png" behind. Within an act; what is there already stays.
 * DAMAGED where the name is another's. */
gboolean    cro_store_keep_picture (CroStore   *self,
                                    const char *name,
                                    GBytes     *data,
                                    GError    **error);

/* Its bytes, which are those that its name says, and so the name is one of a file without a folder;
 * DAMAGED: there is none such. */
GBytes     *cro_store_read_picture (CroStore   *self,
                                    const char *name,
                                    GError    **error);

/* --- Acts ------------------------------------------------------------------------------ */

/* Opens an act (BEGIN IMMEDIATE). Everything written until cro_store_end_act is one
 * transaction and one entry of the history. */
gboolean    cro_store_begin_act    (CroStore     *self,
                                    const char   *label,
                                    GError      **error);

/* Opens the act that fills an empty book: rows are not journalled one by one, secondary
 * indexes are made anew at the end. RULE if the book holds anything. */
gboolean    cro_store_begin_fill   (CroStore     *self,
                                    const char   *label,
                                    GError      **error);

/* Commits, checking references; *act_id may be NULL. An act that changed nothing leaves no
 * entry and gives 0. On failure the act is still open. */
gboolean    cro_store_end_act      (CroStore     *self,
                                    gint64       *act_id,
                                    GError      **error);

void        cro_store_cancel_act   (CroStore     *self);

/* The number of the act now open; 0: none. */
gint64      cro_store_get_open_act (CroStore  *self);

/* Asked before an act is committed, an undo's and a redo's too, when all its rows are written:
 * FALSE, with the error set, refuses it. */
typedef gboolean (*CroStoreCheck)  (gpointer      user_data,
                                    GError      **error);

void        cro_store_set_check    (CroStore     *self,
                                    CroStoreCheck check,
                                    gpointer      user_data);

typedef struct _CroWriter CroWriter;

/* Inserts rows of one table; columns is NULL-terminated and may name "id". */
CroWriter  *cro_writer_new         (CroStore           *self,
                                    const char         *table,
                                    const char *const  *columns,
                                    GError            **error);
/* One cell per column; *id may be NULL. */
gboolean    cro_writer_insert      (CroWriter          *writer,
                                    const CroCell      *cells,
                                    gint64             *id,
                                    GError            **error);

#define CRO_WRITER_BLOCK 32

/* Inserts so many rows at once, which is faster than one by one: all of them or none. Their cells
 * stand row by row; ids, one for each, may be NULL and has to be where the columns name it. */
gboolean    cro_writer_insert_block (CroWriter         *writer,
                                     const CroCell     *cells,
                                     gint64            *ids,
                                     GError           **error);
void        cro_writer_free        (CroWriter          *writer);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroWriter, cro_writer_free)

gboolean    cro_store_update       (CroStore           *self,
                                    const char         *table,
                                    gint64              id,
                                    const char *const  *columns,
                                    const CroCell      *cells,
                                    GError            **error);

gboolean    cro_store_delete       (CroStore           *self,
                                    const char         *table,
                                    gint64              id,
                                    GError            **error);

G_END_DECLS
