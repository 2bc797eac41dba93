/* cro-office-moves.h: how prices moved since a day as a spreadsheet: ingredients, plates and menus whose
 * cost that changes, categories. */
#pragma once

#include "cro-book.h"

G_BEGIN_DECLS

/* The file is the same bytes in every locale and whenever it is written. On failure what stood at path
 * stands there: CRO_STORE_ERROR, CRO_WORKBOOK_ERROR or G_FILE_ERROR. */
gboolean cro_office_write_moves (CroBook      *book,
                                 CroDate       since,
                                 const char   *path,
                                 const char   *language,
                                 GError      **error);

G_END_DECLS
