/* cro-input.h: a field that shows one column of one row, and changes it.
 *
 * Typing previews: every figure shows what would be. Enter, or leaving the field, keeps it as
 * one act; Escape gives back what was. A wrong entry stays, with the reason over it, and
 * nothing is blocked. A question about what is kept leaves a sign in the field, and comes back
 * with the focus and F2, which leads to its answer too. None of it moves anything. While it is
 * edited, a change made elsewhere does not touch its text, and what is typed can be asked for
 * (cro-typed.h) under the field "table.id.column".
 *
 * Units      Columns …_micro hold millionths; a percentage shows 62.5 for 62500000. */
#pragma once

#include <gtk/gtk.h>

#include "cro-input-kind.h"

G_BEGIN_DECLS

#define CRO_TYPE_INPUT (cro_input_get_type ())
G_DECLARE_FINAL_TYPE (CroInput, cro_input, CRO, INPUT, GtkWidget)

/* Another way than one column of one row: a price that begins on the book's date, a name that
 * two rows bear. A member that is NULL goes the way of the column. cell is what was typed. */
typedef struct
{
  char     *(*dup_text) (CroInput *self, gpointer owner);
  gboolean  (*preview)  (CroInput *self, const CroCell *cell, gpointer owner, GError **error);
  gboolean  (*keep)     (CroInput *self, const CroCell *cell, gpointer owner, GError **error);
  gboolean    shows_previews;   /* what is typed elsewhere moves its text */
  void      (*look)     (CroInput *self, gpointer owner);   /* ahead of keys: what they will ask */
} CroInputWay;

/* The preview of a way on which no figure hangs, a name's for instance. */
gboolean    cro_input_preview_nothing (CroInput *self,
                                const CroCell *cell,
                                gpointer      owner,
                                GError      **error);

/* range: what the column holds; name: its accessible name. */
GtkWidget  *cro_input_new      (CroInputKind   kind,
                                CroRange       range,
                                const char    *name);

/* The row and column that it shows: if they are others than before, what is typed is given up.
 * act: the label of its acts, as undo shows it ("price of brown
 * crab"); placeholder: what stands there when nothing is set, may be NULL. */
void        cro_input_bind     (CroInput      *self,
                                CroBook       *book,
                                const char    *table,
                                gint64         id,
                                const char    *column,
                                const char    *act,
                                const char    *placeholder);

/* way is borrowed. The field does not hold its owner, and goes without it: once that is disposed
 * of, it shows nothing and keeps nothing. May be NULL. */
void        cro_input_set_way  (CroInput            *self,
                                const CroInputWay   *way,
                                gpointer             owner);

/* Where Enter leads once the field is kept; without it to what Tab would lead to. Not held. */
void        cro_input_lead_to  (CroInput      *self,
                                GtkWidget     *next);

/* What text says, in *cell, and in *understood where it could say another thing; returns why it
 * says nothing, or NULL. Both texts are owned by who asks. */
typedef char *(*CroInputRead) (CroInput *self, const char *text, CroCell *cell, char **understood,
                               gpointer owner);

/* For a text that the kind of the field does not tell how to read; owner is that of the way. */
void        cro_input_set_read (CroInput            *self,
                                CroInputRead         read);

/* What is asked about the value that is kept, over the field: owned, or NULL. owner is that of the
 * way. */
typedef char *(*CroInputAsk) (CroInput *self, gpointer owner);

void        cro_input_set_ask  (CroInput            *self,
                                CroInputAsk          ask);

/* That it hangs on more than the field's own text: it is asked again whenever the book is another. */
void        cro_input_ask_always (CroInput          *self);

/* What keeping the value that is typed would change, over the field while it is typed: owned, or NULL.
 * owner is that of the way. */
typedef char *(*CroInputTell) (CroInput *self, const CroCell *cell, gpointer owner);

void        cro_input_set_tell (CroInput            *self,
                                CroInputTell         tell);

/* All of what keeping the value that is typed would change, in a window of its own: asked for by F2, or by
 * the mark in the field that stands there while the way tells something. */
typedef void  (*CroInputShow) (CroInput *self, const CroCell *cell, gpointer owner);

void        cro_input_set_show (CroInput            *self,
                                CroInputShow         show);

/* While such a window has the focus: leaving the field keeps nothing of what is typed. */
void        cro_input_hold     (CroInput            *self,
                                gboolean             is_held);

/* Whether what was refused may stay typed until other fields make it right: its owner then says what
 * is wanting, and tries again (cro_input_keep). */
typedef gboolean (*CroInputWaits) (const GError *error);

void        cro_input_set_waits (CroInput           *self,
                                CroInputWaits        waits);

/* Whether keeping the value that is typed is more than a value, such as the merge of two things that it names:
 * Enter alone does it, and leaving the field gives it up. owner is that of the way. */
typedef gboolean (*CroInputAsks) (CroInput *self, const CroCell *cell, gpointer owner);

void        cro_input_set_asks  (CroInput            *self,
                                CroInputAsks         asks);

/* The unit that its number is in: another of the same kind may be typed, and is converted. */
void        cro_input_set_unit (CroInput            *self,
                                CroUnit              unit);

/* The row, column and label that cro_input_bind gave. */
CroBook    *cro_input_get_book (CroInput      *self);
const char *cro_input_get_table (CroInput     *self);
gint64      cro_input_get_id   (CroInput      *self);
const char *cro_input_get_column (CroInput    *self);
const char *cro_input_get_act  (CroInput      *self);

/* Another label for its acts, as the thing is called otherwise. */
void        cro_input_set_act  (CroInput      *self,
                                const char    *act);
void        cro_input_set_name (CroInput      *self,
                                const char    *name);
void        cro_input_set_placeholder (CroInput *self,
                                const char    *placeholder);

/* Shows the value of the row anew. While it is edited its text stays, and what the value has
 * become elsewhere is said over it. */
void        cro_input_refresh  (CroInput      *self);

void        cro_input_set_width (CroInput     *self,
                                 int           chars);

/* Of words: so much of them is read where there is little room, in characters. */
void        cro_input_set_least (CroInput     *self,
                                 int           chars);

/* One of a column of numbers that have their units in the text: its width, and the space behind
 * the text that leaves decimal points under each other, in pixels. */
void        cro_input_set_column (CroInput    *self,
                                  int          width,
                                  int          behind);

/* Not at it, where another field beside it shows the same value otherwise: what a trial changed of it. */
void        cro_input_hide_old (CroInput      *self);

/* A box of buttons that answer what is asked about the value, in sight while they do: it stands below the question. */
void        cro_input_put_answer (CroInput    *self,
                                  GtkWidget   *answer);

const char *cro_input_get_text (CroInput      *self);

gboolean    cro_input_is_edited (CroInput     *self);

/* Whether it is edited, and another text than what is kept. */
gboolean    cro_input_is_other (CroInput      *self);

/* Keeps, or gives up, what is typed; nothing where nothing is. */
void        cro_input_keep     (CroInput      *self);
void        cro_input_drop     (CroInput      *self);

/* What is typed and not kept, of a field of numbers. FALSE: nothing, or nothing that can be read. */
gboolean    cro_input_read     (CroInput      *self,
                                CroCell       *cell);

/* Of a field of words, such as a name: what is selected is so no more, and the caret stands at its end. */
void        cro_input_unselect_words (CroInput *self);

/* Whether anything stands in it. */
gboolean    cro_input_is_set   (CroInput      *self);

G_END_DECLS
