/* cro-consequence-words.h: what a guest who avoids something must know before an act is kept: the
 * allergens that enter or leave plates and menus, or are no longer known. */
#pragma once

#include "cro-model.h"

G_BEGIN_DECLS

/* A sentence a line; elements of all CroConsequence. NULL: nothing changes. Owned. */
char *cro_consequences_allergens (CroModel *model,
                                  GArray   *all);

G_END_DECLS
