/* cro-past.h: the history in the user's words: who did what, when, and what moved from what to
 * what.
 *
 * The journal keeps columns, millionths and ids; here they become names and numbers of the
 * user's locale.
 *
 * Ownership  Lists own what they hold.
 * Errors     CRO_STORE_ERROR. */
#pragma once

#include "cro-book.h"
#include "cro-ref.h"

G_BEGIN_DECLS

/* One value that moved. */
typedef struct
{
  char *of;       /* "price of Quay Shellfish’s Brown crab", "line of Crab croustade" */
  char *what;     /* "amount"; of what came or went NULL */
  char *from;     /* "–" where nothing was set */
  char *to;
} CroPastMove;

typedef struct
{
  gint64    act;
  char     *label;      /* "amount of butter"; "undo: amount of butter" */
  char     *desk;
  char     *at;         /* day and minute, in the user's time */
} CroPast;

/* The act in words: "undone: amount of butter". Owned. */
char      *cro_past_dup_label  (const CroAct  *act);

/* A moment in UTC, ISO 8601, as day and minute of the user's time. Owned. */
char      *cro_past_dup_time   (const char    *at);

void       cro_past_free       (CroPast       *past);
void       cro_past_move_free  (CroPastMove   *move);

/* Newest first, before an act (0: from the newest). Elements CroPast. With a thing those acts
 * alone that moved its rows: its fields, lines, outputs, packs, prices; then limit is of acts
 * looked at, and *last, which may be NULL, is the last of them: 0 where the history ends. */
GPtrArray *cro_past_list       (CroBook       *book,
                                CroRef         thing,
                                gint64         before,
                                guint          limit,
                                gint64        *last,
                                GError       **error);

/* What an act moved, at most so many. Elements CroPastMove. */
GPtrArray *cro_past_list_moves (CroBook       *book,
                                gint64         act,
                                guint          most,
                                GError       **error);

/* Takes back this desk's own acts after an act, newest first, until one is refused. *n is how
 * many were taken back, also on failure. *conflict, which may be NULL: what is in the way. */
gboolean   cro_past_go_back    (CroBook       *book,
                                gint64         act,
                                guint         *n,
                                CroConflict   *conflict,
                                GError       **error);

/* Why an undo or a redo was refused, as cro_words_error has it: what was changed since, by what, whom and when where
 * conflict says so. Owned. */
char      *cro_past_dup_refused (CroBook       *book,
                                const CroConflict *conflict,
                                const GError  *error);

G_END_DECLS
