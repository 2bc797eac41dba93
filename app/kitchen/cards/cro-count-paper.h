/* cro-count-paper.h: a count sheet of paper, to be written on in the larder: by place, with room for each
 * amount. What was counted already stands there. */
#pragma once

#include "cro-count-list.h"
#include "cro-paper.h"

G_BEGIN_DECLS

/* rtl: it runs from right to left. Owned by the caller. */
CroPaper *cro_count_paper_new (CroBook             *book,
                               const CroCountList  *list,
                               gboolean             rtl);

G_END_DECLS
