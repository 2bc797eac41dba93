/* cro-finder-entry.h: a field in which a thing of the book is looked for by parts of its name, and
 * chosen: Enter takes the first that fits, Down leads into the list.
 *
 * Signals    "chosen" (kind, slot), "other-chosen" (CroRefKind, slot, view). */
#pragma once

#include <gtk/gtk.h>

#include "cro-book.h"
#include "cro-ref.h"

G_BEGIN_DECLS

#define CRO_TYPE_FINDER_ENTRY (cro_finder_entry_get_type ())
G_DECLARE_FINAL_TYPE (CroFinderEntry, cro_finder_entry, CRO, FINDER_ENTRY, GtkWidget)

/* kinds: bits 1 << CroKind. */
GtkWidget *cro_finder_entry_new (const char      *name,
                                 const char      *placeholder,
                                 guint            kinds);

/* What is no thing of the book, and is looked for with them. */
typedef struct
{
  char       *name;       /* owned */
  char       *folded;     /* as it is looked for (cro-fold.h); owned */
  const char *kind;       /* the word for what it is; borrowed */
  CroRef      ref;
  guint       view;       /* of an overview, by its number; 0: as it stands */
} CroFinderOther;

/* All of a book: CroFinderOther. Asked once for an edition of it. Owned; the array frees what it holds. */
typedef GArray *(*CroFinderOthers) (CroBook *book);

void       cro_finder_entry_set_others (CroFinderEntry *self,
                                 CroFinderOthers  list);

/* What it shows as an example of what is typed, instead of the placeholder. */
void       cro_finder_entry_set_example (CroFinderEntry *self,
                                 const char      *text);

/* Of another book; empties it. */
void       cro_finder_entry_put (CroFinderEntry  *self,
                                 CroBook         *book);

/* Another copy of the same book, under what is typed: names are looked for anew. Nothing where no book was put. */
void       cro_finder_entry_renew (CroFinderEntry *self,
                                 CroBook         *book);

/* As Enter does; FALSE: nothing fits what is typed. */
gboolean   cro_finder_entry_choose (CroFinderEntry *self);

/* Where what is looked for is to come in the place of a thing, that is not offered; its slot, which all kinds that
 * are looked for have in common: items, or recipes. */
void       cro_finder_entry_set_without (CroFinderEntry *self,
                                 guint32          slot);

G_END_DECLS
