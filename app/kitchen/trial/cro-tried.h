/* cro-tried.h: one thing that was tried in a trial: cells of a row, a line that came or went, or a
 * price, which holds from a date that is said when it is kept.
 *
 * Units      As the columns have them: millionths.
 * Ownership  It owns its texts.
 * Errors     Those of cro-edit.h; CRO_STORE_ERROR_CHANGED where the row is not in the book any more. */
#pragma once

#include "cro-book.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_TRIED_SET,
  CRO_TRIED_ADDED,
  CRO_TRIED_REMOVED,
  CRO_TRIED_PRICE,      /* of an offer, a plate or a menu, on the day of the trial */
  CRO_N_TRIED,
} CroTriedKind;

typedef struct
{
  CroTriedKind kind;
  const char  *table;     /* static */
  gint64       id;        /* of the row in the trial; that of a price, of what it is of */
  gint64       row;       /* the same of a price's row; 0 where it was read from a text */
  GPtrArray   *columns;   /* names; of a row that is removed none */
  GArray      *cells;     /* CroCell, one for each */
} CroTried;

void       cro_tried_free      (CroTried     *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroTried, cro_tried_free)

/* What stands in a trial otherwise than it stood after a change of its journal. Elements CroTried,
 * in the order in which they were tried first. */
GPtrArray *cro_tried_list      (CroBook         *trial,
                                gint64           since,
                                GError         **error);

/* Does it in a book, within an act; from: of a price. */
gboolean   cro_tried_apply     (const CroTried  *self,
                                CroBook         *book,
                                CroDate          from,
                                GError         **error);

/* All of them as one text, owned, and back; NULL where the text is none. */
char      *cro_tried_to_text   (GPtrArray       *tried);
GPtrArray *cro_tried_from_text (const char      *text);

/* Whether one of them asks from when. */
gboolean   cro_tried_is_dated  (GPtrArray       *tried);

G_END_DECLS
