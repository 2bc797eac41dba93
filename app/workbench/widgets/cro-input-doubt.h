/* cro-input-doubt.h: what is asked about a value that a field keeps all the same: it may be a slip.
 *
 * Of the files of cro-input.h alone.
 *
 * Ownership  It owns its texts; what dup_… returns is owned by who asks. */
#pragma once

#include "cro-doubt.h"
#include "cro-input-row.h"

G_BEGIN_DECLS

typedef struct
{
  CroInputAsk  ask;        /* of the field's way; NULL: nothing */
  gboolean     is_of_more; /* than the text */
  char        *asked_of;   /* the text that question is about */
  char        *question;   /* NULL: none */
} CroInputDoubt;

void        cro_input_doubt_clear (CroInputDoubt      *self);

/* What the way asks about a text that is kept; NULL: nothing. Borrowed, until the next. */
const char *cro_input_doubt_ask   (CroInputDoubt      *self,
                                   const CroInputRow  *row,
                                   CroInput           *input,
                                   const char         *kept);

/* What a per cent or a density of that size asks, in millionths, and in *doubt; NULL: nothing. */
char       *cro_input_doubt_dup   (const CroInputRow  *row,
                                   const CroInputType *type,
                                   gint64              micro,
                                   CroDoubt           *doubt);

G_END_DECLS
