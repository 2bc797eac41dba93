/* cro-frozen-gone.h: months that were closed, and are not so in the file any more: whoever removes the row of one, or
 * gives it another name, leaves what closing froze, whose days tell the month, and what the journal tells of it. */
#pragma once

#include "cro-frozen-hash.h"

G_BEGIN_DECLS

typedef struct _CroFrozenGone CroFrozenGone;

CroFrozenGone *cro_frozen_gone_new  (void);
void           cro_frozen_gone_free (CroFrozenGone   *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroFrozenGone, cro_frozen_gone_free)

/* Each frozen row is to be told: the id that it has of its month, its kind and its date; NULL: none. */
void           cro_frozen_gone_add  (CroFrozenGone   *self,
                                     gint64           month,
                                     const char      *kind,
                                     const char      *date);

/* Whether frozen rows of that kind are of a day of their month. */
gboolean       cro_frozen_gone_is_dated (const char  *kind);

/* Once. Told of each such month, in no order. FALSE with error. */
gboolean       cro_frozen_gone_find (CroFrozenGone   *self,
                                     CroStore        *store,
                                     CroFrozenFound   found,
                                     gpointer         user_data,
                                     GError         **error);

G_END_DECLS
