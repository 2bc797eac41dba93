/* cro-input-private.h: a field, by the file that shows it and the one in which it is edited.
 *
 * Of cro-input.c and cro-input-edit.c alone. */
#pragma once

#include "cro-input-doubt.h"
#include "cro-input-note.h"
#include "cro-input-row.h"

G_BEGIN_DECLS

struct _CroInput
{
  GtkWidget    parent_instance;

  GtkWidget   *box;
  GtkWidget   *entry;
  CroInputNote note;
  GtkWidget   *meant;       /* a button that sets what a slip was meant for; NULL: none as yet */

  CroInputType type;
  CroInputRow  row;
  CroInputRead read;        /* NULL: as its kind has it */
  CroInputDoubt doubt;
  CroInputTell tell;        /* NULL: nothing */
  CroInputShow show;        /* NULL: nothing */
  CroInputWaits waits;      /* NULL: nothing that is refused */
  CroInputAsks asks;        /* NULL: of nothing */
  GtkWidget   *next;        /* weak; NULL: what Tab leads to */

  char        *kept;        /* the text of what was stored when editing began */
  guint64      edition;     /* of the book, when it was read; 0: it was not */
  guint64      refused;     /* the edition in which what is typed was refused; 0: it was not */
  gboolean     is_edited;
  gboolean     is_held;     /* leaving keeps nothing: a window shows what keeping it would change */
  gboolean     is_keeping;  /* the act may take the focus away, and leaving keeps too */
  gboolean     is_setting;  /* its text changes by its own hand */
};

/* By the field's own hand: nothing is typed. */
void cro_input_set_text (CroInput   *self,
                         const char *text);

/* What is typed, and keys and the focus, from now on. */
void cro_input_watch    (CroInput   *self);

G_END_DECLS
