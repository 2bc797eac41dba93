/* cro-history.h: what was done, by whom, and taking it back.
 *
 * Errors     CRO_STORE_ERROR. On CHANGED the message names the act and the row that stand in
 *            the way, and *conflict (if not NULL) gets them. */
#pragma once

#include "cro-store.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_ACT_DO,
  CRO_ACT_UNDO,
  CRO_ACT_REDO,
} CroActVerb;

typedef struct
{
  gint64      id;
  gint64      of;       /* the act that an undo or a redo is of; 0 for CRO_ACT_DO */
  CroActVerb  verb;
  char       *label;
  char       *desk;
  char       *at;       /* ISO 8601, UTC */
  gint64      undone_by; /* the later act that took it back, and last of all; 0: it stands */
} CroAct;

void      cro_act_free         (CroAct       *act);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroAct, cro_act_free)

typedef struct
{
  gint64      id;
  gint64      act;
  char       *table;
  gint64      row;
  char       *before;   /* JSON by column name; NULL for an inserted row */
  char       *after;    /* NULL for a deleted row; of an update only what moved */
} CroChange;

void      cro_change_free      (CroChange    *change);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroChange, cro_change_free)

typedef struct
{
  gint64 act;           /* the later act that moved the value */
  char  *table;
  gint64 row;
} CroConflict;

void      cro_conflict_clear   (CroConflict  *conflict);

/* Takes back this desk's own last act that still stands. *act_id: the new act. */
gboolean  cro_store_undo       (CroStore     *self,
                                gint64       *act_id,
                                CroConflict  *conflict,
                                GError      **error);

gboolean  cro_store_redo       (CroStore     *self,
                                gint64       *act_id,
                                CroConflict  *conflict,
                                GError      **error);

/* Takes back any act that stands, whoever made it: what was done by undoing it, an undo by
 * redoing what it took back. NOTHING if there is no such act or it is taken back already. */
gboolean  cro_store_undo_act   (CroStore     *self,
                                gint64        act,
                                gint64       *act_id,
                                CroConflict  *conflict,
                                GError      **error);

/* What undo and redo would take, for their labels; NULL if nothing (no error). */
CroAct   *cro_store_peek_undo  (CroStore     *self,
                                GError      **error);
CroAct   *cro_store_peek_redo  (CroStore     *self,
                                GError      **error);

/* NULL without error if there is no such act. */
CroAct   *cro_store_find_act   (CroStore     *self,
                                gint64        act,
                                GError      **error);

/* Newest first; before 0 = from the newest. Elements CroAct. */
GPtrArray *cro_store_list_acts (CroStore     *self,
                                gint64        before,
                                guint         limit,
                                GError      **error);

/* Changes of one act, of one row (newest first), or all after a change id: of these before, and after of an
 * inserted row, are NULL or empty. Elements CroChange. */
GPtrArray *cro_store_list_changes_of_act (CroStore *self, gint64 act, GError **error);
GPtrArray *cro_store_list_changes_of_row (CroStore *self, const char *table, gint64 row,
                                          GError **error);
GPtrArray *cro_store_list_changes_after  (CroStore *self, gint64 change, GError **error);

/* One column of a changed row, each value as text; NULL is not set, or no row. */
typedef struct
{
  char *column;
  char *before;
  char *after;
} CroMoved;

void      cro_moved_free       (CroMoved     *moved);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroMoved, cro_moved_free)

/* What moved in a change, in the order of the row's columns. Elements CroMoved. */
GPtrArray *cro_store_list_moved (CroStore     *self,
                                 gint64        change,
                                 GError      **error);

/* What a row held just after a change, column → text: it may be gone since, and then that is what it
 * held when it went. Nothing of that column: not set, or never there. NULL on failure. The caller's to
 * unref. */
GHashTable *cro_store_read_row_at (CroStore   *self,
                                   const char *table,
                                   gint64      row,
                                   gint64      change,
                                   GError    **error);

/* The id of the newest change, 0 in a new book. A fill writes no changes but raises it by one
 * through a row of table "*", so that other desks know to load anew. */
gint64    cro_store_last_change (CroStore    *self);

/* Whether a row holds in each column what the journal tells last of it; of what came with a fill, or is in no
 * journal, nothing is told, and it is believed. FALSE with error. */
gboolean  cro_store_is_told    (CroStore     *self,
                                const char   *table,
                                gint64        row,
                                gboolean     *is_told,
                                GError      **error);

/* Whether those rows of a table that name another in column are told so, each of them, and stand where the journal
 * says that they do. FALSE with error. */
gboolean  cro_store_are_told   (CroStore     *self,
                                const char   *table,
                                const char   *column,
                                gint64        named,
                                gboolean     *are_told,
                                GError      **error);

/* Told of each row of a table that the journal tells and not to be gone: what it tells last of those columns, as texts;
 * NULL of what is not told, or not set. */
typedef void (*CroStoreTold)   (gint64              row,
                                const char *const  *texts,
                                gpointer            user_data);

/* columns: NULL-terminated, a few. FALSE with error. */
gboolean  cro_store_each_told  (CroStore           *self,
                                const char         *table,
                                const char *const  *columns,
                                CroStoreTold        told,
                                gpointer            user_data,
                                GError            **error);

/* Within an act, but no change of it, as what was written past the journal is in none: a row, and those of
 * rows_table that name it in column, are again what the journal tells of them. One that names it and of
 * which nothing is told goes; of the row itself there stays what is not told and its column may hold.
 * rows_table NULL: the row alone. */
gboolean  cro_store_put_back   (CroStore     *self,
                                const char   *table,
                                gint64        row,
                                const char   *rows_table,
                                const char   *column,
                                GError      **error);

/* The local day of the first act, ISO 8601; NULL without error in a book without any. What was
 * done before 04:00 belongs to the day before, and days rise from act to act. */
char     *cro_store_dup_first_day (CroStore  *self,
                                   GError   **error);

/* The book as it stood at the end of a day: a copy in memory, with the history until then, that
 * is only read: an act in it is refused as PAST. BEFORE if the day is before the first act's.
 * Not within an act. */
CroStore *cro_store_open_past  (CroStore     *self,
                                const char   *day,
                                GError      **error);

/* The book as it stood when a month was closed last, by its row: such a copy, whatever was done after. Of a
 * month that came closed with all tables of a book, as it stood then. */
CroStore *cro_store_open_closed (CroStore    *self,
                                 gint64       month,
                                 GError     **error);

/* Recipes as they stood at the end of a day, at prices as they stand now: such a copy without the
 * records of sales, stock and services, in which purchase prices, rates, dated selling prices,
 * suppliers and the settings of the book but its tax are those of now. An act that was taken back
 * never was; of items that were merged since the one that remains is taken; what is gone since
 * keeps its prices. BEFORE as above. */
CroStore *cro_store_open_recipes (CroStore    *self,
                                  const char  *day,
                                  GError     **error);

/* The first local day after one (ISO 8601, as are both) on which a plate was given a line, or a menu
 * a plate; NULL without error if there is none. Owned. */
char     *cro_store_dup_day_of_lines (CroStore    *self,
                                      gint64       thing,
                                      const char  *after,
                                      GError     **error);

/* The book as it stands now: a copy in memory in which anything may be tried. It has its own desk,
 * so that undo goes no further back than the trial; nothing in it reaches the file, and nothing
 * that is done to the file reaches it. Not within an act. */
CroStore *cro_store_open_trial (CroStore     *self,
                                GError      **error);

G_END_DECLS
