/* cro-office-service.h: the sheets of a service as a spreadsheet, to be printed: what to make, with
 * what each batch takes and gives, then an order for each supplier, then what is missing. */
#pragma once

#include "cro-plan-words.h"

G_BEGIN_DECLS

/* language as cro_office_write_month takes it. The file is the same bytes in every locale and whenever it
 * is written. On failure what stood at path stands there: CRO_WORKBOOK_ERROR or G_FILE_ERROR. */
gboolean cro_office_write_service (const CroServiceSheet *sheet,
                                   const char            *path,
                                   const char            *language,
                                   GError               **error);

G_END_DECLS
