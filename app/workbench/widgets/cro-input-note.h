/* cro-input-note.h: what is told beside a field: why what stands there cannot be kept, what is asked about it, what
 * keeping it would change, and what the book has where a trial changed it.
 *
 * Of the files of cro-input.h alone.
 *
 * Ownership  It owns its text; the entry and the label belong to the box that they stand in. */
#pragma once

#include "cro-input-old.h"

G_BEGIN_DECLS

typedef struct
{
  GtkWidget   *entry;
  GtkWidget   *label;
  CroInputOld  old;
  GtkBox      *box;        /* of the entry */
  GtkWidget   *bubble;     /* why it is refused, where no room is kept for that; NULL: nothing was as yet */
  gboolean     is_apart;   /* the label stands in a box with those of others */
  gboolean     has_room;   /* which is kept there */
} CroInputNote;

/* Makes the label, and puts it at the end of box. */
void cro_input_note_init    (CroInputNote      *self,
                             GtkWidget         *entry,
                             GtkBox            *box);
void cro_input_note_clear   (CroInputNote      *self);

/* At the end of another box, with more room than the field has; has_room: it is kept, and what is said there moves
 * nothing. Elsewhere a reason stands in a bubble. */
void cro_input_note_put     (CroInputNote      *self,
                             GtkBox            *box,
                             gboolean           has_room);

/* NULL: nothing. */
void cro_input_note_tell    (CroInputNote      *self,
                             const char        *text);

/* Why what is typed cannot be kept, and the field is marked so; NULL: it can. */
void cro_input_note_refuse  (CroInputNote      *self,
                             const char        *reason);

/* A question stands before what a trial changed: it may be a slip. NULL: there is none. name: of the field. */
void cro_input_note_ask     (CroInputNote      *self,
                             const CroInputRow *row,
                             const char        *name,
                             const char        *question);

/* Keeps the room of the mark that is offered: the field has one width with and without it. */
void cro_input_note_keep_offer (CroInputNote   *self);

/* The mark in the field that opens all of what keeping the value would change. */
void cro_input_note_offer   (CroInputNote      *self,
                             gboolean           is_offered);

G_END_DECLS
