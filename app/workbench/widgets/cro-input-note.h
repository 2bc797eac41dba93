/* cro-input-note.h: what is told over a field: why what stands there cannot be kept, what is asked about it, what
 * keeping it would change, and what the book has where a trial changed it.
 *
 * None of it moves anything. What is asked about what is kept, and that a trial changed it, leave a sign in the field.
 *
 * Of the files of cro-input.h alone.
 *
 * Ownership  It owns its text and the sign; the entry and the bubble belong to the box that they stand in. */
#pragma once

#include "cro-bubble.h"
#include "cro-input-old.h"

G_BEGIN_DECLS

typedef struct
{
  GtkWidget   *entry;
  GtkWidget   *box;        /* of the entry */
  CroBubble   *bubble;     /* NULL: nothing was told as yet */
  GtkWidget   *sign;       /* likewise */
  CroInputOld  old;
  gboolean     is_fresh;   /* something was typed there, of which a question may come later */
} CroInputNote;

void cro_input_note_init    (CroInputNote      *self,
                             GtkWidget         *entry,
                             GtkWidget         *box);
void cro_input_note_clear   (CroInputNote      *self);

/* The row is another, or has another column. */
void cro_input_note_forget  (CroInputNote      *self);

/* Puts the sign, if there is one, into a field of that size. */
void cro_input_note_place_sign (const CroInputNote *self,
                             int                width,
                             int                height);

/* NULL: nothing. At once where the focus is there, whose keys it names; else it comes with the focus. */
void cro_input_note_tell    (CroInputNote      *self,
                             const char        *text);

/* Why what is typed cannot be kept, and the field is marked so; NULL: it can, and what is said of it is what is asked
 * or told next. */
void cro_input_note_refuse  (CroInputNote      *self,
                             const char        *reason);

/* A question stands before what a trial changed: it may be a slip. NULL: there is none. is_typed: it is about what is
 * not kept as yet. */
void cro_input_note_ask     (CroInputNote      *self,
                             const CroInputRow *row,
                             const char        *question,
                             gboolean           is_typed);

/* Whether what is asked is in sight, and has an answer. */
gboolean cro_input_note_is_asking (const CroInputNote *self);

/* Brings up what is said, and leads to its answer; closes it. FALSE: there was none. */
gboolean cro_input_note_enter   (CroInputNote      *self);
gboolean cro_input_note_close   (CroInputNote      *self);

/* A box of buttons that answer what is asked. */
void cro_input_note_put_answer (CroInputNote   *self,
                             GtkWidget         *answer);

/* Keeps the room of the mark that is offered: the field has one width with and without it. */
void cro_input_note_keep_offer (CroInputNote   *self);

/* The mark in the field that opens all of what keeping the value would change. */
void cro_input_note_offer   (CroInputNote      *self,
                             gboolean           is_offered);

G_END_DECLS
