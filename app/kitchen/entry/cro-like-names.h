/* cro-like-names.h: of some names, those that one which is none of them may have been meant for: what is asked before
 * a second "Oyster" is made.
 *
 * Words count as they do in a word index (cro-word-index.h), in whatever number. Those that only tell kinds of a thing
 * apart, as "white", count nothing; nor do those behind the comma of a name as the trade writes them, "Turnip, white".
 * A name is like a text
 *
 *   if it holds all that the text names, whole or as the beginning of a word: "oysters" is like "Rock oyster", "Quay"
 *   like "Quayside Fish";
 *   or if more than half of what names it stands in the text, and of a text with such a comma something that stands
 *   before it.
 *
 * A stricter rule than that of what is offered while somebody types (cro-near-names.h), as it stops who is right.
 *
 * Ownership  Names are borrowed and outlive what was made of them. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct _CroLikeNames CroLikeNames;

CroLikeNames *cro_like_names_new  (void);
void          cro_like_names_free (CroLikeNames *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroLikeNames, cro_like_names_free)

void          cro_like_names_add  (CroLikeNames *self,
                                   const char   *name);

/* const char *, best first, no more than most. The array is the caller's, its names are borrowed. */
GPtrArray    *cro_like_names_find (CroLikeNames *self,
                                   const char   *text,
                                   guint         most);

G_END_DECLS
