/* cro-below.h: what some plates are made of, through all preparations.
 *
 * Ownership  The figures are borrowed; after they were compiled anew it is of no use. */
#pragma once

#include "cro-figures.h"

G_BEGIN_DECLS

typedef struct _CroBelow CroBelow;

/* Of the plates that are over their target, and those of menus that are. */
CroBelow *cro_below_over_target (CroFigures *figures);

/* Of the plates of one course. */
CroBelow *cro_below_course      (CroFigures *figures,
                                 const char *course);

void      cro_below_free        (CroBelow   *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroBelow, cro_below_free)

/* Whether one of them takes an item, or a recipe's batch; by slot. */
gboolean  cro_below_has_item    (CroBelow   *self,
                                 guint32     item);
gboolean  cro_below_has_recipe  (CroBelow   *self,
                                 guint32     recipe);

G_END_DECLS
