/* cro-package-close.h: sheets of a workbook in constant memory, and how it becomes a file that is
 * whole, whoever wrote its rows.
 *
 * Errors     those of the library. */
#pragma once

#include <locale.h>
#include <xlsxwriter.h>

/* NULL where there is no room for its rows. quoted: its name as a formula writes it before a cell. */
lxw_worksheet *cro_package_add_sheet     (lxw_workbook *book,
                                          const char   *name,
                                          const char   *quoted);

/* Frees the book, which was opened to be written to path. */
lxw_error      cro_package_close         (lxw_workbook *book,
                                          const char   *path);

/* Between these the thread prints numbers as files have them. */
locale_t       cro_package_enter_numbers (locale_t     *before);
void           cro_package_leave_numbers (locale_t      plain,
                                          locale_t      before);
