/* cro-replace.h: a book's tables become those of a folder, row by row.
 *
 * A row that stands in both by its key keeps its id, and only what moved is written: so the
 * history of a thing goes on, and undoing gives back what was. */
#pragma once

#include "cro-sheet-cells.h"

G_BEGIN_DECLS

/* Within an act. What contradicts a closed month, and a table that the book has rows of and the
 * folder lacks, is noted in faults, and then the act is to be cancelled. */
gboolean cro_replace      (CroStore         *store,
                           const CroSheets  *sheets,
                           CroIds           *ids,
                           CroFaults        *faults,
                           GError          **error);

/* Within an act, once all is written: a closed month whose rows are not those that closing froze is noted
 * in faults. */
gboolean cro_replace_verify (CroStore       *store,
                           const CroSheets  *sheets,
                           CroFaults        *faults,
                           GError          **error);

/* The settings of book.csv alone. */
gboolean cro_replace_book (CroStore         *store,
                           const CroSheets  *sheets,
                           GError          **error);

G_END_DECLS
