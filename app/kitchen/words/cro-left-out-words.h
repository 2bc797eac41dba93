/* cro-left-out-words.h: what of a damaged book was not saved, in sentences. */
#pragma once

#include "cro-salvage.h"

G_BEGIN_DECLS

/* One row, value or stretch of rows, as "lines: Crab bisque, 3: item: …". Owned. */
char     *cro_words_left_out       (const CroLeftOut  *left);

/* How many rows were saved, how many not, and how many values, in a sentence. Owned. */
char     *cro_words_salvaged       (const CroSalvage  *salvage);

/* What to do where the folder does not load as it is; NULL: it does. Owned. */
char     *cro_words_unloadable     (const CroSalvage  *salvage);

/* Writes all of it into left-out.txt beside the tables, for whoever enters it anew; where nothing was
 * left out, no file. Its name is no table's, so the folder loads as it is. G_FILE_ERROR. */
gboolean  cro_left_out_write       (const CroSalvage  *salvage,
                                    const char        *folder,
                                    GError           **error);

G_END_DECLS
