/* cro-sheet-name.h: names that a spreadsheet program takes for its sheets.
 *
 * At most 31 UTF-16 units, none of []:*?/\#' or control characters, not "History", and no two
 * the same but for case. (Office Open XML leaves this to programs; these are the limits that they
 * share.) */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct _CroSheetNames CroSheetNames;

CroSheetNames *cro_sheet_names_new  (void);
void           cro_sheet_names_free (CroSheetNames *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroSheetNames, cro_sheet_names_free)

/* A legal name near to wanted that was not given before; "(2)" and so on where it was. Borrowed
 * from the names. */
const char    *cro_sheet_names_take (CroSheetNames *self,
                                     const char    *wanted);

/* As a formula writes it before a cell: 'Crab croustade'! Owned. */
char          *cro_sheet_name_quote (const char    *name);

G_END_DECLS
