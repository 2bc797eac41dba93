/* cro-sheet-pictures.h: pictures that stand beside a folder's tables, in its folder "pictures".
 *
 * A plate's or a preparation's row says the name of a file there. What is kept of the file
 * (cro-photo.h) has a name of its own, which takes that one's place in the sheets. */
#pragma once

#include "cro-sheets-private.h"
#include "cro-store.h"

G_BEGIN_DECLS

#define CRO_SHEET_PICTURES "pictures"

/* The column of a table in which names of pictures stand; -1: it has none. */
int      cro_sheet_picture_column (CroTableId        id);

/* What is wrong with a file that could not be read or taken (cro_plain_file_read, cro_photo_take). */
CroFaultKind cro_sheet_picture_fault (const GError  *error);

/* Once all tables are read. FALSE: cancelled. */
gboolean cro_sheet_read_pictures  (CroSheetReader   *reader,
                                   const char       *folder);

/* Within an act. */
gboolean cro_sheet_keep_pictures  (CroStore         *store,
                                   const CroSheets  *sheets,
                                   GError          **error);

G_END_DECLS
