/* cro-finder.h: finds what a book holds by what is typed of its name.
 *
 * Every name is read at every look-up: a plain scan over folded copies needs no index that
 * could miss accents, short words or the middle of one. The copies are kept up when the book
 * changes: what is new, renamed or gone is told by its name's pointer.
 *
 * Ownership  A book owns its finder: whoever looks for something shares the copies. */
#pragma once

#include "cro-book.h"
#include "cro-fold.h"
#include "cro-kind.h"

G_BEGIN_DECLS

typedef struct _CroFinder CroFinder;

typedef struct
{
  CroKind  kind;
  guint32  slot;
  CroMatch score;
} CroFound;

/* Made when it is first asked for; borrowed. */
CroFinder *cro_finder_of   (CroBook    *book);

/* The best of what fits text, at most so many: whole names, then those whose words begin with
 * the words typed, then those that hold them; equals by name. kinds is a set of bits
 * 1 << CroKind. Elements CroFound; empty where text holds no word. */
GArray    *cro_finder_find (CroFinder  *self,
                            const char *text,
                            guint       kinds,
                            guint       most);

/* The same; where nothing fits, what is one slip away from the whole of text (cro_fold_is_slip), unless that is shorter
 * than CRO_NEAR_LEAST letters. */
GArray    *cro_finder_find_near (CroFinder  *self,
                            const char *text,
                            guint       kinds,
                            guint       most);

/* The names that are near (cro-near-names.h), words in common included. The first time after the book changed, or for
 * other kinds, all names are read anew. */
GArray    *cro_finder_find_like (CroFinder  *self,
                            const char *text,
                            guint       kinds,
                            guint       most);

G_END_DECLS
