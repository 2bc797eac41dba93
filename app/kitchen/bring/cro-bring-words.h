/* cro-bring-words.h: what is understood of a sheet, as people read it. */
#pragma once

#include "cro-bring.h"

G_BEGIN_DECLS

/* What a column holds. Borrowed. */
const char *cro_words_role         (CroRole            role);

/* Why a row is left out: a sentence; NULL: it is not. Owned. */
char       *cro_words_bring_fault  (const CroBrought  *brought,
                                    const CroBringRow *row);

/* What is left of a row that is brought, and why; NULL: nothing is. Owned. */
char       *cro_words_bring_left   (const CroBrought  *brought,
                                    const CroBringRow *row);

/* Whether a name that is new is one of the book's: a question; NULL: none is asked. Owned. */
char       *cro_words_bring_like   (const CroBringRow *row);

/* What a row brings beside its name: "5 kg, 69.00, Quay · last 66.00, +4.5 %" or "240 g into
 * Croustade"; with what is asked of a price. Owned. */
char       *cro_words_bring_row    (CroModel          *model,
                                    const CroBring    *bring,
                                    const CroBringRow *row);

/* What stands in a row that is not used: a title, a sum. NULL: nothing at all. Owned. */
char       *cro_words_bring_unused (const CroBrought  *brought,
                                    const CroBringRow *row);

/* What is understood of a recipe: "makes 12, sold at 14.00", "gives 450 g", and what is not. Owned. */
char       *cro_words_bring_recipe (CroModel             *model,
                                    const CroBringRecipe *recipe);

/* What tells a column: its heading, else its letter and its first cell. Owned. */
char       *cro_words_bring_column (const CroBrought  *brought,
                                    guint              column);

/* "4 new ingredients, 60 prices; 2 rows are left out; column not used: “Origin”". Owned. */
char       *cro_words_bring        (const CroBrought  *brought,
                                    const CroBring    *bring);

/* Of the act: "import of prices.csv". Owned. */
char       *cro_words_bring_act    (const CroBrought  *brought);

G_END_DECLS
