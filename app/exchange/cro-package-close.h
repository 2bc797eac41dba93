/* cro-package-close.h: sheets of a workbook in constant memory, and how it becomes a file that is
 * whole, whoever wrote its rows.
 *
 * Errors     What the system says of a file is a G_FILE_ERROR; CRO_WORKBOOK_ERROR_SYSTEM else. The message
 *            says why. */
#pragma once

#include <glib.h>
#include <locale.h>
#include <xlsxwriter.h>

/* NULL where there is no room for its rows. quoted: its name as a formula writes it before a cell. */
lxw_worksheet *cro_package_add_sheet     (lxw_workbook *book,
                                          const char   *name,
                                          const char   *quoted);

/* Writes the book to path, and frees it. */
gboolean       cro_package_close         (lxw_workbook *book,
                                          const char   *path,
                                          GError      **error);

/* Between these the thread prints numbers as files have them. */
locale_t       cro_package_enter_numbers (locale_t     *before);
void           cro_package_leave_numbers (locale_t      plain,
                                          locale_t      before);
