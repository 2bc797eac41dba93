/* cro-office.h: an open book as the office's spreadsheet.
 *
 * What cro-workbook.h asks for, from the model and its figures as they stand: the prices and
 * rates of the book's date. */
#pragma once

#include "cro-month.h"
#include "cro-workbook.h"

G_BEGIN_DECLS

/* Asked now and then with the part that is done, from 0 to 1; FALSE cancels. */
typedef gboolean (*CroOfficeGoOn) (gpointer user_data,
                                   double   done);

/* With the sheets of a month before the model, where anything is recorded in it; a month that is closed is written
 * from the book as it stood when it was closed, and is the same file ever after. The book's date is
 * cro_office_day (first). accounts: of cro_journal_accounts, or NULL. *written, which may be NULL, is the month, or
 * NULL where nothing is recorded: to be freed.
 *
 * language: of its words, a code for which cro_catalogue_has is TRUE; NULL and "en" are the source's.
 * Another one is read through the environment (cro-tongue.h). The file says that it was made when
 * the month of the book's date began: it is the same in every locale, for every user and whenever
 * it is written. What others committed is taken in first, which ends a preview. On failure what stood at path stands
 * there: CRO_WORKBOOK_ERROR, G_FILE_ERROR, or what reading the book may give. */
gboolean           cro_office_write_month (CroBook      *book,
                                          CroDate        first,
                                          GHashTable    *accounts,
                                          const char    *path,
                                          const char    *language,
                                          CroOfficeGoOn  go_on,
                                          gpointer       user_data,
                                          CroMonth     **written,
                                          GError       **error);

/* The day of a month's prices: its last, or today while it runs. */
CroDate            cro_office_day        (CroDate        first);

/* The words of a workbook in this thread's language, CRO_N_WORKBOOK_TEXTS of them. Owned, the words
 * are not. */
const char       **cro_office_dup_texts  (CroModel *model);

G_END_DECLS
