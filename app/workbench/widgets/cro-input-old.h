/* cro-input-old.h: of a field in a trial, what the book has there.
 *
 * Of cro-input-note.c alone.
 *
 * Ownership  It owns its text; what dup_… returns is owned by who asks. */
#pragma once

#include "cro-input-row.h"

G_BEGIN_DECLS

typedef struct
{
  char     *text;        /* NULL: the same as the trial has */
  guint64   edition;     /* of the trial's book, when it was looked up; 0: it was not */
  gboolean  is_hidden;   /* another field says it */
} CroInputOld;

void  cro_input_old_clear    (CroInputOld       *self);

/* The row is another, or has another column. */
void  cro_input_old_forget   (CroInputOld       *self);

/* What is asked about the value, which may be NULL, and behind it "was 12.00" where the trial changed it. NULL: there
 * is nothing to say. */
char *cro_input_old_dup_note (CroInputOld       *self,
                              const CroInputRow *row,
                              const char        *question);

G_END_DECLS
