/* cro-near-names.h: of some names, those that may have been meant by another, which is none of them.
 *
 * Ownership  What is returned is the caller's; names stay theirs, and outlive what was made of them. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* A text of fewer letters has none that is a slip away from the whole of it: too much would be. */
#define CRO_NEAR_LEAST 5

typedef struct _CroNearNames CroNearNames;

/* names: const char *, NULL where there is none. */
CroNearNames *cro_near_names_new  (const GPtrArray *names);
void          cro_near_names_free (CroNearNames *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroNearNames, cro_near_names_free)

/* Indices of names, guint, best first and no more than most: those that hold all of what text holds (cro_query_match);
 * where none does, those that are one slip away from all of it (cro_fold_is_slip); where none is, those that have words
 * in common with it, a slip in a word or not, and come to a quarter of the best at least (cro-word-index.h). */
GArray       *cro_near_names_find (CroNearNames *self,
                                   const char   *text,
                                   guint         most);

G_END_DECLS
