/* cro-round-rows.h: the rows of a round of new prices, each with its field, and the line into which a new
 * pack is typed.
 *
 * Digits fill a price; a first letter begins a search that runs to Enter, which leads to the row that it
 * finds. Enter passes on, from the last row to the new line, from there to what stands behind it. Of a list of
 * thousands a part is shown at a time, that with the focus.
 *
 * Signals    "moved": a row says something else, and figures with it.
 *            "done": Enter in the empty new line. */
#pragma once

#include "cro-bench.h"
#include "cro-round.h"

G_BEGIN_DECLS

#define CRO_TYPE_ROUND_ROWS (cro_round_rows_get_type ())
G_DECLARE_FINAL_TYPE (CroRoundRows, cro_round_rows, CRO, ROUND_ROWS, GtkWidget)

GtkWidget *cro_round_rows_new       (CroBench      *bench);

/* What is said of the row at hand, whole, and what answers it; where nothing is, of the first that waits. It has its
 * room, and is to be put where it is in sight. */
GtkWidget *cro_round_rows_get_asked (CroRoundRows  *self);

/* Tab leads from a row to its answers, and on to the next; FALSE: the focus moves as everywhere. */
gboolean   cro_round_rows_tab       (CroRoundRows  *self,
                                     GtkDirectionType direction);

/* All rows anew. round is borrowed; NULL: none. The focus stays in its row. */
void       cro_round_rows_set_round (CroRoundRows  *self,
                                     CroRound      *round);

/* Rows are made anew beside another copy of the book, maybe more than once, between these two. The row at hand is known
 * again by what it is of: it has the focus again, with what is half typed and the caret where it was. Where the row is
 * there no more the new line has the focus. hold returns NULL where nothing is to be kept, or another keeps it already;
 * take_up takes hand. */
typedef struct _CroRoundHand CroRoundHand;

CroRoundHand *cro_round_rows_hold   (CroRoundRows  *self);
void       cro_round_rows_take_up   (CroRoundRows  *self,
                                     CroRoundHand  *hand);

/* One line for each row, in a low window of large text: what a price comes to, since when the last holds and what is
 * said of the row stand in the room of cro_round_rows_get_asked () while the row has the focus. */
void       cro_round_rows_set_tight (CroRoundRows  *self,
                                     gboolean       is_tight);

/* The rows stay in sight, and know of no round until there is one again. */
void       cro_round_rows_rest      (CroRoundRows  *self);

/* Every row as it is now: rows are the same. */
void       cro_round_rows_refresh   (CroRoundRows  *self);

/* The row with the focus, or that had it last; CRO_NO_SLOT: none, or the new line. */
guint      cro_round_rows_get_row   (CroRoundRows  *self);
void       cro_round_rows_focus     (CroRoundRows  *self,
                                     guint          index);

/* The row with the focus, or the new line, into sight. */
void       cro_round_rows_reveal    (CroRoundRows  *self);

/* Whether whoever answers the row has it before the eyes, or typed it just now. */
gboolean   cro_round_rows_is_seen   (CroRoundRows  *self,
                                     guint          index);

/* Whether the row has the focus; or_left: or had it last. */
gboolean   cro_round_rows_is_at     (CroRoundRows  *self,
                                     guint          index,
                                     gboolean       or_left);

/* The row whose question is shown, where a key answers it: no other is answered by one. CRO_NO_SLOT: none. */
guint      cro_round_rows_find_asked (CroRoundRows *self);

/* The next row behind this one that waits, and from the first on again; CRO_NO_SLOT: none does. */
guint      cro_round_rows_find_waiting (CroRoundRows *self);

G_END_DECLS
